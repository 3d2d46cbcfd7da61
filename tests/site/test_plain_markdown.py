"""What is rendered fast is what Python-Markdown, the renderer of record, makes of the same page."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from markdown import Markdown

from builder.cli.planner import planned_kits
from builder.model.kit import Kit
from builder.pages.ink import cell, line
from builder.pages.trip.book import write_book
from builder.reading.folder import Layer, read_folder
from builder.record import replace
from builder.site.rendering.plain_markdown import NotPlain, Rendered, render

ROOT = Path(__file__).resolve().parents[2]
EXTENSIONS = yaml.safe_load((ROOT / "mkdocs.yml").read_text("utf-8"))["markdown_extensions"]
NAMES = [next(iter(each)) if isinstance(each, dict) else each for each in EXTENSIONS]

SHAPES = {
    "heading": "# Day 2: *Up* {#top}\n\n## Water {#water}\n\n### Water\n\n### Water\n",
    "heading with an entity": "## Rye &amp; oats &#8211; 2 {#a-b_c}\n",
    "words": "Two lines\nof *one* paragraph, **strong** and plain.\n\nAnother &amp; last.",
    "an and alone": "Salt & pepper, R&D; &copy; and &#58;",
    "link": "[Water](water.md#top), [out](https://example.org/a_b.md), [file](runs.ics)",
    "link up": "[Up](../day-1.md) · [here](#top)",
    "link with an element": '[<span class="small">a</span>](cook/a_b_c.md)',
    "element in a line": '<span class="small">1 <strong>l</strong></span> snake_case <br>',
    "list": "- one\n- **two** [a](b.md)\n- three\n\nAfter.",
    "numbered": "1. one\n2. two\n",
    "table": "| A | *B* |\n| --- | --: |\n| 1 | [2](a.md) |\n|  | 3 &#124; 4 |\n\nAfter.",
    "table in the middle": "| A | B |\n| :-: | --- |\n| 1 | 2 |\n",
    "element with blocks": '<div class="b" id="a" markdown="1">\nWords.\n\n- one\n</div>\n\nAfter.',
    "elements in elements": '<dl class="g" markdown="1">\n<div markdown="1">\n'
    '<dt markdown="span">A *b*</dt>\n<dd markdown="span">[1](a.md)</dd>\n</div>\n</dl>\n',
    "item of words": '<ul markdown="1" data-x>\n<li id="s" markdown="span">**A** b</li>\n</ul>',
    "quoted attribute": '<div data-n="&#91;&#34;A &amp; B&#34;&#93;" markdown="1">\nA\n</div>',
    "raw element": "<ul>\n<li>a *b* [c](d.md)</li>\n\n<li><ul><li>x</li></ul></li>\n</ul>\n",
    "raw after words": 'Start.\n<ol class="a">\n<li>*b*</li>\n</ol>\n\nAfter.',
    "raw without its own lines": '<figure class="chart"><svg id="s"></svg></figure>\n',
}
REFUSED = {
    "blanks that are no room": "a\n\n\u00a0\n\nb\n",
    "code": "Type `tripkit`.",
    "code by its edge": "    tripkit build",
    "a tab": "a\tb",
    "a list in a list": "- a\n    - b",
    "a list after words": "Words\n- a",
    "items that stand apart": "- a\n\n- b",
    "an item of two lines": "- a\n  b",
    "another count": "3. a\n4. b",
    "a rule": "Words\n\n---\n",
    "the heads of a table alone": "| a | b |",
    "a heading by a line": "Words\n===",
    "a heading with more": "# A {#a .b}",
    "a quote": "> a",
    "a box": '!!! note "A"\n    b',
    "a term": "A\n:   b",
    "a footnote": "A[^1]",
    "a picture": "![a](b.png)",
    "a link told below": "[a][b]\n\n[b]: c.md",
    "a title of a link": '[a](b.md "c")',
    "attributes": "Words {.a}",
    "an escape": "a \\* b",
    "stress by a line": "_a_",
    "a star alone": "2 * 3",
    "three stars": "***a***",
    "an element that never ends": "<div>\n<p>a</p>",
    "blocks that never end": '<div markdown="1">\na',
    "words after an element": "<ul><li>a</li></ul> b",
    "a sign alone": "1 < 2",
    "a row too short": "| A | B |\n| --- | --- |\n| 1 |",
    "a row that is open at its end": "| A | B |\n| --- | --- |\n| 1 | 2",
    "a row that is open at its start": "| A | B |\n| --- | --- |\n1 | 2 |",
    "a row that is open at both": "| A | B |\n| --- | --- |\n|1 | 2|",
    "a table of another shape": "A | B\n--- | ---\n1 | 2",
    "a line broken by blanks": "a  \nb",
    "an address": "<https://example.org>",
    "a comment": "<!-- a -->",
}


def by_the_book(page: str) -> tuple[str, list[tuple[int, str, str]]]:
    """Give a page's HTML and headings as Python-Markdown reads it, links led to pages as HTML."""
    md: Any = Markdown(extensions=NAMES)
    html = re.sub(r"<!-- /?ready -->", "", md.convert(page))
    linked = re.sub(r'(<a href="[^":#?]+)\.md(?=[#"])', r"\1.html", html)
    return same(linked), [*flat(md.toc_tokens)]


def flat(tokens: list[dict[str, Any]]) -> Iterator[tuple[int, str, str]]:
    """Give nested headings one after the other."""
    for token in tokens:
        yield token["level"], token["id"], token["name"]
        yield from flat(token["children"])


# A blank at the edge of a block is not shown.
EDGE = re.compile(r" ?(</?(?:h[1-6]|p|[uo]l|li|d[ltd]|div|t[hdr]|table|thead|tbody)\b[^>]*>) ?")


def same(html: str) -> str:
    """Give HTML without the room at the edges of its blocks, which nobody sees."""
    return EDGE.sub(r"\1", re.sub(r"\s+", " ", html)).strip()


def told(rendered: Rendered) -> tuple[str, list[tuple[int, str, str]]]:
    """Give what was rendered in the form of `by_the_book`."""
    return same(rendered.html), [(each.level, each.id, each.name) for each in rendered.headings]


@pytest.mark.parametrize("page", SHAPES.values(), ids=SHAPES)
def test_each_shape_is_rendered_by_the_book(page: str) -> None:
    assert told(render(page)) == by_the_book(page)


@pytest.mark.parametrize("page", REFUSED.values(), ids=REFUSED)
def test_all_else_is_refused(page: str) -> None:
    with pytest.raises(NotPlain):
        render(page)


FORMS = (
    "# {} {{#top}}\n",
    "{}\n",
    "A **{}** and *b*\n",
    "[{}](day-1.md#a)\n",
    '<span class="small">{}</span> after\n',
    "- {}\n- b\n",
    '<li markdown="span">{}</li>\n',
    '<div markdown="1">\n{}\n\n- {}\n</div>\n',
    "| {} | B |\n| --- | --: |\n| {} | 2 |\n",
    '<p data-name="{}" markdown="span">a</p>\n',
)


@given(form=st.sampled_from(FORMS), words=st.text(max_size=30))
@settings(max_examples=300, deadline=None)
def test_what_a_person_writes_stays_by_the_book(form: str, words: str) -> None:
    written = cell(words) if "|" in form else line(words)
    page = form.replace("{}", written).replace("{{", "{").replace("}}", "}")
    try:
        rendered = render(page)
    except NotPlain:
        return
    assert told(rendered) == by_the_book(page)


@pytest.mark.parametrize(
    "words", ["Ash", "2 * 3 < 4 & _x_ `y` [z](u) {#v} | w", "- a", "1. b", "# c"]
)
@pytest.mark.parametrize("form", FORMS)
def test_what_a_person_writes_is_nearly_always_plain(form: str, words: str) -> None:
    page = form.replace("{}", cell(words)).replace("{{", "{").replace("}}", "}")
    assert told(render(page)) == by_the_book(page)


@pytest.fixture(scope="module")
def kits() -> list[Kit]:
    """Give the demo kits, planned."""
    folder = read_folder([Layer(ROOT / "content", "content")])
    return planned_kits(folder, lambda known, _: sorted(known))[0]


@pytest.mark.parametrize("language", ["en", "de", "nb"])
def test_the_pages_of_the_demo_are_plain_and_by_the_book(kits: list[Kit], language: str) -> None:
    # Another language says the same kit anew; one kit each is enough of them.
    chosen = kits if language == "en" else kits[:1]
    for kit in chosen:
        pages = write_book(replace(kit, language=language), ROOT / "site_templates").markdown
        assert_plain(pages)


def assert_plain(pages: Mapping[str, str]) -> None:
    """Hold each page to the book."""
    for path, page in pages.items():
        text = page.split("\n---\n", 1)[1] if page.startswith("---\n") else page
        try:
            rendered = render(text)
        except NotPlain as why:
            pytest.fail(f"{path} is not plain, so it takes long to build: {why}")
        assert told(rendered) == by_the_book(text), path
