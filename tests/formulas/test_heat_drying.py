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
    air_range_c,
    blanching_range_min,
    hours_range,
    pieces_range_mm,
    sun_dries,
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


def test_a_food_goes_before_its_kind() -> None:
    assert hours_range("fruit", "apricot") == (24.0, 36.0)
    assert hours_range("fruit", "quince") == hours_range("fruit") == (6.0, 36.0)
    assert hours_range("jerky") == (4.0, 10.0)


@pytest.mark.parametrize(
    ("kind", "low_c", "high_c"),
    [
        ("fruit", 54.4, 60.0),
        ("vegetable", 54.4, 60.0),
        ("herb", 35.0, 46.1),
        ("jerky", 54.4, 60.0),
        ("cooked-meat", 60.0, 70.0),
        ("legume", 54.4, 60.0),
        ("grain", 54.4, 60.0),
        ("meal", 54.4, 60.0),
    ],
)
def test_air(kind: str, low_c: float, high_c: float) -> None:
    assert air_range_c(kind) == (low_c, high_c)


@pytest.mark.parametrize("kind", ["fruit", "vegetable", "jerky", "cooked-meat", "meal"])
def test_pieces_are_thin(kind: str) -> None:
    assert pieces_range_mm(kind) == (3.0, 6.0)


def test_high_up_blanching_takes_a_minute_more() -> None:
    assert blanching_range_min("carrot", "steam", 1524.0) == (3.0, 4.0)
    assert blanching_range_min("carrot", "steam", 1525.0) == (4.0, 5.0)
    assert blanching_range_min("carrot", "boil") == (3.0, 3.5)


@pytest.mark.parametrize(
    ("kind", "air_c", "humidity", "dries"),
    [
        ("fruit", 30.0, 0.59, True),
        ("fruit", 29.9, 0.59, False),
        ("fruit", 30.0, 0.60, False),
        ("vegetable", 40.0, 0.2, False),
        ("meat", 40.0, 0.2, False),
    ],
)
def test_the_sun_dries_only_fruit_on_warm_dry_days(
    kind: str, air_c: float, humidity: float, dries: bool
) -> None:
    assert sun_dries(kind, air_c, humidity) is dries


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: air_range_c("tea"), "^kind to dry 'tea' is not known"),
        (lambda: pieces_range_mm("herb"), "^kind to cut 'herb' is not known"),
        (lambda: hours_range("tea", "apple"), "^kind to dry 'tea' is not known"),
        (lambda: blanching_range_min("carrot", "fry"), "^way to blanch 'fry' is not"),
        (lambda: blanching_range_min("onion", "boil"), "^vegetable to boil 'onion'"),
        (lambda: blanching_range_min("sweetcorn", "boil"), "vegetable to boil"),
        (lambda: blanching_range_min("carrot", "boil", 9001.0), "altitude"),
        (lambda: blanching_range_min("carrot", "boil", -501.0), "altitude"),
        (lambda: sun_dries("fruit", 61.0, 0.5), "air temperature"),
        (lambda: sun_dries("fruit", -91.0, 0.5), "air temperature"),
        (lambda: sun_dries("fruit", 30.0, 1.1), "humidity"),
        (lambda: sun_dries("fruit", 30.0, -0.1), "humidity"),
    ],
)
def test_what_is_not_known_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
