"""The page of what was learned: of one's own batches, and of trips that are over."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.learned import Habit, Taught
from builder.pages.figures import Figures
from builder.pages.home.showing import figures_of_home
from builder.pages.pieces import Cell, Piece, Table, table, text
from builder.pages.trip.afterwards.learned import times_said
from builder.pages.words import DRIED
from builder.planning.home import HomePlan
from builder.planning.year import Experience
from builder.record import dataclass
from builder.speech import Speech, later

# What the weights are told of.
_FRESH_G = 1000.0
_TAUGHT: dict[Taught, str] = {
    "fuel": later("Fuel of {stove}"),
    "wood": later("Wood"),
    "water": later("Water to drink"),
    "food": later("Appetite"),
}


@dataclass(frozen=True, slots=True)
class LearnedPage:
    """A row for each food and way; None where nothing was dried yet."""

    fresh: str
    rows: Table | None
    habits: Table | None  # what trips taught


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
        figures.plain(_FRESH_G, "mass_g"),
        table(heads, rows, "lrrr") if rows else None,
        _habits(figures, plan.habits),
    )


def _habits(figures: Figures, habits: Sequence[Habit]) -> Table | None:
    """Give what trips taught: how much of each was used, for what was planned."""
    say = figures.say
    rows = [
        (
            text(say(_TAUGHT[each.what], stove=say.listed(map(say.name, each.stoves)))),
            text(times_said(figures, each.factor.factor)),
            text(say.count("{n} trip", "{n} trips", len(each.factor.trips))),
        )
        for each in habits
    ]
    return table((say("What"), say("Planned as"), say("Rests on")), rows, "lrr") if rows else None


def _food(say: Speech, each: Experience) -> Cell:
    return (Piece(each.name, strong=True), Piece(f", {say(DRIED[each.method])}"))


def _of(say: Speech, each: Experience) -> str:
    """Say on how many batches it rests."""
    return say.count("{n} batch", "{n} batches", each.learned.count)
