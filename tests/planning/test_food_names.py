"""Food is named by what it is now: how it went into the dryer, and what came out."""

from __future__ import annotations

import gettext
import re
from pathlib import Path

import pytest

from builder.pages.trip.book import write_book
from builder.planning.naming import dried_name, told_apart
from builder.speech import speech_of, spoken
from tests.pages.conftest import TEMPLATES
from tests.planning.folders import Record, batch_of, day, day_trip, hand

ENGLISH = speech_of("en")


WORDS = {
    "{food}, freeze-dried raw": "{food}, roh gefriergetrocknet",
    "{food}, cooked and dried": "{food}, gegart und getrocknet",
    "{food}, dried": "{food}, getrocknet",
    "raw": "roh",
    "cooked": "gekocht/gegart",
}


class German(gettext.NullTranslations):
    """Says a few words of German."""

    def gettext(self, message: str) -> str:
        return WORDS.get(message, message)

    def pgettext(self, context: str, message: str) -> str:
        return self.gettext(message)


GERMAN = spoken(German(), "de")


@pytest.mark.parametrize(
    ("name", "state", "method", "how", "now"),
    [
        # Raw meat, fish and egg stay raw in name, however they are listed.
        (
            "Reindeer, inner thigh, raw",
            "raw",
            "freeze-dryer",
            "raw",
            "Reindeer, inner thigh, freeze-dried raw",
        ),
        ("Reindeer, inner thigh", "raw", "dehydrator", "raw", "Reindeer, inner thigh, dried raw"),
        ("Egg", "raw", "freeze-dryer", "raw", "Egg, freeze-dried raw"),
        ("Salmon, raw", "raw", "sun", "raw", "Salmon, sun-dried raw"),
        ("Lean beef mince, raw", "raw", "oven", "heated", "Lean beef mince, heated and oven-dried"),
        ("Lean beef mince, raw", "raw", "dehydrator", "heated jerky", "Lean beef mince, jerky"),
        (
            "Lean beef mince, raw",
            "raw",
            "dehydrator",
            "raw jerky",
            "Lean beef mince, jerky dried raw",
        ),
        # Cooked food.
        ("Beans, black, cooked", "cooked", "dehydrator", "", "Beans, black, cooked and dried"),
        ("Red lentils", "cooked", "oven", "", "Red lentils, cooked and oven-dried"),
        (
            "Chicken breast, roasted",
            "cooked",
            "freeze-dryer",
            "",
            "Chicken breast, roasted, freeze-dried",
        ),
        ("Kidney beans, boiled soft", "cooked", "sun", "", "Kidney beans, boiled soft, sun-dried"),
        # Plants that were never cooked: raw only where their name says so.
        ("Apple", "raw", "dehydrator", "", "Apple, dried"),
        ("Beans, raw", "raw", "dehydrator", "", "Beans, dried raw"),
        ("Cheddar cheese", "ready", "freeze-dryer", "", "Cheddar cheese, freeze-dried"),
        # What was not dried at home.
        ("Salmon, raw", "raw", None, "raw", "Salmon, raw"),
        ("Onion flakes", "dried", "bought", "", "Onion flakes"),
        ("Beef jerky, bought", "ready", "bought", "", "Beef jerky, bought"),
        ("Apple", "raw", "bought", "", "Apple, bought dried"),
        ("Lentils, dry", "dried", "dehydrator", "", "Lentils, dry"),
    ],
)
def test_dried_food_is_named_by_method_and_state(
    name: str, state: str, method: str | None, how: str, now: str
) -> None:
    ways = {"stays_raw": "raw" in how, "heated": "heated" in how, "jerky": "jerky" in how}
    assert dried_name(ENGLISH, name, state, method, **ways) == now


@pytest.mark.parametrize(
    ("name", "state", "method", "now"),
    [
        ("Rentier, roh", "raw", "freeze-dryer", "Rentier, roh gefriergetrocknet"),
        ("Reindeer, raw", "raw", "freeze-dryer", "Reindeer, roh gefriergetrocknet"),
        ("Bohnen, gekocht", "cooked", "dehydrator", "Bohnen, gegart und getrocknet"),
        ("Bohnen, gegart", "cooked", "dehydrator", "Bohnen, gegart und getrocknet"),
        ("Beans, cooked", "cooked", "dehydrator", "Beans, gegart und getrocknet"),
        ("Apfel", "raw", "dehydrator", "Apfel, getrocknet"),
    ],
)
def test_names_end_in_words_of_the_trips_language_too(
    name: str, state: str, method: str, now: str
) -> None:
    assert dried_name(GERMAN, name, state, method, stays_raw=method == "freeze-dryer") == now


def test_only_batches_called_alike_tell_their_id() -> None:
    names = {"autumn": "Apple, dried", "spring": "Apple, dried", "june": "Peas, freeze-dried"}
    assert told_apart(ENGLISH, names) == {
        "autumn": "Apple, dried (autumn)",
        "spring": "Apple, dried (spring)",
        "june": "Peas, freeze-dried",
    }


# -- where the name stands in a kit ---------------------------------------------------------------


def jerky(name: str, **more: object) -> Record:
    return {
        "id": name,
        "food": "steak-raw",
        "method": "dehydrator",
        "done": "2031-05-25",
        "fresh": "1000 g",
        "dried": "280 g",
        "packs": {"count": 7, "in": "zip"},
        **more,
    }


RAW_NOW = "steak-raw, dried raw"
HEATED = {"style": "jerky", "heated": {"to": "71 degC", "when": "before"}}


def test_a_kit_names_food_by_its_batch_wherever_it_stands(tmp_path: Path) -> None:
    eat = {"snacks": [{"eat": "steak-raw", "from": "strips", "each": "20 g"}]}
    read = hand(tmp_path, day_trip(days=[day(eat)]), batches=[jerky("strips", **HEATED)])
    kit = read.kit()
    (meal,) = kit.days[0].meals
    now = "steak-raw, jerky"  # the food is called "steak-raw"
    assert (meal.title, meal.ingredients[0].name, batch_of(kit, "strips").name) == (now, now, now)
    assert batch_of(kit, "strips").fresh_name == "steak-raw"
    carried = [thing.what for person in kit.weights.people for thing in person.carries]
    assert f"Day 1 snacks: {now}" in carried


PAGES = ("day-1.md", "carry.md", "drying.md", "person-ea.md", "person-bo.md")


@pytest.mark.parametrize(("how", "now"), [(HEATED, "steak-raw, jerky"), ({}, RAW_NOW)])
def test_pages_name_jerky_as_it_is_packed_and_raw_where_it_is_raw(
    how: Record, now: str, tmp_path: Path
) -> None:
    eat = {"snacks": [{"eat": "steak-raw", "from": "strips", "each": "20 g"}]}
    trip = day_trip(days=[day(eat)])
    trip["party"][1]["avoids"] = ["meat"]
    kit = hand(tmp_path, trip, batches=[jerky("strips", **how)]).kit()
    pages = write_book(kit, TEMPLATES).markdown
    assert [page for page in PAGES if now not in pages[page]] == []
    # As it was before drying it stands nowhere but where the load is told how to be dried.
    bare = re.compile(r"steak-raw(?!, jerky|, dried raw)")
    assert [page for page in PAGES if page != "drying.md" and bare.search(pages[page])] == []


def test_two_batches_of_one_food_in_a_trip_are_told_apart(tmp_path: Path) -> None:
    eat = {
        "snacks": [
            {"eat": "steak-raw", "from": "first", "each": "20 g"},
            {"eat": "steak-raw", "from": "second", "each": "20 g"},
            {"eat": "steak-raw", "from": "raw-one", "each": "20 g"},
        ]
    }
    batches = [jerky("first", **HEATED), jerky("second", **HEATED), jerky("raw-one")]
    kit = hand(tmp_path, day_trip(days=[day(eat)]), batches=batches).kit()
    assert [meal.title for meal in kit.days[0].meals] == [
        "steak-raw, jerky (first)",
        "steak-raw, jerky (second)",
        "steak-raw, dried raw",
    ]


def test_food_of_no_batch_is_raw_where_nobody_told_that_it_was_heated(tmp_path: Path) -> None:
    eat = {"snacks": [{"eat": "steak-raw", "dried_by": "dehydrator", "each": "20 g"}]}
    (meal,) = hand(tmp_path, day_trip(days=[day(eat)])).kit().days[0].meals
    assert meal.title == "steak-raw, dried raw"
