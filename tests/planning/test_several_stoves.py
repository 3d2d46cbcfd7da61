"""Dishes of one meal over several stoves, worked out on paper: pots, minutes, fuel of each kind.

At 1000 m water boils at some 96.7 °C, by an independent library; the stream has 10 °C. The burner
has 2000 W, an efficiency of 50 % and at least 400 W; gas holds 46 MJ/kg. The spirit burner has
1000 W, 40 % and at least 100 W; alcohol holds 25 MJ/kg.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from builder.model.kit import Kit, OrderOfWork, PlannedMeal
from builder.model.trip import MealItem
from builder.planning.cooking import cooking_places, hearth_of, orders_of_work
from builder.planning.menu import plan_menu
from builder.record import replace

from .folders import Hand, Record, day, day_trip, hand, uses
from .soup_and_mash import BOILS_C, MASH, MASH_KJ, SOUP, SOUP_KJ, dish, heat_kj, order_of

NEAR = pytest.approx
SLOWER = 10 ** ((99.97 - BOILS_C) / 33)
POTS = ["small", "large"]

LONG_SOUP, LONG_MASH = dish("long-soup", 500, 20), dish("long-mash", 700, 20)
PARTED: Record = {
    "id": "parted", "serves": 2, "cook_in": "pot",
    "uses": uses(kernel="100 g", stew_meat="50 g freeze-dryer"),
    "steps": [{"do": "boil", "with": ["kernel"], "water": "500 ml"}, {"do": "part"},
              {"do": "simmer", "with": ["stew-meat"], "minutes": 10}],
}  # fmt: skip
RECIPES = [SOUP, MASH, LONG_SOUP, LONG_MASH, PARTED]


def trip(folder: Path, stoves: Sequence[str], *dinner: Record, **more: object) -> Hand:
    told: Record = {"stove": {"use": list(stoves), "pots": POTS, "fuel_reserve": "20 %"}}
    of_day = more.pop("of_day", {})
    assert isinstance(of_day, dict)
    days = [day({"dinner": list(dinner)}, **of_day)]
    return hand(folder, day_trip(days=days, **{**told, **more}), RECIPES)


def minutes(heat: float, power_w: float, share: float) -> float:
    return 1000 * heat / (share * power_w) / 60


IN_LARGE_KJ = heat_kj(500, 400, 0.50)  # the soup, in steel
SOUP_MIN, MASH_MIN = minutes(SOUP_KJ, 2000, 0.5), minutes(MASH_KJ, 2000, 0.5)


def stands(kit: Kit) -> list[tuple[str | None, str | None]]:
    return [(meal.stove, meal.pot) for meal in kit.days[0].meals]


def test_on_one_stove_two_pots_take_turns(tmp_path: Path) -> None:
    kit = trip(tmp_path, ["burner"], {"cook": "soup"}, {"cook": "mash"}).kit()
    assert stands(kit) == [("burner", "small"), ("burner", "small")]
    assert order_of(kit).start_min == NEAR(SOUP_MIN + MASH_MIN)


def test_on_two_stoves_they_stand_side_by_side_each_in_its_pot(tmp_path: Path) -> None:
    both = {"cook": "soup"}, {"cook": "mash"}
    kit = trip(tmp_path, ["burner", "burner"], *both).kit()
    # Moving the soup is enough: then all is ready as soon as the mash alone is.
    assert stands(kit) == [("burner 2", "large"), ("burner", "small")]
    assert order_of(kit).start_min == NEAR(MASH_MIN)
    soup, mash = kit.days[0].meals
    assert soup.minutes == NEAR(minutes(IN_LARGE_KJ, 2000, 0.5))
    assert mash.minutes == NEAR(MASH_MIN)
    # Each is put on so late that both are hot when all eat.
    first, then = order_of(kit).steps[:2]
    assert (first.stove, then.stove) == ("burner", "burner 2")
    assert (first.before_min, then.before_min) == NEAR((MASH_MIN, minutes(IN_LARGE_KJ, 2000, 0.5)))
    # One kind of fuel for both.
    (fuel,) = kit.fuels
    assert fuel.likely_g == NEAR((IN_LARGE_KJ + MASH_KJ) / 0.5 / 46)
    assert [(each.id, each.name) for each in fuel.stoves] == [
        ("burner", "Burner"),
        ("burner 2", "Burner (2)"),
    ]
    assert [each.likely_g for each in fuel.stoves] == NEAR(
        [MASH_KJ / 0.5 / 46, IN_LARGE_KJ / 0.5 / 46]
    )
    carried = [thing for load in kit.weights.people for thing in load.carries]
    assert sorted(each.what for each in carried if "Burner" in each.what) == [
        "Burner",
        "Burner (2)",
    ]


def test_another_stove_is_not_lit_where_it_makes_nobody_eat_sooner(tmp_path: Path) -> None:
    # The soup alone takes the spirit burner longer than both take the other one.
    assert minutes(IN_LARGE_KJ, 1000, 0.4) > SOUP_MIN + MASH_MIN
    both = {"cook": "soup"}, {"cook": "mash"}
    kit = trip(tmp_path, ["burner", "spirit-burner"], *both).kit()
    assert stands(kit) == [("burner", "small"), ("burner", "small")]
    gas, alcohol = kit.fuels
    assert (gas.id, alcohol.id) == ("gas", "alcohol")
    assert alcohol.likely_g == 0 and alcohol.carry_g == 0
    names = [thing.what for load in kit.weights.people for thing in load.carries]
    assert "Spirit burner" in names and "Alcohol" not in names


@pytest.mark.parametrize(("simmers", "lit"), [(1, False), (2, True)])
def test_another_stove_is_lit_where_ready_food_would_stand(
    simmers: int, lit: bool, tmp_path: Path
) -> None:
    # The stew soaks cold for an hour: on one stove the soup is cooked meanwhile, and then stands
    # while the stew boils and simmers, some 3 and simmers · 1.26 minutes.
    stew: Record = {
        "id": "stew", "serves": 2, "cook_in": "pot", "uses": uses(kernel="100 g"),
        "steps": [{"do": "soak", "with": ["kernel"], "water": "500 ml", "minutes": 60},
                  {"do": "boil"}, {"do": "simmer", "minutes": simmers}],
    }  # fmt: skip
    days = [day({"dinner": [{"cook": "soup"}, {"cook": "stew", "in": "large"}]})]
    stove = {"use": ["burner", "burner"], "pots": POTS}
    kit = hand(tmp_path, day_trip(days=days, stove=stove), [SOUP, stew]).kit()
    stands_min = minutes(IN_LARGE_KJ, 2000, 0.5) + simmers * SLOWER
    assert (stands_min > 5) == lit
    stoves = {meal.stove for meal in kit.days[0].meals}
    assert (len(stoves) == 2) == lit
    kept = [step for step in order_of(kit).steps if step.do == "keep" and step.minutes > 1]
    assert bool(kept) != lit


def test_a_stove_of_another_fuel_takes_that_fuel_along(tmp_path: Path) -> None:
    both = {"cook": "long-soup"}, {"cook": "long-mash"}
    kit = trip(tmp_path, ["burner", "spirit-burner"], *both).kit()
    assert stands(kit) == [("spirit-burner", "large"), ("burner", "small")]
    simmers = 20 * SLOWER
    on_spirit = minutes(IN_LARGE_KJ, 1000, 0.4) + simmers
    assert order_of(kit).start_min == NEAR(on_spirit)
    soup, mash = kit.days[0].meals
    assert (soup.minutes, mash.minutes) == NEAR((on_spirit, MASH_MIN + simmers))
    # The large pot loses 240 W at the boil, the small one 90 W.
    alcohol_g = (IN_LARGE_KJ / 0.4 + 240 / 0.4 * simmers * 0.06) / 25
    gas_g = (MASH_KJ / 0.5 + 400 * simmers * 0.06) / 46
    gas, alcohol = kit.fuels
    assert (gas.likely_g, alcohol.likely_g) == NEAR((gas_g, alcohol_g))
    assert alcohol.carry_g == NEAR(1.2 * alcohol_g)
    assert [(each.holds_g, each.count) for each in gas.containers] == [(100, 1)]
    (of_day,) = [each.fuel for each in kit.days]
    assert [each.stove for each in of_day.stoves] == ["burner", "spirit-burner"]
    assert [each.fuel_g for each in of_day.stoves] == NEAR([gas_g, alcohol_g])
    assert of_day.fuel_g == NEAR(gas_g + alcohol_g)
    # Gas −15/+25 %; alcohol −20/+50 %.
    assert (gas.low_g, gas.high_g) == NEAR((0.85 * gas_g, 1.25 * gas_g))
    assert (alcohol.low_g, alcohol.high_g) == NEAR((0.8 * alcohol_g, 1.5 * alcohol_g))
    # A 100 g can with its 90 g of metal, and the alcohol as it is.
    assert kit.weights.fuel_g == NEAR(190 + 1.2 * alcohol_g)


def test_melting_and_boiling_stay_on_the_first_stove(tmp_path: Path) -> None:
    water = {"camp": "stream", "treat": "boil", "at": "10 degC", "between_water": "2 h"}
    of_day = {"water": water}
    kit = trip(tmp_path, ["burner", "burner"], {"cook": "soup"}, of_day=of_day).kit()
    first, second = kit.days[0].fuel.stoves
    assert kit.days[0].fuel.boiling.volume_ml > 0
    assert first.fuel_g > second.fuel_g
    make_safe = next(step for step in order_of(kit).steps if step.do == "make-safe")
    assert make_safe.stove == "burner"


def test_a_pot_that_is_told_stays_and_so_does_a_heat(tmp_path: Path) -> None:
    fire: Record = {"allowed": True}
    both = {"cook": "long-soup", "in": "small"}, {"cook": "long-mash", "heat": "fire"}
    kit = trip(tmp_path, ["burner", "burner"], *both, fire=fire).kit()
    soup, mash = kit.days[0].meals
    assert (soup.pot, soup.stove) == ("small", "burner")
    assert (mash.cooked_on, mash.stove) == ("fire", None)


def test_what_is_parted_keeps_to_one_stove(tmp_path: Path) -> None:
    party = [
        {"name": "Ea", "sex": "female", "age": 40, "mass": "60 kg", "height": "165 cm"},
        {"name": "Bo", "sex": "male", "age": 40, "mass": "80 kg", "height": "180 cm",
         "avoids": ["vegetarian"]},
    ]  # fmt: skip
    kit = trip(tmp_path, ["burner", "burner"], {"cook": "parted"}, party=party).kit()
    stays, taken = kit.days[0].meals
    assert taken.begins_in and stays.stove == taken.stove == "burner"


@pytest.mark.parametrize("stoves", [["burner", "spirit-burner"], ["spirit-burner", "burner"]])
def test_each_stove_has_its_cautions(stoves: list[str], tmp_path: Path) -> None:
    def told(folder: str, *those: str) -> set[str]:
        return {each.id for each in trip(tmp_path / folder, those, {"cook": "soup"}).kit().cautions}

    gas, spirit = told("gas", "burner"), told("spirit", "spirit-burner")
    assert gas - spirit and spirit - gas
    assert told("both", *stoves) >= gas | spirit


def test_a_stove_that_is_lost_with_a_bag_leaves_the_other_one(tmp_path: Path) -> None:
    both = {"cook": "long-soup"}, {"cook": "long-mash"}

    def cold(stoves: Sequence[str], folder: Path) -> list[bool]:
        others = [each for each in stoves if each != "burner"]
        kit = trip(
            folder,
            stoves,
            *both,
            gear_shared=[
                {"name": "Box", "mass": "9 g", "carried_by": "Ea"},
                {"name": "Bag", "mass": "9 g", "carried_by": "Bo"},
            ],
            together=[["burner", "small", "Box"], ["fuel", "large", "Bag", *others]],
        ).kit()
        return [bool(each.uneaten) for each in kit.mishaps if "Burner" in each.lost]

    assert cold(["burner"], tmp_path / "one") == [True]
    assert cold(["burner", "spirit-burner"], tmp_path / "two") == [False]


def test_of_two_stoves_that_are_alike_each_is_told_with_whoever_has_it(tmp_path: Path) -> None:
    both = {"cook": "long-soup"}, {"cook": "long-mash"}
    kit = trip(tmp_path, ["burner", "burner"], *both).kit()
    has = {
        thing.what: person.name
        for person in kit.weights.people
        for thing in person.carries
        if thing.what.startswith("Burner")
    }
    assert len(set(has.values())) == 2, "so one of them cannot be told for the other"
    told = {each.name: each.carried_by for each in kit.utensils.all}
    assert {name: told[name] for name in has} == has


def test_a_stove_that_is_not_there_is_told_where_it_stands(tmp_path: Path) -> None:
    found = trip(tmp_path, ["burner", "spirit-burnr"], {"cook": "soup"}).problems
    (problem,) = [each for each in found if each.severity == "error"]
    assert "spirit-burnr" in problem.says and problem.place.line > 1


# -- more heats, never later ----------------------------------------------------------------------

DISHES = ("soup", "mash", "long-soup", "long-mash")


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Hand:
    return trip(tmp_path_factory.mktemp("stoves"), ["burner"], {"cook": "soup"})


def planned(shelf: Hand, cooks: Sequence[str], stoves: Sequence[str]) -> list[PlannedMeal]:
    """Plan a dinner of some dishes over some stoves, without all else of the trip."""
    content = shelf.content
    told = content.trips["hand"]
    (only,) = told.days
    (dinner,) = only.meals
    (item,) = dinner.items
    items: tuple[MealItem, ...] = tuple(replace(item, recipe=name) for name in cooks)
    days = (replace(only, meals=(replace(dinner, items=items),)),)
    of_stoves = replace(told, days=days, stoves=tuple(stoves))
    hearth = hearth_of(of_stoves, content)
    (menu,) = plan_menu(of_stoves, content, {}, cooking_places(of_stoves), hearth)
    return [each.planned for each in menu]


@settings(
    max_examples=12,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(
    cooks=st.lists(st.sampled_from(DISHES), min_size=1, max_size=4),
    stoves=st.lists(st.sampled_from(["burner", "spirit-burner"]), min_size=2, max_size=3),
)
def test_with_more_stoves_nobody_waits_longer(
    shelf: Hand, cooks: list[str], stoves: list[str]
) -> None:
    starts: list[float] = []
    for number in range(1, len(stoves) + 1):
        meals = planned(shelf, cooks, stoves[:number])
        told = replace(shelf.content.trips["hand"], stoves=tuple(stoves[:number]))
        (order,) = orders_of_work(meals, hearth_of(told, shelf.content))
        starts.append(float(order.start_min))
        nothing_is_used_twice(order)
    assert starts == sorted(starts, reverse=True)


def nothing_is_used_twice(order: OrderOfWork) -> None:
    """Hold that no stove heats two dishes at once; pots are full for longer than that."""
    busy: dict[str, list[tuple[float, float]]] = defaultdict(list)
    for step in order.steps:
        if step.stove is not None and step.minutes:
            begins = float(step.before_min)
            busy[step.stove].append((begins, begins - float(step.minutes)))
    for spans in busy.values():
        for (_, ends), (begins, _) in pairwise(sorted(spans, reverse=True)):
            assert begins <= ends + 1e-6
