"""Packing and storing: edges, errors, laws."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.keeping import months_kept, void_oxygen_ml
from builder.formulas.packing import (
    ABSORBER_SIZES_ML,
    absorber_size_ml,
    days_left,
    life_used,
    pack_oxygen_ml,
    solid_volume_ml,
)

heights = st.floats(-400.0, 6000.0)
places = st.lists(st.tuples(st.floats(0.0, 200.0), st.floats(-30.0, 40.0)), max_size=4)


def test_dry_solids_are_denser_than_water() -> None:
    assert solid_volume_ml(150.0, 0.0) == 100.0
    assert solid_volume_ml(150.0, 1.0) == 150.0
    assert solid_volume_ml(0.0, 0.1) == 0.0


def test_at_the_sea_a_pack_holds_the_oxygen_of_its_void() -> None:
    assert pack_oxygen_ml(1000.0, 200.0) == void_oxygen_ml(1000.0, 200.0)


@given(heights, heights)
def test_packed_higher_up_there_is_less_oxygen(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert pack_oxygen_ml(1000.0, 100.0, high) <= pack_oxygen_ml(1000.0, 100.0, low)


@given(st.floats(0.0, 2000.0))
def test_the_size_in_trade_is_the_smallest_that_does(oxygen: float) -> None:
    size = absorber_size_ml(oxygen)
    assert size >= oxygen
    assert all(other < oxygen for other in ABSORBER_SIZES_ML if other < size)


def used(table_months: float, stays: list[tuple[float, float]]) -> float:
    """Share used up in several places."""
    return sum(life_used(table_months, days, kept_at_c) for days, kept_at_c in stays)


def test_life_used_in_one_place_is_days_over_the_rule() -> None:
    days = months_kept(6.0, 26.7) * 365.25 / 12.0
    assert used(6.0, [(days, 26.7)]) == pytest.approx(1.0)
    assert used(6.0, [(days / 2.0, 26.7)]) == pytest.approx(0.5)
    assert used(6.0, []) == 0.0


@given(places, places)
def test_stays_add_up_in_any_order(
    one: list[tuple[float, float]], other: list[tuple[float, float]]
) -> None:
    whole = used(12.0, [*one, *other])
    assert whole == pytest.approx(used(12.0, one) + used(12.0, other))
    assert whole == pytest.approx(used(12.0, [*other, *one]))


@given(st.floats(0.0, 100.0), st.floats(-10.0, 39.0), st.floats(0.0, 1.0))
def test_warmer_never_keeps_longer(days: float, kept: float, warmer: float) -> None:
    assert used(6.0, [(days, kept)]) <= used(6.0, [(days, kept + warmer)]) + 1e-12


def test_cold_gives_nothing_back_unless_it_freezes() -> None:
    assert used(6.0, [(30.0, 4.0)]) == used(6.0, [(30.0, 15.6)])
    assert used(6.0, [(30.0, -18.0)]) < 0.2 * used(6.0, [(30.0, 15.6)])


@given(places, st.floats(-30.0, 40.0))
def test_what_is_left_uses_up_the_rest(stays: list[tuple[float, float]], kept: float) -> None:
    left = days_left(6.0, used(6.0, stays), kept)
    if left == 0.0:
        assert used(6.0, stays) >= 1.0 - 1e-12
    else:
        assert used(6.0, [*stays, (left, kept)]) == pytest.approx(1.0)


def test_nothing_is_left_after_the_best_before_day() -> None:
    assert days_left(1.0, used(1.0, [(400.0, 20.0)]), 10.0) == 0.0


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: solid_volume_ml(-1.0, 0.1), "mass of the food is -1 g"),
        (lambda: solid_volume_ml(1.0, 1.1), "water share is 1.1"),
        (lambda: pack_oxygen_ml(100.0, 101.0), "volume of the food is 101 ml"),
        (lambda: pack_oxygen_ml(100.0, 1.0, 12000.0), "altitude is 12000 m"),
        (lambda: absorber_size_ml(-1.0), "oxygen in the pack is -1 ml"),
        (lambda: absorber_size_ml(2001.0), "oxygen in the pack is 2001 ml"),
        (lambda: life_used(0.0, 1.0, 20.0), "months of the table is 0"),
        (lambda: life_used(6.0, -1.0, 20.0), "days in a place is -1 d"),
        (lambda: life_used(6.0, 1.0, 41.0), "temperature of the store is 41 °C"),
        (lambda: life_used(6.0, math.nan, 20.0), "days in a place is nan"),
        (lambda: days_left(6.0, -0.1, 20.0), "share used up is -0.1"),
        (lambda: days_left(6.0, 0.0, 41.0), "temperature of the store is 41 °C"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
