"""What food holds and what bodies need, worked out on paper.

Ea is a woman of 40 and 60 kg, Bo a man of 40 and 80 kg. They carry to 12 and 18 kg, and have
4 and 6 kg of their own.
"""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest

from builder.model.kit import Kit, PersonDay

from .folders import Record, day, day_of, day_trip, hand, meal_of, uses

NEAR = pytest.approx
EXACT = 1e-6

# Schofield for 30 to 60 years: kcal = k · kg + c
EA_BMR = 8.126 * 60 + 845.6  # 1333.16
BO_BMR = 11.472 * 80 + 873.1  # 1790.86


def camp_kcal(bmr: float, hours: float = 0) -> float:
    """Give BMR / 24 · (8 · 0.95 + (16 − h) · 1.6), without the travel."""
    return bmr / 24 * (8 * 0.95 + (16 - hours) * 1.6)


def kit_of(folder: Path, *days: Record, **changes: Any) -> Kit:
    return hand(folder, day_trip(days=list(days), **changes)).kit()


def on_the_way(travel: Record, **changes: object) -> Record:
    """Give a day with nothing but 100 g of nuts, no water to carry, and a way."""
    water = {"camp": "stream", "treat": "filter", "between_water": "0 h"}
    return day(
        {"snacks": [{"eat": "kernel-nut", "each": "50 g"}]},
        water=water,
        travel=travel,
        **changes,
    )


def person(kit: Kit, name: str, number: int = 1) -> PersonDay:
    return next(each for each in day_of(kit, number).people if each.name == name)


# -- food ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("what", "kcal"),
    [
        ({"eat": "kernel-nut", "each": "50 g"}, 600 / 100 * 100),  # listed, two of 50 g
        # leaf lists none: 4 · 2 + 9 · 0 + 4 · (7 − 3) + 2 · 3 = 30
        ({"eat": "leaf", "each": "120 g"}, 30 / 100 * 240),
        ({"eat": "Crackers", "each": "70 g", "energy": "450 kcal"}, 450 / 100 * 140),
        ({"eat": "Crackers", "each": "70 g", "energy": "1883 kJ"}, 1883 / 4.184 / 100 * 140),
        # A label without energy: 4 · 10 + 9 · 20 + 4 · (50 − 6) + 2 · 6 = 408
        ({"eat": "Bars", "each": "40 g", "protein": "10 g", "fat": "20 g",
          "carbohydrate": "50 g", "fibre": "6 g"}, 408 / 100 * 80),
        # Alcohol gives 7: 4 · 5 + 7 · 40 = 300
        ({"eat": "Cordial", "each": "10 g", "carbohydrate": "5 g", "alcohol": "40 g"}, 300 * 0.2),
        ({"eat": "kernel-nut", "each": "50 g", "for": ["Bo"]}, 300),
        # Dried without a batch: 20 % is left in fruit, so 75 · 0.8 / 0.2 = 300 kcal in 100 g.
        ({"eat": "berry", "dried_by": "dehydrator", "each": "25 g"}, 300 / 100 * 50),
        ({"eat": "berry", "dried_by": "freeze-dryer", "each": "25 g"}, 75 * 0.98 / 0.2 * 0.5),
        # Atwater, then concentrated: 30 · 0.9 / 0.1 = 270
        ({"eat": "leaf", "dried_by": "oven", "each": "20 g"}, 270 / 100 * 40),
    ],
)  # fmt: skip
def test_energy_of_what_is_eaten(tmp_path: Path, what: Record, kcal: float) -> None:
    kit = kit_of(tmp_path, day({"snacks": [what]}))
    assert meal_of(kit).nutrition.energy_kcal == NEAR(kcal, rel=EXACT)
    assert day_of(kit).nutrition.energy_kcal == NEAR(kcal, rel=EXACT)
    assert kit.nutrition.energy_kcal == NEAR(kcal, rel=EXACT)


def test_what_a_cooked_meal_holds(tmp_path: Path) -> None:
    recipe = {
        "id": "dish", "serves": 1, "cook_in": "pot",
        "uses": uses(pulse="80 g dehydrator", kernel="60 g", oil="10 g"),
        "steps": [{"do": "boil", "with": ["pulse", "kernel", "oil"], "water": "300 ml"}],
    }  # fmt: skip
    trip = day_trip(days=[day({"dinner": [{"cook": "dish"}]})])
    found = meal_of(hand(tmp_path, trip, [recipe]).kit()).nutrition
    factor = 0.90 / 0.40  # 2.25
    assert found.energy_kcal == NEAR(2 * (80 * 1.60 * factor + 60 * 3.50 + 10 * 9.00), rel=EXACT)
    assert found.protein_g == NEAR(2 * (80 * 0.10 * factor + 60 * 0.10), rel=EXACT)
    assert found.fat_g == NEAR(2 * (80 * 0.01 * factor + 60 * 0.02 + 10), rel=EXACT)
    assert found.carbohydrate_g == NEAR(2 * (80 * 0.28 * factor + 60 * 0.75), rel=EXACT)
    assert found.fibre_g == NEAR(2 * (80 * 0.08 * factor + 60 * 0.05), rel=EXACT)
    assert found.sodium_mg == NEAR(2 * 80 * 0.10 * factor, rel=EXACT)


# -- at rest ------------------------------------------------------------------------------------

SCHOFIELD = [
    # sex, age, kg, k, c
    ("male", 1, 10, 59.512, -30.4),
    ("male", 2.9, 14, 59.512, -30.4),
    ("male", 3, 15, 22.706, 504.3),
    ("male", 9, 30, 22.706, 504.3),
    ("male", 10, 32, 17.686, 658.2),
    ("male", 17, 60, 17.686, 658.2),
    ("male", 18, 70, 15.057, 692.2),
    ("male", 29, 70, 15.057, 692.2),
    ("male", 30, 75, 11.472, 873.1),
    ("male", 59, 75, 11.472, 873.1),
    ("male", 60, 75, 11.711, 587.7),
    ("male", 90, 70, 11.711, 587.7),
    ("female", 1, 10, 58.317, -31.1),
    ("female", 3, 15, 20.315, 485.9),
    ("female", 10, 32, 13.384, 692.6),
    ("female", 18, 55, 14.818, 486.6),
    ("female", 30, 60, 8.126, 845.6),
    ("female", 60, 60, 9.082, 658.5),
]


@pytest.mark.parametrize(("sex", "age", "kg", "k", "c"), SCHOFIELD)
def test_a_day_of_rest(tmp_path: Path, sex: str, age: float, kg: float, k: float, c: float) -> None:
    party = [{"name": "One", "sex": sex, "age": age, "mass": f"{kg} kg"}]
    kit = kit_of(tmp_path, day(), party=party)
    bmr = k * kg + c
    one = person(kit, "One")
    assert one.basal_kcal == NEAR(bmr, rel=EXACT)
    # 8 h at 0.95 and 16 h at 1.6: 33.2 / 24
    assert one.energy_need_kcal == NEAR(bmr * 33.2 / 24, rel=EXACT)
    assert one.travel_kcal == 0


def test_a_body_not_told(tmp_path: Path) -> None:
    kit = kit_of(tmp_path, day(), party=[{"name": "One"}])
    # Mean of both sexes, 35 years, 70 kg.
    bmr = ((11.472 * 70 + 873.1) + (8.126 * 70 + 845.6)) / 2
    assert person(kit, "One").basal_kcal == NEAR(bmr, rel=EXACT)
    told = {each.what for each in kit.defaults}
    assert {"sex of One", "age of One", "mass of One", "height of One"} <= told


def test_resting_is_no_travel(tmp_path: Path) -> None:
    kit = kit_of(tmp_path, on_the_way({"by": "resting", "hours": 7, "distance": "9 km"}))
    assert person(kit, "Ea").energy_need_kcal == NEAR(camp_kcal(EA_BMR), rel=EXACT)
    assert person(kit, "Ea").travel_kcal == 0
    assert day_of(kit).travel_hours == 0


# -- two to feed --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("told", "more_kcal", "more_protein_g"),
    [
        ({}, 0, 0),
        ({"pregnant": False}, 0, 0),
        ({"pregnant": 1}, 70, 1),
        ({"pregnant": 2}, 260, 9),
        ({"pregnant": True}, 260, 9),  # the third is not told: the second
        ({"pregnant": 3}, 500, 28),
        ({"nursing": True}, 500, 19),
        ({"pregnant": 1, "nursing": True}, 570, 20),
    ],
)
def test_pregnancy_by_its_third_and_nursing(
    tmp_path: Path, told: Record, more_kcal: float, more_protein_g: float
) -> None:
    body = {"name": "Ea", "sex": "female", "age": 40, "mass": "60 kg", "height": "165 cm"}
    kit = kit_of(tmp_path, day(), party=[{**body, **told}])
    one = person(kit, "Ea")
    assert one.energy_need_kcal == NEAR(camp_kcal(EA_BMR) + more_kcal, rel=EXACT)
    assert one.protein_need_g == NEAR(0.83 * 60 + more_protein_g, rel=EXACT)


def test_a_meal_at_home_takes_its_share_of_what_pregnancy_adds_too(tmp_path: Path) -> None:
    body = {"name": "Ea", "sex": "female", "age": 40, "mass": "60 kg", "pregnant": 3}
    kit = kit_of(tmp_path, day(home=["dinner"]), party=[body])
    need = (camp_kcal(EA_BMR) + 500) * 0.65
    assert person(kit, "Ea").energy_need_kcal == NEAR(need, rel=EXACT)


@pytest.mark.parametrize(
    ("body", "protein_g"),
    [
        ({"sex": "male", "age": 10, "mass": "33 kg"}, 0.91 * 33),
        ({"sex": "male", "age": 12, "mass": "40 kg"}, 0.90 * 40),
        ({"sex": "female", "age": 12, "mass": "40 kg"}, 0.89 * 40),
        ({"age": 12, "mass": "40 kg"}, 0.895 * 40),  # mean of both
        ({"sex": "female", "age": 1, "mass": "9 kg"}, 1.14 * 9),
        ({"sex": "male", "age": 80, "mass": "70 kg"}, 0.83 * 70),
    ],
)
def test_protein_by_age(tmp_path: Path, body: Record, protein_g: float) -> None:
    kit = kit_of(tmp_path, day(), party=[{"name": "One", **body}])
    assert person(kit, "One").protein_need_g == NEAR(protein_g, rel=EXACT)


def test_what_is_on_each_ones_plates(tmp_path: Path) -> None:
    meals = {
        "lunch": [{"eat": "hard-cheese", "each": "40 g", "for": ["Bo"]}],
        "snacks": [{"eat": "kernel-nut", "each": "50 g"}],
    }
    kit = kit_of(tmp_path, day(meals))
    ea, bo = person(kit, "Ea"), person(kit, "Bo")
    # Nuts hold 600 kcal and 20 g of protein in 100 g, cheese 390 kcal and 26 g.
    assert (ea.food_g, bo.food_g) == NEAR((50, 90), rel=EXACT)
    assert (ea.food_kcal, bo.food_kcal) == NEAR((300, 456), rel=EXACT)
    assert (ea.food_protein_g, bo.food_protein_g) == NEAR((10, 20.4), rel=EXACT)


# -- on foot ------------------------------------------------------------------------------------


def pandolf_w(kg: float, load: float, speed: float, grade: float, ground: float) -> float:
    """Give 1.5 W + 2 (W + L)(L/W)² + η (W + L)(1.5 V² + 0.35 V G)."""
    return (
        1.5 * kg
        + 2.0 * (kg + load) * (load / kg) ** 2
        + ground * (kg + load) * (1.5 * speed**2 + 0.35 * speed * grade)
    )


def down_w(kg: float, load: float, speed: float, degrees: float, ground: float) -> float:
    """Give the level value − 2.4 (W + L) · 9.81 V sin a · 0.3^(a/7.65)."""
    level = pandolf_w(kg, load, speed, 0, ground)
    falling = (kg + load) * 9.81 * speed * math.sin(math.radians(degrees))
    return float(level - 2.4 * falling * 0.3 ** (degrees / 7.65))


GROUND = [("road", 1.0), ("path", 1.2), ("rough", 1.5), ("sand", 2.1), ("firm-snow", 1.3),
          ("soft-snow", 2.5)]  # fmt: skip


@pytest.mark.parametrize(("ground", "n"), GROUND)
def test_walking_on_the_level_with_a_load_that_is_told(
    tmp_path: Path, ground: str, n: float
) -> None:
    travel = {"by": "walking", "hours": 4, "distance": "14.4 km", "ground": ground, "load": "10 kg"}
    kit = kit_of(tmp_path, on_the_way(travel))
    speed = 14_400 / (4 * 3600)  # 1 m/s
    for name, kg, bmr in (("Ea", 60, EA_BMR), ("Bo", 80, BO_BMR)):
        # `load:` is the same for each and counts own gear in.
        kcal = pandolf_w(kg, 10, speed, 0, n) * 3600 / 4184 * 4
        found = person(kit, name)
        assert found.load_g == 10_000
        assert found.travel_kcal == NEAR(kcal, rel=EXACT)
        assert found.energy_need_kcal == NEAR(camp_kcal(bmr, 4) + kcal, rel=EXACT)
    both = sum(each.energy_need_kcal for each in day_of(kit).people)
    assert day_of(kit).energy_need_kcal == NEAR(both, rel=EXACT)


@pytest.mark.parametrize(
    ("ascent_m", "descent_m"), [(560, 90), (700, 0), (0, 800), (400, 400), (0, 0)]
)
def test_a_way_up_and_down_at_one_speed(tmp_path: Path, ascent_m: float, descent_m: float) -> None:
    travel = {"by": "walking", "hours": 5, "distance": "13 km", "ascent": f"{ascent_m} m",
              "descent": f"{descent_m} m", "ground": "path", "load": "12 kg"}  # fmt: skip
    kit = kit_of(tmp_path, on_the_way(travel))
    speed = 13_000 / (5 * 3600)
    if ascent_m + descent_m == 0:
        watt = pandolf_w(60, 12, speed, 0, 1.2)
    else:
        u = ascent_m / (ascent_m + descent_m)
        d = 1 - u
        watt = 0.0
        if u > 0:
            grade = 100 * ascent_m / (u * 13_000)
            watt += u * pandolf_w(60, 12, speed, grade, 1.2)
        if d > 0:
            degrees = math.degrees(math.atan(descent_m / (d * 13_000)))
            watt += d * down_w(60, 12, speed, degrees, 1.2)
    kcal = watt * 3600 / 4184 * 5
    least = 1.6 * EA_BMR / 24 * 5
    assert person(kit, "Ea").travel_kcal == NEAR(max(kcal, least), rel=EXACT)
    if ascent_m or not descent_m:
        assert kcal > least


def lcda_w(kg: float, load: float, speed: float, grade: float) -> float:
    """Give (W + L)(1.44 + 1.94 S^0.43 + 0.24 S⁴ + 0.34 S G (1 − 1.05^(1 − 1.1^(G + 32))))."""
    slope = 0.34 * speed * grade * (1 - 1.05 ** (1 - 1.1 ** (grade + 32)))
    return float((kg + load) * (1.44 + 1.94 * speed**0.43 + 0.24 * speed**4 + slope))


@pytest.mark.parametrize("ground", ["road", "soft-snow"])
def test_the_range_of_two_equations_on_the_level(tmp_path: Path, ground: str) -> None:
    travel = {"by": "walking", "hours": 4, "distance": "14.4 km", "ground": ground, "load": "10 kg"}
    kit = kit_of(tmp_path, on_the_way(travel))
    for name, kg in (("Ea", 60), ("Bo", 80)):
        found = person(kit, name)
        pandolf = pandolf_w(kg, 10, 1.0, 0, dict(GROUND)[ground]) * 3600 / 4184 * 4
        lcda = lcda_w(kg, 10, 1.0, 0) * 3600 / 4184 * 4  # it knows firm ground alone
        low, high = sorted((pandolf, lcda))
        assert found.travel_low_kcal == NEAR(0.95 * low, rel=EXACT)
        assert found.travel_high_kcal == NEAR(1.05 * high, rel=EXACT)


def test_the_range_of_two_equations_up_and_down(tmp_path: Path) -> None:
    travel = {"by": "walking", "hours": 5, "distance": "13 km", "ascent": "560 m",
              "descent": "90 m", "ground": "path", "load": "12 kg"}  # fmt: skip
    kit = kit_of(tmp_path, on_the_way(travel))
    found = person(kit, "Ea")
    speed, grade, up = 13_000 / 18_000, 5.0, 560 / 650  # 650 m over 13 km are 5 %
    watt = up * lcda_w(60, 12, speed, grade) + (1 - up) * lcda_w(60, 12, speed, -grade)
    lcda = watt * 3600 / 4184 * 5
    assert found.travel_low_kcal == NEAR(0.95 * min(lcda, found.travel_kcal), rel=EXACT)
    assert found.travel_high_kcal == NEAR(1.05 * max(lcda, found.travel_kcal), rel=EXACT)


def test_a_childs_range_goes_by_its_basal_rate(tmp_path: Path) -> None:
    travel = {"by": "walking", "hours": 4, "distance": "14.4 km", "ground": "road", "load": "3 kg"}
    party = [{"name": "Kid", "sex": "male", "age": 12, "mass": "40 kg"}]
    kit = kit_of(tmp_path, on_the_way(travel), party=party)
    hour = (17.686 * 40 + 658.2) / 24 / 40  # kcal an hour for each kg
    lcda = lcda_w(40, 3, 1.0, 0) * 3600 / 4184 * 4 * hour
    assert person(kit, "Kid").travel_high_kcal == NEAR(1.05 * lcda, rel=EXACT)


@pytest.mark.parametrize(
    "travel",
    [
        {"by": "paddling", "hours": 4},
        {"by": "walking", "hours": 4},  # no distance
        {"by": "walking", "hours": 1, "distance": "7.3 km"},  # above 2 m/s
        {"by": "walking", "hours": 5, "distance": "3 km", "ascent": "1300 m"},  # 43 %
    ],
)
def test_no_range_where_one_equation_alone_knows_the_way(tmp_path: Path, travel: Record) -> None:
    found = person(kit_of(tmp_path, on_the_way(travel)), "Ea")
    assert found.travel_kcal > 0
    assert (found.travel_low_kcal, found.travel_high_kcal) == (None, None)


def test_a_slow_stroll_counts_as_camp_at_least(tmp_path: Path) -> None:
    travel = {"by": "walking", "hours": 6, "distance": "1 km", "load": "0 kg"}
    kit = kit_of(tmp_path, on_the_way(travel))
    speed = 1000 / (6 * 3600)
    assert pandolf_w(80, 0, speed, 0, 1.2) * 3600 / 4184 < 1.6 * BO_BMR / 24
    assert person(kit, "Bo").travel_kcal == NEAR(1.6 * BO_BMR / 24 * 6, rel=EXACT)
    # So the day is that of a day of rest.
    assert person(kit, "Bo").energy_need_kcal == NEAR(camp_kcal(BO_BMR), rel=EXACT)


def test_the_load_comes_from_that_mornings_weight_by_what_each_carries_to(
    tmp_path: Path,
) -> None:
    way = {"by": "walking", "hours": 5, "distance": "15 km", "ground": "road"}
    snack = {"snacks": [{"eat": "kernel-nut", "each": "50 g"}]}
    water = {"camp": "stream", "treat": "filter", "between_water": "2 h"}
    days = [day(snack, travel=way, water=water) for _ in range(2)]
    kit = kit_of(tmp_path, *days, gear_shared=[{"name": "Tarp", "mass": "780 g"}])
    # Nothing is cooked: no fuel. Burner 100 g, pots 200 and 400 g, tarp 780 g.
    # Food 100 g a day, one zip bag of 7 g a day; its bag stays when the food is gone.
    # Water carried: 2 h at 500 + 500 ml.
    morning_1 = 100 + 200 + 400 + 780 + 2 * (100 + 7) + 2000
    morning_2 = morning_1 - 100
    assert kit.weights.by_day_g == NEAR((morning_1, morning_2), rel=EXACT)
    speed = 15_000 / (5 * 3600)
    for number, morning in ((1, morning_1), (2, morning_2)):
        for name, kg, own, limit in (("Ea", 60, 4000, 12), ("Bo", 80, 6000, 18)):
            load_g = own + limit / 30 * morning
            found = person(kit, name, number)
            assert found.load_g == NEAR(load_g, rel=EXACT)
            kcal = pandolf_w(kg, load_g / 1000, speed, 0, 1.0) * 3600 / 4184 * 5
            assert found.travel_kcal == NEAR(kcal, rel=EXACT)


def bodies(*limits: str | None) -> list[Record]:
    """Give grown-ups who carry to these limits."""
    found = []
    for number, limit in enumerate(limits):
        body: Record = {"name": f"P{number}", "sex": "male", "age": 40, "mass": "80 kg"}
        found.append({**body, "carries_to": limit} if limit else body)
    return found


@pytest.mark.parametrize(
    ("limits", "shares"),
    [
        (("10 kg", "30 kg"), (0.25, 0.75)),
        (("10 kg", None), (0.5, 0.5)),  # equal shares where limits are missing
        ((None, None, None), (1 / 3, 1 / 3, 1 / 3)),
        (("10 kg", "0 kg", "10 kg"), (0.5, 0.0, 0.5)),
        ((None, "0 kg", None), (0.5, 0.0, 0.5)),  # who carries nothing has no share
    ],
)
def test_shares_of_the_common_load(
    tmp_path: Path, limits: tuple[str | None, ...], shares: tuple[float, ...]
) -> None:
    travel = {"by": "walking", "hours": 2}
    kit = kit_of(tmp_path, on_the_way(travel), party=bodies(*limits))
    total_g = 700 + 50 * len(limits) + 7
    assert kit.weights.by_day_g == NEAR((total_g,), rel=EXACT)
    loads = [each.load_g for each in day_of(kit).people]
    assert loads == [NEAR(share * total_g, rel=EXACT, abs=1e-9) for share in shares]


# -- other ways ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("by", "load", "met"),
    [
        ("paddling", "12 kg", 4.0),
        ("skiing", "12 kg", 6.8),
        ("snowshoeing", "12 kg", 5.3),
        ("cycling", "12 kg", 7.5),
        ("walking", "10 kg", 5.3),  # no distance told
        ("walking", "10.1 kg", 7.0),
    ],
)
def test_other_ways_by_their_met(tmp_path: Path, by: str, load: str, met: float) -> None:
    kit = kit_of(tmp_path, on_the_way({"by": by, "hours": 5, "load": load}))
    for name, kg, bmr in (("Ea", 60, EA_BMR), ("Bo", 80, BO_BMR)):
        found = person(kit, name)
        assert found.travel_kcal == NEAR(met * kg * 5, rel=EXACT)
        assert found.energy_need_kcal == NEAR(camp_kcal(bmr, 5) + met * kg * 5, rel=EXACT)


@pytest.mark.parametrize(("by", "met"), [("paddling", 4.0), ("skiing", 6.8), ("walking", 5.3)])
def test_the_young_go_by_their_basal_energy(tmp_path: Path, by: str, met: float) -> None:
    child = {"name": "Kid", "sex": "female", "age": 12, "mass": "40 kg", "carries_to": "4 kg"}
    kit = kit_of(tmp_path, on_the_way({"by": by, "hours": 3, "load": "3 kg"}), party=[child])
    bmr = 13.384 * 40 + 692.6
    # Body kg becomes BMR / 24, in kcal an hour: 51.2 instead of 40.
    assert person(kit, "Kid").travel_kcal == NEAR(met * bmr / 24 * 3, rel=EXACT)


@pytest.mark.parametrize(("age", "grown_up"), [(17, False), (17.9, False), (18, True)])
def test_walking_of_the_young_is_multiplied(tmp_path: Path, age: float, grown_up: bool) -> None:
    one = {"name": "Kid", "sex": "male", "age": age, "mass": "50 kg"}
    travel = {"by": "walking", "hours": 4, "distance": "12 km", "ground": "road", "load": "5 kg"}
    kit = kit_of(tmp_path, on_the_way(travel), party=[one])
    k, c = (15.057, 692.2) if grown_up else (17.686, 658.2)
    bmr = k * 50 + c
    kcal = pandolf_w(50, 5, 12_000 / (4 * 3600), 0, 1.0) * 3600 / 4184 * 4
    if not grown_up:
        kcal *= (bmr / 24) / 50
    assert person(kit, "Kid").travel_kcal == NEAR(kcal, rel=EXACT)


# -- home, shares, plates -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("home", "share"),
    [
        (["breakfast"], 0.25),
        (["lunch"], 0.25),
        (["dinner"], 0.35),
        (["breakfast", "lunch"], 0.50),
        (["breakfast", "dinner"], 0.60),
    ],
)
def test_meals_at_home_take_their_share_off(tmp_path: Path, home: list[str], share: float) -> None:
    travel = {"by": "paddling", "hours": 3}
    kit = kit_of(tmp_path, on_the_way(travel, home=home))
    whole = camp_kcal(EA_BMR, 3) + 4.0 * 60 * 3
    assert person(kit, "Ea").energy_need_kcal == NEAR(whole * (1 - share), rel=EXACT)


def test_a_shared_pot_is_split_by_need_and_packets_evenly(tmp_path: Path) -> None:
    recipe = {
        "id": "dish", "serves": 1, "cook_in": "pot", "uses": uses(kernel="100 g"),
        "steps": [{"do": "boil", "with": ["kernel"], "water": "200 ml"}],
    }  # fmt: skip
    eat = {
        "dinner": [
            {"cook": "dish"},
            {"cook": "dish", "for": ["Bo"]},
            {"eat": "kernel-nut", "each": "20 g"},
        ]
    }
    days = [day(eat), day(eat, travel={"by": "cycling", "hours": 4})]
    kit = hand(tmp_path, day_trip(days=days), [recipe]).kit()
    ea = camp_kcal(EA_BMR) + camp_kcal(EA_BMR, 4) + 7.5 * 60 * 4
    bo = camp_kcal(BO_BMR) + camp_kcal(BO_BMR, 4) + 7.5 * 80 * 4
    mean = (ea + bo) / 2
    shares = [each.energy_share for each in kit.party]
    assert shares == [NEAR(ea / mean, rel=EXACT), NEAR(bo / mean, rel=EXACT)]
    assert sum(shares) == NEAR(2, rel=EXACT)
    both, alone, nuts = day_of(kit).meals
    assert both.plate_shares == NEAR((ea / (ea + bo), bo / (ea + bo)), rel=EXACT)
    assert alone.plate_shares == (1.0,)
    assert nuts.plate_shares == (0.5, 0.5)
    assert kit.energy_need_kcal == NEAR(ea + bo, rel=EXACT)
