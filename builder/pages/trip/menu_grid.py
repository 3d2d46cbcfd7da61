"""The menu as a grid: a row for each day, a column for each meal."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.kit import KitDay
from builder.model.recipe import MealName
from builder.pages import words
from builder.pages.pieces import Cell, Mark, Piece, Table, link, table, text
from builder.pages.trip.addresses import day_path
from builder.speech import Speech


def menu_grid(say: Speech, names: Sequence[MealName], rows: Sequence[tuple[Cell, ...]]) -> Table:
    """Give the grid of some meals, a row for each day with its cells."""
    return table((say("Day"), *(say(words.MEALS[name]) for name in names)), rows)


def day_cell(say: Speech, day: KitDay, on: Mark | None = None) -> Cell:
    """Name a day by a link, with its date, which may be marked for the script of the page."""
    name = link(words.day_name(say, day), day_path(day))
    if not day.date:
        return name
    return (*name, Piece(" "), Piece(say.short_date(day.date), small=True, mark=on))


def meal_cell(
    say: Speech, name: MealName, foods: Cell, told: tuple[tuple[str, str], ...] = ()
) -> Cell:
    """Give what is eaten at a meal, with what scripts are told of it.

    The name of the meal is for narrow screens, where the heads are not seen.
    """
    if not foods:
        return text("–")
    return (Piece(say(words.MEALS[name]), mark=Mark("which", told)), Piece(" "), *foods)
