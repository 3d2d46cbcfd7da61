"""What meals, ways of travel and the food of a meal are called, in every language."""

from __future__ import annotations

from builder.speech import Speech, later

_MEALS = {  # as they stand inside a sentence
    "breakfast": later("breakfast"),
    "lunch": later("lunch"),
    "dinner": later("dinner"),
    "snacks": later("snacks"),
    "drinks": later("hot drinks"),
}
_TRAVELS = {
    "walking": later("walking"),
    "paddling": later("paddling"),
    "skiing": later("skiing"),
    "snowshoeing": later("snowshoeing"),
    "cycling": later("cycling"),
    "resting": later("resting"),
}
_FOOD_OF = {
    "breakfast": later("Day {n} breakfast: {meal}"),
    "lunch": later("Day {n} lunch: {meal}"),
    "dinner": later("Day {n} dinner: {meal}"),
    "snacks": later("Day {n} snacks: {meal}"),
    "drinks": later("Day {n} drinks: {meal}"),
}


def meal_inside(say: Speech, meal: str) -> str:
    """Name a meal as it stands inside a sentence."""
    return say(_MEALS[meal])


def travel_said(say: Speech, by: str) -> str:
    """Name a way of travel."""
    return say(_TRAVELS[by])


def food_of_meal(say: Speech, day: int, meal: str, title: str) -> str:
    """Name the food of a meal as one thing in a pack."""
    return say(_FOOD_OF[meal], n=day, meal=title)
