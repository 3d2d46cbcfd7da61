"""Conditions of the cautions about what stoves burn."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from builder.formulas.gas import (
    CANISTER_COOLS_K,
    LEAST_TEMPERATURE_C,
    MOST_TEMPERATURE_C,
    gas_flows,
)
from builder.model.gear import Fuel, FuelKind
from builder.model.kit import Conditions, KitDay, Spot
from builder.planning.cautions.facts import Facts, Finding, on_days
from builder.planning.cooking import OneStove
from builder.planning.looks import given_in_the_cold_g
from builder.planning.menu import MenuItem
from builder.speech import later

# Air in which the pressure of a can is known; colder feeds no burner, warmer always does.
MEASURED_AIR_C = (LEAST_TEMPERATURE_C + CANISTER_COOLS_K, MOST_TEMPERATURE_C + CANISTER_COOLS_K)

# What nobody told may be the cheapest, which the cold stops first.
UNTOLD_MIX = (("butane", 1.0),)

# Below its flash point a match does not light it: ethanol 13 to 17, methanol 11 °C, from memory.
LIGHTS_FROM_C: dict[FuelKind, float] = {"alcohol": 13.0}
# What nobody told may be kerosene, from memory 38 to 72 °C; petrol lights in any frost.
UNTOLD_LIGHTS_FROM_C: dict[FuelKind, float] = {"liquid": 38.0}
# Where less than half of a full can comes out, the cans that were counted do not last.
LITTLE_USABLE_SHARE = 0.5


def gas_in_the_cold(facts: Facts) -> Iterator[Finding]:
    """A gas mixture whose pressure is low at the coldest of a camp, or cans that do not last."""
    for fuel in _fuels_of(_upright_gas(facts)):
        yield from _too_cold_for(fuel, facts)
    yield from _cans_do_not_last(facts)


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
        cold = [at for at in _places(day, menu) if not _feeds(fuel, at)]
        if cold:
            low_c = min(at.air_low_c for at in cold)
            says = (
                later("On day {n} the air falls to {cold}, and {fuel} gives little pressure then.")
                if fuel.mix
                else later(
                    "Nobody wrote down the gases in {fuel}, and on day {n} the air falls to "
                    "{cold}: butane gives little pressure then."
                )
            )
            yield Finding(
                facts.say(
                    says,
                    n=day.day,
                    cold=facts.shown(low_c, "temperature_c"),
                    fuel=facts.say.name(fuel.name),
                ),
                "fuel",
                Spot(days=(day.day,)),
            )


def _places(day: KitDay, menu: Sequence[MenuItem]) -> list[Conditions]:
    """Give the camps of a day; the first breakfast may be cooked at a colder one than its own."""
    return [day.conditions, *(each.planned.conditions for each in menu if day.day == 1)]


def _feeds(fuel: Fuel, at: Conditions) -> bool:
    """Tell whether a fresh can feeds a burner, also in air beyond what was ever measured."""
    if not MEASURED_AIR_C[0] <= at.air_low_c <= MEASURED_AIR_C[1]:
        return at.air_low_c > MEASURED_AIR_C[1]
    told = fuel.mix or UNTOLD_MIX
    all_shares = sum(share for _, share in told)
    mix = {gas: share / all_shares for gas, share in told}
    return gas_flows(mix, at.air_low_c, at.pressure_hpa)


def _cans_do_not_last(facts: Facts) -> Iterator[Finding]:
    """Find gas of which the cans, as cold as at the coldest camp, give less than is burnt."""
    for fuel in facts.fuels:
        is_cold = any(
            each.fuel == fuel.id and each.usable_share < LITTLE_USABLE_SHARE
            for day in facts.days
            for each in day.cold_gases
        )
        given_g = given_in_the_cold_g(fuel, facts.days) if is_cold else None
        if given_g is None or given_g >= fuel.likely_g:
            continue
        says = facts.say(
            "In the cold the canisters you take give {given} of {fuel}, and you burn about "
            "{likely}.",
            given=facts.shown(given_g, "mass_g"),
            fuel=facts.say.name(fuel.name),
            likely=facts.shown(fuel.likely_g, "mass_g"),
        )
        yield Finding(says, "fuel", Spot(pack="fuel"))


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
    says = later("{fuel} lights from {warm} on, and the air falls to {cold} ({days}).")
    if lights_from_c is None:
        lights_from_c = LIGHTS_FROM_C.get(fuel.kind)
    if lights_from_c is None:
        lights_from_c = UNTOLD_LIGHTS_FROM_C.get(fuel.kind)
        says = later(
            "Nobody wrote down how warm {fuel} must be to light; kerosene must be at {warm}. The "
            "air falls to {cold} ({days})."
        )
    if lights_from_c is None:
        return
    coldest_c = {
        day.day: min(at.air_low_c for at in _places(day, menu))
        for day, menu in zip(facts.days, facts.menus, strict=True)
    }
    cold_c = {day: low_c for day, low_c in coldest_c.items() if low_c < lights_from_c}
    if cold_c:
        yield on_days(
            facts,
            says,
            cold_c,
            "fuel",
            fuel=facts.say.name(fuel.name),
            warm=facts.shown(lights_from_c, "temperature_c"),
            cold=facts.shown(min(cold_c.values()), "temperature_c"),
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
