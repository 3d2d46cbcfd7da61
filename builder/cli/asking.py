"""Questions on a terminal; they go to the error output, so that `--json` can be piped on."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

import click

from builder.cli.places import known_in
from builder.cli.told import read_mass
from builder.problems import did_you_mean

if TYPE_CHECKING:
    from builder.model.content import Content

MOST_OFFERED = 12


def on_terminal() -> bool:
    """Tell whether somebody can be asked."""
    return sys.stdin.isatty() and sys.stderr.isatty()


def ask_mass(question: str, example: str) -> str:
    """Ask for a weight until one can be read."""
    while True:
        told: str = click.prompt(f"{question} (such as {example})", err=True).strip()
        try:
            if read_mass(question, told) > 0:
                return told
            click.echo("  It must be more than nothing.", err=True)
        except click.BadParameter as error:
            click.echo(f"  {error.message}", err=True)


def ask_count(question: str) -> int:
    """Ask for a whole number."""
    told: int = click.prompt(question, default=1, type=click.IntRange(1, 10_000), err=True)
    return told


def ask_one_of(question: str, options: Iterable[str], may_skip: bool = False) -> str:
    """Ask for one of some ids; an empty answer where none need be told."""
    known = list(options)
    shown = f"{question} ({', '.join(known)}{'; Enter: not told' if may_skip else ''})"
    while True:
        told: str = click.prompt(
            shown, default="" if may_skip else None, show_default=False, err=True
        ).strip()
        if told in known or (may_skip and not told):
            return told
        click.echo(f"  There is no {told!r}: {did_you_mean(told, known)}", err=True)


def ask_food(content: Content, told: str | None) -> str:
    """Ask for a food or recipe by a word of its name, and offer those that have it."""
    while True:
        if told is None:
            told = click.prompt("Food (a word of its name will do)", err=True).strip()
        if told in content.foods or told in content.recipes:
            return told
        offered = _offered(content, told)
        if not offered:
            click.echo(f"  Nothing is called {told!r}.", err=True)
            told = None
            continue
        for number, (name, said) in enumerate(offered, start=1):
            click.echo(f"  {number:2d}  {name:<30} {said}", err=True)
        answer: str = click.prompt("Which (a number, or another word)", err=True).strip()
        chosen = answer.isdecimal() and 1 <= int(answer) <= len(offered)
        told = offered[int(answer) - 1][0] if chosen else answer


def _offered(content: Content, told: str) -> Sequence[tuple[str, str]]:
    """Give foods and recipes that a word may mean, as id and name."""
    from builder.planning.finding import find

    found = find(known_in(content), told).found
    names = {each.id: each.name for each in found if each.what in ("food", "recipe")}
    return list(names.items())[:MOST_OFFERED]
