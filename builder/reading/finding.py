"""Finds the ids of records that match a word."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from builder.model.content import Content


@dataclass(frozen=True, slots=True)
class Found:
    """A record that matches."""

    kind: str
    id: str
    name: str

    def data(self) -> dict[str, str]:
        """Give it for a script."""
        return {"kind": self.kind, "id": self.id, "name": self.name}


def find_ids(content: Content, word: str, batch_names: Mapping[str, str]) -> list[Found]:
    """Give the records whose id or name holds every part of the word.

    A batch is known by `batch_names`, what its food is called now, and by what went in.
    """
    gear = content.gear
    rooms: dict[str, Mapping[str, Any]] = {
        "food": content.foods,
        "recipe": content.recipes,
        "batch": content.batches,
        "stove": gear.stoves,
        "fuel": gear.fuels,
        "pot": gear.pots,
        "iron": gear.irons,
        "packaging": gear.packaging,
        "dryer": gear.dryers,
        "trip": content.trips,
    }
    parts = word.lower().replace("-", " ").split()
    found: list[Found] = []
    for kind, records in rooms.items():
        for name, record in sorted(records.items()):
            listed = _name_of(record)
            shown = batch_names.get(name, listed) if kind == "batch" else listed
            text = f"{name} {listed} {shown}".lower().replace("-", " ")
            if parts and all(part in text for part in parts):
                found.append(Found(kind, name, shown))
    return found


def _name_of(record: Any) -> str:
    for field in ("name", "title"):
        if hasattr(record, field):
            return str(getattr(record, field))
    # A batch has no name of its own.
    return f"{record.holds}, {record.method}"
