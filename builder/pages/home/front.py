"""The front page of the home: what to do now, what to eat first, which trips are ahead."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from builder.pages.home.runs import step_line
from builder.pages.pieces import Cell, Piece, filled, link, text
from builder.planning.at_home import LOOK_AHEAD_DAYS, Task, TripAhead
from builder.planning.home import HomePlan
from builder.speech import Speech, speech_of


@dataclass(frozen=True, slots=True)
class FrontPage:
    """Lines to tick off, then what to eat first, then the trips."""

    day: str
    todo: tuple[Cell, ...]
    eat_first: tuple[Cell, ...]
    trips: tuple[Cell, ...]


def front_page(plan: HomePlan, bagging_paths: dict[str, str]) -> FrontPage:
    """Give the front page."""
    say = speech_of(plan.home.language)
    todo = [*_steps(plan, say), *(_todo(say, task) for task in _by_hand(plan))]
    eat_first = [_eat_first(say, task) for task in plan.tasks if task.do == "eat-first"]
    return FrontPage(
        say.date(plan.day),
        tuple(todo),
        tuple(eat_first),
        tuple(_trip(say, trip, bagging_paths) for trip in plan.trips),
    )


def _steps(plan: HomePlan, say: Speech) -> Iterator[Cell]:
    """Give what the runs ask for within the week, by its time."""
    until = plan.day + datetime.timedelta(days=LOOK_AHEAD_DAYS)
    steps = [step for run in plan.drying.runs for step in run.steps if step.at.date() <= until]
    for step in sorted(steps, key=lambda each: (each.at, each.says)):
        yield step_line(say, step)


def _by_hand(plan: HomePlan) -> Iterator[Task]:
    """Give what else waits; what a run's steps tell is not told again."""
    in_runs = {part.batch for run in plan.drying.runs for part in run.parts}
    for task in plan.tasks:
        is_told = task.do in ("dry", "condition") and task.batch in in_runs
        if task.do != "eat-first" and not is_told:
            yield task


def _todo(say: Speech, task: Task) -> Cell:
    name: Cell = (Piece(task.name, strong=True),)
    day = text(say.date(task.day)) if task.day else ()
    match task.do:
        case "drying":
            return filled(say("In the dryer: {food}. {act}"), food=name, act=text(task.act))
        case "dry" if task.act:
            return filled(
                say("Planned for {day}: {food}. {act}"), day=day, food=name, act=text(task.act)
            )
        case "dry":
            return filled(say("Dry by {day}: {food}."), day=day, food=name)
        case "condition":
            return filled(
                say("Condition until {day}: {food}. Shake the jar each day; drops inside: dry on."),
                day=day,
                food=name,
            )
        case "past":
            return filled(
                say("{food} was to be eaten by {day}. {act}."),
                food=name,
                day=day,
                act=text(task.act),
            )
        case _:
            return filled(say("{food}: {act}"), food=name, act=text(task.act))


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
