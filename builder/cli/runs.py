"""What to dry and when: `tripkit runs`."""

from __future__ import annotations

import datetime
import json
import os
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from builder.cli.base import (
    BuilderStop,
    json_option,
    main,
    or_nothing_written,
    read_date,
    refuse_unknown,
    say_problems,
    to_fill,
)
from builder.cli.completing import ids_of
from builder.cli.places import content_option, layers_of, own_place, place_asked, read_place
from builder.clock import now, today
from builder.problems import as_told, counted, errors, in_order

if TYPE_CHECKING:
    from builder.model.content import Content
    from builder.planning.runs import DryingPlan, Run


@main.command(short_help="Tell which runs to do, in which dryer, on which days.")
@click.argument("trips", nargs=-1, metavar="[TRIP …]", shell_complete=ids_of("trips"))
@click.option(
    "--ics",
    "ics",
    metavar="FILE",
    type=click.Path(dir_okay=False, path_type=Path),
    help="Write a calendar file of all that is to be done, with alarms.",
)
@click.option("--write", is_flag=True, help="Add the new runs to your log, as planned batches.")
@click.option("--at", metavar="DATE", help="Plan as of this day. Without it: today.")
@content_option
@json_option
def runs(
    trips: tuple[str, ...],
    ics: Path | None,
    write: bool,
    at: str | None,
    content: Path | None,
    *,
    as_json: bool,
) -> None:
    """Tell which runs to do for the trips ahead, in which dryer and on which days.

    What trips want that no free pack covers is packed into as few runs as can be. Runs that your
    log holds already are listed too.

    \b
    For example:
      tripkit runs
      tripkit runs tarrow-tops --ics runs.ics
      tripkit runs --write
    """
    from builder.planning.drying import run_problems, undried_problems
    from builder.planning.menu import open_problems
    from builder.planning.runs import plan_runs
    from builder.planning.stock import check as check_content

    place = own_place(content) if write else place_asked(content)
    folder = read_place(place)
    stock, problems = check_content(folder.content)
    told = [
        *folder.problems,
        *problems,
        *run_problems(folder.content, stock),
        *undried_problems(folder.content),
    ]
    told += [
        problem
        for trip in folder.content.trips.values()
        for problem in open_problems(trip, to_fill(trip.id))
    ]
    say_problems(in_order(told))
    for trip in trips:
        refuse_unknown("trip", trip, folder.content.trips)
    day = read_date("--at", at, "2031-09-04") if at else today()
    plan = plan_runs(folder.content, stock, day, trips)
    if ics is not None:
        _write_calendar(ics, plan)
    if as_json:
        click.echo(json.dumps(plan.data(), indent=2))
    else:
        for line in _lines(plan, day):
            click.echo(line)
    if write:
        _write_batches(plan, content, folder.content, as_json)
    if errors(problems) or errors(folder.problems):
        sys.exit(1)


def _lines(plan: DryingPlan, at: datetime.date) -> Iterator[str]:
    if not plan.runs and not plan.impossible:
        yield f"Nothing is left to dry for the trips after {at.isoformat()}."
    for run in plan.runs:
        yield from _run_lines(run)
    for text in plan.impossible:
        yield f"Cannot be done: {text}"
    for text in plan.remarks:
        yield f"Note: {text}"


_STATES = {"new": "", "planned": " (planned in your log)", "in-dryer": " (in the dryer)"}


def _run_lines(run: Run) -> Iterator[str]:
    from builder.units import show

    spare = "" if run.day_to_spare else "; no whole free day to spare"
    yield (
        f"{_time(run.start)} to {_time(run.end)}  {run.dryer_name or run.method}, "
        f"{run.hours:g} h{_STATES[run.state]}{spare}"
    )
    for part in run.parts:
        meals = ", ".join(f"{each.trip} day {each.day} {each.meal}" for each in part.meals)
        yield (
            f"    {show(part.fresh_g, 'mass_g')} {part.name} → {show(part.dried_g, 'mass_g')} "
            f"dried, {counted(part.packs, 'pack')}{f', for {meals}' if meals else ''}"
        )
    for step in run.steps:
        yield f"    {_time(step.at)}  {step.says}"


def _time(at: datetime.datetime) -> str:
    return f"{at:%a %Y-%m-%d %H:%M}"


def _write_calendar(file: Path, plan: DryingPlan) -> None:
    from builder.pages.home.run_calendar import run_calendar

    if not plan.runs:
        click.echo(f"{as_told(file)} was not written: there is no run to put in.", err=True)
        return
    try:
        # Whole or not at all: a calendar program may be reading it.
        fresh = file.with_name(f".{file.name}.new")
        fresh.write_bytes(run_calendar(plan.runs, now()))
        os.replace(fresh, file)
    except OSError as error:
        raise BuilderStop(f"{as_told(file)} cannot be written ({error.strerror})") from error
    click.echo(f"Wrote {as_told(file)}", err=True)


def _write_batches(plan: DryingPlan, content: Path | None, known: Content, as_json: bool) -> None:
    """Add the new runs to the log; each batch is read back before it is written."""
    from builder.starts import plan_batches

    with or_nothing_written():
        planned = plan_batches(layers_of(own_place(content)), plan, known.home)
    for logged in planned:
        click.echo(f"Planned {logged.judged.batch.id} in {logged.file}", err=as_json)
    if not planned:
        click.echo("Nothing new to plan.", err=as_json)
