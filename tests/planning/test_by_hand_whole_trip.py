"""One trip of two days from end to end, every figure worked out in turn with plain arithmetic."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.kit import Kit, Ladles

from .folders import Record, boils_c, day, day_of, day_trip, hand, uses

NEAR = pytest.approx
EXACT = 1e-6

STEW: Record = {
    "id": "stew", "serves": 2, "cook_in": "pot",
    "uses": uses(pulse="150 g freeze-dryer", kernel="200 g", oil="20 g"),
    "steps": [
        {"do": "soak", "with": ["pulse"], "water": "auto", "minutes": 10},
        {"do": "boil", "with": ["kernel", "oil"], "water": "500 ml"},
        {"do": "simmer", "minutes": 8},
        {"do": "rest", "minutes": 5},
    ],
}  # fmt: skip
TEA: Record = {
    "id": "tea", "serves": 1, "cook_in": "mug", "uses": uses(tea_leaf="2 g"),
    "steps": [{"do": "boil", "with": ["tea-leaf"], "water": "300 ml"}],
}  # fmt: skip
SPRING: Record = {
    "id": "spring", "food": "pulse", "method": "freeze-dryer", "done": "2031-03-14",
    "fresh": "1850 g", "dried": "765 g", "kept_at": "15 degC", "constant": True, "used": 1,
    "packs": {"count": 5, "in": "foil", "absorber": True},
}  # fmt: skip


@pytest.fixture
def kit(tmp_path: Path) -> Kit:
    first = day(
        {
            "lunch": [{"eat": "hard-cheese", "each": "60 g"}],
            "dinner": [{"cook": "stew", "from": "spring"}],
            "snacks": [{"eat": "kernel-nut", "each": "80 g"}],
            "drinks": [{"cook": "tea"}],
        },
        camp_altitude="1600 m",
        air={"low": "2 degC", "high": "27 degC"},
        wind="breezy",
        water={"camp": "lake", "treat": "filter", "at": "6 degC", "between_water": "3 h"},
        travel={"by": "walking", "hours": 5, "distance": "12 km", "ascent": "700 m",
                "descent": "100 m", "ground": "rough", "load": "13 kg"},
    )  # fmt: skip
    last = day(
        {"breakfast": [{"cook": "tea"}], "lunch": [{"eat": "kernel-nut", "each": "80 g"}]},
        ends="home",
        home=["dinner"],
        camp_altitude="300 m",
        air={"low": "8 degC", "high": "22 degC"},
        water={"camp": "stream", "treat": "filter", "at": "12 degC", "between_water": "2 h"},
        travel={"by": "cycling", "hours": 3},
    )
    trip = day_trip(days=[first, last], gear_shared=[{"name": "Tarp", "mass": "800 g"}])
    return hand(tmp_path, trip, [STEW, TEA], [SPRING]).kit()


# -- the batch: 1850 g with 60 % water, 765 g dried ------------------------------------------------

SOLIDS_G = 1850 * 0.40  # 740 g
RESIDUE = 1 - SOLIDS_G / 765  # 0.03268, below 0.05 and above 0.02

# -- the height -----------------------------------------------------------------------------------

T = boils_c(1600)  # 94.65 °C
FACTOR = 10 ** ((99.97 - T) / 33)  # 1.449
WARM = T - 6

# -- the stew for two ------------------------------------------------------------------------------

SOAK_ML = 150 * (1850 / 765 - 1)  # 212.7 ml: what 150 g of this batch lost
STEW_ML = SOAK_ML + 500
STEW_G = 150 + 200 + 20
# 712.7 + 0.7 · 370 = 971.7 ml: too much for the small pot, one potful of the large one.
STEW_KJ = (STEW_ML + 0.4 * STEW_G) / 1000 * 4.186 * WARM + 0.400 * 0.50 * WARM
STEW_SIMMER_KJ = max(240 / 0.5, 400) * 8 * FACTOR * 60 / 1000
STEW_FUEL_KJ = STEW_KJ / (0.5 * 0.8) + STEW_SIMMER_KJ
STEW_KCAL = 150 * 1.60 * 1850 / 765 + 200 * 3.50 + 20 * 9.00

# -- the tea: 600 ml alone in the small pot, on day 1 and for the breakfast of day 2 --------------

TEA_KJ = 0.600 * 4.186 * WARM + 0.200 * 0.897 * WARM
TEA_FUEL_KJ = TEA_KJ / (0.5 * 0.8)


def test_the_batch(kit: Kit) -> None:
    (spring,) = kit.batches
    assert spring.residual_moisture == NEAR(RESIDUE, rel=EXACT)
    assert spring.water_removed_g == 1850 - 765
    assert spring.dry_enough
    # Freeze-dried plant food in foil with an absorber, proven dry: 120 months, kept cooler.
    assert spring.months == 120
    assert str(spring.best_before) == "2041-03-14"
    # 150 g are one pack of 153 g; one was eaten before.
    assert (spring.packs_used, spring.packs_left) == (1, 5 - 1 - 1)


def test_cooking(kit: Kit) -> None:
    _, stew, _, tea = day_of(kit).meals
    assert stew.soak_water_ml == NEAR(SOAK_ML, rel=EXACT)
    assert stew.water_ml == NEAR(STEW_ML, rel=EXACT)
    assert (stew.pot, stew.potfuls) == ("large", 1)
    assert stew.heat_kj == NEAR(STEW_KJ, rel=EXACT)
    assert stew.fuel_heat_kj == NEAR(STEW_FUEL_KJ, rel=EXACT)
    to_boil_min = 1000 * STEW_KJ / (0.5 * 0.8 * 2000) / 60
    assert stew.minutes == NEAR(to_boil_min + 10 + (8 + 5) * FACTOR, rel=EXACT)
    assert stew.nutrition.energy_kcal == NEAR(STEW_KCAL, rel=EXACT)
    assert tea.pot == "small"
    assert tea.heat_kj == NEAR(TEA_KJ, rel=EXACT)
    # The breakfast of day 2 is cooked at the camp of day 1.
    assert day_of(kit, 2).meals[0].fuel_heat_kj == NEAR(TEA_FUEL_KJ, rel=EXACT)


def test_fuel(kit: Kit) -> None:
    first_g = (STEW_FUEL_KJ + TEA_FUEL_KJ) / 46
    last_g = TEA_FUEL_KJ / 46
    assert day_of(kit).fuel.fuel_g == NEAR(first_g, rel=EXACT)
    assert day_of(kit, 2).fuel.fuel_g == NEAR(last_g, rel=EXACT)
    assert kit.fuel is not None
    assert kit.fuel.likely_g == NEAR(first_g + last_g, rel=EXACT)
    assert kit.fuel.carry_g == NEAR(1.2 * (first_g + last_g), rel=EXACT)
    assert [(each.holds_g, each.count) for each in kit.fuel.containers] == [(100, 1)]


def test_energy(kit: Kit) -> None:
    # On foot with 13 kg at 12 km / 5 h, seven eighths of the way up, one eighth down.
    speed = 12_000 / (5 * 3600)
    grade = 100 * 700 / (7 / 8 * 12_000)  # 6.67 %
    slope_deg = 3.814074834  # atan(100 / (1/8 · 12000)) = atan(1/15)
    needs = []
    for kg, bmr in ((60, 8.126 * 60 + 845.6), (80, 11.472 * 80 + 873.1)):
        standing = 1.5 * kg + 2 * (kg + 13) * (13 / kg) ** 2
        up = standing + 1.5 * (kg + 13) * (1.5 * speed**2 + 0.35 * speed * grade)
        level = standing + 1.5 * (kg + 13) * 1.5 * speed**2
        sine = 0.0665190106  # sin(atan(1/15)) = 1 / sqrt(226)
        down = level - 2.4 * (kg + 13) * 9.81 * speed * sine * 0.3 ** (slope_deg / 7.65)
        travel = (7 / 8 * up + 1 / 8 * down) * 3600 / 4184 * 5
        needs.append(bmr / 24 * (8 * 0.95 + 11 * 1.6) + travel)
    found = [each.energy_need_kcal for each in day_of(kit).people]
    assert found == NEAR(needs, rel=EXACT)
    home = [
        (bmr / 24 * (8 * 0.95 + 13 * 1.6) + 7.5 * kg * 3) * (1 - 0.35)
        for kg, bmr in ((60, 1333.16), (80, 1790.86))
    ]
    assert [each.energy_need_kcal for each in day_of(kit, 2).people] == NEAR(home, rel=EXACT)
    eaten = 120 * 3.90 + STEW_KCAL + 160 * 6.00 + 4 * 2.00
    assert day_of(kit).nutrition.energy_kcal == NEAR(eaten, rel=EXACT)
    ea, bo = needs[0] + home[0], needs[1] + home[1]
    shares = [each.energy_share for each in kit.party]
    assert shares == NEAR([ea / ((ea + bo) / 2), bo / ((ea + bo) / 2)], rel=EXACT)
    stew = day_of(kit).meals[1]
    assert stew.plate_shares == NEAR((ea / (ea + bo), bo / (ea + bo)), rel=EXACT)
    # 971.7 ml are 16.2 half ladles of 120 ml; of 16, 43.0 % are 6.9 and 57.0 % are 9.1.
    assert (16 * ea / (ea + bo), 16 * bo / (ea + bo)) == NEAR((6.9, 9.1), abs=0.06)
    assert stew.ladles == Ladles(120, 16, (7, 9))


def test_water(kit: Kit) -> None:
    # 27 °C: 750 ml an hour for five hours, in place of 0.8 · AI / 16 each; two degrees above 25
    # ask 12 % more of the other eleven hours awake (they counted as cool before).
    hot = 1 + 0.06 * 2 * 11 / 16
    need = {"Ea": 2000 * hot + 5 * (750 - 100), "Bo": 2500 * hot + 5 * (750 - 125)}
    # Food for each: cheese 24 ml, half the stew and its foods' own water, nuts 4 ml.
    own = 150 * RESIDUE + 200 * 0.12
    food = 0.40 * 60 + (STEW_ML + own) / 2 + 0.05 * 80  # 414.8 ml, less than 0.3 AI
    water = day_of(kit).water
    drink = {name: ml - food for name, ml in need.items()}
    assert {each.name: each.to_drink_ml for each in day_of(kit).people} == NEAR(drink, rel=EXACT)
    assert water.cooking_ml == NEAR(STEW_ML, rel=EXACT)
    assert water.drinks_ml == 600
    assert water.drinking_ml == NEAR(drink["Ea"] + drink["Bo"] - 600, rel=EXACT)
    assert water.washing_ml == 1000
    assert water.treat_ml == NEAR(water.drinking_ml, rel=EXACT)
    assert water.carry_ml == 3 * (750 + 750)
    # Day 2, 22 °C, three hours, 4 ml of water in the nuts, tea at breakfast (300 ml and 0.2 g).
    last = day_of(kit, 2).water
    to_drink = [
        # The dinner at home takes its share of all but the way's 3 · 400 and 3 · 375 ml.
        (2000 - 304.2) * 0.65 + 3 * (500 - 100),
        (2500 - 304.2) * 0.65 + 3 * (500 - 125),
    ]
    found = [each.to_drink_ml for each in day_of(kit, 2).people]
    assert found == NEAR(to_drink, rel=EXACT)
    assert last.drinking_ml == NEAR(sum(to_drink), rel=EXACT)
    assert (last.cooking_ml, last.washing_ml, last.carry_ml) == (600, 0, 2 * 1000)


def test_weights(kit: Kit) -> None:
    first_food = 120 + 370 + 160 + 4
    last_food = 4 + 160
    assert kit.weights.food_g == NEAR(first_food + last_food, rel=EXACT)
    # A pack in foil and a bag for the stew's rest; a bag for each other thing eaten.
    packaging = (10 + 7) + 3 * 7 + 2 * 7
    assert kit.weights.packaging_g == packaging
    gear = 100 + 200 + 400 + 800
    assert kit.weights.gear_g == gear
    assert kit.weights.fuel_g == 100 + 90
    assert kit.weights.water_most_g == 4500
    morning_1 = first_food + last_food + packaging + gear + 190 + 4500
    burnt = (STEW_FUEL_KJ + TEA_FUEL_KJ) / 46
    morning_2 = last_food + packaging + gear + (190 - burnt) + 2000
    assert kit.weights.by_day_g == NEAR((morning_1, morning_2), rel=EXACT)


def test_shopping(kit: Kit) -> None:
    lines = {line.food: line.mass_g for line in kit.shopping}
    assert lines == NEAR(
        {"kernel": 200, "oil": 20, "hard-cheese": 120, "kernel-nut": 320, "tea-leaf": 8},
        rel=EXACT,
    )
