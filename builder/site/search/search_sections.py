"""What the theme's search finds on a page: its sections, each with its title and its words.

The theme's search plugin reads every page with the library's HTML parser, which takes longer than
rendering it. This gives the same entries; the tests hold one to the other.
"""

from __future__ import annotations

import re
from functools import lru_cache
from html import escape, unescape
from typing import NamedTuple

from builder.record import dataclass, field
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
# As tags are read anywhere, whole.
_TAGS = re.compile(
    r"""(<!--.*?(?:-->|$)|</?[a-zA-Z][^\s/>]*(?>[^>"']+|"[^"]*"|'[^']*')*+>)""", re.S
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
    before, *pieces = _TAGS.split(article)
    assert not before.strip()
    # Tags and what stands behind each, by turns.
    for raw, words in zip(pieces[::2], pieces[1::2], strict=True):
        tag = _tag(raw)
        if tag is not None:
            if tag.is_end:
                reader.ends(tag.name)
            else:
                reader.begins(tag)
        if words:
            reader.words(words)
    return reader.found


class _Tag(NamedTuple):
    """What matters of a tag."""

    name: str
    is_end: bool
    id: str | None  # of a heading
    is_passed_over: bool
    is_excluded: bool


@lru_cache(maxsize=8192)
def _tag(raw: str) -> _Tag | None:
    """Read a tag; None for a comment, an element without an end, and one that ends itself."""
    found = TAG.fullmatch(raw)
    name = found["name"] if found else None
    if found is None or name is None or name in HAVE_NO_END or found["rest"].endswith("/"):
        return None
    given = found["rest"]
    id_ = _ID.search(given) if name in HEADINGS else None
    is_excluded = EXCLUDED in given
    is_passed_over = is_excluded or name in PASSED_OVER
    return _Tag(name, bool(found["slash"]), id_[1] if id_ else None, is_passed_over, is_excluded)


class _Reader:
    """Goes through the tags and words of an article."""

    def __init__(self) -> None:
        """Begin with nothing open."""
        self.found: list[Section] = []
        self.open: list[str] = []
        self.passed_over = 0  # how many of them stand in the one that is passed over, with it
        self.into: list[str] = []  # where words go: into a title or the text below it

    def begins(self, tag: _Tag) -> None:
        """Note an element's beginning."""
        name = tag.name
        self.open.append(name)
        if tag.id is not None:
            # One inside another element, or left out itself, would end the section before it.
            if len(self.open) > 1 or tag.is_excluded:
                raise NotPlain("headings or elements of another shape")
            # The page itself leads to its first heading.
            self.found.append(Section(tag.id if self.found else ""))
            self.into = self.found[-1].title
        if self.passed_over or tag.is_passed_over:
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
            if "&" in text:
                text = unescape(text)
            self.into.append(escape(text.replace("\n", " "), quote=False))
        elif self.into is self.found[-1].title or not self.into or not self.into[-1].isspace():
            self.into.append(" ")
