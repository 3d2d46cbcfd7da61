"""What cold leaves in a gas can, how long embers heat an iron, and wood of any species."""

from __future__ import annotations

from collections.abc import Sequence

from builder.formulas.embers import (
    EMBER_KW_M2,
    PLATE_C,
    first_press_min,
    preheat_range_min,
    wood_range_mj_kg,
)
from builder.formulas.gas import BURNER_WANTS_KPA, CANISTER_COOLS_K, mixture_pressure_kpa
from builder.formulas.gas_canister import usable_share
from builder.formulas.heat import fuel_mass_g
from builder.model.figure import add, largest, named, smallest
from builder.model.gear import Iron
from builder.model.kit import Conditions, KitDay, KitFuel, PlannedMeal
from builder.model.looks import ColdGas, IronHeat
from builder.model.trip import Trip
from builder.planning.cooking import Hearth, OneStove
from builder.planning.tracing import solve, work, work_range

# Closer to all of it nobody would notice.
ALL_OF_IT_SHARE = 0.995


def cold_gas(at: Conditions, one: OneStove) -> ColdGas | None:
    """Say what a full can gives a stove at the coldest of a camp; None where it gives all."""
    fuel, stove = one.fuel, one.stove
    if fuel.kind != "gas" or not fuel.mix:
        return None
    all_shares = add(share for _, share in fuel.mix)
    mix = {gas: share / all_shares for gas, share in fuel.mix}
    can_c = at.air_low_c - named(CANISTER_COOLS_K, "canister_cools_k", "common-practice")
    usable = solve(
        "evaporated in small steps", usable_share, mix, can_c, at.pressure_hpa, stove.liquid_feed
    )
    if usable >= ALL_OF_IT_SHARE:
        return None
    return ColdGas(
        can_kpa=solve("pressure of the mixture", mixture_pressure_kpa, mix, can_c),
        wanted_kpa=at.pressure_hpa / 10
        + named(BURNER_WANTS_KPA, "burner_wants_kpa", "common-practice"),
        usable_share=usable,
        fuel=fuel.id,
    )


def given_in_the_cold_g(fuel: KitFuel, days: Sequence[KitDay]) -> float | None:
    """Give what the cans to take give, all as cold as at the coldest camp; None where all of it."""
    shares = [each.usable_share for day in days for each in day.cold_gases if each.fuel == fuel.id]
    held_g = sum(each.holds_g * each.count for each in fuel.containers)
    return held_g * min(shares) if shares else None


def wood_range_g(trip: Trip, days: Sequence[KitDay], hearth: Hearth) -> tuple[float, float] | None:
    """Give the wood of the trip if its species are those with the most and the least heat.

    What makes embers for irons goes by weight and stays; None where no pot hangs over the fire,
    or where the species is told.
    """
    burner, fire = hearth.burner, trip.fire
    if burner is None or burner.on != "fire" or fire is None or fire.wood:
        return None
    heat_kj = add(
        each
        for day in days
        for each in (day.fuel.meals_kj, day.fuel.melting_kj, day.fuel.boiling_water_kj)
    )
    if heat_kj <= 0:
        return None
    least, most = work_range(wood_range_mj_kg, fire.wood_moisture_share)
    wood_g = add(day.fuel.wood_g for day in days)
    embers_g = wood_g - work(fuel_mass_g, heat_kj, hearth.wood_mj_kg)
    return embers_g + work(fuel_mass_g, heat_kj, most), embers_g + work(fuel_mass_g, heat_kj, least)


def iron_heat(meal: PlannedMeal, irons: Sequence[Iron]) -> IronHeat | None:
    """Say how long the irons of a pressed meal heat up; None where none tells its face."""
    told = [each for each in irons if each.material == "cast-iron" and each.face_cm2]
    return _iron_heat(meal, told) if told and meal.presses else None


def _iron_heat(meal: PlannedMeal, irons: Sequence[Iron]) -> IronHeat:
    """Give the range over all irons; the handles count, though they stay cooler."""
    cold_c = meal.conditions.air_low_c
    side_min = largest(*(step.each_side_min for step in meal.steps))
    plate_c = named(PLATE_C, "plate_c", "common-practice")
    embers = [named(each, "embers_kw_m2", "common-practice") for each in EMBER_KW_M2]
    faces = [(iron.mass_g, iron.face_cm2 or 0.0) for iron in irons]
    heats = [work_range(preheat_range_min, *face, cold_c, plate_c) for face in faces]
    presses = [
        work(first_press_min, side_min, *face, cold_c, plate_c, kw_m2=kw_m2)
        for face in faces
        for kw_m2 in embers
    ]
    return IronHeat(
        heats_min=(smallest(*(low for low, _ in heats)), largest(*(high for _, high in heats))),
        cold_press_min=(smallest(*presses), largest(*presses)),
    )
