"""What a script needs on a recipe's page to follow who eats and how high the camp is."""

from __future__ import annotations

import dataclasses
import html
import json
import re
from pathlib import Path
from typing import Any

import pytest

from builder.model.kit import Kit
from builder.pages.trip.book import Book, write_book
from builder.planning.cooking.scaling import scaling_data
from builder.planning.public import without_people
from tests.pages.conftest import TEMPLATES
from tests.pages.dishes import POCKETS, PULSE, STEW, TEA
from tests.pages.seen import Seen, seen_in
from tests.planning.folders import day, day_trip, hand


@pytest.fixture(scope="module")
def kit(tmp_path_factory: pytest.TempPathFactory) -> Kit:
    meals = {
        "dinner": [{"cook": "stew", "from": {"pulse": "pulse-box"}}, {"cook": "pockets"}],
        "drinks": [{"cook": "tea"}],
    }
    trip = day_trip(
        fire={"allowed": True, "irons": ["one-iron"], "wood_moisture": "20 %"}, days=[day(meals)]
    )
    folder = tmp_path_factory.mktemp("followed")
    return hand(Path(folder), trip, [STEW, POCKETS, TEA], [PULSE]).kit()


@pytest.fixture(scope="module")
def whole(kit: Kit) -> Book:
    return write_book(kit, TEMPLATES)


def page(book: Book, recipe: str) -> Seen:
    return seen_in(book.markdown[f"cook/{recipe}.md"])


def marked(seen: Seen, name: str) -> list[dict[str, str | None]]:
    return [given for _, given in seen.tags if name in str(given.get("class") or "").split()]


def cooking(seen: Seen) -> Any:
    (party,) = marked(seen, "party")
    return json.loads(party["data-cooking"] or "")


@pytest.mark.parametrize(("place", "recipe"), [(0, "stew"), (1, "pockets"), (2, "tea")])
def test_the_page_carries_what_times_and_counts_hang_on(
    kit: Kit, whole: Book, place: int, recipe: str
) -> None:
    assert cooking(page(whole, recipe)) == scaling_data(kit.days[0].meals[place])


def test_names_that_hold_signs_stay_text(kit: Kit) -> None:
    nasty = 'E"a | <b>'
    meals = tuple(
        dataclasses.replace(meal, eaters=(nasty, *meal.eaters[1:])) for meal in kit.days[0].meals
    )
    days = (dataclasses.replace(kit.days[0], meals=meals),)
    seen = page(write_book(dataclasses.replace(kit, days=days), TEMPLATES), "stew")
    assert cooking(seen)["eaters"] == [nasty, "Bo"]
    assert "b" not in seen.names


def test_a_public_page_names_nobody(kit: Kit) -> None:
    text = write_book(without_people(kit), TEMPLATES).markdown["cook/stew.md"]
    data = json.loads(html.unescape(re.findall(r'data-cooking="([^"]*)"', text)[0]))
    assert data["eaters"] == []


def test_minutes_are_marked_with_those_at_sea_level(whole: Book) -> None:
    lasts = marked(page(whole, "stew"), "lasts")
    assert [(given["data-minutes"], given.get("data-by-height")) for given in lasts] == [
        ("10", None),
        ("10", "1"),
    ]


def test_time_boiling_point_and_height_are_marked_in_both_units(whole: Book) -> None:
    seen = page(whole, "stew")
    assert len(marked(seen, "takes")) == 1
    for name in ("boils-at", "height"):
        assert [given["data-units"] for given in marked(seen, name)] == ["metric", "us"]


def test_pieces_at_a_time_are_marked_with_what_they_hang_on(whole: Book) -> None:
    (at_once,) = marked(page(whole, "pockets"), "at-once")
    assert (at_once["data-pieces"], at_once["data-presses"]) == ("4", "4")


def test_a_meal_that_is_not_worked_out_has_nothing_to_follow(book: Book) -> None:
    (party,) = marked(page(book, "smoky-bean-pot"), "party")
    assert "data-cooking" not in party
