"""Words of the pages: dates, food as it is carried, weather, travel, water."""

from __future__ import annotations

import datetime
from collections.abc import Iterable

from builder.model.kit import Conditions, KitDay, PlannedIngredient

_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = (
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
)  # fmt: skip

DRIED = {
    "dehydrator": "dried",
    "freeze-dryer": "freeze-dried",
    "oven": "oven-dried",
    "sun": "sun-dried",
    "bought": "bought dried",
}
DRY_BY = {
    "dehydrator": "in the dehydrator",
    "freeze-dryer": "in the freeze dryer",
    "oven": "in the oven",
    "sun": "in the sun",
    "bought": "buy it dried",
}
MEALS = {
    "breakfast": "Breakfast",
    "lunch": "Lunch",
    "dinner": "Dinner",
    "snacks": "Snacks",
    "drinks": "Hot drinks",
}
WINDS = {
    "sheltered": "out of the wind",
    "breezy": "breezy",
    "windy": "windy",
}
SOURCES = {
    "tap": "tap",
    "stream": "stream",
    "lake": "lake",
    "snow": "snow, to be melted",
    "none": "none: bring it with you",
}
TREATMENTS = {
    "none": "",
    "filter": "filter it",
    "chemical": "treat it with drops or tablets",
    "boil": "boil it before you drink it",
}
LEVELS = {"danger": "Danger", "care": "Take care", "note": "Note"}


def date(day: datetime.date) -> str:
    """Give a date such as `Thu 4 Sep 2031`, the same in every locale."""
    return f"{_WEEKDAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]} {day.year}"


def short_date(day: datetime.date) -> str:
    """Give a date for a narrow column, such as `4 Sep 2031`, on one line."""
    return f"{day.day}\u00a0{_MONTHS[day.month - 1]} {day.year}"


def listed(names: Iterable[str]) -> str:
    """Give names as a sentence has them: `a, b and c`."""
    every = list(names)
    if len(every) < 2:
        return "".join(every)
    return f"{', '.join(every[:-1])} and {every[-1]}"


def counted(number: int, one: str, many: str = "") -> str:
    """Give a number with its noun."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def carried(ingredient: PlannedIngredient) -> str:
    """Give a food's name as it is carried: `Black beans, cooked — freeze-dried`."""
    how = DRIED.get(ingredient.dried_by or "", "")
    if not how or how.split()[0] in ingredient.name:
        return ingredient.name
    return f"{ingredient.name} — {how}"


def short_names(ingredients: Iterable[PlannedIngredient]) -> dict[str, str]:
    """Give the names that steps use, by id: without what follows a comma, where that is clear.

    Raw meat, fish and egg keep their whole name: that they are raw is what matters.
    """
    every = list(ingredients)
    first = [each.name.partition(",")[0] for each in every]
    return {
        each.id: in_a_sentence(
            short if first.count(short) == 1 and not each.is_raw_animal else each.name
        )
        for each, short in zip(every, first, strict=True)
    }


def in_a_sentence(name: str) -> str:
    """Give a food's name as it stands inside a sentence; abbreviations keep their capitals."""
    if len(name) > 1 and name[0].isupper() and name[1].islower():
        return name[0].lower() + name[1:]
    return name


def day_name(day: KitDay) -> str:
    """Give the short name of a day."""
    return f"Day\u00a0{day.day}"


def day_and_date(day: KitDay) -> str:
    """Give a day's number, with its date where the start is told."""
    return f"Day {day.day}, {date(day.date)}" if day.date else f"Day {day.day}"


def water_at(conditions: Conditions) -> str:
    """Say where the water comes from and what is done to it."""
    treat = TREATMENTS[conditions.treat]
    source = SOURCES[conditions.water_source]
    return f"{source}; {treat}" if treat and conditions.water_source != "none" else source
