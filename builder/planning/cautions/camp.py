"""Conditions of the cautions about camp: fire, gas, water, loads, and too little to eat."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.formulas.gas import (
    CANISTER_COOLS_K,
    LEAST_TEMPERATURE_C,
    MOST_TEMPERATURE_C,
    gas_flows,
)
from builder.formulas.water import MOST_ML_DAY, WARM_RATE_ML_H
from builder.model.gear import Fuel
from builder.model.kit import Conditions
from builder.planning.cautions.facts import Facts, Finding, days_said, meal_said, page_of
from builder.planning.needs import GROWN_UP_YEARS
from builder.speech import later

ENERGY_SHORT_SHARE = 0.90
ENERGY_SHORT_DAY_SHARE = 0.75
DRY_STRETCH_H = 4.0
# Air in which the pressure of a can is known; colder feeds no burner, warmer always does.
MEASURED_AIR_C = (LEAST_TEMPERATURE_C + CANISTER_COOLS_K, MOST_TEMPERATURE_C + CANISTER_COOLS_K)
# The most that leaders' guidance lets anybody carry, whatever they say themselves (read in a copy).
MOST_OF_BODY_SHARE = 1 / 3
MOST_OF_CHILD_SHARE = 1 / 4

_STOVE, _FIRE = frozenset({"stove"}), frozenset({"fire"})
# Where one sleeps, and what one cooks on.
_SLEEP_AND_COOK = {
    ("tent", _STOVE): later("You sleep in a tent and cook on a stove."),
    ("tent", _FIRE): later("You sleep in a tent and cook on a fire."),
    ("tent", _STOVE | _FIRE): later("You sleep in a tent and cook on a stove and a fire."),
    ("tarp", _STOVE): later("You sleep under a tarp and cook on a stove."),
    ("tarp", _FIRE): later("You sleep under a tarp and cook on a fire."),
    ("tarp", _STOVE | _FIRE): later("You sleep under a tarp and cook on a stove and a fire."),
    ("hut", _STOVE): later("You sleep in a hut and cook on a stove."),
    ("hut", _FIRE): later("You sleep in a hut and cook on a fire."),
    ("hut", _STOVE | _FIRE): later("You sleep in a hut and cook on a stove and a fire."),
    ("snow", _STOVE): later("You sleep in a snow shelter and cook on a stove."),
    ("snow", _FIRE): later("You sleep in a snow shelter and cook on a fire."),
    ("snow", _STOVE | _FIRE): later("You sleep in a snow shelter and cook on a stove and a fire."),
    ("open", _STOVE): later("You sleep in the open and cook on a stove."),
    ("open", _FIRE): later("You sleep in the open and cook on a fire."),
    ("open", _STOVE | _FIRE): later("You sleep in the open and cook on a stove and a fire."),
}
_TREATED = {
    "none": later("Nobody planned to treat the water of {days}."),
    "filter": later("Water is filtered on {days}."),
    "chemical": later("Water is treated with drops or tablets on {days}."),
    "boil": later("Water is boiled on {days}."),
}


def carbon_monoxide(facts: Facts) -> Iterator[Finding]:
    """A stove or embers, and a shelter near."""
    on = {str(meal.planned.cooked_on) for meal in facts.cooked()}
    burner = facts.hearth.burner
    if burner and any(day.fuel.melting_kj + day.fuel.boiling_water_kj > 0 for day in facts.days):
        on.add(burner.on)
    on &= _STOVE | _FIRE
    if on:
        yield Finding(facts.say(_SLEEP_AND_COOK[facts.trip.shelter, frozenset(on)]), "fuel")


def fire_and_embers(facts: Facts) -> Iterator[Finding]:
    """Something is cooked over a wood fire."""
    days = [meal.day for meal in facts.meals() if meal.planned.wood_g > 0]
    days += [day.day for day in facts.days if day.fuel.wood_g > 0]
    if days:
        yield _on_days(facts, later("A wood fire burns on {days}."), days, "fuel")


def hot_fat(facts: Facts) -> Iterator[Finding]:
    """Something is fried."""
    for meal in facts.steps("fry"):
        said = meal_said(facts.say, meal)
        yield Finding(facts.say("{meal} is fried.", meal=said), page_of(meal))


def hot_iron(facts: Facts) -> Iterator[Finding]:
    """Something is pressed in an iron."""
    for meal in facts.steps("press"):
        said = meal_said(facts.say, meal)
        yield Finding(facts.say("{meal} is cooked in an iron.", meal=said), page_of(meal))


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
                facts.say(
                    "On day {n} the air falls to {cold}, and {fuel} gives little pressure then.",
                    n=day.day,
                    cold=facts.shown(low_c, "temperature_c"),
                    fuel=facts.say.name(fuel.name),
                ),
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
        yield _carried(facts, facts.fuel.name)


def _carried(facts: Facts, fuel: str) -> Finding:
    return Finding(facts.say("You carry {fuel}.", fuel=facts.say.name(fuel)), "fuel")


def windscreen_and_gas(facts: Facts) -> Iterator[Finding]:
    """An upright can under the burner, and wind that asks for a screen."""
    fuel, stove = facts.hearth.fuel, facts.hearth.stove
    if not fuel or fuel.kind != "gas" or not stove or stove.liquid_feed:
        return
    windy = [day.day for day in facts.days if day.conditions.wind != "sheltered"]
    if windy:
        yield _on_days(facts, later("Wind is expected on {days}."), windy, "fuel")


def refuelling(facts: Facts) -> Iterator[Finding]:
    """A liquid fuel is poured."""
    fuel = facts.hearth.fuel
    if facts.fuel and fuel and fuel.kind in ("liquid", "alcohol"):
        yield _carried(facts, fuel.name)


def untreated_water(facts: Facts) -> Iterator[Finding]:
    """Water that is drunk as it comes, not from a tap."""
    yield from _treated(facts, "none")


def filter_limits(facts: Facts) -> Iterator[Finding]:
    """Water is filtered."""
    yield from _treated(facts, "filter")


def chemical_limits(facts: Facts) -> Iterator[Finding]:
    """Water is treated with drops or tablets."""
    yield from _treated(facts, "chemical")


def boil_water(facts: Facts) -> Iterator[Finding]:
    """Water is boiled to make it safe."""
    yield from _treated(facts, "boil")


def _treated(facts: Facts, how: str) -> Iterator[Finding]:
    days = [
        day.day
        for day in facts.days
        if day.conditions.treat == how
        and day.conditions.water_source != "tap"
        and day.water.treat_ml > 0
    ]
    if days:
        yield _on_days(facts, _TREATED[how], days, "water")


def frozen_filter(facts: Facts) -> Iterator[Finding]:
    """A filter, and a night of frost."""
    days = [
        day.day
        for day in facts.days
        if day.conditions.treat == "filter" and day.conditions.air_low_c <= 0
    ]
    if days:
        yield _on_days(facts, later("Frost is expected on {days}."), days, "water")


def long_dry_stretch(facts: Facts) -> Iterator[Finding]:
    """Hours without water, or a camp without."""
    for day in facts.days:
        dry_camp = day.conditions.water_source == "none" and not day.ends_home
        if not dry_camp and day.between_water_h < DRY_STRETCH_H:
            continue
        carry = facts.shown(day.water.carry_ml, "volume_ml")
        says = (
            facts.say(
                "Day {n}: the camp has no water. Carry {water} between you.", n=day.day, water=carry
            )
            if dry_camp
            else facts.say(
                "Day {n}: {time} without water. Carry {water} between you.",
                n=day.day,
                time=facts.shown(day.between_water_h, "hours"),
                water=carry,
            )
        )
        yield Finding(says, f"day-{day.day}")


def melting_snow(facts: Facts) -> Iterator[Finding]:
    """Water comes from snow."""
    days = [day.day for day in facts.days if day.conditions.water_source == "snow"]
    if days:
        yield _on_days(facts, later("Snow is melted on {days}."), days, "water")


def over_drinking(facts: Facts) -> Iterator[Finding]:
    """Heat that makes people drink much in an hour, or in a day."""
    days = [
        day.day
        for day in facts.days
        if day.travel_hours > 0 and any(person.rate_ml_h >= WARM_RATE_ML_H for person in day.people)
    ]
    if days:
        rate = facts.shown(WARM_RATE_ML_H, "volume_ml")
        says = later("The plan gives {rate} an hour or more on {days}.")
        yield _on_days(facts, says, days, "water", rate=rate)
    too_much = [
        day.day
        for day in facts.days
        if any(person.to_drink_ml > MOST_ML_DAY for person in day.people)
    ]
    if too_much:
        most = facts.shown(MOST_ML_DAY, "volume_ml")
        says = later("The plan gives somebody more than {most} on {days}: plan a shorter way.")
        yield _on_days(facts, says, too_much, "water", most=most)


def animals_and_food(facts: Facts) -> Iterator[Finding]:
    """A night outdoors with food."""
    nights = [day.day for day in facts.days if not day.ends_home]
    if nights and facts.trip.shelter != "hut":
        yield _on_days(facts, later("You camp with food on {days}."), nights, "cautions")


def dishwater(facts: Facts) -> Iterator[Finding]:
    """Washing up at camp."""
    days = [day.day for day in facts.days if day.water.washing_ml > 0]
    if days:
        yield _on_days(facts, later("You wash up on {days}."), days, "water")


def heavy_load(facts: Facts) -> Iterator[Finding]:
    """A pack above its limit, or above what anybody should carry."""
    for load in facts.weights.people:
        person = facts.trip.person(load.name)
        child = person.age_years < GROWN_UP_YEARS
        most = MOST_OF_CHILD_SHARE if child else MOST_OF_BODY_SHARE
        carries = facts.shown(load.total_g, "mass_g")
        if load.of_limit > 1 + 1e-9:
            says = facts.say(
                "{name} would carry {load} and said {limit}.",
                name=load.name,
                load=carries,
                limit=facts.shown(load.limit_g, "mass_g"),
            )
        elif load.total_g / 1000 <= most * person.mass_kg:
            continue
        elif child:
            says = facts.say(
                "{name} would carry {load}, more than a quarter of their own mass.",
                name=load.name,
                load=carries,
            )
        else:
            says = facts.say(
                "{name} would carry {load}, more than a third of their own mass.",
                name=load.name,
                load=carries,
            )
        yield Finding(says, "carry")


def energy_short(facts: Facts) -> Iterator[Finding]:
    """Less than nine tenths of the need over the trip."""
    eaten = sum(day.nutrition.energy_kcal for day in facts.days)
    need = sum(day.energy_need_kcal for day in facts.days)
    if need > 0 and eaten < ENERGY_SHORT_SHARE * need:
        yield Finding(
            facts.say(
                "The menu gives {eaten}, these days take {need} ({share}).",
                eaten=facts.shown(eaten, "energy_kcal"),
                need=facts.shown(need, "energy_kcal"),
                share=facts.shown(eaten / need, "share"),
            ),
            "index",
        )


def energy_short_day(facts: Facts) -> Iterator[Finding]:
    """Less than three quarters of the need on a day."""
    for day in facts.days:
        eaten, need = day.nutrition.energy_kcal, day.energy_need_kcal
        if need > 0 and eaten < ENERGY_SHORT_DAY_SHARE * need:
            yield Finding(
                facts.say(
                    "Day {n} gives {eaten} and takes {need} ({share}).",
                    n=day.day,
                    eaten=facts.shown(eaten, "energy_kcal"),
                    need=facts.shown(need, "energy_kcal"),
                    share=facts.shown(eaten / need, "share"),
                ),
                f"day-{day.day}",
            )


def _on_days(facts: Facts, says: str, days: Iterable[int], where: str, **blanks: str) -> Finding:
    return Finding(facts.say(says, days=days_said(facts.say, days), **blanks), where)
