"""All trips of a folder: planned first, so that a fault in one stops the build; then built."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from typing import NamedTuple

import click

from builder.cli.base import BuilderStop, named_trips, say_problems, stop_on, stop_on_open
from builder.cli.dangers import Dangers, say_lines
from builder.cli.kept_plans import KeptPlan, KeptPlans
from builder.cli.many.bench import Bench, Told
from builder.cli.many.crew import FEW, Alone, Crew, Home, Lost, Pooled
from builder.cli.many.each_forked import can_fork, cores
from builder.cli.many.forked import Forked
from builder.cli.many.wanted import Wanted
from builder.cli.places import Place, read_place
from builder.cli.planner import LONG_PLAN, Planner, problems_of_open
from builder.cli.progress import progress
from builder.clock import build_epoch, today
from builder.model.as_data import unpacked
from builder.model.content import Content
from builder.model.home import AT_HOME
from builder.model.since import OldKit
from builder.planning.at_home import TripShare
from builder.planning.names_left import names_left
from builder.problems import Problem, counted, did_you_mean, errors, in_order, listed
from builder.reading.pictures.small_copies import copies_of
from builder.shipped import shipped_root
from builder.site.build import Built, HomeOrder, build_home
from builder.site.folder.made import refuse_foreign_names
from builder.site.folder.old_kit import read_old_kit

LONG_BUILD = 3  # kits; fewer are done before one has read how far it is
_MOST_NAMED = 8  # kits that were lost

Hire = Callable[[Bench, int, bool], Crew]


class AllPlanned(NamedTuple):
    """What was planned and what need not be; what there is to say of both; who builds."""

    bench: Bench
    crew: Crew
    names: tuple[str, ...]  # of the trips whose kits are to be built
    kept: tuple[KeptPlan, ...]
    since: OldKit | None
    home: Home | None
    problems: tuple[Problem, ...]
    dangers: Dangers


class _Sorted(NamedTuple):
    """Trips by what is to be done with them."""

    to_plan: tuple[str, ...]
    kept: tuple[KeptPlan, ...]
    problems: tuple[Problem, ...]


def _names_left(planner: Planner, names: Sequence[str]) -> Iterator[Problem]:
    """Give the names of people in what a public kit of trips tells."""
    for trip in planner.whole_trips(names):
        yield from names_left(trip, planner.whole)


def sort_out(planner: Planner, names: Sequence[str], plans: KeptPlans) -> _Sorted:
    """Part trips that are to be planned from those whose last plan holds; open ones are neither."""
    plans.look_at(planner)
    to_plan, kept, problems = [], [], list[Problem]()
    for trip in planner.whole_trips(names):
        if is_open := problems_of_open(trip):
            problems += is_open
        elif before := plans.of(trip):
            kept.append(before)
            problems += before.problems
        else:
            to_plan.append(trip.id)
    return _Sorted(tuple(to_plan), tuple(kept), tuple(problems))


@contextmanager
def all_planned(
    place: Place, wanted: Wanted, plans: KeptPlans, hire: Hire | None = None
) -> Iterator[AllPlanned]:
    """Plan all that is wanted; stop where something in it is wrong, before anything is written."""
    planner = Planner(read_place(place))
    content = planner.folder.content
    names = named_trips(wanted.trips, content.trips, bool(errors(planner.problems)))
    sorted_out = sort_out(planner, wanted.part.of(names) if wanted.part else names, plans)
    with_home = wanted.with_home and _has_home(content)
    bench = Bench(planner, wanted, plans)
    # Where nothing was built yet and one trip is, the home comes after it: if that cannot be
    # written, nothing is.
    beside = with_home and (len(sorted_out.to_plan) > 1 or bool(sorted_out.kept))
    with (hire or usual_crew)(bench, len(sorted_out.to_plan), beside) as crew:
        told = _told_of_all(crew, sorted_out.to_plan)
        problems = in_order(
            [
                *planner.problems,
                *sorted_out.problems,
                *(problem for each in told for problem in each.problems),
                *(_names_left(planner, names) if wanted.public else ()),
            ]
        )
        stop_on(problems, wanted.strict)
        stop_on_open(wanted.trips, content)
        if not content.trips:
            raise BuilderStop(
                f"there is no trip in {place.shown}", ["write one with `tripkit new trip NAME`"]
            )
        of_trips = {each.trip_id: each.dangers for each in told if each.dangers is not None}
        since = _since(wanted, list(of_trips))
        of_trips |= {each.trip: each.dangers for each in sorted_out.kept}
        dangers = Dangers.together([of_trips[trip_id] for trip_id in sorted(of_trips)])
        if wanted.strict and dangers.of_a_trip:
            say_lines(dangers.lines)
            sys.exit(1)
        refuse_foreign_names(wanted.out, [*sorted(of_trips), *([AT_HOME] if with_home else [])])
        home = None
        if with_home:
            kept = [each.share for each in sorted_out.kept]
            home = partial(
                _built_home, planner, kept, [each.share for each in told], wanted, plans.tool
            )
        yield AllPlanned(
            bench, crew, sorted_out.to_plan, sorted_out.kept, since, home, problems, dangers
        )


def usual_crew(bench: Bench, trips: int, with_home: bool) -> Crew:
    """Give who plans and builds so many trips on this machine."""
    jobs = bench.wanted.jobs
    workers = min(jobs or cores(), trips + with_home)
    if workers <= 1:
        return Alone(bench)
    if can_fork():
        return Forked(bench, workers, trips)
    return Pooled(bench, workers) if jobs or trips >= FEW else Alone(bench)


def _told_of_all(crew: Crew, names: Sequence[str]) -> list[Told]:
    """Plan trips; give what there is to say of each, in the order of their names."""
    told = []
    with progress("Planning trips", len(names), least=LONG_PLAN) as bar:
        for each in crew.plan(names):
            if isinstance(each, Lost):
                raise BuilderStop(
                    f"{each.trip_id} could not be planned: {each.why}",
                    ["nothing was written; build again, with --jobs 1 where memory is short"],
                )
            told.append(each)
            bar.step()
    return sorted(told)


def _since(wanted: Wanted, planned: Sequence[str]) -> OldKit | None:
    """Read the kit that the companions have; it must be one of a trip that was planned."""
    if wanted.since is None:
        return None
    if wanted.public:
        raise BuilderStop("--since tells of people and packs", ["leave out --public, or --since"])
    old = read_old_kit(wanted.since)
    if old.trip not in planned:
        raise BuilderStop(
            f"{wanted.since} is the kit of another trip, {old.trip}",
            [did_you_mean(old.trip, planned)],
        )
    return old


def _has_home(content: Content) -> bool:
    """Tell whether a folder tells of a home; what plans one is loaded where that is asked."""
    from builder.planning.home import has_home

    return has_home(content)


def _built_home(
    planner: Planner, kept: Sequence[TripShare], told: Sequence[bytes], wanted: Wanted, tool: str
) -> Built:
    """Plan the home, whose day is the day of the build, and build its site."""
    from builder.cli.kept_runs import KeptRuns
    from builder.planning.home import day_of, plan_home

    content = planner.folder.content
    day = day_of(content, today())
    root = shipped_root()
    shares = [*kept, *(unpacked(TripShare, each) for each in told)]
    ordered = sorted(shares, key=lambda each: each.id)
    with KeptRuns(wanted.out, tool, is_asked=not wanted.force) as runs:
        plan = plan_home(content, planner.stock, ordered, day, search=runs.search)
    built = build_home(
        HomeOrder(
            plan=plan,
            epoch=build_epoch(day),
            out=wanted.out,
            templates=root / "site_templates",
            base_config=root / "mkdocs.yml",
            force=wanted.force,
            copies=copies_of((line.picture for line in plan.stock), wanted.large_pictures),
            generator=wanted.generator,
            tool=tool,
        )
    )
    runs.keep()
    return built


def build_all(ready: AllPlanned) -> tuple[dict[str, str], BuilderStop | None]:
    """Build all kits and say so in the order of their names; give what each was made from.

    Beside it stands how to say that some were lost; all the others are whole by then.
    """
    kept = [Built(each.trip, each.share.title, False, (), each.made_from) for each in ready.kept]
    out = ready.bench.wanted.told_out
    lost: list[Lost] = []
    made: dict[str, str] = {}
    turns = _Turns([*(each.trip_id for each in kept), *ready.names], ready.home is not None)
    for built in kept:
        turns.done(built)
    with progress("Building kits", len(ready.names), least=LONG_BUILD) as bar:
        for each in ready.crew.build(ready.names, ready.since, ready.home):
            if isinstance(each, Lost):
                lost.append(each)
                turns.passed_over(each.trip_id)
            else:
                turns.done(each)
            if each.trip_id != AT_HOME:
                bar.step()
            with bar.aside():
                for built in turns.next_ones():
                    _say_built(built, out)
                    made[built.trip_id] = built.made_from
    for built in turns.next_ones():
        _say_built(built, out)
        made[built.trip_id] = built.made_from
    return made, _told_as_lost(sorted(lost)) if lost else None


class _Turns:
    """Gives what is done in the order of names, the home last, whichever is done first."""

    def __init__(self, names: Sequence[str], with_home: bool) -> None:
        self._order = [*sorted(names), *([AT_HOME] if with_home else [])]
        self._done: dict[str, Built | None] = {}

    def done(self, built: Built) -> None:
        """Note one that is done."""
        self._done[built.trip_id] = built

    def passed_over(self, trip_id: str) -> None:
        """Note one that never will be."""
        self._done[trip_id] = None

    def next_ones(self) -> Iterator[Built]:
        """Give those whose turn it is."""
        while self._order and self._order[0] in self._done:
            built = self._done.pop(self._order.pop(0))
            if built is not None:
                yield built


def _told_as_lost(lost: Sequence[Lost]) -> BuilderStop:
    """Say which kits were not built, and why."""
    why = {each.why: None for each in lost}
    names = [each.trip_id for each in lost[:_MOST_NAMED]]
    if len(lost) > _MOST_NAMED:
        names.append(f"{len(lost) - _MOST_NAMED} more")
    return BuilderStop(
        f"{counted(len(lost), 'kit')} not built, {listed(names)}: {'; '.join(why)}",
        [
            "the other kits are whole, and these as they were before",
            "build again: only what is missing is built; with --jobs 1 where memory is short",
        ],
    )


def _say_built(built: Built, out: str) -> None:
    word = "Built" if built.changed else "Unchanged"
    click.echo(f"{word} {out}/{built.trip_id} ({built.title})")
    say_problems(built.doubts)
