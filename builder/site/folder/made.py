"""What the tool made in a folder of kits: which names there are its own, and are they whole?

Of each kit `.built/<trip>.json` tells what it was made from, and every file of it with its hash.
What is not told there is somebody else's: it is never renamed, emptied or written over.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import stat
import time
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from builder.record import dataclass
from builder.site.errors import SiteError
from builder.site.folder.memory import as_text, told_in, write_down

OWN_FOLDER = ".built"
# Its being there tells that the folder is the tool's; what it says is for whoever looks inside.
MARK_NAME = "trip-kits.txt"
MARK_TEXT = (
    "Here tripkit builds kits and remembers which files beside this folder it made.\n"
    "Without it, it takes them for yours and builds none over them.\n"
)
# Systems put these into each folder that somebody looks at.
LITTER = (".ds_store", "thumbs.db", "desktop.ini")
BEGINNING_BYTES = 64
MOST_SHOWN = 20
SETTLED_NS = 2_000_000_000


@dataclass(frozen=True, slots=True)
class Made:
    """What is remembered of one kit."""

    made_from: str
    files: Mapping[str, str]  # SHA-256 by path inside the kit
    zip_sha256: str
    zip_bytes: int
    zip_begins: str  # its first bytes, in hex: a zip that was cut off is still known by them


def claim(out: Path) -> Path:
    """Give the tool's own folder in a folder of kits, made where it is not there yet."""
    own = out / OWN_FOLDER
    if not is_ours(own):
        out.mkdir(parents=True, exist_ok=True)
        own.mkdir(exist_ok=True)
        # Over what is there, as it is the same: two builds may begin at once.
        opened = os.open(own / MARK_NAME, os.O_WRONLY | os.O_CREAT, 0o666)
        with os.fdopen(opened, "w", encoding="utf-8") as mark:
            mark.write(MARK_TEXT)
    return own


def is_ours(own: Path) -> bool:
    """Tell whether the tool's own folder is there; one of somebody else's is refused."""
    if not os.path.lexists(own):
        return False
    names = os.listdir(own) if own.is_dir() and not own.is_symlink() else ["no folder"]
    if names and MARK_NAME not in names:
        raise refused([own])
    return bool(names)  # an empty one was just made, or left by a build that was killed right then


def record(out: Path, trip_id: str) -> Path:
    """File that tells what was made."""
    return out / OWN_FOLDER / f"{trip_id}.json"


def made_of(out: Path, trip_id: str) -> Made | None:
    """Give what is remembered of a kit; None where nothing is, or nothing that can be read."""
    return told_in(record(out, trip_id), Made)


def describe(kit: Path, zipped: Path, made_from: str) -> Made:
    """Give what is to be remembered of a kit and its zip."""
    with zipped.open("rb") as file:
        begins = file.read(BEGINNING_BYTES)
    return Made(
        made_from=made_from,
        files={name: sha256_of(kit / name) for name, _ in sorted(_files(kit))},
        zip_sha256=sha256_of(zipped),
        zip_bytes=zipped.stat().st_size,
        zip_begins=begins.hex(),
    )


def write_made(target: Path, made: Made) -> None:
    """Write down what was made, and see to it that it is on the disk."""
    write_down(target, as_text(made))


def sha256_of(file: Path) -> str:
    """Give the hash of a file, read piece by piece."""
    with file.open("rb") as opened:
        return hashlib.file_digest(opened, "sha256").hexdigest()


def is_whole(out: Path, trip_id: str, made: Made) -> bool:
    """Tell whether a kit and its zip are, byte for byte, what was made.

    Files that were found so before, and that no one has written since, are not read again.
    """
    kit = out / trip_id
    hashes = {kit / name: told for name, told in made.files.items()}
    hashes[out / f"{trip_id}.zip"] = made.zip_sha256
    try:
        if kit.is_symlink():
            return False
        states = [_state_of(file) for file in hashes]
        seen = json.dumps([made.zip_sha256, states])
        if _seen(out, trip_id) == seen:
            return True
        if not all(sha256_of(file) == told for file, told in hashes.items()):
            return False
    except OSError:
        return False
    _look_no_more(out, trip_id, seen, states)
    return True


def _state_of(file: Path) -> tuple[int, int, int]:
    """Give what changes whenever somebody writes a file, also where they put its time back."""
    state = file.lstat()
    if not stat.S_ISREG(state.st_mode):
        raise OSError(f"{file} is no file")
    return state.st_size, state.st_mtime_ns, state.st_ctime_ns


def _seen(out: Path, trip_id: str) -> str:
    """Give in what state the files of a kit were found whole; "" where nobody looked."""
    try:
        return (out / OWN_FOLDER / f"{trip_id}.seen").read_text("utf-8")
    except (OSError, ValueError):
        return ""


def _look_no_more(
    out: Path, trip_id: str, seen: str, states: Sequence[tuple[int, int, int]]
) -> None:
    """Remember in what state the files were found whole.

    Not where one of them was written just now: a clock that ticks slowly would not tell that
    writing from the next. Nor where that cannot be written down: then they are read again.
    """
    newest_ns = max(each for _, *times in states for each in times)
    if time.time_ns() - newest_ns > SETTLED_NS:
        with contextlib.suppress(OSError):
            (out / OWN_FOLDER / f"{trip_id}.seen").write_text(seen, "utf-8")


# -- what is somebody else's ----------------------------------------------------------------------


def refuse_foreign(out: Path, trip_id: str) -> None:
    """Refuse to build where a kit's folder, a file in it, or its zip is somebody else's."""
    refuse_foreign_names(out, [trip_id])
    made = made_of(out, trip_id)
    if made and (found := _strangers(out / trip_id, made.files)):
        raise refused(found)


def refuse_foreign_names(out: Path, trip_ids: Sequence[str]) -> None:
    """Refuse to begin where a kit's folder or zip is somebody else's; all are told at once."""
    found: list[Path] = []
    for trip_id in trip_ids:
        foreign = _foreign_names(out, trip_id)
        told = record(out, trip_id)
        if foreign and told.is_file() and told_in(told, Made) is None:
            raise SiteError(
                f"{told.as_posix()} is damaged or cannot be read, so that nobody can tell whether "
                f"{foreign[0].as_posix()} was made by tripkit",
                [
                    "if there is nothing of yours in it, delete "
                    + " and ".join(path.as_posix() for path in foreign)
                ],
            )
        found += foreign
    if found:
        raise refused(found)


def _foreign_names(out: Path, trip_id: str) -> list[Path]:
    """Give the folder and the zip of a kit's name, as far as the tool did not make them."""
    made = made_of(out, trip_id)
    kit, zipped = out / trip_id, out / f"{trip_id}.zip"
    found = []
    if os.path.lexists(kit) and (made is None or kit.is_symlink() or not kit.is_dir()):
        found.append(kit)
    if os.path.lexists(zipped) and not zip_is_ours(zipped, made):
        found.append(zipped)
    return found


def zip_is_ours(zipped: Path, made: Made | None) -> bool:
    """Tell whether a zip is the one that was made, also where bytes of it are lost or wrong."""
    if made is None or zipped.is_symlink() or not zipped.is_file():
        return False
    if zipped.stat().st_size == made.zip_bytes:
        return True
    with zipped.open("rb") as file:
        return made.zip_begins.startswith(file.read(BEGINNING_BYTES).hex())


def refused(paths: Sequence[Path]) -> SiteError:
    """Say what is in the way."""
    names = [path.as_posix() for path in paths]
    more = f" and {len(names) - 1} more" if len(names) > 1 else ""
    verbs = "are there already and were" if more else "is there already and was"
    shown = names[:MOST_SHOWN] if more else []
    return SiteError(
        f"{names[0]}{more} {verbs} not made by tripkit",
        [*shown, "move it away, or name another folder with --out; nothing was touched"],
    )


def _strangers(kit: Path, made: Mapping[str, str]) -> list[Path]:
    """Give what lies in a kit's folder and was not put there by a build."""
    if not kit.is_dir():
        return []
    folders = {parent.as_posix() for name in made for parent in Path(name).parents}
    found = []
    for name, is_folder in sorted(_files(kit, folders)):
        last = name.rpartition("/")[2].lower()
        is_litter = last in LITTER or last.startswith("._")
        if is_folder or (name not in made and not is_litter) or (kit / name).is_symlink():
            found.append(kit / name)
    return found


def _files(kit: Path, folders: set[str] | None = None) -> Iterator[tuple[str, bool]]:
    """Give each file below a folder, and each folder that is none of the named ones."""

    def stop(error: OSError) -> None:
        raise error

    for at, below, files in os.walk(kit, onerror=stop):
        inside = Path(at).relative_to(kit)
        for name in list(below):
            path = (inside / name).as_posix()
            if (kit / path).is_symlink() or (folders is not None and path not in folders):
                below.remove(name)
                yield path, True
        for name in files:
            yield (inside / name).as_posix(), False
