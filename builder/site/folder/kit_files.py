"""What lies in a kit: the files that are asked for by name, and all of them."""

from __future__ import annotations

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
