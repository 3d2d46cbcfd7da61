"""What of the fourteen allergens a meal holds, may hold, or nobody told."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.kit import PlannedMeal
from builder.planning.menu import avoided_said
from builder.speech import Speech


def allergens_said(say: Speech, meal: PlannedMeal) -> tuple[str, ...]:
    """Say what the foods of a meal tell; where they tell none of the fourteen, nothing is said."""
    said = []
    if meal.allergens:
        said.append(say("Contains: {allergens}.", allergens=_listed(say, meal.allergens)))
    if meal.may_contain:
        said.append(say("May contain: {allergens}.", allergens=_listed(say, meal.may_contain)))
    if meal.not_told:
        # Names of foods hold commas.
        said.append(say("Allergens not given: {foods}.", foods="; ".join(meal.not_told)))
    return tuple(said)


def _listed(say: Speech, allergens: Sequence[str]) -> str:
    return say.listed(avoided_said(say, name) for name in allergens)
