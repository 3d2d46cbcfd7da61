"""Drying in warm air: every row, errors, laws."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from builder.formulas import heat_drying
from builder.formulas.heat_drying import (
    AIR_C,
    BOIL_MIN,
    HOURS,
    IN_HALVES,
    KIND_HOURS,
    NOT_BLANCHED,
    PIECES_MM,
    STEAM_MIN,
    WHOLE,
)
from builder.model.food import DRY_AS
from tests.published.published import source_ids

TABLES = (AIR_C, PIECES_MM, HOURS, KIND_HOURS, STEAM_MIN, BOIL_MIN)


@pytest.mark.parametrize("table", TABLES)
def test_each_row_is_a_range_with_a_source_of_the_list(table: dict[str, heat_drying.Row]) -> None:
    for least, most, source in table.values():
        assert 0 < least <= most
        assert source in source_ids()


def test_names_of_foods_are_those_that_a_food_may_tell() -> None:
    named = set(HOURS) | set(STEAM_MIN) | set(BOIL_MIN) | NOT_BLANCHED | IN_HALVES | WHOLE
    assert named == set(DRY_AS)


def test_what_is_blanched_is_never_named_as_not_to_be() -> None:
    assert not NOT_BLANCHED & (set(STEAM_MIN) | set(BOIL_MIN))
    assert set(BOIL_MIN) <= set(STEAM_MIN)


@pytest.mark.parametrize(
    ("call", "says"),
    [],
)
def test_what_is_not_known_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
