"""The only place that asks for the date; SOURCE_DATE_EPOCH answers for it where it is set."""

from __future__ import annotations

import datetime
import os

# Before any trip of ours; used where neither the environment nor the trip tells a date.
LONG_AGO = datetime.date(2000, 1, 1)


VARIABLE = "SOURCE_DATE_EPOCH"
# The end of the year 9998: what follows a day after it still has a date.
LATEST_EPOCH = 253370764799


def told_epoch() -> str:
    """Give what the environment tells as the date, as it stands; "" where it tells none."""
    return os.environ.get(VARIABLE, "")


def odd_epoch() -> str | None:
    """Give what the environment tells as the date, where that can be none."""
    told = told_epoch()
    if not told or (told.isascii() and told.isdecimal() and _in_range(told)):
        return None
    return told


def _in_range(digits: str) -> bool:
    # So many digits are too many, and would take their time to be read.
    return len(digits.lstrip("0")) <= len(str(LATEST_EPOCH)) and int(digits) <= LATEST_EPOCH


def _seconds_told() -> int | None:
    told = told_epoch()
    return int(told) if told and odd_epoch() is None else None


def today() -> datetime.date:
    """Give today's date."""
    epoch = _seconds_told()
    if epoch is not None:
        return datetime.datetime.fromtimestamp(epoch, datetime.UTC).date()
    return datetime.date.today()


def now() -> datetime.datetime:
    """Give the moment, in UTC and to the second, for what carries the time it was made at."""
    epoch = _seconds_told()
    if epoch is not None:
        return datetime.datetime.fromtimestamp(epoch, datetime.UTC)
    return datetime.datetime.now(datetime.UTC).replace(microsecond=0)


def build_epoch(start: datetime.date | None) -> int:
    """Give the time that all files of a kit carry: the trip's start, never the clock.

    The same trip then gives the same bytes whenever it is built.
    """
    epoch = _seconds_told()
    if epoch is not None:
        return epoch
    day = start or LONG_AGO
    moment = datetime.datetime(day.year, day.month, day.day, tzinfo=datetime.UTC)
    return max(0, int(moment.timestamp()))
