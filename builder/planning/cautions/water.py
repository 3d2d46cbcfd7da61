"""Conditions of the cautions about water: treating it, finding enough, drinking it."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formulas.water import MOST_ML_DAY, WARM_RATE_ML_H
from builder.model.kit import Spot
from builder.planning.cautions.facts import Facts, Finding, on_days
from builder.speech import later

DRY_STRETCH_H = 4.0

_TREATED = {
    "none": later("Nobody planned to treat the water of {days}."),
    "filter": later("Water is filtered on {days}."),
    "chemical": later("Water is treated with drops or tablets on {days}."),
    "boil": later("Water is boiled on {days}."),
}


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
        yield on_days(facts, _TREATED[how], days, "water")


def frozen_filter(facts: Facts) -> Iterator[Finding]:
    """A filter, and a night of frost."""
    days = [
        day.day
        for day in facts.days
        if day.conditions.treat == "filter" and day.conditions.air_low_c <= 0
    ]
    if days:
        yield on_days(facts, later("Frost is expected on {days}."), days, "water")


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
        yield Finding(says, f"day-{day.day}", Spot(days=(day.day,)))


def melting_snow(facts: Facts) -> Iterator[Finding]:
    """Water comes from snow."""
    days = [day.day for day in facts.days if day.conditions.water_source == "snow"]
    if days:
        yield on_days(facts, later("Snow is melted on {days}."), days, "water")


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
        yield on_days(facts, says, days, "water", rate=rate)
    too_much = [
        day.day
        for day in facts.days
        if any(person.to_drink_ml > MOST_ML_DAY for person in day.people)
    ]
    if too_much:
        most = facts.shown(MOST_ML_DAY, "volume_ml")
        says = later("The plan gives somebody more than {most} on {days}: plan a shorter way.")
        yield on_days(facts, says, too_much, "water", most=most)
