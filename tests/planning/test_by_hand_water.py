"""What a party drinks, cooks, washes with, carries and treats, worked out on paper.

Ea is a woman of 60 kg (2000 ml a day), Bo a man of 80 kg (2500 ml); both are 40.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from builder.model.kit import Kit, PersonDay

from .folders import Record, day, day_of, day_trip, hand, meal_of, uses

NEAR = pytest.approx
EXACT = 1e-6

DRY = {"snacks": [{"eat": "oil", "each": "10 g"}]}  # food without water


def kit_of(folder: Path, *days: Record, recipes: list[Record] | None = None, **more: Any) -> Kit:
    return hand(folder, day_trip(days=days, **more), recipes).kit()


def person(kit: Kit, name: str, number: int = 1) -> PersonDay:
    return next(each for each in day_of(kit, number).people if each.name == name)


def dish(*steps: Record, **more: object) -> Record:
    """Give a recipe for one, with 50 g of kernel, which hold 6 g of water."""
    own = {"id": "dish", "serves": 1, "cook_in": "pot", "uses": uses(kernel="50 g")}
    return {**own, "steps": [*steps], **more}


def boiled(water_ml: float, **more: object) -> Record:
    return dish({"do": "boil", "with": ["kernel"], "water": f"{water_ml} ml"}, **more)


def mixed(water_ml: float) -> Record:
    step = {"do": "mix", "with": ["kernel"], "water": f"{water_ml} ml"}
    return dish(step, cook_in="none")


# -- need -----------------------------------------------------------------------------------------

INTAKES = [
    ({"sex": "male", "age": 40}, 2500),
    ({"sex": "female", "age": 40}, 2000),
    ({"age": 40}, 2250),  # mean of both
    ({"sex": "female", "age": 30, "pregnant": True}, 2300),
    ({"sex": "female", "age": 30, "nursing": True}, 2700),
    ({"sex": "female", "age": 1, "mass": "9 kg"}, 1150),
    ({"sex": "male", "age": 2, "mass": "12 kg"}, 1300),
    ({"sex": "male", "age": 3.9, "mass": "16 kg"}, 1300),
    ({"sex": "female", "age": 4, "mass": "17 kg"}, 1600),
    ({"sex": "male", "age": 8}, 1600),
    ({"sex": "male", "age": 9}, 2100),
    ({"sex": "female", "age": 13}, 1900),
    ({"age": 10}, 2000),
    ({"sex": "male", "age": 14}, 2500),
    ({"sex": "female", "age": 14}, 2000),
    ({"sex": "male", "age": 80}, 2500),
]


@pytest.mark.parametrize(("body", "intake_ml"), INTAKES)
def test_a_day_without_travel(tmp_path: Path, body: Record, intake_ml: float) -> None:
    kit = kit_of(tmp_path, day(DRY), party=[{"name": "One", "mass": "60 kg", **body}])
    one = person(kit, "One")
    assert one.intake_ml == NEAR(intake_ml, rel=EXACT)
    assert one.water_need_ml == NEAR(intake_ml, rel=EXACT)
    assert one.to_drink_ml == NEAR(intake_ml, rel=EXACT)


@pytest.mark.parametrize(
    ("high_c", "by_hour"), [(25, 500), (25.1, 750), (30, 750), (30.1, 1000), (-5, 500)]
)
def test_need_on_the_way(tmp_path: Path, high_c: float, by_hour: float) -> None:
    travel = {"by": "paddling", "hours": 6}
    air = {"low": "-9 degC", "high": f"{high_c} degC"}
    party = [
        {"name": "Ea", "sex": "female", "age": 40, "mass": "60 kg"},
        {"name": "Lo", "sex": "female", "age": 40, "mass": "48 kg"},
    ]
    kit = kit_of(tmp_path, day(DRY, travel=travel, air=air), party=party)
    for name, rate in (("Ea", by_hour), ("Lo", by_hour * 48 / 60)):
        # The six hours take the place of as many quiet ones, at 0.8 · 2000 / 16 = 100 ml. The ten
        # other hours awake want 6 % more for each degree above 25 (they counted as cool before).
        hot = 0.06 * max(0, high_c - 25) * 10 / 16
        need = 2000 * (1 + hot) + 6 * (rate - 0.8 * 2000 / 16)
        assert person(kit, name).rate_ml_h == NEAR(rate, rel=EXACT)
        assert person(kit, name).water_need_ml == NEAR(need, rel=EXACT)


@pytest.mark.parametrize(
    ("high_c", "ea_ml", "bo_ml"),
    [(25, 2000, 2500), (26, 2120, 2650), (30, 2600, 3250), (38, 3560, 4450)],
)
def test_heat_counts_on_a_day_of_rest(
    tmp_path: Path, high_c: float, ea_ml: float, bo_ml: float
) -> None:
    # 6 % of the quiet day's water for each degree above 25, all 16 hours awake.
    air = {"low": "15 degC", "high": f"{high_c} degC"}
    kit = kit_of(tmp_path, day(DRY, air=air))
    assert person(kit, "Ea").water_need_ml == NEAR(ea_ml, rel=EXACT)
    assert person(kit, "Bo").water_need_ml == NEAR(bo_ml, rel=EXACT)
    assert "over-drinking" in {each.id for each in kit.cautions} or high_c <= 30


@pytest.mark.parametrize(("hours", "need_ml", "says"), [(8, 10450, False), (10, 11400, True)])
def test_the_need_ends_at_11_4_litres_and_says_so(
    tmp_path: Path, hours: float, need_ml: float, says: bool
) -> None:
    # At 31 °C, high up: 2500 (1 + 0.06 · 6 · 8/16) + 8 · 875 + 500 = 10,450 ml, and for ten hours
    # 2500 (1 + 0.06 · 6 · 6/16) + 10 · 875 + 500 = 12,087.5 ml, of which 11,400 are told.
    travel = {"by": "paddling", "hours": hours}
    air = {"low": "15 degC", "high": "31 degC"}
    kit = kit_of(tmp_path, day(DRY, travel=travel, air=air, camp_altitude="2600 m"))
    assert person(kit, "Bo").water_need_ml == NEAR(need_ml, rel=EXACT)
    said = [each.because for each in kit.cautions if each.id == "over-drinking"]
    assert any("plan a shorter way" in each for each in said) is says


def test_resting_hours_are_no_travel(tmp_path: Path) -> None:
    kit = kit_of(tmp_path, day(DRY, travel={"by": "resting", "hours": 8}))
    assert person(kit, "Bo").water_need_ml == 2500


@pytest.mark.parametrize(("altitude_m", "more_ml"), [(2500, 0), (2501, 500)])
def test_high_camps_want_half_a_litre_more(
    tmp_path: Path, altitude_m: float, more_ml: float
) -> None:
    kit = kit_of(tmp_path, day(DRY, camp_altitude=f"{altitude_m} m"))
    assert person(kit, "Bo").water_need_ml == NEAR(2500 + more_ml, rel=EXACT)


# -- water in food --------------------------------------------------------------------------------


def test_water_in_food_counts_equally_and_up_to_a_cap(tmp_path: Path) -> None:
    eat = {"dinner": [{"cook": "dish"}], "snacks": [{"eat": "berry", "each": "100 g"}]}
    kit = kit_of(tmp_path, day(eat), recipes=[boiled(300, drain="20 ml")])
    # Each: 300 − 20 ml, 12 % of 50 g, and 80 % of 100 g.
    assert meal_of(kit).food_water_ml == NEAR(2 * (280 + 6), rel=EXACT)
    each_ml = 280 + 6 + 80
    assert person(kit, "Ea").water_from_food_ml == NEAR(each_ml, rel=EXACT)
    assert person(kit, "Ea").to_drink_ml == NEAR(2000 - each_ml, rel=EXACT)
    assert person(kit, "Bo").to_drink_ml == NEAR(2500 - each_ml, rel=EXACT)


def test_no_more_than_three_tenths_come_from_food(tmp_path: Path) -> None:
    kit = kit_of(tmp_path, day({"dinner": [{"cook": "dish"}]}), recipes=[boiled(690)])
    # 696 ml each: above 0.3 · 2000 = 600, below 0.3 · 2500 = 750.
    assert person(kit, "Ea").water_from_food_ml == NEAR(600, rel=EXACT)
    assert person(kit, "Ea").to_drink_ml == NEAR(1400, rel=EXACT)
    assert person(kit, "Bo").water_from_food_ml == NEAR(696, rel=EXACT)
    assert person(kit, "Bo").to_drink_ml == NEAR(2500 - 696, rel=EXACT)


def test_only_those_who_eat_get_its_water(tmp_path: Path) -> None:
    eat = {"lunch": [{"eat": "berry", "each": "200 g", "for": ["Bo"]}]}
    kit = kit_of(tmp_path, day(eat))
    assert person(kit, "Ea").water_from_food_ml == 0
    assert person(kit, "Bo").water_from_food_ml == NEAR(160, rel=EXACT)


def test_everyone_drinks_at_least_a_litre(tmp_path: Path) -> None:
    child = {"name": "Kid", "sex": "male", "age": 2, "mass": "13 kg"}
    kit = kit_of(
        tmp_path, day({"dinner": [{"cook": "dish"}]}), recipes=[boiled(500)], party=[child]
    )
    # 1300 less 0.3 · 1300 would be 910 ml.
    assert person(kit, "Kid").to_drink_ml == 1000


def test_drinks_are_part_of_what_is_to_drink(tmp_path: Path) -> None:
    eat = {"dinner": [{"cook": "dish"}], "drinks": [{"cook": "tea", "for": ["Bo"]}]}
    tea = {"id": "tea", "serves": 1, "cook_in": "mug", "uses": uses(tea_leaf="2 g"),
           "steps": [{"do": "boil", "with": ["tea-leaf"], "water": "400 ml"}]}  # fmt: skip
    kit = kit_of(tmp_path, day(eat), recipes=[boiled(194), tea])
    water = day_of(kit).water
    assert water.cooking_ml == NEAR(2 * 194, rel=EXACT)
    assert water.drinks_ml == 400
    # Tea does not count as food.
    assert person(kit, "Bo").to_drink_ml == NEAR(2500 - 200, rel=EXACT)
    assert water.drinking_ml == NEAR((2000 - 200) + (2500 - 200 - 400), rel=EXACT)
    assert water.washing_ml == 1000
    assert water.total_ml == NEAR(388 + 400 + 3700 + 1000, rel=EXACT)


def test_drinking_is_never_below_nothing(tmp_path: Path) -> None:
    eat = {"drinks": [{"cook": "dish", "for": ["Ea"]}]}
    kit = kit_of(tmp_path, day(eat), recipes=[boiled(2400)])
    # Ea drinks 2400 ml of tea and needs 2000; Bo's 2500 ml are not made less by it.
    assert day_of(kit).water.drinking_ml == NEAR(2500, rel=EXACT)


@pytest.mark.parametrize(("home", "share"), [(["lunch"], 0.25), (["breakfast", "dinner"], 0.60)])
def test_meals_at_home_take_their_share_off_the_drinking(
    tmp_path: Path, home: list[str], share: float
) -> None:
    kit = kit_of(tmp_path, day(DRY, home=home))
    drinking_ml = 4500 * (1 - share)
    assert day_of(kit).water.drinking_ml == NEAR(drinking_ml, rel=EXACT)


def test_meals_at_home_leave_the_water_of_the_way(tmp_path: Path) -> None:
    travel = {"by": "paddling", "hours": 4}
    kit = kit_of(tmp_path, day(DRY, home=["dinner"], travel=travel))
    # The way asks 4 · (500 − 100) and 4 · (500 − 125) ml on top of 2000 and 2500: that stays.
    assert person(kit, "Ea").to_drink_ml == NEAR(2000 * 0.65 + 1600, rel=EXACT)
    assert person(kit, "Bo").to_drink_ml == NEAR(2500 * 0.65 + 1500, rel=EXACT)


# -- cooking and treating -------------------------------------------------------------------------


def test_a_dinner_on_the_day_that_ends_at_home_is_not_eaten_at_home(tmp_path: Path) -> None:
    eat = [{"eat": "kernel-nut", "each": "50 g"}]
    shares = []
    for meal in ("lunch", "dinner"):
        kit = kit_of(tmp_path / meal, day({meal: eat}, ends="home"))
        shares.append(person(kit, "Bo").to_drink_ml)
    # Without a dinner of its own its 0.35 is drunk at home; the nuts bring 0.3 AI at most.
    assert shares[0] == pytest.approx(0.65 * shares[1])


def test_all_water_of_soak_boil_and_mix_is_cooking_water(tmp_path: Path) -> None:
    recipe = dish(
        {"do": "soak", "with": ["kernel"], "water": "50 ml", "minutes": 5},
        {"do": "boil", "water": "100 ml"},
        {"do": "mix", "water": "30 ml"},
    )
    kit = kit_of(tmp_path, day({"lunch": [{"cook": "dish"}]}), recipes=[recipe])
    assert day_of(kit).water.cooking_ml == 2 * 180
    assert meal_of(kit).soak_water_ml == 100
    assert meal_of(kit).unboiled_water_ml == 60
    assert day_of(kit).water.treat_ml == NEAR(60 + day_of(kit).water.drinking_ml, rel=EXACT)


@pytest.mark.parametrize(("camp", "treated"), [("stream", 1), ("lake", 1), ("snow", 1),
                                               ("none", 1), ("tap", 0)])  # fmt: skip
def test_only_a_tap_needs_no_treatment(tmp_path: Path, camp: str, treated: int) -> None:
    at = day({"lunch": [{"cook": "dish"}]}, water={"camp": camp, "treat": "chemical"})
    kit = kit_of(tmp_path, at, recipes=[mixed(100)])
    water = day_of(kit).water
    assert water.treat_ml == NEAR(treated * (200 + water.drinking_ml), rel=EXACT)


def test_a_breakfast_at_a_tap_is_not_treated_at_the_stream(tmp_path: Path) -> None:
    start = {"camp_altitude": "0 m", "water": {"camp": "tap"}}
    kit = kit_of(
        tmp_path, day({"breakfast": [{"cook": "dish"}]}), recipes=[mixed(100)], start_camp=start
    )
    assert day_of(kit).water.treat_ml == NEAR(day_of(kit).water.drinking_ml, rel=EXACT)


# -- washing --------------------------------------------------------------------------------------


def test_washing_at_each_camp_with_a_cooked_meal(tmp_path: Path) -> None:
    cook = {"dinner": [{"cook": "dish"}]}
    days = [day(cook), day(DRY), day(cook), day(DRY, ends="home")]
    kit = kit_of(tmp_path, *days, recipes=[boiled(100)], washing="1.5 l")
    assert [each.water.washing_ml for each in kit.days] == [1500, 0, 1500, 0]


def test_nothing_is_washed_where_nothing_is_cooked(tmp_path: Path) -> None:
    kit = kit_of(tmp_path, day(DRY), day(DRY))
    assert [each.water.washing_ml for each in kit.days] == [0, 0]


# -- carrying -------------------------------------------------------------------------------------


def test_carried_between_water(tmp_path: Path) -> None:
    travel = {"by": "paddling", "hours": 6}
    water = {"camp": "stream", "treat": "filter", "between_water": "2.5 h"}
    air = {"low": "9 degC", "high": "28 degC"}
    kit = kit_of(tmp_path, day(DRY, travel=travel, water=water, air=air))
    assert day_of(kit).water.carry_ml == NEAR(2.5 * (750 + 750), rel=EXACT)
    assert kit.weights.water_most_g == NEAR(3750, rel=EXACT)


def test_nobody_carries_for_longer_than_they_are_on_the_way(tmp_path: Path) -> None:
    water = {"camp": "stream", "treat": "filter", "between_water": "5 h"}
    short = day(DRY, travel={"by": "paddling", "hours": 2}, water=water)
    kit = kit_of(tmp_path, short, day(DRY, water=water))
    assert day_of(kit).water.carry_ml == NEAR(2 * (500 + 500), rel=EXACT)
    assert day_of(kit, 2).water.carry_ml == 0


def test_a_camp_without_water(tmp_path: Path) -> None:
    breakfast, dinner, tea = boiled(150), boiled(250), boiled(200)
    recipes = [{**breakfast, "id": "porridge"}, {**dinner, "id": "stew"}, {**tea, "id": "tea"}]
    dry = {"camp": "none", "treat": "filter", "between_water": "3 h"}
    first = day(
        {
            "breakfast": [{"cook": "porridge"}],
            "dinner": [{"cook": "stew"}],
            "drinks": [{"cook": "tea"}],
        },
        water=dry,
        travel={"by": "paddling", "hours": 5},
    )
    second = day(
        {
            "breakfast": [{"cook": "porridge"}, {"cook": "porridge", "for": ["Bo"]}],
            "dinner": [{"cook": "stew"}],
        },
        travel={"by": "paddling", "hours": 4},
    )
    kit = kit_of(tmp_path, first, second, recipes=recipes)
    carry_ml = (
        3 * (500 + 500)
        + 2 * 250  # this day's cooking without its breakfast
        + 3 * 150  # the next day's breakfast
        + 2 * 200  # drinks
        + 1000  # washing
        + 10 * 0.8 * (2000 + 2500) / 16  # the night
        + 2 * (500 + 500)  # the next day's way to its first water, which was left out before
    )
    assert day_of(kit).water.carry_ml == NEAR(carry_ml, rel=EXACT)
    assert day_of(kit, 2).water.carry_ml == NEAR(2 * (500 + 500), rel=EXACT)
    assert kit.weights.water_most_g == NEAR(carry_ml, rel=EXACT)


def test_the_way_on_from_a_dry_camp_is_the_next_days_own(tmp_path: Path) -> None:
    dry = {"camp": "none", "treat": "filter", "between_water": "1 h"}
    travel = {"by": "paddling", "hours": 1.5}
    hot = {"low": "15 degC", "high": "31 degC"}
    far = {"camp": "stream", "treat": "filter", "between_water": "4 h"}
    kit = kit_of(
        tmp_path,
        day(DRY, water=dry, travel=travel),
        day(DRY, water=far, travel=travel, air=hot),
    )
    # An hour of today at 500 ml, the night, and tomorrow's hour and a half at 1000 ml.
    night_ml = 10 * 0.8 * (2000 + 2500) / 16
    assert day_of(kit).water.carry_ml == NEAR(1000 + night_ml + 1.5 * 2000, rel=EXACT)


# -- boiling to make it safe ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("next_treat", "next_hours", "onward_ml"),
    [("filter", 6, 2 * 1000), ("filter", 1, 1000), ("filter", 0, 0), ("boil", 6, 0)],
)
def test_what_is_boiled_to_make_it_safe(
    tmp_path: Path, next_treat: str, next_hours: float, onward_ml: float
) -> None:
    way = {"by": "paddling", "hours": next_hours} if next_hours else {"by": "resting", "hours": 3}
    boil = {"camp": "stream", "treat": "boil", "between_water": "2 h"}
    kit = kit_of(
        tmp_path,
        day({"lunch": [{"cook": "dish"}]}, water=boil),
        day(DRY, water={**boil, "treat": next_treat}, travel=way),
        recipes=[mixed(100)],
    )
    # What is drunk, 2 · 100 ml mixed cold, and tomorrow's longest stretch where it is not boiled.
    drinking_ml = (2000 - 106) + (2500 - 106)
    assert day_of(kit).water.drinking_ml == NEAR(drinking_ml, rel=EXACT)
    assert day_of(kit).water.boil_ml == NEAR(drinking_ml + 200 + onward_ml, rel=EXACT)


def test_only_where_water_is_boiled_to_make_it_safe(tmp_path: Path) -> None:
    kit = kit_of(tmp_path, day({"lunch": [{"cook": "dish"}]}), recipes=[mixed(100)])
    assert day_of(kit).water.boil_ml == 0


def test_a_day_that_ends_at_home_has_no_camp_to_carry_for(tmp_path: Path) -> None:
    dry = {"camp": "none", "treat": "filter", "between_water": "1 h"}
    last = day(
        {"lunch": [{"cook": "dish"}]},
        water=dry,
        ends="home",
        home=["dinner"],
        travel={"by": "paddling", "hours": 2},
    )
    kit = kit_of(tmp_path, day(DRY), last, recipes=[boiled(100)])
    assert day_of(kit, 2).water.carry_ml == NEAR(1000, rel=EXACT)
    assert day_of(kit, 2).water.washing_ml == 0
