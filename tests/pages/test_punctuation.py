"""Pieces of a line are joined so that no gap is left before a full stop or a comma."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pytest

ARTICLE = re.compile(r"<article.*?</article>", re.DOTALL)
UNSEEN = re.compile(r"<(script|style|svg).*?</\1>", re.DOTALL)
GAP = re.compile(r"[\w)]+[ \u00a0]+[.,;](?=\s|$)", re.MULTILINE)


def gaps(page: str) -> list[str]:
    """Give the words behind which a gap is left, with what follows it."""
    article = ARTICLE.search(page)
    text = unescape(re.sub(r"<[^>]+>", "", UNSEEN.sub("", article[0]))) if article else ""
    return [found[0] for found in GAP.finditer(text)]


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("<b>Apricot</b> . Take care: smell it.", ["Apricot ."]),
        ("<b>Apricot</b>. Take care: smell it.", []),
        ("1.5 kg, .5 l", []),
        ("(dried) , raw", ["dried) ,"]),
    ],
)
def test_a_gap_is_found(line: str, found: list[str]) -> None:
    assert gaps(f"<article><p>{line}</p></article>") == found


def test_no_page_leaves_a_gap(demo_kits: Path) -> None:
    pages = sorted(demo_kits.rglob("*.html"))
    assert len(pages) > 100
    found = {
        page.relative_to(demo_kits).as_posix(): gaps(page.read_text("utf-8")) for page in pages
    }
    assert {path: lines[:3] for path, lines in found.items() if lines} == {}
