"""The front page of the home: what to do now, what to eat first, which trips are ahead."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator

from builder.pages.home.runs import step_line
from builder.pages.home.showing import why_waste
from builder.pages.pieces import Cell, Piece, filled, link, text
from builder.planning.home import HomePlan
from builder.planning.year import LOOK_AHEAD_DAYS, Doing, Task, TripAhead
from builder.record import dataclass
from builder.speech import Speech, speech_of

_MOST_NAMED = 6  # things to buy; more of them are counted


@dataclass(frozen=True, slots=True)
class FrontPage:
    """What to do this week, what to throw out and to look at, what to eat first, the trips."""

    day: str
    week: tuple[Cell, ...]
    throw_out: tuple[Cell, ...]
    past: tuple[Cell, ...]
    eat_first: tuple[Cell, ...]
    trips: tuple[Cell, ...]


def front_page(plan: HomePlan, bagging_paths: dict[str, str]) -> FrontPage:
    """Give the front page."""
    say = speech_of(plan.home.language)
    week = [
        *_steps(plan, say),
        *(_todo(say, task) for task in _by_hand(plan)),
        *_to_buy(plan, say),
        *_to_pack(plan, say, bagging_paths),
    ]

    def of(do: Doing) -> tuple[Cell, ...]:
        return tuple(_on_the_shelf(say, task) for task in plan.tasks if task.do == do)

    return FrontPage(
        day=say.date(plan.day),
        week=tuple(week),
        throw_out=of("throw-out"),
        past=of("past"),
        eat_first=tuple(_eat_first(say, task) for task in plan.tasks if task.do == "eat-first"),
        trips=tuple(_trip(say, trip, bagging_paths) for trip in plan.trips),
    )


def _last_day(plan: HomePlan) -> datetime.date:
    return plan.day + datetime.timedelta(days=LOOK_AHEAD_DAYS)


def _steps(plan: HomePlan, say: Speech) -> Iterator[Cell]:
    """Give what the runs ask for within the week, by its time."""
    last = _last_day(plan)
    steps = [step for run in plan.drying.runs for step in run.steps if step.at.date() <= last]
    for step in sorted(steps, key=lambda each: each.at):  # what is at once stays in its order
        yield step_line(say, step, names_the_day=plan.day <= step.at.date() < last)


def _by_hand(plan: HomePlan) -> Iterator[Task]:
    """Give what else waits; what a run's steps tell is not told again."""
    in_runs = {part.batch for run in plan.drying.runs for part in run.parts}
    for task in plan.tasks:
        is_told = task.do in ("dry", "condition") and task.batch in in_runs
        if task.do in ("drying", "dry", "condition", "act") and not is_told:
            yield task


def _todo(say: Speech, task: Task) -> Cell:
    name: Cell = (Piece(task.name, strong=True),)
    day = text(say.date(task.day)) if task.day else ()
    match task.do:
        case "drying":
            told = say("In the dryer: {food}. {act}")
            follow = link(say("Follow it"), "follow.md")
            return (*filled(told, food=name, act=text(task.act)), Piece(" "), *follow)
        case "dry" if task.act:
            return filled(
                say("Planned for {day}: {food}. {act}"), day=day, food=name, act=text(task.act)
            )
        case "dry":
            return filled(say("Dry by {day}: {food}."), day=day, food=name)
        case "condition":
            return filled(
                say(
                    "Condition until {day}: {food}. Shake the jar each day; drops inside: dry it "
                    "again."
                ),
                day=day,
                food=name,
            )
        case _:
            return filled(say("{food}: {act}"), food=name, act=text(task.act))


def _to_buy(plan: HomePlan, say: Speech) -> Iterator[Cell]:
    """Give what must be there within the week, by the day it is needed."""
    by_day: dict[datetime.date, list[str]] = {}
    for each in plan.shopping:
        if each.needed_on is not None and each.needed_on <= _last_day(plan):
            by_day.setdefault(max(each.needed_on, plan.day), []).append(each.name)
    for day, names in sorted(by_day.items()):
        things = say.count("{n} thing to buy", "{n} things to buy", len(names))
        yield filled(
            say("Buy by {day}: {foods}."),
            day=text(say.date(day)),
            foods=link(say.listed(names) if len(names) <= _MOST_NAMED else things, "shopping.md"),
        )


def _to_pack(plan: HomePlan, say: Speech, bagging_paths: dict[str, str]) -> Iterator[Cell]:
    """Give the bags to fill of trips that begin within the week."""
    for trip in plan.trips:
        ahead = trip.start is not None and plan.day <= trip.start <= _last_day(plan)
        if ahead and trip.start is not None and trip.trip in bagging_paths:
            day = max(trip.start - datetime.timedelta(days=1), plan.day)
            yield filled(
                say("Fill the bags for {trip} by {day}."),
                trip=link(trip.title, bagging_paths[trip.trip]),
                day=text(say.date(day)),
            )


def _on_the_shelf(say: Speech, task: Task) -> Cell:
    """Name what is to be taken off the shelf, how many packs, until when it was good, and why."""
    packs = say.count("{n} pack", "{n} packs", task.packs)
    name: Cell = (Piece(task.name, strong=True),)
    if task.day is None:
        told = filled(say("{food}: {packs}"), food=name, packs=text(packs))
    else:
        told = filled(
            say("{food}: {packs}, best before {day}"),
            food=name,
            packs=text(packs),
            day=text(say.short_date(task.day)),
        )
    return (*told, *why_waste(say, task.why))


def _eat_first(say: Speech, task: Task) -> Cell:
    assert task.day is not None
    free = say.count("{n} pack free", "{n} packs free", task.packs)
    return filled(
        say("{food}, by {day}: {free}"),
        food=(Piece(task.name, strong=True),),
        day=text(say.short_date(task.day)),
        free=text(free),
    )


def _trip(say: Speech, trip: TripAhead, bagging_paths: dict[str, str]) -> Cell:
    parts: list[Piece] = [
        *filled(
            say("{trip}: {when}."),
            trip=(Piece(trip.title, strong=True),),
            when=text(_when(say, trip)),
        )
    ]
    parts += _joined(_left_to_do(say, trip, bagging_paths))
    return tuple(parts)


def _when(say: Speech, trip: TripAhead) -> str:
    if trip.start is None or trip.days_off is None:
        return say("no date yet")
    if trip.days_off <= 0:
        return say("under way since {day}", day=say.short_date(trip.start))
    day = say.short_date(trip.start)
    return say.count("in {n} day, {day}", "in {n} days, {day}", trip.days_off, day=day)


def _left_to_do(say: Speech, trip: TripAhead, bagging_paths: dict[str, str]) -> Iterable[Cell]:
    if trip.to_dry:
        yield link(
            say.count("{n} thing to dry", "{n} things to dry", trip.to_dry), "shopping.md#to-dry"
        )
    if trip.to_buy:
        yield link(say.count("{n} thing to buy", "{n} things to buy", trip.to_buy), "shopping.md")
    if trip.trip in bagging_paths:
        yield link(say("bags to fill"), bagging_paths[trip.trip])


def _joined(cells: Iterable[Cell]) -> list[Piece]:
    return [
        piece
        for number, cell in enumerate(cells)
        for piece in (Piece(" " if number == 0 else ", "), *cell)
    ]
