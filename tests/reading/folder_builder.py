"""Throw-away content folders: from a mapping path → text to what was read of it."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Mapping
from pathlib import Path

from builder.model.content import Content
from builder.reading.folder import ALWAYS_SHIPPED, Folder, Layer, read_folder
from builder.record import dataclass

ROOT = Path(__file__).resolve().parents[2]
SHIPPED = ROOT / "content"

# A small layer of its own, so that messages which list known ids stay short and stay the same.
SMALL: dict[str, str] = {
    "sources.yaml": "[{id: own-scales, title: Weighed at home, read: true}]",
    "gear/all.yaml": """\
        stoves: [{id: burner, name: Burner, burns: gas, power: 2 kW, efficiency: 55 %, mass: 75 g}]
        fuels: [{id: gas, name: Gas, kind: gas, energy: 45.8 MJ/kg}]
        pots: [{id: pot, name: Pot, holds: 2 l, mass: 240 g, material: aluminium}]
        irons: [{id: iron, name: Iron, mass: 1.9 kg}]
        packaging: [{id: zip-bag, name: Zip bag, mass: 7 g, barrier: zip-bag}]
        """,
    "foods/all.yaml": """\
        - {id: beans, name: Beans, kind: legume, state: cooked, density: 0.72 g/ml,
           per_100g: {water: 66 g, energy: 132 kcal, protein: 9 g, fat: 1 g, carbohydrate: 24 g}}
        - {id: rice, name: Rice, kind: grain, state: dried, density: 0.8 g/ml, piece: 2 g,
           per_100g: {water: 12 g, energy: 360 kcal, protein: 7 g, fat: 1 g, carbohydrate: 80 g}}
        - {id: oil, name: Oil, kind: fat, state: ready, source: own-scales,
           per_100g: {energy: 900 kcal, fat: 100 g}}
        """,
}

# A recipe, a batch and a trip that are right, for tests to spoil.
BEAN_POT = """\
id: bean-pot
name: Bean pot
serves: 2
cook_in: pot
uses:
  - {food: beans, dried_by: dehydrator, amount: 80 g}
  - {food: rice, amount: 120 g}
steps:
  - {do: soak, with: [beans], water: auto, minutes: 10}
  - {do: boil, with: [beans, rice], water: 260 ml}
  - {do: simmer, minutes: 8}
  - {do: serve, say: Split <beans> by eye}
"""
BEANS_IN_MAY = """\
id: beans-may
food: beans
method: dehydrator
done: 2031-05-04
fresh: 900 g
dried: 340 g
packs: {count: 3, in: zip-bag}
"""
TRIP = """\
title: Tarrow Tops
party:
  - {name: Ash, sex: female, age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg}
stove: {use: burner, pots: [pot]}
days:
  - camp_altitude: 640 m
    meals:
      dinner: [{cook: bean-pot, from: beans-may}]
      snacks: {eat: rice, each: 30 g}
"""
GOOD: dict[str, str] = {
    "recipes/bean-pot.yaml": BEAN_POT,
    "batches/beans.yaml": BEANS_IN_MAY,
    "trips/tarrow.yaml": TRIP,
}


def write(folder: Path, files: Mapping[str, str | bytes]) -> Path:
    """Write files below a folder; texts may be indented as a whole."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        raw = textwrap.dedent(text).encode() if isinstance(text, str) else text
        path.write_bytes(raw)
    return folder


def read(
    folder: Path, files: Mapping[str, str | bytes], low: Mapping[str, str] | None = SMALL
) -> Folder:
    """Read files as a user's folder called `my`, over a layer of other files or over none."""
    layers = [Layer(write(folder / "my", files), "my")]
    if low is not None:
        layers.insert(0, Layer(write(folder / "small", low), "small", ALWAYS_SHIPPED))
    return read_folder(layers)


def read_over_shipped(folder: Path, files: Mapping[str, str | bytes]) -> Folder:
    """Read files as a user's folder over the foods, gear, cautions and sources that ship."""
    own = Layer(write(folder / "my", files), "my")
    return read_folder([Layer(SHIPPED, "content", ALWAYS_SHIPPED, vouched=True), own])


def lines(folder: Folder) -> list[str]:
    """Give the problems as they are printed, without the name of the user's folder."""
    return [str(problem).removeprefix("my/") for problem in folder.problems]


def changed(text: str, old: str, new: str) -> str:
    """Spoil a good text in one place."""
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
    return text.replace(old, new)


@dataclass(frozen=True, slots=True)
class Spoilt:
    """A good folder with one or two texts of one file changed, and the lines that must come."""

    what: str
    file: str
    changes: tuple[tuple[str, str], ...]
    expected: tuple[str, ...]

    def __str__(self) -> str:
        """Name the test."""
        return self.what


def told(folder: Path, good: Mapping[str, str], spoilt: Spoilt) -> tuple[str, ...]:
    """Give the problems of a folder that was good before one of its files was changed."""
    text = good[spoilt.file]
    for old, new in spoilt.changes:
        text = changed(text, old, new)
    return tuple(lines(read(folder, {**good, spoilt.file: text})))


def dangling(content: Content) -> list[str]:
    """Give every id that a record names and no record has."""
    gear = content.gear
    named: list[tuple[str, str, Iterable[str]]] = []
    for stove in gear.stoves.values():
        named.append((stove.id, stove.burns, gear.fuels))
    for caution in content.cautions.values():
        named += [(caution.id, each, content.sources) for each in caution.sources]
    for food in content.foods.values():
        named += [(food.id, each, content.sources) for each in (food.source,) if each]
    eaten = {*content.foods, *content.recipes}
    for recipe in content.recipes.values():
        named += [(recipe.id, each.food or each.recipe or "", eaten) for each in recipe.uses]
        ids = {each.id for each in recipe.uses}
        named += [(recipe.id, each, ids) for step in recipe.steps for each in step.uses]
    for batch in content.batches.values():
        named.append((batch.id, batch.holds, eaten))
        if batch.packs and batch.packs.packaging:
            named.append((batch.id, batch.packs.packaging, gear.packaging))
    for trip in content.trips.values():
        named += [(trip.id, each, gear.stoves) for each in trip.stoves]
        named += [(trip.id, each, gear.pots) for each in trip.pots]
        named += [(trip.id, each, gear.irons) for each in (trip.fire.irons if trip.fire else ())]
        items = [item for day in trip.days for meal in day.meals for item in meal.items]
        for item in items:
            named += [(trip.id, each, content.recipes) for each in (item.recipe,) if each]
            named += [(trip.id, each, eaten) for each in (item.food,) if each]
            named += [(trip.id, batch, content.batches) for _, batch in item.batches]
            named += [(trip.id, each, [p.name for p in trip.party]) for each in item.eaters]
    return [f"{by} names {name!r}" for by, name, there in named if name not in there]
