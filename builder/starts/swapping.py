"""Puts a changed file in the place of an old one: whole or not at all, never through a link."""

from __future__ import annotations

import contextlib
import os
import shutil
from pathlib import Path

from builder.starts.fresh import StartError, write_new


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
