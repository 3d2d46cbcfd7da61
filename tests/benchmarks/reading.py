"""Measures what reading a folder costs, beside another checkout of the project.

Run it from the project's root: `python -m tests.benchmarks.reading [OTHER_CHECKOUT]`. Both are
measured in turns, each time in a process of its own; the least processor time of each counts, which
other work on the machine disturbs least.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
# How many files of each kind make up 2,000.
MIXED = {"foods": 700, "batches": 600, "recipes": 500, "trips": 150, "gear": 50}
TURNS = 7
FEW, MANY = 5_000, 20_000  # bad items
MOST_TIMES_DEARER = 5.0

_FOOD = """\
id: food-{n}
name: Invented bean number {n}
kind: legume
state: cooked
per_100g: {{water: 65.{d} g, energy: 132 kcal, protein: 8.9 g, fat: 0.5 g, carbohydrate: 23.7 g,
           fibre: 8.7 g, sodium: 1 mg}}
density: 0.72 g/ml
allergens: []
source: usda-sr28
"""
_BATCH = """\
id: batch-{n}
food: food-{food}
method: {method}
done: 2031-03-{day:02d}
fresh: 1{d}50 g
dried: 6{d}5 g
packs: {{count: 4, in: foil-pouch, absorber: true}}
kept_at: 15 degC
"""
_RECIPE = """\
id: recipe-{n}
name: Pot number {n}
meal: [dinner]
serves: 2
cook_in: pot
uses:
  - {{id: beans, food: food-{food}, dried_by: freeze-dryer, amount: 8{d} g}}
  - {{id: rice, food: rice-instant-dry, amount: 120 g}}
  - {{id: oil, food: olive-oil, amount: 10 g}}
steps:
  - {{do: soak, with: [beans], water: auto, minutes: 10}}
  - {{do: boil, with: [beans, rice, oil], water: 260 ml}}
  - {{do: simmer, minutes: 8, stir: true}}
  - {{do: rest, minutes: 5, lid: true}}
  - {{do: serve, say: "Split <beans> by eye; salt to taste."}}
"""
_TRIP = """\
title: Trip number {n}
start: 2031-09-{day:02d}
party:
  - {{name: Ash, sex: female, age: 34, mass: 64 kg, height: 168 cm, carries_to: 14 kg}}
  - {{name: Rowan, sex: male, age: 41, mass: 82 kg, height: 183 cm, carries_to: 18 kg}}
stove: {{use: burner-{gear}, pots: [pot-{gear}], fuel_reserve: 15 %}}
mug: 300 ml
every_day:
  air: {{low: 4 degC, high: 16 degC}}
  wind: sheltered
  water: {{camp: stream, treat: filter, at: 8 degC, between_water: 3 h}}
days:
"""
_DAY = """\
  - title: Day {day} to the next camp
    camp_altitude: 6{day}0 m
    travel: {{by: walking, hours: 5, distance: 13 km, ascent: 560 m, descent: 90 m, ground: path}}
    meals:
      breakfast: [{{cook: recipe-{one}}}]
      lunch: [{{eat: rye-bread, each: 70 g}}, {{eat: cheddar, each: 40 g, for: [Ash]}}]
      dinner: [{{cook: recipe-{two}}}]
"""
_GEAR = """\
stoves:
  - {{id: burner-{n}, name: Top {n}, burns: gas-mix, power: 2 kW, efficiency: 55 %, mass: 75 g}}
pots:
  - {{id: pot-{n}, name: Pot {n}, holds: 2 l, fill_to: 75 %, mass: 240 g, material: aluminium}}
"""


def _trip(number: int, of: Mapping[str, int]) -> str:
    recipes, gear = max(1, of.get("recipes", 0)), max(1, of.get("gear", 0))
    head = _TRIP.format(n=number, day=1 + number % 28, gear=number % gear)
    days = (
        _DAY.format(day=day, one=(number + day) % recipes, two=(number + 7 * day) % recipes)
        for day in range(1, 5)
    )
    return head + "".join(days)


def written(of: Mapping[str, int]) -> Iterator[tuple[str, str]]:
    """Give the path and the text of each file of a folder: so many of each kind."""
    methods = ("dehydrator", "freeze-dryer", "oven")
    foods = max(1, of.get("foods", 0))
    for n in range(of.get("foods", 0)):
        yield f"foods/food-{n}.yaml", _FOOD.format(n=n, d=n % 10)
    for n in range(of.get("batches", 0)):
        text = _BATCH.format(n=n, d=n % 10, food=n % foods, day=1 + n % 28, method=methods[n % 3])
        yield f"batches/batch-{n}.yaml", text
    for n in range(of.get("recipes", 0)):
        yield f"recipes/recipe-{n}.yaml", _RECIPE.format(n=n, d=n % 10, food=n % foods)
    for n in range(of.get("trips", 0)):
        yield f"trips/trip-{n}.yaml", _trip(n, of)
    for n in range(of.get("gear", 0)):
        yield f"gear/gear-{n}.yaml", _GEAR.format(n=n)


def write_folder(folder: Path, of: Mapping[str, int]) -> Path:
    """Write a content folder of so many files of each kind."""
    for path, text in written(of):
        target = folder / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, "utf-8")
    return folder


def write_bad_items(folder: Path, count: int) -> Path:
    """Write a drying log of so many batches, each with a mistake of its own."""
    (folder / "batches").mkdir(parents=True)
    for first in range(0, count, 1_000):
        items = (
            f"- {{id: bad-{n}, food: food-{n}, method: sun, done: 2031-03-14, fresh: {n}}}\n"
            for n in range(first, min(first + 1_000, count))
        )
        (folder / "batches" / f"log-{first}.yaml").write_text("".join(items), "utf-8")
    return folder


_READ = """
import os, sys
from pathlib import Path
from builder.cli.places import layers_of, place_of
from builder.reading.folder import read_folder
layers = layers_of(place_of(Path(sys.argv[1])))
before = os.times()
found = read_folder(layers)
after = os.times()
print(after.user + after.system - before.user - before.system, len(found.problems))
"""


def read_s(checkout: Path, folder: Path) -> tuple[float, int]:
    """Give the processor seconds that a checkout takes to read a folder, and its problems."""
    done = subprocess.run(
        [sys.executable, "-c", _READ, str(folder)],
        cwd=checkout,
        check=True,
        capture_output=True,
        text=True,
    )
    seconds, problems = done.stdout.split()
    return float(seconds), int(problems)


def compared_s(checkouts: tuple[Path, ...], folder: Path, turns: int) -> tuple[float, ...]:
    """Give the least seconds of each checkout, measured in turns."""
    taken = [[read_s(each, folder)[0] for each in checkouts] for _ in range(turns)]
    return tuple(min(of) for of in zip(*taken, strict=True))


def main(other: Path | None) -> int:
    """Measure, print a line for each folder, and fail where a bound is broken."""
    checkouts = (ROOT,) if other is None else (ROOT, other)
    broken = 0
    with tempfile.TemporaryDirectory() as scratch:
        folders = {"2,000 files": MIXED}
        folders |= {f"2,000 {kind}": {"foods": 700, kind: 2_000} for kind in MIXED}
        folders["2,000 trips"] = {**MIXED, "trips": 2_000}
        for what, of in folders.items():
            folder = write_folder(Path(scratch, what), of)
            here, *there = compared_s(checkouts, folder, TURNS)
            share = f", {here / there[0]:.2f} of the other" if there else ""
            print(f"{here:6.2f} s  {what}{share}", flush=True)
            broken += bool(there) and what == "2,000 files" and here > there[0]
        few, many = (
            compared_s((ROOT,), write_bad_items(Path(scratch, f"bad-{count}"), count), 3)[0]
            for count in (FEW, MANY)
        )
        print(f"{many / few:6.2f} times  {MANY} bad items over {FEW}")
        broken += many / few > MOST_TIMES_DEARER
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]) if len(sys.argv) > 1 else None))
