"""How pages tell what waits at a camp."""

from __future__ import annotations

from builder.model.kit import Carried, KitDepot
from builder.pages import words
from builder.pages.figures import Figures
from builder.pages.pieces import Cell, Piece, filled, text
from builder.speech import Speech


def waits_said(say: Speech, thing: Carried) -> Cell:
    """Say where a thing waits for who carries it from there."""
    if thing.from_camp is None:
        return ()
    return (Piece(" "), Piece(say("(take it at the camp of day {n})", n=thing.from_camp)))


def depot_said(figures: Figures, depot: KitDepot, at: str) -> Cell:
    """Say whose food waits at a camp, and what it weighs."""
    say = figures.say
    days = say.listed([words.numbered_day(say, number) for number in depot.holds])
    return filled(
        say("food of {days}, {mass}"),
        days=text(days),
        mass=figures.both(depot.mass_g, "mass_g", at),
    )
