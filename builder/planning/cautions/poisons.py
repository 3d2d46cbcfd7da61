"""Conditions of the cautions about foods that are poisonous unless treated right."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.cautions.facts import Facts, Finding, called, holds

# Words that mark a gathered mushroom even where the food's `beware` was forgotten.
GATHERED_WORDS = ("wild mushroom", "chanterelle", "porcini", "bolete", "morel", "cep,")


def kidney_beans(facts: Facts) -> Iterator[Finding]:
    """Kidney beans that have not been boiled yet."""
    for meal, portion in facts.portions():
        for food in portion.substance.foods:
            marked = "kidney-bean" in food.beware or "kidney bean" in called(food)
            if marked and food.state in ("raw", "dried"):
                yield holds(facts, food, meal)


def wild_mushrooms(facts: Facts) -> Iterator[Finding]:
    """Mushrooms that somebody gathered."""
    for meal, portion in facts.portions():
        for food in portion.substance.foods:
            by_name = any(word in f"{called(food)}," for word in GATHERED_WORDS)
            if "wild-mushroom" in food.beware or by_name:
                yield holds(facts, food, meal)
