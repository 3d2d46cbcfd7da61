"""Conditions of the cautions about food past its date."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formulas.keeping import HALVING_K
from builder.model.food import BY_CENTRE_TEMPERATURE
from builder.planning.batches import Judged, name_now
from builder.planning.cautions.facts import Facts, Finding, batch_said, in_meal, meal_said
from builder.speech import later


def past_best_before(facts: Facts) -> Iterator[Finding]:
    """A batch without meat, fish and egg, eaten after its date."""
    yield from _past_date(facts, has_animal=False)
    yield from _carried_warm(facts, has_animal=False)


def animal_food_past_best_before(facts: Facts) -> Iterator[Finding]:
    """A batch with meat, poultry, fish or egg, eaten after its date."""
    yield from _past_date(facts, has_animal=True)
    yield from _carried_warm(facts, has_animal=True)


def start_not_told(facts: Facts) -> Iterator[Finding]:
    """Batches with a date, and no date of the trip to hold it against."""
    if facts.trip.start is not None:
        return
    dates = [each.best_before for each in facts.batches if each.best_before]
    if dates:
        says = facts.say(
            "Nobody wrote down when the trip starts. The first pack is best before {date}.",
            date=facts.say.short_date(min(dates)),
        )
        yield Finding(says, "drying")


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


def _carried_warm(facts: Facts, has_animal: bool) -> Iterator[Finding]:
    """Find what was in time where it was kept, and is not where it is carried: a frozen batch."""
    if facts.trip.start is None:
        return
    for meal, portion in facts.portions():
        judged = portion.judged
        if judged is None or judged.batch.is_bought or judged.best_before is None:
            continue
        left = (judged.best_before - facts.trip.start).days
        if left < meal.day - 1 or _holds_animal(judged) != has_animal:
            continue  # past its date anyway, which is told
        if _days_used(facts, meal.day, judged) > left:
            says = facts.say(
                "{batch} in {meal}: its date holds where it is kept, at {cold}; carried so warm, "
                "it is past by then.",
                batch=batch_said(facts, judged),
                meal=meal_said(facts.say, meal),
                cold=facts.shown(judged.batch.kept_at_c, "temperature_c"),
            )
            yield in_meal(says, meal, batch=judged.batch.id, pack=True)


def _days_used(facts: Facts, day: int, judged: Judged) -> float:
    """Give the days at home that the days of the trip before one take, in their mean air."""
    kept_c = judged.batch.kept_at_c
    camps = (each.conditions for each in facts.days[: day - 1])
    means_c = ((at.air_low_c + at.air_high_c) / 2 for at in camps)
    return sum(max(1.0, 2 ** ((mean_c - kept_c) / HALVING_K)) for mean_c in means_c)


def _holds_animal(judged: Judged) -> bool:
    return bool(judged.substance.kinds & BY_CENTRE_TEMPERATURE)
