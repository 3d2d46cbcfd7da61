"""How long soaked food usually takes, and how long it may stand once it is wet."""

from __future__ import annotations

import math

from builder.formulas.rehydration import SOAK_MIN, soak_range_min
from builder.model.content import Content
from builder.model.figure import named
from builder.model.kit import PlannedIngredient, PlannedMeal, PlannedStep
from builder.model.looks import Soaking, Span
from builder.model.recipe import Recipe
from builder.planning.cooking import (
    may_stand_overnight,
    stands_at_most_min,
    stands_min,
)
from builder.planning.foods import soaks_as

# Meals that are reached after some way; breakfast is eaten where one slept.
_AFTER_SOME_WAY = ("lunch", "dinner", "snacks")


def soaking(
    meal: PlannedMeal, number: int, travel_hours: float, content: Content, recipe: Recipe
) -> Soaking | None:
    """Look at a step of a meal that soaks dried food in water; None for any other."""
    step = meal.steps[number]
    dried = _dried(step, content)
    if step.do != "soak" or step.water_ml <= 0 or not dried:
        return None
    known = [
        (found, each.name)
        for each in dried
        if (found := _usual_min(each, step.hot, content)) is not None
    ]
    usual, slowest = max(known, key=lambda each: each[0][::-1], default=(None, ""))
    air_c = meal.conditions.air_high_c
    at_most_min = stands_at_most_min(air_c)
    is_cold = math.isinf(at_most_min)
    overnight = may_stand_overnight(recipe, number, content, air_c)
    stands = stands_min(recipe, number, [each.minutes for each in meal.steps])
    too_long = stands > at_most_min and not overnight
    return Soaking(
        slowest=slowest,
        usual_min=usual,
        uptake_ml=_uptake_ml(meal, number, recipe),
        stands_h=None if is_cold else named(at_most_min, "at_most_min", "fsis-two-hours") / 60,
        too_long=too_long,
        overnight=overnight,
        # In such cold a bottle would freeze before it softens anything.
        in_bottle=not is_cold and not too_long and _goes_in_bottle(meal, step, travel_hours, usual),
    )


def _dried(step: PlannedStep, content: Content) -> list[PlannedIngredient]:
    """Give what was dried among what soaks."""
    return [
        each
        for each in step.ingredients
        if each.dried_by or (each.food and content.foods[each.food].state == "dried")
    ]


def _usual_min(each: PlannedIngredient, hot: bool, content: Content) -> Span | None:
    """Give the usual minutes; fruit is known in warm water only, whole meals not at all."""
    food = content.foods.get(each.food or "")
    key = (soaks_as(food, each.dried_by), "boiling" if hot else "cold")
    if key not in SOAK_MIN:
        return None
    fewest, most = soak_range_min(*key)
    by = "msu-preserving" if key[1] == "cold" else "extension-rehydration"
    words = f"soak_min ({key[0]}, {key[1]})"
    return named(fewest, f"fewest {words}", by), named(most, f"most {words}", by)


def _uptake_ml(meal: PlannedMeal, number: int, recipe: Recipe) -> Span | None:
    """Give what the food usually takes up and what is poured, where that is what puts it back."""
    step = recipe.steps[number]
    if not step.water_auto or step.water_ml:
        return None
    planned = meal.steps[number]
    return planned.taken_up_ml, planned.water_ml


def _goes_in_bottle(
    meal: PlannedMeal, step: PlannedStep, travel_hours: float, usual: Span | None
) -> bool:
    """Tell whether soaking may begin on the way: cold, nothing raw, and worth it.

    A cold meal is ready when one stops; what is cooked in camp gains by it where the food
    usually takes longer than the recipe gives it.
    """
    if step.hot or not travel_hours or meal.meal not in _AFTER_SOME_WAY:
        return False
    if any(each.is_raw_animal for each in meal.ingredients):
        return False
    return meal.cooked_on is None or (usual is not None and usual[1] > step.minutes)
