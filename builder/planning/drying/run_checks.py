"""Checks of what the log put into one run: what may not share it, and what is too much for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from builder.model.content import Content
from builder.model.gear import Dryer
from builder.planning.batches import Judged
from builder.planning.drying.rules import APART, Goes, most_load_g
from builder.planning.stock import Stock
from builder.problems import Problem

_SLACK = 1 + 1e-9
# Why two batches lie apart, and whether that still matters once they are dried.
_WHY: dict[str, tuple[str, bool]] = {
    "temperatures": ("no warmth of the air suits both", False),
    "raw-alone": ("raw animal food dries alone", True),
    "meat-and-ready": ("meat and fish lie apart from what is eaten as it is", True),
    "smell-and-fruit": ("fruit takes the smell of onion, garlic and fish", False),
}


def run_problems(content: Content, stock: Stock) -> Iterator[Problem]:
    """Warn of runs that hold what may not share a dryer, or more than it takes."""
    runs: dict[str, list[Judged]] = {}
    for each in stock.judged.values():
        if each.batch.run:
            runs.setdefault(each.batch.run, []).append(each)
    ready = _eaten_as_they_are(content)
    for name, batches in runs.items():
        yield from _apart(name, batches, ready)
        dryer = next((each.batch.dryer for each in batches if each.batch.dryer), None)
        if dryer is not None:
            yield from _too_much(name, batches, content.gear.dryers[dryer])


def _eaten_as_they_are(content: Content) -> frozenset[str]:
    """Give the batches that trips eat without cooking them."""
    return frozenset(
        batch
        for trip in content.trips.values()
        for day in trip.days
        for meal in day.meals
        for item in meal.items
        if item.recipe is None
        for _, batch in item.batches
    )


def _apart(name: str, batches: Sequence[Judged], ready: frozenset[str]) -> Iterator[Problem]:
    for one, other in combinations(batches, 2):
        dried = one.batch.done is not None and other.batch.done is not None
        goes = [_goes(each, each.batch.id in ready) for each in (one, other)]
        for rule, apart in APART.items():
            why, lasts = _WHY[rule]
            if apart(*goes) and (lasts or not dried):
                yield Problem(
                    other.batch.places.of("run"),
                    "run-shared",
                    f"batches {one.batch.id} and {other.batch.id} share the run {name}: {why}",
                    "mind the cautions of both" if dried else "dry them in two runs",
                    "warning",
                )


def _goes(judged: Judged, is_ready: bool) -> Goes:
    batch = judged.batch
    before = batch.heated if batch.heated and batch.heated.when == "before" else None
    # A step that was not hot enough leaves it raw.
    heated = None if judged.stays_raw else before
    return Goes(judged.substance, batch.method, is_ready, heated)


def _too_much(name: str, batches: Sequence[Judged], dryer: Dryer) -> Iterator[Problem]:
    load_g = sum(each.batch.fresh_g or 0.0 for each in batches)
    water_g = sum(each.water_removed_g for each in batches)
    most_g = most_load_g(dryer)
    if load_g > most_g * _SLACK:
        yield _over(name, batches, dryer, f"{load_g:.0f} g fresh", f"{most_g:.0f} g")
    if dryer.ice_g is not None and water_g > dryer.ice_g * _SLACK:
        yield _over(
            name, batches, dryer, f"{water_g:.0f} g of water", f"{dryer.ice_g:.0f} g of ice"
        )


def _over(name: str, batches: Sequence[Judged], dryer: Dryer, held: str, most: str) -> Problem:
    names = ", ".join(each.batch.id for each in batches)
    return Problem(
        batches[-1].batch.places.of("run"),
        "run-too-full",
        f"run {name} holds {held} ({names}), and {dryer.id} takes {most}",
        "split it over two runs, or check the weights",
        "warning",
    )
