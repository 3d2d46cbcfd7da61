"""Leaves are steeped, as any cook would say; powders and food soak."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.pages.trip.book import write_book
from tests.pages.conftest import TEMPLATES
from tests.pages.seen import seen_in
from tests.planning.folders import Record, food, hand, uses
from tests.planning.test_cautions import cooks, dish

LEAF = "water 5 g, carbohydrate 95 g"
TEA = (
    {"do": "soak", "with": ["stuff"], "water": "200 ml", "hot": True, "minutes": 4},
    {"do": "boil", "water": "200 ml", "lid": True},
    {"do": "rest", "with": ["stuff"], "minutes": 4},
)


@pytest.mark.parametrize(
    ("name", "kind", "parts", "steeps"),
    [
        ("Green tea", "drink", LEAF, True),
        ("Früchtetee", "drink", LEAF, True),
        ("Fruktte", "drink", LEAF, True),
        ("Peppermint", "herb", LEAF, True),
        ("Green tea, brewed", "drink", "water 99 g, carbohydrate 1 g", False),
        ("Drinking chocolate", "drink", LEAF, False),
        ("Broth powder", "drink", LEAF, False),
        ("Steak", "meat", LEAF, False),
    ],
)
@pytest.mark.parametrize("steps", [TEA[:1], TEA[1:]], ids=["poured", "boiled-first"])
def test_leaves_steep_in_the_steps_and_in_the_order_of_work(
    tmp_path: Path, name: str, kind: str, parts: str, steeps: bool, steps: tuple[Record, ...]
) -> None:
    stuff = food("stuff", kind, "ready", parts)
    stuff["name"] = name
    recipe = dish(uses(stuff="5 g"), *steps)
    book = write_book(hand(tmp_path, foods=[stuff], **cooks(recipe)).kit(), TEMPLATES)
    for path in ("cook/dish.md", next(path for path in book.markdown if path.startswith("meals/"))):
        words = seen_in(book.markdown[path]).words
        assert ("Let it steep" in words) == steeps, (path, words)
