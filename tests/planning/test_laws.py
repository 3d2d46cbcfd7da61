"""Laws that hold for any planned trip."""

from __future__ import annotations

import re
import tempfile
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.model.kit import Kit
from builder.model.trip import (
    Camp,
    Day,
    Meal,
    MealItem,
    Person,
    Travel,
    Treatment,
    Trip,
    WaterPlace,
    WaterSource,
    Wind,
)
from builder.planning.kit import plan_trip
from builder.record import replace

from .folders import Hand, Record, day, day_trip, hand, uses

NEAR = pytest.approx
EXACT = 1e-9
# As `units.show` gives it; what is told in no trip's units, as months and percent, stays.
_QUANTITY = re.compile(r"[−-]?[\d.,]+\s(?:°C|°F|g|kg|oz|ounces?|lb|pounds?)(?!\w)")

STEW: Record = {
    "id": "stew", "serves": 2, "cook_in": "pot",
    "uses": uses(pulse="90 g dehydrator", kernel="110 g", stew_meat="40 g oven", oil="12 g"),
    "steps": [
        {"do": "soak", "with": ["pulse", "stew-meat"], "water": "auto", "minutes": 10},
        {"do": "boil", "with": ["kernel"], "water": "310 ml"},
        {"do": "simmer", "minutes": 9},
        {"do": "mix", "with": ["oil"], "water": "20 ml"},
        {"do": "rest", "minutes": 6},
    ],
}  # fmt: skip
TEA: Record = {
    "id": "tea", "serves": 1, "cook_in": "mug", "uses": uses(tea_leaf="2 g"),
    "steps": [{"do": "soak", "with": ["tea-leaf"], "water": "250 ml", "minutes": 4, "hot": True}],
}  # fmt: skip
RINGS: Record = {
    "id": "rings", "food": "berry", "method": "dehydrator", "done": "2031-01-01",
    "fresh": "40 kg", "dried": "9.6 kg", "packs": {"count": 240, "in": "foil"},
}  # fmt: skip


@cache
def base() -> Hand:
    """Read the folder once; the laws change its trip record by record."""
    meals = {
        "breakfast": [{"cook": "stew"}],
        "lunch": [{"eat": "hard-cheese", "each": "50 g"}],
        "dinner": [{"cook": "stew"}],
        "snacks": [{"eat": "berry", "from": "rings", "each": "25 g"}],
        "drinks": [{"cook": "tea"}],
    }
    folder = Path(tempfile.mkdtemp(prefix="laws-"))
    read = hand(folder, day_trip(days=[day(meals), day(meals)]), [STEW, TEA], [RINGS])
    assert read.problems == ()
    return read


def plan(trip: Trip) -> Kit:
    return plan_trip(trip, base().content, base().stock)


def with_party(trip: Trip, party: Sequence[Person]) -> Trip:
    """Let another party eat all that a trip plans."""
    names = tuple(person.name for person in party)

    def fed(item: MealItem) -> MealItem:
        return replace(item, eaters=names)

    def of(one: Day) -> Day:
        meals = tuple(Meal(meal.meal, tuple(map(fed, meal.items))) for meal in one.meals)
        return replace(one, meals=meals)

    return replace(trip, party=tuple(party), days=tuple(map(of, trip.days)))


def with_camps(trip: Trip, camps: Sequence[Camp]) -> Trip:
    days = [replace(one, camp=camp) for one, camp in zip(trip.days, camps, strict=True)]
    return replace(trip, days=tuple(days))


people = st.builds(
    Person,
    name=st.just("x"),
    sex=st.sampled_from(["female", "male", None]),
    age_years=st.integers(1, 90).map(float),
    mass_kg=st.integers(12, 110).map(float),
    carries_to_g=st.one_of(st.none(), st.integers(4000, 25000).map(float)),
    own_gear_g=st.one_of(st.none(), st.integers(0, 8000).map(float)),
)


@st.composite
def parties(draw: st.DrawFn, most: int = 5) -> list[Person]:
    found = draw(st.lists(people, min_size=1, max_size=most))
    return [replace(person, name=f"P{number}") for number, person in enumerate(found)]


camps = st.builds(
    Camp,
    altitude_m=st.integers(-300, 6000).map(float),
    air_low_c=st.integers(-30, 20).map(float),
    air_high_c=st.integers(20, 36).map(float),
    wind=st.sampled_from(list[Wind](["sheltered", "breezy", "windy"])),
    water=st.builds(
        WaterPlace,
        camp=st.sampled_from(list[WaterSource](["tap", "stream", "lake", "snow", "none"])),
        treat=st.sampled_from(list[Treatment](["none", "filter", "chemical", "boil"])),
        at_c=st.integers(0, 25).map(float),
        between_water_h=st.integers(0, 8).map(float),
    ),
)
legs = st.builds(
    Travel,
    by=st.sampled_from(["walking", "paddling", "skiing", "resting", "carried"]),
    hours=st.integers(2, 8).map(float),
    distance_m=st.one_of(st.none(), st.integers(4000, 18000).map(float)),
    ascent_m=st.integers(0, 1200).map(float),
    descent_m=st.integers(0, 1200).map(float),
)
ways = st.lists(legs, max_size=2).map(tuple)


@st.composite
def trips(draw: st.DrawFn, most: int = 5) -> Trip:
    """Give the base trip with another party, other camps and other ways."""
    trip = with_party(base().content.trips["hand"], draw(parties(most)))
    trip = with_camps(trip, [draw(camps), draw(camps)])
    return replace(trip, days=tuple(replace(one, travel=draw(ways)) for one in trip.days))


laws = settings(max_examples=30, deadline=None, derandomize=True)


@laws
@given(trips(most=4), people)
def test_more_people_never_need_less(trip: Trip, another: Person) -> None:
    fewer = plan(trip)
    more = plan(with_party(trip, [*trip.party, replace(another, name="New")]))
    for before, after in zip(fewer.days, more.days, strict=True):
        for name in ("cooking_ml", "drinks_ml", "drinking_ml", "total_ml", "carry_ml", "treat_ml"):
            assert getattr(after.water, name) >= getattr(before.water, name) - 1e-6
        assert after.fuel.fuel_g >= before.fuel.fuel_g * (1 - EXACT)
        assert after.energy_need_kcal > before.energy_need_kcal
    assert fewer.fuel is not None
    assert more.fuel is not None
    assert more.fuel.carry_g >= fewer.fuel.carry_g * (1 - EXACT)
    assert more.weights.food_g > fewer.weights.food_g


@laws
@given(trips(), st.integers(1, 4000))
def test_more_height_never_cooks_shorter(trip: Trip, higher_m: int) -> None:
    def lifted(one: Day) -> Day:
        assert one.camp.altitude_m is not None
        return replace(one, camp=replace(one.camp, altitude_m=one.camp.altitude_m + higher_m))

    below, above = plan(trip), plan(replace(trip, days=tuple(map(lifted, trip.days))))
    for low, high in zip(below.days, above.days, strict=True):
        assert high.conditions.boiling_point_c < low.conditions.boiling_point_c
        for one, other in zip(low.meals, high.meals, strict=True):
            for before, after in zip(one.steps, other.steps, strict=True):
                assert after.minutes >= before.minutes
                assert after.minutes_at_sea_level == before.minutes_at_sea_level
                stretched = before.do in ("simmer", "rest") or before.hot
                assert (after.minutes > before.minutes) is stretched


@laws
@given(trips().filter(lambda trip: len(trip.party) > 1), st.data())
def test_a_party_split_over_two_pots_adds_up(trip: Trip, data: st.DataObject) -> None:
    names = [person.name for person in trip.party]
    cut = data.draw(st.integers(1, len(names) - 1))

    def split(item: MealItem) -> tuple[MealItem, ...]:
        if item.recipe is None:
            return (item,)
        groups = (tuple(names[:cut]), tuple(names[cut:]))
        return tuple(replace(item, eaters=group) for group in groups)

    def of(one: Day) -> Day:
        meals = tuple(
            Meal(meal.meal, tuple(part for item in meal.items for part in split(item)))
            for meal in one.meals
        )
        return replace(one, meals=meals)

    whole, parts = plan(trip), plan(replace(trip, days=tuple(map(of, trip.days))))
    for one, other in zip(whole.days, parts.days, strict=True):
        assert other.water.cooking_ml == NEAR(one.water.cooking_ml, rel=EXACT)
        assert other.water.drinks_ml == NEAR(one.water.drinks_ml, rel=EXACT)
        assert other.water.total_ml == NEAR(one.water.total_ml, rel=EXACT)
        assert other.nutrition.energy_kcal == NEAR(one.nutrition.energy_kcal, rel=EXACT)
        assert _heat_without_pots_kj(parts, other.day) == NEAR(
            _heat_without_pots_kj(whole, one.day), rel=EXACT
        )
        # Two pots are warmed instead of one, so it never takes less.
        assert other.fuel.fuel_g >= one.fuel.fuel_g * (1 - EXACT)
    assert parts.weights.food_g == NEAR(whole.weights.food_g, rel=EXACT)


def _heat_without_pots_kj(kit: Kit, number: int) -> float:
    """Give what water and food take of a day's heat: 0.897 and 0.50 kJ/(kg K) are the pots'."""
    heat_kj = 0.0
    for meal in kit.days[number - 1].meals:
        at = meal.conditions
        pot_kj_k = {"small": 0.200 * 0.897, "large": 0.400 * 0.50}.get(meal.pot or "", 0.0)
        heat_kj += meal.heat_kj - meal.potfuls * pot_kj_k * (at.boiling_point_c - at.water_c)
    return heat_kj


@laws
@given(trips())
def test_every_gram_is_in_somebodys_pack_once(trip: Trip) -> None:
    kit = plan(trip)
    weights = kit.weights

    def carried(kind: str) -> float:
        return sum(
            each.mass_g for load in weights.people for each in load.carries if each.kind == kind
        )

    eaten_g = sum(meal.mass_g for one in kit.days for meal in one.meals)
    in_meals_g = sum(
        each.amount_g for one in kit.days for meal in one.meals for each in meal.ingredients
    )
    assert weights.food_g == NEAR(eaten_g, rel=EXACT)
    assert weights.food_g == NEAR(in_meals_g, rel=EXACT)
    assert carried("food") == NEAR(weights.food_g + weights.packaging_g, rel=EXACT)
    assert carried("fuel") == NEAR(weights.fuel_g, rel=EXACT)
    assert carried("gear") == NEAR(weights.gear_g, rel=EXACT)
    assert carried("water") == NEAR(weights.water_most_g, rel=EXACT, abs=1e-5)
    for load in weights.people:
        # The heaviest morning: on no morning is more in a pack than all that is ever in it.
        assert load.total_g == max(load.by_day_g)
        assert load.total_g <= sum(each.mass_g for each in load.carries) * (1 + EXACT)


@laws
@given(trips().flatmap(lambda trip: st.tuples(st.just(trip), st.permutations(trip.party))))
def test_the_order_of_people_changes_no_total(both: tuple[Trip, list[Person]]) -> None:
    trip, party = both
    kit, other = plan(trip), plan(with_party(trip, party))
    assert other.weights.by_day_g == NEAR(kit.weights.by_day_g, rel=EXACT)
    assert other.weights.packaging_g == NEAR(kit.weights.packaging_g, rel=EXACT)
    for one, two in zip(kit.days, other.days, strict=True):
        assert two.energy_need_kcal == NEAR(one.energy_need_kcal, rel=EXACT)
        assert two.water.total_ml == NEAR(one.water.total_ml, rel=EXACT)
        assert two.water.carry_ml == NEAR(one.water.carry_ml, rel=EXACT)
        assert two.fuel.fuel_g == NEAR(one.fuel.fuel_g, rel=EXACT)
        needs = {each.name: each.energy_need_kcal for each in one.people}
        assert {each.name: NEAR(each.energy_need_kcal, rel=EXACT) for each in two.people} == needs
    shares = {each.name: each.energy_share for each in kit.party}
    assert {each.name: NEAR(each.energy_share, rel=EXACT) for each in other.party} == shares
    fullest = [max(load.of_limit for load in each.weights.people) for each in (kit, other)]
    assert fullest[0] == NEAR(fullest[1], rel=1e-6)


@laws
@given(trips(), st.sampled_from(["metric", "us"]))
def test_units_change_nothing_that_is_computed(trip: Trip, units: Literal["metric", "us"]) -> None:
    kit, metric = plan(replace(trip, units=units)), plan(replace(trip, units="metric"))
    # What brings a caution up is said in the trip's units.
    told = [
        tuple(replace(each, because="", text="", otherwise="", in_both="") for each in one.cautions)
        for one in (kit, metric)
    ]
    assert told[0] == told[1]
    # So are the quantities in what is said of a batch, and they alone.
    same = [
        replace(
            one,
            units="metric",
            cautions=(),
            batches=tuple(
                replace(
                    each,
                    act=_QUANTITY.sub("…", each.act),
                    reasons=tuple(_QUANTITY.sub("…", reason) for reason in each.reasons),
                )
                for each in one.batches
            ),
        )
        for one in (kit, metric)
    ]
    assert same[0] == same[1]


@laws
@given(trips())
def test_a_plan_is_the_same_each_time(trip: Trip) -> None:
    assert plan(trip) == plan(trip)


@laws
@given(trips())
def test_sums_are_those_of_their_parts(trip: Trip) -> None:
    kit = plan(trip)
    assert kit.fuel is not None
    assert kit.fuel.likely_g == NEAR(sum(one.fuel.fuel_g for one in kit.days), rel=EXACT)
    held_g = sum(each.holds_g * each.count for each in kit.fuel.containers)
    assert held_g >= kit.fuel.carry_g * (1 - EXACT)
    for one in kit.days:
        water = one.water
        parts_ml = water.cooking_ml + water.drinks_ml + water.drinking_ml + water.washing_ml
        assert water.total_ml == NEAR(parts_ml, rel=EXACT)
        assert water.drinking_ml >= 0
        for meal in one.meals:
            assert sum(meal.plate_shares) == NEAR(1, rel=EXACT)
            assert 0 <= meal.unboiled_water_ml <= meal.water_ml + 1e-9
    assert sum(each.energy_share for each in kit.party) == NEAR(len(kit.party), rel=EXACT)
    loads = kit.weights.by_day_g
    carried = [one.water.carry_ml for one in kit.days]
    # Without the water, the load only falls.
    assert loads[1] - carried[1] < loads[0] - carried[0]
