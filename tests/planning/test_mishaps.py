"""What is still eaten and drunk where something goes wrong, worked by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.kit import Kit
from builder.model.mishaps import Mishap, StillEaten
from builder.planning.mishaps.all_of_them import told_of
from builder.planning.mishaps.live import live
from builder.planning.public import public_kit
from tests.planning.folders import Record, day, day_trip, hand, uses

GRAIN: Record = {
    "id": "grain-pot", "meal": ["dinner"], "serves": 2, "cook_in": "pot",
    "uses": uses(kernel="200 g", oil="20 g"),
    "steps": [{"do": "boil", "with": ["kernel", "oil"], "water": "600 ml"}],
}  # fmt: skip
PULSE: Record = {
    "id": "pulse-pot", "meal": ["lunch"], "serves": 2, "cook_in": "pot",
    "uses": uses(pulse="100 g freeze-dryer", oil="20 g"),
    "steps": [{"do": "boil", "with": ["pulse", "oil"], "water": "300 ml"}],
}  # fmt: skip
MEALS: Record = {
    "lunch": [{"cook": "pulse-pot"}],
    "dinner": [{"cook": "grain-pot"}],
    "snacks": [{"eat": "kernel-nut", "each": "50 g"}],
}


def planned(folder: Path, one: Record | None = None, **more: object) -> Kit:
    return hand(folder, day_trip(days=[one or day(MEALS)], **more), [GRAIN, PULSE]).kit()


def of_kind(kit: Kit, kind: str, who: str = "") -> Mishap:
    return next(each for each in kit.mishaps if each.kind == kind and each.who == who)


def test_without_fuel_what_was_cooked_before_is_soaked_cold(tmp_path: Path) -> None:
    kit = planned(tmp_path)
    found = of_kind(kit, "no-fuel")
    # Pulses were cooked before they were dried; raw grain is not, and oil needs no heat.
    assert (found.cold, found.uneaten) == (((1, 0),), ((1, 1),))
    # The grain: 200 g of 3.5 kcal and 20 g of 9 kcal.
    assert found.missing_kcal == pytest.approx(880)
    assert kit.fuel and found.mend_g == kit.fuel.likely_g and found.mended_by == "fuel"
    meals = kit.days[0].meals
    for person, still in zip(kit.days[0].people, found.still, strict=True):
        share = dict(zip(meals[1].eaters, meals[1].plate_shares, strict=True))[person.name]
        assert still.kcal[0] == pytest.approx(person.food_kcal - 880 * share)


def test_a_lost_bag_takes_its_food_and_what_it_cooks_with(tmp_path: Path) -> None:
    kit = planned(tmp_path)
    for load in kit.weights.people:
        found = of_kind(kit, "bag", load.name)
        food = {each.meal for each in load.carries if each.meal}
        stove = any(each.what == "Burner" for each in load.carries)
        lost = food | set(found.uneaten)
        energy = sum(kit.days[day - 1].meals[place].nutrition.energy_kcal for day, place in lost)
        assert found.missing_kcal == pytest.approx(energy)
        # Nuts hold 6 kcal per gram.
        assert found.mend_g == pytest.approx(energy / 6)
        assert bool(found.uneaten or found.cold) == (stove and len(food) < 3) or not stove
        still = sum(each.kcal[0] for each in found.still)
        assert still == pytest.approx(kit.days[0].nutrition.energy_kcal - energy)


def test_some_fuel_lost_is_told(tmp_path: Path) -> None:
    kit = planned(tmp_path)
    owners = [load for load in kit.weights.people if any(e.kind == "fuel" for e in load.carries)]
    assert len(owners) == 1  # one can, so all of the fuel is gone with it
    assert of_kind(kit, "bag", owners[0].name).fuel_left_g is None
    assert set(of_kind(kit, "bag", owners[0].name).uneaten) <= {(1, 1)}


def test_the_fuel_in_the_cans_that_are_left_is_told(tmp_path: Path) -> None:
    days = [day(MEALS, wind="windy") for _ in range(8)]
    kit = hand(tmp_path, day_trip(days=days), [GRAIN, PULSE]).kit()
    holds_g = {190.0: 100.0, 400.0: 250.0}  # cans of the gear by what they weigh when full
    cans = {
        load.name: [holds_g[each.mass_g] for each in load.carries if each.kind == "fuel"]
        for load in kit.weights.people
    }
    (cook,) = (e.name for e in kit.weights.people if any(c.what == "Burner" for c in e.carries))
    (other,) = cans.keys() - {cook}
    assert cans[cook] and cans[other]
    assert of_kind(kit, "bag", other).fuel_left_g == pytest.approx(sum(cans[cook]))
    assert of_kind(kit, "bag", cook).fuel_left_g is None  # the stove is gone too


def test_a_day_more_spreads_the_same_food(tmp_path: Path) -> None:
    kit = planned(tmp_path)
    found = of_kind(kit, "day-more")
    for person, still in zip(kit.days[0].people, found.still, strict=True):
        assert still.kcal == pytest.approx((person.food_kcal / 2,))
        assert still.need_kcal == pytest.approx((person.energy_need_kcal,))
    need = kit.days[0].energy_need_kcal
    assert found.mend_g == pytest.approx(need / 6)


@pytest.mark.parametrize(
    ("water", "no_water", "unsafe"),
    [
        ({"camp": "stream", "treat": "filter"}, (), ()),
        ({"camp": "stream", "treat": "boil"}, (), (1,)),
        ({"camp": "snow", "treat": "none"}, (1,), ()),
    ],
)
def test_water_that_hangs_on_the_stove_is_told(
    tmp_path: Path, water: Record, no_water: tuple[int, ...], unsafe: tuple[int, ...]
) -> None:
    found = of_kind(planned(tmp_path, day(MEALS, water=water)), "no-fuel")
    assert (found.no_water_days, found.unsafe_days) == (no_water, unsafe)


@pytest.mark.parametrize(("camp", "told"), [("stream", True), ("lake", True), ("none", False)])
def test_a_dry_spring_leaves_what_is_carried(tmp_path: Path, camp: str, told: bool) -> None:
    kit = planned(tmp_path, day(MEALS, water={"camp": camp, "treat": "filter"}))
    dry = [each for each in kit.mishaps if each.kind == "dry"]
    assert [each.day for each in dry] == ([1] if told else [])
    water = kit.days[0].water
    for each in dry:
        assert each.drink_ml == pytest.approx(water.carry_ml / 2)
        assert each.mend_g == pytest.approx(max(water.total_ml - water.carry_ml, 0))


def test_no_fire_is_told_only_where_something_is_cooked_on_one(tmp_path: Path) -> None:
    assert not any(each.kind == "no-fire" for each in planned(tmp_path / "stove").mishaps)
    bare = day_trip(days=[day(MEALS)], fire={"pots": ["large"], "allowed": True})
    del bare["stove"]
    kit = hand(tmp_path / "fire", bare, [GRAIN, PULSE]).kit()
    found = of_kind(kit, "no-fire")
    assert (found.cold, found.uneaten) == (((1, 0),), ((1, 1),))
    assert found.mended_by == "wood" and found.mend_g == kit.wood_g
    assert not any(each.kind == "no-fuel" for each in kit.mishaps)


def test_a_public_kit_tells_nothing_of_one_person(tmp_path: Path) -> None:
    found = hand(tmp_path, day_trip(days=[day(MEALS)]), [GRAIN, PULSE])
    public = public_kit(found.kit(), found.content)
    assert public.mishaps and not any(each.who or each.still for each in public.mishaps)
    assert public.review is None


def of_many(folder: Path, people: int) -> Kit:
    """Give the trip for so many."""
    party = [
        {
            "name": f"P{number}",
            "sex": "female",
            "age": 40,
            "mass": "60 kg",
            "height": "165 cm",
            "own_gear": "4 kg",
        }
        for number in range(people)
    ]
    return hand(folder, day_trip(days=[day(MEALS)], party=party), [GRAIN, PULSE]).kit()


@pytest.mark.parametrize(("people", "each"), [(10, True), (11, False)])
def test_of_a_crowd_all_together_are_told_and_who_has_the_least(
    tmp_path: Path, people: int, each: bool
) -> None:
    kit = of_many(tmp_path, people)
    found = of_kind(kit, "no-fuel")
    assert len(found.still) == (people if each else 2)
    if not each:
        together, least = found.still
        of_all = kit.days[0]
        assert together.name == "" and least.name
        lost = sum(of_all.meals[place].nutrition.energy_kcal for _, place in found.uneaten)
        assert together.kcal[0] == pytest.approx(of_all.nutrition.energy_kcal - lost)
        assert together.need_kcal == (of_all.energy_need_kcal,)


@pytest.mark.parametrize("people", [10, 11])
def test_a_day_more_wants_the_food_of_everybody(tmp_path: Path, people: int) -> None:
    kit = of_many(tmp_path, people)
    found = of_kind(kit, "day-more")
    assert found.missing_kcal == pytest.approx(kit.days[0].energy_need_kcal)
    if people > 10:
        assert found.still[0].kcal[0] == pytest.approx(kit.days[0].nutrition.energy_kcal / 2)


def test_the_one_left_with_the_least_of_their_need_is_named() -> None:
    crowd = tuple(StillEaten(f"P{n}", (2000.0, 2000.0), (1500.0, 1800.0 + n)) for n in range(11))
    # Less is lost on the second day alone; there the last but one has 1200 of 2000 kcal.
    odd = (*crowd[:9], StillEaten("Odd", (2000.0, 2000.0), (1900.0, 1200.0)), crowd[10])
    together = StillEaten("", (22000.0, 22000.0), (16500.0, 19000.0))
    assert told_of(odd, together, [1]) == (together, odd[9])
    assert told_of(odd, together, []) == (together,)
    assert told_of(odd[:10], together, [1]) == odd[:10]


def test_what_may_be_otherwise_is_told_of_what_is_cooked_eaten_and_drunk(tmp_path: Path) -> None:
    kit = planned(tmp_path)
    told = live(kit).figures
    of_meals = {name for name in told if ".meals." in name}
    cooked = {f"days.0.meals.{at}.{what}" for at in (0, 1) for what in ("water_ml", "minutes")}
    # Nuts are eaten out of the hand: they have a weight, and neither water nor minutes.
    assert [bool(meal.recipe) for meal in kit.days[0].meals] == [True, True, False]
    assert of_meals == cooked | {f"days.0.meals.{at}.mass_g" for at in range(3)}
    meals = kit.days[0].meals
    assert told["days.0.meals.1.water_ml"] == meals[1].water_ml == pytest.approx(600)
    assert told["days.0.water.total_ml"] == kit.days[0].water.total_ml
    assert kit.fuel and told["days.0.fuel_g"] == kit.days[0].fuel.fuel_g
    (can,) = kit.fuels[0].containers
    # What is carried must hold what the trip burns: a guard, which is 1 where it does.
    assert told["carried.0"] == float(kit.fuels[0].carry_g <= can.holds_g * can.count)
