"""Names of the party that stand in words which a public kit takes along."""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.model.content import Content
from builder.model.place import Place
from builder.model.trip import MealItem, Trip
from builder.problems import Problem, listed

Told = tuple[str, Place]


def names_left(trip: Trip, content: Content) -> Iterator[Problem]:
    """Warn of each title, dish, step and food that names somebody whom a public kit numbers."""
    if trip.public_names:
        return
    seen: set[Told] = set()
    for words, place in _leaving(trip, content):
        names = [each.name for each in trip.party if _stands_in(each.name, words)]
        if not names or (words, place) in seen:
            continue
        seen.add((words, place))
        yield Problem(
            place,
            "name-leaves",
            f"{listed(names)} stands in {words!r}, which a public kit tells",
            "call it otherwise, or write `public_names: true` in the trip if all may know who goes",
            "warning",
        )


def _stands_in(name: str, words: str) -> bool:
    """Tell whether a name is a word of its own, also with the s of whose it is."""
    plain = words.replace("-", " ").casefold()
    return bool(re.search(rf"(?<!\w){re.escape(name.casefold())}(?:['’]?s)?(?!\w)", plain))


def _leaving(trip: Trip, content: Content) -> Iterator[Told]:
    """Give the words of a trip that leave, each with where it was written."""
    place = trip.places.record
    yield trip.title, trip.places.of("title")
    yield trip.id, place
    for day in trip.days:
        for meal in day.meals:
            for item in meal.items:
                yield from _of_item(item, content)


def _of_item(item: MealItem, content: Content) -> Iterator[Told]:
    if item.label:
        yield item.label.name, item.places.record
    if item.food:
        yield from _of_food(item.food, content)
    if not item.recipe:
        return
    dish = content.dish(item)
    for words in (dish.name, dish.id, *(step.say for step in dish.steps)):
        yield words, dish.places.record
    for line in dish.uses:
        yield from _of_food(line.food or line.recipe or "", content)


def _of_food(name: str, content: Content) -> Iterator[Told]:
    """Give name and id of a food, or of a whole dried meal."""
    known = content.foods.get(name) or content.recipes.get(name)
    if known is not None:
        yield known.name, known.places.record
        yield known.id, known.places.record
