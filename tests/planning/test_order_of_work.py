"""The order of work: nothing is used twice at once, steps stay in order, all is ready together."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.formulas.fire import EMBER_MIN
from builder.model.gear import Iron, Pot
from builder.model.kit import (
    Conditions,
    FuelDay,
    NutritionTotals,
    OrderOfWork,
    PlannedIngredient,
    PlannedMeal,
    PlannedStep,
    WaterHeating,
    WorkStep,
)
from builder.planning.cooking.hearth import Burner, Hearth
from builder.planning.cooking.order_of_work import orders_of_work
from builder.planning.cooking.tasks import FLAMES_MIN, PREHEAT_MIN
from builder.record import replace
from tests.planning.folders import Record, day, day_trip, hand, uses

HERE = Conditions(640, 938.8, 97.85, 1.16, 4, 16, "sheltered", "stream", "filter", 8)
POTS = tuple(Pot(name, name, 2000.0, 200.0, "aluminium") for name in ("large", "small"))
IRONS = (Iron("iron", "iron", 1500.0, presses=2),)
STOVE = Hearth(Burner("stove", 2000.0, 400.0, 0.5), (), POTS, IRONS, 14.0)
FIRE = Hearth(Burner("fire", 3000.0, 0.0, 0.1), (), POTS, IRONS, 14.0)
NEITHER = Hearth(None, (), POTS, (), 0.0)


def ingredient(name: str) -> PlannedIngredient:
    return PlannedIngredient(name, name, name, None, 100, None, None, 0, None, None, False, 300, 10)


def step(do: str, *names: str, **more: object) -> PlannedStep:
    usual: Record = {
        "do": do, "ingredients": tuple(ingredient(name) for name in names), "water_ml": 0.0,
        "minutes": 0.0, "minutes_at_sea_level": 0.0, "stir": False, "lid": False, "hot": False,
        "say": "", "each_side_min": 0.0, "presses": 0, "pieces": 0.0,
    }  # fmt: skip
    return PlannedStep(**{**usual, **more})


def dish(*steps: PlannedStep, **more: object) -> PlannedMeal:
    usual: Record = {
        "meal": "dinner", "title": "Stew", "recipe": "stew", "food": None, "eaters": ("Ea",),
        "heads": 1.0, "plate_shares": (1.0,), "cook_in": "pot", "conditions": HERE,
        "cooked_on": "stove", "pot": "large", "ingredients": (), "steps": steps,
        "mass_g": 100.0, "packaging_g": 7.0,
        "nutrition": NutritionTotals(), "water_ml": 500.0, "soak_water_ml": 0.0,
        "unboiled_water_ml": 0.0, "food_water_ml": 0.0, "drain_ml": 0.0, "potfuls": 1,
        "presses": 0, "heat_kj": 300.0, "fuel_heat_kj": 600.0, "wood_g": 0.0, "minutes": 0.0,
        "reach_c": None, "serves": 1.0, "note": "", "place": "",
    }  # fmt: skip
    return PlannedMeal(**{**usual, **more})


BOILED_MIN = 300 / 0.5 / 2000 * 1000 / 60  # the usual dish's heat on the stove of these tests


def stew(**more: object) -> PlannedMeal:
    return dish(
        step("soak", "beans", water_ml=200.0, minutes=20.0),
        step("boil", "rice", water_ml=300.0),
        step("simmer", minutes=8.0, stir=True),
        step("rest", minutes=6.0, lid=True),
        step("serve", "cheese"),
        **more,
    )


def tea(**more: object) -> PlannedMeal:
    steps = (step("soak", "tea", water_ml=400.0, minutes=4.0, hot=True), step("serve", "sugar"))
    return dish(*steps, **{"cook_in": "mug", "pot": "small", "title": "Tea", **more})


def pockets(**more: object) -> PlannedMeal:
    steps = (
        step("mix", "bread", "cheese"),
        step("press", "butter", each_side_min=3.0, presses=2, pieces=4.0),
        step("serve"),
    )
    return dish(*steps, **{
        "cook_in": "iron", "pot": None, "cooked_on": "fire", "presses": 2, "heat_kj": 0.0,
        "potfuls": 0, "water_ml": 0.0, "title": "Pockets", **more,
    })  # fmt: skip


def order_of(meals: Sequence[PlannedMeal], hearth: Hearth = STOVE) -> OrderOfWork:
    (order,) = orders_of_work(meals, hearth)
    return order


def line(order: OrderOfWork, place: int | None = 0) -> list[tuple[str, float, float]]:
    """Give what is done for one dish: what, how long before eating, for how long."""
    return [
        (each.do, round(each.before_min, 2), round(each.minutes, 2))
        for each in order.steps
        if each.place == place
    ]


# ---- by hand ----


def test_one_dish_is_counted_backward_from_eating() -> None:
    assert BOILED_MIN == 5.0
    assert line(order_of([stew()])) == [
        ("soak", 39.0, 20.0),
        ("boil", 19.0, 5.0),
        ("simmer", 14.0, 8.0),
        ("rest", 6.0, 6.0),
        ("serve", 0.0, 0.0),
    ]
    assert order_of([stew()]).start_min == 39.0


def test_what_goes_in_is_named_where_it_goes_in_first() -> None:
    meal = dish(
        step("soak", "beans", water_ml=200.0, minutes=5.0),
        step("boil", "beans", "rice", water_ml=300.0),
    )
    soak, boil = order_of([meal]).steps
    assert (soak.ingredients, boil.ingredients) == (("beans",), ("rice",))
    assert (soak.water_ml, boil.water_ml) == (200.0, 300.0)


def test_hot_soaking_has_its_water_boiled_first_and_leaves_the_burner_free() -> None:
    boil, soak, serve = order_of([tea()]).steps
    assert (boil.do, boil.on, boil.pot, boil.water_ml) == ("boil", "stove", "small", 400.0)
    assert (soak.do, soak.on, soak.pot, soak.water_ml, soak.hot) == ("soak", None, None, 0.0, True)
    assert [boil.before_min, soak.before_min, serve.before_min] == [9.0, 4.0, 0.0]


def test_two_boils_share_the_time_by_their_fresh_water() -> None:
    meal = dish(
        step("soak", "beans", water_ml=100.0, minutes=2.0, hot=True),
        step("boil", "rice", water_ml=300.0),
    )
    assert line(order_of([meal])) == [("boil", 8.25 - 1.25 + 0.0, 1.25), ("soak", 5.75, 2.0),
                                      ("boil", 3.75, 3.75)]  # fmt: skip


def test_tea_water_boils_while_the_stew_rests() -> None:
    meals = [stew(), tea(heat_kj=120.0)]
    order = order_of(meals)
    assert line(order, 1)[0] == ("boil", 6.0, 2.0)
    assert line(order)[-2:] == [("rest", 6.0, 6.0), ("serve", 0.0, 0.0)]


def test_one_pot_is_emptied_before_the_next_dish() -> None:
    order = order_of([stew(), tea(pot="large")])
    boil = next(each for each in order.steps if each.place == 1 and each.do == "boil")
    keep = next(each for each in order.steps if each.do == "keep")
    assert boil.empty_first
    assert keep.place == 0 and keep.frees and keep.before_min == boil.before_min == 9.0
    assert order.steps.index(keep) < order.steps.index(boil)


def test_water_that_was_boiled_alone_leaves_nothing_to_empty() -> None:
    order = order_of([tea(), tea(title="More tea", eaters=("Bo",))])
    assert len([each for each in order.steps if each.do == "boil"]) == 2
    assert not any(each.empty_first or each.frees for each in order.steps)


def test_one_mug_holds_one_drink_at_a_time() -> None:
    order = order_of([tea(), tea(title="Cocoa", pot="large")])
    first = [(each.do, each.before_min) for each in order.steps if each.place == 0]
    # Cocoa stands from 4 min before; the tea is ready 10 min before that, to be drunk up.
    assert line(order, 1) == [("boil", 9.0, 5.0), ("soak", 4.0, 4.0), ("serve", 0.0, 0.0)]
    assert first == [("boil", 23.0), ("soak", 18.0), ("keep", 14.0), ("serve", 0.0)]
    keep = next(each for each in order.steps if each.do == "keep")
    assert (keep.frees, keep.minutes) == (True, 14.0)
    # Others have mugs of their own.
    apart = order_of([tea(), tea(title="Cocoa", pot="large", eaters=("Bo",))])
    assert max(each.before_min for each in apart.steps) < 18.0


@pytest.mark.parametrize("places", [(0, 1), (1, 0)])
def test_what_comes_first_on_the_menu_is_put_on_first(places: tuple[int, int]) -> None:
    soup = dish(step("boil", water_ml=900.0), step("serve"), title="Soup", heat_kj=600.0)
    noodles = stew(title="Noodles", pot="small")
    meals = [soup, noodles] if places == (0, 1) else [noodles, soup]
    order = order_of(meals)
    put_on = [
        max(each.before_min for each in order.steps if each.place == place and each.on)
        for place in (0, 1)
    ]
    assert put_on[0] > put_on[1]
    # Whatever is ready early says how long it waits.
    waits = [each.minutes for each in order.steps if each.do == "keep"]
    ready = [each.before_min for each in order.steps if each.do == "keep"]
    assert waits == ready


def test_water_is_melted_before_anything_soaks_in_it() -> None:
    melting = WaterHeating(3000.0, "large", 900.0, 30.0, 0.0, 1000.0)
    boiling = WaterHeating(2000.0, "large", 900.0, 12.0, 3.0)
    fuel = FuelDay(0, 0, 0, 0, 0, melting=melting, boiling=boiling)
    breakfast, dinner = orders_of_work([tea(meal="breakfast"), stew()], STOVE, fuel)
    # The morning's third of the litres takes a third of the minutes.
    first = breakfast.steps[0]
    assert (first.do, first.water_ml, first.minutes) == ("melt", 1000.0, 10.0)
    assert (first.before_min, breakfast.start_min) == (19.0, 19.0)
    melt, boil, soak = dinner.steps[:3]
    assert (melt.do, melt.water_ml, melt.minutes, melt.on) == ("melt", 2000.0, 20.0, "stove")
    assert (boil.do, boil.water_ml, boil.minutes, boil.hold_min) == ("make-safe", 2000.0, 12.0, 3.0)
    assert soak.do == "soak"
    assert [melt.before_min, boil.before_min, soak.before_min] == [71.0, 51.0, 39.0]


def test_water_goes_with_what_is_cooked_and_one_fire_is_lit_for_all() -> None:
    melting = WaterHeating(3000.0, "large", 900.0, 30.0, 0.0, 1000.0)
    fuel = FuelDay(0, 0, 0, 0, 0, melting=melting)
    (order,) = orders_of_work([stew(meal="lunch")], FIRE, fuel)
    assert [each.water_ml for each in order.steps if each.do == "melt"] == [3000.0]
    assert [each.do for each in order.steps].count("fire") == 1
    assert order.steps[0].do == "fire"
    assert order.steps[1].do == "melt"
    assert order.steps[0].before_min == order.steps[1].before_min + FLAMES_MIN


def test_what_soaks_in_boiled_water_after_the_last_flame_is_measured_after_it() -> None:
    late = dish(
        step("boil", "pasta", water_ml=500.0),
        step("soak", "mince", water_ml=100.0, minutes=10.0, hot=True),
        step("serve"),
        reach_c=72.0,
        drain_ml=200.0,
    )
    done = [each.do for each in order_of([late]).steps]
    assert done == ["boil", "drain", "boil", "soak", "measure", "serve"]


def test_a_hard_boil_goes_on_once_it_boils_for_as_long_in_each_potful() -> None:
    hard = dish(step("boil", "beans", water_ml=500.0, minutes=12.0), step("serve"))
    assert line(order_of([hard])) == [
        ("boil", round(BOILED_MIN + 12, 2), round(BOILED_MIN, 2)),
        ("hold", 12.0, 12.0),
        ("serve", 0.0, 0.0),
    ]
    twice = order_of([replace(hard, potfuls=2)])
    held = [
        (each.potful, each.minutes, each.on, each.pot) for each in twice.steps if each.do == "hold"
    ]
    assert held == [(1, 12.0, "stove", "large"), (2, 12.0, "stove", "large")]


def test_several_potfuls_are_cooked_in_a_row_and_soaked_at_once() -> None:
    order = order_of([stew(potfuls=2)])
    # The first potful waits 16.5 min, and that is said.
    assert [(each.do, each.potful, each.before_min) for each in order.steps] == [
        ("soak", 0, 53.0),
        ("boil", 1, 33.0),
        ("simmer", 1, 30.5),
        ("rest", 1, 22.5),
        ("keep", 1, 16.5),
        ("boil", 2, 16.5),
        ("simmer", 2, 14.0),
        ("rest", 2, 6.0),
        ("serve", 0, 0.0),
    ]
    assert [each.water_ml for each in order.steps if each.do == "boil"] == [150.0, 150.0]
    assert order.steps[0].water_ml == 200.0 and order.steps[0].pot is None
    assert [each.empty_first for each in order.steps if each.do == "boil"] == [False, True]


def loaf(**more: object) -> PlannedMeal:
    steps = (
        step("mix", "flour"),
        step("bake", "butter", minutes=35.0, minutes_at_sea_level=35.0, baking_c=180.0),
        step("serve"),
    )
    usual = {"pot": "small", "heat_kj": 0.0, "cooked_on": "fire", "title": "Loaf"}
    return dish(*steps, **{**usual, **more})


def test_embers_are_ready_for_what_is_baked_and_no_iron_is_heated() -> None:
    order = order_of([loaf()], NEITHER)
    assert line(order, None) == [("fire", 35.0 + EMBER_MIN, EMBER_MIN)]
    assert line(order) == [("mix", 35.0, 0.0), ("bake", 35.0, 35.0), ("serve", 0.0, 0.0)]
    bake = order.steps[2]
    assert (bake.on, bake.pot) == ("embers", "small")


def test_a_pot_stands_over_the_flames_while_another_bakes_in_the_embers() -> None:
    # Listed first or last, the stew is not put on before the bread, and nothing waits.
    for meals in ([loaf(), stew()], [stew(), loaf()]):
        order = order_of(meals, FIRE)
        assert not [each for each in order.steps if each.do == "keep"]
        assert [each.before_min for each in order.steps if each.do == "bake"] == [35.0]


def test_embers_and_hot_irons_are_ready_for_the_first_press() -> None:
    order = order_of([pockets()])
    assert line(order) == [("mix", 14.0, 0.0), ("press", 14.0, 14.0), ("serve", 0.0, 0.0)]
    assert line(order, None) == [
        ("fire", 14.0 + EMBER_MIN, EMBER_MIN),
        ("preheat", 14.0 + PREHEAT_MIN, PREHEAT_MIN),
    ]


def test_two_dishes_share_the_irons_and_one_fire() -> None:
    order = order_of([pockets(), pockets(title="Sweet pockets")])
    presses = [each.before_min for each in order.steps if each.do == "press"]
    assert presses == [28.0, 14.0]
    assert [each.do for each in order.steps].count("fire") == 1
    assert order.start_min == 28.0 + EMBER_MIN


def test_a_pot_over_the_fire_waits_for_the_flames() -> None:
    order = order_of([stew(heat_kj=60.0)], FIRE)
    boil = next(each for each in order.steps if each.do == "boil")
    fire = next(each for each in order.steps if each.do == "fire")
    assert boil.on == "fire"
    assert fire.before_min == boil.before_min + FLAMES_MIN


def test_the_middle_is_measured_and_water_poured_off_after_the_last_heat() -> None:
    order = order_of([stew(reach_c=72.0, drain_ml=100.0)])
    assert [each.do for each in order.steps] == [
        "soak",
        "boil",
        "simmer",
        "measure",
        "drain",
        "rest",
        "serve",
    ]


def test_without_fire_or_stove_nothing_is_heated_but_cold_soaking_is_timed() -> None:
    meal = dish(
        step("soak", "beans", water_ml=200.0, minutes=20.0),
        step("mix", "oil"),
        cook_in="none",
        pot="large",
        cooked_on=None,
        heat_kj=0.0,
    )
    order = order_of([meal], NEITHER)
    assert line(order) == [("soak", 20.0, 20.0), ("mix", 0.0, 0.0)]
    assert all(each.on is None and each.pot is None for each in order.steps)


def test_mealtimes_come_in_the_order_they_are_eaten_and_what_is_not_cooked_is_left_out() -> None:
    nuts = dish(recipe=None, food="nuts", meal="snacks", cook_in=None)
    orders = orders_of_work([stew(), nuts, tea(meal="breakfast")], STOVE)
    assert [order.meal for order in orders] == ["breakfast", "dinner"]
    assert {each.place for each in orders[0].steps} == {2}


# ---- laws ----

MINUTES = st.sampled_from([0.0, 1.0, 4.0, 7.5, 20.0])
MIDDLE = st.lists(
    st.builds(
        lambda do, minutes, water: step(
            do,
            water_ml=water if do in ("soak", "boil", "mix") else 0.0,
            minutes=0.0 if do in ("boil", "mix") else minutes,
            hot=do == "soak" and water > 200,
        ),
        st.sampled_from(["soak", "boil", "simmer", "fry", "mix", "rest"]),
        MINUTES,
        st.sampled_from([0.0, 150.0, 400.0]),
    ),
    min_size=1,
    max_size=5,
)


@st.composite
def dishes(draw: st.DrawFn) -> PlannedMeal:
    vessel = draw(st.sampled_from(["pot", "pot", "mug", "iron", "none"]))
    steps = draw(MIDDLE)
    if vessel == "iron":
        steps.append(step("press", each_side_min=2.0, presses=draw(st.integers(1, 4))))
    steps.append(step("serve"))
    return dish(
        *steps,
        cook_in=vessel,
        pot=draw(st.sampled_from(["large", "small"])),
        potfuls=draw(st.integers(1, 3)),
        heat_kj=draw(st.sampled_from([0.0, 120.0, 300.0])),
        reach_c=draw(st.sampled_from([None, 74.0])),
    )


MEALS_OF_A_TIME = st.lists(dishes(), min_size=1, max_size=6)
HEARTHS = st.sampled_from([STOVE, FIRE])


def spans(order: OrderOfWork, what: str) -> list[tuple[float, float]]:
    """Give when something is busy, in minutes with 0 at eating."""
    return sorted(
        (-each.before_min, each.minutes - each.before_min)
        for each in order.steps
        if each.minutes > 0 and (each.on == what or each.pot == what)
    )


@settings(max_examples=150, deadline=None)
@given(MEALS_OF_A_TIME, HEARTHS)
def test_no_burner_and_no_iron_is_used_twice_at_once(
    meals: list[PlannedMeal], hearth: Hearth
) -> None:
    order = order_of(meals, hearth)
    assert hearth.burner is not None
    for what in (hearth.burner.on, "iron"):
        for (_, ends), (begins, _) in pairwise(spans(order, what)):
            assert begins >= ends - 1e-6


@settings(max_examples=150, deadline=None)
@given(MEALS_OF_A_TIME, HEARTHS)
def test_no_pot_holds_two_dishes_at_once(meals: list[PlannedMeal], hearth: Hearth) -> None:
    order = order_of(meals, hearth)
    for pot in ("large", "small"):
        fillings: dict[tuple[int | None, int], list[float]] = {}
        for each in order.steps:
            in_mugs = each.place is not None and meals[each.place].cook_in == "mug"
            # A mug recipe boils each of its waters by itself: between them the pot is free.
            own = len(fillings) if in_mugs else 0
            if each.pot == pot and each.do != "serve":
                key = (each.place, each.potful + 1000 * own)
                times = [-each.before_min, each.minutes - each.before_min]
                fillings.setdefault(key, []).extend(times)
        held = sorted((min(times), max(times)) for times in fillings.values())
        held = [(begins, ends) for begins, ends in held if ends > begins]
        assert all(later[0] >= former[1] - 1e-6 for former, later in pairwise(held))


@settings(max_examples=150, deadline=None)
@given(MEALS_OF_A_TIME, HEARTHS)
def test_each_dish_keeps_its_order_and_is_ready_when_all_eat(
    meals: list[PlannedMeal], hearth: Hearth
) -> None:
    order = order_of(meals, hearth)
    assert order.start_min == max(each.before_min for each in order.steps)
    for place, meal in enumerate(meals):
        own = [each for each in order.steps if each.place == place]
        assert all(each.minutes - each.before_min <= 1e-6 for each in own)
        # A potful that is done waits in bowls while the next one cooks.
        own = [each for each in own if not (each.do == "keep" and each.potful)]
        for former, later in pairwise(own):
            assert -later.before_min >= former.minutes - former.before_min - 1e-6
        assert own[-1].do == "serve"
        assert own[-1].before_min == 0.0
        asked = Counter(each.do for each in meal.steps)
        made = Counter(each.do for each in own if not (each.do == "boil" and each.hot))
        for do, times in asked.items():
            assert made[do] >= times if meal.potfuls > 1 else made[do] == times


def test_a_potful_is_done_before_the_next_begins_at_the_same_moment() -> None:
    # Thirds of minutes add up to moments that differ in the last digits.
    soak, boil = step("soak", water_ml=400.0, hot=True), step("boil", water_ml=400.0)
    press = step("press", each_side_min=2.0, presses=1, pieces=2.0)
    filled = dish(
        soak, boil, step("soak"), press, step("serve"), cook_in="iron", potfuls=2, heat_kj=60.0
    )
    order = order_of([filled], FIRE)
    own = [each for each in order.steps if each.potful and each.do != "keep"]
    assert [each.potful for each in own] == sorted(each.potful for each in own)


@settings(max_examples=60, deadline=None)
@given(MEALS_OF_A_TIME, HEARTHS)
def test_the_same_dishes_give_the_same_order(meals: list[PlannedMeal], hearth: Hearth) -> None:
    assert order_of(meals, hearth) == order_of(list(meals), hearth)


@settings(max_examples=60, deadline=None)
@given(dishes())
def test_a_dish_alone_is_never_kept_waiting(meal: PlannedMeal) -> None:
    order = order_of([meal])
    assert not any(each.do == "keep" and not each.potful for each in order.steps)


# ---- in a whole trip ----


def test_a_day_of_a_trip_has_its_orders_of_work(tmp_path: Path) -> None:
    recipe: Record = {
        "id": "pot", "serves": 1, "cook_in": "pot", "uses": uses(kernel="100 g"),
        "steps": [{"do": "boil", "with": ["kernel"], "water": "300 ml"},
                  {"do": "simmer", "minutes": 10}, {"do": "serve"}],
    }  # fmt: skip
    cooked = day({"dinner": [{"cook": "pot"}], "snacks": [{"eat": "kernel-nut", "each": "50 g"}]})
    kit = hand(tmp_path, day_trip(days=[cooked]), [recipe]).kit()
    (order,) = kit.days[0].orders
    meal = kit.days[0].meals[0]
    assert order.meal == "dinner"
    assert [each.do for each in order.steps] == ["boil", "simmer", "serve"]
    assert order.start_min == pytest.approx(meal.minutes)
    assert sum(each.minutes for each in order.steps) == pytest.approx(meal.minutes)


def test_every_step_names_its_dish_by_its_place(tmp_path: Path) -> None:
    recipe: Record = {
        "id": "mug", "serves": 1, "cook_in": "mug", "uses": uses(tea_leaf="2 g"),
        "steps": [{"do": "soak", "with": ["tea-leaf"], "water": "250 ml", "hot": True,
                   "minutes": 3}],
    }  # fmt: skip
    meals = {"snacks": [{"eat": "kernel-nut", "each": "50 g"}], "drinks": [{"cook": "mug"}]}
    (order,) = hand(tmp_path, day_trip(days=[day(meals)]), [recipe]).kit().days[0].orders
    assert {step.place for step in order.steps} == {1}
    steps: tuple[WorkStep, ...] = order.steps
    assert [each.do for each in steps] == ["boil", "soak"]
