"""Which water of a meal is drunk as it is poured, so that it must have been made safe before."""

from __future__ import annotations

from builder.model.kit import PlannedMeal, PlannedStep, WorkStep


def stays_unboiled(meal: PlannedMeal, place: int) -> bool:
    """Tell whether the water of a step is never boiled: mixed or soaked cold, no boil after it."""
    if meal.conditions.water_source == "tap":
        return False
    return meal.steps[place].water_ml > 0 and not any(map(_boils, meal.steps[place:]))


def pours_unboiled(meal: PlannedMeal, step: WorkStep) -> bool:
    """Tell the same of a step in the order of work, which is one potful of a step of the meal."""
    return any(
        stays_unboiled(meal, place)
        for place, each in enumerate(meal.steps)
        if each.do == step.do and each.hot == step.hot
    )


def _boils(step: PlannedStep) -> bool:
    return step.do == "boil" or (step.do == "soak" and step.hot)
