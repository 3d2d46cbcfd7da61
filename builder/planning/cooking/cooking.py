"""Cooks a recipe in one pot, for this party at this height."""

from __future__ import annotations

from collections.abc import Mapping

from builder.model.figure import counted
from builder.model.kit import Conditions
from builder.model.recipe import Recipe
from builder.planning.cooking.cooked import Cooked
from builder.planning.cooking.hearth import Hearth
from builder.planning.cooking.heating import heated
from builder.planning.cooking.walking import PotState, Ready, walked


def cook(
    recipe: Recipe,
    ready: Mapping[str, Ready],
    servings: float,
    conditions: Conditions,
    hearth: Hearth,
    *,
    has_embers: bool = False,
) -> Cooked:
    """Cook a recipe for so many servings: water, potfuls, presses, heat, minutes.

    Where another dish of the same meal `has_embers`, they are not made a second time.
    """
    state = PotState()
    steps = tuple(walked(state, recipe, ready, servings, conditions, hearth=hearth))
    fires = counted(0 if has_embers else 1, "fires")
    return heated(recipe, state, steps, conditions, hearth, fires=fires)
