"""Checking a folder: `tripkit check`."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path

import click

from builder.cli.base import json_option, main, stop_on
from builder.cli.dangers import Dangers, say_lines, told
from builder.cli.places import content_option, place_asked, read_place
from builder.problems import Problem, counted, errors


@main.command(short_help="Find every mistake, and every trip's dangers.")
@content_option
@click.option(
    "--strict",
    is_flag=True,
    help="Warnings fail too, and dangers that a trip itself brings up.",
)
@json_option
def check(content: Path | None, strict: bool, as_json: bool) -> None:
    """Find every mistake in the folder, and every trip's dangers; build nothing."""
    from builder.cli.planner import plan_each

    place = place_asked(content)
    folder = read_place(place)
    # Of many trips the kits would fill the memory.
    planned = plan_each(
        folder,
        lambda known, _: sorted(known),
        lambda kit: (Dangers.of([kit]), told(kit)),
        to_check=True,
    )
    problems = planned.problems
    dangers = Dangers.together([each for each, _ in planned.kits])
    if as_json:
        data = {"problems": _told(problems), "trips": [each for _, each in planned.kits]}
        click.echo(json.dumps(data, indent=2))
        if errors(problems):
            sys.exit(1)
    else:
        stop_on(problems, strict)
        records = folder.content
        click.echo(
            f"No errors in {place.shown}: {counted(len(records.trips), 'trip')}, "
            f"{counted(len(records.recipes), 'recipe')}, "
            f"{counted(len(records.batches), 'batch', 'batches')}, "
            f"{counted(len(records.foods), 'food')}."
        )
        say_lines(dangers.lines)
    if strict and (problems or dangers.of_a_trip):
        sys.exit(1)


def _told(problems: Sequence[Problem]) -> list[dict[str, object]]:
    from builder.reading.text.pointing import fields_of

    return [
        {
            "level": each.severity,
            "file": each.place.file,
            "line": each.place.line,
            "column": each.place.column,
            "field": field,
            "text": each.says,
            "mend": each.mend,
            "kind": each.kind,
        }
        for each, field in zip(problems, fields_of(tuple(problems)), strict=True)
    ]
