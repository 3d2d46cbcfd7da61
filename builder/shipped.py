"""Where the files lie that ship with the program: content, templates, base configuration."""

from __future__ import annotations

from pathlib import Path


def shipped_root() -> Path:
    """Give `builder/shipped` of an installed wheel, or the repository of an editable install."""
    package = Path(__file__).resolve().parent
    installed = package / "shipped"
    return installed if installed.is_dir() else package.parent
