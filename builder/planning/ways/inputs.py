"""What may be changed of the ways to dry a food: each number that somebody told, or did not tell.

The ways are worked out once more from a content in which each of these is a leaf of its own, so
that a page can work them out again for other ones. What was not told stands for one there: whoever
changes it tells it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal

from builder.model.content import Content
from builder.model.figure import Figure, Found
from builder.model.gear import LOOSE_PACKAGING, Dryer
from builder.model.on_asking import with_instead
from builder.planning.ways.records import Ways
from builder.record import dataclass, replace

What = Literal[
    "mass",
    "portion",
    "electricity",
    "bag",
    "price",
    "lasts",
    "runs-a-year",
    "power",
    "food-price",
    "refuse",
    "dried-price",
]
# Some runs, for which what a dryer has saved is asked.
AFTER_RUNS = "after-runs"


@dataclass(frozen=True, slots=True)
class Input:
    """One of them, by a key; the value is None where it was not told."""

    key: str
    what: What
    of: str  # the id of the dryer or the food that it is told of; "" for all ways
    value: float | None


@dataclass(frozen=True, slots=True)
class Changeable:
    """The ways of a food as they hang on what may be changed."""

    inputs: tuple[Input, ...]
    ways: Ways  # as they are told
    asked: Ways  # the same, on leaves by these keys


def leaf(key: str, value: float | None) -> Figure:
    """Give the leaf of a key."""
    return Figure(1.0 if value is None else value, Found(key, "asked on the page"))


def inputs_of(ways: Ways, content: Content) -> Iterator[Input]:
    """Give all that may be changed of the ways of a food."""
    home, food = content.home, content.foods.get(ways.holds)
    packaging = content.gear.packaging.get(home.new_batch.packaging or LOOSE_PACKAGING)
    yield Input("mass", "mass", "", ways.fresh_g)
    yield Input("portion", "portion", "", home.portion_g)
    yield Input("electricity", "electricity", "", home.electricity_per_kwh)
    if packaging is not None:
        yield Input("bag", "bag", "", packaging.price)
    for dryer in _machines(ways, content):
        yield Input(f"{dryer.id} price", "price", dryer.id, dryer.price)
        yield Input(f"{dryer.id} lasts", "lasts", dryer.id, dryer.lasts_runs)
        yield Input(f"{dryer.id} runs-a-year", "runs-a-year", dryer.id, dryer.runs_a_year)
        if dryer.power_w is not None:
            yield Input(f"{dryer.id} power", "power", dryer.id, dryer.power_w)
    if food is not None:
        yield Input(f"{food.id} food-price", "food-price", food.id, food.price_per_kg)
        yield Input(f"{food.id} refuse", "refuse", food.id, food.refuse_share or 0.0)
        yield Input(f"{food.id} dried-price", "dried-price", food.id, food.dried_price_per_kg)


def with_leaves(inputs: Sequence[Input], content: Content) -> Content:
    """Give a content in which each input is a leaf of its own."""
    told = {(each.of, each.what): leaf(each.key, each.value) for each in inputs}
    home, gear = content.home, content.gear
    named = home.new_batch.packaging or LOOSE_PACKAGING
    packaging = dict(gear.packaging)
    if ("", "bag") in told:
        packaging[named] = replace(packaging[named], price=told["", "bag"])
    dryers = dict(gear.dryers)
    for of in {each.of for each in inputs if each.what == "price"}:
        dryers[of] = replace(
            dryers[of],
            price=told[of, "price"],
            lasts_runs=told[of, "lasts"],
            runs_a_year=told[of, "runs-a-year"],
            power_w=told.get((of, "power")),
        )
    foods = {
        of: replace(
            content.foods[of],
            price_per_kg=told[of, "food-price"],
            refuse_share=told[of, "refuse"],
            dried_price_per_kg=told[of, "dried-price"],
        )
        for of in {each.of for each in inputs if each.what == "food-price"}
    }
    return replace(
        content,
        foods=with_instead(content.foods, foods),
        gear=replace(gear, packaging=packaging, dryers=dryers),
        home=replace(
            home,
            portion_g=told["", "portion"],
            electricity_per_kwh=told["", "electricity"],
        ),
    )


def _machines(ways: Ways, content: Content) -> Iterator[Dryer]:
    for way in ways.ways:
        if way.dryer is not None:
            yield content.gear.dryers[way.dryer]
