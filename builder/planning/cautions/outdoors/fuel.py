"""Conditions of the cautions about what stoves burn."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formulas.gas import (
    CANISTER_COOLS_K,
    LEAST_TEMPERATURE_C,
    MOST_TEMPERATURE_C,
    gas_flows,
)
from builder.model.gear import Fuel, FuelKind
from builder.model.kit import Conditions, Spot
from builder.planning.cautions.facts import Facts, Finding, on_days
from builder.speech import later

# Air in which the pressure of a can is known; colder feeds no burner, warmer always does.
MEASURED_AIR_C = (LEAST_TEMPERATURE_C + CANISTER_COOLS_K, MOST_TEMPERATURE_C + CANISTER_COOLS_K)

# Below its flash point a match does not light it: ethanol 13 to 17, methanol 11 °C, from memory.
LIGHTS_FROM_C: dict[FuelKind, float] = {"alcohol": 13.0}
# Where less than half of a full can comes out, the cans that were counted do not last.
LITTLE_USABLE_SHARE = 0.5


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
                Spot(days=(day.day,)),
            )


def _feeds(fuel: Fuel, at: Conditions) -> bool:
    """Tell whether a fresh can feeds a burner, also in air beyond what was ever measured."""
    if not MEASURED_AIR_C[0] <= at.air_low_c <= MEASURED_AIR_C[1]:
        return at.air_low_c > MEASURED_AIR_C[1]
    all_shares = sum(share for _, share in fuel.mix)
    mix = {gas: share / all_shares for gas, share in fuel.mix}
    return gas_flows(mix, at.air_low_c, at.pressure_hpa)


def gas_left_in_the_can(facts: Facts) -> Iterator[Finding]:
    """A can that begins well in the cold and keeps much of its gas in the end."""
    fuel = facts.hearth.fuel
    if not fuel or not facts.fuel:
        return
    for day in facts.days:
        at = day.conditions
        if not MEASURED_AIR_C[0] <= at.air_low_c <= MEASURED_AIR_C[1]:
            continue
        cold = day.cold_gas
        if cold and 0 < cold.usable_share < LITTLE_USABLE_SHARE:
            says = facts.say(
                "On day {n} the air falls to {cold}: about {left} of a full can of {fuel} stays "
                "in it.",
                n=day.day,
                cold=facts.shown(at.air_low_c, "temperature_c"),
                left=facts.shown(1 - cold.usable_share, "share"),
                fuel=facts.say.name(fuel.name),
            )
            yield Finding(says, "fuel", Spot(days=(day.day,)))


def fuel_too_cold(facts: Facts) -> Iterator[Finding]:
    """A fuel that a match does not light in this air."""
    fuel = facts.hearth.fuel
    if not fuel or not facts.fuel:
        return
    lights_from_c = fuel.lights_from_c
    if lights_from_c is None:
        lights_from_c = LIGHTS_FROM_C.get(fuel.kind)
    cold = [
        day
        for day in facts.days
        if lights_from_c is not None and day.conditions.air_low_c < lights_from_c
    ]
    if lights_from_c is not None and cold:
        yield on_days(
            facts,
            later("{fuel} lights from {warm} on, and the air falls to {cold} ({days})."),
            [day.day for day in cold],
            "fuel",
            fuel=facts.say.name(fuel.name),
            warm=facts.shown(lights_from_c, "temperature_c"),
            cold=facts.shown(min(day.conditions.air_low_c for day in cold), "temperature_c"),
        )


def gas_and_heat(facts: Facts) -> Iterator[Finding]:
    """Gas is carried."""
    if facts.fuel and facts.hearth.fuel and facts.hearth.fuel.kind == "gas":
        yield _carried(facts, facts.fuel.name)


def _carried(facts: Facts, fuel: str) -> Finding:
    return Finding(
        facts.say("You carry {fuel}.", fuel=facts.say.name(fuel)), "fuel", Spot(pack="fuel")
    )


def windscreen_and_gas(facts: Facts) -> Iterator[Finding]:
    """An upright can under the burner, and wind that asks for a screen."""
    fuel, stove = facts.hearth.fuel, facts.hearth.stove
    if not fuel or fuel.kind != "gas" or not stove or stove.liquid_feed:
        return
    windy = [day.day for day in facts.days if day.conditions.wind != "sheltered"]
    if windy:
        yield on_days(facts, later("Wind is expected on {days}."), windy, "fuel")


def refuelling(facts: Facts) -> Iterator[Finding]:
    """A liquid fuel is poured."""
    fuel = facts.hearth.fuel
    if facts.fuel and fuel and fuel.kind in ("liquid", "alcohol"):
        yield _carried(facts, fuel.name)
