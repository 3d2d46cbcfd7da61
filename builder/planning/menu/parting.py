"""Whose portions a `part` step takes out of the pot: who avoids what goes in after it."""

from __future__ import annotations

from builder.model.content import Content
from builder.model.trip import MealItem, Trip
from builder.planning.foods import substance_of_ingredient
from builder.planning.menu.refused import refused_words
from builder.planning.stock import items_of, with_item
from builder.record import replace


def with_parts(content: Content) -> Content:
    """Give the content with the eaters of each dish who get theirs out of a pot of their own.

    Told by foods, never by names; what is not told counts as with everything that is avoided.
    """
    if all(recipe.part_before is None for recipe in content.recipes.values()):
        return content
    trips = {name: _parted_trip(trip, content) for name, trip in content.trips.items()}
    return replace(content, trips=trips)


def _parted_trip(trip: Trip, content: Content) -> Trip:
    for at in items_of(trip):
        item = at.item
        if item.recipe and content.recipes[item.recipe].part_before is not None:
            trip = with_item(trip, at, parted(item, trip, content))
    return trip


def parted(item: MealItem, trip: Trip, content: Content) -> MealItem:
    """Give a dish with who is parted, and without what nobody of its eaters may have."""
    dish = content.dish(item)
    later = [
        (each.id, substance_of_ingredient(each, content))
        for each in dish.uses
        if each.id in dish.in_after_parting
    ]
    refused = {
        name: [each for each, substance in later if refused_words(trip.person(name), substance)]
        for name in item.eaters
    }
    theirs = tuple(name for name, ingredients in refused.items() if ingredients)
    without = tuple(each for each, _ in later if any(each in refused[name] for name in theirs))
    if not theirs:
        return item
    if len(theirs) == len(item.eaters):
        return replace(item, without=without)
    return replace(item, parted=theirs, parted_without=without)
