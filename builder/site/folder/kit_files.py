"""What lies in a kit: the files that are asked for by name, and all of them."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

POCKET_NAME = "pocket.html"
DATA_NAME = "kit.json"
HOME_DATA_NAME = "home.json"
CONTENT_ZIP = "content.zip"


def files_below(folder: Path) -> dict[str, Path]:
    """Give every file below a folder by its path in there, in the order of these."""
    found = {
        file.relative_to(folder).as_posix(): file for file in folder.rglob("*") if file.is_file()
    }
    return dict(sorted(found.items()))


def write_files(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write files by their paths in a folder, and the folders they lie in."""
    targets = {folder / name: content for name, content in files.items()}
    for parent in {target.parent for target in targets}:
        parent.mkdir(parents=True, exist_ok=True)
    for target, content in targets.items():
        target.write_bytes(content)
