"""What of a plan a line of a review is about: the dishes, or a food wherever it is eaten."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.figure import add
from builder.model.kit import KitDay, PlannedMeal
from builder.model.review import LeftOver
from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class Portion:
    """A dish or a food of one meal as it was planned."""

    title: str
    kcal: float
    mass_g: float  # of a dish as it stands in the pot, with its water


def portions_of(left: LeftOver, days: Sequence[KitDay]) -> tuple[Portion, ...]:
    """Give all that was planned of what was left, on the day and at the meal that it names."""
    return tuple(
        portion
        for day in days
        if left.day in (None, day.day)
        for meal in day.meals
        if left.meal in (None, meal.meal)
        for portion in _portions(left, meal)
    )


def dishes_of(recipe: str, days: Sequence[KitDay]) -> tuple[PlannedMeal, ...]:
    """Give the meals at which a dish is cooked."""
    return tuple(meal for day in days for meal in day.meals if meal.recipe == recipe)


def _portions(left: LeftOver, meal: PlannedMeal) -> Iterator[Portion]:
    kcal = meal.nutrition.energy_kcal
    if left.recipe:
        if meal.recipe == left.recipe:
            pot_g = add((meal.mass_g, meal.water_ml)) - meal.drain_ml
            yield Portion(meal.title, kcal, pot_g)
        return
    if meal.recipe is None and left.food in (meal.food, meal.title):
        yield Portion(meal.title, kcal, meal.mass_g)
        return
    for each in meal.ingredients:
        if meal.recipe and each.food == left.food:
            yield Portion(each.name, each.energy_kcal, each.amount_g)
