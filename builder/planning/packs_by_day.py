"""How each one's pack gets lighter: food is eaten, fuel burnt, and water differs by day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from builder.model.kit import Carried, KitDay, PersonLoad, Weights


def with_packs_by_day(weights: Weights, days: Sequence[KitDay]) -> Weights:
    """Give the weights with each one's pack on every morning.

    Packets stay in the pack when their food is eaten, and containers when their fuel is burnt.
    Fuel burns alike out of all containers, and a day's water is carried in the shares of the
    most: so the packs of all, less own gear, add up to the party's load of that morning.
    """
    eaten = _eaten(days)
    burnt_g = 0.0
    mornings: list[list[float]] = [[] for _ in weights.people]
    for day in days:
        water_share = day.water.carry_ml / weights.water_most_g if weights.water_most_g else 0.0
        burnt_share = burnt_g / weights.fuel_g if weights.fuel_g else 0.0
        for number, person in enumerate(weights.people):
            mornings[number].append(
                sum(
                    _mass_g(thing, day.day, eaten, water_share, burnt_share)
                    for thing in person.carries
                )
            )
        burnt_g += day.fuel.fuel_g
    people: tuple[PersonLoad, ...] = tuple(
        replace(person, by_day_g=tuple(each))
        for person, each in zip(weights.people, mornings, strict=True)
    )
    return replace(weights, people=people)


def _eaten(days: Sequence[KitDay]) -> dict[tuple[str, float], tuple[int, float]]:
    """Give for each meal's food, by its name and mass in the pack, when it goes and what stays."""
    return {
        (
            f"Day {day.day} {meal.meal}: {meal.title}",
            round(meal.mass_g + meal.packaging_g, 6),
        ): (day.day, meal.packaging_g)
        for day in days
        for meal in day.meals
    }


def _mass_g(
    thing: Carried,
    day: int,
    eaten: dict[tuple[str, float], tuple[int, float]],
    water_share: float,
    burnt_share: float,
) -> float:
    if thing.kind == "water":
        return thing.mass_g * water_share
    if thing.kind == "fuel":
        return thing.mass_g * (1 - burnt_share)
    if thing.kind == "food":
        on, stays_g = eaten[thing.what, round(thing.mass_g, 6)]
        return stays_g if on < day else thing.mass_g
    return thing.mass_g
