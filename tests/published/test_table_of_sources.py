"""What developers and kits are told about the sources is what the rows say now."""

from __future__ import annotations

import pytest

from builder.model.source import Known
from builder.pages.trip.origins.sources import CHECKED_NAME

from .rows import row_tests
from .table_of_sources import (
    DATA,
    TABLE,
    all_checked,
    as_sure_as_its_source,
    between_markers,
    data,
    table,
    words_of_formulas,
)

MEND = "run .venv/bin/python -m tests.published.table_of_sources and read the difference"


def test_the_data_of_the_page_tell_the_rows_of_today() -> None:
    found = DATA.read_text(encoding="utf-8")
    assert found == data(), f"{CHECKED_NAME} is out of date: {MEND}"


def test_the_table_for_developers_tells_the_rows_of_today() -> None:
    found = between_markers(TABLE.read_text(encoding="utf-8"))
    assert found == table(), f"DEVELOPERS.md is out of date: {MEND}"


def test_each_row_is_told_once() -> None:
    told = sum(sum(known.values()) for each in all_checked() for known in each.figures.values())
    assert told == sum(len(rows) for _, _, rows in row_tests())


def test_no_figure_is_told_as_read_where_its_source_was_not() -> None:
    for each in all_checked():
        if each.source.how in ("memory", "practice"):
            known = {how for counts in each.figures.values() for how in counts}
            assert not known & {"read", "copy"}, each.source.id


@pytest.mark.parametrize(
    ("known", "how", "told"),
    [
        ("copy", "memory", "memory"),
        ("memory", "copy", "memory"),
        ("copy", "read", "copy"),
        ("read", "read", "read"),
        ("calculated", "memory", "calculated"),
        ("memory", "practice", "memory"),
    ],
)
def test_a_figure_is_never_better_known_than_its_source(known: str, how: Known, told: str) -> None:
    assert as_sure_as_its_source(known, how) == told


def test_no_words_are_left_of_formulas_that_no_row_checks() -> None:
    checked = {formula for each in all_checked() for formula in each.figures}
    assert set(words_of_formulas()) == checked
