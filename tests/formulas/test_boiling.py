"""Boiling point and cooking time: edges, errors, laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import (
    LEAST_PRESSURE_HPA,
    MOST_PRESSURE_HPA,
    SEA_LEVEL_BOILING_POINT_C,
    boil_hold_min,
    boiling_point_c,
    time_factor,
)


def test_the_ends_of_the_range_are_the_triple_and_the_critical_point() -> None:
    assert boiling_point_c(LEAST_PRESSURE_HPA) == pytest.approx(0.0, abs=0.02)
    assert boiling_point_c(MOST_PRESSURE_HPA) == pytest.approx(647.096 - 273.15, abs=0.01)


@pytest.mark.parametrize("pressure", [0.0, 6.0, 220641.0, math.nan])
def test_pressures_outside_the_formula_are_refused(pressure: float) -> None:
    with pytest.raises(ValueError, match="pressure is"):
        boiling_point_c(pressure)


@given(st.floats(LEAST_PRESSURE_HPA, 200000.0), st.floats(1.001, 1.1))
def test_water_boils_hotter_under_more_pressure(pressure: float, factor: float) -> None:
    assert boiling_point_c(pressure * factor) > boiling_point_c(pressure)


def test_times_at_the_sea_stay_as_written() -> None:
    assert time_factor(SEA_LEVEL_BOILING_POINT_C) == 1.0
    assert time_factor(boiling_point_c(pressure_hpa(0.0))) == pytest.approx(1.0, abs=5e-4)


def test_33_degrees_less_take_ten_times_as_long() -> None:
    assert time_factor(SEA_LEVEL_BOILING_POINT_C - 33.0) == pytest.approx(10.0, rel=1e-12)


@pytest.mark.parametrize("boiling_point", [59.9, 130.1, math.nan])
def test_boiling_points_nobody_meets_are_refused(boiling_point: float) -> None:
    assert time_factor(60.0) > 1.0 > time_factor(130.0)
    with pytest.raises(ValueError, match="boiling point is"):
        time_factor(boiling_point)


@given(st.floats(-500.0, 10999.0), st.floats(1.0, 500.0))
def test_cooking_takes_longer_higher_up(altitude: float, higher_by: float) -> None:
    higher = min(altitude + higher_by, 11000.0)
    here, there = (time_factor(boiling_point_c(pressure_hpa(at))) for at in (altitude, higher))
    assert there > here


@pytest.mark.parametrize(
    ("altitude", "minutes"), [(-100.0, 1.0), (2000.0, 1.0), (2000.1, 3.0), (8000.0, 3.0)]
)
def test_water_to_drink_is_held_at_the_boil(altitude: float, minutes: float) -> None:
    assert boil_hold_min(altitude) == minutes


def test_a_camp_above_the_air_is_refused() -> None:
    with pytest.raises(ValueError, match="altitude is 12000 m"):
        boil_hold_min(12000.0)
