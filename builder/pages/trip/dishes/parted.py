"""What is said where a pot is parted: what to take out of it, and where that goes on."""

from __future__ import annotations

from builder.model.kit import Parting, PlannedMeal, PlannedStep
from builder.pages.figures import Figures
from builder.record import replace


def taken_out_said(figures: Figures, parting: Parting) -> str:
    """Say what to take out of the pot now, and into what."""
    return figures.say.count(
        "Take out {n} portion, about {mass}, into {pot}. It goes on as {dish}.",
        "Take out {n} portions, about {mass}, into {pot}. They go on as {dish}.",
        int(parting.heads),
        mass=figures.plain(parting.taken_g, "mass_g"),
        pot=parting.pot,
        dish=parting.title,
    )


def begins_said(figures: Figures, dish: str) -> str:
    """Say in whose pot a dish is cooked at first."""
    return figures.say(
        "Its first steps are cooked in the pot of {dish}, together. Go on here when it is taken "
        "out of that.",
        dish=dish,
    )


def for_all_in_pot(meal: PlannedMeal, step: PlannedStep) -> PlannedMeal:
    """Give a dish with the amounts of a step: for those, too, whose portions are taken out later.

    They follow from more than this dish.
    """
    if not step.together:
        return meal
    together = {each.id: each for each in step.ingredients}
    ingredients = tuple(together.get(each.id, each) for each in meal.ingredients)
    return replace(meal, ingredients=ingredients)
