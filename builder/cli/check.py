"""Checking a folder: `tripkit check`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.base import (
    content_option,
    counted,
    main,
    place_of,
    planned_kits,
    read_place,
    stop_on,
)


@main.command()
@content_option
@click.option("--strict", is_flag=True, help="Warnings fail too.")
def check(content: Path | None, strict: bool) -> None:
    """Find every mistake in the folder; build nothing."""
    place = place_of(content)
    folder = read_place(place)
    _, problems = planned_kits(folder, lambda known, _: sorted(known))
    stop_on(problems, strict)
    records = folder.content
    click.echo(
        f"No errors in {place.shown}: {counted(len(records.trips), 'trip')}, "
        f"{counted(len(records.recipes), 'recipe')}, "
        f"{counted(len(records.batches), 'batch', 'batches')}, "
        f"{counted(len(records.foods), 'food')}."
    )
