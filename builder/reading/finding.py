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


def find_ids(content: Content, word: str) -> list[Found]:
    """Give the records whose id or name holds every part of the word, best first in each kind."""
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
            shown = _name_of(record)
            text = f"{name} {shown}".lower().replace("-", " ")
            if parts and all(part in text for part in parts):
                found.append(Found(kind, name, shown))
    return found


def _name_of(record: Any) -> str:
    for field in ("name", "title"):
        if hasattr(record, field):
            return str(getattr(record, field))
    # A batch has no name of its own: it is known by what it holds.
    return f"{record.holds}, {record.method}"
