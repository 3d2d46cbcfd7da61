"""Packs loads into the fewest runs of the dryers there are, as late as may be."""

from __future__ import annotations

import math
import time
from collections.abc import Mapping, Sequence

from builder.planning.runs.packing.contents import filled
from builder.planning.runs.packing.programme import NO_GAP_SHARE, Solved, total
from builder.planning.runs.packing.runs_model import RunsModel
from builder.planning.runs.packing.task import Packed, Task
from builder.record import dataclass

# The search for runs ends after so long; what goes into those that are found is sought for so long.
ALL_SECONDS = 20.0
CONTENTS_SECONDS = 4.0
# Where there is no plan, each look for what would do ends after so long.
WOULD_DO_SECONDS = 8.0
# The very latest plan of few runs is found; of many, one that is so much from it, for each run.
FEW_RUNS = 6
LATE_ENOUGH_H = 4.0
_SLACK = 1e-6
# Of the fewest days that would have to be made free, late ones.
_EACH_LATER_DAY = 1e-4


@dataclass(frozen=True, slots=True)
class Answer:
    """A plan, or none, and what the search leaves open."""

    packed: Packed | None
    fewer_runs: int = 0  # so many fewer there may be, at the most
    more_spare: int = 0  # so many more of them may have a day to spare
    later_h: float = 0.0  # so many hours later they may begin, all together
    is_sure: bool = True  # that there is no plan, where there is none


def pack(task: Task) -> Answer:
    """Give the fewest runs that dry everything; of those, few without a day to spare; the latest.

    What is reached of one is held while the next is sought, so each is as good as it can be.
    """
    search = _Search(RunsModel(task), ALL_SECONDS)
    model = search.model
    fewer_runs = search.least(model.few, share=0.5)
    if search.values is None:
        return Answer(None, is_sure=search.is_impossible)
    runs = len(model.runs_of(search.values))
    more_spare = search.least(model.tight, share=0.6)
    enough_h = LATE_ENOUGH_H * runs if runs > FEW_RUNS else 0.0
    later_h = search.least(model.early_h, enough=enough_h)
    packed = search.packed()
    return Answer(
        packed,
        math.floor(fewer_runs + _SLACK),
        math.floor(more_spare + _SLACK),
        later_h,
        is_sure=packed is not None,
    )


def least_left_out(task: Task) -> Packed | None:
    """Give the plan that leaves least undried, and of those one of few and late runs."""
    search = _Search(RunsModel(task, may_leave_out=True), WOULD_DO_SECONDS)
    model = search.model
    search.least(total(model.left_out), share=0.5)
    search.least(model.few, share=0.5)
    search.least(model.early_h, enough=LATE_ENOUGH_H * len(task.things))
    return search.packed()


def least_extra(task: Task) -> list[int] | None:
    """Give the fewest days with extra free hours that let everything be dried; None for none."""
    search = _Search(RunsModel(task), WOULD_DO_SECONDS)
    extra = search.model.extra
    search.least({col: 1.0 - task.free[n].day * _EACH_LATER_DAY for n, col in extra.items()})
    values = search.values
    return (
        None if values is None else [task.free[n].day for n, c in extra.items() if values[c] > 0.5]
    )


class _Search:
    """One aim after another, each held while the next is sought."""

    def __init__(self, model: RunsModel, seconds: float) -> None:
        self.model = model
        self.values: Sequence[float] | None = None  # the best so far
        self.is_impossible = False
        self._until = time.monotonic() + seconds

    def least(self, costs: Mapping[int, float], share: float = 1.0, enough: float = 0.0) -> float:
        """Seek what costs least, in a share of the time that is left, and hold it.

        Give how much less there may be.
        """
        now = _cost(self.values, costs)
        if self.values is not None and now < _SLACK:
            gap = 0.0
        else:
            seconds = share * (self._until - time.monotonic())
            gap_share = enough / now if now else 0.0
            solved = self.model.programme.solved(costs, seconds, max(gap_share, NO_GAP_SHARE))
            gap = self._taken(solved, costs)
        if self.values is not None:
            self.model.programme.at_most(costs, _held(_cost(self.values, costs)))
        return gap

    def _taken(self, solved: Solved, costs: Mapping[int, float]) -> float:
        self.is_impossible |= solved.ended == "impossible"
        if solved.values is not None:
            self.values = solved.values
        return max(_cost(self.values, costs) - max(solved.least, 0.0), 0.0)

    def packed(self) -> Packed | None:
        """Give the plan of what was found: its runs, and what goes into each."""
        if self.values is None:
            return None
        task, runs = self.model.task, self.model.runs_of(self.values)
        left_out_kg = self.model.left_out_of(self.values)
        fillings = filled(task, runs, left_out_kg, CONTENTS_SECONDS)
        if fillings is None:
            return None
        tight = sum(
            any(run.moment.day > task.things[thing].spare_day for thing, _ in filling.fresh_kg)
            for run, filling in zip(runs, fillings, strict=True)
        )
        return Packed(tuple(fillings), tuple(left_out_kg), tight)


def _cost(values: Sequence[float] | None, costs: Mapping[int, float]) -> float:
    return sum(values[column] * each for column, each in costs.items()) if values else 0.0


def _held(reached: float) -> float:
    """Give a bound that what was reached keeps, in spite of what a solver is forgiven."""
    nearest = round(reached)
    return float(nearest) if abs(reached - nearest) < _SLACK else reached + _SLACK


def exactly(parts: Sequence[float], whole: float) -> list[float]:
    """Give parts that add up to a whole, which a solver misses by what it is forgiven."""
    sum_of_all = sum(parts)
    return [each * whole / sum_of_all for each in parts] if sum_of_all > 0 else list(parts)
