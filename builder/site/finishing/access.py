"""What those who do not see a page are told: heads of rows, captions of tables, names of links."""

from __future__ import annotations

import re
from html import unescape

from builder.speech import Speech

# What a table stands under, and the tables themselves. A search that can leap from one "<" to the
# next takes a seventh of the time.
_PART = re.compile(
    r"<(?:(?P<name>h[1-6]|figcaption)\b[^>]*>(?P<words>.*?)</(?P=name)>|(?P<table>table\b[^>]*>))",
    re.S,
)
_FIRST_CELL = re.compile(r"(<tr>\s*)<td(?P<given>[^>]*)>(?P<words>.*?)</td>", re.S)
_TAG = re.compile(r"<[^>]*>")
# A link to how a figure came about.
_LINK = re.compile(r'<a (?P<given>[^>]*href="[^"]*numbers[^"]*#[^>]*)>(?P<words>[^<]*)</a>')
_LETTERS = re.compile(r"[^\W\d_]+")
_LONGEST_UNIT = 4  # letters; a longer word is none


def with_captions(html: str) -> str:
    """Give each table the words it stands under as its caption, which is read and not seen."""
    above = ""

    def captioned(part: re.Match[str]) -> str:
        nonlocal above
        if part["table"] is None:
            above = _TAG.sub("", part["words"]).strip()
            return part[0]
        caption = f'<caption class="kit-unseen">{above}</caption>' if above else ""
        return part[0] + caption

    return _PART.sub(captioned, html)


def with_row_heads(rows: str) -> str:
    """Let the first cell of each row be the head of it."""
    return _FIRST_CELL.sub(r'\1<th scope="row"\g<given>>\g<words></th>', rows)


def with_named_links(html: str, say: Speech) -> str:
    """Name each link that is a mere figure by what it leads to, besides the figure."""

    def named(link: re.Match[str]) -> str:
        words = unescape(link["words"])
        if "aria-label" in link["given"] or not words.strip() or not _is_figure(words):
            return link[0]
        name = say("{figure}: how it came about", figure=link["words"])
        return f'<a {link["given"]} aria-label="{name}">{link["words"]}</a>'

    return _LINK.sub(named, html)


def _is_figure(words: str) -> bool:
    """Tell whether a text holds a number, and no word that is more than a unit."""
    return any(each.isdigit() for each in words) and all(
        len(found) <= _LONGEST_UNIT for found in _LETTERS.findall(words)
    )
