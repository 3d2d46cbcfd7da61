"""Says in plain words what cannot be dried in time, and the least change that would do."""

from __future__ import annotations

import datetime
import math
from collections.abc import Sequence
from dataclasses import replace

from builder.planning.drying.free_time import FreeTime
from builder.planning.drying.packing import (
    Free,
    Packed,
    Task,
    least_extra,
    least_left_out,
    most_runs,
)
from builder.problems import counted

# When most people could make themselves free.
EVENING_FROM_H, EVENING_TO_H = 17.0, 22.0
_LEAST_TOLD_KG = 0.01
_DAY = datetime.timedelta(days=1)


def what_would_do(
    task: Task, names: Sequence[tuple[str, str]], free: FreeTime, at: datetime.date
) -> tuple[Packed | None, str]:
    """Give the plan that leaves least undried, and say what is short and what would do."""
    runs = min(most_runs(task), 2 * len(task.things) + 2)
    left = least_left_out(task, runs)
    ways: list[str] = []
    extra = least_extra(replace(task, free=(*task.free, *_evenings(task, free, at))), runs)
    if extra is not None and extra.extra:
        days = [(at + each.day * _DAY).isoformat() for each in extra.extra]
        ways.append(f"{counted(len(days), 'more free evening')} ({', '.join(days)})")
    short: list[tuple[str, float]] = []
    if left is not None:
        short = [
            (f"{name} for {trip}", kg)
            for (name, trip), kg in zip(names, left.left_out_kg, strict=True)
            if kg >= _LEAST_TOLD_KG
        ]
        less_kg = sum(kg for _, kg in short)
        if less_kg < sum(each.fresh_kg for each in task.things) - _LEAST_TOLD_KG:
            ways.append(f"{_kg(less_kg)} less")
    what = ", ".join(f"{name} ({_kg(kg)} fresh)" for name, kg in short)
    if not what:
        what = ", ".join(f"{name} for {trip}" for name, trip in names)
    would = f"{', or '.join(ways)}, would do" if ways else "another dryer or a later start would do"
    return left, f"not everything can be dried in time: {what}; {would}"


def _evenings(task: Task, free: FreeTime, at: datetime.date) -> list[Free]:
    """Give the evenings that are not free yet, up to the last deadline."""
    last = max(each.last_day for each in task.things)
    found = []
    for day in range(last + 1):
        midnight_h = 24.0 * day
        hours = (midnight_h + EVENING_FROM_H, midnight_h + EVENING_TO_H)
        taken = [
            window
            for window in task.free
            if window.day == day and window.from_h <= hours[0] and hours[1] <= window.to_h
        ]
        if not taken:
            found.append(Free(day, *hours, extra=True))
    return found


def _kg(mass_kg: float) -> str:
    """Say a mass, rounded up to what a kitchen scale is read to."""
    tenths = math.ceil(mass_kg * 10 - 1e-6)
    return f"{tenths / 10:g} kg"
