"""The moments at which a run may begin, so few of them that one of the best plans begins at these.

In the order of its dryer every run of a best plan begins as late as it may: at the end of free
hours, or so that it is emptied when the next run begins, when the dryer is wanted, or when free
hours end. From these moments those of the run before follow, and so on.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from itertools import accumulate

from builder.planning.runs.packing.task import MOST_WAIT_H, Free, Place
from builder.record import dataclass

_SLACK_H = 1e-6


@dataclass(frozen=True, slots=True)
class Moment:
    """A run of some hours: from when to when it takes its dryer, and on which day that ends."""

    start_h: float
    hours: float
    emptied_h: float
    day: int
    extra: tuple[int, ...] = ()  # numbers of the free hours that would have to be made free


class _Hours:
    """Free hours in the order of time; they may overlap."""

    def __init__(self, free: Iterable[tuple[int, Free]]) -> None:
        self.free = sorted(free, key=lambda each: (each[1].from_h, each[1].to_h))
        self.starts = [each.from_h for _, each in self.free]
        # Up to when somebody is free in these hours or in any before them.
        self.ends = list(accumulate((each.to_h for _, each in self.free), max))

    def last(self, until_h: float) -> float | None:
        """Give the last free moment up to a time, to the minute."""
        number = bisect_right(self.starts, until_h + _SLACK_H) - 1
        if number < 0:
            return None
        until_h = math.floor(until_h * 60 + _SLACK_H) / 60
        return max(min(self.ends[number], until_h), self.starts[number])

    def first(self, from_h: float) -> tuple[int, float] | None:
        """Give the first free moment from a time on, and the number of its free hours."""
        place = bisect_left(self.ends, from_h - _SLACK_H)
        if place >= len(self.free):
            return None
        return self.free[place][0], max(from_h, self.starts[place])


def moments(place: Place, hours: Sequence[float], free: Sequence[Free]) -> list[Moment]:
    """Give when runs of a dryer may be, in the order of their starts."""
    every = _Hours(enumerate(free))
    usual = _Hours((n, each) for n, each in enumerate(free) if not each.extra)
    found = [
        moment
        for start_h in _starts(place, hours, every)
        for each in hours
        for moment in _from(start_h, each, free, every, usual)
        if not any(start_h < to_h and moment.emptied_h > from_h for from_h, to_h in place.busy_h)
    ]
    return sorted(found, key=lambda each: (each.start_h, each.hours, each.emptied_h))


def _starts(place: Place, hours: Sequence[float], free: _Hours) -> list[float]:
    """Give the starts that follow from the ends of free hours and from one another."""
    wanted = [free.last(from_h) for from_h, _ in place.busy_h]
    found = {*free.ends, *(each for each in wanted if each is not None)}
    waiting = sorted(found)
    while waiting:
        emptied_h = waiting.pop()
        for each in hours:
            start_h = free.last(emptied_h - each)
            if start_h is not None and start_h not in found and start_h >= place.from_h:
                found.add(start_h)
                waiting.append(start_h)
    return sorted(each for each in found if each >= place.from_h - _SLACK_H)


def _from(
    start_h: float, hours: float, free: Sequence[Free], every: _Hours, usual: _Hours
) -> Iterator[Moment]:
    """Give the runs of a start: emptied when somebody is free, or could make themselves free."""
    end_h = start_h + hours
    begun = _those_at(start_h, free)
    for hours_free in (every, usual):
        emptied = hours_free.first(end_h)
        if emptied is None or emptied[1] > end_h + MOST_WAIT_H + _SLACK_H:
            continue
        number, emptied_h = emptied
        extra = {each for each in (begun, number) if each is not None and free[each].extra}
        yield Moment(start_h, hours, emptied_h, free[number].day, tuple(sorted(extra)))
        if not free[number].extra:
            break


def _those_at(moment_h: float, free: Sequence[Free]) -> int | None:
    """Give the free hours at a moment; usual ones where there are such."""
    at = [n for n, each in enumerate(free) if each.from_h <= moment_h <= each.to_h]
    return min(at, key=lambda n: free[n].extra, default=None)
