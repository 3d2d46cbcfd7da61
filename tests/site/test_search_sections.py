"""What search finds on a page is what the theme's own search plugin finds there."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from material.plugins.search.plugin import Parser

from builder.site.rendering.plain_markdown import NotPlain
from builder.site.search.search_sections import sections

SHAPES = {
    "title alone": '<h1 id="top">Day 2</h1>',
    "words between": '<h1 id="top">A &amp; B</h1>\n<p>Two\nlines &lt; <b>x</b></p>\n<p>y</p>',
    "more headings": '<h1 id="top">A</h1>\n<h2 id="b">B <em>c</em></h2>\n<p>d</p><h3 id="e">E</h3>',
    "a list": '<h1 id="top">A</h1><ul>\n<li>a</li>\n<li>b <span class="s">c</span></li>\n</ul>',
    "left out": '<h1 id="top">A</h1><ul data-search-exclude><li>a <b>b</b></li></ul><p>c</p>',
    "a script": '<h1 id="top">A</h1><p>b</p><script type="a/json">{"a": 1}</script><p>c</p>',
    "nothing in it": '<h1 id="top">A</h1><p> </p>\n<p><br></p><p>d</p>',
    "a table": '<h1 id="top">A</h1><table><tr><th>a</th>\n<td>1 <code>b_c</code></td></tr></table>',
    "nothing to end": '<h1 id="top">A</h1><p>a<br>b <input type="checkbox"> c</p>',
    "a comment": '<h1 id="top">A</h1><p>a<!-- b -->c</p>',
    "a drawing": '<h1 id="top">A</h1><svg><rect x="1"/><text x="2">b</text></svg><p>c</p>',
    "a heading without an id": '<h1 id="top">A</h1><h2>b</h2><p>c</p><h2 id="d">D</h2><p>e</p>',
}
NOT_PLAIN = {
    "words first": '<p>a</p><h1 id="top">A</h1>',
    "no heading": "<p>a</p>",
    "a heading inside": '<h1 id="top">A</h1><div><h2 id="b">B</h2></div>',
    "a heading left out": '<h1 id="top">A</h1><h2 id="b" data-search-exclude>B</h2>',
    "text as it stands": '<h1 id="top">A</h1><pre>a  b\nc</pre>',
    "ends crossed": '<h1 id="top">A</h1><p><b>a</p></b>',
}


def by_the_theme(article: str) -> list[tuple[str, str, str]]:
    """Give what the theme's own reader finds."""
    parser: Any = Parser()
    parser.feed(article)
    parser.close()
    return [
        (each.id or "", "".join(each.title).strip(), "".join(each.text).strip())
        for each in parser.data
        if not each.is_excluded()
    ]


def told(article: str) -> list[tuple[str, str, str]]:
    """Give what we find, in the same form."""
    return [
        (each.id, "".join(each.title).strip(), "".join(each.text).strip())
        for each in sections(article)
    ]


@pytest.mark.parametrize("article", SHAPES.values(), ids=SHAPES)
def test_each_shape_is_found_as_the_theme_finds_it(article: str) -> None:
    assert told(article) == by_the_theme(article)


@pytest.mark.parametrize("article", NOT_PLAIN.values(), ids=NOT_PLAIN)
def test_all_else_is_left_to_the_theme(article: str) -> None:
    with pytest.raises(NotPlain):
        sections(article)


def test_the_pages_of_the_demo_are_found_as_the_theme_finds_them(demo_kits: Path) -> None:
    pages = [
        page
        for page in sorted(demo_kits.glob("*/**/*.html"))
        if "<article" in page.read_text("utf-8") and "numbers" not in page.as_posix()
    ]
    assert len(pages) > 60, "so few pages hold nothing to this"
    for page in pages:
        html = page.read_text("utf-8")
        article = html[
            html.index(">", html.index("<article")) + 1 : html.rindex("</article>")
        ].strip()
        assert told(article) == by_the_theme(article), page
