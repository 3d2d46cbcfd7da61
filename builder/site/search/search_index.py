"""What the search looks through: the plain words of all pages, as a script, also for a disk."""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import unescape
from pathlib import Path

import msgspec

from builder.site.rendering.renderer import Part

SEARCHED = "search/search_index.js"
_TAG = re.compile(r"<[^>]*>")
_BLANKS = re.compile(r"\s+")


def write_searched(site: Path, parts: Iterable[Part]) -> None:
    """Write what search finds: address, title and text of each part of each page."""
    told = [[part.address, _plain(part.title), _plain(part.text)] for part in parts]
    packed = msgspec.json.encode(told).decode("utf-8")
    target = site / SEARCHED
    target.parent.mkdir(exist_ok=True)
    target.write_text(f"const SEARCHED = {packed};\n", encoding="utf-8", newline="\n")


def _plain(html: str) -> str:
    """Give the words of a part of a page."""
    return _BLANKS.sub(" ", unescape(_TAG.sub(" ", html))).strip()
