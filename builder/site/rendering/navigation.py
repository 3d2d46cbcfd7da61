"""What a kit's navigation leads to, and the paths a kit may hold."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import PurePosixPath

from builder.pages.navigation import NavItem

SAFE_PART = re.compile(r"[A-Za-z0-9_][A-Za-z0-9._-]*")


def nav_paths(nav: Sequence[NavItem]) -> Iterator[str]:
    """Give the page paths of a navigation in reading order."""
    for _, target in nav:
        if isinstance(target, str):
            yield target
        else:
            yield from nav_paths(target)


def is_safe_path(path: str) -> bool:
    """Tell whether a path stays inside the kit on every file system."""
    parts = path.split("/")
    return (
        all(SAFE_PART.fullmatch(part) and not part.endswith(".") for part in parts)
        and PurePosixPath(path).as_posix() == path
    )
