"""Which bags to fill for a trip: by day and meal, what to weigh out and which packs to take."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from builder.model.kit import Kit, PlannedMeal
from builder.model.recipe import MealName
from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class Bag:
    """One food of a meal: packs of a batch to take, or so much to weigh out."""

    name: str
    mass_g: float
    batch: str | None
    packs: int  # to open for this meal; 0 where an earlier meal opened what is left
    is_raw: bool


@dataclass(frozen=True, slots=True)
class BaggingMeal:
    """A meal with all that goes with it."""

    day: int
    date: datetime.date | None
    meal: MealName
    title: str
    heads: float
    bags: tuple[Bag, ...]


@dataclass(frozen=True, slots=True)
class TripBags:
    """All meals of a trip, in the order they are eaten."""

    trip: str
    title: str
    start: datetime.date | None
    meals: tuple[BaggingMeal, ...]


def bagging_of(kit: Kit) -> TripBags:
    """Give the bags of a trip."""
    return TripBags(kit.id, kit.title, kit.start, tuple(_meals(kit)))


def _meals(kit: Kit) -> Iterator[BaggingMeal]:
    for day in kit.days:
        for meal in day.meals:
            if bags := tuple(_bags(meal)):
                yield BaggingMeal(day.day, day.date, meal.meal, meal.title, meal.heads, bags)


def _bags(meal: PlannedMeal) -> Iterator[Bag]:
    for each in meal.ingredients:
        if each.amount_g > 0:
            yield Bag(each.name, each.amount_g, each.batch, each.packs, each.is_raw_animal)
