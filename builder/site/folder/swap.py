"""Putting a finished kit in the place of the old one; a kill at any moment leaves one whole.

In the tool's own folder among the kits, `.built`, lie of the kit ``<trip>``:

``<trip>.work``      while a kit is put here that was built elsewhere: its zip, and what is in it
``<trip>.new``       while a build runs: the new folder, then complete
``<trip>.zip``       while a build runs: the new zip, written after the new folder is complete
``<trip>.json.new``  while a build runs: what is to be remembered of both, written after the zip
``<trip>.old``       the old folder, on its way out: it exists only once the new one is complete
``<trip>.json``      what was made, and from what
``<trip>.seen``      in what state the files were when they were last read and found whole
``<trip>.late``      what files that take their time were made from (`taken_over.py`)
``<trip>.lock``      held by the build; stays behind empty, because deleting a lock file races
"""

from __future__ import annotations

import os
import shutil
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from builder.site.errors import SiteError
from builder.site.folder.made import (
    OWN_FOLDER,
    claim,
    is_ours,
    is_whole,
    made_of,
    record,
    zip_is_ours,
)

Step = Callable[[], None]

LOCK_WAIT_S = 60.0
LOCK_POLL_S = 0.05
LEFTOVERS = (".zip", ".work", ".new", ".old")
# No trip is called so: ids hold no such sign.
INDEX = "_index"


def work_folder(out: Path, trip_id: str) -> Path:
    """Folder in which a kit that was built elsewhere is unpacked."""
    return out / OWN_FOLDER / f"{trip_id}.work"


def new_folder(out: Path, trip_id: str) -> Path:
    """Folder a build writes the new kit into."""
    return out / OWN_FOLDER / f"{trip_id}.new"


def new_zip(out: Path, trip_id: str) -> Path:
    """File a build writes the new zip into."""
    return out / OWN_FOLDER / f"{trip_id}.zip"


def new_record(out: Path, trip_id: str) -> Path:
    """File a build writes into what is to be remembered of the new kit."""
    return out / OWN_FOLDER / f"{trip_id}.json.new"


def old_folder(out: Path, trip_id: str) -> Path:
    """Where the old kit waits until the new one is in its place."""
    return out / OWN_FOLDER / f"{trip_id}.old"


def is_current(out: Path, trip_id: str, made_from: str) -> bool:
    """Tell whether a kit stands there that was made from this, with every byte as it was made."""
    made = made_of(out, trip_id)
    return made is not None and made.made_from == made_from and is_whole(out, trip_id, made)


def swap_steps(out: Path, trip_id: str) -> list[Step]:
    """Give the steps that put a complete new folder and zip in place, in their order."""
    kit = out / trip_id
    old = old_folder(out, trip_id)

    def old_aside() -> None:
        if kit.exists():
            kit.rename(old)

    def new_in_place() -> None:
        new_folder(out, trip_id).rename(kit)

    def zip_in_place() -> None:
        os.replace(new_zip(out, trip_id), out / f"{trip_id}.zip")

    def remember() -> None:
        os.replace(new_record(out, trip_id), record(out, trip_id))

    def drop_old() -> None:
        remove(old)

    return [old_aside, new_in_place, zip_in_place, remember, drop_old]


def swap(out: Path, trip_id: str) -> None:
    """Put the new folder and zip of a trip in place of the old ones."""
    for step in swap_steps(out, trip_id):
        step()


def recover(out: Path) -> None:
    """Finish or undo every swap that was interrupted; kits being built right now are left alone."""
    if not is_ours(out / OWN_FOLDER):
        return
    for trip_id in sorted(_interrupted(out)):
        with _try_lock(out, trip_id) as held:
            if held:
                recover_kit(out, trip_id)


def recover_kit(out: Path, trip_id: str) -> None:
    """Finish or undo the interrupted swap of one kit; the caller holds its lock."""
    kit = out / trip_id
    new, old, zipped = new_folder(out, trip_id), old_folder(out, trip_id), new_zip(out, trip_id)
    told = new_record(out, trip_id)
    remove(work_folder(out, trip_id))
    if old.exists() and not kit.exists():
        # The old kit had stepped aside, so the new one was complete; without it, go back.
        (new if new.exists() else old).rename(kit)
    elif new.exists():
        # Never put in place, perhaps half written: zip and record go first, so that a second
        # kill here cannot leave new ones that look finished beside an old folder.
        remove(zipped)
        remove(told)
        remove(new)
    if zipped.exists():
        _zip_in_place(out, trip_id)
    if told.exists():
        os.replace(told, record(out, trip_id))
    remove(old)


def _zip_in_place(out: Path, trip_id: str) -> None:
    """Finish with the zip, unless somebody put one of their own there in the meantime."""
    place = out / f"{trip_id}.zip"
    if os.path.lexists(place) and not zip_is_ours(place, made_of(out, trip_id)):
        remove(new_zip(out, trip_id))
    else:
        os.replace(new_zip(out, trip_id), place)


def remove(path: Path) -> None:
    """Delete a file or a folder, or nothing where there is nothing."""
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path)
    else:
        path.unlink(missing_ok=True)


@contextmanager
def kit_lock(out: Path, trip_id: str, wait_s: float = LOCK_WAIT_S) -> Iterator[None]:
    """Hold the lock of one kit; a second build of it waits a while, then is refused."""
    claim(out)
    give_up_at = time.monotonic() + wait_s
    while True:
        with _try_lock(out, trip_id) as held:
            if held:
                yield
                return
        if time.monotonic() >= give_up_at:
            raise SiteError(
                f"another build is writing {_called(trip_id)}",
                ["wait until it is done, or give this build another --out folder"],
            )
        time.sleep(LOCK_POLL_S)


def _called(trip_id: str) -> str:
    return "the list of kits" if trip_id == INDEX else f"the kit {trip_id}"


def _interrupted(out: Path) -> set[str]:
    """Give the trips of which a build left something behind."""
    # No id holds a dot, so all that follows the first one is an ending of ours.
    return {
        name.partition(".")[0]
        for name in os.listdir(out / OWN_FOLDER)
        if name.endswith(LEFTOVERS) and not name.startswith("_")
    }


@contextmanager
def _try_lock(out: Path, trip_id: str) -> Iterator[bool]:
    """Take the lock file of a kit if nobody has it; the system frees it when a process dies."""
    handle = os.open(out / OWN_FOLDER / f"{trip_id}.lock", os.O_RDWR | os.O_CREAT, 0o644)
    try:
        yield _lock_now(handle)
    finally:
        os.close(handle)


if sys.platform == "win32":
    import msvcrt

    def _lock_now(handle: int) -> bool:
        """Lock an open file without waiting."""
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True
else:
    import fcntl

    def _lock_now(handle: int) -> bool:
        """Lock an open file without waiting."""
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True
