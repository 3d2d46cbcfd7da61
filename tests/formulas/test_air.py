"""Air pressure: edges, errors, laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.air import (
    HIGHEST_ALTITUDE_M,
    LEAST_PRESSURE_HPA,
    LOWEST_ALTITUDE_M,
    MOST_PRESSURE_HPA,
    SEA_LEVEL_PRESSURE_HPA,
    altitude_m,
    pressure_hpa,
)

altitudes = st.floats(LOWEST_ALTITUDE_M, HIGHEST_ALTITUDE_M)


def test_the_sea_has_the_standard_pressure_exactly() -> None:
    assert pressure_hpa(0.0) == SEA_LEVEL_PRESSURE_HPA
    assert altitude_m(SEA_LEVEL_PRESSURE_HPA) == 0.0


@pytest.mark.parametrize("altitude", [-500.001, 11000.001, math.nan, math.inf])
def test_heights_outside_the_layer_are_refused(altitude: float) -> None:
    with pytest.raises(ValueError, match=r"altitude is .* must be -500 to 11000 m"):
        pressure_hpa(altitude)


@pytest.mark.parametrize("pressure", [0.0, -1.0, 226.0, 1075.0, math.nan])
def test_pressures_outside_the_layer_are_refused(pressure: float) -> None:
    with pytest.raises(ValueError, match="air pressure is"):
        altitude_m(pressure)


def test_the_ends_of_the_range_go_there_and_back() -> None:
    assert altitude_m(LEAST_PRESSURE_HPA) == pytest.approx(HIGHEST_ALTITUDE_M, abs=1e-6)
    assert altitude_m(MOST_PRESSURE_HPA) == pytest.approx(LOWEST_ALTITUDE_M, abs=1e-6)


@given(altitudes)
def test_height_goes_there_and_back(altitude: float) -> None:
    assert altitude_m(pressure_hpa(altitude)) == pytest.approx(altitude, abs=1e-6)


@given(altitudes, st.floats(0.01, 500.0))
def test_pressure_falls_with_height(altitude: float, higher_by: float) -> None:
    higher = min(altitude + higher_by, HIGHEST_ALTITUDE_M)
    if higher > altitude:
        assert pressure_hpa(higher) < pressure_hpa(altitude)
