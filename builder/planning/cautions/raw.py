"""Conditions of the cautions about raw animal food."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.cautions.facts import Facts, Finding, meal_said, of_portion, page_of
from builder.speech import later


def raw_dried_animal_food(facts: Facts) -> Iterator[Finding]:
    """Raw meat, poultry, fish or egg that was dried without being heated through."""
    for meal, portion in facts.portions():
        if portion.planned.is_raw_animal and portion.planned.dried_by:
            food = portion.substance.name  # as it went into the dryer
            if portion.planned.batch:
                food = facts.say("{food} (batch {id})", food=food, id=portion.planned.batch)
            reach = meal.planned.reach_c
            dish = meal_said(facts.say, meal)
            says = (
                facts.say(
                    "{food} in {meal} was dried raw. Cook it until the middle reaches {heat}.",
                    food=food,
                    meal=dish,
                    heat=facts.say.show_at_least(reach, facts.trip.units),
                )
                if reach
                else facts.say("{food} in {meal} was dried raw.", food=food, meal=dish)
            )
            yield Finding(says, page_of(meal))


def raw_animal_food(facts: Facts) -> Iterator[Finding]:
    """Raw meat, poultry, fish or egg carried as it is."""
    for meal, portion in facts.portions():
        if portion.planned.is_raw_animal and not portion.planned.dried_by:
            yield of_portion(facts, later("{food} in {meal} is carried raw."), portion, meal)
