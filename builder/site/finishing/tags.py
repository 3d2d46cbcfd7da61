"""The tags of a page, read fast: the library's parser takes as long as rendering the page did."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from html import unescape
from types import MappingProxyType
from typing import NamedTuple

# Atomic groups, so that a broken tag cannot make the search try every way to split it.
TAG = re.compile(
    r"""<!--.*?(?:-->|$)
    |<(?P<slash>/?)(?P<name>[a-zA-Z][^\s/>]*)(?P<rest>(?>[^>"']+|"[^"]*"|'[^']*')*+)>""",
    re.S | re.X,
)
ATTRIBUTE = re.compile(
    r"""(?P<name>[^\s=/"'>]+)(?:\s*=\s*(?:"(?P<double>[^"]*)"|'(?P<single>[^']*)'|(?P<bare>[^\s"'>]+)))?"""
)
NONE_GIVEN: Mapping[str, str] = MappingProxyType({})
# What stands between these is no markup. (A title is, inside a picture.)
RAW_TEXT = frozenset({"script", "style"})


class Tag(NamedTuple):
    """One tag: an element's start with its attributes, or its end."""

    name: str
    is_end: bool
    attributes: Mapping[str, str]
    position: int


def tag_but_plain(starts: Iterable[str], ends: Iterable[str]) -> re.Pattern[str]:
    """Give a pattern of the tags that tell something; most tags of a page do not.

    It leaps over those with no attribute but a class or a scope, unless they begin or end elements
    of these names.
    """
    begin, end = "|".join([*starts, *RAW_TEXT]), "|".join(ends)
    plain = (
        rf"(?:/(?!(?:{end})[\s/>])|(?!(?:{begin})[\s/>]))"
        r"""[a-z][a-z0-9]*(?:[ ](?:class|scope)="[^"<>]*")*>"""
    )
    return re.compile(TAG.pattern.replace("|<", f"|<(?!{plain})"), re.S | re.X)


def read_tags(html: str, pattern: re.Pattern[str] = TAG) -> Iterator[Tag]:
    """Give the tags of a page in their order, without those inside scripts and comments."""
    position = 0
    while found := pattern.search(html, position):
        slash, name, rest = found.groups()
        position = found.end()
        if name is None:
            continue
        name = name.lower()
        yield Tag(name, bool(slash), _attributes(rest) if rest else NONE_GIVEN, found.start())
        if name in RAW_TEXT and not slash and not rest.endswith("/"):
            end = re.compile(rf"</{name}\b", re.I).search(html, position)
            position = end.start() if end else len(html)


def line_and_column(html: str, position: int) -> tuple[int, int]:
    """Give a position as line and column, counted from 1."""
    return html.count("\n", 0, position) + 1, position - html.rfind("\n", 0, position)


def _attributes(text: str) -> dict[str, str]:
    """Give the attributes of a tag; the first of a name counts, as in browsers."""
    given: dict[str, str] = {}
    for name, double, single, bare in ATTRIBUTE.findall(text):
        value = double or single or bare
        given.setdefault(name.lower(), unescape(value) if "&" in value else value)
    return given
