"""Conditions of the cautions about food that is wet again, or cooked, and stands."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formulas.safety import HOT_ABOVE_C
from builder.planning.cautions.facts import Facts, Finding, food_in, in_meal
from builder.planning.cooking import (
    Wait,
    animal_food_in,
    plant_that_spoils,
    stands_at_most_min,
    waits,
)
from builder.planning.menu import MenuItem
from builder.planning.naming import days_said

_FOR_ROUNDING = 1 + 1e-9


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


def animal_food_standing(facts: Facts) -> Iterator[Finding]:
    """Meat, fish, egg or dairy that a recipe leaves standing for longer than this air lets it.

    What stands longer than in any air is an error of the recipe.
    """
    for meal, wait in _too_long(facts):
        recipe = facts.content.dish(meal.item)
        if animal_food_in(wait, recipe, facts.content):
            yield _stands(facts, meal, wait)


def plant_food_standing(facts: Facts) -> Iterator[Finding]:
    """Plant food that is cooked or eaten uncooked, and stands for longer than this air lets it."""
    for meal, wait in _too_long(facts):
        recipe = facts.content.dish(meal.item)
        if animal_food_in(wait, recipe, facts.content):
            continue
        air_c = meal.planned.conditions.air_high_c
        if plant_that_spoils(wait, recipe, facts.content, air_c):
            yield _stands(facts, meal, wait)


def _too_long(facts: Facts) -> Iterator[tuple[MenuItem, Wait]]:
    for meal in facts.meals():
        if meal.item.recipe:
            minutes = [step.minutes for step in meal.planned.steps]
            at_most_min = stands_at_most_min(meal.planned.conditions.air_high_c)
            if sum(minutes) * _FOR_ROUNDING <= at_most_min:
                continue  # not even all steps together take as long
            for wait in waits(facts.content.dish(meal.item), minutes):
                if wait.minutes > at_most_min:
                    yield meal, wait


def _stands(facts: Facts, meal: MenuItem, wait: Wait) -> Finding:
    air_c = meal.planned.conditions.air_high_c
    says = facts.say(
        "{food} stands wet for {time}. In air of {air} wet food keeps {limit}.",
        food=food_in(facts.say, _as_carried(meal, wait), meal),
        time=facts.shown(wait.minutes, "duration_min"),
        air=facts.shown(air_c, "temperature_c"),
        limit=facts.shown(stands_at_most_min(air_c), "duration_min"),
    )
    return in_meal(says, meal, step=wait.step)


def _as_carried(meal: MenuItem, wait: Wait) -> str:
    """Name what stands as it is packed: mince that was heated before it was dried is not raw."""
    return next(each.planned.name for each in meal.portions if each.planned.id == wait.name)


def leftovers(facts: Facts) -> Iterator[Finding]:
    """Cooked meals, of which something may be left."""
    cooked = [meal.day for meal in facts.cooked() if meal.planned.meal != "drinks"]
    if cooked:
        days = days_said(facts.say, cooked)
        yield Finding(facts.say("Meals are cooked on {days}.", days=days), "cautions")
