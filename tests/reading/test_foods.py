# ruff: noqa: E501 - the lines that people read stand whole
"""Foods and their composition."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from builder.model.food import Composition, Food
from tests.reading.folder_builder import GOOD, Spoilt, lines, read, told

FILE = "foods/mine.yaml"
PLUMS = """\
- id: plums
  name: Plums
  kind: fruit
  state: raw
  per_100g: {water: 87 g, energy: 46 kcal, protein: 0.7 g, carbohydrate: 11.4 g, fibre: 1.4 g}
"""

SPOILT = (
    Spoilt(
        "no name",
        "foods/mine.yaml",
        (("  name: Plums\n", ""),),
        ("foods/mine.yaml:1:3: error: this food has no `name` — write `name: …` [missing]",),
    ),
    Spoilt(
        "kind misspelt",
        "foods/mine.yaml",
        (("kind: fruit", "kind: friut"),),
        (
            "foods/mine.yaml:3:9: error: kind cannot be 'friut' — did you mean fruit? [word-unknown]",
        ),
    ),
    Spoilt(
        "kind of no kind",
        "foods/mine.yaml",
        (("kind: fruit", "kind: quux"),),
        (
            "foods/mine.yaml:3:9: error: kind cannot be 'quux' — known are: dairy, drink, egg, fat, fish, fruit, grain, herb, legume, meal, meat, nut, other, poultry, sugar, vegetable [word-unknown]",
        ),
    ),
    Spoilt(
        "state missing",
        "foods/mine.yaml",
        (("  state: raw\n", ""),),
        ("foods/mine.yaml:1:3: error: this food has no `state` — write `state: raw` [missing]",),
    ),
    Spoilt(
        "no composition",
        "foods/mine.yaml",
        (
            (
                "  per_100g: {water: 87 g, energy: 46 kcal, protein: 0.7 g, carbohydrate: 11.4 g, fibre: 1.4 g}\n",
                "",
            ),
        ),
        (
            "foods/mine.yaml:1:3: error: this food has no `per_100g` — write `per_100g: {water: 66 g, protein: 9 g, …}` [missing]",
        ),
    ),
    Spoilt(
        "composition a text",
        "foods/mine.yaml",
        (
            (
                "{water: 87 g, energy: 46 kcal, protein: 0.7 g, carbohydrate: 11.4 g, fibre: 1.4 g}",
                "mostly water",
            ),
        ),
        (
            "foods/mine.yaml:5:13: error: a composition is written as `key: value` lines, found 'mostly water' — write it as {key: value, …}, or as lines indented below [not-a-mapping]",
        ),
    ),
    Spoilt(
        "bare number",
        "foods/mine.yaml",
        (("protein: 0.7 g", "protein: 0.7"),),
        (
            "foods/mine.yaml:5:53: error: protein: '0.7' has no unit — write one of mg, g, kg, oz, lb, lbs behind it, such as 250 g, 1.5 kg or 9 oz [unit-missing]",
        ),
    ),
    Spoilt(
        "energy in grams",
        "foods/mine.yaml",
        (("energy: 46 kcal", "energy: 46 g"),),
        (
            "foods/mine.yaml:5:35: error: energy: 'g' is no unit of energy — known are kcal, kJ, MJ; write 132 kcal or 552 kJ [unit-unknown]",
        ),
    ),
    Spoilt(
        "energy of no food",
        "foods/mine.yaml",
        (("energy: 46 kcal", "energy: 1850 kcal"),),
        (
            "foods/mine.yaml:5:35: error: energy: '1850 kcal' cannot be — check the number and its unit: usual is 0 to 905 kcal [out-of-range]",
        ),
    ),
    Spoilt(
        "parts of a little too much",
        "foods/mine.yaml",
        (("water: 87 g", "water: 93 g"),),
        (
            "foods/mine.yaml:5:13: warning: the parts of 100 g add up to 105.1 g — check water, protein, fat and carbohydrate [parts-sum]",
        ),
    ),
    Spoilt(
        "parts of far too much",
        "foods/mine.yaml",
        (("water: 87 g", "water: 98.5 g"),),
        (
            "foods/mine.yaml:5:13: error: the parts of 100 g add up to 110.6 g — check each figure; carbohydrate counts fibre in, once [parts-sum]",
        ),
    ),
    Spoilt(
        "parts of too little",
        "foods/mine.yaml",
        (("water: 87 g", "water: 77 g"),),
        (
            "foods/mine.yaml:5:13: warning: the parts of 100 g add up to 89.1 g — check water, protein, fat and carbohydrate [parts-sum]",
        ),
    ),
    Spoilt(
        "sodium stands for ash",
        "foods/mine.yaml",
        (("fibre: 1.4 g", "fibre: 1.4 g, sodium: 8 g"),),
        (
            "foods/mine.yaml:5:13: error: the parts of 100 g add up to 119.1 g — check each figure; carbohydrate counts fibre in, once [parts-sum]",
        ),
    ),
    Spoilt(
        "fibre above carbohydrate",
        "foods/mine.yaml",
        (("fibre: 1.4 g", "fibre: 12 g"),),
        (
            "foods/mine.yaml:5:89: error: 12 g of fibre are more than the 11.4 g of carbohydrate, which counts fibre in — write carbohydrate with its fibre [fibre]",
        ),
    ),
    Spoilt(
        "density of nothing",
        "foods/mine.yaml",
        (("state: raw", "state: raw\n  density: 0 g/ml"),),
        (
            "foods/mine.yaml:5:12: error: density: '0 g/ml' is out of range — write 0.01 g/ml or more, such as 0.72 g/ml [out-of-range]",
        ),
    ),
    Spoilt(
        "density without ml",
        "foods/mine.yaml",
        (("state: raw", "state: raw\n  density: 0.72 g"),),
        (
            "foods/mine.yaml:5:12: error: density: 'g' is no unit of density — known are g/ml, kg/l, kg/m3; write 0.72 g/ml [unit-unknown]",
        ),
    ),
    Spoilt(
        "allergen",
        "foods/mine.yaml",
        (("state: raw", "state: raw\n  allergens: [milks, cereals]"),),
        (
            "foods/mine.yaml:5:15: error: allergens cannot be 'milks' — did you mean milk? [word-unknown]",
            "foods/mine.yaml:5:22: error: allergens cannot be 'cereals' — did you mean cereals-gluten? [word-unknown]",
        ),
    ),
    Spoilt(
        "contains",
        "foods/mine.yaml",
        (("state: raw", "state: raw\n  contains: [beef]"),),
        (
            "foods/mine.yaml:5:14: error: contains cannot be 'beef' — known are: dairy, drink, egg, fat, fish, fruit, grain, herb, legume, meal, meat, nut, other, poultry, sugar, vegetable [word-unknown]",
        ),
    ),
    Spoilt(
        "beware",
        "foods/mine.yaml",
        (("state: raw", "state: raw\n  beware: [bears]"),),
        (
            "foods/mine.yaml:5:12: error: beware cannot be 'bears' — known are: alcohol, caffeine, choking, cured-raw, freshwater-fish, game, garlic-in-oil, home-canned, honey, infant-formula, kidney-bean, liver, mushroom-gathered, raw-fish, raw-milk, shellfish, soft-cheese, sprouts, whole-nut, wild-mushroom, wild-plant [word-unknown]",
        ),
    ),
    Spoilt(
        "cut",
        "foods/mine.yaml",
        (("state: raw", "state: raw\n  cut: diced\n  game: maybe"),),
        (
            "foods/mine.yaml:5:8: error: cut cannot be 'diced' — did you mean minced? [word-unknown]",
            "foods/mine.yaml:6:9: error: game must be true or false, found 'maybe' — write `game: true` or `game: false` [not-a-flag]",
        ),
    ),
    Spoilt(
        "unknown source",
        "foods/mine.yaml",
        (("state: raw", "state: raw\n  source: own-scale"),),
        (
            "foods/mine.yaml:5:11: error: there is no source 'own-scale' — did you mean own-scales? [source-unknown]",
        ),
    ),
    Spoilt(
        "a number that keeps its zeros",
        "foods/mine.yaml",
        (("name: Plums", "name: 12.10\n  nmae: x"),),
        (
            "foods/mine.yaml:3:3: error: a food has no field 'nmae' — did you mean name? [key-unknown]",
        ),
    ),
)


@pytest.mark.parametrize("spoilt", SPOILT, ids=str)
def test_each_mistake_is_told_at_its_place_with_what_would_do(
    spoilt: Spoilt, tmp_path: Path
) -> None:
    assert told(tmp_path, {**GOOD, FILE: PLUMS}, spoilt) == spoilt.expected


def food_of(folder: Path, text: str) -> Food:
    found = read(folder, {FILE: text})
    assert lines(found) == []
    return next(food for name, food in found.content.foods.items() if name == "plums")


def test_a_food_is_read_as_it_stands(tmp_path: Path) -> None:
    assert food_of(tmp_path, PLUMS) == Food(
        id="plums",
        name="Plums",
        kind="fruit",
        state="raw",
        per_100g=Composition(
            water_g=87, energy_kcal=46, protein_g=0.7, carbohydrate_g=11.4, fibre_g=1.4
        ),
    )


def test_a_food_may_tell_more_and_in_other_units(tmp_path: Path) -> None:
    text = """\
{id: plums, name: Sausage, kind: meat, state: ready, cut: minced, game: true,
 per_100g: {water: 60000 mg, energy: 836.8 kJ, protein: 20 g, fat: 1/2 oz, sodium: 0.4 g, ash: 2 g, alcohol: 0 g},
 density: 720 kg/m3, piece: 0.12 kg, allergens: [mustard, eggs, milk], contains: [egg, dairy], beware: [whole-nut],
 source: own-scales, ndb: "09003"}
"""
    food = food_of(tmp_path, text)
    parts = food.per_100g
    assert parts.energy_kcal == pytest.approx(200.0, rel=1e-9)
    assert parts.fat_g == pytest.approx(28.349523125 / 2, rel=1e-12)
    assert (parts.water_g, parts.sodium_mg, parts.ash_g) == (60, 400, 2)
    assert parts.water_share == 0.6
    assert food.density_g_ml == pytest.approx(0.72, rel=1e-12)
    assert food.piece_g == 120
    assert (food.allergens, food.contains, food.beware) == (
        ("mustard", "eggs", "milk"),
        ("egg", "dairy"),
        ("whole-nut",),
    )
    assert (food.cut, food.game, food.source, food.ndb) == ("minced", True, "own-scales", "09003")


def test_allergens_left_out_are_not_told_and_an_empty_list_says_none(tmp_path: Path) -> None:
    assert food_of(tmp_path / "out", PLUMS).allergens is None
    blank = PLUMS.replace("state: raw", "state: raw\n  allergens:")
    assert food_of(tmp_path / "blank", blank).allergens is None
    none = PLUMS.replace("state: raw", "state: raw\n  allergens: []\n  beware: []")
    food = food_of(tmp_path / "none", none)
    assert (food.allergens, food.may_contain, food.beware) == ((), (), ())


def test_traces_their_source_and_caffeine_are_read(tmp_path: Path) -> None:
    told = (
        "state: raw\n  may_contain: [nuts, milk]\n  allergen_source: own-scales\n  caffeine: 0.04 g"
    )
    food = food_of(tmp_path, PLUMS.replace("state: raw", told))
    assert (food.may_contain, food.allergen_source) == (("nuts", "milk"), ("own-scales",))
    assert food.per_100g.caffeine_mg == pytest.approx(40.0, rel=1e-12)
    assert (food.beware, food.per_100g.alcohol_g) == (None, 0)


def test_energy_may_be_left_out(tmp_path: Path) -> None:
    text = PLUMS.replace("energy: 46 kcal, ", "")
    assert food_of(tmp_path, text).per_100g.energy_kcal is None


@pytest.mark.parametrize(
    ("water_g", "severity"),
    [
        (73.9, "warning"),
        (74.0, None),
        (88.0, None),
        (88.1, "warning"),
        (94.0, "warning"),
        (94.1, "error"),
    ],
)
def test_the_parts_may_add_up_to_90_to_104_g_and_never_above_110(
    water_g: float, severity: str | None, tmp_path: Path
) -> None:
    text = f"{{id: plums, name: P, kind: fruit, state: raw, per_100g: {{water: {water_g} g, carbohydrate: 16 g}}}}"
    found = read(tmp_path, {FILE: text})
    assert [problem.severity for problem in found.problems] == ([severity] if severity else [])
    assert ("plums" in found.content.foods) == (severity != "error")


@pytest.mark.parametrize(
    ("line", "months", "spread"),
    [
        ("keeps: 3 months", 3.0, None),
        ("keeps: 1 year", 12.0, None),
        ("keeps: 120 months", 120.0, None),
        ("spread: 1.49 %", None, 0.0149),
        ("spread: 10 %", None, 0.1),
        ("ndb: '1'", None, None),
    ],
)
def test_a_food_may_tell_how_long_it_keeps_and_how_its_water_spreads(
    line: str, months: float | None, spread: float | None, tmp_path: Path
) -> None:
    food = food_of(tmp_path, f"{PLUMS}  {line}\n")
    assert food.keeps_months == (pytest.approx(months) if months else None)
    assert food.spread_share == (pytest.approx(spread) if spread else None)


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("keeps: 3", "unit-missing"),
        ("keeps: 0 months", "out-of-range"),
        ("keeps: 121 months", "out-of-range"),
        ("spread: 10.1 %", "out-of-range"),
        ("spread: 0 %", "out-of-range"),
    ],
)
def test_no_food_keeps_for_ever_or_is_of_any_water(line: str, kind: str, tmp_path: Path) -> None:
    found = read(tmp_path, {FILE: f"{PLUMS}  {line}\n"})
    assert [problem.kind for problem in found.problems] == [kind]


@pytest.mark.parametrize(
    ("told", "hours", "below_c"),
    [
        ("{hours: 48, below: 20 degC}", 48.0, 20.0),
        ("{hours: 0.5, below: 68 degF}", 0.5, 20.0),
        ("{hours: 8784}", 8784.0, math.inf),
    ],
)
def test_a_food_may_tell_how_long_it_stays_fresh(
    told: str, hours: float, below_c: float, tmp_path: Path
) -> None:
    food = food_of(tmp_path, f"{PLUMS}  perishable: {told}\n")
    assert food.perishable is not None
    assert food.perishable.hours == hours
    assert food.perishable.below_c == pytest.approx(below_c)


@pytest.mark.parametrize(
    ("told", "kind"),
    [
        ("{below: 20 degC}", "missing"),
        ("{hours: 0}", "out-of-range"),
        ("{hours: 8785}", "out-of-range"),
        ("{hours: 4, below: 20}", "unit-missing"),
        ("{hours: 4, above: 20 degC}", "key-unknown"),
        ("48 h", "not-a-mapping"),
    ],
)
def test_what_perishes_is_told_in_hours_below_a_temperature(
    told: str, kind: str, tmp_path: Path
) -> None:
    found = read(tmp_path, {FILE: f"{PLUMS}  perishable: {told}\n"})
    assert [problem.kind for problem in found.problems] == [kind]


@pytest.mark.parametrize(
    ("kind", "name", "allergens", "says"),
    [
        (
            "nut",
            "Almonds",
            "[]",
            "Almonds is or holds nut, and its allergens name no nuts or ",
        ),
        ("nut", "Almonds", "[nuts]", ""),
        ("nut", "Peanuts", "[peanuts]", ""),
        ("nut", "Pumpkin seeds", "[]", ""),
        ("nut", "Kokosraspel", "[]", ""),
        ("fish", "Cod", "[milk]", "write `allergens: [milk, fish]`"),
        ("fish", "Prawns", "[crustaceans]", ""),
        ("egg", "Omelette", "[]", "write `allergens: [eggs]`"),
        ("dairy", "Curd", "[]", "write `allergens: [milk]`"),
        ("fruit", "Plums", "[]", ""),
    ],
)
def test_what_a_kind_is_made_of_belongs_to_its_allergens(
    tmp_path: Path, kind: str, name: str, allergens: str, says: str
) -> None:
    food = PLUMS.replace("kind: fruit", f"kind: {kind}\n  allergens: {allergens}")
    found = lines(read(tmp_path, {FILE: food.replace("name: Plums", f"name: {name}")}))
    of_kind = [line for line in found if "[allergens-of-kind]" in line]
    assert [says in line for line in of_kind] == ([True] if says else [])
