"""What each thing weighs every morning: food is eaten, fuel burnt, and water differs by day."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.figure import Figure, counted, nothing, smallest
from builder.model.kit import Carried, WaterDay
from builder.planning.menu import MenuItem

_GONE_G = nothing("mass_g")


def by_morning_g(
    things: Sequence[Carried],
    menus: Sequence[Sequence[MenuItem]],
    fuel_left_g: Sequence[float],
    waters: Sequence[WaterDay],
    litre_g: Figure,
) -> list[tuple[float, ...]]:
    """Give each thing's mass on each morning.

    Packets stay in the pack when their food is eaten, and containers when their fuel is burnt.
    Fuel burns alike out of all containers. Of a day's water, the first litre is carried whenever
    there is any, the next where there is more: so the masses of all things add up to the party's
    load of that morning.
    """
    stays_g = {
        (each.day, place): each.planned.packaging_g
        for menu in menus
        for place, each in enumerate(menu)
    }
    litres_before = 0
    found = []
    for thing in things:
        if thing.kind == "water":
            litres = counted(litres_before, "litres")
            before_g = litres * litre_g if litres else _GONE_G
            mornings = [_water_g(thing, before_g, water) for water in waters]
            litres_before += 1
        elif thing.kind == "fuel":
            mornings = [_of_all(thing.mass_g, left_g, fuel_left_g[0]) for left_g in fuel_left_g]
        elif thing.meal is not None:
            eaten, empty_g = thing.meal[0], stays_g[thing.meal]
            waits = thing.from_camp or 0
            days = range(1, len(menus) + 1)
            mornings = [
                _GONE_G if day <= waits else thing.mass_g if day <= eaten else empty_g
                for day in days
            ]
        else:
            mornings = [thing.mass_g for _ in menus]
        found.append(tuple(mornings))
    return found


def _water_g(thing: Carried, before_g: float, water: WaterDay) -> float:
    """Give what of a bottle is full where so much is in those before it."""
    if water.carry_ml <= before_g:
        return _GONE_G
    return smallest(thing.mass_g, water.carry_ml - before_g)


def _of_all(mass_g: float, left_g: float, all_g: float) -> float:
    """Give what is left of one container where so much of all fuel is left."""
    return mass_g * (left_g / all_g) if left_g < all_g else mass_g


def left_g(all_g: float, used_g: Sequence[float]) -> tuple[float, ...]:
    """Give what is left each morning of what is used up by day, with what it is carried in."""
    left = [all_g]
    for used in used_g[:-1]:
        left.append(left[-1] - used if used else left[-1])
    return tuple(left)
