"""The navigation of a site, as its pages are read."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeAlias

NavItem: TypeAlias = "tuple[str, str | tuple[NavItem, ...]]"  # titles are not yet made harmless


def part(title: str, lines: Iterable[tuple[str, str]]) -> tuple[NavItem, ...]:
    """Give a part of the navigation with its lines, each a title and a path; () without any."""
    within: tuple[NavItem, ...] = tuple(lines)
    return ((title, within),) if within else ()
