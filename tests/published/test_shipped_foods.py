"""Shipped foods against rows of the table they were taken from, retyped here.

USDA National Nutrient Database for Standard Reference, release 28 (read in a copy, public domain).
"""

from __future__ import annotations

import re
from collections import defaultdict

import pytest

from builder.formulas.heat_drying import HOURS
from builder.formulas.nutrition import energy_kcal
from builder.model.food import FLESH_KINDS, Food
from builder.reading.folder import Layer, read_folder
from tests.reading.folder_builder import SHIPPED

# Id, number in the table; water, kcal, protein, fat, carbohydrate, fibre, mg of sodium, ash.
_ROWS: tuple[tuple[str, str, tuple[float, ...]], ...] = (
    ("apple-raw", "09003", (85.56, 52, 0.26, 0.17, 13.81, 2.4, 1, 0.19)),
    ("nectarine-raw", "09191", (87.59, 44, 1.06, 0.32, 10.55, 1.7, 0, 0.48)),
    ("dates", "09087", (20.53, 282, 2.45, 0.39, 75.03, 8.0, 2, 1.60)),
    ("beetroot-raw", "11080", (87.58, 43, 1.61, 0.17, 9.56, 2.8, 78, 1.08)),
    ("kale-boiled", "11234", (91.20, 28, 1.90, 0.40, 5.63, 2.0, 23, 0.87)),
    ("aubergine-raw", "11209", (92.30, 25, 0.98, 0.18, 5.88, 3.0, 2, 0.66)),
    ("peas-canned", "11308", (82.29, 68, 4.47, 0.80, 11.36, 4.9, 273, 1.09)),
    ("oyster-mushroom-raw", "11987", (89.18, 33, 3.31, 0.41, 6.09, 2.3, 18, 1.01)),
    ("celery-flakes", "44055", (9.00, 319, 11.30, 2.10, 63.70, 27.8, 1435, 13.90)),
    ("white-beans-dry", "16049", (11.32, 333, 23.36, 0.85, 60.27, 15.2, 16, 4.20)),
    ("pinto-beans-cooked", "16043", (62.95, 143, 9.01, 0.65, 26.22, 9.0, 1, 1.17)),
    ("red-lentils-dry", "16144", (7.82, 358, 23.91, 2.17, 63.10, 10.8, 7, 3.00)),
    ("teff-dry", "20142", (8.82, 367, 13.30, 2.38, 73.13, 8.0, 12, 2.37)),
    ("buckwheat-groats-dry", "20009", (8.41, 346, 11.73, 2.71, 74.95, 10.3, 11, 2.20)),
    ("sorghum-dry", "20067", (12.40, 329, 10.62, 3.46, 72.09, 6.7, 2, 1.43)),
    ("pasta-maize-dry", "20091", (10.00, 357, 7.46, 2.08, 79.26, 11.0, 3, 1.20)),
    ("couscous-dry", "20028", (8.56, 376, 12.76, 0.64, 77.43, 5.0, 10, 0.62)),
    ("bread-pita", "18413", (32.10, 275, 9.10, 1.20, 55.70, 2.2, 536, 1.90)),
    ("crackers-soda", "18228", (5.05, 418, 9.46, 8.64, 74.05, 2.8, 941, 2.79)),
    ("bar-oat-hard", "19015", (3.90, 471, 10.10, 19.80, 64.40, 5.3, 294, 1.90)),
    ("cashews", "12087", (5.20, 553, 18.22, 43.85, 30.19, 3.3, 12, 2.54)),
    ("tahini", "12166", (3.05, 595, 17.00, 53.76, 21.19, 9.3, 115, 5.00)),
    ("beef-topside-raw", "23609", (75.02, 135, 22.91, 4.09, 0.00, 0.0, 61, 1.13)),
    ("beef-mince-20-cooked", "23575", (54.54, 272, 27.00, 17.36, 0.00, 0.0, 91, 1.16)),
    ("pork-fillet-raw", "10060", (76.00, 109, 20.95, 2.17, 0.00, 0.0, 53, 1.03)),
    ("lamb-leg-raw", "17017", (74.44, 125, 20.52, 4.19, 0.00, 0.0, 61, 1.08)),
    ("venison-raw", "17164", (73.57, 120, 22.96, 2.42, 0.00, 0.0, 51, 1.16)),
    ("turkey-breast-raw", "05710", (74.66, 114, 23.34, 2.33, 0.00, 0.0, 74, 1.06)),
    ("turkey-mince-lean-cooked", "05666", (61.05, 213, 27.10, 11.60, 0.00, 0.0, 90, 1.27)),
    ("chicken-thigh-roasted", "05098", (67.00, 179, 24.76, 8.15, 0.00, 0.0, 106, 1.04)),
    ("trout-raw", "15240", (73.80, 141, 19.94, 6.18, 0.00, 0.0, 51, 1.21)),
    ("mussels-cooked", "15165", (61.15, 172, 23.80, 4.48, 7.39, 0.0, 369, 3.18)),
    ("salmon-canned", "15260", (70.71, 138, 23.10, 5.02, 0.00, 0.0, 381, 2.50)),
    ("egg-yolk-powder", "01137", (3.08, 669, 33.63, 59.13, 0.66, 0.0, 149, 3.51)),
    ("buttermilk-powder", "01094", (2.97, 387, 34.30, 5.78, 49.00, 0.0, 517, 7.95)),
    ("gruyere", "01023", (33.19, 413, 29.81, 32.34, 0.36, 0.0, 714, 4.30)),
    ("feta", "01019", (55.22, 264, 14.21, 21.28, 4.09, 0.0, 917, 5.20)),
    ("maple-syrup", "19353", (32.39, 260, 0.04, 0.06, 67.04, 0.0, 12, 0.47)),
    ("milk-chocolate", "19120", (1.50, 535, 7.65, 29.66, 59.40, 3.4, 79, 1.78)),
    ("soy-sauce", "16123", (71.15, 53, 8.14, 0.57, 4.93, 0.8, 5493, 15.21)),
    ("pesto", "06627", (43.08, 426, 5.00, 42.42, 6.14, 1.7, 998, 3.35)),
    ("turmeric", "02043", (12.85, 312, 9.68, 3.25, 67.14, 22.7, 27, 7.08)),
    ("beer", "14003", (91.96, 43, 0.46, 0.00, 3.55, 0.0, 4, 0.16)),
)

# Id, samples of water, their standard deviation in points.
_SAMPLES: tuple[tuple[str, int, float], ...] = (
    ("apple-raw", 38, 1.49), ("beetroot-raw", 21, 3.31), ("parsnip-raw", 6, 3.78),
    ("swede-raw", 8, 0.94), ("turnip-raw", 5, 0.54), ("radish-raw", 21, 1.04),
    ("potato-boiled", 6, 2.75), ("onion-fried", 4, 2.24), ("kale-raw", 6, 1.09),
    ("cabbage-boiled", 6, 1.19), ("red-cabbage-raw", 5, 0.73), ("cauliflower-raw", 36, 1.45),
    ("broccoli-raw", 49, 7.25), ("asparagus-boiled", 4, 0.28), ("spinach-boiled", 19, 0.97),
    ("green-beans-boiled", 6, 2.8), ("peas-boiled", 14, 3.74), ("chilli-red-raw", 7, 3.38),
    ("sweetcorn-raw", 103, 8.76), ("courgette-raw", 18, 0.34), ("mango-raw", 299, 8.27),
    ("cranberry-raw", 5, 0.41), ("pinto-beans-cooked", 13, 1.72), ("couscous-cooked", 7, 0.41),
    ("rice-noodles-cooked", 3, 1.92), ("beef-mince-raw", 107, 2.24),
    ("beef-mince-cooked", 107, 4.37), ("pork-mince-raw", 12, 4.07), ("turkey-breast-raw", 3, 0.42),
    ("turkey-breast-roasted", 3, 1.82), ("chicken-thigh-raw", 7, 0.24), ("venison-raw", 44, 1.25),
    ("trout-raw", 8, 2.66), ("mackerel-raw", 142, 7.83), ("gruyere", 12, 2.07), ("feta", 23, 5.4),
    ("mozzarella", 6, 0.29), ("yoghurt-low-fat", 28, 1.61), ("milk-skimmed", 12, 0.11),
)  # fmt: skip

# Percent peeled, stoned, boned away of what one buys.
_REFUSE: tuple[tuple[str, float], ...] = (
    ("apple-raw", 10), ("apricot-raw", 7), ("banana-raw", 36), ("mango-raw", 29),
    ("pineapple-raw", 49), ("lemon-raw", 47), ("kiwi-raw", 24), ("dates", 10), ("potato-raw", 25),
    ("leek-raw", 56), ("cauliflower-raw", 61), ("kohlrabi-raw", 54), ("sweetcorn-raw", 64),
    ("peas-raw", 62), ("pumpkin-raw", 30), ("butternut-raw", 16), ("basil-raw", 36),
    ("thyme-raw", 32), ("egg-raw", 12), ("turkey-meat-raw", 41), ("lamb-leg-raw", 31),
)  # fmt: skip

# Milligrams of caffeine in 100 g.
_CAFFEINE: tuple[tuple[str, float], ...] = (
    ("coffee-brewed", 40), ("black-tea-brewed", 20), ("green-tea-brewed", 12),
    ("instant-coffee", 3142), ("cocoa-powder", 230), ("cola", 9),
    ("milk-chocolate", 20), ("chocolate-45", 43), ("chocolate-70", 80), ("nut-spread", 7),
)  # fmt: skip

# Hours in warm air, the longest of the tables of So Easy to Preserve (quoted from memory) and of
# a copy that agrees with them.
_HOURS: tuple[tuple[str, float], ...] = (
    ("asparagus-raw", 6), ("aubergine-raw", 14), ("cauliflower-raw", 15), ("okra-raw", 10),
    ("green-beans-raw", 14), ("celery-boiled", 16), ("red-cabbage-raw", 12), ("kale-raw", 10),
    ("yellow-pepper-raw", 12), ("oyster-mushroom-raw", 10), ("shallot-raw", 10),
    ("blackberry-raw", 36), ("sweet-cherry-raw", 36), ("fig-raw", 12), ("grape-raw", 48),
    ("persimmon-raw", 18), ("strawberry-raw", 12), ("peppermint-raw", 4),
)  # fmt: skip

# Grams in a US cup, tablespoon or teaspoon, retyped from the household measures of the table.
_CUP, _TABLESPOON, _TEASPOON = 236.588, 14.787, 4.929
_MEASURED: tuple[tuple[str, float, float], ...] = (
    ("rapeseed-oil", 218, _CUP), ("peanut-oil", 216, _CUP), ("ghee", 205, _CUP),
    ("milk-whole", 244, _CUP), ("milk-powder-instant", 68, _CUP), ("egg-white-powder", 107, _CUP),
    ("wheat-flour-whole", 120, _CUP), ("rice-flour", 158, _CUP), ("maize-starch", 128, _CUP),
    ("rice-instant-dry", 95, _CUP), ("bulgur-dry", 140, _CUP), ("quinoa-dry", 170, _CUP),
    ("barley-pearl-dry", 200, _CUP), ("chickpeas-dry", 200, _CUP), ("red-lentils-dry", 192, _CUP),
    ("walnuts", 100, _CUP), ("sunflower-seeds", 128, _CUP), ("linseed", 168, _CUP),
    ("sultanas", 145, _CUP), ("dates", 147, _CUP), ("tomato-paste", 262, _CUP),
    ("salt", 292, _CUP), ("wine-vinegar", 239, _CUP), ("honey", 339, _CUP),
    ("maple-syrup", 315, _CUP), ("cocoa-powder", 86, _CUP), ("sugar-icing", 120, _CUP),
    ("ketchup", 17, _TABLESPOON), ("paprika", 6.8, _TABLESPOON), ("cinnamon", 7.8, _TABLESPOON),
    ("oregano-dried", 1.0, _TEASPOON), ("instant-coffee", 1.0, _TEASPOON),
)  # fmt: skip

# Grams in a US cup by a chart of baking ingredients, as cooking programs carry it (read in a copy),
# where it knows the same food just as loosely filled. It rounds liquids to 8 ounces a cup.
_BY_ANOTHER_CHART: tuple[tuple[str, float], ...] = (
    ("agave-syrup", 336), ("almonds", 142), ("apple-dried", 85), ("apricot-dried", 128),
    ("barley-pearl-dry", 213), ("buckwheat-dry", 170), ("buckwheat-flour", 120), ("butter", 226),
    ("chickpea-flour", 85), ("cocoa-powder", 84), ("coconut-milk-canned", 241),
    ("coconut-oil", 226), ("coconut-sweetened", 85), ("cornmeal-dry", 156), ("cream-cheese", 227),
    ("currants-dried", 142), ("dates", 149), ("fig-dried", 149), ("granola", 113),
    ("hazelnuts", 142), ("honey", 336), ("jam", 340), ("malt-syrup", 336), ("maple-syrup", 312),
    ("mayonnaise", 226), ("milk-condensed-canned", 312), ("milk-powder-skimmed", 112),
    ("millet-dry", 206), ("molasses", 340), ("nut-spread", 298), ("parmesan", 100),
    ("peanut-butter", 270), ("peanuts", 142), ("pecans", 105), ("pine-nuts", 142),
    ("pistachios", 120), ("poppy-seeds", 144), ("quinoa-dry", 177), ("raisins", 149),
    ("rice-dry", 198), ("rye-flour-medium", 106), ("salt", 288), ("semolina-dry", 163),
    ("sesame-seeds", 142), ("sugar", 198), ("sugar-icing", 113.5), ("sunflower-seeds-raw", 140),
    ("wheat-bran", 64), ("wheat-flour", 120), ("wheat-flour-whole", 113), ("wheat-germ", 112),
    ("wheat-grain-dry", 184),
)  # fmt: skip

# g/ml of liquids near 20 °C, from handbooks (quoted from memory); vegetable oils as the Codex
# standard for named oils gives them, the middle of its range.
_OF_LIQUIDS: tuple[tuple[str, float], ...] = (
    ("olive-oil", 0.913), ("rapeseed-oil", 0.917), ("sunflower-oil", 0.921), ("maize-oil", 0.921),
    ("soybean-oil", 0.922), ("peanut-oil", 0.915), ("sesame-oil", 0.920), ("milk-whole", 1.030),
    ("milk-skimmed", 1.035), ("milk-evaporated-canned", 1.066), ("milk-condensed-canned", 1.29),
    ("egg-raw", 1.03), ("honey", 1.42), ("maple-syrup", 1.32), ("wine-vinegar", 1.01),
    ("orange-juice", 1.045), ("apple-juice", 1.045),
)  # fmt: skip

# `density: 0.921 g/ml  # 218 g a US cup …` of the lists of foods.
_TOLD_DENSITY = re.compile(
    r"\n  density: (?P<density>[\d.]+) g/ml"
    r"  # (?P<grams>[\d.]+) g a (?P<measure>US cup|tablespoon|teaspoon)"
)
_MEASURES_ML = {"US cup": _CUP, "tablespoon": _TABLESPOON, "teaspoon": _TEASPOON}

# g/ml of what food is made of, without air in it (Choi and Okos, quoted from memory).
_WATER, _PROTEIN, _FAT, _CARBOHYDRATE = 1.0, 1.33, 0.92, 1.6
_FIBRE, _ASH, _ALCOHOL = 1.31, 2.4, 0.79

# Two foods of one row: the same thing whole and in pieces.
_ONE_ROW = {("12120", "ready"): {"hazelnuts", "hazelnuts-chopped"}}


@pytest.fixture(scope="module")
def foods() -> dict[str, Food]:
    return dict(read_folder([Layer(SHIPPED, "content", ("foods", "sources.yaml"))]).content.foods)


@pytest.mark.parametrize(("name", "ndb", "row"), _ROWS, ids=[row[0] for row in _ROWS])
def test_figures_are_those_of_the_table(
    name: str, ndb: str, row: tuple[float, ...], foods: dict[str, Food]
) -> None:
    food = foods[name]
    of = food.per_100g
    assert (food.ndb, food.source) == (ndb, "usda-sr28")
    assert (
        of.water_g,
        of.energy_kcal,
        of.protein_g,
        of.fat_g,
        of.carbohydrate_g,
        of.fibre_g,
        of.sodium_mg,
        of.ash_g,
    ) == row


def test_most_foods_stand_in_the_table(foods: dict[str, Food]) -> None:
    listed = [food for food in foods.values() if food.ndb]
    assert len(listed) >= 450
    assert all(food.source == "usda-sr28" and len(food.ndb or "") == 5 for food in listed)
    assert all(food.source == "label-typical" for food in foods.values() if not food.ndb)


def test_no_row_stands_twice(foods: dict[str, Food]) -> None:
    by_row: dict[tuple[str, str], set[str]] = defaultdict(set)
    for name, food in foods.items():
        if food.ndb:
            by_row[food.ndb, food.state].add(name)
    assert {row: names for row, names in by_row.items() if len(names) > 1} == _ONE_ROW
    assert len({food.name for food in foods.values()}) == len(foods)


def _told_points(samples: int, points: float) -> float | None:
    """Give the spread that samples vouch for: not mixed ones, nor a narrow one of a few."""
    enough = 12 if points < 0.5 else 6 if points < 1.5 else 3
    return points if samples >= enough and points <= 4 else None


@pytest.mark.parametrize(("name", "samples", "points"), _SAMPLES, ids=[row[0] for row in _SAMPLES])
def test_spread_is_told_where_samples_vouch_for_it(
    name: str, samples: int, points: float, foods: dict[str, Food]
) -> None:
    told = _told_points(samples, points)
    share = foods[name].spread_share
    assert share == (None if told is None else pytest.approx(told / 100))


def test_no_spread_is_told_of_what_is_dry_already(foods: dict[str, Food]) -> None:
    dry = [name for name, food in foods.items() if food.spread_share and food.state == "dried"]
    assert dry == []
    assert all(0.001 <= (food.spread_share or 0.01) <= 0.04 for food in foods.values())


@pytest.mark.parametrize(("name", "mass_mg"), _CAFFEINE)
def test_caffeine_is_that_of_the_table(name: str, mass_mg: float, foods: dict[str, Food]) -> None:
    assert foods[name].per_100g.caffeine_mg == mass_mg


@pytest.mark.parametrize(("name", "percent"), _REFUSE)
def test_refuse_is_that_of_the_table(name: str, percent: float, foods: dict[str, Food]) -> None:
    assert foods[name].refuse_share == pytest.approx(percent / 100)


def test_what_is_bought_ready_to_use_has_no_refuse(foods: dict[str, Food]) -> None:
    for name in ("almonds", "prunes", "tuna-canned", "beef-mince-raw", "chicken-breast-raw"):
        assert foods[name].refuse_share is None


@pytest.mark.parametrize(("name", "hours"), _HOURS)
def test_hours_are_the_longest_of_the_drying_tables(
    name: str, hours: float, foods: dict[str, Food]
) -> None:
    assert foods[name].dryer_hours == hours


def test_hours_and_the_guide_to_drying_agree(foods: dict[str, Food]) -> None:
    for name, food in foods.items():
        if food.dry_as and food.dryer_hours:
            assert food.dryer_hours == HOURS[food.dry_as][1], name


def test_parts_add_up_and_give_the_energy(foods: dict[str, Food]) -> None:
    """Atwater's factors leave out what is thrown away, and count fibre anywhere from 0 to 4."""
    for name, food in foods.items():
        of = food.per_100g
        parts_g = of.water_g + of.protein_g + of.fat_g + of.carbohydrate_g + of.alcohol_g
        assert 90 <= parts_g + of.ash_g <= 104, name
        if name in ("black-tea", "fruit-tea", "cream-of-tartar"):  # leaves; an acid
            continue
        given = energy_kcal(of.protein_g, of.fat_g, of.carbohydrate_g, of.fibre_g, of.alcohol_g)
        off = 25 + 0.25 * given + 2 * of.fibre_g
        assert of.energy_kcal == pytest.approx(given, abs=off), name


def test_flesh_tells_how_it_was_cut(foods: dict[str, Food]) -> None:
    untold = {
        name for name, food in foods.items() if food.kinds & FLESH_KINDS and food.state == "raw"
    }
    assert {name for name in untold if foods[name].cut is None} == set()


@pytest.mark.parametrize(("name", "grams", "of_ml"), _MEASURED, ids=[row[0] for row in _MEASURED])
def test_density_is_that_of_the_household_measure(
    name: str, grams: float, of_ml: float, foods: dict[str, Food]
) -> None:
    assert foods[name].density_g_ml == pytest.approx(grams / of_ml, abs=0.0006)


def test_each_density_follows_from_the_weight_told_beside_it(foods: dict[str, Food]) -> None:
    texts = [path.read_text(encoding="utf-8") for path in (SHIPPED / "foods").iterdir()]
    told = [each for text in texts for each in _TOLD_DENSITY.finditer(text)]
    assert len(told) == sum(food.density_g_ml is not None for food in foods.values())
    for each in told:
        weighed = float(each["grams"]) / _MEASURES_ML[each["measure"]]
        assert float(each["density"]) == pytest.approx(weighed, abs=0.0006), each[0]


@pytest.mark.parametrize(("name", "grams"), _BY_ANOTHER_CHART)
def test_another_chart_of_cups_gives_about_the_same(
    name: str, grams: float, foods: dict[str, Food]
) -> None:
    """A tenth lies between two ways to fill a cup with flour."""
    assert foods[name].density_g_ml == pytest.approx(grams / _CUP, rel=0.1)


@pytest.mark.parametrize(("name", "density"), _OF_LIQUIDS)
def test_a_liquid_is_as_dense_as_handbooks_say(
    name: str, density: float, foods: dict[str, Food]
) -> None:
    assert foods[name].density_g_ml == pytest.approx(density, rel=0.012)


def test_no_cup_holds_more_than_its_food_without_air(foods: dict[str, Food]) -> None:
    """Brine is denser than its parts by up to 5 %; loose food is lighter by the air in it."""
    for name, food in foods.items():
        of = food.per_100g
        starch_g = of.carbohydrate_g - of.fibre_g
        parts = (
            (of.water_g, _WATER), (of.protein_g, _PROTEIN), (of.fat_g, _FAT),
            (starch_g, _CARBOHYDRATE), (of.fibre_g, _FIBRE), (of.ash_g, _ASH),
            (of.alcohol_g, _ALCOHOL),
        )  # fmt: skip
        solid_g_ml = sum(g for g, _ in parts) / sum(g / g_ml for g, g_ml in parts)
        assert (food.density_g_ml or 0) <= 1.05 * solid_g_ml, name


def test_every_food_stands_on_one_of_a_few_shelves(foods: dict[str, Food]) -> None:
    assert {food.shelf for food in foods.values()} == {
        "fruit and vegetables",
        "dried fruit, nuts and seeds",
        "dry goods",
        "baking",
        "bread",
        "tins and jars",
        "oils, sauces and seasoning",
        "herbs and spices",
        "snacks and sweets",
        "coffee, tea and cocoa",
        "dairy and eggs",
        "meat and fish",
    }
