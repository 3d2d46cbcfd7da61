"""Parts of a page that only a script can use: told once a kit, grown by the script in each page."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser

# The switch of colours; its room in the bar is kept free.
PALETTE = re.compile(r'(<form [^>]*data-md-component="palette"[^>]*>)(?P<inner>.*?)(</form>)', re.S)
EMPTY = frozenset({"input", "path"})  # elements that hold nothing

Tree = list[object]  # the element's name, its attributes, and what stands in it


def without_palette(html: str) -> str:
    """Give a page with an empty switch of colours."""
    return PALETTE.sub(r"\1\3", html)


def script_of_palette(page: str) -> str:
    """Give the line that tells the script what stands in the switch of colours; "" for none."""
    found = PALETTE.search(page)
    if found is None:
        return ""
    reader = _Trees()
    reader.feed(found["inner"])
    told = json.dumps(reader.tops, ensure_ascii=False, separators=(",", ":"))
    return f"showColours({told});\n"


class _Trees(HTMLParser):
    """Reads elements as nested lists; text is nothing that a switch has."""

    def __init__(self) -> None:
        super().__init__()
        self.tops: Tree = []
        self.open: list[Tree] = [self.tops]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element: Tree = [tag, {name: value or "" for name, value in attrs}]
        self.open[-1].append(element)
        if tag not in EMPTY:
            self.open.append(element)

    def handle_endtag(self, tag: str) -> None:
        if tag not in EMPTY:
            self.open.pop()
