"""The page of what was learned: dried weight by the table, by one's own batches, as planned."""

from __future__ import annotations

from dataclasses import dataclass

from builder.pages.home.showing import figures_of_home
from builder.pages.pieces import Cell, Piece, Table, table, text
from builder.pages.words import DRIED
from builder.planning.at_home import Experience
from builder.planning.home import HomePlan
from builder.speech import Speech

# What the weights are told of.
_FRESH_G = 1000.0


@dataclass(frozen=True, slots=True)
class LearnedPage:
    """A row for each food and way; None where nothing was dried yet."""

    fresh: str
    rows: Table | None


def learned_page(plan: HomePlan) -> LearnedPage:
    """Give the page of what was learned."""
    figures = figures_of_home(plan.home)
    say = figures.say

    def mass(ratio: float) -> Cell:
        return text(figures.plain(ratio * _FRESH_G, "mass_g"))

    rows = [
        (
            _food(say, each),
            mass(each.learned.table_ratio),
            (*mass(each.learned.own_ratio or 0.0), Piece(" "), Piece(_of(say, each), small=True)),
            mass(each.learned.ratio),
        )
        for each in plan.learned
    ]
    heads = (say("Food"), say("By the table"), say("Your own"), say("Planned"))
    return LearnedPage(
        figures.plain(_FRESH_G, "mass_g"), table(heads, rows, "lrrr") if rows else None
    )


def _food(say: Speech, each: Experience) -> Cell:
    return (Piece(each.name, strong=True), Piece(f", {say(DRIED[each.method])}"))


def _of(say: Speech, each: Experience) -> str:
    """Say on how many batches it rests."""
    return say.count("{n} batch", "{n} batches", each.learned.count)
