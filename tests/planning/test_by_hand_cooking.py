"""Height, heat, fuel, wood and minutes of meals, worked out on paper.

The burner gives 2000 W at 50 %, at least 400 W. The small pot takes 800 ml, is 200 g of aluminium
and loses 90 W at the boil; the large one takes 2000 ml, is 400 g of steel and loses 240 W.
Water comes at 10 °C, the camp lies at 1000 m, and two people eat.
"""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest

from builder.model.kit import FuelDay, Kit, PlannedMeal
from builder.problems import ProblemsFound

from .folders import Record, boils_c, day, day_of, day_trip, hand, meal_of, uses

NEAR = pytest.approx
EXACT = 1e-6

WATER = 4.186  # kJ/(kg K)
ALUMINIUM, STEEL, TITANIUM, CAST_IRON, COPPER, ENAMEL = 0.897, 0.50, 0.523, 0.46, 0.385, 0.47
T_1000 = boils_c(1000)  # 96.65 °C
WARM = T_1000 - 10  # K from the stream to the boil
FACTOR = 10 ** ((99.97 - T_1000) / 33)  # 1.261
ETA, POWER, LOWEST = 0.5, 2000.0, 400.0
SMALL_KJ = 0.200 * ALUMINIUM * WARM  # one warming of the small pot
LARGE_KJ = 0.400 * STEEL * WARM
SMALL_SIMMER_W = max(90 / ETA, LOWEST)  # 180 W would do, the burner gives no less than 400 W
LARGE_SIMMER_W = max(240 / ETA, LOWEST)  # 480 W


def dish(lines: list[Record], *steps: Record, **more: object) -> Record:
    """Give a recipe for one."""
    return {"id": "dish", "serves": 1, "cook_in": "pot", "uses": lines, "steps": [*steps], **more}


def kit_with(
    folder: Path,
    recipe: Record,
    meal: str = "dinner",
    days: list[Record] | None = None,
    **changes: Any,
) -> Kit:
    """Plan a trip that cooks one recipe."""
    trip = day_trip(days=days or [day({meal: [{"cook": recipe["id"]}]})], **changes)
    return hand(folder, trip, [recipe]).kit()


def cooked(folder: Path, recipe: Record, **changes: Any) -> PlannedMeal:
    """Plan a trip that cooks one recipe, and give that meal."""
    return meal_of(kit_with(folder, recipe, **changes))


def minutes(heat_kj: float, wind: float = 1.0) -> float:
    """Give 1000 · heat / (η · k_wind · power) / 60."""
    return 1000 * heat_kj / (ETA * wind * POWER) / 60


# -- the walk through the steps ---------------------------------------------------------------


def test_cold_soak_then_boil_then_simmer_then_rest(tmp_path: Path) -> None:
    meal = cooked(
        tmp_path,
        dish(
            uses(pulse="80 g dehydrator", kernel="60 g", oil="10 g"),
            {"do": "soak", "with": ["pulse"], "water": "auto", "minutes": 10},
            {"do": "boil", "with": ["kernel", "oil"], "water": "130 ml"},
            {"do": "simmer", "minutes": 8},
            {"do": "rest", "minutes": 5},
            {"do": "serve"},
        ),
    )
    # 200 ml were lost, 0.7 of it comes back, and a quarter more is poured: 175 ml.
    soak_ml = 2 * 80 * (0.90 / 0.40 - 1) * 0.7 * 1.25
    water_ml = soak_ml + 2 * 130  # 435 ml
    food_g = 2 * (80 + 60 + 10)  # 300 g
    assert meal.soak_water_ml == NEAR(soak_ml, rel=EXACT)
    assert meal.water_ml == NEAR(water_ml, rel=EXACT)
    # 435 + 0.7 · 300 = 645 ml: one potful of the small pot.
    assert (meal.pot, meal.potfuls) == ("small", 1)
    heat_kj = water_ml / 1000 * WATER * WARM + 0.4 * food_g / 1000 * WATER * WARM + SMALL_KJ
    assert meal.heat_kj == NEAR(heat_kj, rel=EXACT)
    simmer_kj = SMALL_SIMMER_W * 8 * FACTOR * 60 / 1000
    assert meal.fuel_heat_kj == NEAR(heat_kj / ETA + simmer_kj, rel=EXACT)
    # A cold soak is not stretched by the height; simmer and rest are.
    assert meal.minutes == NEAR(minutes(heat_kj) + 10 + (8 + 5) * FACTOR, rel=EXACT)
    assert meal.steps[0].minutes == 10
    assert meal.steps[2].minutes == NEAR(8 * FACTOR, rel=EXACT)
    assert meal.steps[2].minutes_at_sea_level == 8
    assert meal.unboiled_water_ml == 0
    assert meal.mass_g == food_g
    assert meal.cooked_on == "stove"


def rests_min(folder: Path, *steps: Record) -> list[float]:
    """Give how much longer than at the sea's level each rest of a dish is."""
    meal = cooked(folder, dish(uses(kernel="60 g"), *steps), days=[
        day({"dinner": [{"cook": "dish"}]}, air={"low": "1 degC", "high": "4 degC"})
    ])  # fmt: skip
    rests = [each for each in meal.steps if each.do in ("rest", "soak")]
    return [each.minutes / each.minutes_at_sea_level for each in rests]


def test_only_what_stands_hot_stands_longer_up_high(tmp_path: Path) -> None:
    wet: Record = {"do": "mix", "with": ["kernel"], "water": "200 ml"}
    boil: Record = {"do": "boil", "with": ["kernel"], "water": "200 ml"}
    short, four, night = ({"do": "rest", "minutes": each} for each in (5, 240, 600))
    slow = NEAR(FACTOR, rel=EXACT)
    # Cold until it is boiled; hot after, also in a cosy of four hours; cold after a night.
    assert rests_min(tmp_path / "a", wet, night, short, boil, short) == [1, 1, slow]
    assert rests_min(tmp_path / "b", boil, four, short) == [slow, slow]
    assert rests_min(tmp_path / "c", boil, night, short) == [1, 1]
    # A cold soak cools it; a simmer, a fry and a bake heat it.
    cold: Record = {"do": "soak", "water": "100 ml", "minutes": 10}
    assert rests_min(tmp_path / "d", boil, cold, short) == [1, 1]
    assert rests_min(tmp_path / "e", wet, {"do": "simmer", "minutes": 5}, short) == [slow]
    assert rests_min(tmp_path / "f", wet, {"do": "fry", "minutes": 5}, short) == [slow]
    hot: Record = {"do": "soak", "water": "100 ml", "minutes": 10, "hot": True}
    assert rests_min(tmp_path / "g", wet, hot, short) == [slow, slow]


def test_a_hot_soak_boils_its_water_and_what_is_in_the_pot(tmp_path: Path) -> None:
    meal = cooked(
        tmp_path,
        dish(
            uses(kernel="70 g"),
            {"do": "soak", "with": ["kernel"], "water": "150 ml", "minutes": 12, "hot": True},
        ),
    )
    heat_kj = (300 + 0.4 * 140) / 1000 * WATER * WARM + SMALL_KJ
    assert meal.heat_kj == NEAR(heat_kj, rel=EXACT)
    assert meal.fuel_heat_kj == NEAR(heat_kj / ETA, rel=EXACT)  # no simmer
    assert meal.steps[0].minutes == NEAR(12 * FACTOR, rel=EXACT)
    assert meal.minutes == NEAR(minutes(heat_kj) + 12 * FACTOR, rel=EXACT)
    assert meal.soak_water_ml == 300
    assert meal.unboiled_water_ml == 0


def test_boiling_twice_heats_each_drop_each_gram_and_the_pot_once(tmp_path: Path) -> None:
    meal = cooked(
        tmp_path,
        dish(
            uses(kernel="50 g", pulse="30 g freeze-dryer"),
            {"do": "boil", "with": ["kernel"], "water": "100 ml"},
            {"do": "simmer", "minutes": 3},
            {"do": "boil", "with": ["kernel", "pulse"], "water": "80 ml"},
            {"do": "boil"},
        ),
    )
    heat_kj = (2 * 180 + 0.4 * 2 * 80) / 1000 * WATER * WARM + SMALL_KJ
    assert meal.heat_kj == NEAR(heat_kj, rel=EXACT)
    assert meal.mass_g == 160


def test_what_goes_in_after_the_boil_is_not_heated(tmp_path: Path) -> None:
    meal = cooked(
        tmp_path,
        dish(
            uses(kernel="50 g", curd="40 g"),
            {"do": "boil", "with": ["kernel"], "water": "100 ml"},
            {"do": "mix", "with": ["curd"], "water": "30 ml"},
        ),
    )
    heat_kj = (200 + 0.4 * 100) / 1000 * WATER * WARM + SMALL_KJ
    assert meal.heat_kj == NEAR(heat_kj, rel=EXACT)
    assert meal.water_ml == 260
    assert meal.soak_water_ml == 0
    assert meal.unboiled_water_ml == 60
    # It does take room: 260 + 0.7 · 180 = 386 ml.
    assert meal.potfuls == 1


def test_water_of_a_cold_soak_and_a_mix_comes_to_the_boil_with_the_next_boil(
    tmp_path: Path,
) -> None:
    meal = cooked(
        tmp_path,
        dish(
            uses(kernel="50 g", mint="10 g"),
            {"do": "mix", "with": ["kernel"], "water": "40 ml"},
            {"do": "soak", "with": ["mint"], "water": "60 ml", "minutes": 20},
            {"do": "soak", "water": "50 ml", "minutes": 4, "hot": True},
        ),
    )
    heat_kj = (2 * 150 + 0.4 * 2 * 60) / 1000 * WATER * WARM + SMALL_KJ
    assert meal.heat_kj == NEAR(heat_kj, rel=EXACT)
    assert meal.minutes == NEAR(minutes(heat_kj) + 20 + 4 * FACTOR, rel=EXACT)


def test_a_recipe_that_is_never_boiled_takes_no_heat(tmp_path: Path) -> None:
    meal = cooked(
        tmp_path,
        dish(
            uses(kernel="50 g", oil="5 g"),
            {"do": "soak", "with": ["kernel"], "water": "90 ml", "minutes": 30},
            {"do": "mix", "with": ["oil"]},
            {"do": "serve"},
            cook_in="none",
        ),
    )
    assert meal.heat_kj == 0
    assert meal.fuel_heat_kj == 0
    assert meal.cooked_on is None
    assert meal.minutes == 30
    assert meal.unboiled_water_ml == 180


def test_frying_takes_half_the_power(tmp_path: Path) -> None:
    meal = cooked(
        tmp_path,
        dish(
            uses(pulse="60 g", oil="10 g"),
            {"do": "fry", "with": ["pulse", "oil"], "minutes": 6},
        ),
    )
    assert meal.heat_kj == 0
    assert meal.fuel_heat_kj == NEAR(0.5 * POWER * 6 * 60 / 1000, rel=EXACT)  # 360 kJ
    assert meal.minutes == 6  # the height does not stretch it


def test_party_and_servings_scale_what_a_recipe_takes(tmp_path: Path) -> None:
    recipe = dish(
        uses(kernel="300 g"),
        {"do": "boil", "with": ["kernel"], "water": "500 ml"},
        drain="100 ml",
        serves=4,
    )
    meal = cooked(tmp_path, recipe)
    assert meal.mass_g == 150  # two of four
    assert meal.water_ml == 250
    assert meal.drain_ml == 50
    one = day({"dinner": [{"cook": "dish", "for": ["Bo"]}]})
    assert cooked(tmp_path / "one", recipe, days=[one]).mass_g == 75


# -- pots ---------------------------------------------------------------------------------------


def boil_of(water_ml: float, food_g: float, **more: object) -> Record:
    """Give a recipe for one that boils water with kernel in it and simmers it."""
    return dish(
        uses(kernel=f"{food_g} g"),
        {"do": "boil", "with": ["kernel"], "water": f"{water_ml} ml"},
        {"do": "simmer", "minutes": 10},
        **more,
    )


@pytest.mark.parametrize(
    ("pots", "water_ml", "food_g", "pot", "potfuls"),
    [
        (["small", "large"], 330, 100, "small", 1),  # 660 + 140 = 800 ml, just fits
        (["small", "large"], 331, 100, "large", 1),  # 802 ml
        (["small"], 331, 100, "small", 2),
        (["large"], 100, 50, "large", 1),
        (["small", "large"], 930, 200, "large", 2),  # 2140 ml: 3 small ones, 2 large ones
        (["large", "copper-pot"], 500, 200, "copper-pot", 1),  # as many potfuls, and lighter
        (["small"], 1130, 200, "small", 4),  # 2540 ml / 800
    ],
)
def test_the_pot_with_fewest_potfuls_then_the_lightest(
    tmp_path: Path, pots: list[str], water_ml: float, food_g: float, pot: str, potfuls: int
) -> None:
    meal = cooked(tmp_path, boil_of(water_ml, food_g), stove={"use": "burner", "pots": pots})
    assert (meal.pot, meal.potfuls) == (pot, potfuls)


def test_the_fullest_moment_counts_with_all_food_in_the_pot(tmp_path: Path) -> None:
    meal = cooked(
        tmp_path,
        dish(
            uses(kernel="100 g", leaf="150 g"),
            {"do": "boil", "with": ["kernel"], "water": "330 ml"},  # 660 + 140 = 800 ml
            {"do": "simmer", "with": ["leaf"], "minutes": 5},  # + 0.7 · 300 = 1010 ml
        ),
    )
    assert (meal.pot, meal.potfuls) == ("large", 1)


def test_every_potful_warms_the_pot_and_simmers(tmp_path: Path) -> None:
    meal = cooked(tmp_path, boil_of(500, 100), stove={"use": "burner", "pots": ["small"]})
    # 1000 + 140 = 1140 ml: two potfuls of 800 ml.
    heat_kj = (1000 + 0.4 * 200) / 1000 * WATER * WARM + 2 * SMALL_KJ
    assert meal.heat_kj == NEAR(heat_kj, rel=EXACT)
    simmer_kj = 2 * SMALL_SIMMER_W * 10 * FACTOR * 60 / 1000
    assert meal.fuel_heat_kj == NEAR(heat_kj / ETA + simmer_kj, rel=EXACT)
    # One pot after another: each of the two simmers its 10 minutes (the design had them once).
    assert meal.minutes == NEAR(minutes(heat_kj) + 2 * 10 * FACTOR, rel=EXACT)


def test_each_potful_boils_hard_simmers_and_fries_by_itself(tmp_path: Path) -> None:
    meal = cooked(
        tmp_path,
        dish(
            uses(pulse="100 g dehydrator", kernel="50 g", oil="10 g"),
            {"do": "soak", "with": ["pulse"], "water": "300 ml", "minutes": 20},
            {"do": "boil", "with": ["kernel"], "water": "400 ml", "minutes": 4},
            {"do": "simmer", "minutes": 9},
            {"do": "fry", "with": ["oil"], "minutes": 3},
            {"do": "rest", "minutes": 6},
            {"do": "serve"},
        ),
        stove={"use": "burner", "pots": ["small"]},
    )
    # 1400 + 0.7 · 320 = 1624 ml: three potfuls of 800 ml.
    assert meal.potfuls == 3
    heat_kj = (1400 + 0.4 * 300) / 1000 * WATER * WARM + 3 * SMALL_KJ
    in_turn_min = 3 * ((4 + 9) * FACTOR + 3)
    assert meal.minutes == NEAR(minutes(heat_kj) + 20 + in_turn_min + 6 * FACTOR, rel=EXACT)
    simmer_kj = 3 * SMALL_SIMMER_W * 13 * FACTOR * 60 / 1000
    fry_kj = 3 * 0.5 * POWER * 3 * 60 / 1000
    assert meal.fuel_heat_kj == NEAR(heat_kj / ETA + simmer_kj + fry_kj, rel=EXACT)


def test_where_nothing_is_heated_there_is_no_potful(tmp_path: Path) -> None:
    recipe = dish(
        uses(kernel="200 g"), {"do": "soak", "with": ["kernel"], "water": "900 ml", "minutes": 30}
    )
    meal = cooked(tmp_path, recipe, stove={"use": "burner", "pots": ["small"]})
    assert (meal.potfuls, meal.minutes, meal.heat_kj) == (0, 30, 0)


def test_a_hard_boil_takes_what_a_simmer_does_in_every_potful(tmp_path: Path) -> None:
    recipe = boil_of(500, 100)
    recipe["steps"] = [{**recipe["steps"][0], "minutes": 10}]
    meal = cooked(tmp_path, recipe, stove={"use": "burner", "pots": ["small"]})
    heat_kj = (1000 + 0.4 * 200) / 1000 * WATER * WARM + 2 * SMALL_KJ
    hard_kj = 2 * SMALL_SIMMER_W * 10 * FACTOR * 60 / 1000
    assert meal.heat_kj == NEAR(heat_kj, rel=EXACT)
    assert meal.fuel_heat_kj == NEAR(heat_kj / ETA + hard_kj, rel=EXACT)
    assert meal.minutes == NEAR(minutes(heat_kj) + 2 * 10 * FACTOR, rel=EXACT)


def test_a_pot_that_loses_more_than_the_lowest_flame(tmp_path: Path) -> None:
    meal = cooked(tmp_path, boil_of(600, 100))
    assert meal.pot == "large"
    heat_kj = (1200 + 80) / 1000 * WATER * WARM + LARGE_KJ
    assert LARGE_SIMMER_W == 480
    assert meal.fuel_heat_kj == NEAR(heat_kj / ETA + 480 * 10 * FACTOR * 60 / 1000, rel=EXACT)


@pytest.mark.parametrize(
    ("material", "kj_kg_k"),
    [
        ("aluminium", ALUMINIUM),
        ("steel", STEEL),
        ("titanium", TITANIUM),
        ("cast-iron", CAST_IRON),
        ("copper", COPPER),
        ("enamel", ENAMEL),
    ],
)
def test_what_a_pot_is_made_of(tmp_path: Path, material: str, kj_kg_k: float) -> None:
    gear: Record = {
        "pots": [{"id": "own", "name": "Own", "holds": "2 l", "fill_to": "50 %", "mass": "1 kg",
                  "material": material, "loss_at_boil": "0 W"}],
        "stoves": [{"id": "own", "name": "Own", "burns": "gas-mix", "power": "1500 W",
                    "lowest": "0 W", "efficiency": "40 %", "mass": "0 g"}],
    }  # fmt: skip
    trip = day_trip(
        days=[day({"dinner": [{"cook": "dish"}]})], stove={"use": "own", "pots": ["own"]}
    )
    meal = meal_of(hand(tmp_path, trip, [boil_of(200, 100)], gear=gear).kit())
    heat_kj = (400 + 80) / 1000 * WATER * WARM + 1.0 * kj_kg_k * WARM
    assert meal.heat_kj == NEAR(heat_kj, rel=EXACT)
    assert meal.fuel_heat_kj == NEAR(heat_kj / 0.40, rel=EXACT)  # nothing is lost at the boil


def test_in_a_mug_the_water_is_boiled_alone_in_the_lightest_pot_that_fits(
    tmp_path: Path,
) -> None:
    recipe = dish(
        uses(kernel="200 g"),
        {"do": "soak", "with": ["kernel"], "water": "390 ml", "minutes": 6, "hot": True},
        cook_in="mug",
    )
    meal = cooked(tmp_path, recipe)
    # 780 ml of water fit the small pot; the 400 g of food never see it.
    assert (meal.pot, meal.potfuls) == ("small", 1)
    heat_kj = 780 / 1000 * WATER * WARM + SMALL_KJ
    assert meal.heat_kj == NEAR(heat_kj, rel=EXACT)
    assert meal.minutes == NEAR(minutes(heat_kj) + 6 * FACTOR, rel=EXACT)
    recipe["steps"][0]["water"] = "410 ml"
    assert cooked(tmp_path / "more", recipe).pot == "large"


# -- wind and height ----------------------------------------------------------------------------


@pytest.mark.parametrize(("wind", "k"), [("sheltered", 1.0), ("breezy", 0.8), ("windy", 0.5)])
def test_wind_takes_from_the_flame_but_not_from_the_simmer(
    tmp_path: Path, wind: str, k: float
) -> None:
    meal = cooked(
        tmp_path, boil_of(200, 100), days=[day({"dinner": [{"cook": "dish"}]}, wind=wind)]
    )
    heat_kj = (400 + 80) / 1000 * WATER * WARM + SMALL_KJ
    simmer_kj = SMALL_SIMMER_W * 10 * FACTOR * 60 / 1000
    assert meal.heat_kj == NEAR(heat_kj, rel=EXACT)
    assert meal.fuel_heat_kj == NEAR(heat_kj / (ETA * k) + simmer_kj, rel=EXACT)
    assert meal.minutes == NEAR(minutes(heat_kj, k) + 10 * FACTOR, rel=EXACT)


@pytest.mark.parametrize("altitude_m", [-200, 0, 640, 1000, 2500, 4800, 8000])
def test_height_sets_pressure_boiling_point_and_factor(tmp_path: Path, altitude_m: float) -> None:
    at = day(camp_altitude=f"{altitude_m} m")
    kit = hand(tmp_path, day_trip(days=[at])).kit()
    found = day_of(kit).conditions
    exponent = 9.80665 * 28.96442 / (8314.32 * 0.0065)
    pressure_hpa = 1013.25 * (1 - 0.0065 * altitude_m / 288.15) ** exponent
    assert found.pressure_hpa == NEAR(pressure_hpa, rel=EXACT)
    assert found.boiling_point_c == NEAR(boils_c(altitude_m), rel=EXACT)
    factor = 10 ** ((99.97 - boils_c(altitude_m)) / 33)
    assert found.time_factor == NEAR(factor, rel=EXACT)


@pytest.mark.parametrize(
    ("lines", "stretched"),
    [
        (uses(egg_cooked="60 g", stew_meat="60 g"), False),  # by the centre alone
        (uses(lean_meat="60 g dehydrator", trout_cooked="20 g oven"), False),
        (uses(egg_cooked="60 g", kernel="10 g"), True),  # anything else in the pot
        (uses(stew_meat="60 g", oil="5 g"), True),
        (uses(pulse="60 g"), True),
        (uses(curd="60 g"), True),  # dairy is not one of the four
    ],
)
def test_height_does_not_stretch_what_goes_by_its_centre(
    tmp_path: Path, lines: list[Record], stretched: bool
) -> None:
    names = [line["food"] for line in lines]
    meal = cooked(
        tmp_path,
        dish(
            lines,
            {"do": "boil", "with": names, "water": "100 ml"},
            {"do": "simmer", "minutes": 10},
            {"do": "rest", "minutes": 3},
        ),
    )
    assert meal.steps[1].minutes == NEAR(10 * (FACTOR if stretched else 1), rel=EXACT)
    assert meal.steps[2].minutes == NEAR(3 * (FACTOR if stretched else 1), rel=EXACT)


def test_the_factor_begins_when_other_food_comes_into_the_pot(tmp_path: Path) -> None:
    meal = cooked(
        tmp_path,
        dish(
            uses(stew_meat="60 g", kernel="30 g"),
            {"do": "boil", "with": ["stew-meat"], "water": "100 ml"},
            {"do": "simmer", "minutes": 10},
            {"do": "simmer", "with": ["kernel"], "minutes": 10},
        ),
    )
    assert meal.steps[1].minutes == 10
    assert meal.steps[2].minutes == NEAR(10 * FACTOR, rel=EXACT)


def test_breakfast_is_cooked_at_the_last_nights_camp(tmp_path: Path) -> None:
    eat = {"breakfast": [{"cook": "dish"}], "dinner": [{"cook": "dish"}]}
    low = day(eat, camp_altitude="300 m", water={"camp": "stream", "at": "12 degC"})
    high = day(eat, camp_altitude="2600 m", wind="windy", water={"camp": "lake", "at": "4 degC"})
    kit = kit_with(tmp_path, boil_of(200, 100), days=[low, high])

    def heat_kj(altitude_m: float, water_c: float) -> float:
        warm = boils_c(altitude_m) - water_c
        return (480 / 1000 * WATER + 0.200 * ALUMINIUM) * warm

    found = [each.heat_kj for number in (1, 2) for each in day_of(kit, number).meals]
    # Day 1 has no start_camp, so its breakfast is cooked as at its own camp.
    expected = [heat_kj(300, 12), heat_kj(300, 12), heat_kj(300, 12), heat_kj(2600, 4)]
    assert found == [NEAR(each, rel=EXACT) for each in expected]
    assert meal_of(kit, 2, 0).conditions.wind == "sheltered"
    assert meal_of(kit, 2, 1).conditions.wind == "windy"
    assert day_of(kit, 2).conditions.altitude_m == 2600


def test_a_day_that_ends_at_home_has_the_last_camps_height_and_wind(tmp_path: Path) -> None:
    lunch = {"lunch": [{"cook": "dish"}]}
    last = day(lunch, camp_altitude="2600 m", wind="windy")
    out = {**day(lunch), "ends": "home"}
    for key in ("camp_altitude", "wind"):
        del out[key]
    # What every day has does not reach it; what the day itself tells does.
    told = {**out, "wind": "breezy"}
    for end, wind in ((out, "windy"), (told, "breezy")):
        kit = kit_with(
            tmp_path / wind, boil_of(200, 100), days=[last, end], every_day={"wind": "sheltered"}
        )
        assert meal_of(kit, 2).conditions.wind == wind
        assert meal_of(kit, 2).conditions.altitude_m == 2600


def test_the_first_breakfast_is_cooked_at_the_start_camp_where_one_is_told(
    tmp_path: Path,
) -> None:
    start = {"camp_altitude": "50 m", "air": {"low": "-3 degC", "high": "4 degC"},
             "wind": "breezy", "water": {"camp": "tap", "at": "15 degC"}}  # fmt: skip
    days = [day({"breakfast": [{"cook": "dish"}], "lunch": [{"cook": "dish"}]})]
    kit = kit_with(tmp_path, boil_of(200, 100), days=days, start_camp=start)
    breakfast, lunch = day_of(kit).meals
    warm = boils_c(50) - 15
    assert breakfast.heat_kj == NEAR((480 / 1000 * WATER + 0.2 * ALUMINIUM) * warm, rel=EXACT)
    simmer_kj = SMALL_SIMMER_W * 10 * 10 ** ((99.97 - boils_c(50)) / 33) * 60 / 1000
    assert breakfast.fuel_heat_kj == NEAR(breakfast.heat_kj / (ETA * 0.8) + simmer_kj, rel=EXACT)
    assert lunch.conditions.altitude_m == 1000


def test_water_comes_at_ten_degrees_unless_told(tmp_path: Path) -> None:
    untold = day({"dinner": [{"cook": "dish"}]}, water={"camp": "lake"})
    meal = cooked(tmp_path, boil_of(200, 100), days=[untold])
    assert meal.heat_kj == NEAR((480 / 1000 * WATER + 0.2 * ALUMINIUM) * WARM, rel=EXACT)


# -- snow ---------------------------------------------------------------------------------------


def snow_day(meals: Record, low: str = "-12 degC", **changes: Any) -> Record:
    """Give a day in the snow; `at` does not count there."""
    water = {"camp": "snow", "treat": "filter", "at": "10 degC", "between_water": "2 h"}
    return day(
        meals,
        **{"air": {"low": low, "high": "-2 degC"}, "water": water, **changes},
    )


def test_snow_is_melted_and_boiled_in_one_go(tmp_path: Path) -> None:
    recipe = boil_of(200, 100)
    kit = kit_with(tmp_path, recipe, days=[snow_day({"dinner": [{"cook": "dish"}]})])
    meal = meal_of(kit)
    litre_kj = 2.09 * 12 + 333.55 + WATER * T_1000
    food_kj = 0.4 * 200 / 1000 * WATER * T_1000  # food and pot from 0 °C
    pot_kj = 0.200 * ALUMINIUM * T_1000
    assert meal.heat_kj == NEAR(0.400 * litre_kj + food_kj + pot_kj, rel=EXACT)
    # Drinking and washing: melted and warmed to 5 °C.
    water = day_of(kit).water
    melt_kj = (water.drinking_ml + 1000) / 1000 * (2.09 * 12 + 333.55 + WATER * 5)
    assert water.washing_ml == 1000
    assert day_of(kit).fuel.melting_kj == NEAR(melt_kj / ETA, rel=EXACT)
    assert day_of(kit).fuel.water_minutes == NEAR(minutes(melt_kj), rel=EXACT)
    assert day_of(kit).minutes == NEAR(meal.minutes + minutes(melt_kj), rel=EXACT)
    assert day_of(kit).fuel.fuel_g == NEAR((meal.fuel_heat_kj + melt_kj / ETA) / 46, rel=EXACT)


def test_snow_in_mild_air_is_at_zero(tmp_path: Path) -> None:
    mild = snow_day(
        {"dinner": [{"cook": "dish"}]}, air={"low": "3 degC", "high": "8 degC"}, wind="breezy"
    )
    meal = cooked(tmp_path, boil_of(200, 100), days=[mild])
    litre_kj = 333.55 + WATER * T_1000
    assert meal.heat_kj == NEAR(
        0.4 * litre_kj + (0.08 * WATER + 0.2 * ALUMINIUM) * T_1000, rel=EXACT
    )


def test_cooking_water_that_is_not_boiled_is_melted_too(tmp_path: Path) -> None:
    recipe = dish(
        uses(kernel="50 g"),
        {"do": "soak", "with": ["kernel"], "water": "90 ml", "minutes": 30},
        cook_in="none",
    )
    kit = kit_with(tmp_path, recipe, days=[snow_day({"dinner": [{"cook": "dish"}]})], washing="0 l")
    each_litre_kj = 2.09 * 12 + 333.55 + WATER * 5
    melt_kj = (180 + day_of(kit).water.drinking_ml) / 1000 * each_litre_kj
    assert day_of(kit).fuel.melting_kj == NEAR(melt_kj / ETA, rel=EXACT)


def test_what_breakfast_takes_cold_is_melted_or_boiled_at_the_last_nights_camp(
    tmp_path: Path,
) -> None:
    soaked = dish(
        uses(kernel="50 g"),
        {"do": "soak", "with": ["kernel"], "water": "150 ml", "minutes": 30},
        cook_in="none",
    )
    snacks = {"snacks": [{"eat": "kernel-nut", "each": "50 g"}]}
    breakfast = {"breakfast": [{"cook": "dish"}], **snacks}

    def second_day(folder: str, treat: str, low: str) -> FuelDay:
        water = {"camp": "snow", "treat": treat, "between_water": "2 h"}
        slept = snow_day(snacks, low, water=water, wind="windy", camp_altitude="2600 m")
        out = day(breakfast, water={"camp": "tap"})
        kit = kit_with(tmp_path / folder, soaked, days=[slept, out], washing="0 l")
        return day_of(kit, 2).fuel

    # 300 ml in the wind, from -20 °C, on a day whose own camp has a tap and no wind.
    melt_kj = 0.300 * (2.09 * 20 + 333.55 + WATER * 5)
    fuel = second_day("melted", "filter", "-20 degC")
    assert fuel.melting_kj == NEAR(melt_kj / (ETA * 0.5), rel=EXACT)
    assert fuel.water_minutes == NEAR(minutes(melt_kj, 0.5), rel=EXACT)
    assert fuel.boiling_water_kj == 0
    # Boiled there it boils at 2600 m, and is held for 3 minutes as above 2000 m.
    boils = boils_c(2600)
    boil_kj = 0.300 * (2.09 * 20 + 333.55 + WATER * boils) + 0.2 * ALUMINIUM * boils
    fuel = second_day("boiled", "boil", "-20 degC")
    hold_kj = SMALL_SIMMER_W * 3 * 60 / 1000
    assert fuel.boiling_water_kj == NEAR(boil_kj / (ETA * 0.5) + hold_kj, rel=EXACT)
    assert fuel.water_minutes == NEAR(minutes(boil_kj, 0.5) + 3, rel=EXACT)
    assert fuel.melting_kj == 0
    # Gas in the wind burns 35 % less to twice as much, whatever the day's own camp has.
    assert fuel.low_g == NEAR(0.65 * fuel.fuel_g, rel=EXACT)
    assert fuel.high_g == NEAR(2.0 * fuel.fuel_g, rel=EXACT)


def test_what_lunch_takes_cold_is_heated_in_the_morning(tmp_path: Path) -> None:
    soaked = dish(
        uses(kernel="50 g"),
        {"do": "soak", "with": ["kernel"], "water": "150 ml", "minutes": 30},
        cook_in="none",
    )
    water = {"camp": "snow", "treat": "boil", "between_water": "2 h"}
    for meal, morning_ml in (("lunch", 300), ("dinner", 0)):
        at = snow_day({meal: [{"cook": "dish"}]}, water=water)
        boiling = day_of(kit_with(tmp_path / meal, soaked, days=[at])).fuel.boiling
        assert boiling.morning_ml == NEAR(morning_ml, rel=EXACT)  # nobody is on the way
        assert boiling.volume_ml > 300


@pytest.mark.parametrize(("first", "is_alike"), [("stream", True), ("lake", False)])
def test_what_is_drunk_on_the_way_is_boiled_where_one_slept_if_water_comes_there_alike(
    first: str, is_alike: bool, tmp_path: Path
) -> None:
    days = [
        day(
            {"dinner": [{"cook": "dish"}], "snacks": [{"eat": "kernel-nut", "each": "50 g"}]},
            water={"camp": camp, "treat": "boil", "at": "10 degC", "between_water": "2 h"},
            travel={"by": "walking", "hours": 5, "distance": "12 km"},
        )
        for camp in (first, "stream")
    ]
    soaked = dish(
        uses(kernel="50 g"),
        {"do": "soak", "with": ["kernel"], "water": "150 ml", "minutes": 30},
        cook_in="none",
    )
    on_the_way = day_of(kit_with(tmp_path, soaked, days=days), 2)
    carried_ml = min(on_the_way.water.carry_ml, on_the_way.water.drinking_ml)
    assert carried_ml > 0
    boiled_ml = carried_ml if is_alike else 0
    assert on_the_way.fuel.boiling.morning_ml == NEAR(boiled_ml, rel=EXACT)


def test_melting_without_stove_or_fire_is_a_problem(tmp_path: Path) -> None:
    trip = day_trip(stove=None, days=[snow_day({"snacks": [{"eat": "curd", "each": "9 g"}]})])
    with pytest.raises(ProblemsFound) as found:
        hand(tmp_path, trip).kit()
    assert [problem.kind for problem in found.value.problems] == ["no-heat"]


# -- water boiled to make it safe ---------------------------------------------------------------


@pytest.mark.parametrize(("altitude_m", "hold_min"), [(1000, 1), (2000, 1), (2001, 3)])
def test_drinking_water_is_boiled_in_potfuls_and_held(
    tmp_path: Path, altitude_m: float, hold_min: float
) -> None:
    water = {"camp": "stream", "treat": "boil", "at": "10 degC", "between_water": "2 h"}
    at = day(
        {"drinks": [{"cook": "dish"}]}, camp_altitude=f"{altitude_m} m", water=water, wind="breezy"
    )
    tea = dish(
        uses(tea_leaf="2 g"),
        {"do": "boil", "with": ["tea-leaf"], "water": "250 ml"},
        cook_in="mug",
    )
    kit = kit_with(tmp_path, tea, days=[at])
    # Without the drinks: 2000 + 2500 ml less 2 · 250 ml.
    drinking_ml = 2000 + 2500 - 2 * 250
    assert day_of(kit).water.drinking_ml == NEAR(drinking_ml, rel=EXACT)
    warm = boils_c(altitude_m) - 10
    # 4000 ml: two potfuls of the large pot (2000 ml), five of the small one.
    heat_kj = drinking_ml / 1000 * WATER * warm + 2 * 0.4 * STEEL * warm
    hold_kj = 2 * LARGE_SIMMER_W * hold_min * 60 / 1000
    fuel = day_of(kit).fuel
    assert fuel.boiling_water_kj == NEAR(heat_kj / (ETA * 0.8) + hold_kj, rel=EXACT)
    meals_kj = meal_of(kit).fuel_heat_kj
    assert fuel.fuel_g == NEAR((meals_kj + fuel.boiling_water_kj) / 46, rel=EXACT)
    assert fuel.melting_kj == 0
    # Two potfuls one after the other, each held.
    water_min = minutes(heat_kj, 0.8) + 2 * hold_min
    assert fuel.water_minutes == NEAR(water_min, rel=EXACT)
    assert day_of(kit).minutes == NEAR(meal_of(kit).minutes + water_min, rel=EXACT)


def test_boiled_snow_is_heated_only_and_not_melted_again(tmp_path: Path) -> None:
    water = {"camp": "snow", "treat": "boil", "between_water": "2 h"}
    kit = kit_with(
        tmp_path,
        boil_of(200, 100),
        days=[snow_day({"dinner": [{"cook": "dish"}]}, water=water)],
    )
    drinking_ml = day_of(kit).water.drinking_ml
    # 2000 + 2500 ml less what the meal brings: 400 ml and 12 % of 200 g.
    assert drinking_ml == NEAR(4500 - 424, rel=EXACT)
    potfuls = 3  # of the large pot
    heat_kj = drinking_ml / 1000 * (2.09 * 12 + 333.55 + WATER * T_1000)
    heat_kj += potfuls * 0.4 * STEEL * T_1000
    hold_kj = potfuls * LARGE_SIMMER_W * 1 * 60 / 1000
    assert day_of(kit).fuel.boiling_water_kj == NEAR(heat_kj / ETA + hold_kj, rel=EXACT)
    washing_kj = 1.0 * (2.09 * 12 + 333.55 + WATER * 5)
    assert day_of(kit).fuel.melting_kj == NEAR(washing_kj / ETA, rel=EXACT)


# -- fuel -----------------------------------------------------------------------------------------


def test_likely_and_carried_fuel(tmp_path: Path) -> None:
    days = [day({"dinner": [{"cook": "dish"}]}) for _ in range(3)]
    kit = kit_with(tmp_path, boil_of(200, 100), days=days)
    heat_kj = (480 / 1000 * WATER + 0.2 * ALUMINIUM) * WARM
    simmer_kj = SMALL_SIMMER_W * 10 * FACTOR * 60 / 1000
    likely_g = 3 * (heat_kj / ETA + simmer_kj) / 46  # kJ / (MJ/kg) = g
    assert kit.fuel is not None
    assert kit.fuel.likely_g == NEAR(likely_g, rel=EXACT)
    assert kit.fuel.carry_g == NEAR(likely_g * 1.20, rel=EXACT)
    assert [each.fuel.fuel_g for each in kit.days] == [NEAR(likely_g / 3, rel=EXACT)] * 3


@pytest.mark.parametrize(
    ("litres_a_day", "count_100", "count_250"),
    [
        (4, 1, 0),  # about 77 g
        (9, 2, 0),  # 174 g: two of 100/90 weigh 380 g, one of 250/150 400 g
        (12, 0, 1),  # 232 g: 3 · 190 = 570 g against 400 g
        (17, 1, 1),  # 329 g: 590 g against 4 · 190 = 760 g
        (21, 2, 1),  # 406 g: 2 · 190 + 400 = 780 g against 2 · 400 = 800 g
    ],
)
def test_whole_containers_of_the_least_total_mass(
    tmp_path: Path, litres_a_day: float, count_100: int, count_250: int
) -> None:
    recipe = dish(
        uses(tea_leaf="1 g"),
        {"do": "boil", "with": ["tea-leaf"], "water": f"{litres_a_day * 500} ml"},
    )
    kit = kit_with(tmp_path, recipe)
    assert kit.fuel is not None
    needed_g = kit.fuel.carry_g
    # Every choice of containers tried: the lightest that holds enough.
    choices = [
        (a * 190 + b * 400, a, b)
        for a in range(12)
        for b in range(6)
        if a * 100 + b * 250 >= needed_g
    ]
    assert min(choices)[1:] == (count_100, count_250)
    counts = {each.holds_g: each.count for each in kit.fuel.containers}
    assert counts == {
        holds_g: count for holds_g, count in ((100, count_100), (250, count_250)) if count
    }
    assert kit.weights.fuel_g == NEAR(count_100 * 190 + count_250 * 400, rel=EXACT)


def test_fuel_without_containers_is_carried_as_it_is(tmp_path: Path) -> None:
    kit = kit_with(
        tmp_path,
        boil_of(200, 100),
        stove={"use": "spirit-burner", "pots": ["small"], "fuel_reserve": "30 %"},
    )
    heat_kj = (480 / 1000 * WATER + 0.2 * ALUMINIUM) * WARM
    simmer_w = max(90 / 0.4, 100)  # 225 W
    likely_g = (heat_kj / 0.4 + simmer_w * 10 * FACTOR * 60 / 1000) / 25
    assert kit.fuel is not None
    assert kit.fuel.likely_g == NEAR(likely_g, rel=EXACT)
    assert kit.weights.fuel_g == NEAR(likely_g * 1.30, rel=EXACT)


# -- wood and irons -------------------------------------------------------------------------------


def test_a_pot_over_an_open_fire(tmp_path: Path) -> None:
    days = [day({"dinner": [{"cook": "dish"}]}, wind="windy")]
    fire = {"wood_moisture": "30 %", "pots": ["large"]}
    kit = kit_with(tmp_path, boil_of(200, 100), days=days, stove=None, fire=fire)
    meal = meal_of(kit)
    heat_kj = 480 / 1000 * WATER * WARM + LARGE_KJ
    # 400 + 0.7 · 200 = 540 ml, less than a litre: 3500 W. Let down to 1225 W, while the pot
    # loses 240 W, which a fire of 2400 W makes up.
    simmer_kj = 240 / 0.10 * 10 * FACTOR * 60 / 1000
    fuel_kj = heat_kj / (0.10 * 0.5) + simmer_kj
    assert meal.fuel_heat_kj == NEAR(fuel_kj, rel=EXACT)
    mj_kg = 18.5 * 0.70 - 2.443 * 0.30
    assert meal.wood_g == NEAR(fuel_kj / mj_kg, rel=EXACT)
    assert kit.wood_g == NEAR(fuel_kj / mj_kg, rel=EXACT)
    # The design had 3000 W for any pot; it is 3500 W up to a litre now.
    assert meal.minutes == NEAR(1000 * heat_kj / (0.10 * 0.5 * 3500) / 60 + 10 * FACTOR, rel=EXACT)
    assert meal.cooked_on == "fire"
    assert kit.fuel is None


@pytest.mark.parametrize(
    ("pots", "potfuls", "loss_w", "pot_kj"),
    [(["large"], 1, 240, LARGE_KJ), (["small"], 3, 90, SMALL_KJ)],
)
def test_a_fire_goes_by_what_is_in_the_pot_at_once(
    tmp_path: Path, pots: list[str], potfuls: int, loss_w: float, pot_kj: float
) -> None:
    kit = kit_with(tmp_path, boil_of(800, 100), stove=None, fire={"pots": pots})
    meal = meal_of(kit)
    # 1600 + 0.7 · 200 = 1740 ml: one potful of the large pot, three of the small one, 580 ml each.
    assert meal.potfuls == potfuls
    power_w = 3500 * max(1.0, 1.740 / potfuls) ** (2 / 3)  # 5063 W, or 3500 W
    heat_kj = (1600 + 80) / 1000 * WATER * WARM + potfuls * pot_kj
    simmer_w = max(loss_w / 0.10, 0.35 * power_w)  # 2400 W by the pot, or 1225 W by the fire
    fuel_kj = heat_kj / 0.10 + potfuls * simmer_w * 10 * FACTOR * 60 / 1000
    assert meal.fuel_heat_kj == NEAR(fuel_kj, rel=EXACT)
    heating_min = 1000 * heat_kj / (0.10 * power_w) / 60
    assert meal.minutes == NEAR(heating_min + potfuls * 10 * FACTOR, rel=EXACT)
    assert kit.wood_g == NEAR(fuel_kj / (18.5 * 0.80 - 2.443 * 0.20), rel=EXACT)


def test_a_mug_dish_over_a_fire_counts_its_water_alone(tmp_path: Path) -> None:
    recipe = dish(
        uses(kernel="200 g"),
        {"do": "soak", "with": ["kernel"], "water": "700 ml", "minutes": 6, "hot": True},
        cook_in="mug",
    )
    meal = cooked(tmp_path, recipe, stove=None, fire={"pots": ["large"]})
    heat_kj = 1.4 * WATER * WARM + LARGE_KJ
    heating_min = 1000 * heat_kj / (0.10 * 3500 * 1.4 ** (2 / 3)) / 60
    assert meal.minutes == NEAR(heating_min + 6 * FACTOR, rel=EXACT)


def test_frying_over_a_fire_takes_half_its_power(tmp_path: Path) -> None:
    recipe = dish(uses(pulse="60 g"), {"do": "fry", "with": ["pulse"], "minutes": 6})
    meal = cooked(tmp_path, recipe, stove=None, fire={"pots": ["large"]})
    assert meal.fuel_heat_kj == NEAR(0.5 * 3500 * 6 * 60 / 1000, rel=EXACT)


def test_wood_burns_for_melting_and_boiling_water_too(tmp_path: Path) -> None:
    water = {"camp": "snow", "treat": "boil"}
    days = [snow_day({"dinner": [{"cook": "dish"}]}, water=water)]
    kit = kit_with(tmp_path, boil_of(200, 100), days=days, stove=None, fire={"pots": ["large"]})
    fuel = day_of(kit).fuel
    mj_kg = 18.5 * 0.80 - 2.443 * 0.20  # 20 % unless told
    all_kj = meal_of(kit).fuel_heat_kj + fuel.melting_kj + fuel.boiling_water_kj
    assert fuel.melting_kj > 0 < fuel.boiling_water_kj
    # A litre to wash is melted in one potful over 3500 W; drinking water is boiled in potfuls of
    # less than 2 l, and held a minute.
    drinking_ml = day_of(kit).water.drinking_ml
    potfuls = math.ceil(drinking_ml / 2000)
    litre_kj = 2.09 * 12 + 333.55
    melt_min = 1000 * (litre_kj + WATER * 5) / (0.10 * 3500) / 60
    boil_kj = drinking_ml / 1000 * (litre_kj + WATER * T_1000)
    boil_kj += potfuls * 0.4 * STEEL * T_1000
    power_w = 3500 * (drinking_ml / potfuls / 1000) ** (2 / 3)
    boil_min = 1000 * boil_kj / (0.10 * power_w) / 60 + potfuls
    assert fuel.water_minutes == NEAR(melt_min + boil_min, rel=EXACT)
    hold_kj = potfuls * max(240 / 0.10, 0.35 * power_w) * 60 / 1000
    assert fuel.boiling_water_kj == NEAR(boil_kj / 0.10 + hold_kj, rel=EXACT)
    # Half to twice.
    assert kit.wood_low_g == NEAR(0.5 * kit.wood_g, rel=EXACT)
    assert kit.wood_high_g == NEAR(2.0 * kit.wood_g, rel=EXACT)
    assert kit.wood_g == NEAR(all_kj / mj_kg, rel=EXACT)
    assert fuel.fuel_g == 0


def pocket(pieces: int = 1, side: str = "4 min") -> Record:
    """Give a recipe for the iron."""
    return dish(
        uses(pulse="100 g"),
        {"do": "press", "with": ["pulse"], "each_side": side, "pieces": pieces},
        cook_in="iron",
    )


@pytest.mark.parametrize(
    ("irons", "pieces", "presses"),
    [
        (["one-iron"], 1, 2),
        (["one-iron"], 2, 4),
        (["two-iron"], 1, 1),
        (["two-iron"], 2, 2),
        (["one-iron", "two-iron"], 2, 2),  # ceil(4 / 3)
        (["one-iron", "two-iron"], 3, 2),  # ceil(6 / 3)
    ],
)
def test_presses_their_minutes_and_the_wood_for_embers(
    tmp_path: Path, irons: list[str], pieces: int, presses: int
) -> None:
    kit = kit_with(tmp_path, pocket(pieces), fire={"irons": irons})
    meal = meal_of(kit)
    assert meal.presses == presses
    press_min = presses * (2 * 4 + 1)
    assert meal.minutes == NEAR(press_min, rel=EXACT)
    assert meal.embers_min == 45  # apart from the minutes
    # 3 kg for embers, then 2 kg an hour until the last press.
    assert meal.wood_g == NEAR(3000 + 2000 * press_min / 60, rel=EXACT)
    assert kit.wood_g == NEAR(meal.wood_g, rel=EXACT)
    assert kit.wood_low_g == NEAR(0.5 * meal.wood_g, rel=EXACT)
    assert kit.wood_high_g == NEAR(1.5 * meal.wood_g, rel=EXACT)
    assert meal.heat_kj == 0
    assert meal.fuel_heat_kj == 0
    assert (meal.cooked_on, meal.pot, meal.potfuls) == ("fire", None, 0)


def test_embers_are_made_once_a_meal_and_pots_beside_them_burn_their_own(tmp_path: Path) -> None:
    pot = {**boil_of(200, 100), "id": "stew"}
    both = [{"cook": "dish"}, {"cook": "stew"}, {"cook": "dish"}]
    days = [day({"lunch": [{"cook": "dish"}], "dinner": both})]
    trip = day_trip(days=days, stove=None, fire={"irons": ["two-iron"], "pots": ["large"]})
    kit = hand(tmp_path, trip, [pocket(), pot]).kit()
    lunch, first, stew, second = day_of(kit).meals
    pressing_g = 2000 * 9 / 60
    assert [lunch.wood_g, first.wood_g, second.wood_g] == [
        NEAR(3000 + pressing_g, rel=EXACT),
        NEAR(3000 + pressing_g, rel=EXACT),
        NEAR(pressing_g, rel=EXACT),
    ]
    stew_g = stew.fuel_heat_kj / (18.5 * 0.80 - 2.443 * 0.20)
    assert stew.wood_g == NEAR(stew_g, rel=EXACT)
    assert kit.wood_g == NEAR(2 * 3000 + 3 * pressing_g + stew_g, rel=EXACT)
    assert [each.embers_min for each in day_of(kit).meals] == [45, 45, 0, 45]


def baked(*before: Record, minutes: float = 30, **more: object) -> Record:
    """Give a recipe that is baked: a gram of it takes 0.7 ml of the pot."""
    bake = {"do": "bake", "with": ["kernel"], "minutes": minutes, "at": "182 degC"}
    return dish(uses(kernel="200 g"), *before, bake, **more)


def test_baking_takes_embers_as_irons_do_and_no_flame(tmp_path: Path) -> None:
    pots = {"use": "burner", "pots": ["small", "iron-pot"], "fuel_reserve": "20 %"}
    kit = kit_with(tmp_path, baked(), stove=pots, fire={"allowed": True})
    meal = meal_of(kit)
    # Two servings are 280 ml; the aluminium pot is lighter and does not bake.
    assert (meal.pot, meal.potfuls, meal.cooked_on) == ("iron-pot", 1, "fire")
    assert (meal.minutes, meal.embers_min) == (30, 45)
    assert meal.wood_g == NEAR(3000 + 2000 * 30 / 60, rel=EXACT)
    assert kit.wood_low_g == NEAR(0.5 * meal.wood_g, rel=EXACT)
    assert kit.wood_high_g == NEAR(1.5 * meal.wood_g, rel=EXACT)
    assert (meal.heat_kj, meal.fuel_heat_kj, day_of(kit).fuel.fuel_g) == (0, 0, 0)
    # 0.8 for each of 24 cm, and a pair for 14 K: half of one for 7 K. A third lies below.
    step = meal.steps[-1]
    assert step.ember_pieces == NEAR(0.8 * 24 + 2 * 7 / 14, rel=EXACT)
    assert step.ember_pieces_below == NEAR(step.ember_pieces / 3, rel=EXACT)
    assert (step.baking_c, step.palm_s) == (182, 5)  # up to 5 s food meets 145 to 200 °C


def test_a_pot_that_tells_no_width_counts_no_embers(tmp_path: Path) -> None:
    stove = {"use": "burner", "pots": ["old-iron-pot"], "fuel_reserve": "20 %"}
    step = meal_of(kit_with(tmp_path, baked(), stove=stove, fire={"allowed": True})).steps[-1]
    assert (step.ember_pieces, step.ember_pieces_below) == (0, 0)
    assert step.palm_s == 5


def test_what_is_boiled_and_then_baked_is_both_in_every_potful(tmp_path: Path) -> None:
    boil = {"do": "boil", "with": ["kernel"], "water": "400 ml"}
    stove = {"use": "burner", "pots": ["iron-pot", "large"], "fuel_reserve": "20 %"}
    meal = cooked(tmp_path, baked(boil), stove=stove, fire={"allowed": True})
    # 800 ml and 0.7 · 400 g in a pot of 800 ml: two potfuls, baked one after the other.
    assert (meal.pot, meal.potfuls, meal.cooked_on) == ("iron-pot", 2, "stove")
    heat_kj = ((800 + 0.4 * 400) / 1000 * WATER + 2 * 3.0 * CAST_IRON) * WARM
    assert meal.heat_kj == NEAR(heat_kj, rel=EXACT)
    assert meal.minutes == NEAR(minutes(heat_kj) + 2 * 30, rel=EXACT)
    assert meal.wood_g == NEAR(3000 + 2000 * 60 / 60, rel=EXACT)


def test_what_is_pressed_and_what_is_baked_share_the_embers(tmp_path: Path) -> None:
    both = [{"cook": "loaf"}, {"cook": "dish"}]
    fire = {"irons": ["two-iron"], "pots": ["iron-pot"]}
    trip = day_trip(days=[day({"dinner": both})], stove=None, fire=fire)
    kit = hand(tmp_path, trip, [pocket(), {**baked(), "id": "loaf"}]).kit()
    loaf, pressed = day_of(kit).meals
    assert loaf.wood_g == NEAR(3000 + 2000 * 30 / 60, rel=EXACT)
    assert pressed.wood_g == NEAR(2000 * 9 / 60, rel=EXACT)


def test_stove_and_fire_both_pots_on_the_stove_irons_in_the_embers(tmp_path: Path) -> None:
    recipe = dish(
        uses(pulse="80 g dehydrator", oil="5 g"),
        {"do": "soak", "with": ["pulse"], "water": "auto", "minutes": 5},
        {"do": "boil"},
        {"do": "press", "with": ["pulse", "oil"], "each_side": "3 min"},
        cook_in="iron",
    )
    kit = kit_with(tmp_path, recipe, fire={"irons": ["two-iron"]})
    meal = meal_of(kit)
    heat_kj = (200 * 0.7 * 1.25 + 0.4 * 160) / 1000 * WATER * WARM + SMALL_KJ
    assert meal.heat_kj == NEAR(heat_kj, rel=EXACT)
    assert kit.fuel is not None
    assert kit.fuel.likely_g == NEAR(heat_kj / ETA / 46, rel=EXACT)
    assert meal.wood_g == NEAR(3000 + 2000 / 60 * 7, rel=EXACT)
    assert meal.minutes == NEAR(minutes(heat_kj) + 5 + 7, rel=EXACT)


def test_a_fire_that_is_not_allowed_burns_no_wood(tmp_path: Path) -> None:
    fire = {"allowed": False, "irons": ["one-iron"], "pots": ["large"]}
    kit = kit_with(tmp_path, boil_of(200, 100), fire=fire)
    assert kit.wood_g == 0
    assert kit.irons == ()
    assert meal_of(kit).cooked_on == "stove"
    trip = day_trip(stove=None, fire=fire, days=[day({"dinner": [{"cook": "dish"}]})])
    assert "no-heat" in hand(tmp_path / "b", trip, [boil_of(200, 100)]).kinds()
