"""The only place that asks for the date; SOURCE_DATE_EPOCH answers for it where it is set."""

from __future__ import annotations

import datetime
import os

# Before any trip of ours; used where neither the environment nor the trip tells a date.
LONG_AGO = datetime.date(2000, 1, 1)


def _told_epoch() -> int | None:
    told = os.environ.get("SOURCE_DATE_EPOCH", "")
    return int(told) if told.isdecimal() else None


def today() -> datetime.date:
    """Give today's date."""
    epoch = _told_epoch()
    if epoch is not None:
        return datetime.datetime.fromtimestamp(epoch, datetime.UTC).date()
    return datetime.date.today()


def now() -> datetime.datetime:
    """Give the moment, in UTC and to the second, for what carries the time it was made at."""
    epoch = _told_epoch()
    if epoch is not None:
        return datetime.datetime.fromtimestamp(epoch, datetime.UTC)
    return datetime.datetime.now(datetime.UTC).replace(microsecond=0)


def build_epoch(start: datetime.date | None) -> int:
    """Give the time that all files of a kit carry: the trip's start, never the clock.

    The same trip then gives the same bytes whenever it is built.
    """
    epoch = _told_epoch()
    if epoch is not None:
        return epoch
    day = start or LONG_AGO
    moment = datetime.datetime(day.year, day.month, day.day, tzinfo=datetime.UTC)
    return max(0, int(moment.timestamp()))
