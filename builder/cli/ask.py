"""Looking things up: `tripkit dry`, `stock`, `find` and `explain`."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import cast

import click

from builder.cli.base import (
    BuilderStop,
    json_option,
    main,
    named_trips,
    read_date,
    refuse_unknown,
    say_problems,
    stop_on,
    stop_on_open,
)
from builder.cli.completing import ids_of
from builder.cli.places import content_option, place_asked, read_place
from builder.cli.told import (
    heated_option,
    read_heated,
    read_mass,
    read_tests,
    read_weighings,
    tests_option,
)
from builder.clock import today
from builder.model.batch import WAYS_TO_DRY, Method
from builder.problems import ProblemsFound, errors, in_order


@main.command(short_help="Is it dry yet, and what is still to go?")
@click.argument("food", shell_complete=ids_of("foods", "recipes"))
@click.argument("fresh")
@click.option("--now", metavar="MASS", help="What it weighs now, without the tray.")
@click.option(
    "--weighing",
    "weighings",
    metavar="TIME=MASS",
    multiple=True,
    help='A weighing during the run, such as "3 h=812 g"; two or more tell when it will be dry.',
)
@click.option(
    "--method",
    type=click.Choice(WAYS_TO_DRY),
    default="dehydrator",
    show_default=True,
    help="How it is dried.",
)
@heated_option
@click.option("--absorber", is_flag=True, help="It is packed with an oxygen absorber.")
@click.option(
    "--in",
    "packaging",
    metavar="PACKAGING",
    shell_complete=ids_of("packaging"),
    help="What it is packed in, such as foil-pouch. Without it: still in the dryer.",
)
@tests_option
@content_option
@json_option
def dry(
    food: str,
    fresh: str,
    *,
    now: str | None,
    weighings: tuple[str, ...],
    method: str,
    heated: str | None,
    absorber: bool,
    packaging: str | None,
    tests: str,
    content: Path | None,
    as_json: bool,
) -> None:
    """Is it dry yet? FOOD is a food's id, FRESH its weight before drying, such as "1850 g".

    \b
    For example:
      tripkit dry carrot-raw "1 kg" --now "180 g"
      tripkit dry apple-raw "2 kg" --weighing "3 h=1400 g" --weighing "5 h=950 g"
    """
    from builder.planning.batches import Asked, dryness

    folder = read_place(place_asked(content))
    refuse_unknown("food", food, [*folder.content.foods, *folder.content.recipes])
    fresh_g = read_mass("FRESH", fresh)
    asked = Asked(
        holds=food,
        fresh_g=fresh_g,
        method=cast(Method, method),
        now_g=read_mass("--now", now) if now is not None else None,
        weighings=read_weighings(weighings, fresh_g),
        heated=read_heated(heated) if heated is not None else None,
        absorber=absorber,
        packaging=packaging,
        tests=read_tests(tests),
    )
    try:
        found = dryness(asked, folder.content, today())
    except ProblemsFound as stop:
        problem = stop.problems[0]
        raise BuilderStop(problem.says, [problem.mend]) from stop
    if as_json:
        click.echo(json.dumps(found.data(), indent=2, sort_keys=True))
        return
    for text in found.lines():
        click.echo(text)


@main.command(short_help="List the packs that are left.")
@click.option(
    "--at",
    metavar="DATE",
    help="The stock of this day: trips over by then have eaten. Without it: today.",
)
@content_option
@json_option
def stock(at: str | None, content: Path | None, as_json: bool) -> None:
    """List the packs that are left and which later trips they are promised to.

    What expires first comes first.
    """
    from builder.model.batch import UNTOLD_KEPT_AT_C
    from builder.planning.stock import check as check_content
    from builder.planning.stock import stock_lines
    from builder.units import show

    folder = read_place(place_asked(content))
    whole, problems = check_content(folder.content)
    say_problems(in_order([*folder.problems, *problems]))
    lines = stock_lines(whole, read_date("--at", at, "2031-09-04") if at else today())
    if as_json:
        click.echo(json.dumps([line.data() for line in lines], indent=2))
    else:
        if not lines:
            click.echo("No packs are left.")
        else:
            click.echo(f"{'Keep until':<12}{'Packs':<5}{'Each':>9}  Food (batch)")
        untold = f"{show(UNTOLD_KEPT_AT_C, 'temperature_c')} (not told)"
        for line in lines:
            date = line.best_before.isoformat() if line.best_before else "no date   "
            kept = () if line.kept_at_told or not line.best_before else (f"if kept at {untold}",)
            flag = "".join(f"  {text}" for text in (*line.said(), line.why, *kept) if text)
            click.echo(
                f"{date}  {line.packs_left:3d} × {show(line.pack_g, 'mass_g'):>8}  "
                f"{line.name} ({line.batch}){f', {line.shelf}' if line.shelf else ''}{flag}"
            )
            if line.promised_to:
                click.echo(f"{'':12}{line.packs_free:3d} free. Promised: {line.promised_said()}")
    if errors(problems) or errors(folder.problems):
        sys.exit(1)


@main.command(short_help="Tell how a figure came about.")
@click.argument("trip", shell_complete=ids_of("trips"))
@click.argument("figure", nargs=-1, required=True)
@content_option
@json_option
@click.option("--deep", is_flag=True, help="Take each input apart too, down to files and tables.")
def explain(
    trip: str, figure: tuple[str, ...], content: Path | None, as_json: bool, deep: bool
) -> None:
    """Tell how a FIGURE of a trip came about: its address in kit.json, or words of its title.

    \b
    For example:
      tripkit explain tarrow-tops fuel.carry_g
      tripkit explain tarrow-tops boils day 2
    """
    from builder.cli.planner import planned_kits
    from builder.pages.trip.origins.explaining import (
        MOST_CHOICES,
        MOST_LISTED,
        explained,
        listed,
        matching,
        unknown_said,
    )
    from builder.pages.trip.origins.graph_json import graph_data
    from builder.pages.trip.origins.kit_json import kit_data
    from builder.planning.graph import graph_of

    place = place_asked(content)
    folder = read_place(place)
    kits, problems = planned_kits(folder, lambda known, broken: named_trips([trip], known, broken))
    stop_on(problems, False)
    stop_on_open([trip], folder.content)
    (kit,) = kits
    words = " ".join(figure)
    graph = graph_of(kit_data(kit))
    found = matching(kit, graph, words)
    if not found:
        raise BuilderStop(f"no figure of {trip} matches {words!r}", unknown_said(kit, graph, words))
    if len(found) > MOST_CHOICES:
        # Those of the whole trip before those of a day, a meal or a person.
        shown = sorted(found, key=lambda each: each.id.count("."))[:MOST_LISTED]
        for line in listed(kit, shown):
            click.echo(line)
        rest = len(found) - MOST_LISTED
        more = [f"{rest} more are not listed: add a word"] if rest > 0 else []
        raise BuilderStop(f"{len(found)} figures match {words!r}", ["name one of these", *more])
    if as_json:
        click.echo(json.dumps(graph_data(kit, graph, graph.below(found)), indent=2))
        return
    for each in found:
        for line in explained(kit, graph, each, deep):
            click.echo(line)
