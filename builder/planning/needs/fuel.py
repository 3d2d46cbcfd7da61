"""Where the fuel goes, how much of it to take, and in which containers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from builder.formulas.boiling import boil_hold_min
from builder.formulas.cookware import open_pot_range_g
from builder.formulas.fuel_ranges import least_burnt_g, most_burnt_g
from builder.formulas.heat import fuel_mass_g, simmer_fuel_kj, snow_to_water_kj
from builder.formulas.load import least_containers
from builder.model.figure import add, counted, nothing, smallest
from builder.model.kit import (
    Conditions,
    ContainerCount,
    FuelDay,
    KitFuel,
    WaterDay,
    WaterHeating,
)
from builder.model.recipe import MealName
from builder.model.trip import Day, Trip, Wind
from builder.planning.cooking import CookingPlaces, Hearth, boil_heat_kj, stove_test
from builder.planning.menu import MenuItem
from builder.planning.refusals import told_at
from builder.planning.tracing import work, work_range
from builder.problems import Problem, ProblemsFound


def fuel_day(
    day: Day,
    places: CookingPlaces,
    menu: Sequence[MenuItem],
    water: WaterDay,
    hearth: Hearth,
) -> FuelDay:
    """Give the fuel of one day: meals, melting snow, boiling water to make it safe."""
    conditions = places.by_day[day.number - 1]
    melting = _melting(conditions, menu, water, hearth)
    boiling = _boiling(conditions, water.boil_ml, hearth)
    melting = _by_time_of_day(melting, day, places, menu, water, treated=False)
    boiling = _by_time_of_day(boiling, day, places, menu, water, treated=True)
    if hearth.burner is None and (melting.volume_ml or boiling.volume_ml):
        what = "snow is melted" if melting.volume_ml else "water is boiled to make it safe"
        raise ProblemsFound(
            [
                Problem(
                    day.places.of("water"),
                    "no-heat",
                    f"day {day.number}: {what}, and this trip has neither stove nor fire",
                    "name a stove (`stove: {use: …}`) or allow a fire",
                )
            ]
        )
    meals_kj = add(each.planned.fuel_heat_kj for each in menu)
    low_g, high_g = _stove_range_g(conditions.wind, menu, melting, boiling, hearth)
    wood_g, wood_low_g, wood_high_g = _wood_g(conditions.wind, menu, melting, boiling, hearth)
    all_kj = add((meals_kj, melting.fuel_kj, boiling.fuel_kj))
    fuel_g = nothing("fuel_g")
    if hearth.fuel:
        fuel_g = work(fuel_mass_g, all_kj, hearth.fuel.energy_mj_kg)
    return FuelDay(
        meals_kj=meals_kj,
        melting_kj=melting.fuel_kj,
        boiling_water_kj=boiling.fuel_kj,
        melting=melting,
        boiling=boiling,
        water_minutes=add((melting.minutes, boiling.minutes)),
        fuel_g=fuel_g,
        low_g=low_g,
        high_g=high_g,
        wood_g=wood_g,
        wood_low_g=wood_low_g,
        wood_high_g=wood_high_g,
    )


def _by_time_of_day(
    heating: WaterHeating,
    day: Day,
    places: CookingPlaces,
    menu: Sequence[MenuItem],
    water: WaterDay,
    treated: bool,
) -> WaterHeating:
    """Say how much of it the morning needs: for breakfast, and to drink on the way.

    What is drunk on the way is heated where one slept, if water comes there as it does that day.
    """
    here, slept = places.by_day[day.number - 1], places.of_meal(day, "breakfast")
    parts = [
        each.planned.unboiled_water_ml
        for each in menu
        if each.planned.meal == "breakfast"
        and (each.planned.conditions.treat == "boil") == treated
        and (treated or each.planned.conditions.water_source == "snow")
    ]
    alike = (here.water_source, here.treat) == (slept.water_source, slept.treat)
    if alike and (here.treat == "boil") == treated:
        parts.append(smallest(water.carry_ml, water.drinking_ml))
    if day.ends_home:
        return replace(heating, morning_ml=heating.volume_ml)
    return replace(heating, morning_ml=smallest(add(parts), heating.volume_ml))


def _stove_range_g(
    wind: Wind,
    menu: Sequence[MenuItem],
    melting: WaterHeating,
    boiling: WaterHeating,
    hearth: Hearth,
) -> tuple[float, float]:
    """Give the least and the most fuel of the stove, by the wind of the camp it burns at."""
    if hearth.fuel is None:
        return nothing("low_g"), nothing("high_g")
    burnt: dict[Wind, list[float]] = {wind: [melting.fuel_kj, boiling.fuel_kj]}
    lit: dict[Wind, set[MealName]] = {}
    for each in menu:
        camp_wind = each.planned.conditions.wind
        burnt.setdefault(camp_wind, []).append(each.planned.fuel_heat_kj)
        if each.planned.cooked_on == "stove":
            lit.setdefault(camp_wind, set()).add(each.planned.meal)
    lows, highs = [], []
    for camp_wind, heats_kj in burnt.items():
        likely_g = work(fuel_mass_g, add(heats_kj), hearth.fuel.energy_mj_kg)
        lightings = counted(len(lit.get(camp_wind, ())), "lightings")
        lows.append(work(least_burnt_g, likely_g, hearth.fuel.kind, camp_wind))
        highs.append(work(most_burnt_g, likely_g, lightings, hearth.fuel.kind, camp_wind))
    return add(lows), add(highs)


def _wood_g(
    wind: Wind,
    menu: Sequence[MenuItem],
    melting: WaterHeating,
    boiling: WaterHeating,
    hearth: Hearth,
) -> tuple[float, float, float]:
    """Give the wood under pots and for embers: likely, least, most."""
    embers_g = add(each.planned.ember_wood_g for each in menu)
    pots_g = add(())
    if hearth.burner is not None and hearth.burner.on == "fire":
        heats_kj = [each.planned.fuel_heat_kj for each in menu]
        all_kj = add((*heats_kj, melting.fuel_kj, boiling.fuel_kj))
        pots_g = work(fuel_mass_g, all_kj, hearth.wood_mj_kg)
    never = counted(0, "lightings")
    fires = ((pots_g, "wood"), (embers_g, "embers"))
    return (
        pots_g + embers_g,
        add(work(least_burnt_g, likely_g, burns, wind) for likely_g, burns in fires),
        add(work(most_burnt_g, likely_g, never, burns, wind) for likely_g, burns in fires),
    )


def _melting(
    conditions: Conditions, menu: Sequence[MenuItem], water: WaterDay, hearth: Hearth
) -> WaterHeating:
    """Melt all water of the day that no meal brings to the boil, and that is not made safe so."""
    melted = [
        (each.planned.unboiled_water_ml, each.planned.conditions.air_low_c)
        for each in menu
        if each.planned.conditions.water_source == "snow"
        and each.planned.conditions.treat != "boil"
    ]
    if conditions.water_source == "snow":
        # Water boiled to make it safe is heated from snow in one go, not melted first.
        drinking_ml = 0.0 if conditions.treat == "boil" else water.drinking_ml
        melted.append((drinking_ml + water.washing_ml, conditions.air_low_c))
    heat_kj = add(work(snow_to_water_kj, volume_ml, low_c) for volume_ml, low_c in melted)
    volume_ml = add(volume_ml for volume_ml, _ in melted)
    return _heated(volume_ml, heat_kj, 0.0, conditions, hearth)


def _boiling(conditions: Conditions, volume_ml: float, hearth: Hearth) -> WaterHeating:
    """Boil water to make it safe, and hold it there, each potful."""
    if volume_ml <= 0:
        return _heated(nothing("boil_ml"), nothing("heat_kj"), 0.0, conditions, hearth)
    pot, potfuls = hearth.pot_for(volume_ml)
    heat_kj = boil_heat_kj(volume_ml, 0.0, pot, potfuls, conditions)
    return _heated(
        volume_ml, heat_kj, work(boil_hold_min, conditions.altitude_m), conditions, hearth
    )


def _heated(
    volume_ml: float, heat_kj: float, hold_min: float, conditions: Conditions, hearth: Hearth
) -> WaterHeating:
    """Heat water without food, in potfuls one after the other."""
    pot, potfuls = hearth.pot_for(volume_ml)
    burner = hearth.burner_for(volume_ml, potfuls)
    if burner is None or volume_ml <= 0:
        return WaterHeating(volume_ml, potfuls, None, nothing("fuel_kj"), nothing("minutes"))
    fuel_kj = burner.fuel_heat_kj(heat_kj, conditions.wind)
    minutes = burner.minutes(heat_kj, conditions.wind)
    if pot is not None and hold_min:
        fuel_kj += potfuls * work(
            simmer_fuel_kj, pot.loss_at_boil_w, burner.efficiency_share, burner.lowest_w, hold_min
        )
        minutes += potfuls * hold_min
    return WaterHeating(volume_ml, potfuls, pot.id if pot else None, fuel_kj, minutes, hold_min)


def kit_fuel(trip: Trip, hearth: Hearth, days: Sequence[FuelDay]) -> KitFuel | None:
    """Give the fuel to take for the stove, in whole containers; None without a stove."""
    if hearth.stove is None or hearth.fuel is None:
        return None
    likely_g = add(day.fuel_g for day in days)
    carry_g = likely_g * (1 + trip.fuel_reserve_share)
    containers: tuple[ContainerCount, ...] = ()
    if hearth.fuel.containers and carry_g > 0:
        sizes = [(each.holds_g, each.empty_g) for each in hearth.fuel.containers]
        with told_at(trip.places.of("stove"), "fuel"):
            counts = least_containers(carry_g, sizes)
        containers = tuple(
            ContainerCount(holds_g, empty_g, counted(count, "containers"))
            for (holds_g, empty_g), count in zip(sizes, counts, strict=True)
            if count
        )
    no_lid_low_g, no_lid_high_g = work_range(open_pot_range_g, likely_g)
    return KitFuel(
        id=hearth.fuel.id,
        name=hearth.fuel.name,
        stove=hearth.stove.name,
        energy_mj_kg=hearth.fuel.energy_mj_kg,
        likely_g=likely_g,
        reserve_share=trip.fuel_reserve_share,
        carry_g=carry_g,
        containers=containers,
        efficiency_share=hearth.burner.efficiency_share if hearth.burner else 0.0,
        low_g=add(day.low_g for day in days),
        high_g=add(day.high_g for day in days),
        test=stove_test(trip, hearth.stove),
        no_lid_low_g=no_lid_low_g,
        no_lid_high_g=no_lid_high_g,
    )
