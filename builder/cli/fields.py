"""Telling what may be written: `tripkit fields`."""

from __future__ import annotations

import json

import click

from builder.cli.base import BuilderStop, json_option, main
from builder.cli.completing import kinds_of_record
from builder.problems import did_you_mean


@main.command(short_help="Tell every key that may be written.")
@click.argument("kind", shell_complete=kinds_of_record)
@json_option
def fields(kind: str, as_json: bool) -> None:
    """Tell every key of a KIND: what it takes, what is usual, what is taken where it is left out.

    \b
    For example:
      tripkit fields food
      tripkit fields gear
    """
    from builder.reading.kinds import KINDS
    from builder.reading.telling import keys_said

    if kind not in KINDS:
        raise BuilderStop(f"there are no fields of {kind!r}", [did_you_mean(kind, KINDS)])
    said = keys_said(KINDS[kind].record)
    if as_json:
        click.echo(json.dumps([each.data() for each in said], indent=2, ensure_ascii=False))
        return
    for each in said:
        for line in each.lines():
            click.echo(line)
