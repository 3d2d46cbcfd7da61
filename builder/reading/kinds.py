"""The kinds of file whose keys are declared, by the name that people call them."""

from __future__ import annotations

from collections.abc import KeysView
from pathlib import PurePosixPath

from builder.reading.declared.declaring import Record, keys_of
from builder.reading.dishes.foods import WrittenFood
from builder.reading.dishes.recipes import WrittenRecipe
from builder.reading.drying.batches import WrittenBatch
from builder.reading.drying.home import WrittenHome
from builder.reading.gear.gear_files import GearFile
from builder.reading.text.yaml_door import Node
from builder.reading.texts import WrittenCaution, WrittenSource
from builder.reading.trips.trips import WrittenTrip
from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of file: what one record of it holds, and where such files lie."""

    name: str
    record: type[Record]
    room: str  # of a content folder, as in `files.ROOMS`
    may_be_list: bool  # one file may hold many

    @property
    def schema_name(self) -> str:
        """Give the name of its JSON Schema."""
        return f"{self.name}.schema.json"

    @property
    def files(self) -> tuple[str, ...]:
        """Give patterns of its files inside a content folder."""
        return (self.room,) if self.room.endswith(".yaml") else (f"{self.room}/**/*.yaml",)


KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        Kind("food", WrittenFood, "foods", may_be_list=True),
        Kind("batch", WrittenBatch, "batches", may_be_list=True),
        Kind("recipe", WrittenRecipe, "recipes", may_be_list=True),
        Kind("gear", GearFile, "gear", may_be_list=False),
        Kind("trip", WrittenTrip, "trips", may_be_list=False),
        Kind("home", WrittenHome, "home.yaml", may_be_list=False),
        Kind("caution", WrittenCaution, "cautions", may_be_list=True),
        Kind("source", WrittenSource, "sources.yaml", may_be_list=True),
    )
}


def kind_of_file(path: str) -> Kind | None:
    """Give the kind of a YAML file by its path in a content folder; None where there is none."""
    whole = PurePosixPath(path)
    found = (kind for kind in KINDS.values() if kind.room == whole.parts[0])
    return next(found, None) if whole.suffix == ".yaml" else None


_HALF, _NEARLY_ALL = 0.5, 0.8


def kind_meant(node: Node, room: str) -> Kind | None:
    """Give the kind that a file of a room is by its keys; None where it may well be the room's."""
    first = next(iter(node.items), node) if node.is_list else node
    keys = first.entries.keys()
    if not keys:
        return None
    own = next(kind for kind in KINDS.values() if kind.room == room)
    if _share_known(keys, own) > _HALF:
        return None
    best = max(KINDS.values(), key=lambda kind: _share_known(keys, kind))
    return best if best is not own and _share_known(keys, best) >= _NEARLY_ALL else None


def _share_known(keys: KeysView[str], kind: Kind) -> float:
    return len(keys & keys_of(kind.record).keys()) / len(keys)
