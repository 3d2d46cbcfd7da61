"""Chooses the packs that trips leave to the tool: `from: auto`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeVar

from builder.model.batch import Method
from builder.model.content import Content
from builder.model.trip import ENGLISH, MealItem, Trip
from builder.planning.batches import Judged
from builder.planning.stock.checks import judge_all
from builder.planning.stock.packs import (
    Taking,
    all_takings,
    all_that_came_back,
    in_time,
    is_overdrawn,
    takings_of,
)
from builder.planning.stock.proposals import first_expired, fits, may_be_offered
from builder.record import dataclass, replace
from builder.speech import speech_of

_Of = TypeVar("_Of")


@dataclass(frozen=True, slots=True)
class IngredientLine:
    """What a dish takes of one food: an ingredient, or what is eaten as it is ("")."""

    ingredient: str
    holds: str  # the id of a food or a whole meal
    method: Method | None  # that its packs must be of; None for any
    is_dried: bool  # whether it is told to be dried


@dataclass(frozen=True, slots=True)
class ItemAt:
    """One thing to cook or eat, and where it stands in its trip."""

    day: int  # from 0, as the others
    meal: int
    place: int
    item: MealItem


def items_of(trip: Trip) -> Iterator[ItemAt]:
    """Give all that a trip cooks and eats, in the order of its file."""
    for day_number, day in enumerate(trip.days):
        for meal_number, meal in enumerate(day.meals):
            for place, item in enumerate(meal.items):
                yield ItemAt(day_number, meal_number, place, item)


def with_item(trip: Trip, at: ItemAt, item: MealItem) -> Trip:
    """Give a trip with another thing in the place of one."""
    day = trip.days[at.day]
    meal = day.meals[at.meal]
    meal = replace(meal, items=_put(meal.items, at.place, item))
    day = replace(day, meals=_put(day.meals, at.meal, meal))
    return replace(trip, days=_put(trip.days, at.day, day))


def _put(among: tuple[_Of, ...], place: int, new: _Of) -> tuple[_Of, ...]:
    return (*among[:place], new, *among[place + 1 :])


def lines_of(item: MealItem, content: Content) -> list[IngredientLine]:
    """Give what a dish takes, line by line; what a packet's label tells comes from no batch."""
    if item.recipe:
        return [
            IngredientLine(
                each.id,
                each.food or each.recipe or "",
                each.dried_by or "bought",
                each.dried_by is not None,
            )
            for each in content.dish(item).uses
        ]
    return [IngredientLine("", item.food, item.dried_by, True)] if item.food else []


def with_chosen_packs(content: Content) -> Content:
    """Give the content with a batch for all that `from: auto` leaves to the tool.

    What is named comes first. Then earlier trips choose before later ones, meal by meal, the batch
    that expires first among those that have packs enough and are in time; no pack goes to two
    meals. What no single batch covers stays without one.
    """
    if not _leaves_packs_open(content):
        return content
    judged, _ = judge_all(content, speech_of(ENGLISH))
    chooser = _Chooser(content, judged)
    filled = {trip.id: chooser.filled(trip) for trip in in_time(content)}
    return replace(content, trips={name: filled[name] for name in content.trips})


def _leaves_packs_open(content: Content) -> bool:
    """Tell whether a trip leaves it to the tool which packs it takes."""
    return any(at.item.chosen for trip in content.trips.values() for at in items_of(trip))


class _Chooser:
    def __init__(self, content: Content, judged: Mapping[str, Judged]) -> None:
        self.content, self.judged = content, judged
        self.takings: dict[str, list[Taking]] = {
            name: list(each) for name, each in all_takings(content, judged).items()
        }
        self.came_back = all_that_came_back(content)
        self.by_food: dict[str, list[Judged]] = {}
        for each in sorted(filter(may_be_offered, judged.values()), key=first_expired):
            self.by_food.setdefault(each.batch.holds, []).append(each)

    def filled(self, trip: Trip) -> Trip:
        """Choose for one trip, in the order of its meals."""
        for at in items_of(trip):
            if at.item.chosen:
                trip = self._with_packs(trip, at)
        return trip

    def _with_packs(self, trip: Trip, at: ItemAt) -> Trip:
        """Choose for one dish, line by line; what is told dried and got no pack is kept in mind."""
        item, left = at.item, []
        all_lines = "" in item.chosen
        for line in lines_of(item, self.content):
            named = item.batch_of(line.ingredient) is not None
            if named or not (all_lines or line.ingredient in item.chosen):
                continue
            found = self._first(trip, replace(at, item=item), line)
            if found is not None:
                item, trip = found
                left.append(line.ingredient)
            elif line.is_dried or line.ingredient in item.chosen:
                left.append(line.ingredient)
        return with_item(trip, at, replace(item, chosen=tuple(left)))

    def _first(self, trip: Trip, at: ItemAt, line: IngredientLine) -> tuple[MealItem, Trip] | None:
        """Give the dish and the trip with the first batch that covers a line; None where none."""
        eaten_on = trip.date_of(at.day + 1)
        for judged in self.by_food.get(line.holds, ()):
            batch = judged.batch
            if line.method not in (None, batch.method) or not fits(judged, trip, eaten_on):
                continue
            item = replace(at.item, batches=(*at.item.batches, (line.ingredient, batch.id)))
            new = with_item(trip, at, item)
            takings = takings_of(new, self.content, self.judged)
            own = [each for each in takings if each.batch == batch.id]
            others = [each for each in self.takings.get(batch.id, ()) if each.trip != trip.id]
            back = self.came_back.get(batch.id, ())
            if not is_overdrawn(batch, [*others, *own], back):
                self.takings[batch.id] = [*others, *own]
                return item, new
        return None
