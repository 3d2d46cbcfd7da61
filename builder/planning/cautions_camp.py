"""Conditions of the cautions about camp: fire, gas, water, loads, and too little to eat."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formulas.gas import (
    CANISTER_COOLS_K,
    LEAST_TEMPERATURE_C,
    MOST_TEMPERATURE_C,
    gas_flows,
)
from builder.formulas.water import WARM_RATE_ML_H
from builder.model.gear import Fuel
from builder.model.kit import Conditions
from builder.planning.caution_facts import Facts, Finding, days_said, listed, meal_said, page_of
from builder.planning.energy import GROWN_UP_YEARS

ENERGY_SHORT_SHARE = 0.90
ENERGY_SHORT_DAY_SHARE = 0.75
DRY_STRETCH_H = 4.0
# Air in which the pressure of a can is known; colder feeds no burner, warmer always does.
MEASURED_AIR_C = (LEAST_TEMPERATURE_C + CANISTER_COOLS_K, MOST_TEMPERATURE_C + CANISTER_COOLS_K)
# The most that leaders' guidance lets anybody carry, whatever they say themselves (read in a copy).
MOST_OF_BODY_SHARE = 1 / 3
MOST_OF_CHILD_SHARE = 1 / 4

SHELTERS = {
    "tent": "You sleep in a tent",
    "tarp": "You sleep under a tarp",
    "hut": "You sleep in a hut",
    "snow": "You sleep in a snow shelter",
    "open": "You sleep in the open",
}


def carbon_monoxide(facts: Facts) -> Iterator[Finding]:
    """A stove or embers, and a shelter near."""
    on = {meal.planned.cooked_on for meal in facts.cooked()}
    burner = facts.hearth.burner
    if burner and any(day.fuel.melting_kj + day.fuel.boiling_water_kj > 0 for day in facts.days):
        on.add(burner.on)
    if on:
        with_what = listed([word for word in ("stove", "fire") if word in on])
        yield Finding(f"{SHELTERS[facts.trip.shelter]} and cook on a {with_what}.", "fuel")


def fire_and_embers(facts: Facts) -> Iterator[Finding]:
    """Something is cooked over a wood fire."""
    days = [meal.day for meal in facts.meals() if meal.planned.wood_g > 0]
    days += [day.day for day in facts.days if day.fuel.wood_g > 0]
    if days:
        yield Finding(f"A wood fire burns on {days_said(days)}.", "fuel")


def hot_fat(facts: Facts) -> Iterator[Finding]:
    """Something is fried."""
    for meal in facts.steps("fry"):
        yield Finding(f"{meal_said(meal)} is fried.", page_of(meal))


def hot_iron(facts: Facts) -> Iterator[Finding]:
    """Something is pressed in an iron."""
    for meal in facts.steps("press"):
        yield Finding(f"{meal_said(meal)} is cooked in an iron.", page_of(meal))


def gas_in_the_cold(facts: Facts) -> Iterator[Finding]:
    """A gas mixture whose pressure is low at the coldest of a camp."""
    fuel, stove = facts.hearth.fuel, facts.hearth.stove
    if not fuel or fuel.kind != "gas" or not fuel.mix or not stove or stove.liquid_feed:
        return
    for day, menu in zip(facts.days, facts.menus, strict=True):
        # The first breakfast may be cooked at a colder camp than that day's own.
        places = [day.conditions, *(each.planned.conditions for each in menu if day.day == 1)]
        cold = [at for at in places if not _feeds(fuel, at)]
        if cold:
            low_c = min(at.air_low_c for at in cold)
            yield Finding(
                f"On day {day.day} the air falls to {low_c:.0f} °C, and {fuel.name} gives "
                "little pressure then.",
                "fuel",
            )


def _feeds(fuel: Fuel, at: Conditions) -> bool:
    """Tell whether a fresh can feeds a burner, also in air beyond what was ever measured."""
    if not MEASURED_AIR_C[0] <= at.air_low_c <= MEASURED_AIR_C[1]:
        return at.air_low_c > MEASURED_AIR_C[1]
    all_shares = sum(share for _, share in fuel.mix)
    mix = {gas: share / all_shares for gas, share in fuel.mix}
    return gas_flows(mix, at.air_low_c, at.pressure_hpa)


def gas_and_heat(facts: Facts) -> Iterator[Finding]:
    """Gas is carried."""
    if facts.fuel and facts.hearth.fuel and facts.hearth.fuel.kind == "gas":
        yield Finding(f"You carry {facts.fuel.name}.", "fuel")


def windscreen_and_gas(facts: Facts) -> Iterator[Finding]:
    """An upright can under the burner, and wind that asks for a screen."""
    fuel, stove = facts.hearth.fuel, facts.hearth.stove
    if not fuel or fuel.kind != "gas" or not stove or stove.liquid_feed:
        return
    windy = [day.day for day in facts.days if day.conditions.wind != "sheltered"]
    if windy:
        yield Finding(f"Wind is expected on {days_said(windy)}.", "fuel")


def refuelling(facts: Facts) -> Iterator[Finding]:
    """A liquid fuel is poured."""
    fuel = facts.hearth.fuel
    if facts.fuel and fuel and fuel.kind in ("liquid", "alcohol"):
        yield Finding(f"You carry {fuel.name}.", "fuel")


def untreated_water(facts: Facts) -> Iterator[Finding]:
    """Water that is drunk as it comes, not from a tap."""
    yield from _treated(facts, "none", "Nobody planned to treat the water of")


def filter_limits(facts: Facts) -> Iterator[Finding]:
    """Water is filtered."""
    yield from _treated(facts, "filter", "Water is filtered on")


def chemical_limits(facts: Facts) -> Iterator[Finding]:
    """Water is treated with drops or tablets."""
    yield from _treated(facts, "chemical", "Water is treated with drops or tablets on")


def boil_water(facts: Facts) -> Iterator[Finding]:
    """Water is boiled to make it safe."""
    yield from _treated(facts, "boil", "Water is boiled on")


def _treated(facts: Facts, how: str, says: str) -> Iterator[Finding]:
    days = [
        day.day
        for day in facts.days
        if day.conditions.treat == how
        and day.conditions.water_source != "tap"
        and day.water.treat_ml > 0
    ]
    if days:
        yield Finding(f"{says} {days_said(days)}.", "water")


def frozen_filter(facts: Facts) -> Iterator[Finding]:
    """A filter, and a night of frost."""
    days = [
        day.day
        for day in facts.days
        if day.conditions.treat == "filter" and day.conditions.air_low_c <= 0
    ]
    if days:
        yield Finding(f"Frost is expected on {days_said(days)}.", "water")


def long_dry_stretch(facts: Facts) -> Iterator[Finding]:
    """Hours without water, or a camp without."""
    for day in facts.days:
        dry_camp = day.conditions.water_source == "none" and not day.ends_home
        if not dry_camp and day.between_water_h < DRY_STRETCH_H:
            continue
        why = "the camp has no water" if dry_camp else f"{day.between_water_h:g} h without water"
        yield Finding(
            f"Day {day.day}: {why}. Carry {day.water.carry_ml / 1000:.1f} l between you.",
            f"day-{day.day}",
        )


def melting_snow(facts: Facts) -> Iterator[Finding]:
    """Water comes from snow."""
    days = [day.day for day in facts.days if day.conditions.water_source == "snow"]
    if days:
        yield Finding(f"Snow is melted on {days_said(days)}.", "water")


def over_drinking(facts: Facts) -> Iterator[Finding]:
    """Heat that makes people drink much in an hour."""
    days = [
        day.day
        for day in facts.days
        if day.travel_hours > 0 and any(person.rate_ml_h >= WARM_RATE_ML_H for person in day.people)
    ]
    if days:
        yield Finding(
            f"On {days_said(days)} the plan gives {WARM_RATE_ML_H:.0f} ml an hour or more.", "water"
        )


def animals_and_food(facts: Facts) -> Iterator[Finding]:
    """A night outdoors with food."""
    nights = [day.day for day in facts.days if not day.ends_home]
    if nights and facts.trip.shelter != "hut":
        yield Finding(f"You camp with food on {days_said(nights)}.", "cautions")


def dishwater(facts: Facts) -> Iterator[Finding]:
    """Washing up at camp."""
    days = [day.day for day in facts.days if day.water.washing_ml > 0]
    if days:
        yield Finding(f"You wash up on {days_said(days)}.", "water")


def heavy_load(facts: Facts) -> Iterator[Finding]:
    """A pack above its limit, or above what anybody should carry."""
    for load in facts.weights.people:
        person = facts.trip.person(load.name)
        child = person.age_years < GROWN_UP_YEARS
        most = MOST_OF_CHILD_SHARE if child else MOST_OF_BODY_SHARE
        if load.of_limit > 1 + 1e-9:
            yield Finding(
                f"{load.name} would carry {load.total_g / 1000:.1f} kg and said "
                f"{load.limit_g / 1000:.1f} kg.",
                "carry",
            )
        elif load.total_g / 1000 > most * person.mass_kg:
            part = "a quarter" if child else "a third"
            yield Finding(
                f"{load.name} would carry {load.total_g / 1000:.1f} kg, more than {part} of their "
                "own mass.",
                "carry",
            )


def energy_short(facts: Facts) -> Iterator[Finding]:
    """Less than nine tenths of the need over the trip."""
    eaten = sum(day.nutrition.energy_kcal for day in facts.days)
    need = sum(day.energy_need_kcal for day in facts.days)
    if need > 0 and eaten < ENERGY_SHORT_SHARE * need:
        yield Finding(
            f"The menu gives {eaten:.0f} kcal, these days take {need:.0f} kcal "
            f"({eaten / need:.0%}).",
            "index",
        )


def energy_short_day(facts: Facts) -> Iterator[Finding]:
    """Less than three quarters of the need on a day."""
    for day in facts.days:
        eaten, need = day.nutrition.energy_kcal, day.energy_need_kcal
        if need > 0 and eaten < ENERGY_SHORT_DAY_SHARE * need:
            yield Finding(
                f"Day {day.day} gives {eaten:.0f} kcal and takes {need:.0f} kcal "
                f"({eaten / need:.0%}).",
                f"day-{day.day}",
            )
