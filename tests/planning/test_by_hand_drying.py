"""Drying, the water it took out, and how long a batch keeps, worked out on paper."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from builder.planning.batches.judging import Judged
from builder.problems import ProblemsFound

from .folders import Record, batch_of, day, day_trip, food, hand, meal_of, uses

NEAR = pytest.approx
EXACT = 1e-6  # relative: the same arithmetic in another order


def judged(folder: Path, **batch: object) -> Judged:
    """Judge one batch."""
    record: Record = {"id": "batch", "method": "dehydrator", "done": "2031-01-01", **batch}
    read = hand(folder, batches=[record])
    assert read.problems == ()
    return read.stock.judged["batch"]


def pot_of(*ingredients: str, water: str = "auto", **amounts: str) -> Record:
    """Give a recipe for one that soaks what is named, then boils and simmers it."""
    lines = uses(**amounts)
    names = list(ingredients) or [line["food"] for line in lines]
    return {
        "id": "pot-dish",
        "serves": 1,
        "cook_in": "pot",
        "uses": lines,
        "steps": [
            {"do": "soak", "with": names, "water": water, "minutes": 10},
            {"do": "boil"},
            {"do": "simmer", "minutes": 5},
        ],
    }


# -- weighings --------------------------------------------------------------------------------


def test_two_weighings_give_the_moisture_that_is_left(tmp_path: Path) -> None:
    # Listed 60 g water in 100 g. 1000 g fresh hold 400 g solids, still there in 430 g dried.
    found = judged(tmp_path, food="pulse", fresh="1000 g", dried="430 g")
    assert found.residual_share == NEAR(1 - 400 / 430, rel=EXACT)  # 0.0698
    assert found.water_share == NEAR(0.60, rel=EXACT)
    assert not found.corrected
    assert found.water_removed_g == NEAR(1000 - 430, rel=EXACT)
    assert found.dry_enough  # 0.0698 <= 0.13
    # Dry enough at 13 %: 400 g solids / 0.87.
    assert found.target_g == NEAR(400 / 0.87, rel=EXACT)


def test_a_load_that_is_not_dry_enough_tells_the_grams_still_to_go(tmp_path: Path) -> None:
    batch = {"id": "wet", "food": "pulse", "method": "oven", "done": "2031-01-01",
             "fresh": "1000 g", "dried": "500 g", "packs": {"count": 5}}  # fmt: skip
    dish = pot_of(pulse="100 g oven")
    trip = day_trip(days=[day({"dinner": [{"cook": "pot-dish", "from": "wet"}]})])
    kit = hand(tmp_path, trip, [dish], [batch]).kit()
    wet = batch_of(kit, "wet")
    assert wet.residual_moisture == NEAR(1 - 400 / 500, rel=EXACT)  # 0.20 > 0.13
    assert not wet.dry_enough
    assert wet.target_g == NEAR(400 / 0.87, rel=EXACT)
    assert wet.to_go_g == NEAR(500 - 400 / 0.87, rel=EXACT)


def test_composition_of_a_weighed_batch_concentrates_by_its_loss(tmp_path: Path) -> None:
    found = judged(tmp_path, food="pulse", fresh="1000 g", dried="430 g")
    factor = 1000 / 430  # (1 − w_r) / (1 − w₀) = (400/430) / 0.4
    assert found.composition.energy_kcal == NEAR(160 * factor, rel=EXACT)
    assert found.composition.protein_g == NEAR(10 * factor, rel=EXACT)
    assert found.composition.fibre_g == NEAR(8 * factor, rel=EXACT)
    assert found.composition.sodium_mg == NEAR(10 * factor, rel=EXACT)
    assert found.composition.water_g == NEAR(100 * (1 - 400 / 430), rel=EXACT)


def test_a_batch_wetter_than_listed_keeps_its_weighings(tmp_path: Path) -> None:
    # Freeze-dried: 400 g solids cannot weigh 350 g. w_r is taken as 0.02, so 343 g are solids.
    batch = {"id": "wetter", "food": "pulse", "method": "freeze-dryer", "done": "2031-01-01",
             "fresh": "1000 g", "dried": "350 g", "packs": {"count": 7}}  # fmt: skip
    dish = pot_of(pulse="100 g freeze-dryer")
    trip = day_trip(days=[day({"dinner": [{"cook": "pot-dish", "from": "wetter"}]})])
    kit = hand(tmp_path, trip, [dish], [batch]).kit()
    wetter = batch_of(kit, "wetter")
    assert wetter.dried_g == 350
    assert wetter.residual_moisture == NEAR(0.02, rel=EXACT)
    assert wetter.water_share == NEAR(1 - 0.98 * 350 / 1000, rel=EXACT)  # 0.657
    assert wetter.listed_water_share == NEAR(0.60, rel=EXACT)
    assert any("lost more water" in note for note in wetter.notes)
    meal = meal_of(kit)
    # The water comes from the corrected w₀: 200 g (2 · 100 g) of it were 200 · 1000/350 fresh.
    assert meal.soak_water_ml == NEAR(200 * (0.98 / (1 - 0.657) - 1), rel=EXACT)
    assert meal.soak_water_ml == NEAR(200 * (1000 / 350 - 1), rel=EXACT)
    # The solids come from the listed w₀: (1 − 0.02) / (1 − 0.60) = 2.45.
    assert meal.nutrition.energy_kcal == NEAR(160 * 2.45 / 100 * 200, rel=EXACT)
    assert meal.ingredients[0].water_ml == NEAR(0.02 * 200, rel=EXACT)


def test_a_heat_dried_batch_lighter_than_its_solids_has_no_moisture_left(tmp_path: Path) -> None:
    found = judged(tmp_path, food="pulse", fresh="1000 g", dried="390 g")
    assert found.residual_share == 0
    assert found.water_share == NEAR(1 - 390 / 1000, rel=EXACT)
    assert found.corrected


def test_a_freeze_dried_batch_at_just_its_least_residue_stays_as_listed(tmp_path: Path) -> None:
    # 400 / 0.98 = 408.163… g; two grams more leave w_r above 0.02.
    found = judged(tmp_path, food="pulse", method="freeze-dryer", fresh="1000 g", dried="410.2 g")
    assert not found.corrected
    assert found.residual_share == NEAR(1 - 400 / 410.2, rel=EXACT)  # 0.02487


@pytest.mark.parametrize(
    ("fresh", "dried", "kind"),
    [
        ("400 g", "400 g", "no-loss"),
        ("400 g", "480 g", "no-loss"),
        ("1000 g", "19 g", "too-light"),  # w₀ would be 0.981
        ("1000 g", "199 g", "too-light"),  # less than half of the 400 g of solids listed
    ],
)
def test_weighings_that_cannot_be_are_problems(
    tmp_path: Path, fresh: str, dried: str, kind: str
) -> None:
    batch = {
        "id": "odd",
        "food": "pulse",
        "method": "oven",
        "done": "2031-01-01",
        "fresh": fresh,
        "dried": dried,
    }
    read = hand(tmp_path, batches=[batch])
    assert read.kinds() == [kind]
    assert read.problems[0].severity == "error"
    assert "odd" not in read.stock.judged


def test_a_loss_that_needs_just_98_percent_water_is_none(tmp_path: Path) -> None:
    # Of 3 % of solids, 1.5 points either way, none may be left: no weight is odd but the bound.
    broth = food("broth", "vegetable", "raw", "water 97 g, carbohydrate 3 g")
    batch = {"id": "thin", "food": "broth", "method": "oven", "done": "2031-01-01",
             "fresh": "1000 g", "dried": "20 g"}  # fmt: skip
    read = hand(tmp_path, batches=[batch], foods=[broth])
    assert read.problems == ()
    assert read.stock.judged["thin"].water_share == NEAR(0.98, rel=EXACT)


def test_a_freeze_dried_loss_is_held_against_98_percent_with_its_residue(tmp_path: Path) -> None:
    # 1 − 0.98 · 20.3 / 1000 = 0.980106, above 0.98.
    batch = {"id": "odd", "food": "leaf", "method": "freeze-dryer", "done": "2031-01-01",
             "fresh": "1000 g", "dried": "20.3 g"}  # fmt: skip
    assert hand(tmp_path, batches=[batch]).kinds() == ["too-light"]


def test_a_planned_batch_is_reckoned_with_the_usual_residue(tmp_path: Path) -> None:
    planned = {"done": None, "planned": "2031-03-01"}
    found = judged(tmp_path, food="berry", fresh="2000 g", packs={"count": 4}, **planned)
    assert found.residual_share == NEAR(0.20, rel=EXACT)
    assert found.dried_g == NEAR(2000 * 0.20 / 0.80, rel=EXACT)  # 500 g
    assert found.pack_g == NEAR(125, rel=EXACT)


def test_a_bought_batch_is_as_listed(tmp_path: Path) -> None:
    found = judged(
        tmp_path,
        food="kernel",
        method="bought",
        done=None,
        best_before="2032-05-01",
        packs={"count": 3, "of": "120 g", "in": "foil"},
    )
    assert found.dried_g == 360
    assert found.pack_g == 120
    assert found.residual_share == NEAR(0.12, rel=EXACT)
    assert found.dry_enough
    assert found.best_before == datetime.date(2032, 5, 1)
    assert (found.water_back.poured_ml, found.water_back.taken_up_ml) == (0, 0)
    assert found.composition.energy_kcal == 350


@pytest.mark.parametrize(
    ("name", "method", "limit"),
    [
        ("berry", "dehydrator", 0.20),
        ("berry", "sun", 0.20),
        ("berry", "freeze-dryer", 0.05),
        ("egg-cooked", "oven", 0.05),
        ("curd", "dehydrator", 0.05),
        ("pulse", "dehydrator", 0.13),
        ("leaf", "oven", 0.10),
        ("stew-meat", "dehydrator", 0.10),
        ("mint", "sun", 0.10),
        ("rich-paste", "dehydrator", 0.10),
        ("pulse", "freeze-dryer", 0.05),
    ],
)
def test_dry_enough_by_kind_and_method(
    tmp_path: Path, name: str, method: str, limit: float
) -> None:
    water = {"berry": 80, "egg-cooked": 76, "curd": 75, "pulse": 60, "leaf": 90,
             "stew-meat": 60, "mint": 80, "rich-paste": 50}[name]  # fmt: skip
    solids_g = 1000 * (1 - water / 100)
    at_limit_g = solids_g / (1 - limit)
    folder = tmp_path / "at"
    just = judged(folder, food=name, method=method, fresh="1000 g", dried=f"{at_limit_g:.7f} g")
    assert just.dry_limit_share == limit
    assert just.target_g == NEAR(at_limit_g, rel=EXACT)
    above = judged(
        tmp_path / "above",
        food=name,
        method=method,
        fresh="1000 g",
        dried=f"{at_limit_g + 1:.6f} g",
    )
    assert not above.dry_enough


# -- water that puts it back ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "amount_g", "method", "per_gram", "takes_up"),
    [
        # (1 − w_r) / (1 − w₀) − 1 with the method's usual residue, of which comes back what such
        # food takes up (all of it was poured before).
        ("pulse", 80, "freeze-dryer", 0.98 / 0.40 - 1, 0.9),  # 1.45
        ("pulse", 80, "dehydrator", 0.90 / 0.40 - 1, 0.7),  # 1.25
        ("berry", 50, "dehydrator", 0.80 / 0.20 - 1, 0.4),  # 3
        ("berry", 50, "freeze-dryer", 0.98 / 0.20 - 1, 0.9),  # 3.9
        ("berry", 50, "sun", 0.80 / 0.20 - 1, 0.4),
        ("leaf", 30, "oven", 0.90 / 0.10 - 1, 0.6),  # 8
        ("gourd", 30, "oven", 0.90 / 0.10 - 1, 0.2),  # its own food tells
        ("gourd", 30, "freeze-dryer", 0.98 / 0.10 - 1, 0.9),  # freeze-dried, all alike
        ("stew-meat", 40, "dehydrator", 0.90 / 0.40 - 1, 0.5),
        ("rich-paste", 40, "dehydrator", 0.90 / 0.50 - 1, 1),
    ],
)
def test_auto_water_without_a_batch(
    tmp_path: Path, name: str, amount_g: float, method: str, per_gram: float, takes_up: float
) -> None:
    dish = pot_of(**{name.replace("-", "_"): f"{amount_g} g {method}"})
    trip = day_trip(days=[day({"dinner": [{"cook": "pot-dish"}]})])
    kit = hand(tmp_path, trip, [dish]).kit()
    # The recipe serves one and two eat. A quarter more is poured, at most what was lost.
    lost_ml = 2 * amount_g * per_gram
    meal = meal_of(kit)
    assert meal.soak_water_ml == NEAR(lost_ml * min(1, 1.25 * takes_up), rel=EXACT)
    assert sum(step.taken_up_ml for step in meal.steps) == NEAR(lost_ml * takes_up, rel=EXACT)
    # What stays as broth is drunk with the food.
    own_ml = sum(each.water_ml for each in meal.ingredients)
    assert meal.food_water_ml == NEAR(own_ml + meal.water_ml, rel=EXACT)


def test_auto_water_with_a_batch_and_beside_a_food_that_was_not_dried(tmp_path: Path) -> None:
    batch = {"id": "spring", "food": "pulse", "method": "dehydrator", "done": "2031-01-01",
             "fresh": "1000 g", "dried": "430 g", "packs": {"count": 4}}  # fmt: skip
    dish = pot_of(pulse="80 g dehydrator", leaf="20 g oven", kernel="60 g")
    trip = day_trip(days=[day({"dinner": [{"cook": "pot-dish", "from": {"pulse": "spring"}}]})])
    meal = meal_of(hand(tmp_path, trip, [dish], [batch]).kit())
    pulse_ml = 160 * (1000 / 430 - 1) * 1.25 * 0.7  # as this batch was weighed
    leaf_ml = 40 * (0.90 / 0.10 - 1) * 1.25 * 0.6  # no batch: usual residue
    kernel_ml = 0.0  # never dried by anyone here
    assert meal.soak_water_ml == NEAR(pulse_ml + leaf_ml + kernel_ml, rel=EXACT)


def test_auto_counts_only_what_the_step_names(tmp_path: Path) -> None:
    dish = pot_of("leaf", pulse="80 g dehydrator", leaf="20 g oven")
    dish["steps"][1]["with"] = ["pulse"]
    trip = day_trip(days=[day({"dinner": [{"cook": "pot-dish"}]})])
    assert meal_of(hand(tmp_path, trip, [dish]).kit()).water_ml == NEAR(40 * 8 * 0.75, rel=EXACT)


def test_auto_of_a_bought_food_is_nothing_and_says_so(tmp_path: Path) -> None:
    dish = pot_of(kernel="60 g bought")
    trip = day_trip(days=[day({"dinner": [{"cook": "pot-dish"}]})])
    read = hand(tmp_path, trip, [dish])
    assert read.kinds() == ["auto-water"]
    assert read.problems[0].severity == "warning"
    assert meal_of(read.kit()).water_ml == 0


def test_a_batch_is_used_only_where_it_is_named(tmp_path: Path) -> None:
    batch = {"id": "spring", "food": "pulse", "method": "dehydrator", "done": "2031-01-01",
             "fresh": "1000 g", "dried": "430 g", "packs": {"count": 4}}  # fmt: skip
    dish = pot_of(pulse="80 g dehydrator")
    trip = day_trip(days=[day({"dinner": [{"cook": "pot-dish"}]})])
    kit = hand(tmp_path, trip, [dish], [batch]).kit()
    assert kit.batches == ()
    # Of the 1.25 ml that each gram lost, 0.7 come back, and a quarter more is poured.
    assert meal_of(kit).soak_water_ml == NEAR(160 * 1.25 * 0.875, rel=EXACT)


# -- whole meals dried ------------------------------------------------------------------------


def stew() -> Record:
    """Give a meal that is cooked at home: 420 g of food, 300 ml of water, 40 ml poured away."""
    return {
        "id": "stew",
        "serves": 2,
        "cook_in": "pot",
        "uses": uses(pulse="200 g", kernel="100 g", oil="20 g", leaf="100 g"),
        "steps": [
            {"do": "boil", "with": ["pulse", "kernel", "oil", "leaf"], "water": "300 ml"},
            {"do": "simmer", "minutes": 10},
        ],
        "drain": "40 ml",
    }


# 420 g food + 300 − 40 ml of water
STEW_G = 420 + 260
STEW_WATER_G = 200 * 0.60 + 100 * 0.12 + 0 + 100 * 0.90 + 260  # 482
# leaf lists no energy: 4·2 + 4·(7 − 3) + 2·3 = 30 kcal in 100 g
STEW_KCAL = 200 * 1.60 + 100 * 3.50 + 20 * 9.00 + 100 * 0.30  # 880


def test_a_nested_dried_meal_concentrates_what_went_into_it(tmp_path: Path) -> None:
    dish = {"id": "stew-again", "serves": 1, "cook_in": "pot",
            "uses": [{"recipe": "stew", "amount": "90 g", "dried_by": "dehydrator"}],
            "steps": [{"do": "soak", "with": ["stew"], "water": "auto", "minutes": 15},
                      {"do": "boil"}]}  # fmt: skip
    trip = day_trip(days=[day({"dinner": [{"cook": "stew-again"}]})])
    meal = meal_of(hand(tmp_path, trip, [stew(), dish]).kit())
    w0 = STEW_WATER_G / STEW_G  # 0.70882…
    factor = 0.90 / (1 - w0)  # no batch: 10 % left
    assert meal.mass_g == 180
    assert meal.soak_water_ml == NEAR(180 * (factor - 1), rel=EXACT)
    assert meal.nutrition.energy_kcal == NEAR(STEW_KCAL / STEW_G * factor * 180, rel=EXACT)
    fat_g = 200 * 0.01 + 100 * 0.02 + 20
    assert meal.nutrition.fat_g == NEAR(fat_g / STEW_G * factor * 180, rel=EXACT)
    assert meal.ingredients[0].water_ml == NEAR(18, rel=EXACT)


def test_a_batch_of_a_whole_meal_is_weighed_like_any_other(tmp_path: Path) -> None:
    found = judged(tmp_path / "quiet", food="pulse", fresh="1000 g", dried="430 g")
    assert found.substance.kind == "legume"
    batch = {"id": "stew-july", "recipe": "stew", "method": "freeze-dryer", "done": "2031-01-01",
             "fresh": "1360 g", "dried": "412 g"}  # fmt: skip
    read = hand(tmp_path, recipes=[stew()], batches=[batch])
    assert read.problems == ()
    stew_july = read.stock.judged["stew-july"]
    solids_g = 1360 * (1 - STEW_WATER_G / STEW_G)  # 396 g
    assert solids_g == NEAR(396)
    assert stew_july.residual_share == NEAR(1 - 396 / 412, rel=EXACT)
    assert stew_july.composition.energy_kcal == NEAR(
        STEW_KCAL / STEW_G * 100 * 1360 / 412, rel=EXACT
    )


def test_a_pot_that_was_weighed_when_done_tells_its_water(tmp_path: Path) -> None:
    # 198 g of solids went in: of 600 g in the pot 402 are water, whatever was poured.
    solids_g = STEW_G - STEW_WATER_G
    assert solids_g == NEAR(198)
    batch = {"id": "stew-july", "recipe": "stew", "method": "freeze-dryer", "done": "2031-01-01",
             "fresh": "1200 g", "dried": "412 g"}  # fmt: skip
    read = hand(tmp_path, recipes=[{**stew(), "cooked": "600 g"}], batches=[batch])
    assert read.problems == ()
    found = read.stock.judged["stew-july"]
    assert found.substance.composition.water_g == NEAR(67, rel=EXACT)
    assert found.residual_share == NEAR(1 - 1200 * 198 / 600 / 412, rel=EXACT)
    assert found.composition.energy_kcal == NEAR(STEW_KCAL / 600 * 100 * 1200 / 412, rel=EXACT)


@pytest.mark.parametrize(("cooked", "kinds"), [("199 g", []), ("197 g", ["cooked-too-light"])])
def test_a_pot_cannot_weigh_less_than_what_is_dry_in_it(
    cooked: str, kinds: list[str], tmp_path: Path
) -> None:
    batch = {"id": "stew-july", "recipe": "stew", "method": "freeze-dryer", "done": "2031-01-01",
             "fresh": "199 g", "dried": "198.5 g"}  # fmt: skip
    read = hand(tmp_path, recipes=[{**stew(), "cooked": cooked}], batches=[batch])
    assert [each.kind for each in read.problems if each.severity == "error"] == kinds


# -- keeping ----------------------------------------------------------------------------------


def per_degree(kept_at_c: float) -> float:
    """Give 2^((15.6 − kept_at) / 11.1)."""
    return float(2 ** ((15.6 - kept_at_c) / 11.1))


RAW_HEATED = {"to": "74 degC", "when": "before"}
# food, method, packs' packaging, absorber, months at 15.6 °C; all at 1000 g fresh and dry enough
KEEPING = [
    ("berry", "dehydrator", None, False, {}, 12.0),
    ("leaf", "dehydrator", None, False, {}, 6.0),
    ("pulse", "oven", None, False, {}, 6.0),
    ("mint", "sun", None, False, {}, 6.0),
    ("curd", "dehydrator", None, False, {}, 1 * 0.5),  # 19 g fat in 100 g dried
    ("egg-cooked", "dehydrator", None, False, {}, 1 * 0.5),  # 40 g fat in 100 g dried
    ("lean-meat", "oven", None, False, {}, 1.0),  # cooked meat, lean
    ("stew-meat", "oven", None, False, {}, 1 * 0.5),  # 16.6 g fat in 100 g dried
    ("lean-meat", "dehydrator", None, False, {"style": "jerky"}, 0.5),
    ("steak-raw", "dehydrator", None, False, {"style": "jerky", "heated": RAW_HEATED}, 0.5),
    ("steak-raw", "dehydrator", None, False, {"heated": RAW_HEATED}, 1.0),
    ("trout-cooked", "dehydrator", None, False, {}, 1.0),
    ("rich-paste", "dehydrator", None, False, {}, 6 * 0.5),  # fat 37 g
    # A bag halves; fat and a bag halve once together.
    ("berry", "dehydrator", "zip", False, {}, 12 * 0.5),
    ("leaf", "dehydrator", "paper", False, {}, 6 * 0.5),
    ("rich-paste", "dehydrator", "zip", False, {}, 6 * 0.5),
    ("oily-nut", "oven", "foil", False, {}, 3.0),  # the months of nuts count their fat
    ("oily-nut", "oven", "zip", False, {}, 3 * 0.5),
    # A food's own months, where it is not freeze-dried for long.
    ("soft-fruit", "dehydrator", "foil", False, {}, 4.0),
    ("soft-fruit", "dehydrator", "zip", False, {}, 4 * 0.5),
    ("soft-fruit", "freeze-dryer", "foil", False, {}, 4.0),
    ("soft-fruit", "freeze-dryer", "foil", True, {"constant": True}, 120.0),
    # Raw egg, freeze-dried: to be cooked through, and kept like raw meat; fat 40 g.
    ("egg-raw", "freeze-dryer", "foil", True, {"constant": True}, 12 * 0.5),
    ("leaf", "dehydrator", "foil", False, {}, 6.0),
    ("leaf", "dehydrator", "jar", False, {}, 6.0),
    # Freeze-dried, but not in foil, glass or can with an absorber: as its kind.
    ("berry", "freeze-dryer", "foil", False, {}, 12.0),
    ("berry", "freeze-dryer", "zip", True, {}, 12 * 0.5),
    ("pulse", "freeze-dryer", "vacuum", True, {"constant": True}, 6.0),
    # Freeze-dried as it should be, and proven dry.
    ("berry", "freeze-dryer", "foil", True, {"constant": True}, 120.0),
    ("pulse", "freeze-dryer", "jar", True, {"constant": True}, 120.0),
    ("leaf", "freeze-dryer", "tin", True, {"constant": True}, 120.0),
    ("lean-meat", "freeze-dryer", "foil", True, {"constant": True}, 36.0),
    ("trout-cooked", "freeze-dryer", "foil", True, {"constant": True}, 36.0),
    ("stew-meat", "freeze-dryer", "foil", True, {"constant": True}, 36 * 0.5),  # fat 17 g
    ("steak-raw", "freeze-dryer", "foil", True, {"constant": True}, 12.0),
    ("mince-raw", "freeze-dryer", "foil", True, {"constant": True}, 12 * 0.5),  # fat 23 g
    ("rich-paste", "freeze-dryer", "foil", True, {"constant": True}, 12 * 0.5),  # fat 39 g
    # The same, not proven dry: 12 months and no more.
    ("berry", "freeze-dryer", "foil", True, {}, 12.0),
    ("lean-meat", "freeze-dryer", "foil", True, {}, 12.0),
]
WATER = {"berry": 80, "leaf": 90, "pulse": 60, "mint": 80, "curd": 75, "egg-cooked": 76,
         "egg-raw": 76, "stew-meat": 60, "lean-meat": 68, "steak-raw": 74, "trout-cooked": 70,
         "trout-raw": 76, "rich-paste": 50, "mince-raw": 70, "kernel-nut": 5,
         "oily-nut": 40, "soft-fruit": 80,
         "hen-raw": 74, "deer-raw": 74, "hard-cheese": 40}  # fmt: skip


def dry_batch(
    name: str, method: str, packaging: str | None, absorber: bool, residue: float = 0.04
) -> Record:
    """Give a batch of 1000 g fresh with 4 % moisture left."""
    dried_g = 1000 * (1 - WATER[name] / 100) / (1 - residue)
    batch: Record = {"food": name, "method": method, "fresh": "1000 g", "dried": f"{dried_g:.6f} g"}
    if packaging or absorber:
        batch["packs"] = {"count": 4, "in": packaging, "absorber": absorber}
    return batch


@pytest.mark.parametrize(("name", "method", "packaging", "absorber", "more", "months"), KEEPING)
def test_months_of_each_group(
    tmp_path: Path,
    name: str,
    method: str,
    packaging: str | None,
    absorber: bool,
    more: Record,
    months: float,
) -> None:
    batch = {**dry_batch(name, method, packaging, absorber), **more}
    at_table = judged(tmp_path / "table", **batch, kept_at="15.6 degC")
    assert at_table.months == NEAR(months, rel=EXACT)
    cooler = judged(tmp_path / "cool", **batch, kept_at="5 degC")
    assert cooler.months == NEAR(months, rel=EXACT)  # never more than the table
    warm = judged(tmp_path / "warm", **batch, kept_at="30 degC").months
    whole = 120 if months == 12 and "constant" not in more and absorber else months
    if name == "lean-meat" and not more and absorber:
        whole = 36
    # What is not proven dry is held to 12 months after the warmth is counted, not before.
    expected = whole * per_degree(30)
    assert warm == NEAR(min(expected, 12) if whole != months else expected, rel=EXACT)


def test_only_frozen_food_keeps_longer_than_the_table(tmp_path: Path) -> None:
    batch = dry_batch("lean-meat", "oven", "foil", False)
    just_not = judged(tmp_path / "a", **batch, kept_at="-17.9 degC")
    assert just_not.months == NEAR(1.0, rel=EXACT)
    frozen = judged(tmp_path / "b", **batch, kept_at="-18 degC")
    assert frozen.months == NEAR(per_degree(-18), rel=EXACT)  # 8.15 months
    colder = judged(tmp_path / "c", **batch, kept_at="-20 degC")
    assert colder.months == NEAR(per_degree(-20), rel=EXACT)


def test_frozen_for_more_than_a_year_wants_proof(tmp_path: Path) -> None:
    batch = dry_batch("berry", "dehydrator", "foil", False)
    unproven = judged(tmp_path / "a", **batch, kept_at="-18 degC")
    assert unproven.months == 12
    assert unproven.wants_proof
    proven = judged(tmp_path / "b", **batch, kept_at="-18 degC", constant=True)
    assert proven.months == NEAR(12 * per_degree(-18), rel=EXACT)
    assert not proven.wants_proof


@pytest.mark.parametrize(
    ("packaging", "absorber", "wants"),
    [
        ("foil", False, False),
        ("foil", True, True),
        ("vacuum", False, True),
        ("zip", False, False),
        ("jar", False, False),
    ],
)
def test_absorber_and_vacuum_want_proof(
    tmp_path: Path, packaging: str, absorber: bool, wants: bool
) -> None:
    found = judged(tmp_path, **dry_batch("leaf", "dehydrator", packaging, absorber))
    assert found.wants_proof is wants


def test_a_freeze_dried_batch_too_wet_for_it_keeps_as_its_kind(tmp_path: Path) -> None:
    batch = dry_batch("berry", "freeze-dryer", "foil", True, residue=0.06)
    found = judged(tmp_path, **batch, constant=True, kept_at="15.6 degC")
    assert not found.dry_enough
    assert found.months == NEAR(12, rel=EXACT)


def test_best_before_is_so_many_months_after_the_day_it_was_dried(tmp_path: Path) -> None:
    berry = dry_batch("berry", "dehydrator", "foil", False)
    found = judged(tmp_path / "a", **berry, kept_at="15.6 degC", done="2031-03-14")
    assert found.best_before == datetime.date(2032, 3, 14)
    jerky = {**dry_batch("lean-meat", "oven", None, False), "style": "jerky"}
    half = judged(tmp_path / "b", **jerky, kept_at="15.6 degC", done="2031-03-14")
    # Half a month of 30.4375 days, whole days only.
    assert half.best_before == datetime.date(2031, 3, 29)
    leaf = dry_batch("leaf", "dehydrator", None, False)
    usual = judged(tmp_path / "c", **leaf, done="2031-03-14")  # 20 °C unless told
    months = 6 * per_degree(20)  # 4.5586: to 14 July, and 17.003 days
    assert months == NEAR(4.5586, abs=1e-4)
    assert usual.best_before == datetime.date(2031, 7, 31)


@pytest.mark.parametrize(
    ("name", "method", "more"),
    [
        ("egg-raw", "dehydrator", {}),
        ("egg-raw", "oven", {}),
        ("hen-raw", "dehydrator", {}),
        ("mince-raw", "oven", {}),
        ("lean-meat", "sun", {}),
        ("trout-cooked", "sun", {}),
        ("steak-raw", "sun", {"heated": RAW_HEATED}),
    ],
)
def test_what_gets_no_best_before(tmp_path: Path, name: str, method: str, more: Record) -> None:
    found = judged(tmp_path, **dry_batch(name, method, None, False), **more)
    assert found.best_before is None
    assert found.months is None


@pytest.mark.parametrize(("name", "method"), [("egg-raw", "oven"), ("lean-meat", "sun")])
def test_no_date_of_ones_own_makes_such_food_keep(tmp_path: Path, name: str, method: str) -> None:
    found = judged(tmp_path, **dry_batch(name, method, None, False), best_before="2035-01-01")
    assert found.best_before is None


def test_a_date_of_ones_own_may_shorten_and_not_lengthen(tmp_path: Path) -> None:
    berry = dry_batch("berry", "dehydrator", "foil", False)
    common = {**berry, "kept_at": "15.6 degC", "done": "2031-03-14"}
    longer = judged(tmp_path / "a", **common, best_before="2040-01-01")
    assert longer.best_before == datetime.date(2032, 3, 14)
    shorter = judged(tmp_path / "b", **common, best_before="2031-09-01")
    assert shorter.best_before == datetime.date(2031, 9, 1)


def test_egg_cooked_before_it_was_dried_gets_a_date(tmp_path: Path) -> None:
    found = judged(tmp_path, **dry_batch("egg-raw", "dehydrator", None, False), heated=RAW_HEATED)
    assert found.months is not None


@pytest.mark.parametrize(
    ("name", "heated", "raw"),
    [
        ("steak-raw", None, True),
        ("steak-raw", {"to": "71 degC", "when": "before"}, False),
        ("steak-raw", {"to": "70.9 degC", "when": "before"}, True),
        ("steak-raw", {"to": "74 degC", "when": "after"}, True),
        ("steak-raw", {"to": "135 degC", "when": "after"}, True),  # for how long?
        ("steak-raw", {"to": "135 degC", "when": "after", "minutes": 9.9}, True),
        ("steak-raw", {"to": "134.9 degC", "when": "after", "minutes": 30}, True),
        ("steak-raw", {"to": "135 degC", "when": "after", "minutes": 10}, False),
        ("hen-raw", {"to": "135 degC", "when": "after", "minutes": 10}, False),
        ("egg-raw", {"to": "135 degC", "when": "after", "minutes": 10}, True),  # meat alone
        ("hen-raw", {"to": "164.9 degF", "when": "before"}, True),
        ("hen-raw", {"to": "73 degC", "when": "before"}, True),
        ("hen-raw", {"to": "165 degF", "when": "before"}, False),
        ("hen-raw", {"to": "74 degC", "when": "before"}, False),
        ("deer-raw", {"to": "164.9 degF", "when": "before"}, True),
        ("deer-raw", {"to": "165 degF", "when": "before"}, False),
        ("trout-raw", {"to": "71 degC", "when": "before"}, False),
        ("lean-meat", None, False),
    ],
)
def test_raw_meat_stays_raw_unless_heated_through_before(
    tmp_path: Path, name: str, heated: Record | None, raw: bool
) -> None:
    batch = {**dry_batch(name, "dehydrator", None, False), "heated": heated}
    read = hand(tmp_path, batches=[{"id": "batch", "done": "2031-01-01", **batch}])
    assert read.stock.judged["batch"].stays_raw is raw
    assert (read.kinds() == ["heat-step"]) is (raw and heated is not None)


def test_a_formula_that_refuses_a_batch_names_it(tmp_path: Path) -> None:
    soup = [
        {
            "id": "broth",
            "name": "Broth",
            "kind": "other",
            "state": "cooked",
            "per_100g": {"water": "99 g", "carbohydrate": "1 g"},
        }
    ]
    batch = {"id": "thin", "food": "broth", "method": "oven", "done": "2031-01-01",
             "fresh": "1000 g", "dried": "30 g"}  # fmt: skip
    read = hand(tmp_path, batches=[batch], foods=soup)
    assert read.kinds() == ["out-of-range"]
    assert "thin" in read.problems[0].says
    with pytest.raises(ProblemsFound):
        raise ProblemsFound(read.problems)
