"""A meal step by step: amounts where they go in, told for what they fill."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.pages.trip.book import Book, write_book
from tests.pages.conftest import TEMPLATES
from tests.pages.seen import seen_in
from tests.planning.folders import food, hand, uses
from tests.planning.test_cautions import cooks, dish

STEPS = (
    {"do": "boil", "water": "400 ml"},
    {"do": "rest", "with": ["flakes"], "minutes": 4, "say": "Stir <flakes> in."},
)


@pytest.mark.parametrize(
    ("vessel", "told"),
    [
        ("mug", "In each mug: Stir 30 g flakes in."),  # each of two fills their own
        ("pot", "Let stand 5 min. Stir 60 g flakes in."),  # and "Add flakes" is not told as well
    ],
)
def test_words_of_a_recipe_say_whether_their_amounts_are_for_one_mug(
    tmp_path: Path, vessel: str, told: str
) -> None:
    flakes = food("flakes", "grain", "ready", "water 5 g, carbohydrate 95 g")
    recipe = dish(uses(flakes="30 g"), *STEPS, cook_in=vessel)
    book = write_book(hand(tmp_path, foods=[flakes], **cooks(recipe)).kit(), TEMPLATES)
    (page,) = (text for path, text in book.markdown.items() if path.startswith("meals/"))
    words = seen_in(page).words.replace("\u00a0", " ")
    assert told in words
    assert ("In each mug" in words) == (vessel == "mug")


def test_words_of_a_recipe_stand_before_what_follows_them(tmp_path: Path) -> None:
    flakes = food("flakes", "grain", "ready", "water 5 g, carbohydrate 95 g")
    steps = (
        {"do": "boil", "water": "400 ml"},
        {"do": "mix", "with": ["flakes"], "say": "Off the heat stir in <flakes>."},
        {"do": "rest", "minutes": 4},
        {"do": "serve", "say": "Fluff up."},
    )
    recipe = dish(uses(flakes="30 g"), *steps, cook_in="pot")
    book = write_book(hand(tmp_path, foods=[flakes], **cooks(recipe)).kit(), TEMPLATES)
    (page,) = (text for path, text in book.markdown.items() if path.startswith("meals/"))
    words = seen_in(page).words.replace("\u00a0", " ")
    parts = ("Mix. Off the heat stir in 60 g flakes.", "Let stand 5 min.", "Serve. Fluff up.")
    places = [words.index(part) for part in parts]
    assert places == sorted(places)
    # Once in each system of units, of which one is seen.
    assert (words.count("60 g flakes"), words.count("flakes")) == (1, 2)


@pytest.mark.parametrize(
    ("units", "first", "other"), [("metric", "74 °C", "166 °F"), ("us", "166 °F", "74 °C")]
)
def test_a_quantity_in_the_words_of_a_recipe_is_told_in_the_units_of_the_trip(
    tmp_path: Path, units: str, first: str, other: str
) -> None:
    flakes = food("flakes", "grain", "ready", "water 5 g, carbohydrate 95 g")
    steps = (
        {"do": "boil", "water": "400 ml"},
        {"do": "mix", "with": ["flakes"], "say": "Let <flakes> get {74 degC|166 degF} hot."},
    )
    trip = cooks(dish(uses(flakes="30 g"), *steps, cook_in="pot"))
    trip["trip"]["units"] = units
    book = write_book(hand(tmp_path, foods=[flakes], **trip).kit(), TEMPLATES)
    pages = [text for path, text in book.markdown.items() if path.startswith(("meals/", "cook/"))]
    assert len(pages) == 2
    for page in pages:
        words = page.replace("\u00a0", " ")
        assert re.search(rf"get {first} <span class=\"small[^>]*>{other}</span> hot\.", words), (
            words
        )


def test_irons_are_waited_for_by_their_test_and_not_by_a_timer(book: Book) -> None:
    page = book.markdown["meals/day-2-dinner.md"]
    assert "a drop of water dances on them" in page
    assert page.count('class="timer"') == 2  # the fire, and each side
