"""Files of a kit that take their time, taken over from the last one where they would be the same.

Beside the kit is written down what they were made from, and each with its hash.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from contextlib import suppress
from pathlib import Path

from builder.record import dataclass
from builder.site.folder.made import OWN_FOLDER, claim
from builder.site.folder.memory import as_text, told_in, write_over


@dataclass(frozen=True, slots=True)
class _Late:
    """What is remembered of such files."""

    made_from: str
    files: Mapping[str, str]  # SHA-256 by path inside the kit


def taken_over(
    out: Path,
    trip_id: str,
    made_from: str,
    make: Callable[[], Mapping[str, bytes]],
    is_asked: bool = True,
) -> Mapping[str, bytes]:
    """Give files as they lie in the kit, where they were made from the same; else make them.

    `is_asked` tells whether old ones will do. What is made now is written down for the next time,
    before it lies there: who finds something else there makes it again.
    """
    kept = _kept(out, trip_id, made_from) if is_asked else None
    if kept is not None:
        return kept
    files = make()
    with suppress(OSError):  # a folder that cannot be written to is told of when the kit is
        claim(out)
        write_over(_file(out, trip_id), as_text(_Late(made_from, _hashes(files))))
    return files


def _kept(out: Path, trip_id: str, made_from: str) -> Mapping[str, bytes] | None:
    """Give the files that lie in the kit; None where one of them would be another."""
    told = told_in(_file(out, trip_id), _Late)
    if told is None or told.made_from != made_from:
        return None
    try:
        files = {name: (out / trip_id / name).read_bytes() for name in told.files}
    except OSError:
        return None
    return files if told.files == _hashes(files) else None


def _file(out: Path, trip_id: str) -> Path:
    return out / OWN_FOLDER / f"{trip_id}.late"


def _hashes(files: Mapping[str, bytes]) -> dict[str, str]:
    return {name: hashlib.sha256(content).hexdigest() for name, content in files.items()}
