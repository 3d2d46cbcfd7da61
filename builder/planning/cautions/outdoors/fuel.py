"""Conditions of the cautions about what stoves burn."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.formulas.gas import (
    CANISTER_COOLS_K,
    LEAST_TEMPERATURE_C,
    MOST_TEMPERATURE_C,
    gas_flows,
)
from builder.model.gear import Fuel, FuelKind
from builder.model.kit import Conditions, Spot
from builder.planning.cautions.facts import Facts, Finding, on_days
from builder.planning.cooking import OneStove
from builder.speech import later

# Air in which the pressure of a can is known; colder feeds no burner, warmer always does.
MEASURED_AIR_C = (LEAST_TEMPERATURE_C + CANISTER_COOLS_K, MOST_TEMPERATURE_C + CANISTER_COOLS_K)

# Below its flash point a match does not light it: ethanol 13 to 17, methanol 11 °C, from memory.
LIGHTS_FROM_C: dict[FuelKind, float] = {"alcohol": 13.0}
# Where less than half of a full can comes out, the cans that were counted do not last.
LITTLE_USABLE_SHARE = 0.5


def gas_in_the_cold(facts: Facts) -> Iterator[Finding]:
    """A gas mixture whose pressure is low at the coldest of a camp."""
    for fuel in _fuels_of(_upright_gas(facts)):
        yield from _too_cold_for(fuel, facts) if fuel.mix else ()


def _upright_gas(facts: Facts) -> list[OneStove]:
    """Give the stoves that take gas from the top of the can."""
    return [
        each
        for each in facts.hearth.stoves
        if each.fuel.kind == "gas" and not each.stove.liquid_feed
    ]


def _fuels_of(stoves: Iterable[OneStove]) -> list[Fuel]:
    """Give what stoves burn, each once."""
    return list({each.fuel.id: each.fuel for each in stoves}.values())


def _too_cold_for(fuel: Fuel, facts: Facts) -> Iterator[Finding]:
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
    names = {each.fuel.id: each.fuel.name for each in facts.hearth.stoves}
    for day in facts.days:
        at = day.conditions
        if not MEASURED_AIR_C[0] <= at.air_low_c <= MEASURED_AIR_C[1]:
            continue
        for cold in day.cold_gases:
            if not 0 < cold.usable_share < LITTLE_USABLE_SHARE:
                continue
            says = facts.say(
                "On day {n} the air falls to {cold}: about {left} of a full canister of {fuel} "
                "stays in it.",
                n=day.day,
                cold=facts.shown(at.air_low_c, "temperature_c"),
                left=facts.shown(1 - cold.usable_share, "share"),
                fuel=facts.say.name(names[cold.fuel]),
            )
            yield Finding(says, "fuel", Spot(days=(day.day,)))


def fuel_too_cold(facts: Facts) -> Iterator[Finding]:
    """A fuel that a match does not light in this air."""
    for fuel in _fuels_of(facts.hearth.stoves):
        yield from _does_not_light(fuel, facts)


def _does_not_light(fuel: Fuel, facts: Facts) -> Iterator[Finding]:
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
    for fuel in _fuels_of(facts.hearth.stoves):
        if fuel.kind == "gas":
            yield _carried(facts, fuel.name)


def _carried(facts: Facts, fuel: str) -> Finding:
    return Finding(
        facts.say("You carry {fuel}.", fuel=facts.say.name(fuel)), "fuel", Spot(pack="fuel")
    )


def windscreen_and_gas(facts: Facts) -> Iterator[Finding]:
    """An upright can under the burner, and wind that asks for a screen."""
    windy = [day.day for day in facts.days if day.conditions.wind != "sheltered"]
    if windy and _upright_gas(facts):
        yield on_days(facts, later("Wind is expected on {days}."), windy, "fuel")


def refuelling(facts: Facts) -> Iterator[Finding]:
    """A liquid fuel is poured."""
    for fuel in _fuels_of(facts.hearth.stoves):
        if fuel.kind in ("liquid", "alcohol"):
            yield _carried(facts, fuel.name)
