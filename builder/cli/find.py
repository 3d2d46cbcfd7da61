"""Looking up ids: `tripkit find`."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING

import click

from builder.cli.base import BuilderStop, json_option, main
from builder.cli.completing import words_to_find
from builder.cli.places import content_option, known_in, place_asked, read_searched
from builder.problems import counted, listed

if TYPE_CHECKING:
    from builder.planning.finding import Found, Search

MOST_OF_A_KIND = 12
_MANY = {"batch": "batches", "packaging": "kinds of packaging"}


@main.command(short_help="Find ids by any word, in three languages.")
@click.argument("words", nargs=-1, required=True, metavar="WORD...", shell_complete=words_to_find)
@click.option("--all", "whole", is_flag=True, help=f"Show all, not the best {MOST_OF_A_KIND}.")
@content_option
@json_option
def find(words: tuple[str, ...], whole: bool, content: Path | None, as_json: bool) -> None:
    """Find the ids of foods, recipes, batches, gear and trips.

    Any word will do: of a name or an id, a kind of food, an allergen, a diet, in English, German
    or Norwegian. More words narrow it. The best come first, each with what made it match.

    \b
    For example:
      tripkit find black bean
      tripkit find cheese raw
      tripkit find Hülsenfrucht
    """
    from builder.planning.finding import find as find_records
    from builder.reading.text.uncollected import uncollected

    with uncollected():
        records = known_in(read_searched(place_asked(content)))
        search = find_records(records, " ".join(words))
    if as_json:
        click.echo(json.dumps([each.data() for each in search.found], indent=2))
        return
    if not search.found:
        raise BuilderStop(f"nothing matches {' '.join(words)!r}", _would_do(search))
    for word, near in search.near.items():
        click.echo(f"Nothing is called {word!r}; taken for {listed(near, 'or')}.", err=True)
    for line in _lines(search.found, whole):
        click.echo(line)


def _lines(found: Sequence[Found], whole: bool) -> Iterator[str]:
    """Give a line for each, kind by kind, that of the best first."""
    rooms = list(dict.fromkeys(each.what for each in found))
    by_room = sorted(found, key=lambda each: rooms.index(each.what))
    groups = [(what, list(group)) for what, group in groupby(by_room, lambda each: each.what)]
    shown = [each for _, group in groups for each in (group if whole else group[:MOST_OF_A_KIND])]
    id_width = max(len(each.id) for each in shown)
    name_width = min(48, max(len(each.name) for each in shown))
    for what, group in groups:
        first = group if whole else group[:MOST_OF_A_KIND]
        for each in first:
            because = ", ".join(each.because)
            yield f"{what:<9}  {each.id:<{id_width}}  {each.name:<{name_width}}  {because}"
        if rest := len(group) - len(first):
            more = counted(rest, f"more {what}", f"more {_MANY.get(what, f'{what}s')}")
            yield f"{'':9}  and {more}: add a word to narrow it, or --all"


def _would_do(search: Search) -> list[str]:
    """Say what to try where nothing was found."""
    alone = [f"`{word}` alone finds {count}" for word, count in search.alone.items() if count]
    if alone:
        none = [f"`{word}`" for word, count in search.alone.items() if not count]
        rest = f"; nothing has {listed(none, 'or')}" if none else "; nothing has all of these"
        return [f"{listed(alone)}{rest}"]
    return ["try a shorter word, such as `bean`, or a kind or an allergen, such as `nuts`"]
