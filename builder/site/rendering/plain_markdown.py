"""The small Markdown that the pages of a kit are written in, rendered fast; all else is refused.

Python-Markdown stays the renderer of record: what is not of the few shapes below raises `NotPlain`
and goes to it, and the tests hold both to the same HTML. Nothing here guesses. The language can be
so small because templates write every sign of a person's text as an entity.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import escape, unescape

from markdown.extensions.toc import slugify, unique
from markdown.util import BLOCK_LEVEL_ELEMENTS

from builder.record import dataclass


class NotPlain(Exception):
    """This page holds something that only the generator itself may read."""


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading of a page: its rank from 1, where links lead to, and its words as HTML."""

    level: int
    id: str
    name: str


@dataclass(frozen=True, slots=True)
class Rendered:
    """A page as HTML, with its headings in their order and all that links can lead to."""

    html: str
    headings: tuple[Heading, ...]
    ids: frozenset[str]


# A block of ready HTML stands between these two lines.
READY_BEGINS, READY_ENDS = "<!-- ready -->", "<!-- /ready -->"
BLOCKS = frozenset(BLOCK_LEVEL_ELEMENTS)
# Elements that hold a run of words and no blocks.
HOLD_A_RUN = frozenset({"dd", "dt", "legend", "li", "p", "summary", "td", "th"})
SIDES = {"---": "", "--:": ' style="text-align: right;"', ":-:": ' style="text-align: center;"'}

_HEADING = re.compile(r"(?P<rank>#{1,6}) (?P<words>\S(?:[^{}]*[^{}#\s])?)(?: \{#(?P<id>[\w-]+)\})?")
_ITEM = re.compile(r"(?:-|(?P<number>\d+)\.) (?P<words>\S.*)")
# What begins a line of a shape that is not of ours, or not where it stands.
_OTHER_SHAPE = re.compile(r"[ >:=+!`~|#]|[*_-]{3}|[*+-] |\d+[.)] |\[[^\]]*\]:")
_OPENING = re.compile(r"<(?P<name>[a-z][a-z0-9]*)(?P<rest>(?: [^<>]*)?)>")
_GIVEN = re.compile(r' (?P<name>[a-z-]+)(?:="(?P<value>[^"<>]*)")?')
_LINK = re.compile(r"\[(?P<words>[^\[\]]*)\]\((?P<to>[^()\s<>&\"'*`\\]*)\)")
_STRONG = re.compile(r"\*\*(?P<words>[^\s*](?:[^*]*[^\s*])?)\*\*")
_STRESSED = re.compile(r"\*(?P<words>[^\s*](?:[^*]*[^\s*])?)\*")
_TO_A_PAGE = re.compile(r"(?P<page>[^:#?]+)\.md(?P<part>#.*)?")
_MARK = re.compile(r"[&<>*_\[\]`{}\\]")
_TAG = re.compile(r"""</?[a-zA-Z][a-zA-Z0-9]*(?:\s+[a-zA-Z-]+(?:="[^"<>]*")?)*\s*/?>""")
_BARE_AND = re.compile(r"&(?!#\d+;|#x[0-9a-fA-F]+;|[a-zA-Z]\w*;)")
_STRESSES = re.compile(r"(?<!\w)_|_(?!\w)")
# What no shape of ours holds once links, elements and stresses are out of a run.
_LEFT = re.compile(r"[<>*\[\]`{}\\]")
_OWN_TAG = re.compile(r"</?(?:strong|em)>")
# A place kept for what is put in later.
_KEPT = re.compile("\x02(\\d+)\x03")
_NOT_TEXT = "\t\r\f\v\0\1\2\3\4\5\6\7\b"
# It begins with what it looks for, so that a search leaps to it.
_ID = re.compile(r'id="(?<=\sid=")([^"]+)"')


def render(markdown: str) -> Rendered:
    """Give a page's HTML and its headings, or raise `NotPlain`."""
    page = _Page(markdown)
    return page.with_headings("\n".join(page.blocks()))


class _Page:
    """One page being read, line by line."""

    def __init__(self, markdown: str) -> None:
        """Take a page's text; line ends and blanks that only look like such are not ours."""
        if any(sign in markdown for sign in _NOT_TEXT):
            raise NotPlain("a sign that is no text")
        self.lines = markdown.split("\n")
        self.at = 0
        self.end: str | None = None  # the line that ends the element being read
        self.found: list[tuple[int, str | None, str]] = []

    def blocks(self) -> Iterator[str]:
        """Give the blocks up to the end of the element that holds them, or of the page."""
        while self.at < len(self.lines):
            line = self.lines[self.at]
            if line == self.end:
                return
            if not line:
                self.at += 1
            elif line == READY_BEGINS:
                yield self._as_it_stands(READY_ENDS)
            elif line.startswith("#"):
                yield self._heading(line)
            elif line.startswith("| "):
                yield self._table()
            elif _ITEM.fullmatch(line):
                yield self._list()
            elif (opening := _OPENING.match(line)) and opening["name"] in BLOCKS:
                yield self._element(opening, line)
            else:
                yield self._paragraph()
        if self.end:
            raise NotPlain("an element has no end")

    def _heading(self, line: str) -> str:
        found = _HEADING.fullmatch(line)
        if not found:
            raise NotPlain("a heading of another shape")
        self.at += 1
        words, level = run(found["words"]), len(found["rank"])
        self.found.append((level, found["id"], words))
        # Where links lead to is put in when all of the page's ids are known.
        return f"<h{level}\x02{len(self.found) - 1}\x03>{words}</h{level}>"

    def with_headings(self, html: str) -> Rendered:
        """Give the page with an id for each heading."""
        ids = {*_ID.findall(html), *(given for _, given, _ in self.found if given)}
        headings = [
            Heading(level, given or unique(slugify(unescape(name), "-"), ids), name)
            for level, given, name in (
                (level, given, " ".join(_TAG.sub("", words).split()))
                for level, given, words in self.found
            )
        ]
        html = _KEPT.sub(lambda mark: f' id="{headings[int(mark[1])].id}"', html)
        return Rendered(html, tuple(headings), frozenset(ids))

    def _as_it_stands(self, end: str) -> str:
        """Give the lines between this one and the one that ends them."""
        try:
            last = self.lines.index(end, self.at)
        except ValueError:
            raise NotPlain("ready HTML has no end") from None
        block = "\n".join(self.lines[self.at + 1 : last])
        self.at = last + 1
        return block

    def _table(self) -> str:
        heads = _cells(self.lines[self.at])
        rule = _cells(self.lines[self.at + 1]) if self.at + 1 < len(self.lines) else []
        if len(rule) != len(heads) or not all(side in SIDES for side in rule):
            raise NotPlain("a table of another shape")
        sides = [SIDES[side] for side in rule]
        self.at += 2
        written = ["<table>\n<thead>\n<tr>", *_row("th", heads, sides), "</tr>\n</thead>\n<tbody>"]
        while self.at < len(self.lines) and self.lines[self.at] not in ("", self.end):
            cells = _cells(self.lines[self.at])
            if len(cells) != len(heads):
                raise NotPlain("a row longer or shorter than its table")
            written += ["<tr>", *_row("td", cells, sides), "</tr>"]
            self.at += 1
        return "\n".join([*written, "</tbody>\n</table>"])

    def _list(self) -> str:
        """Give a list of one line an item; blank lines between items would make it another."""
        items: list[str] = []
        numbers: list[str | None] = []
        while self.at < len(self.lines) and (item := _ITEM.fullmatch(self.lines[self.at])):
            items.append(f"<li>{run(item['words'])}</li>")
            numbers.append(item["number"])
            self.at += 1
        if self.at < len(self.lines) and self.lines[self.at] not in ("", self.end):
            raise NotPlain("a list of another shape")
        after = next((line for line in self.lines[self.at :] if line), "")
        if _ITEM.fullmatch(after) or after.startswith(" "):
            raise NotPlain("a list whose items stand apart")
        if numbers[0] is None and not any(numbers):
            return "\n".join(["<ul>", *items, "</ul>"])
        if numbers[0] == "1" and all(numbers):
            return "\n".join(["<ol>", *items, "</ol>"])
        raise NotPlain("a list of another count")

    def _element(self, opening: re.Match[str], line: str) -> str:
        """Give an element that begins a line: with Markdown in it, or as it stands."""
        name, given = opening["name"], _given(opening["rest"])
        how = given.pop("markdown", None)
        if how is None:
            return self._raw(name)
        told = (f' {key}="{_quoted(value)}"' for key, value in sorted(given.items()))
        tag = "".join([name, *told])
        end = f"</{name}>"
        if how == "span" or (how == "1" and name in HOLD_A_RUN):
            words = line[opening.end() :].removesuffix(end)
            if not line.endswith(end) or end in words:
                raise NotPlain("a run of words that does not end in its line")
            self.at += 1
            return f"<{tag}>{run(words.strip())}{end}"
        if how not in ("1", "block") or line != opening[0]:
            raise NotPlain("an element of another shape")
        self.at += 1
        outer, self.end = self.end, end
        inner = "\n".join(self.blocks())
        self.end = outer
        self.at += 1
        return f"<{tag}>\n{inner}\n{end}"

    def _raw(self, name: str) -> str:
        """Give an element with all in it as it stands, to the line in which it ends."""
        depth, first = 0, self.at
        either = re.compile(rf"<(/?){name}\b[^>]*>")
        while self.at < len(self.lines):
            line = self.lines[self.at]
            self.at += 1
            for tag in either.finditer(line):
                depth += -1 if tag[1] else 1
                if depth == 0 and tag.end() == len(line):
                    return "\n".join(self.lines[first : self.at])
                if depth == 0:
                    raise NotPlain("words after an element")
        raise NotPlain("an element has no end")

    def _paragraph(self) -> str:
        lines = []
        while self.at < len(self.lines) and (line := self.lines[self.at]) not in ("", self.end):
            opening = _OPENING.match(line)
            if opening and opening["name"] in BLOCKS:
                break
            if _OTHER_SHAPE.match(line) or line.endswith("  ") or line.startswith("</"):
                raise NotPlain("a line of another shape")
            if not line.strip():
                raise NotPlain("a line of blanks that are no room")
            lines.append(line)
            self.at += 1
        return f"<p>{run(chr(10).join(lines))}</p>"


def _cells(line: str) -> list[str]:
    if not (line.startswith("| ") and line.endswith(" |")):
        raise NotPlain("a row of another shape")
    return [cell.strip() for cell in line[1:-1].split("|")]


def _row(tag: str, cells: list[str], sides: list[str]) -> list[str]:
    return [f"<{tag}{side}>{run(cell)}</{tag}>" for cell, side in zip(cells, sides, strict=True)]


def _given(text: str) -> dict[str, str]:
    """Give the attributes of an opening tag, each at its value; all of it must be attributes."""
    found = list(_GIVEN.finditer(text))
    if "".join(each[0] for each in found) != text:
        raise NotPlain("an attribute of another shape")
    given = {each["name"]: unescape(each["value"] or "") for each in found}
    given |= {each["name"]: each["name"] for each in found if each["value"] is None}
    if len(given) != len(found):
        raise NotPlain("an attribute told twice")
    return given


def _quoted(value: str) -> str:
    """Give a value as it stands between the quotes of an attribute."""
    return escape(value, quote=False).replace('"', "&quot;")


def run(text: str) -> str:
    """Give a run of words with its links, stresses and elements, as HTML."""
    if not _MARK.search(text):
        return text
    kept: list[str] = []

    def keep(html: str) -> str:
        kept.append(html)
        return f"\x02{len(kept) - 1}\x03"

    def linked(link: re.Match[str]) -> str:
        page = _TO_A_PAGE.fullmatch(link["to"])
        to = f"{page['page']}.html{page['part'] or ''}" if page else link["to"]
        return f"{keep(f'<a href={chr(34)}{to}{chr(34)}>')}{link['words']}{keep('</a>')}"

    if "[" in text:
        text = _LINK.sub(linked, text)
    if "<" in text:
        text = _TAG.sub(lambda tag: keep(tag[0]), text)
    if "*" in text:
        text = _STRONG.sub(r"<strong>\g<words></strong>", text)
        text = _STRESSED.sub(r"<em>\g<words></em>", text)
    if _LEFT.search(_OWN_TAG.sub("", text) if "<" in text else text) or (
        "_" in text and _STRESSES.search(text)
    ):
        raise NotPlain("a sign of another shape")
    if "&" in text:
        text = _BARE_AND.sub("&amp;", text)
    return _KEPT.sub(lambda mark: kept[int(mark[1])], text) if kept else text
