"""The first step of a plan: how many runs there are of what kind, and when each is.

What a run holds matters here only by what may lie in it, how long that takes, and between which
days it may be emptied. So runs are not told apart: a kind of run is a dryer, a largest set of what
may lie together, hours, and a stretch of days in which no first or last day of a thing falls; how
many of each kind there are is one whole number, and what lies in all of them is one amount. Foods
can be divided, so what fits into the runs of a kind together fits into each of them alike.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cached_property

from builder.planning.runs.packing.moments import Moment, moments
from builder.planning.runs.packing.programme import Programme, total
from builder.planning.runs.packing.task import Place, Task
from builder.planning.runs.packing.together import Sort, largest_sets, sorts_of
from builder.record import dataclass, field

SLACK_KG = 1e-6


@dataclass(frozen=True, slots=True)
class Kind:
    """What runs of a kind have in common, besides their hours."""

    place: int
    stretch: int  # of days
    holds: frozenset[int]  # sorts, by number
    is_tight: bool  # without a whole day to spare for one of them


@dataclass(frozen=True, slots=True)
class Timed:
    """A run of a plan: in which dryer, when, and what may go into it."""

    place: int
    moment: Moment
    may_hold: frozenset[int]  # things, by number


@dataclass()
class RunsModel:
    """All runs that there may be, and what ties them."""

    task: Task
    may_leave_out: bool = False
    programme: Programme = field(default_factory=Programme)

    def __post_init__(self) -> None:
        """Write it down."""
        self.sorts = sorts_of(self.task)
        self.runs: dict[tuple[int, Moment], int] = {}
        self.counts: dict[tuple[Kind, float], int] = {}
        self.kg: dict[int, list[int]] = {number: [] for number in range(len(self.sorts))}
        self.left_out = [
            self.programme.amount(each.fresh_kg if self.may_leave_out else 0.0)
            for each in self.sorts
        ]
        for place in range(len(self.task.places)):
            self._of_place(place)
        for number, each in enumerate(self.sorts):
            terms = total([*self.kg[number], self.left_out[number]])
            self.programme.row(terms, each.fresh_kg, each.fresh_kg)
        self.extra = {
            number: self.programme.whole()
            for number, each in enumerate(self.task.free)
            if each.extra
        }
        for (_, moment), column in self.runs.items():
            for number in moment.extra:
                self.programme.at_most({column: 1.0, self.extra[number]: -1.0})
        self._whole_loads()

    # -- days -------------------------------------------------------------------------------------

    @cached_property
    def breaks(self) -> list[int]:
        """The days on which something begins to be allowed, or ends to be."""
        things = self.task.things
        return sorted(
            {each.first_day for each in things}
            | {each.last_day + 1 for each in things}
            | {each.spare_day + 1 for each in things}
        )

    def _stretch(self, day: int) -> int:
        return bisect_right(self.breaks, day)

    def _allowed(self, place: int, day: int, spare: bool) -> list[int]:
        """Give the sorts that may be emptied on a day, with a day to spare or without."""
        return [
            number
            for number, each in enumerate(self.sorts)
            if each.one.hours[place] is not None
            and each.one.first_day <= day <= each.one.last_day
            and (not spare or day <= each.one.spare_day)
        ]

    # -- one dryer --------------------------------------------------------------------------------

    def _of_place(self, place: int) -> None:
        hours = sorted({each.one.hours[place] or 0.0 for each in self.sorts} - {0.0})
        found = moments(self.task.places[place], hours, self.task.free)
        first_days: dict[int, int] = {}
        for each in found:
            first_days.setdefault(self._stretch(each.day), each.day)
        kinds = [
            kind
            for stretch, day in sorted(first_days.items())
            for kind in self._kinds(place, stretch, day)
        ]
        counted: dict[tuple[int, float], list[int]] = defaultdict(list)
        for kind in kinds:
            for each_h in self._fill(kind, self.task.places[place]):
                counted[kind.stretch, each_h].append(self.counts[kind, each_h])
        useful = [each for each in found if (self._stretch(each.day), each.hours) in counted]
        columns = {each: self.programme.whole() for each in useful}
        self.runs |= {(place, each): column for each, column in columns.items()}
        at: dict[tuple[int, float], list[int]] = defaultdict(list)
        for each, column in columns.items():
            at[self._stretch(each.day), each.hours].append(column)
        for key, of_kinds in counted.items():
            same = {**total(of_kinds), **dict.fromkeys(at[key], -1.0)}
            self.programme.row(same, 0.0, 0.0)
        self._one_at_a_time(columns)

    def _kinds(self, place: int, stretch: int, day: int) -> Iterator[Kind]:
        spare = self._allowed(place, day, spare=True)
        every = self._allowed(place, day, spare=False)
        for holds in largest_sets(spare, self.sorts, self.task):
            yield Kind(place, stretch, holds, is_tight=False)
        if len(every) > len(spare):
            for holds in largest_sets(every, self.sorts, self.task):
                if not holds <= set(spare):
                    yield Kind(place, stretch, holds, is_tight=True)

    def _fill(self, kind: Kind, dryer: Place) -> list[float]:
        """Let runs of a kind hold no more than they may, each as long as its slowest food."""
        of_hours: dict[float, list[int]] = defaultdict(list)
        for number in sorted(kind.holds):
            of_hours[self.sorts[number].one.hours[kind.place] or 0.0].append(number)
        every_h = sorted(of_hours)
        for each_h in every_h:
            self.counts[kind, each_h] = self.programme.whole(most=float("inf"))
        # With ice and several hours each part needs its own place; else long runs take what short
        # ones may, and it is enough that what is slow fits into the slow ones.
        parted = dryer.ice_kg is not None and len(every_h) > 1
        parts: list[tuple[int, list[float]]] = []
        for own_h in every_h:
            may_h = [each_h for each_h in every_h if each_h >= own_h]
            for number in of_hours[own_h]:
                parts += [(number, [h]) for h in may_h] if parted else [(number, may_h)]
        amounts: list[tuple[int, list[float], int]] = []
        for number, in_h in parts:
            column = self.programme.amount(self.sorts[number].fresh_kg)
            self.kg[number].append(column)
            amounts.append((number, in_h, column))
        for each_h in every_h:
            slowest = [
                column
                for number, in_h, column in amounts
                if number in of_hours[each_h] and in_h[0] == each_h
            ]
            least_kg = min(self.sorts[n].least_kg for n in of_hours[each_h])
            count = self.counts[kind, each_h]
            self.programme.at_least({**total(slowest), count: -least_kg})
            if parted:
                inside = [(n, c) for n, in_h, c in amounts if in_h == [each_h]]
                runs = [count]
            else:
                inside = [(n, c) for n, in_h, c in amounts if in_h[0] >= each_h]
                runs = [self.counts[kind, h] for h in every_h if h >= each_h]
            self._within(inside, runs, dryer, with_ice=parted or each_h == every_h[0])
        return every_h

    def _within(
        self, inside: list[tuple[int, int]], runs: list[int], dryer: Place, *, with_ice: bool
    ) -> None:
        columns = [column for _, column in inside]
        self.programme.at_most({**total(columns), **dict.fromkeys(runs, -dryer.load_kg)})
        if dryer.ice_kg is not None and with_ice:
            water = {column: self.sorts[n].one.water_share for n, column in inside}
            self.programme.at_most({**water, **dict.fromkeys(runs, -dryer.ice_kg)})

    def _one_at_a_time(self, columns: Mapping[Moment, int]) -> None:
        in_turn = sorted(columns, key=lambda each: each.start_h)
        begun: list[Moment] = []
        for number, each in enumerate(in_turn):
            begun = [other for other in begun if other.emptied_h > each.start_h + 1e-6]
            begun.append(each)
            following = in_turn[number + 1] if number + 1 < len(in_turn) else None
            if following is None or following.start_h > each.start_h:
                self.programme.at_most(total(columns[other] for other in begun), 1.0)

    # -- bounds that whole numbers give -----------------------------------------------------------

    def _whole_loads(self) -> None:
        """Say that so much takes so many whole runs, which the amounts alone do not say."""
        if self.may_leave_out:
            return
        families = sorted({each.family for each in self.sorts})
        for family in (None, *families):
            own = {n for n, each in enumerate(self.sorts) if family in (None, each.family)}
            for last_of in (_last_day, _spare_day):
                self._whole_loads_of(own, last_of)

    def _whole_loads_of(self, own: set[int], last_of: Callable[[Sort], int]) -> None:
        for last_day in sorted({last_of(self.sorts[n]) for n in own}):
            early = {n for n in own if last_of(self.sorts[n]) <= last_day}
            fresh_kg = sum(self.sorts[n].fresh_kg for n in early)
            runs = {
                column: 1.0
                for (kind, _), column in self.counts.items()
                if not early.isdisjoint(kind.holds)
            }
            loads = [self.task.places[kind.place].load_kg for kind, _ in self.counts]
            if runs:
                needed = math.ceil((fresh_kg - SLACK_KG) / max(loads) - 1e-9)
                self.programme.at_least(runs, float(needed))

    # -- what may be asked for --------------------------------------------------------------------

    @property
    def few(self) -> dict[int, float]:
        """How many runs there are."""
        return total(self.runs.values())

    @property
    def tight(self) -> dict[int, float]:
        """How many of them are without a whole day to spare."""
        return total(column for (kind, _), column in self.counts.items() if kind.is_tight)

    @property
    def early_h(self) -> dict[int, float]:
        """How many hours they begin before the last moment of all, together."""
        most_h = max((moment.start_h for _, moment in self.runs), default=0.0)
        return {column: most_h - moment.start_h for (_, moment), column in self.runs.items()}

    def left_out_of(self, values: Sequence[float]) -> list[float]:
        """Give what a solution leaves out of each thing; of things that are alike the last ones."""
        left_kg = [0.0] * len(self.task.things)
        for sort, column in zip(self.sorts, self.left_out, strict=True):
            short_kg = values[column] if values[column] > SLACK_KG else 0.0
            for number in reversed(sort.things):
                left_kg[number] = min(short_kg, self.task.things[number].fresh_kg)
                short_kg -= left_kg[number]
        return left_kg

    def runs_of(self, values: Sequence[float]) -> list[Timed]:
        """Give the runs of a solution."""
        kinds: dict[tuple[int, int, float], list[Kind]] = defaultdict(list)
        for (kind, hours), column in self.counts.items():
            key = (kind.place, kind.stretch, hours)
            kinds[key] += [kind] * round(values[column])
        found = []
        for place, moment in self._late(values):
            kind = kinds[place, self._stretch(moment.day), moment.hours].pop()
            things = frozenset(n for each in kind.holds for n in self.sorts[each].things)
            found.append(Timed(place, moment, things))
        return found

    def _late(self, values: Sequence[float]) -> Iterator[tuple[int, Moment]]:
        """Give the runs of a solution, each as late as the next one and its stretch of days let it.

        The latest solution is so already; one that a search was ended at need not be.
        """
        chosen = [key for key, column in self.runs.items() if values[column] > 0.5]
        until_h: dict[int, float] = {}
        for place, moment in sorted(chosen, key=lambda each: -each[1].start_h):
            latest = max(
                (
                    other
                    for at, other in self.runs
                    if at == place
                    and other.hours == moment.hours
                    and other.extra == moment.extra
                    and self._stretch(other.day) == self._stretch(moment.day)
                    and other.emptied_h <= until_h.get(place, float("inf")) + 1e-6
                ),
                key=lambda each: each.start_h,
            )
            until_h[place] = latest.start_h
            yield place, latest


def _last_day(each: Sort) -> int:
    return each.one.last_day


def _spare_day(each: Sort) -> int:
    return each.one.spare_day
