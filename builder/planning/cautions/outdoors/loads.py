"""Conditions of the cautions about loads, and about too little to eat."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.kit import Spot
from builder.model.trip import GROWN_UP_YEARS
from builder.planning.cautions.facts import Facts, Finding
from builder.planning.menu import left_out
from builder.planning.naming import days_said

ENERGY_SHORT_SHARE = 0.90
ENERGY_SHORT_DAY_SHARE = 0.75
# So many are named who go short; of more, each one's own page tells.
NAMED = 4
# The most that leaders' guidance lets anybody carry, whatever they say themselves (read in a copy).
MOST_OF_BODY_SHARE = 1 / 3
MOST_OF_CHILD_SHARE = 1 / 4


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
        yield Finding(says, "carry", Spot(person=load.name))


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
            "food",
        )


def energy_short_day(facts: Facts) -> Iterator[Finding]:
    """Less than three quarters of the need on a day, of the party's or of one person's alone."""
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
                Spot(days=(day.day,)),
            )
    short: dict[str, None] = {}
    days: list[int] = []
    for person in facts.trip.party:
        for each in left_out(facts.trip, facts.days, person.name):
            if each.meal is None and not each.meant:
                short[person.name] = None
                days.append(each.day)
    if short:
        # Who gets how much stands on each one's page; shares by person stay out of public kits.
        says = facts.say(
            "Not enough for {who} on {days}, by their own need; the party as a whole has enough.",
            who=facts.say.listed(short) if len(short) <= NAMED else facts.say("several of you"),
            days=days_said(facts.say, sorted(set(days))),
        )
        yield Finding(says, "food")
