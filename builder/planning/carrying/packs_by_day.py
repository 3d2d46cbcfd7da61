"""How each one's pack gets lighter: food is eaten, fuel burnt, and water differs by day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from builder.model.figure import add, nothing
from builder.model.kit import Carried, KitDay, PersonLoad, Weights

_NONE = nothing("share")


def with_packs_by_day(weights: Weights, days: Sequence[KitDay]) -> Weights:
    """Give the weights with each one's pack on every morning.

    Packets stay in the pack when their food is eaten, and containers when their fuel is burnt.
    Fuel burns alike out of all containers, and a day's water is carried in the shares of the
    most: so the packs of all, less own gear, add up to the party's load of that morning.
    """
    stays_g = {
        (day.day, place): meal.packaging_g for day in days for place, meal in enumerate(day.meals)
    }
    burnt_g: float = nothing("burnt_g")
    mornings: list[list[float]] = [[] for _ in weights.people]
    for day in days:
        water_share = day.water.carry_ml / weights.water_most_g if weights.water_most_g else _NONE
        burnt_share = burnt_g / weights.fuel_g if burnt_g and weights.fuel_g else _NONE
        for number, person in enumerate(weights.people):
            mornings[number].append(
                add(
                    _mass_g(thing, day.day, stays_g, water_share, burnt_share)
                    for thing in person.carries
                )
            )
        burnt_g = burnt_g + day.fuel.fuel_g if burnt_g else day.fuel.fuel_g
    people: tuple[PersonLoad, ...] = tuple(
        replace(person, by_day_g=tuple(each))
        for person, each in zip(weights.people, mornings, strict=True)
    )
    return replace(weights, people=people)


def _mass_g(
    thing: Carried,
    day: int,
    stays_g: Mapping[tuple[int, int], float],
    water_share: float,
    burnt_share: float,
) -> float:
    if thing.kind == "water":
        return thing.mass_g * water_share
    if thing.kind == "fuel" and burnt_share:
        return thing.mass_g * (1 - burnt_share)
    if thing.meal is not None and thing.meal[0] < day:
        return stays_g[thing.meal]
    return thing.mass_g
