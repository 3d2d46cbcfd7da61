"""Conditions of the cautions about food past its date, wet again, or left over."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formulas.safety import HOT_ABOVE_C
from builder.planning.cautions.facts import (
    Facts,
    Finding,
    batch_said,
    days_said,
    meal_said,
    page_of,
)


def past_best_before(facts: Facts) -> Iterator[Finding]:
    """A batch eaten after its date."""
    for meal, portion in facts.portions():
        judged = portion.judged
        date = facts.trip.date_of(meal.day)
        if judged and judged.best_before and date and date > judged.best_before:
            says = facts.say(
                "{batch} in {meal} was best before {date}.",
                batch=batch_said(facts, judged),
                meal=meal_said(facts.say, meal),
                date=facts.say.short_date(judged.best_before),
            )
            yield Finding(says, page_of(meal))


def two_hours(facts: Facts) -> Iterator[Finding]:
    """Food that is wet again, or cooked."""
    wet = [
        meal
        for meal in facts.meals()
        if meal.planned.recipe and meal.planned.meal != "drinks" and meal.planned.water_ml > 0
    ]
    if not wet:
        return
    hot = [day.day for day in facts.days if day.conditions.air_high_c > HOT_ABOVE_C]
    because = facts.say(
        "Food is soaked or cooked on {days}.", days=days_said(facts.say, (meal.day for meal in wet))
    )
    if hot:
        hour = facts.say(
            "The air is above {limit} on {days}: one hour only.",
            limit=facts.shown(HOT_ABOVE_C, "temperature_c"),
            days=days_said(facts.say, hot),
        )
        because = f"{because} {hour}"
    yield Finding(because, "cautions")


def leftovers(facts: Facts) -> Iterator[Finding]:
    """Cooked meals, of which something may be left."""
    cooked = [meal.day for meal in facts.cooked() if meal.planned.meal != "drinks"]
    if cooked:
        days = days_said(facts.say, cooked)
        yield Finding(facts.say("Meals are cooked on {days}.", days=days), "cautions")
