"""Where the fuel goes, how much of it to take, and in which containers."""

from __future__ import annotations

from collections.abc import Sequence

from builder.formulas.boiling import boil_hold_min
from builder.formulas.cookware import efficiency_range, open_pot_range_g
from builder.formulas.heat import fuel_mass_g, simmer_fuel_kj, snow_to_water_kj
from builder.formulas.load import least_containers
from builder.model.figure import add
from builder.model.kit import Conditions, ContainerCount, FuelDay, KitFuel, WaterDay
from builder.model.trip import Day, Trip
from builder.planning.cooking import Hearth, boil_heat_kj, stove_test
from builder.planning.menu import MenuItem
from builder.planning.refusals import told_at
from builder.planning.tracing import work
from builder.problems import Problem, ProblemsFound


def fuel_day(
    day: Day,
    conditions: Conditions,
    menu: Sequence[MenuItem],
    water: WaterDay,
    hearth: Hearth,
) -> FuelDay:
    """Give the fuel heat of one day: meals, melting snow, boiling water to make it safe."""
    melt_kj = _melt_kj(conditions, menu, water)
    boil_kj, hold_kj = _safe_water_kj(conditions, water.drinking_ml, hearth)
    burner = hearth.burner
    if burner is None and (melt_kj > 0 or boil_kj > 0):
        what = "snow is melted" if melt_kj > 0 else "water is boiled to make it safe"
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
    melting_kj = boiling_kj = melting_min = 0.0
    if burner is not None:
        melting_kj = burner.fuel_heat_kj(melt_kj, conditions.wind)
        melting_min = burner.minutes(melt_kj, conditions.wind)
        boiling_kj = burner.fuel_heat_kj(boil_kj, conditions.wind) + hold_kj
    all_kj = meals_kj + melting_kj + boiling_kj
    fuel_g = work(fuel_mass_g, all_kj, hearth.fuel.energy_mj_kg) if hearth.fuel else 0.0
    wood_g = add(each.planned.wood_g for each in menu)
    if burner is not None and burner.on == "fire":
        wood_g += work(fuel_mass_g, melting_kj + boiling_kj, hearth.wood_mj_kg)
    return FuelDay(
        meals_kj=meals_kj,
        melting_kj=melting_kj,
        boiling_water_kj=boiling_kj,
        melting_minutes=melting_min,
        fuel_g=fuel_g,
        wood_g=wood_g,
    )


def _melt_kj(conditions: Conditions, menu: Sequence[MenuItem], water: WaterDay) -> float:
    """Give the heat to melt all water of the day that no meal brings to the boil."""
    melt_kj = add(
        work(snow_to_water_kj, each.planned.unboiled_water_ml, each.planned.conditions.air_low_c)
        for each in menu
        if each.planned.conditions.water_source == "snow"
    )
    if conditions.water_source == "snow":
        # Water boiled to make it safe is heated from snow in one go, not melted first.
        drinking_ml = 0.0 if conditions.treat == "boil" else water.drinking_ml
        melt_kj += work(snow_to_water_kj, drinking_ml + water.washing_ml, conditions.air_low_c)
    return melt_kj


def _safe_water_kj(
    conditions: Conditions, drinking_ml: float, hearth: Hearth
) -> tuple[float, float]:
    """Give useful heat to boil drinking water, and the fuel heat to hold it there."""
    if conditions.treat != "boil" or drinking_ml <= 0:
        return 0.0, 0.0
    pot, potfuls = hearth.pot_for(drinking_ml)
    heat_kj = boil_heat_kj(drinking_ml, 0.0, pot, potfuls, conditions)
    if pot is None or hearth.burner is None:
        return heat_kj, 0.0
    hold_kj = potfuls * work(
        simmer_fuel_kj,
        pot.loss_at_boil_w,
        hearth.burner.efficiency_share,
        hearth.burner.lowest_w,
        work(boil_hold_min, conditions.altitude_m),
    )
    return heat_kj, hold_kj


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
            ContainerCount(holds_g, empty_g, count)
            for (holds_g, empty_g), count in zip(sizes, counts, strict=True)
            if count
        )
    low_g, high_g = _likely_range_g(trip, hearth, likely_g)
    no_lid_low_g, no_lid_high_g = open_pot_range_g(likely_g)
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
        low_g=low_g,
        high_g=high_g,
        test=stove_test(trip, hearth.stove),
        no_lid_low_g=no_lid_low_g,
        no_lid_high_g=no_lid_high_g,
    )


# A stove of one's own that was tested differs from day to day by about a tenth (from memory).
TESTED_OFF_SHARE = 0.10
# The kinds of stoves that burn a fuel, the usual one first.
STOVE_KINDS = {
    "gas": ("gas", "gas-heat-exchanger"),
    "liquid": ("liquid-pressure",),
    "alcohol": ("alcohol-screened", "alcohol-open"),
    "solid": ("tablet",),
}


def _likely_range_g(trip: Trip, hearth: Hearth, likely_g: float) -> tuple[float, float]:
    """Give the range of fuel that stoves of this kind take for the same heat.

    The listed efficiency may lie outside what was measured of its kind; the range then ends there.
    """
    if hearth.stove is None or hearth.fuel is None or hearth.burner is None:
        return likely_g, likely_g
    if stove_test(trip, hearth.stove) is not None:
        return likely_g * (1 - TESTED_OFF_SHARE), likely_g * (1 + TESTED_OFF_SHARE)
    own = hearth.burner.efficiency_share
    ranges = [efficiency_range(kind) for kind in STOVE_KINDS[hearth.fuel.kind]]
    # What it is listed with tells which kind of stove it is.
    least, _, most = min(ranges, key=lambda each: max(each[0] - own, own - each[2], 0.0))
    return likely_g * min(own / most, 1.0), likely_g * max(own / least, 1.0)
