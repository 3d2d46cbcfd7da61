"""Packs loads into the fewest runs of the dryers there are, as late as may be."""

from __future__ import annotations

import math
import time
from collections.abc import Sequence
from dataclasses import dataclass

from builder.planning.drying.packing_model import SLACK_KG, PackingModel
from builder.planning.drying.task import Packed, Task

# The search for one number of runs ends after so long, and the whole one.
STEP_SECONDS = 6.0
ALL_SECONDS = 15.0


@dataclass(frozen=True, slots=True)
class Answer:
    """A plan, or none; not sure where the search had to end before it had seen all."""

    packed: Packed | None
    is_sure: bool


def pack(task: Task) -> Answer:
    """Give the fewest runs that dry everything, and of those the latest."""
    until = time.monotonic() + ALL_SECONDS
    fewest, is_sure = _fewest(task), True
    for runs in range(fewest, most_runs(task) + 1):
        left_s = until - time.monotonic()
        if left_s <= 0:
            return Answer(None, False)
        model = PackingModel(task, runs, "late")
        found = model.solved(min(STEP_SECONDS, left_s))
        is_sure &= not model.cut_short
        if found is not None:
            return Answer(found, is_sure)
    return Answer(None, is_sure)


def least_left_out(task: Task, runs: int) -> Packed | None:
    """Give the plan of at most so many runs that leaves least undried."""
    return PackingModel(task, runs, "least-left-out").solved(STEP_SECONDS)


def least_extra(task: Task, runs: int) -> Packed | None:
    """Give a plan that dries everything with the fewest extra free hours; None where none does."""
    return PackingModel(task, runs, "least-extra").solved(STEP_SECONDS)


def most_runs(task: Task) -> int:
    """Give how many runs are worth trying: more of them help nobody."""
    return _fewest(task) + len(task.things)


def _fewest(task: Task) -> int:
    """Give a number of runs that none can go below, by mass and by ice."""
    load_kg = max(each.load_kg for each in task.places)
    fresh_kg = sum(each.fresh_kg for each in task.things)
    by_mass = math.ceil((fresh_kg - SLACK_KG) / load_kg)
    ices = [each.ice_kg for each in task.places]
    if any(ice is None for ice in ices):
        return max(by_mass, 1)
    water_kg = sum(each.fresh_kg * each.water_share for each in task.things)
    most_kg = max(ice for ice in ices if ice is not None)
    return max(by_mass, math.ceil((water_kg - SLACK_KG) / most_kg), 1)


def exactly(parts: Sequence[float], whole: float) -> list[float]:
    """Give parts that add up to a whole, which a solver misses by what it is forgiven."""
    total = sum(parts)
    return [each * whole / total for each in parts] if total > 0 else list(parts)
