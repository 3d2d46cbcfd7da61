"""Every possible plan of a small task, tried one by one: what the solver is held against.

It knows nothing of the model. Times are whole hours, as all free hours and drying times of the
small tasks are; the latest times then are whole hours too.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import chain, combinations, product

from scipy.optimize import linprog

from builder.planning.runs.packing.task import Packed, Task
from builder.planning.runs.packing.together import LEAST_PART_KG

WAIT_H = 12


def faults(task: Task, packed: Packed) -> list[str]:
    """Give every rule that a plan breaks."""
    found: list[str] = []
    dried = [0.0] * len(task.things)
    for filling in packed.fillings:
        place = task.places[filling.place]
        held = [number for number, _ in filling.fresh_kg]
        kg = dict(filling.fresh_kg)
        for number in held:
            dried[number] += kg[number]
        if sum(kg.values()) > place.load_kg + 1e-5:
            found.append("load")
        water = sum(kg[n] * task.things[n].water_share for n in held)
        if place.ice_kg is not None and water > place.ice_kg + 1e-5:
            found.append("ice")
        if any(pair in task.apart for pair in combinations(sorted(held), 2)):
            found.append("apart")
        hours = [task.things[n].hours[filling.place] for n in held]
        if None in hours or filling.hours != max(each or 0.0 for each in hours):
            found.append("hours")
        if not any(f.from_h <= filling.start_h <= f.to_h for f in task.free):
            found.append("start")
        if filling.start_h < place.from_h - 1e-6:
            found.append("too early")
        emptied = emptied_at(task, filling.start_h + filling.hours)
        if emptied is None:
            found.append("wait")
            continue
        days = [free.day for free in task.free if free.from_h <= emptied <= free.to_h]
        if any(
            not task.things[n].first_day <= day <= task.things[n].last_day
            for n in held
            for day in days
        ):
            found.append("day")
        if any(filling.start_h < to and emptied > start for start, to in place.busy_h):
            found.append("busy")
    for one, other in combinations(packed.fillings, 2):
        if one.place == other.place:
            early, late = sorted((one, other), key=lambda each: each.start_h)
            emptied = emptied_at(task, early.start_h + early.hours)
            if emptied is not None and late.start_h < emptied - 1e-6:
                found.append("two at once")
    for thing, kg_dried in zip(task.things, dried, strict=True):
        if abs(kg_dried - thing.fresh_kg) > 1e-5:
            found.append("mass")
    return found


def emptied_at(task: Task, end_h: float) -> float | None:
    """Give the first free moment after an end; None where it comes too late."""
    moments = [max(each.from_h, end_h) for each in task.free if each.to_h >= end_h - 1e-6]
    first = min(moments, default=None)
    return first if first is not None and first <= end_h + WAIT_H + 1e-6 else None


def best(task: Task, most_runs: int) -> tuple[int, int, float] | None:
    """Give the fewest runs, of these the fewest without a day to spare, and the latest starts."""
    for runs in range(1, most_runs + 1):
        keys = [key for plan in _plans(task, runs) if (key := _key(task, plan)) is not None]
        if keys:
            return min(keys)
    return None


Content = frozenset[int]
Plan = tuple[tuple[int, Content], ...]  # for each run its dryer and what it holds


def _plans(task: Task, runs: int) -> Iterator[Plan]:
    """Give every way to say what lies in which run, whose masses fit."""
    contents = [
        frozenset(each)
        for each in chain.from_iterable(
            combinations(range(len(task.things)), size) for size in range(1, len(task.things) + 1)
        )
        if not any(pair in task.apart for pair in combinations(each, 2))
    ]
    one = [
        (place, content)
        for place, content in product(range(len(task.places)), contents)
        if all(task.things[n].hours[place] is not None for n in content)
    ]
    for numbers in _with_repeats(len(one), runs):
        plan = tuple(one[n] for n in numbers)
        if _masses_fit(task, plan):
            yield plan


def _with_repeats(count: int, size: int, least: int = 0) -> Iterator[tuple[int, ...]]:
    if size == 0:
        yield ()
        return
    for first in range(least, count):
        for rest in _with_repeats(count, size - 1, first):
            yield (first, *rest)


def _masses_fit(task: Task, plan: Plan) -> bool:
    """Tell whether masses can be found that fill these runs; plain linear programming."""
    if set().union(*(content for _, content in plan)) != set(range(len(task.things))):
        return False
    cells = [(run, n) for run, (_, content) in enumerate(plan) for n in sorted(content)]
    least = [min(LEAST_PART_KG, task.things[n].fresh_kg) for _, n in cells]
    rows, bounds = [], []
    for run, (place, _) in enumerate(plan):
        dryer = task.places[place]
        rows.append([float(cell == run) for cell, _ in cells])
        bounds.append(dryer.load_kg)
        if dryer.ice_kg is not None:
            rows.append([task.things[n].water_share if cell == run else 0.0 for cell, n in cells])
            bounds.append(dryer.ice_kg)
    whole = [[float(n == number) for _, n in cells] for number in range(len(task.things))]
    found = linprog(
        [0.0] * len(cells),
        A_ub=rows,
        b_ub=bounds,
        A_eq=whole,
        b_eq=[each.fresh_kg for each in task.things],
        bounds=[(each, None) for each in least],
    )
    return found.status == 0


def _key(task: Task, plan: Plan) -> tuple[int, int, float] | None:
    """Give the best times of such runs; None where none can be."""
    total_tight, total_late = 0, 0.0
    of_places = []
    for place in range(len(task.places)):
        own = [content for at, content in plan if at == place]
        of_place = _best_times(task, place, tuple(own))
        if of_place is None:
            return None
        of_places.append(of_place)
    total_tight = sum(tight for tight, _ in of_places)
    total_late = sum(late for _, late in of_places)
    return len(plan), total_tight, total_late


def _best_times(task: Task, place: int, contents: tuple[Content, ...]) -> tuple[int, float] | None:
    """Try all starts of all runs of one dryer, in every order."""
    starts = sorted({h for f in task.free for h in range(int(f.from_h), int(f.to_h) + 1)})

    @cache
    def after(moment: int, left: tuple[Content, ...]) -> tuple[int, float] | None:
        if not left:
            return 0, 0.0
        found = []
        for start in starts:
            if start < moment or start < task.places[place].from_h:
                continue
            for content in set(left):
                one = _one(task, place, content, start)
                if one is None:
                    continue
                emptied, tight = one
                rest = list(left)
                rest.remove(content)
                more = after(int(emptied), tuple(rest))
                if more is not None:
                    found.append((tight + more[0], more[1] - start))
        return min(found, default=None)

    return after(0, contents)


def _one(task: Task, place: int, content: Content, start: int) -> tuple[float, int] | None:
    """Give when a run is emptied, and whether it lacks a day to spare; None where it may not be."""
    hours = max(task.things[n].hours[place] or 0.0 for n in content)
    emptied = emptied_at(task, start + hours)
    if emptied is None:
        return None
    if any(start < to and emptied > begin for begin, to in task.places[place].busy_h):
        return None
    day = int(emptied // 24)
    if any(not task.things[n].first_day <= day <= task.things[n].last_day for n in content):
        return None
    return emptied, int(any(day > task.things[n].spare_day for n in content))


def lateness(packed: Packed) -> tuple[int, int, float]:
    """Give what a plan is judged by."""
    starts: Sequence[float] = [each.start_h for each in packed.fillings]
    return len(packed.fillings), packed.tight, -sum(starts)
