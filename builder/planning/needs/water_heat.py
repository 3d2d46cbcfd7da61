"""Water heated by itself, where it is wanted: melted from snow, or boiled to make it safe.

What breakfast takes cold is heated at the last night's camp, all else at the day's own.
"""

from __future__ import annotations

from collections.abc import Sequence

from builder.formulas.boiling import boil_hold_min
from builder.formulas.heat import simmer_fuel_kj, snow_to_water_kj
from builder.model.figure import add, smallest
from builder.model.kit import Conditions, WaterDay, WaterHeating
from builder.model.trip import Day, Wind
from builder.planning.cooking import CookingPlaces, Hearth, boil_heat_kj
from builder.planning.menu import MenuItem
from builder.planning.tracing import work
from builder.record import dataclass

_BEFORE_THE_EVENING = ("breakfast", "lunch", "snacks")


@dataclass(frozen=True, slots=True)
class _AtCamp:
    """Water heated at one camp, in potfuls one after the other."""

    wind: Wind
    volume_ml: float
    pot: str | None
    fuel_kj: float
    minutes: float
    hold_min: float = 0.0


@dataclass(frozen=True, slots=True)
class HeatedWater:
    """The water of one day that is melted, or boiled to make it safe."""

    told: WaterHeating
    fuel_by_wind: tuple[tuple[Wind, float], ...]  # kJ, by the wind of the camp it is heated at


def melted(
    day: Day, places: CookingPlaces, menu: Sequence[MenuItem], water: WaterDay, hearth: Hearth
) -> HeatedWater:
    """Melt all water of the day that no meal brings to the boil, and that is not made safe so."""
    here, slept = places.by_day[day.number - 1], places.of_meal(day, "breakfast")
    cold = [
        each.planned
        for each in menu
        if each.planned.conditions.water_source == "snow"
        and each.planned.conditions.treat != "boil"
    ]
    breakfast_ml = add(each.unboiled_water_ml for each in cold if each.meal == "breakfast")
    own = [each.unboiled_water_ml for each in cold if each.meal != "breakfast"]
    if here.water_source == "snow":
        # Water boiled to make it safe is heated from snow in one go, not melted first.
        own += [water.washing_ml] if here.treat == "boil" else [water.drinking_ml, water.washing_ml]
    parts = [_melted_at(slept, breakfast_ml, hearth), _melted_at(here, add(own), hearth)]
    early_ml = add(each.unboiled_water_ml for each in cold if each.meal in _BEFORE_THE_EVENING)
    return _told(parts, day, places, early_ml, water, treated=False)


def boiled(
    day: Day, places: CookingPlaces, menu: Sequence[MenuItem], water: WaterDay, hearth: Hearth
) -> HeatedWater:
    """Boil water to make it safe, and hold it there, each potful."""
    here, slept = places.by_day[day.number - 1], places.of_meal(day, "breakfast")
    cold = [each.planned for each in menu if each.planned.conditions.treat == "boil"]
    breakfast_ml = add(each.unboiled_water_ml for each in cold if each.meal == "breakfast")
    early_ml = add(each.unboiled_water_ml for each in cold if each.meal in _BEFORE_THE_EVENING)
    parts = [
        _boiled_at(slept, breakfast_ml, hearth),
        _boiled_at(here, water.boil_ml - breakfast_ml, hearth),
    ]
    return _told(parts, day, places, early_ml, water, treated=True)


def _told(
    parts: Sequence[_AtCamp],
    day: Day,
    places: CookingPlaces,
    early_ml: float,
    water: WaterDay,
    *,
    treated: bool,
) -> HeatedWater:
    """Put both camps together, and say how much of it the morning needs.

    That is what is mixed or soaked cold before the evening, and what is drunk on the way: this is
    heated where one slept, if water comes there as it does that day.
    """
    here, slept = places.by_day[day.number - 1], places.of_meal(day, "breakfast")
    volume_ml = add(each.volume_ml for each in parts)
    morning = [early_ml]
    alike = (here.water_source, here.treat) == (slept.water_source, slept.treat)
    if alike and (here.treat == "boil") == treated:
        morning.append(smallest(water.carry_ml, water.drinking_ml))
    morning_ml = volume_ml if day.ends_home else smallest(add(morning), volume_ml)
    most = max(parts, key=lambda each: each.volume_ml)
    told = WaterHeating(
        volume_ml=volume_ml,
        pot=most.pot,
        fuel_kj=add(each.fuel_kj for each in parts),
        minutes=add(each.minutes for each in parts),
        hold_min=max(each.hold_min for each in parts),
        morning_ml=morning_ml,
    )
    return HeatedWater(told, tuple((each.wind, each.fuel_kj) for each in parts))


def _melted_at(camp: Conditions, volume_ml: float, hearth: Hearth) -> _AtCamp:
    heat_kj = work(snow_to_water_kj, volume_ml, camp.air_low_c)
    return _heated(volume_ml, heat_kj, 0.0, camp, hearth)


def _boiled_at(camp: Conditions, volume_ml: float, hearth: Hearth) -> _AtCamp:
    pot, potfuls = hearth.pot_for(volume_ml)
    heat_kj = boil_heat_kj(volume_ml, 0.0, pot, potfuls, camp)
    return _heated(volume_ml, heat_kj, work(boil_hold_min, camp.altitude_m), camp, hearth)


def _heated(
    volume_ml: float, heat_kj: float, hold_min: float, camp: Conditions, hearth: Hearth
) -> _AtCamp:
    """Heat water without food, in potfuls one after the other."""
    pot, potfuls = hearth.pot_for(volume_ml)
    burner = hearth.burner_for(volume_ml, potfuls)
    if burner is None or volume_ml <= 0:
        return _AtCamp(camp.wind, volume_ml, None, add(()), add(()))
    fuel_kj = burner.fuel_heat_kj(heat_kj, camp)
    minutes = burner.minutes(heat_kj, camp)
    if pot is not None and hold_min:
        fuel_kj += potfuls * work(
            simmer_fuel_kj, pot.loss_at_boil_w, burner.efficiency_share, burner.lowest_w, hold_min
        )
        minutes += potfuls * hold_min
    return _AtCamp(camp.wind, volume_ml, pot.id if pot else None, fuel_kj, minutes, hold_min)
