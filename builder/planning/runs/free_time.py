"""When somebody is at home to start or to empty a dryer."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping

from builder.model.home import WEEKDAYS, FreeHours, Weekday
from builder.planning.runs.packing import MOST_WAIT_H
from builder.record import dataclass

_DAY = datetime.timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Window:
    """A stretch of one day in which somebody is free."""

    start: datetime.datetime
    end: datetime.datetime

    @property
    def day(self) -> datetime.date:
        """The day it lies in."""
        return self.start.date()


@dataclass(frozen=True, slots=True)
class FreeTime:
    """The free hours of a home, from a day on."""

    free: Mapping[Weekday, tuple[FreeHours, ...]]
    first: datetime.date

    def is_free(self, day: datetime.date) -> bool:
        """Tell whether a day has free hours."""
        return bool(self.free.get(WEEKDAYS[day.weekday()]))

    def of_day(self, day: datetime.date) -> Iterator[Window]:
        """Give the free hours of a day, in order."""
        midnight = datetime.datetime.combine(day, datetime.time())
        hours = self.free.get(WEEKDAYS[day.weekday()], ())
        for each in sorted(hours, key=lambda each: each.from_min):
            yield Window(
                midnight + datetime.timedelta(minutes=each.from_min),
                midnight + datetime.timedelta(minutes=each.to_min),
            )

    def windows(self, until: datetime.date) -> list[Window]:
        """Give all free hours up to a day and with it."""
        days = max((until - self.first).days + 1, 0)
        return [window for n in range(days) for window in self.of_day(self.first + n * _DAY)]

    def next_free(self, at: datetime.datetime) -> datetime.datetime | None:
        """Give the first free moment from a time on; None where it comes too late to wait for."""
        first = self.first_free(at)
        latest = at + datetime.timedelta(hours=MOST_WAIT_H)
        return first if first is not None and first <= latest else None

    def first_free(self, at: datetime.datetime) -> datetime.datetime | None:
        """Give the first free moment from a time on, however late; None where no day has any."""
        for n in range(len(WEEKDAYS) + 1):
            for window in self.of_day(at.date() + n * _DAY):
                if window.end >= at:
                    return max(window.start, at)
        return None

    def last_free(self, at: datetime.datetime) -> datetime.datetime | None:
        """Give the last free moment up to a time."""
        day = at.date()
        while day >= self.first:
            for window in reversed(list(self.of_day(day))):
                if window.start <= at:
                    return min(window.end, at)
            day -= _DAY
        return None

    def last_day_to_spare(self, deadline: datetime.date) -> datetime.date:
        """Give the last day on which emptying leaves one whole free day up to a deadline."""
        day = deadline
        while not self.is_free(day) and day > self.first:
            day -= _DAY
        return day - _DAY
