"""Plans the trips of a folder; what goes for all of them is looked at once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import nullcontext
from typing import Generic, NamedTuple, TypeVar

from builder.cli.base import to_fill
from builder.cli.many.each_forked import each_forked
from builder.cli.progress import progress
from builder.model.content import Content
from builder.model.figure import untraced
from builder.model.kit import Kit
from builder.model.trip import Trip
from builder.planning.after import review_problems
from builder.planning.cooking import barometer_problems
from builder.planning.drying import run_problems, undried_problems
from builder.planning.lessons import lessons_of, plan_learned
from builder.planning.menu import menu_problems, open_problems
from builder.planning.reads import Read, watched
from builder.planning.stock import Stock, check, without_broken
from builder.planning.wording import worded
from builder.problems import Problem, ProblemsFound, errors, in_order
from builder.reading.folder import Folder

Kept = TypeVar("Kept")
LONG_PLAN = 20  # trips


class Planned(NamedTuple, Generic[Kept]):
    """What is kept of some kits, and every problem found."""

    kits: list[Kept]
    problems: tuple[Problem, ...]


class OneTrip(NamedTuple):
    """One trip that was planned: its kit, what is doubtful in it, and what was read for it."""

    kit: Kit
    problems: tuple[Problem, ...]
    reads: frozenset[Read]


class Planner:
    """Plans trips of one folder, one by one."""

    def __init__(self, folder: Folder) -> None:
        """Look at what goes for all trips; `problems` are those of the folder as a whole."""
        self.folder = folder
        self.stock, found = check(folder.content)
        self.problems = (
            *folder.problems,
            *found,
            *run_problems(folder.content, self.stock),
            *undried_problems(folder.content),
        )
        self.whole = without_broken(folder.content, self.stock.judged)
        self.lessons = lessons_of(self.whole, self.stock)
        self._said_in: dict[str, tuple[Content, Stock]] = {}  # once for each language

    def whole_trips(self, names: Iterable[str]) -> list[Trip]:
        """Give those trips that can be planned at all."""
        return [self.whole.trips[name] for name in names if name in self.whole.trips]

    def plan(self, trip_id: str, to_check: bool = False) -> OneTrip:
        """Plan a trip; raise ProblemsFound where it cannot be planned.

        A kit `to_check` holds what problems and dangers hang on, and its numbers no origins.
        """
        trip = self.whole.trips[trip_id]
        reads: set[Read] = set()
        said, looked_at = self.said_in(trip.language), self.whole
        if not to_check:  # which is asked anew each time, whatever was read
            said = watched(*said, reads)
            looked_at, _ = watched(self.whole, self.stock, reads)
        kit = plan_learned(trip, *said, self.lessons, to_check=to_check)
        problems = (
            *barometer_problems(trip),
            *menu_problems(trip, kit, looked_at),
            *review_problems(trip, kit),
        )
        return OneTrip(kit, problems, frozenset(reads))

    def said_in(self, language: str) -> tuple[Content, Stock]:
        """Give content and stock in a language, put into words once."""
        if language not in self._said_in:
            self._said_in[language] = worded(self.whole, self.stock, language)
        return self._said_in[language]


def problems_of_open(trip: Trip) -> tuple[Problem, ...]:
    """Give what there is to say of a trip with open meals; nothing where it has none.

    Food, water and fuel of a part of the meals would pass for that of all.
    """
    return tuple(open_problems(trip, to_fill(trip.id)))


def planned_kits(
    folder: Folder, names: Callable[[Iterable[str], bool], list[str]]
) -> tuple[list[Kit], tuple[Problem, ...]]:
    """Check a folder and plan some of its trips; give the kits and every problem found."""
    planned = plan_each(folder, names, lambda kit: kit)
    return planned.kits, planned.problems


def plan_each(
    folder: Folder,
    names: Callable[[Iterable[str], bool], list[str]],
    keep: Callable[[Kit], Kept],
    *,
    to_check: bool = False,
) -> Planned[Kept]:
    """Check a folder and plan some of its trips; keep of each kit what is asked, and no more.

    Kits `to_check` are planned in as many processes as there are cores: what is kept of them must
    be little, for it is sent.
    """
    with untraced() if to_check else nullcontext():
        return _plan_each(folder, names, keep, to_check)


def _plan_each(
    folder: Folder,
    names: Callable[[Iterable[str], bool], list[str]],
    keep: Callable[[Kit], Kept],
    to_check: bool,
) -> Planned[Kept]:
    planner = Planner(folder)
    problems = list(planner.problems)
    kits: list[Kept] = []
    trips = planner.whole_trips(names(folder.content.trips, bool(errors(problems))))

    def one(trip: Trip) -> tuple[tuple[Problem, ...], list[Kept]]:
        if is_open := problems_of_open(trip):
            return is_open, []
        try:
            planned = planner.plan(trip.id, to_check)
        except ProblemsFound as more:
            return tuple(more.problems), []
        return planned.problems, [keep(planned.kit)]

    each: Iterator[tuple[tuple[Problem, ...], list[Kept]]] = map(one, trips)
    if to_check:
        for trip in trips:
            planner.said_in(trip.language)  # here, once for all processes
        each = each_forked(one, trips)
    with progress("Planning trips", len(trips), least=LONG_PLAN) as bar:
        for found, kept in each:
            problems += found
            kits += kept
            bar.step()
    return Planned(kits, in_order(problems))
