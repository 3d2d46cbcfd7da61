"""Files that a record names, such as a track or a picture: each lies beside what names it."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from pathlib import Path

from builder.model.place import Place
from builder.problems import Problem
from builder.reading.files import is_file
from builder.reading.text.yaml_door import quoted
from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class Beside:
    """What lies beside one file of a content folder."""

    content: Path
    unwritten: Mapping[str, bytes]  # files not written yet, by their path in the folder
    file: str  # by its path in there

    def amiss(self, key: str, told_as: str, name: str, place: Place) -> Problem | None:
        """Tell that a file is not there, or does not lie in the content folder.

        `key` is what names it, `told_as` how it would be written if it lay there.
        """
        if not all(_is_inside(self.content, each) for each in self._around(name)):
            says = f"{key}: {quoted(name)} lies outside the content folder"
            mend = f"put the file beside this one, and write `{told_as}`"
            return Problem(place, "file-outside", says, mend)
        if not any(self._is_there(each) for each in self._around(name)):
            says = f"{key}: there is no file {quoted(name)} beside this one"
            mend = f"put it into {Path(self.file).parent.as_posix()}/, or leave `{key}` out"
            return Problem(place, "file-missing", says, mend, "warning")
        return None

    def start_of(self, name: str, most: int) -> bytes:
        """Give the bytes of a file, one more than the most of a larger one; none where it is not.

        Raises OSError where it cannot be read.
        """
        for path in self._around(name):
            told = self._in_folder(path)
            if told in self.unwritten:
                return self.unwritten[told]
            if _is_inside(self.content, path) and path.is_file():
                with path.open("rb") as opened:
                    return opened.read(most + 1)
        return b""

    def _around(self, name: str) -> Iterator[Path]:
        """Give where it may lie: beside `trips/tarrow-tops.yaml`, in `trips/tarrow-tops/` first."""
        holder = (self.content / self.file).parent
        for path in (holder / Path(self.file).stem / name, holder / name):
            yield Path(os.path.normpath(path))  # `..` also leads out of a folder that is not there

    def _in_folder(self, path: Path) -> str:
        return Path(os.path.relpath(os.path.normpath(path), self.content)).as_posix()

    def _is_there(self, path: Path) -> bool:
        return self._in_folder(path) in self.unwritten or is_file(path)


@dataclass(frozen=True, slots=True)
class NamedFile:
    """A file that a record names, still to be read."""

    beside: Beside
    name: str
    most: int  # bytes; a larger one is none

    def data(self) -> bytes:
        """Give its bytes; none where it is not there, cannot be read, or is too large."""
        try:
            found = self.beside.start_of(self.name, self.most)
        except OSError:
            return b""
        return found if len(found) <= self.most else b""


def _is_inside(content: Path, path: Path) -> bool:
    """Tell whether a path leads into a folder, wherever links on its way point."""
    try:
        return Path(os.path.realpath(path)).is_relative_to(os.path.realpath(content))
    except (OSError, ValueError):
        return False
