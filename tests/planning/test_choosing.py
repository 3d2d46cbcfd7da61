"""Packs that trips leave to the tool: `from: auto`."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from builder.pages.trip.origins.kit_json import kit_data
from builder.planning.menu import menu_problems
from tests.planning.folders import Hand, Record, batch_of, day, day_trip, hand, uses
from tests.planning.test_stock import berries

# 480 g of each batch in 12 packs: a pack holds 40 g. All are kept alike, so that the one that was
# dried first expires first.
OLD, NEW = berries("old", done="2031-03-01"), berries("new", done="2031-05-01")


def eats(each: str, days: int = 1, batch: str = "auto", **more: Any) -> Record:
    """Give a trip of two who eat berries on every day, of packs that the tool chooses."""
    snack = {"eat": "berry", "from": batch, "each": each}
    return day_trip(days=[day({"snacks": [snack]}) for _ in range(days)], **more)


def chosen(read: Hand, trip: str = "hand") -> list[str | None]:
    """Give the batches that a trip's meals come from, meal by meal."""
    return [
        item.batch_of("")
        for each in read.content.trips[trip].days
        for meal in each.meals
        for item in meal.items
    ]


@pytest.mark.parametrize(
    ("batches", "each", "found"),
    [
        ([NEW, OLD], "20 g", "old"),  # expires first
        ([NEW, {**OLD, "used": 11}], "20 g", "old"),  # one pack is enough
        ([NEW, {**OLD, "used": 11}], "21 g", "new"),  # two are not there
        ([NEW, {**OLD, "used": 12}], "20 g", "new"),  # all are eaten
        ([NEW, {**OLD, "done": "2029-03-01"}], "20 g", "new"),  # past its date
        ([NEW, {**OLD, "done": "2031-06-01"}], "20 g", "new"),  # both do; the other is older
        ([NEW, {**OLD, "done": "2031-06-02"}], "20 g", "new"),  # dried after the trip began
        ([{**OLD, "done": "2031-06-02"}], "20 g", None),
        ([NEW, {**OLD, "dried": "1200 g"}], "20 g", "new"),  # not dry
        ([NEW, {**OLD, "done": None, "dried": None, "planned": "2031-03-01"}], "20 g", "new"),
        ([NEW, {**OLD, "food": "leaf", "dried": "220 g"}], "20 g", "new"),
        ([{**NEW, "used": 11}, {**OLD, "used": 11}], "21 g", None),  # no single one covers it
    ],
)
def test_the_first_that_expires_of_those_with_packs_enough_is_taken(
    batches: list[Record], each: str, found: str | None, tmp_path: Path
) -> None:
    told = [{key: value for key, value in one.items() if value is not None} for one in batches]
    read = hand(tmp_path, eats(each), batches=told)
    assert chosen(read) == [found]
    assert "batch-overdrawn" not in read.kinds()


def test_a_pack_goes_to_one_meal_and_what_is_named_comes_first(tmp_path: Path) -> None:
    # Of three packs one is named by a later trip; the earlier of two others takes what is left.
    read = hand(
        tmp_path,
        eats("20 g", days=3, start="2031-07-01"),
        batches=[{**OLD, "used": 9}, {**NEW, "used": 10}],
        more_trips={
            "named": eats("20 g", batch="old", start="2031-08-01"),
            "june": eats("20 g", start="2031-06-05"),
        },
    )
    assert chosen(read, "named") == ["old"]
    assert chosen(read, "june") == ["old"]
    assert chosen(read) == ["old", "new", "new"]
    assert read.kinds() == []


@pytest.mark.parametrize(("start", "found"), [("2031-05-21", "old"), ("2031-05-20", None)])
def test_a_pack_that_came_back_is_chosen_once_its_trip_is_over(
    start: str, found: str | None, tmp_path: Path
) -> None:
    # The only pack goes along on 20 May and comes back.
    may = eats("20 g", batch="old", start="2031-05-20", review={"back": {"old": 1}})
    read = hand(
        tmp_path,
        eats("20 g", start=start),
        batches=[{**OLD, "used": 11}],
        more_trips={"may": may},
    )
    assert chosen(read) == [found]


def test_a_pack_that_reseals_feeds_the_next_meals_of_its_trip(tmp_path: Path) -> None:
    one = berries("old", done="2031-03-01", used=11, packs={"count": 12, "in": "zip"})
    read = hand(tmp_path, eats("10 g", days=3), batches=[one, NEW])
    assert chosen(read) == ["old", "old", "new"]


def test_each_ingredient_that_is_dried_has_its_own_packs(tmp_path: Path) -> None:
    recipe = {
        "id": "stew", "serves": 2, "cook_in": "pot",
        "uses": uses(berry="40 g dehydrator", leaf="20 g dehydrator", kernel="100 g"),
        "steps": [{"do": "boil", "with": ["berry", "leaf", "kernel"], "water": "400 ml"}],
    }  # fmt: skip
    trip = day_trip(days=[day({"dinner": [{"cook": "stew", "from": "auto"}]})])
    read = hand(tmp_path, trip, [recipe], [OLD, NEW])
    (item,) = read.content.trips["hand"].days[0].meals[0].items
    assert item.batches == (("berry", "old"),)
    assert item.chosen == ("berry", "leaf")  # nobody dries the kernel
    kit = read.kit()
    (told,) = menu_problems(read.content.trips["hand"], kit, read.content)
    assert told.kind == "no-free-pack"
    assert told.severity == "warning"
    assert "of leaf for dinner on day 1" in told.says


def test_the_kit_tells_what_the_tool_chose_and_why(tmp_path: Path) -> None:
    read = hand(tmp_path, eats("20 g"), batches=[OLD, NEW])
    kit = read.kit()
    assert any("it expires first" in note for note in batch_of(kit, "old").notes)
    (meal,) = kit_data(kit)["days"][0]["meals"]  # type: ignore[index]
    assert meal["ingredients"][0]["batch"] == "old"
    assert meal["ingredients"][0]["chosen"]
    named = hand(tmp_path / "named", eats("20 g", batch="old"), batches=[OLD, NEW]).kit()
    assert not batch_of(named, "old").notes
    assert not named.days[0].meals[0].ingredients[0].chosen
