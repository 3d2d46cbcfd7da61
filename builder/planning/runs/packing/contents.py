"""The second step of a plan: what goes into each run, in few parts."""

from __future__ import annotations

from collections.abc import Sequence

from builder.planning.runs.packing.programme import Programme, total
from builder.planning.runs.packing.runs_model import SLACK_KG, Timed
from builder.planning.runs.packing.task import Filling, Task
from builder.planning.runs.packing.together import least_part_kg

# Few parts are enough: the fewest would take long to prove, and no rule asks for them.
_FEW_ENOUGH_SHARE = 0.05


def filled(
    task: Task, runs: Sequence[Timed], left_out_kg: Sequence[float], seconds: float
) -> list[Filling] | None:
    """Give what goes into runs whose times are known; None where it cannot be so."""
    if not runs:
        return []
    # A part smaller than anybody cuts is better than one run more, or than no plan.
    for counts_parts in (True, False):
        found = _Contents(task, runs, left_out_kg, counts_parts).filled(seconds)
        if found is not None:
            return found
    return None


class _Contents:
    """What may go into each run, and how much of it.

    Where parts are not counted and may be ever so small it is a linear programme, which is solved
    at once; a corner of it has few parts too.
    """

    def __init__(
        self, task: Task, runs: Sequence[Timed], left_out_kg: Sequence[float], counts_parts: bool
    ) -> None:
        self.task, self.runs, self.counts_parts = task, runs, counts_parts
        self.programme = Programme()
        self.costs: dict[int, float] = {}
        self.kg: dict[tuple[int, int], int] = {}
        for number in range(len(runs)):
            self._of_run(number)
        for thing, each in enumerate(task.things):
            dried_kg = each.fresh_kg - left_out_kg[thing]
            parts = [column for (_, held), column in self.kg.items() if held == thing]
            if parts:
                self.programme.row(total(parts), dried_kg, dried_kg)

    def _of_run(self, number: int) -> None:
        run, programme = self.runs[number], self.programme
        dryer = self.task.places[run.place]
        inside: dict[int, int] = {}
        slowest: dict[int, float] = {}
        for thing in sorted(run.may_hold):
            each = self.task.things[thing]
            hours = each.hours[run.place]
            if hours is None or hours > run.moment.hours:
                continue
            most_kg = min(each.fresh_kg, dryer.load_kg)
            kg = inside[thing] = programme.amount(most_kg)
            part = kg
            if self.counts_parts:
                part = programme.whole()
                programme.at_most({kg: 1.0, part: -most_kg})
                programme.at_least({kg: 1.0, part: -least_part_kg(each)})
            self.costs[part] = 1.0 if self.counts_parts else 1.0 / most_kg
            if hours == run.moment.hours:
                slowest[part] = 1.0 if self.counts_parts else 1.0 / least_part_kg(each)
        self.kg |= {(number, thing): column for thing, column in inside.items()}
        programme.at_most(total(inside.values()), dryer.load_kg)
        if dryer.ice_kg is not None:
            water = {column: self.task.things[n].water_share for n, column in inside.items()}
            programme.at_most(water, dryer.ice_kg)
        programme.at_least(slowest, 1.0)

    def filled(self, seconds: float) -> list[Filling] | None:
        """Find few parts."""
        values = self.programme.solved(self.costs, seconds, _FEW_ENOUGH_SHARE).values
        if values is None:
            return None
        return [
            Filling(
                place=run.place,
                start_h=run.moment.start_h,
                hours=run.moment.hours,
                fresh_kg=tuple(
                    (thing, values[column])
                    for (held_in, thing), column in self.kg.items()
                    if held_in == number and values[column] > SLACK_KG
                ),
            )
            for number, run in enumerate(self.runs)
        ]
