"""Those who do not see a page are told what a table and a row are about, and where a link leads."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pytest

from builder.site.finishing.access import with_captions, with_named_links, with_row_heads
from builder.speech import speech_of

CAPTION = '<caption class="kit-unseen">{}</caption>'


def test_a_table_has_the_words_above_it_as_its_caption() -> None:
    html = (
        '<table>0</table><h2>Wa<b>ter</b></h2><p>x</p><table>1</table><table class="nums">2</table>'
        "<figcaption>Energy</figcaption><table>3</table>"
    )
    assert with_captions(html) == (
        "<table>0</table><h2>Wa<b>ter</b></h2><p>x</p>"
        f"<table>{CAPTION.format('Water')}1</table>"
        f'<table class="nums">{CAPTION.format("Water")}2</table>'
        f"<figcaption>Energy</figcaption><table>{CAPTION.format('Energy')}3</table>"
    )


def test_the_first_cell_of_a_row_is_its_head_and_heads_of_columns_stay() -> None:
    rows = '<tr> <th scope="col">a</th></tr><tr> <td class="num">1</td><td>2</td></tr>'
    assert with_row_heads(rows) == (
        '<tr> <th scope="col">a</th></tr><tr> <th scope="row" class="num">1</th><td>2</td></tr>'
    )


@pytest.mark.parametrize(
    "words", ["14.18&nbsp;kg", "3,412 kcal", "1\u00a0h 38\u00a0min", "95 %", "0.9"]
)
def test_a_mere_figure_is_named_by_what_it_leads_to(words: str) -> None:
    html = with_named_links(f'<a href="numbers.html#how-x">{words}</a>', speech_of("en"))
    assert html == (
        f'<a href="numbers.html#how-x" aria-label="{words}: how it came about">{words}</a>'
    )


@pytest.mark.parametrize(
    "link",
    [
        '<a href="numbers.html#how-x">1 batch</a>',
        '<a href="day-1.html">Day 1</a>',
        '<a href="a.html">More</a>',
        '<a href="a.html" aria-label="Day 1">1</a>',
        '<a href="a.html"><svg></svg></a>',
    ],
)
def test_what_has_a_word_keeps_its_name(link: str) -> None:
    assert with_named_links(link, speech_of("en")) == link


UNITS = frozenset(
    {"g", "kg", "mg", "ml", "l", "min", "h", "s", "d", "kcal", "kJ", "MJ", "oz", "lb", "gal"}
    | {"cup", "cups", "fl", "tsp", "tbsp", "mug", "mugs", "m", "km", "cm", "ft", "mi", "in"}
    | {"C", "F", "W", "kW", "Wh", "kWh", "hPa", "inHg"}
)
TABLE = re.compile(r"<table\b.*?</table>", re.S)
CONTROL = re.compile(r"<(?P<name>a|button)\b(?P<given>[^>]*)>(?P<words>.*?)</(?P=name)>", re.S)


def pages(kits: Path) -> list[Path]:
    found = [
        page
        for page in sorted(kits.rglob("*.html"))
        if "numbers" not in page.relative_to(kits).as_posix() and "labels-" not in page.name
    ]
    assert len(found) > 60
    return found


def test_every_table_of_the_demo_has_a_caption_and_each_of_its_rows_a_head(
    demo_kits: Path,
) -> None:
    bare = []
    for page in pages(demo_kits):
        for table in TABLE.findall(page.read_text("utf-8")):
            # The pocket page leaves out the ends of cells and rows.
            rows = re.split(r"<tr\b[^>]*>", table.partition("<tbody>")[2])[1:]
            headed = all(re.match(r"\s*<th scope=\"?row", row) for row in rows)
            if "<caption" not in table or not headed:
                bare.append((page.relative_to(demo_kits).as_posix(), table[:80]))
    assert bare == []


def test_every_link_and_button_of_the_demo_is_named_by_a_word(demo_kits: Path) -> None:
    nameless = set()
    for page in pages(demo_kits):
        for control in CONTROL.finditer(page.read_text("utf-8")):
            label = re.search(r'(?:aria-label|title)="([^"]*)"', control["given"])
            shown = re.sub(r"<[^>]*>", "", control["words"])
            name = unescape(label[1] if label else shown)
            if not set(re.findall(r"[^\W\d_]+", name)) - UNITS:
                nameless.add((page.relative_to(demo_kits).as_posix(), control[0][:120]))
    assert nameless == set()
