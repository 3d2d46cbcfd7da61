"""The mixed-integer model of runs: its columns, its rows, and what HiGHS, through scipy, finds.

Each dryer has places for runs, in the order of time. The model chooses what goes into each place
and how much of it, in which free hours it is started and emptied, and when.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Literal

from builder.planning.drying.free_time import MOST_WAIT_H
from builder.planning.drying.task import Filling, Packed, Place, Task

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

# A part of a food in a run is at least so much, or all of it: nobody cuts up less.
LEAST_PART_KG = 0.1
SLACK_KG = 1e-6
_OUT_OF_TIME = 1  # as scipy tells it
# Beside what counts, fewer parts are better; less than a minute and a half of lateness each.
_EACH_PART = 1e-3
_EACH_LATER_DAY = 1e-4

Aim = Literal["late", "least-left-out", "least-extra"]
# What a day later counts: all there is, or next to nothing beside a kilogram that is left out.
_EACH_DAY: dict[Aim, float] = {"late": 1.0, "least-left-out": 1e-6, "least-extra": 0.0}


class PackingModel:
    """The rows and columns of the model for a number of runs."""

    def __init__(self, task: Task, runs: int, aim: Aim) -> None:
        """Build it."""
        self.task, self.runs, self.aim = task, runs, aim
        self.cut_short = False
        self.least: list[float] = []
        self.most: list[float] = []
        self.whole: list[int] = []
        self.costs: list[float] = []
        self.rows: list[tuple[dict[int, float], float, float]] = []
        self.horizon_h = 24.0 * (1 + max((each.day for each in task.free), default=0))
        self.left_out = [
            self._column(0.0, each.fresh_kg if aim == "least-left-out" else 0.0, cost=1.0)
            for each in task.things
        ]
        self.extra = {
            number: self._column(
                0.0,
                1.0,
                whole=True,
                # The fewest, and of these late ones.
                cost=1.0 - each.day * _EACH_LATER_DAY if aim == "least-extra" else 0.0,
            )
            for number, each in enumerate(task.free)
            if each.extra
        }
        self.slots = [_Slot(self, place) for place in range(len(task.places)) for _ in range(runs)]
        self._order()
        self._amounts()

    # -- building ---------------------------------------------------------------------------------

    def _column(self, least: float, most: float, *, whole: bool = False, cost: float = 0.0) -> int:
        self.least.append(least)
        self.most.append(most)
        self.whole.append(int(whole))
        self.costs.append(cost)
        return len(self.costs) - 1

    def yes(self, cost: float = 0.0) -> int:
        """Add a choice."""
        return self._column(0.0, 1.0, whole=True, cost=cost)

    def amount(self, most: float, cost: float = 0.0) -> int:
        """Add an amount."""
        return self._column(0.0, most, cost=cost)

    def row(self, terms: dict[int, float], least: float, most: float) -> None:
        """Hold a sum between two bounds."""
        self.rows.append((terms, least, most))

    def at_most(self, terms: dict[int, float], most: float = 0.0) -> None:
        """Hold a sum under a bound."""
        self.row(terms, -float("inf"), most)

    def _order(self) -> None:
        """Let the runs of one dryer follow each other, and count them all."""
        for place in range(len(self.task.places)):
            of_place = [each for each in self.slots if each.place == place]
            for one, following in pairwise(of_place):
                self.at_most({following.used: 1.0, one.used: -1.0})
                # Emptied before the next one starts, where there is a next one.
                self.at_most(
                    {one.emptied: 1.0, following.start: -1.0, following.used: self.horizon_h},
                    self.horizon_h,
                )
        count = {each.used: 1.0 for each in self.slots}
        self.row(count, float(self.runs) if self.aim == "late" else 0.0, float(self.runs))

    def _amounts(self) -> None:
        """Dry all of each thing, but for what is left out."""
        for number, thing in enumerate(self.task.things):
            terms = {each.kg[number]: 1.0 for each in self.slots if number in each.kg}
            terms[self.left_out[number]] = 1.0
            self.row(terms, thing.fresh_kg, thing.fresh_kg)

    # -- solving ----------------------------------------------------------------------------------

    def solved(self, seconds: float) -> Packed | None:
        """Solve it; None where there is no plan, or none was found in time."""
        import numpy as np
        from scipy.optimize import Bounds, LinearConstraint, milp
        from scipy.sparse import csr_array

        at, columns, values, ends = [], [], [], []
        for number, (terms, least, most) in enumerate(self.rows):
            for column, value in terms.items():
                at.append(number)
                columns.append(column)
                values.append(value)
            ends.append((least, most))
        shape = (len(self.rows), len(self.costs))
        matrix = csr_array((values, (at, columns)), shape=shape)
        low, high = (np.array(each) for each in zip(*ends, strict=True))
        result = milp(
            c=np.array(self.costs),
            integrality=np.array(self.whole),
            bounds=Bounds(np.array(self.least), np.array(self.most)),
            constraints=LinearConstraint(matrix, low, high),
            options={"time_limit": seconds, "mip_rel_gap": 0.0},
        )
        self.cut_short = result.status == _OUT_OF_TIME
        return None if result.x is None else self._read(result.x)

    def _read(self, x: NDArray[np.float64]) -> Packed:
        fillings = [each.read(x) for each in self.slots if x[each.used] > 0.5]
        fillings.sort(key=lambda each: (each.start_h, each.place))
        return Packed(
            fillings=tuple(fillings),
            left_out_kg=tuple(max(float(x[each]), 0.0) for each in self.left_out),
            extra=tuple(self.task.free[n] for n, column in self.extra.items() if x[column] > 0.5),
            tight=sum(bool(x[each.no_spare] > 0.5 and x[each.used] > 0.5) for each in self.slots),
        )


class _Slot:
    """A place for one run of a dryer."""

    def __init__(self, model: PackingModel, place: int) -> None:
        self.model, self.place = model, place
        task, dryer = model.task, model.task.places[place]
        late = model.aim == "late"
        self.used = model.yes()
        # As late as may be: each hour counts, and a day to spare more than all hours of all runs.
        self.start = model.amount(model.horizon_h, -_EACH_DAY[model.aim] / 24.0)
        self.emptied = model.amount(model.horizon_h)
        spare_cost = model.runs * model.horizon_h / 24.0 + 1.0 if late else 0.0
        self.no_spare = model.yes(spare_cost)
        self.holds = {
            number: model.yes(_EACH_PART)
            for number, each in enumerate(task.things)
            if each.hours[place] is not None
        }
        self.kg = {
            number: model.amount(min(task.things[number].fresh_kg, dryer.load_kg))
            for number in self.holds
        }
        self._contents(dryer)
        self._hours()
        self.started_in = self._window(self.start)
        self.emptied_in = self._window(self.emptied)
        self._times(dryer)
        self._follow()
        self._days()

    def _contents(self, dryer: Place) -> None:
        model, things = self.model, self.model.task.things
        for number, column in self.kg.items():
            most_kg = min(things[number].fresh_kg, dryer.load_kg)
            least_kg = min(LEAST_PART_KG, things[number].fresh_kg)
            if model.aim == "least-left-out":
                least_kg = min(least_kg, SLACK_KG)
            model.at_most({column: 1.0, self.holds[number]: -most_kg})
            model.at_most({column: -1.0, self.holds[number]: least_kg})
        model.at_most({**dict.fromkeys(self.kg.values(), 1.0), self.used: -dryer.load_kg})
        if dryer.ice_kg is not None:
            water = {column: things[number].water_share for number, column in self.kg.items()}
            model.at_most({**water, self.used: -dryer.ice_kg})
        for one, other in sorted(model.task.apart):
            if one in self.holds and other in self.holds:
                model.at_most({self.holds[one]: 1.0, self.holds[other]: 1.0, self.used: -1.0})

    def _hours(self) -> None:
        """Let a run last as long as its slowest food."""
        model = self.model
        of_thing = {n: model.task.things[n].hours[self.place] or 0.0 for n in self.holds}
        self.lasts = {hours: model.yes() for hours in sorted(set(of_thing.values()))}
        model.row({**dict.fromkeys(self.lasts.values(), 1.0), self.used: -1.0}, 0.0, 0.0)
        for number, hours in of_thing.items():
            longer = {column: -1.0 for each, column in self.lasts.items() if each >= hours}
            model.at_most({self.holds[number]: 1.0, **longer})
        for hours, column in self.lasts.items():
            slowest = {self.holds[n]: -1.0 for n, each in of_thing.items() if each == hours}
            model.at_most({column: 1.0, **slowest})

    def _window(self, moment: int) -> dict[int, int]:
        """Let a moment lie in free hours."""
        model = self.model
        chosen = {number: model.yes() for number in range(len(model.task.free))}
        model.row({**dict.fromkeys(chosen.values(), 1.0), self.used: -1.0}, 0.0, 0.0)
        model.at_most({moment: -1.0, **{c: model.task.free[n].from_h for n, c in chosen.items()}})
        model.at_most({moment: 1.0, **{c: -model.task.free[n].to_h for n, c in chosen.items()}})
        for number, column in model.extra.items():
            model.at_most({chosen[number]: 1.0, column: -1.0})
        return chosen

    def _times(self, dryer: Place) -> None:
        model = self.model
        dried = {column: hours for hours, column in self.lasts.items()}
        waits = {self.emptied: 1.0, self.start: -1.0, **{c: -h for c, h in dried.items()}}
        model.row({**waits, self.used: -MOST_WAIT_H}, -float("inf"), 0.0)
        model.row(waits, 0.0, float("inf"))
        model.at_most({self.start: -1.0, self.used: dryer.from_h})
        for from_h, to_h in dryer.busy_h:
            after = model.yes()
            model.at_most({self.start: -1.0, after: to_h})
            model.at_most({self.emptied: 1.0, after: -model.horizon_h}, max(from_h, 0.0))

    def _follow(self) -> None:
        """Let a run be emptied in hours that can follow those it is started in.

        The times say so already; said of the choices too, it spares the solver most of its search.
        """
        free, lasts = self.model.task.free, self.lasts or {0.0: self.used}
        shortest_h, longest_h = min(lasts), max(lasts) + MOST_WAIT_H
        for choices, others, is_start in (
            (self.started_in, self.emptied_in, True),
            (self.emptied_in, self.started_in, False),
        ):
            for one, choice in choices.items():
                fitting = [
                    column
                    for other, column in others.items()
                    for begun, ended in [(one, other) if is_start else (other, one)]
                    if free[begun].from_h + shortest_h <= free[ended].to_h
                    and free[ended].from_h <= free[begun].to_h + longest_h
                ]
                self.model.at_most({choice: 1.0, **dict.fromkeys(fitting, -1.0)})

    def _days(self) -> None:
        """Empty it neither too late for what it holds nor so early that that expires."""
        model = self.model
        for number, holds in self.holds.items():
            thing = model.task.things[number]
            outside = [
                column
                for n, column in self.emptied_in.items()
                if not thing.first_day <= model.task.free[n].day <= thing.last_day
            ]
            model.at_most({holds: 1.0, **dict.fromkeys(outside, 1.0)}, 1.0)
            if model.aim == "late":
                tight = [
                    column
                    for n, column in self.emptied_in.items()
                    if model.task.free[n].day > thing.spare_day
                ]
                model.at_most({holds: 1.0, **dict.fromkeys(tight, 1.0), self.no_spare: -1.0}, 1.0)

    def read(self, x: NDArray[np.float64]) -> Filling:
        """Give the run of a solution, to the minute."""
        (hours,) = (each for each, column in self.lasts.items() if x[column] > 0.5)
        return Filling(
            place=self.place,
            start_h=round(float(x[self.start]) * 60) / 60,
            hours=hours,
            fresh_kg=tuple(
                (number, float(x[column]))
                for number, column in self.kg.items()
                if x[self.holds[number]] > 0.5 and x[column] > SLACK_KG
            ),
        )
