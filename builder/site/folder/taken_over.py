"""Files of a kit that take their time, taken over from the last one where they would be the same.

Beside the kit is written down what they were made from, and each with its hash.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping
from pathlib import Path

from builder.site.folder.made import OWN_FOLDER, write_over


def taken_over(
    out: Path, trip_id: str, made_from: str, make: Callable[[], Mapping[str, bytes]]
) -> Mapping[str, bytes]:
    """Give files as they lie in the kit, where they were made from the same; else make them."""
    try:
        told = json.loads(_file(out, trip_id).read_text("utf-8"))
        if told["made_from"] != made_from:
            return make()
        files = {name: (out / trip_id / name).read_bytes() for name in told["files"]}
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return make()
    return files if told["files"] == _hashes(files) else make()


def remember(out: Path, trip_id: str, made_from: str, files: Mapping[str, bytes]) -> None:
    """Write down what some files of a kit that was built were made from."""
    told = {"made_from": made_from, "files": _hashes(files)}
    write_over(_file(out, trip_id), json.dumps(told, indent=0, sort_keys=True))


def _file(out: Path, trip_id: str) -> Path:
    return out / OWN_FOLDER / f"{trip_id}.late"


def _hashes(files: Mapping[str, bytes]) -> dict[str, str]:
    return {name: hashlib.sha256(content).hexdigest() for name, content in files.items()}
