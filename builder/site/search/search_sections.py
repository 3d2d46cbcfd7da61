"""What the theme's search finds on a page: its sections, each with its title and its words.

The theme's search plugin reads every page with the library's HTML parser, which takes longer than
rendering it. This gives the same entries; the tests hold one to the other.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from html import escape, unescape

from builder.site.finishing.tags import TAG
from builder.site.rendering.plain_markdown import NotPlain

# What the theme keeps among the words, and what it passes over whole.
KEPT = frozenset({"p", "code", "pre", "li", "ol", "ul", "sub", "sup"})
PASSED_OVER = frozenset({"object", "script", "style"})
EXCLUDED = "data-search-exclude"
HEADINGS = frozenset({"h1", "h2", "h3", "h4", "h5", "h6"})
HAVE_NO_END = frozenset(
    {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "param"}
    | {"source", "track", "wbr"}
)
_FIRST_HEADING = re.compile(r'\s*<h1 id="[^"]*">')
_ID = re.compile(r' id="([^"]*)"')


@dataclass(slots=True)
class Section:
    """A heading and what stands below it, up to the next heading."""

    id: str
    title: list[str] = field(default_factory=list)
    text: list[str] = field(default_factory=list)


def sections(article: str) -> list[Section]:
    """Give the sections of an article, or raise `NotPlain` where headings are not plain."""
    if not _FIRST_HEADING.match(article):
        raise NotPlain("headings or elements of another shape")
    reader = _Reader()
    at = article.index("<")
    for tag in TAG.finditer(article, at):
        if tag.start() > at:
            reader.words(article[at : tag.start()])
        at = tag.end()
        name = tag["name"]
        # A comment, an element without an end, or one of a drawing that ends itself.
        if name is None or name in HAVE_NO_END or tag["rest"].endswith("/"):
            continue
        if tag["slash"]:
            reader.ends(name)
        else:
            reader.begins(name, tag["rest"])
    return reader.found


class _Reader:
    """Goes through the tags and words of an article."""

    def __init__(self) -> None:
        """Begin with nothing open."""
        self.found: list[Section] = []
        self.open: list[str] = []
        self.passed_over = 0  # how many of them stand in the one that is passed over, with it
        self.into: list[str] = []  # where words go: into a title or the text below it

    def begins(self, name: str, given: str) -> None:
        """Note an element's beginning."""
        self.open.append(name)
        is_excluded = EXCLUDED in given
        if name in HEADINGS and (found := _ID.search(given)):
            # One inside another element, or left out itself, would end the section before it.
            if len(self.open) > 1 or is_excluded:
                raise NotPlain("headings or elements of another shape")
            # The page itself leads to its first heading.
            self.found.append(Section(found[1] if self.found else ""))
            self.into = self.found[-1].title
        if self.passed_over or is_excluded or name in PASSED_OVER:
            self.passed_over += 1
        elif name in KEPT:
            self.into.append(f"<{name}>")

    def ends(self, name: str) -> None:
        """Note an element's end; one that held no words leaves nothing."""
        if not self.open or self.open.pop() != name:
            raise NotPlain("headings or elements of another shape")
        if self.passed_over:
            self.passed_over -= 1
        elif name in KEPT:
            first = self.into.index(f"<{name}>")
            if all(self.into[at].isspace() for at in range(first + 1, len(self.into))):
                del self.into[first:]
            else:
                self.into.append(f"</{name}>")
        if not self.open and name in HEADINGS:
            self.into = self.found[-1].text

    def words(self, text: str) -> None:
        """Add words, as the search shows them."""
        if self.passed_over:
            return
        if "pre" in self.open:
            raise NotPlain("headings or elements of another shape")
        if not text.isspace():
            self.into.append(escape(unescape(text).replace("\n", " "), quote=False))
        elif self.into is self.found[-1].title or not self.into or not self.into[-1].isspace():
            self.into.append(" ")
