"""Puts a changed file in the place of an old one: whole or not at all, never through a link."""

from __future__ import annotations

import contextlib
import os
import shutil
import time
from collections.abc import Iterator
from pathlib import Path

from builder.starts.fresh import StartError, write_new

WAIT_S = 5.0
POLL_S = 0.02
LEFT_BEHIND_S = 60.0


def refuse_links(folder: Path, path: Path) -> None:
    """Stop where a file, or a folder between it and the content folder, is a link."""
    for part in (path, *path.parents):
        if part == folder:
            return
        if part.is_symlink():
            raise StartError(
                f"{part.as_posix()} is a link, and nothing is written through one",
                "put the file itself there, or name another with --file",
            )
    raise AssertionError(f"{path} does not lie in {folder}")


def swap_in(path: Path, before: bytes | None, after: bytes) -> None:
    """Write a file anew; `before` is what it held when it was read, None where it was not there.

    Somebody else's change meanwhile stops it, and a kill at any moment leaves the old file whole.
    """
    if before is None:
        write_new({path: after})
        return
    beside = path.with_name(f".{path.name}.{os.getpid()}.new")
    try:
        with beside.open("xb") as file:
            file.write(after)
            file.flush()
            os.fsync(file.fileno())
        shutil.copymode(path, beside)
        with _alone_with(path, beside):
            if path.read_bytes() != before:
                raise StartError(
                    f"{path.as_posix()} was changed by somebody else meanwhile", "run it again"
                )
            os.replace(beside, path)
    except OSError as error:
        raise StartError(
            f"{path.as_posix()} could not be written ({error.strerror})",
            "check the folder, its rights and the space left",
        ) from error
    finally:
        with contextlib.suppress(OSError):
            beside.unlink()


@contextlib.contextmanager
def _alone_with(path: Path, newest: Path) -> Iterator[None]:
    """Keep others of our kind from a file between the last look at it and its replacement.

    That takes no time: a lock much older than the newest file was left by a process that died.
    """
    lock = path.with_name(f".{path.name}.lock")
    give_up_at = time.monotonic() + WAIT_S
    while True:
        try:
            lock.touch(exist_ok=False)
            break
        except FileExistsError:
            with contextlib.suppress(FileNotFoundError):
                if newest.stat().st_mtime - lock.stat().st_mtime > LEFT_BEHIND_S:
                    lock.unlink()
        if time.monotonic() >= give_up_at:
            raise StartError(
                f"another command is writing {path.as_posix()}",
                f"run it again; if none is, delete {lock.as_posix()}",
            )
        time.sleep(POLL_S)
    try:
        yield
    finally:
        lock.unlink(missing_ok=True)
