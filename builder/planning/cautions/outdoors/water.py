"""Conditions of the cautions about water: treating it, finding enough, drinking it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from builder.formulas.boiling import HIGH_BOIL_ABOVE_M
from builder.formulas.water import HOT_ABOVE_C, MOST_ML_DAY, WARM_RATE_ML_H
from builder.model.kit import KitDay, Spot
from builder.model.trip import Day, Treatment
from builder.planning.cautions.facts import Facts, Finding, on_days
from builder.speech import later

DRY_STRETCH_H = 4.0
# Whoever comes to a tap within the hour does not fill up before.
_WAITS_FOR_A_TAP_H = 1.0
# Blue-green algae bloom in warm, still water; where nobody measured it, warm air stands for it.
ALGAE_FROM_WATER_C = 15.0
ALGAE_FROM_AIR_C = 20.0

_TREATED = {
    "none": later("Nobody planned to treat the water of {days}."),
    "filter": later("Water is filtered on {days}."),
    "chemical": later("Water is treated with drops or tablets on {days}."),
    "boil": later("Water is boiled on {days}."),
}
_ON_THE_WAY = later("Nobody planned to treat what you fill up with between taps on {days}.")
_NEAR = {
    "mines": later("Mines lie near the water of {days}."),
    "fields": later("Fields lie near the water of {days}."),
    "roads": later("Roads lie near the water of {days}."),
}

_NEAR_START = {
    "mines": later("Mines lie near the water of the start camp."),
    "fields": later("Fields lie near the water of the start camp."),
    "roads": later("Roads lie near the water of the start camp."),
}
# What holds at the camp before day 1 is acted on that day.
FIRST_MORNING = Spot(days=(1,))


def untreated_water(facts: Facts) -> Iterator[Finding]:
    """Water that is drunk as it comes, not from a tap; nor is what is filled on the way."""
    yield from _treated(facts, "none")
    days = [
        day.day
        for day in facts.days
        if day.conditions.water_source == "tap"
        and day.conditions.treat == "none"
        and day.travel_hours > day.between_water_h + _WAITS_FOR_A_TAP_H
    ]
    if days:
        yield on_days(facts, _ON_THE_WAY, days, "water")
    start = facts.trip.start_camp
    if start is None or facts.days[0].is_treated("none"):
        return
    if start.water.treat == "none" and start.water.camp not in ("tap", "none"):
        says = facts.say("Nobody planned to treat the water of the start camp.")
        yield Finding(says, "water", FIRST_MORNING)


def filter_limits(facts: Facts) -> Iterator[Finding]:
    """Water is filtered."""
    yield from _treated(facts, "filter")


def chemical_limits(facts: Facts) -> Iterator[Finding]:
    """Water is treated with drops or tablets."""
    yield from _treated(facts, "chemical")


def boil_water(facts: Facts) -> Iterator[Finding]:
    """Water is boiled to make it safe, and a minute will do."""
    days = [day.day for day in _boiled(facts) if not _is_high(day)]
    if days:
        yield on_days(facts, _TREATED["boil"], days, "water")


def boil_longer(facts: Facts) -> Iterator[Finding]:
    """Water is boiled to make it safe where it boils too cool for one minute."""
    high = [day for day in _boiled(facts) if _is_high(day)]
    if high:
        height = facts.shown(max(day.conditions.altitude_m for day in high), "altitude_m")
        says = later("The camp lies at up to {height} on {days}.")
        yield on_days(facts, says, [day.day for day in high], "water", height=height)


def _is_high(day: KitDay) -> bool:
    return day.conditions.altitude_m > HIGH_BOIL_ABOVE_M


def _boiled(facts: Facts) -> list[KitDay]:
    return [day for day in facts.days if day.is_treated("boil")]


def algae(facts: Facts) -> Iterator[Finding]:
    """Water comes out of a warm lake."""
    for day, told in zip(facts.days, facts.trip.days, strict=True):
        at = day.conditions
        water_c = told.camp.water.at_c
        if at.water_source != "lake" or not _has_water_of_its_own(facts, told):
            continue
        if water_c is not None and water_c >= ALGAE_FROM_WATER_C:
            says = facts.say(
                "The lake on day {n} is at {warm}.",
                n=day.day,
                warm=facts.shown(water_c, "temperature_c"),
            )
        elif water_c is None and at.air_high_c >= ALGAE_FROM_AIR_C:
            says = facts.say(
                "Nobody wrote down how warm the lake on day {n} is, and the air reaches {warm}.",
                n=day.day,
                warm=facts.shown(at.air_high_c, "temperature_c"),
            )
        else:
            continue
        yield Finding(says, "water", Spot(days=(day.day,)))
    yield from _algae_at_start(facts)


def _has_water_of_its_own(facts: Facts, day: Day) -> bool:
    """Tell whether a day's water is another than the last camp's, which is that day's before."""
    if not day.ends_home or day.number == 1:
        return True
    return day.camp.water != facts.trip.days[day.number - 2].camp.water


def _algae_at_start(facts: Facts) -> Iterator[Finding]:
    """The first breakfast's water comes out of a warm lake."""
    camp = facts.trip.start_camp
    if camp is None or camp.water.camp != "lake":
        return
    water_c = camp.water.at_c
    if water_c is None and camp.air_high_c >= ALGAE_FROM_AIR_C:
        says = facts.say(
            "Nobody wrote down how warm the lake at the start camp is, and the air reaches {warm}.",
            warm=facts.shown(camp.air_high_c, "temperature_c"),
        )
    elif water_c is not None and water_c >= ALGAE_FROM_WATER_C:
        says = facts.say(
            "The lake at the start camp is at {warm}.", warm=facts.shown(water_c, "temperature_c")
        )
    else:
        return
    yield Finding(says, "water", FIRST_MORNING)


def chemicals_near(facts: Facts) -> Iterator[Finding]:
    """Something upstream, at camp or on the way, that no treatment there takes out."""
    for what, says in _NEAR.items():
        days = [
            day.number
            for day in facts.trip.days
            if what in day.camp.water.near
            and day.camp.water.camp != "tap"
            and _has_water_of_its_own(facts, day)
        ]
        if days:
            yield on_days(facts, says, days, "water")
    start = facts.trip.start_camp
    if start is not None and start.water.camp not in ("tap", "none"):
        for what in start.water.near:
            if what in _NEAR_START:
                yield Finding(facts.say(_NEAR_START[what]), "water", FIRST_MORNING)


def _treated(facts: Facts, how: Treatment) -> Iterator[Finding]:
    days = [day.day for day in facts.days if day.is_treated(how)]
    if days:
        yield on_days(facts, _TREATED[how], days, "water")


def frozen_filter(facts: Facts) -> Iterator[Finding]:
    """A filter in the packs, and a night of frost, also where another water is drunk."""
    start = facts.trip.start_camp
    has_filter = any(day.conditions.treat == "filter" for day in facts.days)
    if not has_filter and (start is None or start.water.treat != "filter"):
        return
    if start is not None and start.air_low_c <= 0:
        yield Finding(facts.say("Frost is expected at the start camp."), "water", FIRST_MORNING)
    if days := [day.day for day in facts.days if day.conditions.air_low_c <= 0]:
        yield on_days(facts, later("Frost is expected on {days}."), days, "water")


def weather_not_told(facts: Facts) -> Iterator[Finding]:
    """Nights of which nobody told how cold they get, with what frost or cold spoils."""
    start = facts.trip.start_camp
    treats = {day.conditions.treat for day in facts.days}
    treats |= {start.water.treat} if start else set()
    if "filter" not in treats and not any(
        each.fuel.kind in ("gas", "alcohol") for each in facts.hearth.stoves
    ):
        return
    days = [day for day in facts.trip.days if "air" not in day.places.fields]
    if days:
        low_c = min(day.camp.air_low_c for day in days)
        yield on_days(
            facts,
            later("Nobody wrote down how cold it gets on {days}; {cold} is taken."),
            [day.number for day in days],
            "fuel",
            cold=facts.shown(low_c, "temperature_c"),
        )


def long_dry_stretch(facts: Facts) -> Iterator[Finding]:
    """Hours without water, or a camp without."""
    for day in facts.days:
        dry_camp = day.conditions.water_source == "none" and not day.ends_home
        stretch_h = min(day.between_water_h, day.travel_hours)
        if not dry_camp and stretch_h < DRY_STRETCH_H:
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
                time=facts.shown(stretch_h, "hours"),
                water=carry,
            )
        )
        yield Finding(says, f"day-{day.day}", Spot(days=(day.day,)))


def melting_snow(facts: Facts) -> Iterator[Finding]:
    """Water comes from snow."""
    days = [day.day for day in facts.days if day.conditions.water_source == "snow"]
    if days:
        # Snow that is boiled to be drunk is melted in the same pot: that counts as well.
        minutes = max(day.fuel.water_minutes for day in facts.days if day.day in days)
        says = (
            later("Snow is melted on {days}: up to {time} a day at full flame.")
            if minutes >= 1
            else later("Snow is melted on {days}.")
        )
        yield on_days(
            facts, says, days, "water", time=facts.shown(math.ceil(minutes), "duration_min")
        )


def heat_illness(facts: Facts) -> Iterator[Finding]:
    """Heat in which people fall ill, on the way and at rest."""
    hot = _hot(facts)
    if hot:
        high = facts.shown(max(day.conditions.air_high_c for day in hot), "temperature_c")
        says = later("The air reaches up to {high} on {days}.")
        yield on_days(facts, says, [day.day for day in hot], "water", high=high)


def _hot(facts: Facts) -> list[KitDay]:
    return [day for day in facts.days if day.conditions.air_high_c > HOT_ABOVE_C]


def over_drinking(facts: Facts) -> Iterator[Finding]:
    """Heat that makes people drink much in an hour, or in a day."""
    days = [
        day.day
        for day in facts.days
        if any(
            person.travel_hours > 0 and person.rate_ml_h >= WARM_RATE_ML_H for person in day.people
        )
    ]
    if days:
        rate = facts.shown(WARM_RATE_ML_H, "volume_ml")
        says = later("The plan gives {rate} an hour or more on {days}.")
        yield on_days(facts, says, days, "water", rate=rate)
    resting = [day.day for day in _hot(facts) if day.day not in days]
    if resting:
        limit = facts.shown(HOT_ABOVE_C, "temperature_c")
        says = later("It is above {limit} on {days}, at rest too.")
        yield on_days(facts, says, resting, "water", limit=limit)
    too_much = [
        day.day
        for day in facts.days
        if any(person.water_need_ml >= MOST_ML_DAY for person in day.people)
    ]
    if too_much:
        most = facts.shown(MOST_ML_DAY, "volume_ml")
        says = later("Somebody needs {most} or more on {days}: plan a shorter way.")
        yield on_days(facts, says, too_much, "water", most=most)
