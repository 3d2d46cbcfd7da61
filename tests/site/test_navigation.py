"""Paths of a kit stay inside it on every file system."""

from __future__ import annotations

import pytest

from builder.site.rendering.navigation import is_safe_path, nav_paths


@pytest.mark.parametrize(
    "path", ["index.md", "cook/smoky-bean-pot.md", "kit.schema.json", "a/b/c.svg", "_x.png"]
)
def test_plain_paths_are_safe(path: str) -> None:
    assert is_safe_path(path)


@pytest.mark.parametrize(
    "path",
    [
        "",
        "/a",
        "../a",
        "a/../b",
        "a//b",
        "a/",
        ".hidden",
        "a/.b",
        "C:/a",
        "a\\b",
        "a b",
        "a\n",
        "a.",
        "é.md",
        "a/./b",
        "con:",
        "~a",
        "-a",
    ],
)
def test_other_paths_are_not(path: str) -> None:
    assert not is_safe_path(path)


def test_pages_are_listed_in_reading_order() -> None:
    nav = (("A", "a.md"), ("B", (("C", "c.md"), ("D", (("E", "e.md"),)))), ("F", "f.md"))
    assert list(nav_paths(nav)) == ["a.md", "c.md", "e.md", "f.md"]
