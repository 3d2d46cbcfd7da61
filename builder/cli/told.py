"""What several commands are told of a load: weights, weighings, the heat step, the tests."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import cast

import click

from builder.cli.base import Function
from builder.model.batch import DRY_TESTS, DryTest, Heated, Weighing
from builder.problems import did_you_mean, printable


def heated_option(function: Function) -> Function:
    """Add the option that tells the heat step of raw meat; `read_heated` reads it."""
    return click.option(
        "--heated",
        metavar="STEP",
        help='The heat step of raw meat: "74 degC before", or "135 degC after 10 min".',
    )(function)


def tests_option(function: Function) -> Function:
    """Add the option that tells what proved a load dry; `read_tests` reads it."""
    return click.option(
        "--tests",
        metavar="TESTS",
        default="",
        help=f"What was done to prove it dry: {', '.join(DRY_TESTS)}, parted by commas.",
    )(function)


def refuse_no_text(words: Iterable[object]) -> None:
    """Stop where a word of the command line holds bytes that are no text: no file can hold it."""
    for word in words:
        if isinstance(word, str) and any("\ud800" <= sign <= "\udfff" for sign in word):
            raise click.UsageError(f"{printable(word)} holds bytes that are no text; write it anew")


def read_weighings(told: Sequence[str], fresh_g: float) -> tuple[Weighing, ...]:
    """Read weighings of a run; they must go down as time goes on."""
    found: list[Weighing] = []
    for text in told:
        time, equals, mass = text.partition("=")
        if not equals:
            raise click.BadParameter('write it like "3 h=812 g"', param_hint="--weighing")
        found.append(
            Weighing(
                read_told("--weighing", time, "duration_min"),
                read_told("--weighing", mass, "mass_g"),
            )
        )
    found.sort(key=lambda each: each.at_min)
    if found and found[0].at_min <= 0:
        raise click.BadParameter(
            "a weighing comes after the start; the weight before drying is FRESH",
            param_hint="--weighing",
        )
    if any(later.at_min == earlier.at_min for earlier, later in pairwise(found)):
        raise click.BadParameter(
            "two weighings at one time; tell the time of each", param_hint="--weighing"
        )
    masses = [fresh_g, *(each.mass_g for each in found)]
    if any(later > earlier for earlier, later in pairwise(masses)):
        raise click.BadParameter(
            "a load gets lighter, not heavier; check the weights", param_hint="--weighing"
        )
    return tuple(found)


_HEATED = re.compile(r"(?P<to>.+?)\s+(?P<when>before|after)(?:\s+(?P<minutes>.+))?")


def read_heated(told: str) -> Heated:
    """Read a heat step such as `74 degC before` or `135 degC after 10 min`."""
    match = _HEATED.fullmatch(told.strip())
    if match is None:
        raise click.BadParameter(
            'write it like "74 degC before" or "135 degC after 10 min"', param_hint="--heated"
        )
    minutes = match["minutes"]
    return Heated(
        to_c=read_told("--heated", match["to"], "temperature_c"),
        when="before" if match["when"] == "before" else "after",
        minutes=read_told("--heated", minutes, "duration_min") if minutes else 0.0,
    )


def read_tests(told: str) -> frozenset[DryTest]:
    """Read tests parted by commas."""
    words = {word.strip() for word in told.split(",")} - {""}
    for word in sorted(words.difference(DRY_TESTS)):
        raise click.BadParameter(did_you_mean(word, DRY_TESTS), param_hint="--tests")
    return frozenset(cast(Iterable[DryTest], words))


def read_mass(what: str, text: str) -> float:
    """Read a mass that an argument or option tells."""
    return read_told(what, text, "mass_g")


def read_told(what: str, text: str, quantity: str) -> float:
    """Read a quantity that an argument or option tells."""
    from builder.units import QuantityError, read_quantity

    try:
        return read_quantity(text.strip(), quantity)
    except QuantityError as error:
        raise click.BadParameter(f"{error.says}; {error.mend}", param_hint=what) from error


def heated_words(told: str) -> dict[str, str | float]:
    """Give a heat step as a file of the log has it."""
    heated, match = read_heated(told), _HEATED.fullmatch(told.strip())
    words: dict[str, str | float] = {"to": match["to"] if match else "", "when": heated.when}
    return {**words, "minutes": heated.minutes} if heated.minutes else words
