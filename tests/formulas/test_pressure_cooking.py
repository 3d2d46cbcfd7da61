"""Pressure and barometers in cooking: edges, errors, laws."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.air import altitude_m, pressure_hpa
from builder.formulas.boiling import boiling_point_c, time_factor
from builder.formulas.pressure_cooking import (
    ANIMAL_KINDS,
    Z_K,
    equivalent_altitude_m,
    gauge_boiling_point_c,
    station_pressure_hpa,
    time_factor_of,
    time_factor_range,
    z_from_activation_k,
)

heights = st.floats(0.0, 6000.0)
boilings = st.floats(75.0, 125.0)


@given(heights)
def test_without_pressure_a_cooker_is_a_pot(height: float) -> None:
    assert gauge_boiling_point_c(0.0, height) == boiling_point_c(pressure_hpa(height))


@given(heights, heights, st.floats(0.0, 150.0))
def test_higher_up_a_cooker_never_boils_hotter(one: float, other: float, gauge: float) -> None:
    low, high = sorted((one, other))
    assert gauge_boiling_point_c(gauge, high) <= gauge_boiling_point_c(gauge, low)


@given(heights, st.floats(0.0, 100.0))
def test_pressure_gives_back_the_height(height: float, gauge: float) -> None:
    """A cooker boils as a pot would at the height with the sum of both pressures."""
    inside = pressure_hpa(height) + gauge * 10.0
    assert gauge_boiling_point_c(gauge, height) == boiling_point_c(inside)


@given(heights)
def test_a_standard_day_has_standard_pressure(height: float) -> None:
    assert station_pressure_hpa(1013.25, height) == pytest.approx(pressure_hpa(height), rel=1e-9)


@given(st.floats(900.0, 1060.0))
def test_at_the_sea_both_pressures_are_one(reduced: float) -> None:
    assert station_pressure_hpa(reduced, 0.0) == pytest.approx(reduced, rel=1e-9)


@given(st.floats(300.0, 1060.0))
def test_a_barometer_is_a_height(station: float) -> None:
    assert pressure_hpa(equivalent_altitude_m(station)) == pytest.approx(station)
    assert equivalent_altitude_m(station) == altitude_m(station)


def test_low_pressure_makes_a_camp_higher() -> None:
    low, high = (equivalent_altitude_m(station_pressure_hpa(p, 2000.0)) for p in (980.0, 1040.0))
    assert high < 2000.0 < low
    assert low - high == pytest.approx(500.0, abs=50.0)


@given(boilings, st.sampled_from(sorted(Z_K)))
def test_longer_where_it_boils_cooler(boiling: float, kind: str) -> None:
    factor = time_factor_of(kind, boiling)
    assert (factor > 1.0) == (boiling < 99.97) or factor == 1.0
    least, most = time_factor_range(boiling)
    assert least <= most
    if Z_K[kind] <= 40.0:
        assert least - 1e-12 <= factor <= most + 1e-12


@given(boilings)
def test_vegetables_go_by_the_usual_factor(boiling: float) -> None:
    assert time_factor_of("vegetable", boiling) == time_factor(boiling)
    assert time_factor_of("fruit", boiling) == time_factor(boiling)


@pytest.mark.parametrize("kind", ANIMAL_KINDS)
def test_animal_foods_have_no_factor(kind: str) -> None:
    with pytest.raises(ValueError, match=f"{kind} has no factor .* temperature in the middle"):
        time_factor_of(kind, 90.0)


def test_ten_z_are_a_factor_of_ten() -> None:
    assert time_factor_range(99.97 - 20.0) == pytest.approx((10.0**0.5, 10.0))
    assert time_factor_range(99.97 + 20.0) == pytest.approx((0.1, 10.0**-0.5))


@given(st.floats(20.0, 200.0))
def test_z_and_activation_are_inverse(activation: float) -> None:
    assert z_from_activation_k(activation, 90.0, 100.0) * activation == pytest.approx(
        z_from_activation_k(1.0, 90.0, 100.0)
    )


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: gauge_boiling_point_c(-1.0, 0.0), "pressure of the cooker is -1 kPa"),
        (lambda: gauge_boiling_point_c(151.0, 0.0), "pressure of the cooker is 151 kPa"),
        (lambda: gauge_boiling_point_c(80.0, 12000.0), "altitude is 12000 m"),
        (lambda: station_pressure_hpa(849.0, 0.0), "weather report is 849 hPa"),
        (lambda: station_pressure_hpa(1075.0, 0.0), "weather report is 1075 hPa"),
        (lambda: station_pressure_hpa(1013.0, 9001.0), "altitude is 9001 m"),
        (lambda: station_pressure_hpa(1013.0, -501.0), "altitude is -501 m"),
        (lambda: equivalent_altitude_m(100.0), "air pressure is 100 hPa"),
        (lambda: z_from_activation_k(0.0, 90.0, 100.0), "energy of activation is 0"),
        (lambda: z_from_activation_k(1.0, -1.0, 100.0), "lower temperature is -1 °C"),
        (lambda: z_from_activation_k(1.0, 90.0, 89.0), "upper temperature is 89 °C"),
        (lambda: time_factor_of("herb", 90.0), "kind of food 'herb' is not known"),
        (lambda: time_factor_of("legume", 59.0), "boiling point is 59 °C"),
        (lambda: time_factor_range(131.0), "boiling point is 131 °C"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
