"""Which dishes can be eaten without any heat: soaked in cold water, or as they are."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.content import Content
from builder.model.kit import PlannedIngredient, PlannedMeal
from builder.model.recipe import HEATING

# Kinds that people eat raw, and so dried raw too. Vegetables are left out: many are not.
_EATEN_RAW = frozenset({"fruit", "nut", "fat", "sugar", "herb", "dairy"})
_DONE = frozenset({"cooked", "ready"})


def needs_heat(meal: PlannedMeal) -> bool:
    """Tell whether a meal needs a stove, a fire or embers."""
    return meal.heat_kj > 0 or any(step.do in HEATING or step.hot for step in meal.steps)


def can_soak_cold(meal: PlannedMeal, content: Content) -> bool:
    """Tell whether a cooked dish may be soaked cold instead; what is not known may not.

    Drinks are left out, and so is what is baked or pressed of dough.
    """
    if meal.meal == "drinks" or any(step.do in ("press", "bake", "fry") for step in meal.steps):
        return False
    return meal.reach_c is None and all(_needs_no_heat(meal.ingredients, content))


def _needs_no_heat(ingredients: Iterable[PlannedIngredient], content: Content) -> Iterable[bool]:
    for each in ingredients:
        if each.is_raw_animal or each.steeps:
            yield False
        elif each.recipe is not None:  # a whole dish that was cooked before it was dried
            yield True
        else:
            food = content.foods.get(each.food or "")
            yield (
                food is not None
                and not food.is_raw_animal
                and (food.state in _DONE or food.kind in _EATEN_RAW)
            )
