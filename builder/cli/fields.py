"""Telling what may be written: `tripkit fields`."""

from __future__ import annotations

import json

import click

from builder.cli.base import BuilderStop, json_option, main
from builder.cli.completing import keys_of_kind, kinds_of_record
from builder.problems import did_you_mean


@main.command(short_help="Tell every key that may be written.")
@click.argument("kind", required=False, shell_complete=kinds_of_record)
@click.argument("keys", nargs=-1, metavar="[KEY]...", shell_complete=keys_of_kind)
@json_option
def fields(kind: str | None, keys: tuple[str, ...], as_json: bool) -> None:
    """Tell every key of a KIND: what it takes, what is usual, what is taken where it is left out.

    KEY shows that one alone, and what it holds; more than one lead to a key inside the one before.
    Without a KIND, it lists the kinds.

    \b
    For example:
      tripkit fields food
      tripkit fields trip travel
      tripkit fields trip review left
    """
    from builder.reading.declared.telling import keys_said, named, paths_of
    from builder.reading.kinds import KINDS

    if kind is None:
        for name, known in KINDS.items():
            click.echo(f"{name:8} {known.record.__doc__}")
        return
    if kind not in KINDS:
        raise BuilderStop(f"there are no fields of {kind!r}", [did_you_mean(kind, KINDS)])
    said = keys_said(KINDS[kind].record)
    if keys:
        key = ".".join(keys)
        paths = [*paths_of(said)]
        said = named(said, key)
        if not said:
            words = {word for path in paths for word in (path, path.rpartition(".")[2])}
            raise BuilderStop(f"a {kind} has no key {key!r}", [did_you_mean(key, words)])
    if as_json:
        click.echo(json.dumps([each.data() for each in said], indent=2, ensure_ascii=False))
        return
    for each in said:
        for line in each.lines():
            click.echo(line)
