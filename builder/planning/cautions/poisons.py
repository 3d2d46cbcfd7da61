"""Conditions of the cautions about foods that are poisonous unless treated right."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.cautions.facts import Facts, Finding, holds
from builder.planning.hazards import hazards_of


def kidney_beans(facts: Facts) -> Iterator[Finding]:
    """Kidney beans that have not been boiled yet."""
    for meal, portion in facts.portions():
        for food in portion.substance.foods:
            if "kidney-bean" in hazards_of(food) and food.state in ("raw", "dried"):
                yield holds(facts, food, meal)


def wild_mushrooms(facts: Facts) -> Iterator[Finding]:
    """Mushrooms that somebody gathered."""
    for meal, portion in facts.portions():
        for food in portion.substance.foods:
            if "mushroom-gathered" in hazards_of(food):
                yield holds(facts, food, meal)
