"""Tags are read as a browser would, also from broken pages."""

from __future__ import annotations

import time
from html.parser import HTMLParser

import pytest

from builder.site.finishing.tags import line_and_column, read_tags, tag_but_plain


class Library(HTMLParser):
    """The library's slower reader, as a second opinion."""

    def __init__(self) -> None:
        super().__init__()
        self.seen: list[tuple[str, dict[str, str]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given: dict[str, str] = {}
        for name, value in attrs:
            given.setdefault(name, value or "")
        self.seen.append((tag, given))


@pytest.mark.parametrize(
    "html",
    [
        "<p>a < b > c</p>",
        '<a href="x>y" title=\'a"b\' hidden data-x=1>t</a>',
        "<IMG SRC='a.png' ALT=\"&lt;b&gt; &amp; c\"/>",
        "<script>if (a < b) { x = '<p onclick=1>'; }</script><p id=a>",
        "<style>a > b {}</style><b>",
        "<!-- <p id='no'> --><p id='yes'>",
        "<svg><path d='M0 0'/><use xlink:href='#a'/></svg>",
        "<br/><input disabled><td\nclass='num'\n>",
        "<p id='a' id='b'>",
        "<<p>",
        "",
    ],
)
def test_the_library_reads_the_same(html: str) -> None:
    library = Library()
    library.feed(html)
    library.close()
    ours = [(tag.name, dict(tag.attributes)) for tag in read_tags(html) if not tag.is_end]
    assert ours == library.seen


def test_positions_become_lines_and_columns() -> None:
    html = "<p>\n\n  <b>"
    assert [line_and_column(html, tag.position) for tag in read_tags(html)] == [(1, 1), (3, 3)]


@pytest.mark.parametrize("html", ["<p " + "a=' " * 20_000, "<" * 50_000, "<!--" * 20_000])
def test_broken_pages_take_no_longer(html: str) -> None:
    start = time.process_time()
    list(read_tags(html))
    assert time.process_time() - start < 2


@pytest.mark.parametrize(
    ("html", "told"),
    [
        ('<p><td class="num">a</td></p>', []),
        ('<td class="num" id="a"><td class="num" onclick="b">', ["td", "td"]),
        ('<table><th scope="col">a</th></table>', ["table", "th", "table"]),
        ("<p>a</p ><p\n>", ["p", "p"]),
        ("<theory><tables>", []),
        ("<P><TABLE></TABLE>", ["p", "table", "table"]),
        ("<script>if (a <table> b)</script><td>", ["script"]),
        ("<!-- <table> --><table>", ["table"]),
        ('<td class="<table>"><td title="<table>">', ["td", "td"]),
        ("<table", []),
    ],
)
def test_plain_tags_are_leapt_over_and_what_tells_something_is_not(
    html: str, told: list[str]
) -> None:
    pattern = tag_but_plain(starts=("table", "th"), ends=("table",))
    found = list(read_tags(html, pattern))
    assert [tag.name for tag in found] == told
    assert all(tag in list(read_tags(html)) for tag in found)
