"""Plans trips with what earlier ones taught: the one place that knows of all trips at once."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.content import Content
from builder.model.kit import Kit
from builder.model.learned import NOTHING_LEARNED
from builder.model.trip import Trip
from builder.planning.after import Lesson, learned_before, lesson_of
from builder.planning.kit import plan_trip
from builder.planning.stock import Stock
from builder.problems import ProblemsFound
from builder.record import replace


def lessons_of(content: Content, stock: Stock) -> tuple[Lesson, ...]:
    """Give what the trips of a folder teach: each is planned as if nothing had been learned.

    One that cannot be planned teaches nothing; that is told where it is built.
    """
    return tuple(_lessons(content, stock))


def _lessons(content: Content, stock: Stock) -> Iterable[Lesson]:
    for trip in content.trips.values():
        if trip.review is None or not trip.review.is_told:
            continue
        try:
            kit = plan_trip(trip, content, stock, to_check=True)
        except ProblemsFound:
            continue
        if kit.review is not None:
            yield lesson_of(trip, kit.review)


def plan_learned(
    trip: Trip,
    content: Content,
    stock: Stock,
    lessons: Iterable[Lesson],
    *,
    to_check: bool = False,
) -> Kit:
    """Plan a trip with what earlier ones taught; its own review stands against the plain plan."""
    learned = learned_before(trip, lessons)
    kit = plan_trip(trip, content, stock, learned=learned, to_check=to_check)
    if learned == NOTHING_LEARNED or kit.review is None:
        return kit
    # Of the plain plan nothing but the review is told, for which no pages need be thought of.
    plain = plan_trip(trip, content, stock, to_check=True)
    return replace(kit, review=plain.review)
