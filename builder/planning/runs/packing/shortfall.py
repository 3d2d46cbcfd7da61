"""Says in plain words what cannot be dried in time, and the least change that would do."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator, Sequence

from builder.planning.runs.packing.search import least_extra, least_left_out
from builder.planning.runs.packing.task import Free, Packed, Task
from builder.record import replace
from builder.speech import Speech
from builder.units import System

# When most people could make themselves free, in hours of a day.
_EVENING = (17.0, 22.0)
_WHOLE_DAY = (7.0, 22.0)
_LEAST_TOLD_KG = 0.01
_DAY = datetime.timedelta(days=1)


def what_would_do(
    task: Task, names: Sequence[tuple[str, str]], at: datetime.date, say: Speech, units: System
) -> tuple[Packed | None, str]:
    """Give the plan that leaves least undried, and say what is short and what would do.

    Nothing is said where that plan leaves nothing undried.
    `names` are those of each thing and of the trip that wants it.
    """
    left = least_left_out(task)
    if left is not None and sum(left.left_out_kg) < _LEAST_TOLD_KG:
        return left, ""
    would = [*_more_time_said(task, at, say)]
    short_kg = [each.fresh_kg for each in task.things]
    if left is not None:
        short_kg = list(left.left_out_kg)
        if sum(short_kg) < sum(each.fresh_kg for each in task.things) - _LEAST_TOLD_KG:
            would.append(say("{mass} less would do.", mass=_shown(sum(short_kg), say, units)))
    if not would:
        would.append(say("Another dryer or a later start would do."))
    short = [
        say("{food} for {trip}: {mass} fresh", food=food, trip=trip, mass=_shown(kg, say, units))
        for (food, trip), kg in zip(names, short_kg, strict=True)
        if kg >= _LEAST_TOLD_KG
    ]
    says = say("Not everything can be dried in time ({what}).", what="; ".join(short))
    return left, " ".join((says, *would))


def _more_time_said(task: Task, at: datetime.date, say: Speech) -> Iterator[str]:
    """Say how many more free evenings would do; where none do, how many free days."""
    evenings = _days_with_more(task, _EVENING)
    days = evenings or _days_with_more(task, _WHOLE_DAY)
    when = say.listed(say.date(at + day * _DAY) for day in days)
    if evenings:
        yield say.count(
            "{n} more free evening would do, such as {days}.",
            "{n} more free evenings would do, such as {days}.",
            len(evenings),
            days=when,
        )
    elif days:
        yield say.count(
            "{n} more free day would do, such as {days}.",
            "{n} more free days would do, such as {days}.",
            len(days),
            days=when,
        )


def _days_with_more(task: Task, hours: tuple[float, float]) -> list[int]:
    """Give the fewest days with more free hours that let everything be dried; none where none."""
    return least_extra(replace(task, free=(*task.free, *_more(task, hours)))) or []


def _more(task: Task, hours: tuple[float, float]) -> Iterator[Free]:
    """Give such hours of all days up to the last deadline that are not free yet."""
    for day in range(max(each.last_day for each in task.things) + 1):
        from_h, to_h = (24.0 * day + each for each in hours)
        if not any(each.from_h <= from_h and to_h <= each.to_h for each in task.free):
            yield Free(day, from_h, to_h, extra=True)


def _shown(mass_kg: float, say: Speech, units: System) -> str:
    """Say a mass, rounded up to a tenth of a kilogram: less of it would not do."""
    return say.show(math.ceil(mass_kg * 10 - 1e-6) * 100.0, "mass_g", units)
