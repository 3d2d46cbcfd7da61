"""The cooking-time law against tables and against what cooks are told."""

from __future__ import annotations

import math

import pytest

from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import boiling_point_c, time_factor

from .published import Published, check, published


def _factor_at(altitude_m: float) -> float:
    """Time factor at a height in the standard atmosphere."""
    return time_factor(boiling_point_c(pressure_hpa(altitude_m)))


# The table counts from 99.974 degC, not 99.97: up to 0.001, and half of the last digit.
@published(
    *(
        Published(
            (float(h),), f, 0.0015, "times", "mansfield1962", f"z = 33 K, {h} m", "calculated"
        )
        for h, f in (
            (1000, 1.261),
            (1500, 1.417),
            (2000, 1.591),
            (2500, 1.788),
            (3000, 2.010),
            (4000, 2.539),
            (5000, 3.211),
        )
    )
)
def test_time_factor_is_ten_for_33_kelvin(row: Published) -> None:
    check(row, _factor_at)


@pytest.mark.parametrize("feet", range(0, 15000, 1000))
def test_each_1000_ft_adds_what_the_extension_service_says(feet: int) -> None:
    """University of Wyoming Extension: 4 to 11 percent longer for each 1000 ft (a copy)."""
    step = _factor_at((feet + 1000) * 0.3048) / _factor_at(feet * 0.3048)
    assert 1.04 <= step <= 1.11


def test_potatoes_in_water_of_90_degrees_do_not_take_longer_than_the_law_says() -> None:
    """Measured potato rate, 15.00 kcal/mol (abstract): 1.746 times as long, so z = 41 K.

    The law with z = 33 K is on the safe side of it, by no more than a quarter.
    """
    gas_constant_cal = 1.987
    measured = math.exp(1.5e4 / gas_constant_cal * (1.0 / 363.15 - 1.0 / 373.15))
    assert abs(measured - 1.746) <= 0.0005
    assert measured <= time_factor(90.0) / time_factor(100.0 - 0.03) <= 1.25 * measured
