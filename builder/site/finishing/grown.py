"""Parts of a page that only a script can use: told once a kit, grown by the script in each page."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser

# By the function that makes it: the switch of colours, whose room in the bar is kept free, and the
# box of the search, with the script behind it.
GROWN = {
    "showColours": re.compile(
        r'(<form [^>]*data-md-component="palette"[^>]*>)(?P<inner>.*?)(</form>)', re.S
    ),
    "showSearch": re.compile(
        r'(<div class="md-search"[^>]*>)(?P<inner>.*?)(</div>\s*<script src="[^"]*colours\.js">)',
        re.S,
    ),
}
# What only the theme's own scripts look for, which no kit has.
FOR_SCRIPTS = re.compile(
    r' data-md-(?:component="(?!palette")[^"]*"|type="[^"]*"|scrollfix)(?=[ >])'
)
EMPTY = frozenset({"input", "path"})  # elements that hold nothing

Tree = list[object]  # the element's name, its attributes, and what stands in it


def ungrown(html: str) -> str:
    """Give a page with the places of what the script grows, empty."""
    for place in GROWN.values():
        html = place.sub(r"\1\3", html)
    return html


def script_of_grown(page: str) -> str:
    """Give the lines that tell the script what stands in these places; "" for none."""
    return "".join(
        f"{function}({_told(found['inner'])});\n"
        for function, place in GROWN.items()
        if (found := place.search(page))
    )


def _told(html: str) -> str:
    reader = _Trees()
    reader.feed(FOR_SCRIPTS.sub("", html))
    return json.dumps(reader.tops, ensure_ascii=False, separators=(",", ":"))


class _Trees(HTMLParser):
    """Reads elements as nested lists, with the words in them."""

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

    def handle_data(self, data: str) -> None:
        if data.strip():
            self.open[-1].append(" ".join(data.split()))
