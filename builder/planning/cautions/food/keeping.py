"""Conditions of the cautions about food past its date."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.food import BY_CENTRE_TEMPERATURE
from builder.planning.batches import Judged, name_now
from builder.planning.cautions.facts import Facts, Finding, batch_said, in_meal, meal_said
from builder.speech import later


def past_best_before(facts: Facts) -> Iterator[Finding]:
    """A batch without meat, fish and egg, eaten after its date."""
    yield from _past_date(facts, has_animal=False)


def animal_food_past_best_before(facts: Facts) -> Iterator[Finding]:
    """A batch with meat, poultry, fish or egg, eaten after its date."""
    yield from _past_date(facts, has_animal=True)


def _past_date(facts: Facts, has_animal: bool) -> Iterator[Finding]:
    for meal, portion in facts.portions():
        judged = portion.judged
        date = facts.trip.date_of(meal.day)
        if (
            judged
            and judged.best_before
            and date
            and date > judged.best_before
            and _holds_animal(judged) == has_animal
        ):
            said, batch = later("{batch} in {meal} was best before {date}."), ""
            if meal.planned.title == name_now(facts.say, judged):  # one name will do
                said = later("{meal}: batch {batch} was best before {date}.")
                batch = judged.batch.id
            says = facts.say(
                said,
                batch=batch or batch_said(facts, judged),
                meal=meal_said(facts.say, meal),
                date=facts.say.short_date(judged.best_before),
            )
            yield in_meal(says, meal, batch=judged.batch.id, pack=True)


def _holds_animal(judged: Judged) -> bool:
    return bool(judged.substance.kinds & BY_CENTRE_TEMPERATURE)
