"""What trips that are over teach those that come after them."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence

from builder.formulas.learning import learned_factor
from builder.model.figure import Figure, Told, found
from builder.model.learned import (
    NOTHING_LEARNED,
    Against,
    Factor,
    Habit,
    Learned,
    Reviewed,
    Taught,
)
from builder.model.trip import Trip
from builder.planning.tracing import work
from builder.record import dataclass

# The plan that a ratio is held against is another kit's: there it can be followed further.
BEFORE_LEARNING = "the plan of that trip, before learning"
BY_ITS_REVIEW = "the review of that trip"
_UNITS: dict[Taught, str] = {"fuel": "g", "wood": "g", "water": "ml", "food": "kcal"}


@dataclass(frozen=True, slots=True)
class Lesson:
    """What one trip teaches, against its plan before anything was learned."""

    trip: str
    title: str
    last_day: datetime.date | None
    stoves: tuple[str, ...]
    was: Reviewed


def lesson_of(trip: Trip, was: Reviewed) -> Lesson:
    """Give what a trip teaches."""
    return Lesson(trip.id, trip.title, trip.date_of(len(trip.days)), trip.stoves, was)


def learned_before(trip: Trip, lessons: Iterable[Lesson]) -> Learned:
    """Give what the trips that were over before this one teach it."""
    if not trip.learned:
        return NOTHING_LEARNED
    earlier = [each for each in lessons if _is_before(each, trip)]
    return Learned(
        fuel=_factor("fuel", [each for each in earlier if each.stoves == trip.stoves]),
        wood=_factor("wood", earlier),
        water=_factor("water", earlier),
        food=_factor("food", earlier),
    )


def habits_of(lessons: Iterable[Lesson]) -> Iterator[Habit]:
    """Give what all trips that are over teach: fuel of stoves that went together by itself."""
    every = tuple(lessons)
    for stoves in sorted({each.stoves for each in every if each.stoves}):
        if fuel := _factor("fuel", [each for each in every if each.stoves == stoves]):
            yield Habit("fuel", fuel, stoves)
    whole: tuple[Taught, ...] = ("wood", "water", "food")
    for what in whole:
        if factor := _factor(what, every):
            yield Habit(what, factor)


def _is_before(lesson: Lesson, trip: Trip) -> bool:
    """Tell whether a trip was over when this one begins; one without a date comes after all."""
    if lesson.trip == trip.id:
        return False
    return lesson.last_day is None or trip.start is None or lesson.last_day < trip.start


def _factor(what: Taught, lessons: Sequence[Lesson]) -> Factor | None:
    teaching = [
        (each, against)
        for each in lessons
        if (against := each.was.against(what)) is not None and against.ratio > 0
    ]
    if not teaching:
        return None
    ratios = tuple(_ratio(what, each, against) for each, against in teaching)
    return Factor(work(learned_factor, ratios), ratios, tuple(each.title for each, _ in teaching))


def _ratio(what: Taught, lesson: Lesson, against: Against) -> float:
    """Give a ratio that ends in its trip: all that led to it is told in the kit of that one."""
    unit = _UNITS[what]
    used = against.used
    if not isinstance(used, Figure) or not isinstance(used.origin, Told):
        used = found(used, f"used_{unit} ({lesson.trip})", BY_ITS_REVIEW)
    planned = found(against.planned, f"planned_{unit} ({lesson.trip})", BEFORE_LEARNING)
    return used / planned
