"""Where a figure stands in the kit, by which pages ask for how it came about, and a day's page."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.kit import KitDay, PersonDay, PersonLoad


def at_day(day: KitDay) -> str:
    """Give the address of a day: the kit counts from 0."""
    return f"days.{day.day - 1}"


def day_path(day: KitDay) -> str:
    """Give the path of a day's page."""
    return f"day-{day.day}.md"


def at_meal(day: KitDay, place: int) -> str:
    """Give the address of a meal by its place in the day."""
    return f"{at_day(day)}.meals.{place}"


def at_fuel(number: int) -> str:
    """Give the address of a fuel: the first has a name of its own."""
    return f"other_fuels.{number - 1}" if number else "fuel"


def at_cold_gas(day: KitDay, number: int) -> str:
    """Give the address of what cold leaves of a gas at a day's camp."""
    return f"{at_day(day)}." + (f"other_cold_gas.{number - 1}" if number else "cold_gas")


def at_person(within: str, people: Sequence[PersonDay | PersonLoad], name: str) -> str:
    """Give the address of somebody in a day or among the packs: by their place, not their name."""
    places = {each.name: place for place, each in enumerate(people)}
    return f"{within}.people.{places[name]}"
