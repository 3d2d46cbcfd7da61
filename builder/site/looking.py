"""A fast look at a whole page: what it has and where it leads, where nothing on it is odd.

A page of a kit says the same few tags again and again. Each is looked at once. Whatever is not
written as plainly as the tool writes, or may be a fault, makes the page one to be read tag by tag:
this excuses no page, it only finds those that need no second look.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache
from html import unescape
from typing import NamedTuple

from builder.record import dataclass

LOADING = {
    "audio": ("src",),
    "embed": ("src",),
    "iframe": ("src",),
    "image": ("href", "xlink:href"),
    "img": ("src", "srcset"),
    "input": ("src",),
    "link": ("href",),
    "object": ("data",),
    "script": ("src",),
    "source": ("src", "srcset"),
    "track": ("src",),
    "use": ("href", "xlink:href"),
    "video": ("src", "poster"),
}
LINKING = {"a": ("href",), "area": ("href",)}
# The figures that a page's script works out anew: data, which no browser runs. One of them a page.
DATA_OF_PAGE = {"type": "application/json", "class": "figures"}
NEVER_IN_TEXT = frozenset({"script", "style", "iframe", "object", "embed", "base", "meta", "link"})

_TAG = re.compile(r"<[^>]*>")
_PLAIN_TAG = re.compile(
    r'<(?P<name>[a-z][a-z0-9-]*)(?P<given>(?:\s+[a-zA-Z][a-zA-Z0-9:-]*(?:="[^"<>]*")?)*)\s*/?>'
)
_PLAIN_END = re.compile(r"</[a-z][a-z0-9-]*>")
_GIVEN = re.compile(r'([a-zA-Z0-9:-]+)(?:="([^"]*)")?')
# Most tags that lead, or that can be led to, have nothing else.
_PLAIN = re.compile(
    r'<(?:a href="(?P<to>[^"&<>]*)"|(?:li|h[2-6]) id="(?P<id>[^"&<>]+)")'
    r'(?: (?:class|aria-label)="[^"<>]*")*>'
)
_RAW_TEXT = {name: re.compile(rf"<{name}[^<>]*></{name}>") for name in ("script", "style")}
_LARGE = 1_000_000
_DOCTYPE = "<!doctype html>"
# Tags that tell nothing, wherever they stand: most of each page.
_IDLE: set[str] = set()
_MOST_IDLE = 20_000
_TOLD = {each for told in (LOADING, LINKING) for names in told.values() for each in names}
# They may be written in capitals too, which is not how the tool writes.
_WATCHED = frozenset({*_TOLD, "id", "lang", "style"})

Target = tuple[str, bool]  # an address, and whether it is loaded


@dataclass(frozen=True, slots=True)
class Seen:
    """What a page has that can be led to, and where it leads."""

    ids: frozenset[str]
    targets: frozenset[Target]


class _Tag(NamedTuple):
    """A tag, as often as it is on a page."""

    name: str
    id: str | None = None
    targets: tuple[Target, ...] = ()
    is_data: bool = False


class _OddPage(Exception):
    """This page is to be read tag by tag."""


def look(html: str) -> Seen | None:
    """Give what a page has and where it leads; None where it is to be read tag by tag."""
    try:
        return _look(html)
    except _OddPage:
        return None


def _look(html: str) -> Seen:
    html = _without_raw_text(html)
    _refuse(any(not _has_heads(table) for table in html.split("<table")[1:]))
    begins, ends = html.find("<article"), html.rfind("</article>")
    text = html[begins:ends] if 0 <= begins < ends else ""
    _refuse(html.count("<article") + html.count("</article") != (2 if text else 0))
    around = (html[:begins], html[ends:]) if text else (html, "")
    # A sign that no tag ends could hide one; one within a tag is refused where that is read.
    _refuse(any(part.rfind("<") > part.rfind(">") for part in (text, *around)))
    in_text = _tags(text)
    ids: set[str] = set()
    targets: set[Target] = set()
    data = 0
    for raw in in_text.union(*map(_tags, around)) - _IDLE:
        if found := _PLAIN.fullmatch(raw):
            to, own = found.groups()
            if own is None:
                targets.add((to, False))
            else:
                ids.add(own)
        else:
            tag = _tag(raw)
            if tag.id is not None:
                ids.add(tag.id)
            targets.update(tag.targets)
            if tag.name in NEVER_IN_TEXT:
                _refuse(raw in in_text and not tag.is_data)
                data += html.count(raw) if tag.is_data else 0
            elif tag.id is None and not tag.targets and len(_IDLE) < _MOST_IDLE:
                _IDLE.add(raw)
    # Each is there once.
    _refuse(html.count(' id="') != len(ids) or data > 1)
    return Seen(frozenset(ids), frozenset(targets))


def _tags(html: str) -> set[str]:
    """Give the tags of a page, each once; of a page of many labels not all of them first."""
    if len(html) < _LARGE:
        return set(_TAG.findall(html))
    return {found[0] for found in _TAG.finditer(html)}


def _refuse(odd: bool) -> None:
    if odd:
        raise _OddPage


def _without_raw_text(html: str) -> str:
    """Give a page without what stands between scripts' tags, which is no markup."""
    for name, empty in _RAW_TEXT.items():
        if html.count(f"<{name}") == len(empty.findall(html)):
            continue
        first, *others = html.split(f"<{name}")
        html = first + "".join(f"<{name}{_without_content(each, name)}" for each in others)
    return html


def _without_content(opened: str, name: str) -> str:
    tag, ends, rest = opened.partition(">")
    content, closes, after = rest.partition(f"</{name}>")
    # However its end is written, a browser would find it.
    _refuse(not ends or not closes or tag.endswith("/") or "</" in content)
    return f"{tag}></{name}>{after}"


def _has_heads(table: str) -> bool:
    """Tell whether a table, from behind its name on, has heads of columns before it ends."""
    rows, ends, _ = table.partition("</table>")
    return bool(ends) and ("<th>" in rows or "<th " in rows)


@lru_cache(maxsize=8192)
def _tag(raw: str) -> _Tag:
    """Read one tag with all it has."""
    found = _PLAIN_TAG.fullmatch(raw)
    if found is None:
        _refuse(raw != _DOCTYPE and not _PLAIN_END.fullmatch(raw))
        return _Tag("")
    name = found["name"]
    told: dict[str, str] = {}
    for key, value in _GIVEN.findall(found["given"]):
        small = key.lower()
        _refuse(key in told or small == "style" or small.startswith("on"))
        _refuse(key != small and small in _WATCHED)
        told[key] = unescape(value)
    _refuse((name == "html" and not told.get("lang")) or "srcset" in told)
    # As it is counted.
    _refuse("id" in told and ' id="' not in raw)
    targets = (*_addresses(LOADING, name, told), *_addresses(LINKING, name, told))
    is_data = name == "script" and told == DATA_OF_PAGE
    return _Tag(name, told.get("id"), targets, is_data)


def _addresses(
    which: Mapping[str, tuple[str, ...]], name: str, told: Mapping[str, str]
) -> Iterator[Target]:
    for key in which.get(name, ()):
        if key in told and (told[key] or which is LINKING):
            yield told[key], which is LOADING
