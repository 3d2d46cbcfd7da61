"""What stops a kit from being built, said so that a person can mend it."""

from __future__ import annotations

import errno
import os
from collections.abc import Sequence
from pathlib import Path

from builder.problems import Problem, as_told, printable

# Only writing meets these.
_NO_ROOM = (errno.ENOSPC, errno.EDQUOT, errno.EROFS, errno.EFBIG)


class SiteError(Exception):
    """A kit that could not be built; the kit that was there before is untouched."""

    def __init__(
        self, message: str, hints: Sequence[str] = (), problems: Sequence[Problem] = ()
    ) -> None:
        """Keep what is wrong, what would help, and the single problems behind it."""
        super().__init__(message)
        self.message = message
        self.hints = tuple(hints)
        self.problems = tuple(problems)


def of_the_system(error: OSError, what: str, out: Path, own: Path) -> SiteError:
    """Say what the system refused: to write below `out`, or to read anything else.

    Files in the folder `own` come and go with a build, so a person is told of `out` instead.
    """
    why = error.strerror or str(error)
    path = Path(str(error.filename)) if error.filename else None
    elsewhere = path is not None and not is_below(path, out) and not is_below(out, path)
    if elsewhere and error.errno not in _NO_ROOM:
        return SiteError(
            f"{printable(str(path))} cannot be read ({why})",
            ["see to the file and its rights; whole kits stay as they are"],
        )
    shown = out if path is None or (path != own and is_below(path, own)) else path
    return SiteError(
        f"{what} could not be written: {why} ({as_told(shown)})",
        ["see to the folder, its rights and the space left; whole kits stay as they are"],
    )


def is_below(path: Path, folder: Path) -> bool:
    """Tell whether a path is a folder or lies in it."""
    return Path(os.path.realpath(path)).is_relative_to(os.path.realpath(folder))
