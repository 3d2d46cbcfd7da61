"""What each thing weighs every morning: food is eaten, fuel burnt, and water differs by day."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.figure import Figure, counted, nothing, smallest
from builder.model.kit import Carried, FuelDay, WaterDay
from builder.planning.menu import MenuItem

_GONE_G = nothing("mass_g")


def by_morning_g(
    things: Sequence[Carried],
    menus: Sequence[Sequence[MenuItem]],
    fuel_g: float,
    fuel_days: Sequence[FuelDay],
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
    left = _fuel_left(fuel_g, fuel_days)
    litres_before = 0
    found = []
    for thing in things:
        if thing.kind == "water":
            litres = counted(litres_before, "litres")
            before_g = litres * litre_g if litres else _GONE_G
            mornings = [_water_g(thing, before_g, water) for water in waters]
            litres_before += 1
        elif thing.kind == "fuel":
            mornings = [thing.mass_g * share if share is not None else thing.mass_g
                        for share in left]  # fmt: skip
        elif thing.meal is not None:
            eaten, empty_g = thing.meal[0], stays_g[thing.meal]
            days = range(1, len(menus) + 1)
            mornings = [thing.mass_g if day <= eaten else empty_g for day in days]
        else:
            mornings = [thing.mass_g for _ in menus]
        found.append(tuple(mornings))
    return found


def _water_g(thing: Carried, before_g: float, water: WaterDay) -> float:
    """Give what of a bottle is full where so much is in those before it."""
    if water.carry_ml <= before_g:
        return _GONE_G
    return smallest(thing.mass_g, water.carry_ml - before_g)


def _fuel_left(fuel_g: float, fuel_days: Sequence[FuelDay]) -> list[float | None]:
    """Give what is left each morning of fuel and containers; None for all of it."""
    burnt_g: float = _GONE_G
    left: list[float | None] = []
    for day in fuel_days:
        left.append(1 - burnt_g / fuel_g if burnt_g and fuel_g else None)
        burnt_g = burnt_g + day.fuel_g if burnt_g else day.fuel_g
    return left
