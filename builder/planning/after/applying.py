"""Puts what was learned into a plan: more or less fuel and wood, more to drink, never less."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.figure import largest
from builder.model.kit import FuelDay
from builder.model.learned import Learned
from builder.planning.needs import PersonWater
from builder.record import replace


def drinking_learned(
    days: Sequence[Sequence[PersonWater]], learned: Learned
) -> list[list[PersonWater]]:
    """Give what each drinks as was learned; the need stays the least."""
    if learned.water is None:
        return [list(day) for day in days]
    factor = largest(learned.water.factor, 1.0)
    return [[_drinks(each, factor) for each in day] for day in days]


def _drinks(person: PersonWater, factor: float) -> PersonWater:
    """Multiply what is drunk besides food and hot drinks."""
    plain_ml = largest(person.to_drink_ml - person.drinks_ml, 0.0)
    return replace(person, to_drink_ml=person.to_drink_ml + plain_ml * (factor - 1))


def fuel_learned(days: Sequence[FuelDay], learned: Learned) -> list[FuelDay]:
    """Give each day's fuel and wood as was learned, with their ranges."""
    found = list(days)
    if learned.fuel is not None:
        times = learned.fuel.factor
        found = [
            replace(
                day,
                fuel_g=day.fuel_g * times,
                low_g=day.low_g * times,
                high_g=day.high_g * times,
                stoves=tuple(
                    replace(
                        each,
                        fuel_g=each.fuel_g * times,
                        low_g=each.low_g * times,
                        high_g=each.high_g * times,
                    )
                    for each in day.stoves
                ),
            )
            for day in found
        ]
    if learned.wood is not None:
        times = learned.wood.factor
        found = [
            replace(
                day,
                wood_g=day.wood_g * times,
                wood_low_g=day.wood_low_g * times,
                wood_high_g=day.wood_high_g * times,
            )
            for day in found
        ]
    return found
