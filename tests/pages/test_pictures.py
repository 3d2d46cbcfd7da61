"""Pictures stand where they belong, each once, and in no kit for everybody."""

from __future__ import annotations

import re
from pathlib import Path

from builder.pages.pictures import pictures_of
from builder.pages.trip.book import write_book
from builder.planning.public import public_kit
from tests.pages.conftest import TEMPLATES
from tests.pictured import field, saved
from tests.planning.folders import Record, hand, uses
from tests.planning.test_cautions import cooks, dish

SHOWN = re.compile(r'<img src="([^"]*)" alt="([^"]*)" width="(\d+)" height="(\d+)"')


def picture(shows: str) -> Record:
    return {"picture": {"file": "p.png", "shows": shows}}


def test_each_picture_stands_where_it_belongs(tmp_path: Path) -> None:
    # More than the largest pot takes at once: the step is done twice.
    steps: list[Record] = [
        {"do": "boil", "with": ["kernel"], "water": "1800 ml", **picture("The boil")},
        {"do": "simmer", "minutes": 5},
    ]
    recipe = dish(uses(kernel="400 g"), *steps, **picture("The dish"))
    folder = cooks(recipe, picture("The ridge"), **picture("The camp"))
    for room in ("recipes", "trips"):
        (tmp_path / room).mkdir()
        (tmp_path / room / "p.png").write_bytes(saved(field(60, 40), "PNG"))
    made = hand(tmp_path, **folder)
    kit = made.kit()
    assert kit.days[0].meals[0].potfuls > 1
    book = write_book(kit, TEMPLATES)
    found = {
        path: [(shows, src.removeprefix("../"), wide, high) for src, shows, wide, high in told]
        for path, text in book.markdown.items()
        if (told := SHOWN.findall(text))
    }
    (lies,) = {each.path for each in pictures_of(kit) if each}
    assert found == {
        "index.md": [("The ridge", lies, "60", "40")],
        "day-1.md": [("The camp", lies, "60", "40")],
        "meals/day-1-dinner.md": [("The boil", lies, "60", "40")],
        "cook/dish.md": [("The boil", lies, "60", "40"), ("The dish", lies, "60", "40")],
    }
    assert set(pictures_of(public_kit(kit, made.content))) == {None}
