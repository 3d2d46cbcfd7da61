"""Dishes over a stove, a fire and embers in one trip, worked out on paper.

At 1000 m water boils at some 96.7 °C, by an independent library; the stream has 10 °C. The burner
has 2000 W, an efficiency of 50 % and at least 400 W; gas holds 46 MJ/kg. Wood of 20 % water holds
18.5 · 0.8 − 2.443 · 0.2 MJ/kg.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.kit import OrderOfWork

from .folders import Hand, Record, day, day_trip, hand, meal_of, uses
from .soup_and_mash import MASH, MASH_KJ, SOUP, SOUP_KJ, heat_kj, order_of

NEAR = pytest.approx
EXACT = 1e-6

WOOD_MJ_KG = 18.5 * 0.8 - 2.443 * 0.2
FRIED: Record = {
    "id": "fried", "serves": 2, "cook_in": "iron", "uses": uses(kernel="100 g"),
    "steps": [{"do": "press", "with": ["kernel"], "each_side": "4 min", "pieces": 1}],
}  # fmt: skip
FIRE: Record = {"irons": ["one-iron"], "wood_moisture": "20 %"}


def trip(folder: Path, *dinner: Record, **more: object) -> Hand:
    told: Record = {"fire": FIRE, **more}
    days = [day({"dinner": list(dinner)}, **told.pop("of_day", {}))]
    return hand(folder, day_trip(days=days, **told), [SOUP, MASH, FRIED])


def test_a_dish_on_the_fire_burns_wood_and_the_other_gas(tmp_path: Path) -> None:
    kit = trip(tmp_path, {"cook": "soup"}, {"cook": "mash", "heat": "fire"}).kit()
    soup, mash = kit.days[0].meals
    assert (soup.cooked_on, mash.cooked_on) == ("stove", "fire")
    (fuel,) = [each.fuel for each in kit.days]
    assert fuel.fuel_g == NEAR(SOUP_KJ / 0.5 / 46, rel=EXACT)
    assert fuel.wood_g == NEAR(MASH_KJ / 0.10 / WOOD_MJ_KG, rel=EXACT)
    assert fuel.meals_kj == NEAR(SOUP_KJ / 0.5 + MASH_KJ / 0.10, rel=EXACT)
    # Gas −15/+25 %, wood −50/+100 %.
    assert (fuel.low_g, fuel.high_g) == NEAR((0.85 * fuel.fuel_g, 1.25 * fuel.fuel_g), rel=EXACT)
    assert (fuel.wood_low_g, fuel.wood_high_g) == NEAR((0.5 * fuel.wood_g, 2 * fuel.wood_g))
    # A fire of 3500 W under less than a litre.
    assert mash.minutes == NEAR(1000 * MASH_KJ / (0.10 * 3500) / 60, rel=EXACT)


@pytest.mark.parametrize(
    ("of_day", "of_dish", "expected"),
    [
        ({}, {}, "stove"),
        ({"heat": "fire"}, {}, "fire"),
        ({"heat": "fire"}, {"heat": "stove"}, "stove"),
        ({}, {"heat": "embers"}, "embers"),
    ],
)
def test_the_dish_tells_before_its_day_and_the_day_before_the_trip(
    of_day: Record, of_dish: Record, expected: str, tmp_path: Path
) -> None:
    kit = trip(tmp_path, {"cook": "soup", **of_dish}, of_day=of_day).kit()
    assert meal_of(kit).cooked_on == expected


def test_without_a_stove_a_pot_is_on_the_fire(tmp_path: Path) -> None:
    fire: Record = {**FIRE, "pots": ["small"]}
    kit = trip(tmp_path, {"cook": "soup"}, stove=None, fire=fire).kit()
    assert (meal_of(kit).cooked_on, kit.fuel) == ("fire", None)


def test_a_pot_among_embers_takes_the_wood_of_embers(tmp_path: Path) -> None:
    kit = trip(tmp_path, {"cook": "soup", "heat": "embers"}).kit()
    soup = meal_of(kit)
    minutes = 1000 * SOUP_KJ / (0.10 * 3500) / 60
    assert soup.minutes == NEAR(minutes, rel=EXACT)
    assert soup.embers_min == 45
    # 3 kg make embers, then 2 kg an hour.
    assert kit.days[0].fuel.wood_g == NEAR(3000 + 2000 * minutes / 60, rel=EXACT)
    assert kit.days[0].fuel.fuel_g == 0


def test_one_fire_is_enough_for_embers_of_pot_and_iron(tmp_path: Path) -> None:
    kit = trip(tmp_path, {"cook": "soup", "heat": "embers"}, {"cook": "fried"}).kit()
    minutes = 1000 * SOUP_KJ / (0.10 * 3500) / 60
    # Two pieces one after the other in one iron, 2 · 4 + 1 min each, on the same embers.
    assert kit.days[0].fuel.wood_g == NEAR(3000 + 2000 * (minutes + 18) / 60, rel=EXACT)
    (order,) = kit.days[0].orders
    assert [step.do for step in order.steps].count("fire") == 1


@pytest.mark.parametrize(("pot", "mass_g", "kj_kg_k"), [("large", 400, 0.50), (None, 200, 0.897)])
def test_a_dish_is_cooked_in_the_pot_that_is_told(
    pot: str | None, mass_g: float, kj_kg_k: float, tmp_path: Path
) -> None:
    told = {"in": pot} if pot else {}
    soup = meal_of(trip(tmp_path, {"cook": "soup", **told}).kit())
    assert soup.pot == (pot or "small")
    assert soup.heat_kj == NEAR(heat_kj(500, mass_g, kj_kg_k), rel=EXACT)


# -- order of work --------------------------------------------------------------------------------


def busy(order: OrderOfWork, on: str) -> list[tuple[float, float]]:
    return [
        (step.before_min, step.before_min - step.minutes)
        for step in order.steps
        if step.on == on and step.minutes
    ]


def test_two_pots_on_two_heats_are_ready_together(tmp_path: Path) -> None:
    told = {"cook": "soup"}, {"cook": "mash", "heat": "fire", "in": "large"}
    order = order_of(trip(tmp_path, *told).kit())
    soup_min = 1000 * SOUP_KJ / (0.5 * 2000) / 60
    mash_min = 1000 * heat_kj(700, 400, 0.50) / (0.10 * 3500) / 60
    (on_stove,) = busy(order, "stove")
    assert on_stove == NEAR((soup_min, 0), rel=EXACT, abs=1e-9)
    (on_fire,) = busy(order, "fire")
    assert on_fire == NEAR((mash_min, 0), rel=EXACT, abs=1e-9)
    # The fire is lit in time for flames: 10 minutes before.
    assert order.start_min == NEAR(mash_min + 10, rel=EXACT)
    assert not [step for step in order.steps if step.do == "keep"]


def test_two_pots_on_one_heat_take_turns(tmp_path: Path) -> None:
    order = order_of(trip(tmp_path, {"cook": "soup"}, {"cook": "mash", "in": "large"}).kit())
    (first, last) = sorted(busy(order, "stove"), reverse=True)
    assert first[1] == NEAR(last[0], rel=EXACT)


# -- what cannot be -------------------------------------------------------------------------------

BREAD: Record = {
    "id": "bread", "serves": 2, "cook_in": "pot", "uses": uses(kernel="100 g"),
    "steps": [{"do": "mix", "with": ["kernel"], "water": "100 ml"},
              {"do": "bake", "minutes": 20, "at": "180 degC"}],
}  # fmt: skip


@pytest.mark.parametrize(
    ("told", "more", "kinds"),
    [
        ({"heat": "fire"}, {}, []),
        ({"heat": "fire"}, {"fire": {**FIRE, "allowed": False}}, ["no-such-heat"]),
        ({"heat": "embers"}, {"fire": None}, ["no-such-heat"]),
        ({"heat": "stove"}, {"stove": None, "fire": {**FIRE, "pots": ["small"]}}, ["no-such-heat"]),
        ({"in": "copper-pot"}, {}, ["pot-not-taken"]),
    ],
)
def test_a_heat_that_is_not_there_is_told(
    told: Record, more: Record, kinds: list[str], tmp_path: Path
) -> None:
    found = trip(tmp_path, {"cook": "soup", **told}, **more).problems
    assert [each.kind for each in found if each.severity == "error"] == kinds


@pytest.mark.parametrize(("pot", "kinds"), [("iron-pot", []), ("small", ["no-pot"])])
def test_what_is_baked_is_told_a_pot_of_cast_iron(
    pot: str, kinds: list[str], tmp_path: Path
) -> None:
    stove = {"use": "burner", "pots": ["small", "iron-pot"]}
    days = [day({"dinner": [{"cook": "bread", "in": pot}]})]
    found = hand(tmp_path, day_trip(days=days, stove=stove, fire=FIRE), [BREAD]).problems
    assert [each.kind for each in found if each.severity == "error"] == kinds
