"""Each rule of what may share a dryer, and of what a dryer takes, from both sides."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from builder.model.batch import Heated, Method
from builder.model.food import Composition, Food
from builder.model.gear import Dryer
from builder.model.home import FreeHours
from builder.planning.drying.rules import (
    APART,
    RUN_AIR_C,
    Goes,
    heated_before,
    hours_in,
    may_share,
    most_load_g,
    suits,
)
from builder.planning.foods.hazards import is_pungent
from builder.planning.foods.substance import Substance, substance_of_food
from builder.planning.runs.free_time import FreeTime
from builder.planning.runs.logged_runs import run_name, start_of
from builder.planning.runs.wanted import packs_for


def goes(
    name: str, kind: Any, state: Any = "raw", method: Method = "dehydrator", **more: Any
) -> Goes:
    how: dict[str, Any] = {"eaten_as_it_is": False}
    how |= {key: more.pop(key) for key in ("eaten_as_it_is", "heated") if key in more}
    food = Food(name, name, kind, state, Composition(water_g=80.0), **more)
    return Goes(substance_of_food(food), method, **how)


APPLE = goes("apple", "fruit", eaten_as_it_is=True)
APPLE_IN_PORRIDGE = goes("apple", "fruit")
CARROT = goes("carrot", "vegetable")
ONION = goes("onion", "vegetable")
MINT = goes("mint", "herb")
BEANS = goes("beans", "legume", "cooked")
NUTS = goes("nuts", "nut", eaten_as_it_is=True)
PASTE = goes("paste", "other", "cooked")
BEEF = goes("beef", "meat", "cooked")
STEAK = goes("steak", "meat", heated=Heated(72.0, "before"))
RAW_STEAK = goes("steak", "meat", method="freeze-dryer")
RAW_HEN = goes("hen", "poultry", method="freeze-dryer")
COLD_CARROT = goes("carrot", "vegetable", method="freeze-dryer")
COD = goes("cod", "fish", "cooked")


@pytest.mark.parametrize(
    ("one", "other", "rules"),
    [
        (APPLE, CARROT, set()),
        (APPLE, MINT, {"temperatures"}),
        (CARROT, BEANS, set()),  # 57 to 60
        (NUTS, BEANS, set()),
        (NUTS, MINT, set()),  # 40 to 45
        (MINT, PASTE, {"temperatures"}),
        (BEEF, CARROT, set()),
        (BEEF, APPLE_IN_PORRIDGE, set()),
        (BEEF, APPLE, {"meat-and-ready"}),
        (STEAK, NUTS, {"meat-and-ready"}),
        (STEAK, CARROT, set()),  # heated before it goes in
        (BEEF, COD, set()),
        (ONION, APPLE_IN_PORRIDGE, {"smell-and-fruit"}),
        (ONION, CARROT, set()),
        (COD, APPLE_IN_PORRIDGE, {"smell-and-fruit"}),
        (RAW_STEAK, COLD_CARROT, {"raw-alone"}),
        (RAW_STEAK, RAW_HEN, {"raw-alone"}),
        (RAW_STEAK, RAW_STEAK, set()),
    ],
    ids=lambda each: each.substance.id if isinstance(each, Goes) else "",
)
def test_what_may_not_share_a_run(one: Goes, other: Goes, rules: set[str]) -> None:
    for a, b in ((one, other), (other, one)):
        assert {name for name, apart in APART.items() if apart(a, b)} == rules
        assert may_share(a, b) == (not rules)


def test_meat_in_a_meal_lies_apart_from_what_is_eaten_as_it_is_too() -> None:
    parts = (BEEF.substance.foods[0], BEANS.substance.foods[0])
    stew = Goes(Substance("stew", "stew", "meal", Composition(), parts), "dehydrator", False)
    assert not may_share(stew, NUTS)
    assert may_share(stew, CARROT)


@pytest.mark.parametrize(
    ("kind", "least_c", "most_c"),
    [
        ("herb", 35, 45), ("fruit", 52, 60), ("vegetable", 52, 60), ("legume", 57, 65),
        ("grain", 57, 65), ("meal", 57, 65), ("nut", 40, 60), ("other", 57, 65),
        ("flesh", 57, 71),
    ],
)  # fmt: skip
def test_the_air_is_as_warm_as_the_trade_has_it(kind: str, least_c: float, most_c: float) -> None:
    assert RUN_AIR_C[kind] == (least_c, most_c)


def test_what_has_no_row_goes_by_the_row_of_all_else() -> None:
    assert goes("syrup", "sugar").air_c == RUN_AIR_C["other"]
    assert COLD_CARROT.air_c is None


@pytest.mark.parametrize(
    ("food", "is_strong"),
    [
        ({"id": "onion-raw", "name": "Onion"}, True),
        ({"id": "x", "name": "Rote Zwiebel"}, True),
        ({"id": "hvitlok", "name": "Hvitløk"}, True),
        ({"id": "x", "name": "x", "dry_as": "garlic"}, True),
        ({"id": "carrot", "name": "Carrot"}, False),
        ({"id": "x", "name": "Karotte", "dry_as": "carrot"}, False),
    ],
)
def test_onion_and_garlic_are_known_in_every_language(food: Any, is_strong: bool) -> None:
    assert is_pungent(Food(kind="vegetable", state="raw", per_100g=Composition(), **food)) is (
        is_strong
    )


# -- what a dryer takes ---------------------------------------------------------------------------


def dryer(**more: Any) -> Dryer:
    usual: dict[str, Any] = {"method": "dehydrator", "load_g": 3000.0, "hours": 12.0}
    return Dryer("it", "It", **{**usual, **more})


@pytest.mark.parametrize(
    ("more", "is_right"),
    [
        ({}, True),
        ({"method": "freeze-dryer"}, False),
        ({"to_c": 52.0}, True),
        ({"to_c": 51.0}, False),
        ({"from_c": 60.0}, True),
        ({"from_c": 61.0}, False),
    ],
)
def test_a_dryer_suits_by_method_and_warmth(more: Any, is_right: bool) -> None:
    assert suits(dryer(**more), CARROT) is is_right


@pytest.mark.parametrize(
    ("method", "own_hours", "hours"),
    [
        ("dehydrator", 8.0, 8.0),
        ("dehydrator", None, 12.0),
        ("oven", 8.0, 16.0),  # twice as long as in a dryer
        ("oven", None, 12.0),
        ("sun", 8.0, 12.0),
        ("freeze-dryer", 8.0, 12.0),
    ],
)
def test_hours_are_those_of_the_food_in_warm_air(
    method: Method, own_hours: float | None, hours: float
) -> None:
    food = goes("carrot", "vegetable", method=method, dryer_hours=own_hours)
    assert hours_in(dryer(method=method), food) == hours


def test_the_load_is_the_less_of_what_dryer_and_trays_take() -> None:
    assert most_load_g(dryer()) == 3000
    assert most_load_g(dryer(trays_cm2=10_000.0)) == 3000  # 9 kg lie on a square metre
    assert most_load_g(dryer(trays_cm2=2000.0)) == pytest.approx(1800)
    frozen = dryer(method="freeze-dryer", trays_cm2=1000.0)
    assert most_load_g(frozen) == pytest.approx(2000)  # 2 cm deep


@pytest.mark.parametrize(
    ("food", "to_c"),
    [
        (goes("steak", "meat"), 71.1),
        (goes("hen", "poultry"), 73.9),
        (goes("deer", "meat", game=True), 73.9),
        (goes("steak", "meat", "cooked"), None),
        (goes("egg", "egg"), None),
        (goes("carrot", "vegetable"), None),
        (RAW_STEAK, None),
    ],
)
def test_raw_meat_is_heated_before_warm_air(food: Goes, to_c: float | None) -> None:
    heated = heated_before(food.substance, food.method)
    assert (heated is None) is (to_c is None)
    if heated and to_c:
        assert heated.when == "before" and heated.to_c == pytest.approx(to_c, abs=1.0)


# -- free hours -----------------------------------------------------------------------------------

FRIDAY = datetime.date(2031, 6, 6)
FREE = FreeTime(
    {"fri": (FreeHours(17 * 60, 22 * 60),), "sat": (FreeHours(480, 720), FreeHours(840, 1320))},
    FRIDAY,
)


def at(day: int, hour: int, minute: int = 0) -> datetime.datetime:
    return datetime.datetime(2031, 6, day, hour, minute)


@pytest.mark.parametrize(
    ("end", "emptied"),
    [
        (at(6, 18), at(6, 18)),
        (at(6, 22), at(6, 22)),
        (at(6, 22, 1), at(7, 8)),
        (at(7, 12, 30), at(7, 14)),
        (at(6, 4, 59), None),  # 12 h and a minute before anybody is free
        (at(6, 5), at(6, 17)),
        (at(7, 22, 1), None),
    ],
)
def test_a_run_is_emptied_at_the_first_free_moment_within_twelve_hours(
    end: datetime.datetime, emptied: datetime.datetime | None
) -> None:
    assert FREE.next_free(end) == emptied


@pytest.mark.parametrize(
    ("until", "last"),
    [
        (at(7, 13), at(7, 12)),
        (at(7, 9), at(7, 9)),
        (at(7, 7), at(6, 22)),
        (at(6, 16), None),
    ],
)
def test_the_freezer_is_filled_at_the_last_free_moment(
    until: datetime.datetime, last: datetime.datetime | None
) -> None:
    assert FREE.last_free(until) == last


@pytest.mark.parametrize(
    ("deadline", "last"),
    [
        (datetime.date(2031, 6, 14), datetime.date(2031, 6, 13)),  # the Saturday is to spare
        (datetime.date(2031, 6, 19), datetime.date(2031, 6, 13)),  # no free day after it
        (datetime.date(2031, 6, 13), datetime.date(2031, 6, 12)),
    ],
)
def test_one_whole_free_day_is_left(deadline: datetime.date, last: datetime.date) -> None:
    assert FREE.last_day_to_spare(deadline) == last


# -- packs and names ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("amounts_g", "dried_g", "packs"),
    [
        ([100.0], 105.0, 1),
        ([100.0, 100.0], 210.0, 2),
        ([100.0, 200.0], 315.0, 3),  # 105 g each: one and two
        ([50.0, 200.0], 262.5, 5),  # 52.5 g each: one and four
        ([], 10.0, 1),
        # What fills whole packs opens none besides.
        ([100.0], 100.0, 1),
        ([50.0, 50.0], 100.0, 2),
        ([30.0, 60.0], 90.0, 3),
        ([10.0, 20.0, 30.0], 60.0, 6),
        ([1.0, 99.0], 100.0, 2),  # more packs than meals would be open for nothing
    ],
)
def test_each_meal_opens_whole_packs(amounts_g: list[float], dried_g: float, packs: int) -> None:
    assert packs_for(amounts_g, dried_g) == packs


def test_a_run_is_named_so_that_the_log_tells_its_start() -> None:
    start = at(6, 18, 30)
    assert start_of(run_name("shelf-dryer", start)) == start
    assert start_of("march-14") is None
    assert start_of("shelf-dryer-2031-13-01-1000") is None
