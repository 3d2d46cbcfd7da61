"""Reads until which meal a cool bag keeps fresh food cold."""

from __future__ import annotations

from typing import cast

from builder.model.recipe import MEALS, MealName
from builder.model.trip import Chilled
from builder.reading.fields import Fields


def read_chilled(trip: Fields, days: int) -> Chilled | None:
    """Read `chilled: {until: {day: 1, meal: dinner}}` of a trip of so many days."""
    told = trip.record("chilled", "chilled", example="{until: {day: 1, meal: dinner}}")
    until = told and told.record("until", "until", required=True, example="{day: 1, meal: dinner}")
    if told is None or until is None:
        if told is not None:
            told.done()
        return None
    day = until.count("day", required=True, at_least=1)
    meal = until.choice("meal", MEALS, required=True)
    if days and day > days:
        until.problem(
            until.place("day"),
            "day-unknown",
            f"this trip has no day {day}",
            f"write a day from 1 to {days}",
        )
    is_good = until.done()
    return Chilled(day, cast(MealName, meal)) if told.done() and is_good else None
