"""Says what earlier trips taught, where a page tells what the plan makes of it."""

from __future__ import annotations

from builder.model.kit import Kit
from builder.model.learned import Factor, Taught
from builder.pages.figures import Figures
from builder.pages.pieces import Cell, Piece, filled, text
from builder.speech import later

_NEEDS_NO_LESS = 1.0
_SAID: dict[Taught, str] = {
    "fuel": later("Your own trips with this stove burnt {times} as much as was planned: {trips}."),
    "wood": later("Your own fires burnt {times} as much wood as was planned: {trips}."),
    "water": later("On your own trips {times} as much was drunk as was planned: {trips}."),
    "food": later("On your own trips {times} as much was eaten as was planned: {trips}."),
}


def learned_cells(kit: Kit, figures: Figures, *what: Taught) -> tuple[Cell, ...]:
    """Say what was learned of some things, and what is made of it."""
    return tuple(
        _learned(figures, each, factor)
        for each in what
        if (factor := getattr(kit.learned, each)) is not None
    )


def _learned(figures: Figures, what: Taught, factor: Factor) -> Cell:
    say = figures.say
    times = (Piece(times_said(figures, factor.factor), href=figures.how(f"learned.{what}.factor")),)
    said = filled(
        say(_SAID[what]),
        times=times,
        trips=text(say.count("from {n} trip", "from {n} trips", len(factor.trips))),
    )
    return (*said, Piece(" "), Piece(_made_of_it(figures, what, factor)))


def _made_of_it(figures: Figures, what: Taught, factor: Factor) -> str:
    say = figures.say
    if what == "food":
        return say("The menu is as it was written.")
    if what == "water" and factor.factor <= _NEEDS_NO_LESS:
        return say("What to drink stays what bodies need.")
    if what == "fuel" and factor.factor < _NEEDS_NO_LESS:
        return say("This plan counts with it. No less fuel is taken than likely without it.")
    return say("This plan counts with it.")


def times_said(figures: Figures, times: float) -> str:
    """Say how many times as much: `1.12 times`."""
    return figures.say("{n} times", n=figures.say.number(times, 2))
