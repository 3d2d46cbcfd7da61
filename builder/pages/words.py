"""Words that several pages use: meals, food as it is carried, weather, travel, water."""

from __future__ import annotations

import datetime
from collections.abc import Iterable

from builder.model.kit import Conditions, Kit, KitDay, PlannedIngredient, PlannedMeal
from builder.planning.naming import meal_inside
from builder.speech import Speech, later

DRIED = {
    "dehydrator": later("dried"),
    "freeze-dryer": later("freeze-dried"),
    "oven": later("oven-dried"),
    "sun": later("sun-dried"),
    "bought": later("bought dried"),
}
DRY_BY = {
    "dehydrator": later("in the dehydrator"),
    "freeze-dryer": later("in the freeze dryer"),
    "oven": later("in the oven"),
    "sun": later("in the sun"),
    "bought": later("buy it dried"),
}
MEALS = {
    "breakfast": later("Breakfast"),
    "lunch": later("Lunch"),
    "dinner": later("Dinner"),
    "snacks": later("Snacks"),
    "drinks": later("Hot drinks"),
}
WINDS = {
    "sheltered": later("out of the wind"),
    "breezy": later("breezy"),
    "windy": later("windy"),
}
SOURCES = {
    "tap": later("tap"),
    "stream": later("stream"),
    "lake": later("lake"),
    "snow": later("snow, to be melted"),
    "none": later("none: bring it with you"),
}
TREATMENTS = {
    "none": "",
    "filter": later("filter it"),
    "chemical": later("treat it with drops or tablets"),
    "boil": later("boil it before you drink it"),
}
FEW = 5  # a party whose names are soon read
LEVELS = {"danger": later("Danger"), "care": later("Take care"), "note": later("Note")}


def short_names(say: Speech, ingredients: Iterable[PlannedIngredient]) -> dict[str, str]:
    """Give the names that steps use, by id: without what follows a comma, where that is clear.

    Raw meat, fish and egg keep their whole name: that they are raw is what matters.
    """
    every = list(ingredients)
    first = [each.name.partition(",")[0] for each in every]
    return {
        each.id: say.inside(
            short if first.count(short) == 1 and not each.is_raw_animal else each.name
        )
        for each, short in zip(every, first, strict=True)
    }


def day_name(say: Speech, day: KitDay) -> str:
    """Give the short name of a day."""
    return numbered_day(say, day.day)


def numbered_day(say: Speech, number: int) -> str:
    """Give the short name of the day with a number."""
    return say("Day\u00a0{n}", n=number)


def meal_of_day(say: Speech, day: KitDay, meal: str) -> str:
    """Name a meal with its day: `Day 2 dinner`."""
    return say("{day} {meal}", day=day_name(say, day), meal=meal_inside(say, meal))


def day_and_date(say: Speech, day: KitDay) -> str:
    """Give a day's number, with its date where the start is told."""
    return number_and_date(say, day.day, day.date)


def number_and_date(say: Speech, number: int, date: datetime.date | None) -> str:
    """Give the number of a day, with its date where one is told."""
    if date is None:
        return say("Day {n}", n=number)
    return say("Day {n}, {date}", n=number, date=say.date(date))


def water_at(say: Speech, conditions: Conditions) -> str:
    """Say where the water comes from and what is done to it."""
    source = say(SOURCES[conditions.water_source])
    treat = TREATMENTS[conditions.treat]
    if treat and conditions.water_source != "none":
        return f"{source}; {say(treat)}"
    return source


def eaters_said(say: Speech, kit: Kit, meal: PlannedMeal) -> str:
    """Name those who eat of a meal; a public kit tells how many they are.

    All of a large party are not named each time.
    """
    if kit.public:
        return say.count("{n} person", "{n} people", len(meal.eaters))
    if len(meal.eaters) == len(kit.party) > FEW:
        return say("all {n}", n=len(kit.party))
    return say.listed(meal.eaters)
