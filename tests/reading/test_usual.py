# ruff: noqa: E501 - a record stands on one line, so that its one number is found
"""Values that no food, body, gear or way has: both sides of each limit, and none told that is usual."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from pathlib import Path

import pytest

from builder.formulas.nutrition import energy_kcal
from builder.model.food import Composition
from builder.problems import Problem
from builder.reading.checks import usual
from builder.reading.checks.eaten import check_eaten, energy_kcal_of
from builder.reading.checks.plausible import (
    ASCENTS_M,
    DESCENTS_M,
    FUEL_ENERGIES_MJ_KG,
    HEIGHT_CM_BY_AGE,
    MASS_KG_BY_AGE,
    SPEEDS_KM_H,
    STEP_MINUTES,
)
from builder.reading.checks.usual import USUAL, Range, usual_of
from builder.reading.declared.declaring import Record, keys_of, records_in, title_of
from builder.reading.declared.measures import Measure
from builder.reading.kinds import KINDS
from tests.reading.folder_builder import changed, read, read_over_shipped

# Each number of each kind once, all of them usual.
FOOD = """\
- {id: peas, name: Peas, kind: legume, state: cooked, density: 0.7 g/ml, piece: 0.5 g, caffeine: 0 mg, keeps: 4 months, spread: 1.5 %, takes_up: 60 %, perishable: {hours: 2, below: 32 degC}, allergens: [],
   per_100g: {water: 70 g, energy: 110 kcal, protein: 8 g, fat: 1 g, carbohydrate: 20 g, fibre: 6 g, sodium: 5 mg, ash: 1 g, alcohol: 0 g}}
- {id: mixed-nuts, name: Nuts, kind: nut, state: ready, allergens: [nuts],
   per_100g: {water: 5 g, energy: 620 kcal, protein: 20 g, fat: 52 g, carbohydrate: 20 g, fibre: 8 g}}
- {id: salt, name: Salt, kind: herb, state: ready, allergens: [], per_100g: {sodium: 38758 mg, ash: 99 g}}
"""
GEAR = """\
stoves: [{id: top, name: Top, burns: gas, power: 2600 W, lowest: 500 W, efficiency: 55 %, mass: 75 g, boiled: 1 l from 9 degC with 14 g at 640 m}]
fuels: [{id: gas, name: Gas, kind: gas, energy: 45.8 MJ/kg, lights_from: -40 degC, mix: {propane: 30 %, isobutane: 20 %, butane: 50 %}, containers: [{holds: 230 g, empty: 150 g}]}]
pots: [{id: pot, name: Pot, holds: 2 l, fill_to: 75 %, mass: 240 g, material: aluminium, loss_at_boil: 110 W, pressure: 0.8 bar, diameter: 18 cm}]
irons: [{id: iron, name: Iron, presses: 2, mass: 1.9 kg, face: 140 cm2}]
packaging: [{id: zip-bag, name: Bag, mass: 7 g, barrier: zip-bag, holds: 1 l}]
dryers: [{id: shelf, name: Shelf, method: dehydrator, load: 3 kg, hours: 12, ice: 4 kg, trays: 0.4 m2}]
"""
RECIPE = """\
id: pea-pot
name: Pea pot
serves: 2
cooked: 600 g
cook_in: iron
uses: [{food: peas, amount: 160 g, dried_by: dehydrator}]
reach: 74 degC
drain: 0 ml
steps:
  - {do: soak, with: [peas], water: 300 ml, minutes: 30}
  - {do: simmer, minutes: 8}
  - {do: fry, minutes: 4}
  - {do: rest, minutes: 5}
  - {do: press, with: [peas], each_side: 4 min, pieces: 2}
"""
LOAF = """\
{id: loaf, name: Loaf, serves: 2, cook_in: pot, uses: [{food: peas, amount: 160 g}],
 steps: [{do: bake, with: [peas], minutes: 30, at: 180 degC}]}
"""
BATCH = """\
- {id: peas-may, food: peas, method: freeze-dryer, done: 2031-05-04, fresh: 1000 g, dried: 310 g, ice: 690 g, used: 1, loaded_at: -18 degC, packs: {count: 4, in: zip-bag},
   kept_at: 15 degC, heated: {to: 74 degC, when: before, minutes: 10}, weighings: [{at: 3 h, mass: 800 g}]}
- {id: peas-june, food: peas, method: freeze-dryer, done: 2031-06-04, fresh: 900 g, dried: 280 g, packs: {count: 4}, kept_at: [{at: 22 degC, until: 2031-07-01}, {at: 5 degC}]}
- {id: nuts-shop, food: mixed-nuts, method: bought, best_before: 2032-05-04, packs: {count: 3, of: 200 g}}
"""
TRIP = """\
title: Tarrow Tops
party:
  - {name: Ash, sex: female, age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg, carries_to: 14 kg}
stove: {use: top, pots: [pot], fuel_reserve: 15 %}
fire: {irons: [iron], wood_moisture: 20 %}
mug: 300 ml
ladle: 120 ml
washing: 1 l
gear_shared: [{name: Tarp, mass: 780 g}]
start_camp: {camp_altitude: 600 m}
chilled: {until: {day: 1, meal: dinner}}
days:
  - camp_altitude: 640 m
    barometer: 938 hPa
    air: {low: 4 degC, high: 16 degC}
    water: {camp: stream, treat: boil, at: 8 degC, between_water: 3 h}
    travel: {by: walking, hours: 5, distance: 13 km, ascent: 560 m, descent: 90 m, load: 12 kg}
    meals:
      dinner: [{cook: pea-pot}]
      snacks:
        - {eat: mixed-nuts, each: 60 g}
        - {eat: salt, each: 2 g}
        - {eat: Crackers, each: 70 g, energy: 420 kcal, water: 5 g, protein: 10 g, fat: 9 g, carbohydrate: 72 g, fibre: 6 g, sodium: 600 mg, ash: 2 g, alcohol: 0 g, caffeine: 0 mg, allergens: []}
review:
  fuel_used: 310 g
  wood_used: 6 kg
  water: [{day: 1, used: 9 l}]
  left: [{day: 1, recipe: pea-pot, share: 20 %}, {food: salt, mass: 1 g}]
  took: [{recipe: pea-pot, minutes: 34}]
  back: {peas-may: 1}
"""
HOME = "{electricity: 0.31 per kWh, portion: 60 g}"
SOURCE = "{id: own-table, title: Our table, year: 2015}"
EVERY: dict[str, str] = {
    "foods/all.yaml": FOOD,
    "gear/all.yaml": GEAR,
    "recipes/pea-pot.yaml": RECIPE,
    "recipes/loaf.yaml": LOAF,
    "batches/all.yaml": BATCH,
    "trips/tarrow.yaml": TRIP,
    "home.yaml": HOME,
    "sources.yaml": SOURCE,
}


def odd(found: tuple[Problem, ...]) -> list[str]:
    """Give how grave each odd value is; what follows from it elsewhere is not asked here."""
    return [each.severity for each in found if each.kind in ("unusual", "out-of-range")]


def files_with(file: str, old: str, new: str) -> Mapping[str, str]:
    name = next(name for name in EVERY if name.startswith(file))
    return {**EVERY, name: changed(EVERY[name], old, new)}


def test_usual_numbers_of_every_kind_are_told_by_nobody(tmp_path: Path) -> None:
    assert [str(each) for each in read(tmp_path, EVERY, None).problems] == []


def test_every_number_of_every_kind_has_a_range(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: set[tuple[str, str]] = set()

    def noted(what: str, key: str) -> Range | None:
        asked.add((what, key))
        return usual_of(what, key)

    monkeypatch.setattr(usual, "usual_of", noted)
    read(tmp_path / "own", EVERY, None)
    read_over_shipped(tmp_path / "shipped", {})
    assert {pair for pair in asked if usual_of(*pair) is None} <= WITHOUT
    # One's own test of a stove is taken apart elsewhere.
    assert {pair for pair in USUAL if pair[0] != "stove test"} <= asked | {("place", "at")}


WITHOUT = {("step", "minutes")}  # they go by what is done: STEP_MINUTES


def test_no_number_is_declared_of_which_nobody_said_what_is_usual() -> None:
    declared = {
        (title_of(record), name)
        for record in records_within(*(kind.record for kind in KINDS.values()))
        for name, field in keys_of(record).items()
        if any(isinstance(each, Measure) for each in field.metadata)
    }
    assert {pair for pair in declared if usual_of(*pair) is None} == WITHOUT


def records_within(*records: type[Record]) -> set[type[Record]]:
    found: set[type[Record]] = set()
    waiting = list(records)
    while waiting:
        record = waiting.pop()
        if record not in found:
            found.add(record)
            for field in keys_of(record).values():
                waiting += records_in(field.annotation)
    return found


ALL_RANGES = {
    **{f"{what} {key}": row for (what, key), row in USUAL.items()},
    **{f"speed {by}": row for by, row in SPEEDS_KM_H.items()},
    **{f"ascent {by}": row for by, row in ASCENTS_M.items()},
    **{f"descent {by}": row for by, row in DESCENTS_M.items()},
    **{f"energy {kind}": row for kind, row in FUEL_ENERGIES_MJ_KG.items()},
    **{f"minutes {do}": row for do, row in STEP_MINUTES.items()},
}


@pytest.mark.parametrize("name", ALL_RANGES)
def test_a_range_has_a_reason_and_the_usual_lies_in_the_possible(name: str) -> None:
    row = ALL_RANGES[name]
    assert row.why
    assert row.possible[0] <= row.usual[0] < row.usual[1] <= row.possible[1]


@pytest.mark.parametrize("name", ALL_RANGES)
def test_a_bound_belongs_to_its_range_and_a_hair_beyond_does_not(name: str) -> None:
    row = ALL_RANGES[name]
    (low, high), (least, most) = row.usual, row.possible
    for bound in (low, high):
        assert row.judge(bound) == ""
    for bound in (least, most):
        assert row.judge(bound) != "impossible"
    if least < low:
        assert row.judge(low - (low - least) / 100) == "unusual"
    if most > high:
        assert row.judge(high + (most - high) / 100) == "unusual"
    step = (high - low) / 100
    assert row.judge(least - step) == row.judge(most + step) == "impossible"


# file, what stands there, the last value that is usual, one that is not, and how grave that is
BOTH_SIDES: list[tuple[str, str, str, str, str]] = [
    # food
    ("foods", "density: 0.7 g/ml", "density: 1.7 g/ml", "density: 1.71 g/ml", "warning"),
    ("foods", "density: 0.7 g/ml", "density: 0.02 g/ml", "density: 9 g/ml", "error"),
    ("foods", "piece: 0.5 g", "piece: 3 kg", "piece: 31 kg", "error"),
    # 20 · 4 + 52 · 9 + 12 · 4 + 8 · 2 = 612 kcal by the parts; a quarter, 25 and 16 either way.
    ("foods", "energy: 620 kcal", "energy: 418.1 kcal", "energy: 417.9 kcal", "warning"),
    ("foods", "energy: 620 kcal", "energy: 805.9 kcal", "energy: 806.1 kcal", "warning"),
    ("foods", "energy: 620 kcal", "energy: 620 kcal", "energy: 6.5 kcal", "error"),
    # (612 + 16) · 1.5 + 50 = 992: more than any food holds, but half of 110 is beyond for peas:
    # 8 · 4 + 9 + 14 · 4 + 6 · 2 = 109, (109 + 12) · 1.5 + 50 = 231.5.
    ("foods", "energy: 110 kcal", "energy: 173 kcal", "energy: 231 kcal", "warning"),
    ("foods", "energy: 110 kcal", "energy: 173 kcal", "energy: 232 kcal", "error"),
    ("foods", "sodium: 38758 mg", "sodium: 39 g", "sodium: 90 g", "error"),
    ("foods", "protein: 20 g", "protein: 20 g", "protein: 101 g", "error"),
    ("foods", "caffeine: 0 mg", "caffeine: 6 g", "caffeine: 21 g", "error"),
    ("foods", "keeps: 4 months", "keeps: 0.2 months", "keeps: 0.1 months", "warning"),
    ("foods", "below: 32 degC", "below: 40 degC", "below: 41 degC", "warning"),
    # batch
    ("batches", "fresh: 1000 g", "fresh: 60 kg", "fresh: 60.1 kg", "warning"),
    ("batches", "fresh: 1000 g", "fresh: 60 kg", "fresh: 501 kg", "error"),
    ("batches", "count: 3, of", "count: 300, of", "count: 301, of", "warning"),
    ("batches", "count: 3, of", "count: 300, of", "count: 5000, of", "error"),
    ("batches", "of: 200 g", "of: 5 kg", "of: 5.1 kg", "warning"),
    ("batches", "kept_at: 15 degC", "kept_at: 35 degC", "kept_at: 36 degC", "warning"),
    ("batches", "{at: 5 degC}", "{at: -30 degC}", "{at: -31 degC}", "warning"),
    ("batches", "to: 74 degC", "to: 180 degC", "to: 301 degC", "error"),
    ("batches", "minutes: 10", "minutes: 0.5", "minutes: 0.4", "warning"),
    ("batches", "minutes: 10", "minutes: 0.5", "minutes: 0.001", "error"),
    ("batches", "ice: 690 g", "ice: 25 kg", "ice: 25.1 kg", "warning"),
    ("batches", "ice: 690 g", "ice: 5 g", "ice: 0.4 g", "error"),
    ("batches", "at: 3 h", "at: 7 days", "at: 8 days", "warning"),
    ("batches", "loaded_at: -18 degC", "loaded_at: 10 degC", "loaded_at: 11 degC", "warning"),
    ("batches", "used: 1", "used: 1", "used: 1001", "error"),
    # home
    ("home", "portion: 60 g", "portion: 500 g", "portion: 501 g", "warning"),
    ("home", "portion: 60 g", "portion: 3 g", "portion: 6 kg", "error"),
    ("home", "0.31 per kWh", "1000 per kWh", "1001 per kWh", "warning"),
    ("home", "0.31 per kWh", "1000 per kWh", "2000000 per kWh", "error"),
    # recipe
    ("recipes", "serves: 2", "serves: 30", "serves: 31", "warning"),
    ("recipes", "serves: 2", "serves: 30", "serves: 900", "error"),
    ("recipes", "reach: 74 degC", "reach: 60 degC", "reach: 59 degC", "warning"),
    ("recipes", "reach: 74 degC", "reach: 100 degC", "reach: -70 degC", "error"),
    ("recipes", "each_side: 4 min", "each_side: 20 min", "each_side: 21 min", "warning"),
    ("recipes", "each_side: 4 min", "each_side: 20 min", "each_side: 4 h", "error"),
    ("recipes", "pieces: 2", "pieces: 12", "pieces: 13", "warning"),
    ("recipes", "pieces: 2", "pieces: 12", "pieces: 51", "error"),
    ("recipes", "simmer, minutes: 8", "simmer, minutes: 240", "simmer, minutes: 241", "warning"),
    ("recipes", "simmer, minutes: 8", "simmer, minutes: 240", "simmer, minutes: 1441", "error"),
    ("recipes", "simmer, minutes: 8", "simmer, minutes: 240", "simmer, minutes: 5000", "error"),
    ("recipes", "fry, minutes: 4", "fry, minutes: 60", "fry, minutes: 61", "warning"),
    ("recipes", "minutes: 30", "minutes: 1440", "minutes: 1441", "warning"),
    # For two: 5 l and 30 l.
    ("recipes", "water: 300 ml", "water: 5 l", "water: 5.1 l", "warning"),
    ("recipes", "water: 300 ml", "water: 5 l", "water: 31 l", "error"),
    # For two: 1.5 kg each, and 5 kg; 110 kcal in 100 g.
    ("recipes", "amount: 160 g", "amount: 3 kg", "amount: 3.1 kg", "warning"),
    ("recipes", "amount: 160 g", "amount: 3 kg", "amount: 30 kg", "error"),
    ("recipes", "amount: 160 g", "amount: 160 pieces", "amount: 90000 pieces", "error"),
    ("recipes/loaf", "at: 180 degC", "at: 230 degC", "at: 231 degC", "warning"),
    ("recipes/loaf", "at: 180 degC", "at: 140 degC", "at: 99 degC", "error"),
    ("recipes/loaf", "minutes: 30", "minutes: 180", "minutes: 181", "warning"),
    # gear
    ("gear", "power: 2600 W", "power: 12 kW", "power: 13 kW", "warning"),
    ("gear", "power: 2600 W", "power: 12 kW", "power: 90 kW", "error"),
    ("gear", "efficiency: 55 %", "efficiency: 15 %", "efficiency: 14 %", "warning"),
    ("gear", "efficiency: 55 %", "efficiency: 85 %", "efficiency: 3 %", "error"),
    ("gear", "mass: 75 g", "mass: 6 kg", "mass: 31 kg", "error"),
    ("gear", "from 9 degC", "from 35 degC", "from 36 degC", "warning"),
    ("gear", "with 14 g", "with 14 g", "with 14 kg", "error"),
    ("gear", "45.8 MJ/kg", "42 MJ/kg", "41 MJ/kg", "warning"),
    ("gear", "45.8 MJ/kg", "51 MJ/kg", "2 MJ/kg", "error"),
    ("gear", "empty: 150 g", "empty: 920 g", "empty: 921 g", "warning"),
    ("gear", "holds: 2 l", "holds: 30 l", "holds: 31 l", "warning"),
    ("gear", "holds: 2 l", "holds: 150 ml", "holds: 400 l", "error"),
    ("gear", "fill_to: 75 %", "fill_to: 100 %", "fill_to: 9 %", "error"),
    ("gear", "presses: 2", "presses: 6", "presses: 7", "warning"),
    ("gear", "diameter: 18 cm", "diameter: 45 cm", "diameter: 46 cm", "warning"),
    ("gear", "diameter: 18 cm", "diameter: 8 cm", "diameter: 2 cm", "error"),
    ("gear", "face: 140 cm2", "face: 900 cm2", "face: 901 cm2", "warning"),
    ("gear", "load: 3 kg", "load: 40 kg", "load: 41 kg", "warning"),
    ("gear", "hours: 12", "hours: 120", "hours: 121", "warning"),
    # people; at 3 years 10 to 23 kg are usual and 36 kg the most
    ("trips", "age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg, carries_to: 14 kg",
     "age: 3, mass: 23 kg, carries_to: 0 kg", "age: 3, mass: 24 kg, carries_to: 0 kg", "warning"),
    ("trips", "age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg, carries_to: 14 kg",
     "age: 3, mass: 10 kg, carries_to: 0 kg", "age: 3, mass: 64 kg, carries_to: 0 kg", "error"),
    ("trips", "age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg, carries_to: 14 kg",
     "age: 7, mass: 46.5 kg, carries_to: 0 kg", "age: 7, mass: 46.6 kg, carries_to: 0 kg",
     "warning"),  # half way from 39 to 54 kg
    ("trips", "mass: 64 kg, height: 168 cm", "mass: 90 kg, height: 208 cm", "mass: 90 kg, height: 2.09 m", "warning"),
    ("trips", "mass: 64 kg, height: 168 cm", "mass: 90 kg, height: 208 cm", "mass: 110 kg, height: 2.6 m", "error"),
    # 14 and 50 kg/m² at 170 cm: 40.46 and 144.5 kg.
    ("trips", "mass: 64 kg, height: 168 cm", "mass: 40.5 kg, height: 170 cm", "mass: 40.4 kg, height: 170 cm", "warning"),
    ("trips", "mass: 64 kg, height: 168 cm", "mass: 144 kg, height: 170 cm", "mass: 145 kg, height: 170 cm", "warning"),
    # six tenths of 64 kg are 38.4 kg, one and a half times 96
    ("trips", "carries_to: 14 kg", "carries_to: 38 kg", "carries_to: 39 kg", "warning"),
    ("trips", "carries_to: 14 kg", "carries_to: 38 kg", "carries_to: 97 kg", "error"),
    # trip
    ("trips", "mug: 300 ml", "mug: 1 l", "mug: 1.1 l", "warning"),
    ("trips", "mug: 300 ml", "mug: 1 l", "mug: 5 l", "error"),
    ("trips", "ladle: 120 ml", "ladle: 500 ml", "ladle: 501 ml", "warning"),
    ("trips", "ladle: 120 ml", "ladle: 30 ml", "ladle: 4 ml", "error"),
    ("trips", "washing: 1 l", "washing: 20 l", "washing: 21 l", "warning"),
    ("trips", "wood_moisture: 20 %", "wood_moisture: 55 %", "wood_moisture: 56 %", "warning"),
    ("trips", "wood_moisture: 20 %", "wood_moisture: 55 %", "wood_moisture: 90 %", "error"),
    ("trips", "fuel_reserve: 15 %", "fuel_reserve: 60 %", "fuel_reserve: 61 %", "warning"),
    ("trips", "mass: 780 g", "mass: 45 kg", "mass: 46 kg", "warning"),
    ("trips", "camp_altitude: 640 m", "camp_altitude: 6500 m", "camp_altitude: 6600 m", "warning"),
    ("trips", "camp_altitude: 640 m", "camp_altitude: 6500 m", "camp_altitude: 9000 m", "error"),
    ("trips", "camp_altitude: 600 m", "camp_altitude: -430 m", "camp_altitude: 8850 m", "error"),
    ("trips", "barometer: 938 hPa", "barometer: 440 hPa", "barometer: 1091 hPa", "error"),
    ("trips", "low: 4 degC, high: 16", "low: -10 degC, high: 20", "low: -11 degC, high: 20", "warning"),
    ("trips", "low: 4 degC, high: 16", "low: -10 degC, high: 20", "low: -41 degC, high: 20", "error"),
    ("trips", "low: 4 degC, high: 16", "low: 20 degC, high: 45", "low: 20 degC, high: 46", "warning"),
    ("trips", "at: 8 degC", "at: 32 degC", "at: 33 degC", "warning"),
    ("trips", "at: 8 degC", "at: 32 degC", "at: 90 degC", "error"),
    ("trips", "between_water: 3 h", "between_water: 14 h", "between_water: 15 h", "warning"),
    ("trips", "hours: 5, distance: 13 km", "hours: 12, distance: 13 km", "hours: 12.1, distance: 13 km", "warning"),
    ("trips", "hours: 5, distance: 13 km", "hours: 2, distance: 13 km", "hours: 2, distance: 13.1 km", "warning"),
    ("trips", "by: walking, hours: 5, distance: 13 km", "by: cycling, hours: 5, distance: 140 km", "by: cycling, hours: 5, distance: 141 km", "warning"),
    ("trips", "by: walking, hours: 5, distance: 13 km", "by: cycling, hours: 5, distance: 140 km", "by: cycling, hours: 5, distance: 251 km", "error"),
    ("trips", "by: walking, hours: 5, distance: 13 km, ascent: 560 m", "by: paddling, hours: 5, distance: 45 km", "by: paddling, hours: 5, distance: 101 km", "error"),
    ("trips", "ascent: 560 m", "ascent: 2200 m", "ascent: 2300 m", "warning"),
    ("trips", "hours: 5, distance: 13 km, ascent: 560 m", "hours: 2, distance: 12 km, ascent: 1600 m", "hours: 2, distance: 12 km, ascent: 1620 m", "warning"),
    ("trips", "hours: 5, distance: 13 km, ascent: 560 m", "hours: 1, distance: 6 km, ascent: 800 m", "hours: 1, distance: 6 km, ascent: 3000 m", "error"),
    ("trips", "descent: 90 m", "descent: 2500 m", "descent: 2600 m", "warning"),
    ("trips", "load: 12 kg", "load: 40 kg", "load: 41 kg", "warning"),
    ("trips", "caffeine: 0 mg", "caffeine: 6 g", "caffeine: 6.1 g", "warning"),
    ("trips", "caffeine: 0 mg", "caffeine: 6 g", "caffeine: 21 g", "error"),
    # 620 kcal in 100 g: 403.2 g hold 2500 kcal, 2419 g hold 15,000.
    ("trips", "each: 60 g", "each: 403 g", "each: 404 g", "warning"),
    ("trips", "each: 60 g", "each: 403 g", "each: 2.5 kg", "error"),
    ("trips", "each: 60 g", "each: 403 g", "each: 30 kg", "error"),
    # 8 g of sodium stand in 20.6 g of salt.
    ("trips", "each: 2 g", "each: 20.6 g", "each: 20.7 g", "warning"),
    ("trips", "each: 2 g", "each: 20.6 g", "each: 110 g", "error"),
    # A label: 10 · 4 + 9 · 9 + 66 · 4 + 6 · 2 = 397; least 397 − 99.25 − 25 − 12 = 260.75,
    # most 533.25; (397 + 12) · 1.5 + 50 = 663.5 is beyond all doubt.
    ("trips", "energy: 420 kcal", "energy: 261 kcal", "energy: 260 kcal", "warning"),
    ("trips", "energy: 420 kcal", "energy: 533 kcal", "energy: 664 kcal", "error"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("file", "old", "usual", "unusual", "grave"),
    BOTH_SIDES,
    ids=[f"{file}: {unusual}" for file, _, _, unusual, _ in BOTH_SIDES],
)
def test_a_value_is_told_on_the_far_side_of_its_limit_only(
    tmp_path: Path, file: str, old: str, usual: str, unusual: str, grave: str
) -> None:
    assert odd(read(tmp_path / "usual", files_with(file, old, usual), None).problems) == []
    found = odd(read(tmp_path / "unusual", files_with(file, old, unusual), None).problems)
    assert found[:1] == [grave]
    assert len(found) == 1


SAYS: list[tuple[str, str, str, str]] = [
    ("gear", "holds: 2 l", "holds: 60 l",
     "holds: '60 l' is unusual: usual is 0.15 to 30 l — check the number and its unit; if it is meant, leave it"),
    ("gear", "holds: 2 l", "holds: 400 l",
     "holds: '400 l' cannot be — check the number and its unit: usual is 0.15 to 30 l"),
    ("recipes", "reach: 74 degC", "reach: 104 degF",
     "reach: '104 degF' is unusual: usual is 140 to 212 degF — check the number and its unit; if it is meant, leave it"),
    ("trips", "hours: 5, distance: 13 km", "hours: 5, distance: 40 km",
     "distance: 8 km/h walking is unusual: usual is 0.3 to 6.5 km/h — check the number and its unit; if it is meant, leave it"),
    ("trips", "each: 60 g", "each: 30 kg",
     "each: 30000 g for one eater cannot be — check the number and its unit: usual is 0.02 to 1500 g"),
]  # fmt: skip


@pytest.mark.parametrize(("file", "old", "new", "says"), SAYS, ids=[each[2] for each in SAYS])
def test_what_is_told_names_the_usual_range_in_the_unit_that_was_written(
    tmp_path: Path, file: str, old: str, new: str, says: str
) -> None:
    (found,) = read(tmp_path, files_with(file, old, new), None).problems
    assert says in str(found)


# The furthest foods of SR28, all 5,514 of which were read through the same checks: 14 are told, 9
# by the sum of their parts (fat-free snacks, baking soda, odd fish) and 5 by their energy (baking
# powders, sweetener, gelatin with sweetener, one spread). Water, kcal, protein, fat, carbohydrate,
# fibre, sodium, ash, alcohol.
FAR_FOODS: dict[str, str] = {
    "water": "99.98 0 0 0 0 0 4 0.02 0",
    "fish oil": "0 902 0 100 0 0 0 0 0",
    "soy protein isolate": "4.98 335 88.32 3.39 0 0 1005 3.58 0",
    "gelatin": "13 335 85.6 0.1 0 0 196 1.3 0",
    "sugar": "0.02 387 0 0 99.98 0 1 0 0",
    "maize bran": "4.71 224 8.36 0.92 85.64 79 7 0.37 0",
    "oat bran": "6.55 246 17.3 7.03 66.22 15.4 4 2.89 0",
    "cocoa": "3 228 19.6 13.7 57.9 37 21 5.8 0",
    "seed gum": "15 332 4.6 0.5 77.3 77.3 125 2.6 0",
    "cloud ear": "12.8 284 9.25 0.73 73.01 70.1 35 4.2 0",
    "salt": "0.2 0 0 0 0 0 38758 99.8 0",
    "spirit": "57.5 295 0 0 0 0 1 0.01 42.5",
    "chestnuts": "48.65 213 2.42 2.26 45.54 8.1 3 1.13 0",
    "cinnamon": "10.58 247 3.99 1.24 80.59 53.1 10 3.6 0",
}


@pytest.mark.parametrize("name", FAR_FOODS)
def test_no_usual_food_is_told_as_odd(tmp_path: Path, name: str) -> None:
    keys = [
        "water",
        "energy",
        "protein",
        "fat",
        "carbohydrate",
        "fibre",
        "sodium",
        "ash",
        "alcohol",
    ]
    units = {"energy": "kcal", "sodium": "mg"}
    parts = ", ".join(
        f"{key}: {value} {units.get(key, 'g')}"
        for key, value in zip(keys, FAR_FOODS[name].split(), strict=True)
    )
    food = f"- {{id: far, name: {name}, kind: other, state: ready, allergens: [], per_100g: {{{parts}}}}}\n"
    assert [str(each) for each in read(tmp_path, {"foods/far.yaml": food}, None).problems] == []


def test_leaves_that_are_steeped_may_give_the_cup_less_than_they_hold(tmp_path: Path) -> None:
    tea = "{id: leaf, name: Leaf, kind: drink, state: ready, allergens: [], per_100g: {water: 7 g, energy: 50 kcal, protein: 20 g, carbohydrate: 68 g, ash: 5 g}}"
    assert odd(read(tmp_path / "drink", {"foods/a.yaml": tea}, None).problems) == []
    eaten = {"foods/a.yaml": tea.replace("drink", "herb")}
    assert odd(read(tmp_path / "herb", eaten, None).problems) == ["warning"]


@pytest.mark.parametrize(
    ("snacks", "grave"),
    [
        # With 210 g of other things; 4 kg a day are usual, 12 kg are beyond all doubt.
        (["1.2 kg", "1.2 kg", "1.2 kg"], []),
        (["1.3 kg", "1.3 kg", "1.3 kg"], ["warning"]),
        (["1.5 kg"] * 9, ["error"]),
    ],
)
def test_what_somebody_eats_in_a_day_is_held_against_what_one_eats(
    tmp_path: Path, snacks: list[str], grave: list[str]
) -> None:
    eaten = "\n".join(f"        - {{eat: peas, each: {each}}}" for each in snacks)
    files = files_with("trips", "        - {eat: salt, each: 2 g}", eaten)
    found = read(tmp_path, files, None).problems
    assert odd(found) == grave
    if grave:
        assert "day 1 gives 'Ash'" in str(found[0])


def test_the_energy_of_parts_is_that_of_the_formulas() -> None:
    of = Composition(protein_g=8, fat_g=3, carbohydrate_g=21, fibre_g=6, alcohol_g=2)
    assert energy_kcal_of(of) == pytest.approx(
        energy_kcal(of.protein_g, of.fat_g, of.carbohydrate_g, of.fibre_g, of.alcohol_g), abs=1e-9
    )


def test_a_body_grows_with_its_age() -> None:
    for table in (MASS_KG_BY_AGE, HEIGHT_CM_BY_AGE):
        rows = [table[age] for age in sorted(table)]
        for younger, older in pairwise(rows):
            assert all(a <= b for a, b in zip(younger, older, strict=True))


def test_more_flame_at_the_lowest_than_at_full_is_refused(tmp_path: Path) -> None:
    files = files_with("gear", "lowest: 500 W", "lowest: 2601 W")
    assert any(each.kind == "lowest" for each in read(tmp_path / "more", files, None).problems)
    files = files_with("gear", "lowest: 500 W", "lowest: 2600 W")
    assert not any(each.kind == "lowest" for each in read(tmp_path / "as", files, None).problems)


@pytest.mark.parametrize(
    ("protein", "grave"),
    # 70 g of water, 1 g of fat, 20 g of carbohydrate and 1 g of ash leave 8 g; 4 and 10 g of doubt.
    [("12 g", []), ("12.1 g", ["warning"]), ("18 g", ["warning"]), ("18.1 g", ["error"])],
)
def test_more_protein_than_there_are_solids_is_told(
    tmp_path: Path, protein: str, grave: list[str]
) -> None:
    files = files_with("foods", "protein: 8 g", f"protein: {protein}")
    found = read(tmp_path, files, None).problems
    assert [each.severity for each in found if each.kind == "parts-sum"] == grave


def test_a_label_that_does_not_tell_all_is_not_asked_for_the_rest(tmp_path: Path) -> None:
    old = "energy: 420 kcal, water: 5 g, protein: 10 g, fat: 9 g, carbohydrate: 72 g, fibre: 6 g, sodium: 600 mg, ash: 2 g, alcohol: 0 g"
    few = files_with("trips", old, "energy: 420 kcal, protein: 10 g")
    assert [str(each) for each in read(tmp_path / "few", few, None).problems] == []
    # 50 g of fat alone hold 450 kcal.
    fat = files_with("trips", old, "energy: 45 kcal, fat: 50 g")
    assert odd(read(tmp_path / "fat", fat, None).problems) == ["error"]
    # 95 g of water leave no room for 20 g of protein.
    wet = files_with("trips", old, "energy: 80 kcal, water: 95 g, protein: 20 g")
    found = read(tmp_path / "wet", wet, None).problems
    assert [(each.kind, each.severity) for each in found] == [("parts-sum", "error")]


@pytest.mark.parametrize(
    ("fat_g", "mass_g", "told"),
    [(100, 150, []), (100, 151, [151]), (80, 151, [151]), (79.9, 250, [])],
)
def test_fat_that_is_only_fried_in_is_asked_about(
    fat_g: float, mass_g: float, told: list[float]
) -> None:
    found: list[float] = []

    def judge(among: Range, value: float, *_: object, **__: object) -> bool:
        found.append(value)
        return True

    check_eaten(judge, "amount", mass_g, Composition(fat_g=fat_g))
    assert found == told
