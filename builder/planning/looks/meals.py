"""A second look at a meal and at each of its steps."""

from __future__ import annotations

from builder.model.content import Content
from builder.model.kit import PlannedMeal, PlannedStep
from builder.model.recipe import Recipe
from builder.planning.cooking import Hearth
from builder.planning.looks.camp_heat import iron_heat
from builder.planning.looks.keeps_hot import keeps_hot
from builder.planning.looks.labels import meal_label
from builder.planning.looks.offered import offered
from builder.planning.looks.soaking import soaking
from builder.planning.looks.under_pressure import under_pressure
from builder.record import replace


def look_at_meal(
    meal: PlannedMeal, travel_hours: float, hearth: Hearth, content: Content, dish: Recipe | None
) -> PlannedMeal:
    """Give a meal with what else is known of it: its label, its irons, how its steps go.

    `dish` is the recipe as its eaters have it, where it is cooked.
    """

    def looked_at(place: int, step: PlannedStep) -> PlannedStep:
        return replace(
            step,
            keeps_hot=offered(keeps_hot, meal, place),
            soaking=soaking(meal, place, travel_hours, content, dish) if dish else None,
            under_pressure=under_pressure(meal, place, hearth.pots, content),
        )

    return replace(
        meal,
        label=offered(meal_label, meal),
        irons=iron_heat(meal, hearth.irons),
        steps=tuple(looked_at(place, step) for place, step in enumerate(meal.steps)),
    )
