"""What the search looks through: the plain words of all pages, as a script, also for a disk."""

from __future__ import annotations

import json
import re
from html import unescape
from pathlib import Path

SEARCHED = "search/search_index.js"
_OF_GENERATOR = "search/search_index.json"
_TAG = re.compile(r"<[^>]*>")
_BLANKS = re.compile(r"\s+")


def write_searched(site: Path) -> None:
    """Put the generator's index down as address, title and text of each part of each page."""
    index = site / _OF_GENERATOR
    docs = json.loads(index.read_text(encoding="utf-8"))["docs"]
    parts = [[doc["location"], _plain(doc["title"]), _plain(doc["text"])] for doc in docs]
    packed = json.dumps(parts, ensure_ascii=False, separators=(",", ":"))
    (site / SEARCHED).write_text(f"const SEARCHED = {packed};\n", encoding="utf-8", newline="\n")
    index.unlink()


def _plain(html: str) -> str:
    """Give the words of a part of a page."""
    return _BLANKS.sub(" ", unescape(_TAG.sub(" ", html))).strip()
