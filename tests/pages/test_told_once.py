"""Nothing is told twice on the page of a day."""

from __future__ import annotations

import re
from collections import Counter
from html import unescape
from pathlib import Path

import pytest

ARTICLE = re.compile(r"<article.*?</article>", re.S)
# What a script shows instead, in the other units, is not read beside it.
UNSEEN = re.compile(
    r"<(script|style|svg|caption).*?</\1>|<span[^>]* hidden\b[^>]*>[^<]*</span>", re.S
)
# Which caution it is stands over each of its reasons.
NAME_OF_CAUTION = re.compile(r"(?<=<p>)<strong>[^<]*</strong>")
NEW_LINE = re.compile(r"<(?:h[1-6]|li|p|dt|div|br|dd|tr)\b[^>]*>")
SENTENCE_ENDS = re.compile(r"(?<=[.:;])\s+")
LEAST_WORDS = 3  # what is shorter is a name: of a meal, of a row
LABELS = {"Soak on the way"}  # the name of a line, of which there is one for each dish


def told_twice(page: str) -> list[str]:
    """Give each sentence, and each line of a figure, that a reader comes by more than once."""
    article = ARTICLE.search(page)
    assert article is not None
    lines = NEW_LINE.sub("\n", NAME_OF_CAUTION.sub("", UNSEEN.sub("", article[0])))
    text = unescape(re.sub(r"<[^>]+>", "", lines)).replace("\u00a0", " ")
    parts = [
        " ".join(part.split()).strip(".:;")
        for line in text.splitlines()
        for part in SENTENCE_ENDS.split(line)
    ]
    counted = Counter(part for part in parts if len(part.split()) >= LEAST_WORDS)
    return [part for part, times in counted.items() if times > 1 and part not in LABELS]


@pytest.mark.parametrize(
    ("more", "found"),
    [
        ("<p>Start 41 min before you eat.</p>", ["Start 41 min before you eat"]),
        ("<li>Fuel: 49 g of gas</li>", ["49 g of gas"]),
        ("<p>Start 40 min before you eat.</p>", []),
        ("<h3>Dinner</h3>", []),
    ],
)
def test_a_line_told_twice_is_found(more: str, found: list[str]) -> None:
    page = (
        "<article><h3>Dinner</h3><p>Start 41\u00a0min before you eat.</p>"
        f"<ul><li>Fuel: 49 g of gas</li></ul>{more}</article>"
    )
    assert told_twice(page) == found


def test_nothing_is_told_twice_on_the_page_of_a_day(demo_kits: Path) -> None:
    pages = sorted(demo_kits.glob("*/day-*.html"))
    assert len(pages) > 10
    found = {
        f"{page.parent.name}/{page.name}": twice
        for page in pages
        if (twice := told_twice(page.read_text("utf-8")))
    }
    assert found == {}


def test_a_dish_tells_its_minutes_only_where_the_meal_takes_longer(demo_kits: Path) -> None:
    page = (demo_kits / "tarrow-tops" / "day-2.html").read_text("utf-8")
    words = unescape(re.sub(r"<[^>]+>", "", page)).replace("\u00a0", " ")
    assert "Coconut chickpea curry, 830 g" in words
    assert "Start 50 min before you eat" in words
    # Two dishes take turns at one stove: each has minutes of its own.
    assert "Apple and cinnamon oats, 27 min, 716 g" in words
