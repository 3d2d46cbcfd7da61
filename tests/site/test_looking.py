"""A fast look finds no page whole that reading it tag by tag finds fault with."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.site.checks import _read_page
from builder.site.looking import look

HEAD = (
    '<!doctype html> <html lang="en"> <head> <link href="kit.css"> <script src="kit.js"></script>'
)
PAGE = (
    f'{HEAD}</head> <body><label for="__x">A</label><article class="a"><h1 id="top">A &lt; b</h1>'
    '<p class="small">Words<br> <a href="day-1.html#eat">1</a> <a href="b.html" class="c">2</a>'
    '<a href="b.html?a=1&amp;b=2" aria-label="&#43; 1 l">3</a></p>'
    '<div class="wide"><table><tr><th scope="col">A</th></tr><tr><td>1</td></tr></table></div>'
    '<ul><li id="how-a">a</li><li id="how-b" class="inner">b</li></ul>'
    '<svg viewBox="0 0 1 1"><line x1="1" y1="2"/><title id="t">T</title></svg>'
    '<script type="application/json" class="figures">{"a": "\\u003cb>"}</script>'
    '</article> <img src="i.svg" alt=""> <script>go(1 > 2)</script></body></html>'
)
# What may stand anywhere, alone or with more of its kind.
BITS = [
    *("<", ">", '"', "'", "/", "</", "<!--", "-->", "&", "=", " ", "\n", "x"),
    *("<p>", "</p>", "<br/>", "<P>", "<b id=x>", '<b id="x">', '<b\nid="x">', '<b ID="x">'),
    *(
        '<a href="x.html">',
        "<a href=x.html>",
        '<A HREF="y.html">',
        '<a href="">',
        '<area href="z">',
    ),
    *('<a href="#gone">', '<a href="#x" title="a > b">', '<a title="<b>" href="q.html">'),
    *("<img src=x onerror=go()>", '<img src="i.svg" srcset="a.png 1x, b.png 2x">', '<img src="">'),
    *('<b onclick="go()">', '<b OnClick="go()">', '<b style="x">', '<b Style="x">'),
    *(
        "<script>",
        "</script>",
        "<SCRIPT>",
        "</SCRIPT>",
        "<script/>",
        '<script src="a.js"></script>',
    ),
    *(
        "<script>a</SCRIPT><img src=e></script>",
        "<script>x></script>",
        '<script><b id="y"></script>',
    ),
    *('<script type="application/json" class="figures">{}</script>', "<style>", "</style>"),
    *("<table>", "</table>", "<th>", "<thead>", "<table><tr><td>1</td></tr></table>"),
    *("<article>", "</article>", '<article class="b">', "<ARTICLE>", '<html lang="">', "<html>"),
    *('<link href="l.css">', '<base href="/">', '<iframe src="f.html">', "<object data='o'>"),
    *(
        '<use xlink:href="u.svg">',
        '<svg><style>a</style><use href="v.svg"/></svg>',
        "<!doctype html>",
    ),
    *(' id="', ' id="top"', 'id="top"', ' href="w.html"', '<li id="how-a">', '<h2 id="top">'),
]
AT = (
    *("<head>", "</head>", "<label", "<h1", "Words", "<td>", "</td>", "1</a>", "</ul>", "{"),
    *("</article>", "<img", "go(", "</body>"),
)
PLACES = sorted({*map(PAGE.index, AT), len(PAGE)})


def assert_no_false_all_clear(page: str) -> None:
    """Hold what was seen at a glance to what reading finds."""
    seen = look(page)
    if seen is None:
        return
    read = _read_page("x.html", page)
    assert read.found == []
    assert seen.ids == read.ids
    assert seen.targets == {(each.address, each.is_loaded) for each in read.targets}


def test_a_page_as_the_tool_writes_it_needs_no_second_look() -> None:
    assert look(PAGE) is not None
    assert_no_false_all_clear(PAGE)


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("bit", BITS)
def test_what_is_odd_anywhere_is_read_tag_by_tag(bit: str, place: int) -> None:
    assert_no_false_all_clear(PAGE[:place] + bit + PAGE[place:])


@given(
    bits=st.lists(st.sampled_from(BITS), min_size=1, max_size=6),
    places=st.lists(st.integers(0, len(PAGE)), min_size=6, max_size=6),
    cut=st.integers(0, 3),
)
@settings(max_examples=2000, deadline=None)
def test_many_odd_bits_together_are_read_tag_by_tag(
    bits: list[str], places: list[int], cut: int
) -> None:
    page = PAGE
    for bit, place in zip(bits, sorted(places, reverse=True), strict=False):
        page = page[:place] + bit + page[place + cut :]
    assert_no_false_all_clear(page)


def test_all_pages_of_the_demo_but_the_pocket_pages_need_no_second_look(demo_kits: Path) -> None:
    pages = [page for page in sorted(demo_kits.glob("*/**/*.html")) if ".built" not in page.parts]
    assert len(pages) > 100
    odd = [page.name for page in pages if not look(page.read_text("utf-8"))]
    assert set(odd) <= {"pocket.html"}
    for page in pages[::7]:
        assert_no_false_all_clear(page.read_text("utf-8"))
