"""The smallest things a page is made of."""

from __future__ import annotations

import pytest

from builder.pages.pieces import Mark, Piece, filled, lines, stacked, table, text

HEAT = (Piece("72 °C", strong=True), Piece(" "), Piece("162 °F", small=True))


def test_a_blank_is_filled_with_runs_that_keep_what_they_are() -> None:
    assert filled("At least {heat}. Less? Cook on.", heat=HEAT) == (
        Piece("At least "),
        *HEAT,
        Piece(". Less? Cook on."),
    )


def test_blanks_stand_where_the_language_puts_them() -> None:
    one, two = text("1"), text("2")
    assert filled("{two}, {one}", one=one, two=two) == (*two, Piece(", "), *one)


def test_small_words_leave_the_spaces_around_them_plain() -> None:
    assert filled("{some} of all {many}:", small=True, some=text("1"), many=text("9")) == (
        Piece("1"),
        Piece(" "),
        Piece("of all", small=True),
        Piece(" "),
        Piece("9"),
        Piece(":", small=True),
    )


def test_what_fills_a_blank_is_not_filled_itself() -> None:
    assert filled("In {pot}.", pot=text("the {old} pot")) == (
        Piece("In "),
        Piece("the {old} pot"),
        Piece("."),
    )


def test_a_blank_without_a_value_is_a_failure() -> None:
    with pytest.raises(KeyError):
        filled("In {pot}.")


def test_small_print_breaks_only_where_its_lines_end() -> None:
    assert lines("your own test:\n1 l from 9 °C") == (
        Piece(" "),
        Piece("your own test:", small=True),
        Piece(" "),
        Piece("1 l from 9 °C", small=True),
    )


def test_a_table_that_stacks_names_each_cells_column_where_its_head_is_not_seen() -> None:
    told = stacked(
        table(("Day", "Ash", "All"), [(text("Day 1"), text("3 kg"), text("9 kg"))], "lrr")
    )
    (row,) = told.rows
    assert told.stacks and row[0] == text("Day 1")
    for cell, head in zip(row[1:], ("Ash", "All"), strict=True):
        assert cell[0].text == head
        # Read once where the heads are seen, and found once by the search.
        assert cell[0].mark == Mark("which", (("search-exclude", "1"),))
