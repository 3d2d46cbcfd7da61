"""Which files of a content folder are read, and what they hold; no other file is opened."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable
from pathlib import Path

ROOMS = (
    "sources.yaml", "cautions", "gear", "foods", "recipes", "batches", "home.yaml", "trips",
)  # fmt: skip
ENDINGS = (".yaml", ".yml")  # of these only the first is read; the other is told to be misnamed
TABLE = ".csv"  # a table: the log may be written as one
ROOMS_OF_TABLES = ("batches",)
TRACK = ".gpx"  # beside a trip that names it
PICTURES = (".jpg", ".jpeg", ".png", ".webp")  # beside what names them
ROOMS_OF_PICTURES = ("recipes", "batches", "trips")
LARGEST_BYTES = 2_000_000


def files_of_room(folder: Path, room: str, unreadable: list[OSError]) -> list[Path]:
    """Give the files of a room in a stable order; folders that cannot be listed are noted."""
    place = folder / room
    endings = (*ENDINGS, TABLE) if room in ROOMS_OF_TABLES else ENDINGS
    if room.endswith(".yaml"):
        return [place] if is_file(place) else []

    def note(error: OSError) -> None:
        if not isinstance(error, (FileNotFoundError, NotADirectoryError)):
            unreadable.append(error)

    found = []
    for at, below, names in os.walk(place, onerror=note):
        inside = Path(at).relative_to(place).parts
        below[:] = [each for each in below if not each.startswith(".")]
        if room == "trips" and inside:
            below.clear()  # beside a trip lie whatever files its writer likes
            names = [each for each in names if Path(each).stem == "trip"]
        paths = [Path(at, each) for each in names if not each.startswith(".")]
        found += [path for path in paths if path.suffix.lower() in endings and is_file(path)]
    return sorted(found)


def is_file(path: Path) -> bool:
    """Tell whether a path is a file, or something of which reading will tell what is wrong."""
    try:
        return path.is_file()
    except OSError:
        return True


def read_start(path: Path) -> bytes:
    """Give a file's bytes, and of one that is too large only enough to tell that it is."""
    with path.open("rb") as file:
        return file.read(LARGEST_BYTES + 1)


def state_of_content(folder: Path, rooms: Iterable[str]) -> dict[str, bytes]:
    """Give all that reading a folder depends on: each file by its path in there, as a hash."""
    rooms = tuple(rooms)
    state: dict[str, bytes] = {}
    unreadable: list[OSError] = []
    for room in rooms:
        for path in files_of_room(folder, room, unreadable):
            state[path.relative_to(folder).as_posix()] = _hash_of(path)
    for path in sorted((folder / "trips").rglob(f"*{TRACK}")) if "trips" in rooms else ():
        state[path.relative_to(folder).as_posix()] = _hash_of(path)
    for room in ROOMS_OF_PICTURES:
        for path in sorted((folder / room).rglob("*")) if room in rooms else ():
            if path.suffix.lower() in PICTURES:
                state[path.relative_to(folder).as_posix()] = _stamp_of(path)
    for error in unreadable:
        state[f"unreadable {os.path.relpath(str(error.filename), folder)}"] = b""
    # What lies beside the rooms may be told to be misnamed.
    for path in top_of(folder):
        state[f"beside {path.name}"] = b"folder" if os.path.isdir(path) else b"file"
    return state


def top_of(folder: Path) -> list[Path]:
    """Give what lies beside the rooms of a folder and looks as if it were to be read."""
    try:
        found = sorted(folder.iterdir())
    except OSError:
        return []  # the command said so, or there is nothing to read
    return [
        path
        for path in found
        if path.name not in ROOMS
        and not path.name.startswith(".")
        and (path.suffix.lower() in ENDINGS or os.path.isdir(path))
    ]


def _stamp_of(path: Path) -> bytes:
    """Give size and time of a picture: there may be many large ones that nothing names."""
    try:
        stat = path.stat()
    except OSError as error:
        return f"unreadable: {error.errno}".encode("ascii")
    return f"{stat.st_size} {stat.st_mtime_ns}".encode("ascii")


def _hash_of(path: Path) -> bytes:
    """Give the hash of what is read of a file; one that cannot be read is told by its reader."""
    try:
        return hashlib.sha256(read_start(path)).digest()
    except OSError as error:
        return f"unreadable: {error.errno}".encode("ascii")
