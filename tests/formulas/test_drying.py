"""Drying: edges, errors, laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from builder.formulas.drying import (
    METHODS,
    MOST_WATER_SHARE,
    dried_mass_g,
    dry_enough_share,
    least_residual_share,
    moisture_ratio,
    rehydration_water_ml,
    residual_share,
    solids_factor,
    usual_residual_share,
    water_share_from,
)

masses = st.floats(1.0, 20000.0)
waters = st.floats(0.02, MOST_WATER_SHARE)
parts = st.floats(0.0, 0.99)


@given(masses, waters, parts)
def test_water_and_solids_are_conserved(fresh_g: float, water: float, part: float) -> None:
    left = water * part
    dried_g = dried_mass_g(fresh_g, water, left)
    assert dried_g * (1 - left) == pytest.approx(fresh_g * (1 - water), rel=1e-9)
    assert dried_g + rehydration_water_ml(dried_g, water, left) == pytest.approx(fresh_g, rel=1e-9)


@given(masses, waters, parts)
def test_two_weighings_tell_what_is_left(fresh_g: float, water: float, part: float) -> None:
    left = water * part
    dried_g = dried_mass_g(fresh_g, water, left)
    assume(dried_g < fresh_g)
    assert residual_share(fresh_g, dried_g, water) == pytest.approx(left, abs=1e-9)
    assert water_share_from(fresh_g, dried_g, left) == pytest.approx(water, abs=1e-9)


@given(masses, waters, parts, parts)
def test_drier_is_lighter(fresh_g: float, water: float, one: float, other: float) -> None:
    drier, wetter = sorted((water * one, water * other))
    assert dried_mass_g(fresh_g, water, drier) <= dried_mass_g(fresh_g, water, wetter) + 1e-9


def test_nothing_lost_is_a_factor_of_one() -> None:
    assert solids_factor(0.8, 0.8) == 1.0
    assert rehydration_water_ml(100.0, 0.8, 0.8) == 0.0
    assert rehydration_water_ml(0.0, 0.8, 0.1) == 0.0
    assert dried_mass_g(0.0, 0.8, 0.1) == 0.0


def test_a_batch_wetter_than_listed_comes_out_below_zero() -> None:
    assert residual_share(1000.0, 100.0, 0.85) == pytest.approx(-0.5)


@pytest.mark.parametrize(("fresh", "dried"), [(100.0, 100.0), (100.0, 120.0)])
def test_a_dried_mass_that_is_not_less_is_refused(fresh: float, dried: float) -> None:
    for call in (residual_share, water_share_from):
        with pytest.raises(ValueError, match="it must be less than the fresh 100 g"):
            call(fresh, dried, 0.5)


@pytest.mark.parametrize(
    ("fresh", "dried", "says"),
    [
        (0.0, -1.0, "^fresh mass is 0 g; it must be more than 0 g$"),
        (100.0, 0.0, "^dried mass is 0 g; it must be more than 0 g$"),
        (math.nan, 1.0, "^fresh mass is nan g; it must be more than 0 g$"),
    ],
)
def test_weighings_of_nothing_are_refused(fresh: float, dried: float, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        residual_share(fresh, dried, 0.5)


def test_a_loss_no_food_can_have_is_refused() -> None:
    assert water_share_from(1000.0, 21.0, 0.02) <= MOST_WATER_SHARE
    with pytest.raises(ValueError, match="no food has more than 98% water"):
        water_share_from(1000.0, 20.0, 0.02)


@pytest.mark.parametrize("water", [-0.01, 0.981, 1.0, 85.0, math.nan])
def test_water_shares_no_food_has_are_refused(water: float) -> None:
    says = "water share before drying"
    with pytest.raises(ValueError, match=says):
        dried_mass_g(100.0, water, 0.0)
    with pytest.raises(ValueError, match=says):
        residual_share(100.0, 50.0, water)
    with pytest.raises(ValueError, match=says):
        rehydration_water_ml(100.0, water, 0.0)


@pytest.mark.parametrize("left", [-0.01, 0.81, math.nan])
def test_food_does_not_get_wetter_by_drying(left: float) -> None:
    with pytest.raises(ValueError, match="water share after drying"):
        solids_factor(0.8, left)


@pytest.mark.parametrize(
    ("method", "kind", "usual", "enough"),
    [
        ("freeze-dryer", "fruit", 0.02, 0.05),
        ("freeze-dryer", "meat", 0.02, 0.05),
        ("dehydrator", "fruit", 0.20, 0.20),
        ("sun", "fruit", 0.20, 0.20),
        ("oven", "vegetable", 0.10, 0.10),
        ("dehydrator", "meat", 0.10, 0.10),
        ("oven", "grain", 0.10, 0.13),
        ("dehydrator", "legume", 0.10, 0.13),
        ("freeze-dryer", "grain", 0.02, 0.05),
        ("dehydrator", "egg", 0.10, 0.05),
        ("oven", "dairy", 0.10, 0.05),
    ],
)
def test_targets(method: str, kind: str, usual: float, enough: float) -> None:
    assert usual_residual_share(method, kind) == usual
    assert dry_enough_share(method, kind) == enough


@pytest.mark.parametrize("method", METHODS)
def test_the_least_left_is_never_above_the_usual(method: str) -> None:
    assert least_residual_share(method) <= usual_residual_share(method, "herb")
    assert least_residual_share(method) == (0.02 if method == "freeze-dryer" else 0.0)


def test_the_wettest_food_there_is_can_be_dried() -> None:
    """2 g of solids in 100 g fresh; 20 g dried with 18 g of water left hold as much."""
    assert water_share_from(100.0, 20.0, 0.90) == 0.98


def test_an_unknown_method_is_refused() -> None:
    says = "drying method 'microwave' is not known"
    with pytest.raises(ValueError, match=says):
        usual_residual_share("microwave", "fruit")
    with pytest.raises(ValueError, match=says):
        least_residual_share("microwave")
    with pytest.raises(ValueError, match=says):
        dry_enough_share("microwave", "fruit")


@given(st.floats(0.0, 3000.0), st.floats(1e-5, 0.05), st.floats(0.5, 1.5))
def test_drying_goes_from_one_towards_none(minutes: float, rate: float, exponent: float) -> None:
    assert moisture_ratio(0.0, rate, exponent) == 1.0
    now = moisture_ratio(minutes, rate, exponent)
    assert 0.0 <= moisture_ratio(minutes + 1.0, rate, exponent) <= now <= 1.0


@given(st.floats(0.0, 1000.0), st.floats(0.0, 1000.0), st.floats(1e-5, 0.01))
def test_lewis_does_not_care_where_the_clock_starts(one: float, other: float, rate: float) -> None:
    together = moisture_ratio(one, rate) * moisture_ratio(other, rate)
    assert moisture_ratio(one + other, rate) == pytest.approx(together, rel=1e-9)


@pytest.mark.parametrize(
    ("minutes", "rate", "exponent"),
    [(-1.0, 0.005, 1.0), (60.0, 0.0, 1.0), (60.0, 0.005, 0.0), (60.0, 0.005, 5.1)],
)
def test_curves_that_cannot_be_are_refused(minutes: float, rate: float, exponent: float) -> None:
    with pytest.raises(ValueError, match="must be"):
        moisture_ratio(minutes, rate, exponent)
