"""What lies in a kit: the files that are asked for by name, and all of them."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

POCKET_NAME = "pocket.html"
DATA_NAME = "kit.json"
HOME_DATA_NAME = "home.json"
CONTENT_ZIP = "content.zip"


def files_below(folder: Path) -> dict[str, Path]:
    """Give every file below a folder by its path in there, in the order of these."""
    found: dict[str, Path] = {}
    waiting = [("", str(folder))]
    # A build looks through all that the tool ships: `rglob` takes five times as long.
    while waiting:
        inside, here = waiting.pop()
        with os.scandir(here) as entries:
            for entry in entries:
                if entry.is_dir(follow_symlinks=False):
                    waiting.append((f"{inside}{entry.name}/", entry.path))
                elif entry.is_file():
                    found[inside + entry.name] = Path(entry.path)
    return dict(sorted(found.items()))


def write_files(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write files by their paths in a folder, and the folders they lie in."""
    targets = {folder / name: content for name, content in files.items()}
    for parent in {target.parent for target in targets}:
        parent.mkdir(parents=True, exist_ok=True)
    for target, content in targets.items():
        target.write_bytes(content)
