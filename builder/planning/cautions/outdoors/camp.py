"""Conditions of the cautions about life at camp."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.cautions.facts import Facts, Finding, on_days
from builder.speech import later


def animals_and_food(facts: Facts) -> Iterator[Finding]:
    """A night outdoors with food."""
    nights = [day.day for day in facts.days if not day.ends_home]
    if nights and facts.trip.shelter != "hut":
        yield on_days(facts, later("You camp with food on {days}."), nights, "cautions")


def depot(facts: Facts) -> Iterator[Finding]:
    """Food that waits at a camp: nobody knows how warm, and whether it is still there."""
    for each in facts.trip.depots:
        says = later("Food of {days} waits at the camp of day {n}.")
        yield on_days(facts, says, each.holds, "carry", n=str(each.camp))


def dishwater(facts: Facts) -> Iterator[Finding]:
    """Washing up at camp."""
    days = [day.day for day in facts.days if day.water.washing_ml > 0]
    if days:
        yield on_days(facts, later("You wash up on {days}."), days, "water")


def clean_hands(facts: Facts) -> Iterator[Finding]:
    """Anybody eats anything."""
    if any(True for _ in facts.meals()):
        yield Finding(facts.say("You handle food for others on this trip."), "cautions")
