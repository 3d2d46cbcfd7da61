"""Conditions of the cautions about how a dryer was filled, and what the sun dries."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from builder.model.batch import Batch
from builder.model.gear import Dryer
from builder.model.kit import Spot
from builder.planning.batches import Judged
from builder.planning.cautions.facts import Facts, Finding, batch_said, of_batch
from builder.planning.foods import called
from builder.speech import later

# Acid enough for the sun, in English and German, and in Norwegian.
_TOMATO = "tomat"

# A run's own name, or else its dryer and the day it ended.
RunKey = str | tuple[str, datetime.date]


def raw_and_cooked_in_one_run(facts: Facts) -> Iterator[Finding]:
    """Raw animal food in the dryer together with what is not, and the trip eats of either."""
    for run in _runs(facts):
        raw = [each for each in run if _went_in_raw(each)]
        other = [each for each in run if not _went_in_raw(each)]
        if not raw or not other:
            continue
        for judged in other:
            if judged in facts.batches:
                says = later("{batch} shared the dryer with raw food: {others}.")
                yield of_batch(facts, says, judged, others=_listed(facts, raw))


def _went_in_raw(judged: Judged) -> bool:
    """Tell whether it was raw in the dryer, whatever was done to it afterwards."""
    heated = judged.batch.heated
    before = heated is not None and heated.when == "before"
    return judged.substance.is_raw_animal and not (before and not judged.stays_raw)


def overloaded_dryer(facts: Facts) -> Iterator[Finding]:
    """More in the dryer than it takes, or more water than it holds as ice."""
    for run in _runs(facts):
        named = next((each.batch.dryer for each in run if each.batch.dryer), None)
        eaten = next((each.batch.id for each in run if each in facts.batches), None)
        if named is None or eaten is None:
            continue
        for because in _too_much(facts, facts.content.gear.dryers[named], run):
            yield Finding(because, "drying", Spot(batch=eaten))


def _too_much(facts: Facts, dryer: Dryer, run: list[Judged]) -> Iterator[str]:
    load_g = sum(each.batch.fresh_g or 0.0 for each in run)
    water_g = sum(each.water_removed_g for each in run)
    if load_g > dryer.load_g * (1 + 1e-9):
        yield facts.say(
            "{batches}: {load} at once in {dryer}, which takes {limit}.",
            batches=_listed(facts, run),
            load=facts.shown(load_g, "mass_g"),
            dryer=facts.say.name(dryer.name),
            limit=facts.shown(dryer.load_g, "mass_g"),
        )
    if dryer.ice_g is not None and water_g > dryer.ice_g * (1 + 1e-9):
        yield facts.say(
            "{batches}: {water} of water to draw out in {dryer}, which holds {limit} of ice.",
            batches=_listed(facts, run),
            water=facts.shown(water_g, "mass_g"),
            dryer=facts.say.name(dryer.name),
            limit=facts.shown(dryer.ice_g, "mass_g"),
        )


def _listed(facts: Facts, batches: list[Judged]) -> str:
    return facts.say.listed(batch_said(facts, each) for each in batches)


def _runs(facts: Facts) -> list[list[Judged]]:
    """Give the runs that dried what the trip eats, each with all that shared the dryer.

    They are known as far as a batch's run, or its dryer and day, are told. A trip that eats of
    none looks through no log.
    """
    eaten = {key for each in facts.batches if (key := _run_of(each.batch))}
    runs: dict[RunKey, list[Judged]] = {}
    for judged in facts.judged.values() if eaten else ():
        key = _run_of(judged.batch)
        if key in eaten:
            runs.setdefault(key, []).append(judged)
    return list(runs.values())


def _run_of(batch: Batch) -> RunKey | None:
    if batch.run:
        return batch.run
    day = batch.done or batch.planned
    return (batch.dryer, day) if batch.dryer and day else None


def sun_dried_vegetables(facts: Facts) -> Iterator[Finding]:
    """Vegetables dried in the sun, other than tomatoes and herbs."""
    for judged in facts.batches:
        if judged.batch.method == "sun" and any(
            food.kind == "vegetable" and food.dry_as != "tomato" and _TOMATO not in called(food)
            for food in judged.substance.foods
        ):
            yield of_batch(facts, later("{batch} was dried in the sun."), judged)
