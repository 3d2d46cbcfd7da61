"""Files that a record names, such as a track or a picture: each lies beside what names it."""

from __future__ import annotations

import os
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path

from builder.model.place import Places
from builder.problems import Problem
from builder.reading.files import is_file
from builder.reading.text.yaml_door import quoted


def amiss_beside(
    content: Path,
    unwritten: Collection[str],
    file: str,
    named: dict[str, str | None],
    places: Places,
) -> Iterator[Problem]:
    """Tell of each file that is not there, or does not lie in the content folder.

    `file` is the record's own by its path in there, `named` what it names by the key.
    """
    holder = (content / file).parent
    # Beside `trips/tarrow-tops.yaml` lies what is its own in `trips/tarrow-tops/` too.
    around = (holder, holder / Path(file).stem)
    for key, name in named.items():
        if not name:
            continue
        place = places.of(key)
        if not all(_is_inside(content, each / name) for each in around):
            says = f"{key}: {quoted(name)} lies outside the content folder"
            mend = f"put the file beside this one, and write `{key}: {Path(name).name}`"
            yield Problem(place, "file-outside", says, mend)
        elif not any(_is_there(content, unwritten, each / name) for each in around):
            says = f"{key}: there is no file {quoted(name)} beside this one"
            mend = f"put it into {Path(file).parent.as_posix()}/, or leave `{key}` out"
            yield Problem(place, "file-missing", says, mend, "warning")


def beside(
    content: Path, unwritten: Mapping[str, bytes], file: str, name: str, most: int
) -> bytes | None:
    """Give the bytes of a file that a record names, one more than the most of a larger one."""
    holder = (content / file).parent
    for path in (holder / name, holder / Path(file).stem / name):
        told = Path(os.path.relpath(os.path.normpath(path), content)).as_posix()
        if told in unwritten:
            return unwritten[told]
        if _is_inside(content, path) and path.is_file():
            with path.open("rb") as opened:
                return opened.read(most + 1)
    return None


def _is_inside(content: Path, path: Path) -> bool:
    """Tell whether a path leads into a folder, wherever links on its way point."""
    try:
        return Path(os.path.realpath(path)).is_relative_to(os.path.realpath(content))
    except (OSError, ValueError):
        return False


def _is_there(content: Path, unwritten: Collection[str], path: Path) -> bool:
    told = os.path.relpath(os.path.normpath(path), content)
    return Path(told).as_posix() in unwritten or is_file(path)
