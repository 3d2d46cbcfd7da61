"""What a reader sees of Markdown or HTML: its words, and the tags they stand in."""

from __future__ import annotations

import importlib
import re
from html.parser import HTMLParser
from typing import Any

from builder.pages.pieces import Cell, words_of
from builder.record import dataclass, field

# By name, since the library ships no types.
_MARKDOWN: Any = importlib.import_module("markdown")
VOID = {"area", "base", "br", "col", "hr", "img", "input", "link", "meta", "wbr"}


@dataclass()
class Seen:
    """Tags with their attributes, and all words."""

    tags: list[tuple[str, dict[str, str | None]]] = field(default_factory=list)
    words: str = ""
    unclosed: list[str] = field(default_factory=list)
    astray: list[str] = field(default_factory=list)

    @property
    def names(self) -> set[str]:
        """The names of all tags."""
        return {name for name, _ in self.tags}

    @property
    def ids(self) -> list[str]:
        """All ids, in order."""
        return [str(given["id"]) for _, given in self.tags if "id" in given]


class _Reader(HTMLParser):
    """Collects tags and words, and remembers what was not closed."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.seen = Seen()
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        if self.open and self.open[-1] == tag:
            self.open.pop()
        else:
            self.seen.astray.append(tag)

    def handle_data(self, data: str) -> None:
        # What stands in a script is read by nobody.
        if self.open[-1:] != ["script"]:
            self.seen.words += data


def seen_in_html(html: str) -> Seen:
    """Read HTML as a browser would see it."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    reader.seen.unclosed = reader.open
    reader.seen.words = re.sub(r"[ \n]+", " ", reader.seen.words).strip(" ")
    return reader.seen


def html_of(markdown: str) -> str:
    """Render Markdown with the extensions that the kit's site uses."""
    # What stands before the page (kept out of search) is for the site's maker, not a reader.
    markdown = re.sub(r"\A---\n.*?\n---\n", "", markdown, flags=re.DOTALL)
    extensions = ["attr_list", "md_in_html", "tables", "admonition", "def_list", "toc"]
    return str(_MARKDOWN.markdown(markdown, extensions=extensions))


def said(cell: Cell) -> str:
    """Give the words of a cell, with plain spaces."""
    return words_of(cell).replace("\u00a0", " ")


def seen_in(markdown: str) -> Seen:
    """Render Markdown and read what comes of it."""
    return seen_in_html(html_of(markdown))
