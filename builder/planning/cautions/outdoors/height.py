"""Conditions of the cautions about sleeping high: how high, and how fast it is gained."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.kit import KitDay, Spot
from builder.planning.cautions.facts import Facts, Finding, on_days
from builder.planning.cooking import start_altitude_m
from builder.speech import later

# Hofmeyr and others 2017 (its abstract): from here on people fall ill, and a night may lie so much
# higher than the last. Who comes from below counts as having slept at the limit.
THIN_AIR_FROM_M = 2500.0
GAIN_A_NIGHT_M = 500.0


def thin_air(facts: Facts) -> Iterator[Finding]:
    """A night so high that people fall ill of it, or a way that may lead as high."""
    before_each_m = _nights_before_m(facts)
    start = before_each_m[0]
    nights = [day for day in facts.days if not day.ends_home and _is_high(_camp_m(day))]
    if nights:
        height = facts.shown(max(map(_camp_m, nights)), "altitude_m")
        says = later("You sleep at up to {height} on {days}.")
        yield on_days(
            facts, says, [day.day for day in nights], f"day-{nights[0].day}", height=height
        )
    elif start is not None and _is_high(start):
        height = facts.shown(start, "altitude_m")
        says = facts.say("The start camp lies at {height}.", height=height)
        yield Finding(says, "day-1", Spot(days=(1,)))
    ways = {
        day.day: top_m
        for day, before_m in zip(facts.days, before_each_m, strict=True)
        if (top_m := _top_m(day, before_m)) > THIN_AIR_FROM_M + GAIN_A_NIGHT_M
        and not _is_high(max(_camp_m(day), before_m or 0.0))
    }
    if ways:
        height = facts.shown(max(ways.values()), "altitude_m")
        says = later("Nobody wrote down how high the way of {days} leads: up to {height}.")
        yield on_days(facts, says, ways, f"day-{min(ways)}", height=height)


def height_gained_fast(facts: Facts) -> Iterator[Finding]:
    """A night much higher than the one before, where the air is thin."""
    for day, before_m in zip(facts.days, _nights_before_m(facts), strict=True):
        height_m = _camp_m(day)
        if day.ends_home or height_m - max(before_m or 0.0, THIN_AIR_FROM_M) <= GAIN_A_NIGHT_M:
            continue
        height = facts.shown(height_m, "altitude_m")
        says = (
            facts.say(
                "Day {n}: you sleep at {height}. Nobody wrote down where the night before.",
                n=day.day,
                height=height,
            )
            if before_m is None
            else facts.say(
                "Day {n}: you sleep at {height}, and at {before} the night before.",
                n=day.day,
                height=height,
                before=facts.shown(before_m, "altitude_m"),
            )
        )
        yield Finding(says, f"day-{day.day}", Spot(days=(day.day,)))


def _camp_m(day: KitDay) -> float:
    return float(day.conditions.altitude_m)


def _is_high(height_m: float) -> bool:
    return height_m > THIN_AIR_FROM_M


def _nights_before_m(facts: Facts) -> list[float | None]:
    return [start_altitude_m(facts.trip), *map(_camp_m, facts.days[:-1])]


def _top_m(day: KitDay, before_m: float | None) -> float:
    """Give how high a day's way leads at most: it is told by its camps and climbs alone."""
    tops = [] if before_m is None else [before_m + day.ascent_m]
    if day.descent_m and not day.ends_home:
        tops.append(_camp_m(day) + day.descent_m)
    return float(min(tops, default=0.0))
