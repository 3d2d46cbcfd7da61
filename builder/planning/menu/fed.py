"""Who gets nothing where others eat, or too little of a day although the party has enough."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from builder.model.figure import add
from builder.model.kit import KitDay, LeftOut, PlannedMeal
from builder.model.recipe import MEALS, MealName
from builder.model.trip import Day, Trip

# Below this share of their own need somebody goes short while the party as a whole does not.
LEAST_OF_DAY_SHARE = 0.75
# Hot drinks are no meal: nobody goes hungry without a coffee.
MEALTIMES: tuple[MealName, ...] = tuple(meal for meal in MEALS if meal != "drinks")


def eaten_kcal(meals: Sequence[PlannedMeal], name: str) -> float:
    """Give the food energy of what one person gets of some meals."""
    return eaten(meals, name, lambda meal: meal.nutrition.energy_kcal)


def eaten(meals: Sequence[PlannedMeal], name: str, holds: Callable[[PlannedMeal], float]) -> float:
    """Give what one person gets of what some meals hold."""
    return add(plate_share(meal, name) * holds(meal) for meal in meals if name in meal.eaters)


def plate_share(meal: PlannedMeal, name: str) -> float:
    """Give the share of a meal that one person gets."""
    return meal.plate_shares[meal.eaters.index(name)] if name in meal.eaters else 0.0


def left_out(trip: Trip, days: Sequence[KitDay], name: str) -> tuple[LeftOut, ...]:
    """Give the meals that one person has nothing of, and the days that feed them too little."""
    return tuple(_left_out(trip, days, name))


def _left_out(trip: Trip, days: Sequence[KitDay], name: str) -> Iterator[LeftOut]:
    for day, planned in zip(trip.days, days, strict=True):
        share = _share_of_need(planned, name)
        missed = [meal for meal in MEALTIMES if _misses(day, meal, name)]
        for meal in missed:
            yield LeftOut(day.number, meal, share, name in day.without_of(meal))
        need, eaten = planned.energy_need_kcal, planned.nutrition.energy_kcal
        if share < LEAST_OF_DAY_SHARE and eaten >= LEAST_OF_DAY_SHARE * need:
            meant = any(name in names for _, names in day.without)
            yield LeftOut(day.number, None, share, meant)


def _share_of_need(day: KitDay, name: str) -> float:
    need = day.person(name).energy_need_kcal
    return eaten_kcal(day.meals, name) / need if need > 0 else 1.0


def _misses(day: Day, mealtime: MealName, name: str) -> bool:
    """Tell whether others eat at a mealtime and one person does not."""
    eaters = {
        each
        for meal in day.meals
        if meal.meal == mealtime
        for item in meal.items
        for each in item.eaters
    }
    return bool(eaters) and name not in eaters
