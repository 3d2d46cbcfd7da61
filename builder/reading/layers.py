"""Content folders that lie over one another: which of their files are read, what keeps one out."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import TypeAlias

from builder.model.place import Place
from builder.problems import Problem, errors, nearest, printable
from builder.reading.beside import Beside
from builder.reading.declared.declaring import title_of
from builder.reading.declared.values import cannot_be_file
from builder.reading.files import (
    ENDINGS,
    ROOMS,
    TABLE,
    files_of_room,
    is_file,
    read_start,
    top_of,
)
from builder.reading.kinds import kind_meant
from builder.reading.notes import Notes, with_article
from builder.reading.text.tables import read_table
from builder.reading.text.yaml_door import Node, decode, read_yaml
from builder.record import dataclass, field

# Whether a file is passed over, by the number of its layer, its path in there, as it is shown, and
# its text.
But: TypeAlias = Callable[[int, str, str, str], bool]


@dataclass(frozen=True, slots=True)
class Layer:
    """One folder, the rooms of it that are read, and how its path is shown to people."""

    folder: Path
    shown: str
    rooms: tuple[str, ...] = ROOMS
    # Files not written yet, by their path in there: they are read as if they were.
    unwritten: Mapping[str, bytes] = field(default_factory=dict)
    vouched: bool = (
        False  # it is ours: each of its foods, cautions, sources is read when it is named
    )


@dataclass(frozen=True, slots=True)
class ReadFile:
    """A file of a layer, and what stands in it."""

    path: str
    shown: str
    text: str
    node: Node


class LayeredFiles:
    """Reads the files of all layers, room by room, and notes what cannot be read."""

    def __init__(self, layers: Iterable[Layer], problems: Notes) -> None:
        """Begin with nothing read; what is amiss goes to the problems."""
        self.layers = list(layers)
        self.problems = problems
        self.unread: set[str] = set()  # rooms with a file or record whose ids nobody can tell

    def of_room(self, room: str, but: But | None = None) -> Iterable[tuple[int, ReadFile]]:
        """Read the files of one room in all layers, in a stable order; `but` passes some over."""
        for number, layer in enumerate(self.layers):
            for path in self._paths(layer, room) if room in layer.rooms else ():
                told = len(self.problems)
                decoded = self._decoded(layer, path)
                if decoded and but and but(number, *decoded):
                    continue
                file = self._file(layer, path, *decoded) if decoded else None
                if file is not None and self._is_of_its_room(file, room):
                    yield number, file
                elif errors(self.problems[told:]):
                    self.unread.add(room)

    def _paths(self, layer: Layer, room: str) -> list[Path]:
        unreadable: list[OSError] = []
        found = []
        paths = files_of_room(layer.folder, room, unreadable)
        new = [
            layer.folder / name
            for name in layer.unwritten
            # What lies beside a record, such as a track or a picture, is none itself.
            if name.split("/")[0] == room and Path(name).suffix.lower() in (*ENDINGS, TABLE)
        ]
        for path in sorted({*paths, *new}):
            if path.suffix in (".yaml", TABLE):
                found.append(path)
                says = cannot_be_file(path.stem)
                if room != "trips" and says:  # a trip's name is its id
                    relative = path.relative_to(layer.folder).as_posix()
                    self._warn(layer, relative, says, "give it another name")
            else:
                says = f"this file is not read: its name ends in {path.suffix}"
                ending = TABLE if path.suffix.lower() == TABLE else ".yaml"
                mend = f"call it {printable(path.stem)}{ending}"
                self._warn(layer, path.relative_to(layer.folder).as_posix(), says, mend)
        for error in unreadable:
            self._unreadable(layer, Path(str(error.filename)), "folder", error)
        return found

    def _unreadable(self, layer: Layer, path: Path, what: str, error: OSError) -> None:
        relative = path.relative_to(layer.folder).as_posix()
        says = f"this {what} cannot be read ({error.strerror})"
        mend = f"check the {what} and its permissions"
        place = Place(printable(f"{layer.shown}/{relative}"), 1, 1)
        self.problems.append(Problem(place, "file", says, mend))

    def misnamed(self) -> None:
        """Warn of what lies beside the rooms of the top layer under almost the same name."""
        layer = self.layers[-1]
        rooms = [name.removesuffix(".yaml") for name in ROOMS]
        for path in top_of(layer.folder):
            is_room_file = path.suffix.lower() in ENDINGS and is_file(path)
            if not is_room_file and not os.path.isdir(path):
                continue  # before words are compared, which takes a library that is slow to load
            if room := nearest(path.stem.lower(), rooms):
                if f"{room}.yaml" in ROOMS and is_room_file:
                    self._warn(layer, path.name, "this file is not read", f"call it {room}.yaml")
                elif is_room_file:
                    says, mend = "this file is not read here", f"move it into {room}/"
                    self._warn(layer, path.name, says, mend)
                elif f"{room}.yaml" not in ROOMS:
                    says, mend = "this folder is not read", f"call it {room}"
                    self._warn(layer, path.name, says, mend)

    def _warn(self, layer: Layer, path: str, says: str, mend: str) -> None:
        """Note a file that is passed over, as a warning."""
        place = Place(printable(f"{layer.shown}/{path}"), 1, 1)
        self.problems.append(Problem(place, "file-name", says, mend, "warning"))

    def _decoded(self, layer: Layer, path: Path) -> tuple[str, str, str] | None:
        """Give a file's path in the folder, as people are shown it, and its text."""
        relative = path.relative_to(layer.folder).as_posix()
        shown = printable(f"{layer.shown}/{relative}")
        try:
            raw = layer.unwritten[relative] if relative in layer.unwritten else read_start(path)
        except OSError as error:
            self._unreadable(layer, path, "file", error)
            return None
        text, problems = decode(raw, shown)
        self.problems += problems
        return None if problems else (relative, shown, text)

    def _file(
        self, layer: Layer, path: Path, relative: str, shown: str, text: str
    ) -> ReadFile | None:
        read = read_table if path.suffix == TABLE else read_yaml
        node, problems = read(text, shown)
        self.problems += problems
        if node is None or node.value is None:
            if not problems:
                self._warn(layer, relative, "this file is empty", "write a record, or delete it")
            return None
        return ReadFile(relative, shown, text, node)

    def _is_of_its_room(self, file: ReadFile, room: str) -> bool:
        """Tell whether a file stands where its kind is read; note where it does not."""
        meant = kind_meant(file.node, room)
        if meant is None:
            return True
        says = f"these are the keys of {with_article(title_of(meant.record))}, and not read here"
        is_one_file = meant.room.endswith(".yaml")
        mend = f"move it {f'out, as {meant.room}' if is_one_file else f'into {meant.room}/'}"
        self.problems.append(Problem(Place(file.shown, 1, 1), "wrong-room", says, mend))
        self.unread.add(meant.room)
        return False

    def beside(self, layer: int, file: ReadFile) -> Beside:
        """Give what lies beside a file."""
        of = self.layers[layer]
        return Beside(of.folder, of.unwritten, file.path)
