"""What to do at home now: what dries, what waits for a hand, what to eat first, what is ahead."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence
from typing import Literal

from builder.planning.at_home import Shopper
from builder.planning.batches import Judged, name_now
from builder.planning.drying import CONDITIONING_DAYS, evens_out
from builder.planning.stock import Stock, StockLine
from builder.record import dataclass
from builder.speech import Speech
from builder.units import System

LOOK_AHEAD_DAYS = 7  # a week
EAT_FIRST_WITHIN_DAYS = 92  # three months: time enough to plan a meal around it
MOST_TO_EAT_FIRST = 5

Doing = Literal["drying", "dry", "condition", "act", "throw-out", "past", "eat-first"]


@dataclass(frozen=True, slots=True)
class Task:
    """One thing that waits for somebody at home."""

    do: Doing
    batch: str
    name: str
    day: datetime.date | None  # until when; None: now
    act: str = ""
    packs: int = 0
    why: str = ""  # it is thrown out, to be said


@dataclass(frozen=True, slots=True)
class TripAhead:
    """A trip that is not over, and what is still to be done for it."""

    trip: str
    title: str
    start: datetime.date | None
    days_off: int | None  # until it begins; 0 and less: under way
    to_dry: int  # things still to be dried
    to_buy: int  # lines of its shopping list


def tasks_of(
    stock: Stock, lines: Sequence[StockLine], at: datetime.date, say: Speech, units: System
) -> tuple[Task, ...]:
    """Give what is to be done, the most pressing first."""
    return (
        *_in_hand(stock, at, say, units),
        *_of_the_shelf(stock, lines, at),
        *_eat_first(lines, at),
    )


def _in_hand(stock: Stock, at: datetime.date, say: Speech, units: System) -> Iterator[Task]:
    """Give what is in a dryer, is to be dried within the week, or lies in its jar."""
    for judged in stock.judged.values():
        batch = judged.batch
        name = name_now(say, judged)
        if batch.in_dryer:
            yield Task("drying", batch.id, name, None, judged.act(say, at, units))
        elif batch.planned is not None and batch.done is None:
            if (batch.planned - at).days <= LOOK_AHEAD_DAYS:
                yield Task("dry", batch.id, name, batch.planned, judged.act(say, at, units))
        elif (until := conditioned_on(judged)) and at <= until and stock.left(batch, at) > 0:
            yield Task("condition", batch.id, name, until)


def conditioned_on(judged: Judged) -> datetime.date | None:
    """Give the day heat-dried fruit has lain in its jar long enough; None for all else."""
    batch = judged.batch
    jarred = evens_out(judged.substance.kind, batch.method)
    if not jarred or batch.done is None or judged.failed:
        return None
    return batch.done + datetime.timedelta(days=CONDITIONING_DAYS)


def _of_the_shelf(stock: Stock, lines: Iterable[StockLine], at: datetime.date) -> Iterator[Task]:
    """Give what lies on the shelf and is to be thrown out, looked at, or seen to.

    That raw food is to be cooked through is told with its packs: it is nothing to do at home.
    """
    for line in lines:
        if not line.packs_left or line.is_ahead(at):
            continue
        act = stock.judged[line.batch].act_as_of(at)
        day = line.best_before if line.is_past(at) else None
        if line.is_waste:
            yield Task("throw-out", line.batch, line.name, day, line.act, line.packs_left, line.why)
        elif day:
            yield Task("past", line.batch, line.name, day, line.remark, line.packs_left)
        elif act not in ("", "cook"):
            yield Task("act", line.batch, line.name, None, line.act, line.packs_left)


def _eat_first(lines: Iterable[StockLine], at: datetime.date) -> Iterator[Task]:
    """Give the free packs that expire next; what has an act or is past is told as that."""
    soon = at + datetime.timedelta(days=EAT_FIRST_WITHIN_DAYS)
    found = [
        line
        for line in lines
        if line.packs_free > 0
        and not line.act
        and not line.is_ahead(at)
        and line.best_before is not None
        and at <= line.best_before <= soon
    ]
    for line in found[:MOST_TO_EAT_FIRST]:
        yield Task("eat-first", line.batch, line.name, line.best_before, packs=line.packs_free)


def trips_ahead(kits: Iterable[Shopper], at: datetime.date) -> tuple[TripAhead, ...]:
    """Give the trips that are not over on a day, the next one first."""
    found = [
        TripAhead(
            trip=kit.id,
            title=kit.title,
            start=kit.start,
            days_off=None if kit.start is None else (kit.start - at).days,
            to_dry=sum(line.to_dry for line in kit.shopping),
            to_buy=sum(not line.to_dry for line in kit.shopping),
        )
        for kit in kits
    ]
    return tuple(
        sorted(found, key=lambda each: (each.start or datetime.date.max, each.title, each.trip))
    )
