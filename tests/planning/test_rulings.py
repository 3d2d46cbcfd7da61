"""One load, one ruling, one act: every cause with both sides of what brings it about.

Loads of 1000 g fresh with 90 % of listed water, doubted by two times 1.5 points: 70 to 130 g of
solids. Most must be dried to 10 %, so 77.7 g are dry for certain and 144.5 g for certain not.
"""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from builder.model.batch import Batch, Heated
from builder.model.food import Composition, Food
from builder.planning.batches.verdict import (
    Load,
    Ruling,
    act_of,
    act_said,
    heated_through,
    rule,
    spread_of,
    stays_raw,
)
from builder.planning.foods.substance import substance_of_food
from builder.record import replace
from builder.speech import speech_of

DONE = datetime.date(2031, 1, 1)
DRY_G, OPEN_G, WET_G = 77.7, 110.0, 144.5
ANY_FOOD = Food("it", "It", "vegetable", "raw", Composition(water_g=90))


def load(
    kind: Any = "vegetable",
    state: Any = "cooked",
    method: Any = "dehydrator",
    now_g: float | None = DRY_G,
    *,
    food: dict[str, Any] | None = None,
    likely: float = 0.05,
    low_oxygen: bool = False,
    in_dryer: bool = False,
    **batch: Any,
) -> Load:
    made = replace(ANY_FOOD, kind=kind, state=state, **(food or {}))
    told = {"done": DONE, "fresh_g": 1000.0, **batch}
    return Load(
        substance_of_food(made),
        Batch("it", method, food="it", **told),
        now_g,
        likely,
        0.2 if kind == "fruit" else 0.1,
        low_oxygen,
        in_dryer,
    )


MINCED = {"cut": "minced"}
OVEN_AFTER = Heated(135, "after", 10)
PLANNED: dict[str, Any] = {"done": None, "planned": DONE, "now_g": None}

RULINGS: list[tuple[Load, str, str, str]] = [
    # load, verdict, cause, act ten days later
    (load(), "dry", "", ""),
    (load(now_g=OPEN_G), "undecided", "undecided", "test"),
    (load("fruit", now_g=OPEN_G), "undecided", "undecided", "test-fruit"),
    (load(now_g=WET_G), "not-dry", "wet", "throw-out"),
    (load(now_g=OPEN_G, tests=frozenset({"snap"})), "dry", "", ""),
    (load(now_g=OPEN_G, tests=frozenset({"constant"})), "dry", "", ""),
    (load(now_g=OPEN_G, tests=frozenset({"jar"})), "undecided", "undecided", "test"),
    (load("fruit", now_g=OPEN_G, tests=frozenset({"jar"})), "dry", "", ""),
    (load(now_g=WET_G, tests=frozenset({"snap"})), "not-dry", "wet", "throw-out"),
    # without oxygen
    (load(low_oxygen=True), "dry", "", ""),
    (load(low_oxygen=True, likely=0.10), "dry", "", ""),
    (load(low_oxygen=True, likely=0.101), "dry", "airless-moist", ""),
    (load(likely=0.101), "dry", "", ""),
    (load(low_oxygen=True, now_g=OPEN_G), "undecided", "airless-undecided", "open-and-test"),
    (load(low_oxygen=True, now_g=WET_G), "discard", "airless-wet", "throw-out"),
    (load("meat", low_oxygen=True), "dry", "airless-flesh", "open-and-freeze"),
    (load("meat", low_oxygen=True, now_g=OPEN_G), "discard", "airless-flesh-undecided",
     "throw-out"),
    (load("meat", low_oxygen=True, now_g=WET_G), "discard", "airless-wet", "throw-out"),
    (load("meat", now_g=OPEN_G), "undecided", "undecided", "test"),
    (load("meat", method="freeze-dryer", low_oxygen=True), "dry", "", ""),
    (load("egg", low_oxygen=True), "dry", "", ""),
    # raw
    (load("meat", "raw"), "dry", "raw-whole", "heat"),
    (load("meat", "raw", now_g=OPEN_G), "undecided", "raw-whole", "heat"),
    (load("meat", "raw", low_oxygen=True), "dry", "raw-whole", "heat"),
    (load("meat", "raw", now_g=WET_G), "not-dry", "wet", "throw-out"),
    (load("meat", "raw", heated=OVEN_AFTER), "dry", "", ""),
    (load("meat", "raw", food=MINCED), "discard", "raw-loose", "throw-out"),
    (load("meat", "raw", food=MINCED, heated=OVEN_AFTER), "dry", "", ""),
    (load("meat", "cooked", food=MINCED), "dry", "", ""),
    (load("poultry", "raw"), "discard", "raw-loose", "throw-out"),
    (load("poultry", "raw", "oven"), "discard", "raw-loose", "throw-out"),
    (load("egg", "raw"), "discard", "raw-egg", "throw-out"),
    (load("meat", "raw", "freeze-dryer"), "dry", "raw-frozen", "cook"),
    (load("egg", "raw", "freeze-dryer"), "dry", "raw-frozen", "cook"),
    (load("poultry", "raw", "freeze-dryer", low_oxygen=True), "dry", "raw-frozen", "cook"),
    (load("poultry", "raw", "freeze-dryer", low_oxygen=True, likely=0.101), "dry",
     "airless-moist", ""),
    # in the sun
    (load("meat", method="sun"), "discard", "sun", "throw-out"),
    (load("fish", method="sun", now_g=WET_G), "discard", "sun", "throw-out"),
    (load("egg", method="sun"), "dry", "", ""),
    (load("meat", method="oven"), "dry", "", ""),
    # still to be dried
    (load("meat", method="sun", **PLANNED), "discard", "sun", "plan-otherwise"),
    (load("poultry", "raw", **PLANNED), "discard", "raw-loose", "plan-otherwise"),
    (load("egg", "raw", **PLANNED), "discard", "raw-egg", "plan-otherwise"),
    (load("meat", "raw", **PLANNED), "dry", "raw-whole", "heat"),
    (load("meat", low_oxygen=True, likely=0.3, **PLANNED), "dry", "", ""),
    # in the dryer: whatever the packs are to be, it dries on
    (load(now_g=WET_G, in_dryer=True, low_oxygen=True, done=None), "not-dry", "wet", "dry-on"),
    (load("meat", now_g=WET_G, in_dryer=True, done=None), "not-dry", "wet", "dry-on"),
    (load(now_g=OPEN_G, in_dryer=True, low_oxygen=True), "undecided", "undecided", "test"),
    (load("meat", "raw", in_dryer=True), "dry", "raw-whole", "heat"),
    (load(in_dryer=True, low_oxygen=True, likely=0.2), "dry", "", ""),
    (load("poultry", "raw", now_g=WET_G, in_dryer=True, done=None), "discard", "raw-loose",
     "throw-out"),
]  # fmt: skip


@pytest.mark.parametrize(("load", "verdict", "cause", "act"), RULINGS)
def test_each_load_has_one_ruling_and_one_act(
    load: Load, verdict: str, cause: str, act: str
) -> None:
    ruling = rule(load)
    assert (ruling.verdict, ruling.cause) == (verdict, cause)
    assert act_of(load, ruling, DONE + datetime.timedelta(days=10)) == act


def test_only_what_is_wet_or_thrown_out_has_failed() -> None:
    failed = {verdict: Ruling(verdict).failed for verdict in ("dry", "undecided")}
    assert failed == {"dry": False, "undecided": False}
    assert Ruling("not-dry").failed and Ruling("discard").failed


def test_the_moisture_left_lies_between_two_listings() -> None:
    # 1 - 130 / 144.5 and 1 - 70 / 144.5.
    ruling = rule(load(now_g=WET_G))
    assert ruling.low_share == pytest.approx(0.10035, abs=1e-4)
    assert ruling.high_share == pytest.approx(0.51557, abs=1e-4)
    # Thrown out all the same, and told between the same two.
    for wet in (load("poultry", "raw", now_g=WET_G), load(now_g=WET_G, low_oxygen=True)):
        assert (rule(wet).low_share, rule(wet).high_share) == (ruling.low_share, ruling.high_share)
    in_dryer = rule(load(now_g=WET_G, in_dryer=True))
    assert (in_dryer.low_share, in_dryer.high_share) == (ruling.low_share, ruling.high_share)
    undecided = rule(load("meat", now_g=OPEN_G, low_oxygen=True))
    assert undecided.low_share == 0.0 and undecided.high_share == pytest.approx(1 - 70 / 110)


@pytest.mark.parametrize(
    ("load", "low", "high"),
    [
        # 60 g can hold no more than 130 g of solids: what drying always leaves.
        (load(now_g=60), 0.0, 0.0),
        (load(now_g=60, method="freeze-dryer"), 0.02, 0.02),
        (load(now_g=None, likely=0.07), 0.07, 0.07),
        (load(now_g=100, fresh_g=None, likely=0.07), 0.07, 0.07),
        (load(now_g=1000, in_dryer=True), 0.9, 0.9),  # nothing lost yet: as listed
        (load(method="bought", likely=0.12), 0.12, 0.12),
        (load(**PLANNED, likely=0.08), 0.08, 0.08),
    ],
)
def test_what_no_weight_can_tell_is_taken_as_likely(load: Load, low: float, high: float) -> None:
    ruling = rule(load)
    assert ruling.low_share == pytest.approx(low)
    assert ruling.high_share == pytest.approx(high)


def test_a_food_with_a_spread_of_its_own_is_doubted_by_that() -> None:
    assert spread_of(load().substance) == 0.015
    sure = load(food={"spread_share": 0.0}, now_g=111.0)
    assert (spread_of(sure.substance), sure.spread_share) == (0.0, 0.0)
    assert rule(sure).verdict == "dry"
    assert rule(sure).low_share == pytest.approx(1 - 100 / 111)


def test_what_stands_at_the_limit_is_dry_enough_and_not_yet_wet() -> None:
    sure = load(food={"spread_share": 0.0}, now_g=100 / 0.9)
    assert rule(sure).verdict == "dry"
    assert rule(load(now_g=130 / 0.9)).verdict == "undecided"
    likely = rule(load(now_g=OPEN_G))
    assert likely.low_share == 0.0
    assert likely.high_share == pytest.approx(1 - 70 / 110)


@pytest.mark.parametrize(
    ("load", "likely", "verdict"),
    [
        # Bought food is as dry as its maker made it, whatever it is and weighs.
        (load("meat", "raw", "bought", WET_G, low_oxygen=True), 0.5, "dry"),
        (load("meat", method="bought", now_g=None), 0.5, "dry"),
    ],
)
def test_bought_food_is_not_judged(load: Load, likely: float, verdict: str) -> None:
    ruling = rule(replace(load, likely_share=likely))
    assert ruling == Ruling("dry", "", likely, likely)
    assert ruling.verdict == verdict


@pytest.mark.parametrize(
    ("days", "kind", "method", "act"),
    [
        (0, "vegetable", "dehydrator", "dry-on-today"),
        (2, "vegetable", "oven", "dry-on-today"),
        (3, "vegetable", "dehydrator", "throw-out"),
        (-1, "vegetable", "dehydrator", "throw-out"),
        (None, "vegetable", "dehydrator", "throw-out"),
        (0, "dairy", "dehydrator", "throw-out"),
        (0, "egg", "dehydrator", "throw-out"),
        (0, "fish", "dehydrator", "throw-out"),
    ],
)
def test_wet_plant_food_may_go_back_within_two_days(
    days: int | None, kind: str, method: str, act: str
) -> None:
    wet = load(kind, method=method, now_g=WET_G)
    at = None if days is None else DONE + datetime.timedelta(days=days)
    assert act_of(wet, Ruling("not-dry", "wet"), at) == act


def test_wet_food_that_nobody_dated_is_thrown_out() -> None:
    undated = load(now_g=WET_G, done=None, planned=DONE)
    assert act_of(undated, Ruling("not-dry", "wet"), DONE) == "throw-out"


@pytest.mark.parametrize(
    ("kind", "method", "game", "heated", "is_through"),
    [
        ("meat", "oven", False, None, False),
        ("meat", "oven", False, Heated(71, "before"), True),
        ("meat", "oven", False, Heated(70.9, "before"), False),
        ("fish", "oven", False, Heated(71, "before"), True),
        ("egg", "oven", False, Heated(71, "before"), True),
        ("egg", "oven", False, Heated(70.9, "before"), False),
        ("poultry", "oven", False, Heated(73.8, "before"), False),
        ("poultry", "oven", False, Heated((165 - 32) / 1.8, "before"), True),
        ("poultry", "freeze-dryer", False, Heated(74, "before"), True),
        ("meat", "oven", True, Heated(73.8, "before"), False),
        ("meat", "oven", True, Heated((165 - 32) / 1.8, "before"), True),
        ("meat", "oven", True, Heated(74, "before"), True),
        ("meat", "oven", False, Heated(135, "after", 10), True),
        ("meat", "sun", False, Heated(135, "after", 11), True),
        ("fish", "dehydrator", False, Heated(136, "after", 10), True),
        ("meat", "oven", False, Heated(134.9, "after", 10), False),
        ("meat", "oven", False, Heated(135, "after", 9.9), False),
        ("meat", "oven", False, Heated(135, "after"), False),
        ("meat", "freeze-dryer", False, Heated(135, "after", 10), False),
        ("egg", "oven", False, Heated(135, "after", 10), False),
    ],
)
def test_heat_counts_by_kind_temperature_and_minutes(
    kind: str, method: str, game: bool, heated: Heated | None, is_through: bool
) -> None:
    raw = load(kind, "raw", method, food={"game": game}, heated=heated)
    assert heated_through(raw.batch, raw.substance) is is_through
    assert stays_raw(raw.batch, raw.substance) is not is_through
    cooked = load(kind, "cooked", method, food={"game": game}, heated=heated)
    assert stays_raw(cooked.batch, cooked.substance) is False


def test_an_act_tells_grams_and_heat_in_the_trips_units() -> None:
    english = speech_of("en")
    assert act_said(english, "", "metric", 60) == ""
    assert act_said(english, "dry-on", "metric", 60) == "Keep drying, 60\u00a0g to go."
    assert act_said(english, "dry-on", "us", 60) == "Keep drying, 2.1\u00a0oz to go."
    assert "at 135\u00a0°C in the oven" in act_said(english, "heat", "metric", 0)
    assert "at 275\u00a0°F in the oven" in act_said(english, "heat", "us", 0)
    assert act_said(english, "throw-out", "metric", 0) == "Throw it out."
    assert act_said(english, "plan-otherwise", "metric", 0).startswith("Do not dry it this way")


@pytest.mark.parametrize(
    ("act", "says"),
    [
        ("throw-out", "Throw it out."),
        ("dry-on-today", "Dry it further today, or eat it now."),
        ("test", "Test it: break a cold piece, it must snap; or weigh it again"),
        ("test-fruit", "Test it: break a cold piece, it must snap; or weigh it again"),
        ("open-and-test", "Open it today and test it; dry: seal it anew, else throw it out."),
        ("open-and-freeze", "Open it, pack it with air, freeze it."),
        ("cook", "Cook it through before anybody eats it."),
    ],
)
def test_each_act_is_said(act: Any, says: str) -> None:
    said = act_said(speech_of("en"), act, "metric", 0)
    assert said.startswith(says)
    assert ("closed jar" in said) is (act == "test-fruit")
