"""Drawings stand at the steps whose words are hard to picture, found by what is done there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.pages.trip.book import write_book
from builder.pages.trip.dishes import drawings
from builder.pages.trip.dishes.drawings import Drawing
from tests.pages.conftest import TEMPLATES
from tests.planning.folders import Record, hand, uses
from tests.planning.test_cautions import BAKED, FIRE, IN_EMBERS, PRESSED, boiled, cooks, dish

MOST_BYTES = 1500
DRAWN = re.compile(r'(<svg viewBox="0 0 120 84" role="img" aria-label="([^"]*)".*?</svg>)')
ALL = {name: each for name, each in vars(drawings).items() if isinstance(each, Drawing)}
NAMES = {each.shows: name for name, each in ALL.items()}
SNOW = {"water": {"camp": "snow", "treat": "boil"}}
SERVED = dish(
    uses(kernel="40 g"),
    {"do": "boil", "with": ["kernel"], "water": "100 ml"},
    {"do": "serve"},
)
ALIKE = {"party": [{"name": "Ash"}, {"name": "Rowan"}]}
UNLIKE = {
    "party": [
        {"name": "Ash", "sex": "female", "age": 34, "mass": "55 kg", "height": "165 cm"},
        {"name": "Rowan", "sex": "male", "age": 30, "mass": "95 kg", "height": "195 cm"},
    ]
}
ALONE = {"party": [{"name": "Ash"}]}


def drawn(folder: Path, recipe: Record, trip: Record, **day: object) -> dict[str, list[str]]:
    """Give the names of what is drawn, in order, by the kind of page."""
    book = write_book(hand(folder, **cooks(recipe, trip, **day)).kit(), TEMPLATES)
    found: dict[str, list[str]] = {"cook": [], "meals": []}
    for path, text in book.markdown.items():
        for svg, shows in DRAWN.findall(text):
            assert len(svg) < MOST_BYTES
            found[path.split("/")[0]].append(NAMES[shows])
    return found


@pytest.mark.parametrize(
    ("recipe", "trip", "day", "cook", "meal"),
    [
        (
            PRESSED,
            FIRE,
            {},
            ["DROP_DANCES", "FILL_IRON", "TURN_IRON"],
            ["DROP_DANCES", "FILL_IRON", "TURN_IRON"],
        ),
        (BAKED, IN_EMBERS, {}, ["BAKE", "PALM"], ["BAKE", "PALM"]),
        (boiled(), {}, SNOW, ["SNOW"], ["SNOW"]),
        (boiled(), {}, {}, [], []),
        (SERVED, ALIKE, {}, ["SHARE"], ["SHARE"]),
        (SERVED, UNLIKE, {}, [], []),  # no two mugs are filled to one line
        (SERVED, ALONE, {}, [], []),
    ],
)
def test_what_is_done_decides_what_is_drawn(
    tmp_path: Path,
    recipe: Record,
    trip: Record,
    day: Record,
    cook: list[str],
    meal: list[str],
) -> None:
    assert drawn(tmp_path, recipe, trip, **day) == {"cook": cook, "meals": meal}


def test_a_page_draws_the_same_once(tmp_path: Path) -> None:
    twice = {**PRESSED, "steps": [*PRESSED["steps"], *PRESSED["steps"]]}
    assert drawn(tmp_path, twice, FIRE)["meals"] == ["DROP_DANCES", "FILL_IRON", "TURN_IRON"]


def test_the_pocket_page_defines_a_drawing_once_and_shows_it_at_each_step(tmp_path: Path) -> None:
    html = write_book(hand(tmp_path, **cooks(PRESSED, FIRE)).kit(), TEMPLATES).pocket_html
    defined = re.findall(r'<symbol id="drawn-([\w-]+)" viewBox="0 0 120 84">', html)
    assert defined == ["drop-dances", "fill-iron", "turn-iron"]
    shown = re.findall(r'<svg role="img" aria-label="([^"]+)"><use href="#drawn-([\w-]+)"/>', html)
    assert [name for _, name in shown] == defined
    assert {NAMES[shows] for shows, _ in shown} == {"DROP_DANCES", "FILL_IRON", "TURN_IRON"}


@pytest.mark.parametrize("name", ALL)
def test_a_drawing_has_no_colour_of_its_own_and_says_what_it_shows(name: str) -> None:
    assert all(re.fullmatch(r"[-MmLlHhVvCcQqTtAaSsZz0-9., ]+", s.path) for s in ALL[name].strokes)
    assert ALL[name].shows.endswith(".")
