"""What the spread of listed water leaves open: edges, errors, laws."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.drying import residual_share
from builder.formulas.dryness import (
    SPREADS,
    USUAL_SPREAD_SHARE,
    dry_by_weight,
    least_solids_share,
    odd_solids_share,
    residual_off_share,
    solids_of_listed,
)


def residual_range(
    fresh_g: float, dried_g: float, water_share: float, spread_share: float
) -> tuple[float, float]:
    return (
        residual_off_share(fresh_g, dried_g, water_share, spread_share, -SPREADS),
        residual_off_share(fresh_g, dried_g, water_share, spread_share, SPREADS),
    )


def test_the_spread_that_is_taken_where_none_is_told() -> None:
    assert USUAL_SPREAD_SHARE == 0.015


def test_two_spreads_up_and_down() -> None:
    # 1000 g with 60 % water: 370 to 430 g of solids in 430 g.
    low, high = residual_range(1000.0, 430.0, 0.60, 0.015)
    assert low == pytest.approx(0.0, abs=1e-12)
    assert high == pytest.approx(60.0 / 430.0)


@given(st.floats(0.05, 0.9), st.floats(0.0, 0.04), st.floats(0.2, 0.99))
def test_the_likely_moisture_lies_between(water: float, spread: float, part: float) -> None:
    low, high = residual_range(1000.0, 1000.0 * part, water, spread)
    assert low <= residual_share(1000.0, 1000.0 * part, water) <= high


def test_no_spread_leaves_nothing_open() -> None:
    low, high = residual_range(1000.0, 300.0, 0.75, 0.0)
    assert low == high == pytest.approx(1.0 - 250.0 / 300.0)


def test_listed_water_is_never_more_than_food_can_hold_nor_less_than_nothing() -> None:
    assert residual_range(100.0, 50.0, 0.97, 0.03)[1] == pytest.approx(1.0 - 2.0 / 50.0)
    assert residual_range(100.0, 50.0, 0.01, 0.03)[0] == pytest.approx(1.0 - 100.0 / 50.0)


def test_a_load_half_as_solid_as_listed() -> None:
    assert solids_of_listed(1000.0, 50.0, 0.9, 0.0) == pytest.approx(0.5)
    assert solids_of_listed(1000.0, 50.0, 0.9, 0.02) == pytest.approx(0.49)


def test_where_weights_are_odd_and_where_they_cannot_be() -> None:
    assert odd_solids_share(0.90, 0.015) == pytest.approx(0.7)  # 3 points of 10
    assert least_solids_share(0.90, 0.015) == pytest.approx(0.4)  # 6 points of 10
    assert least_solids_share(0.60, 0.015) == 0.5  # 6 points of 40 would be 0.85
    assert least_solids_share(0.97, 0.015) < 0.0


@pytest.mark.parametrize(
    ("low", "high", "dry"),
    [(0.05, 0.10, 1.0), (0.05, 0.1001, 0.0), (0.10, 0.15, 0.0), (0.1001, 0.15, -1.0)],
)
def test_weight_alone_decides_where_both_ends_lie_on_one_side(
    low: float, high: float, dry: float
) -> None:
    assert dry_by_weight(low, high, 0.10) == dry
