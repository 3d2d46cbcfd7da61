"""Pressure cookers, barometers and times by kind of food."""

from __future__ import annotations

from builder.formulas.air import altitude_m
from builder.formulas.pressure_cooking import (
    MOST_Z_K,
    Z_K,
    time_factor_of,
    time_factor_range,
)

from .published import Published, check, published


# Printed pressures of the standard atmosphere, to a metre.
@published(
    Published((898.75,), 1000.0, 1.0, "m", "us-atmosphere-1976", "898.75 hPa", "memory"),
    Published((794.95,), 2000.0, 1.0, "m", "us-atmosphere-1976", "794.95 hPa", "memory"),
    Published((701.08,), 3000.0, 1.0, "m", "us-atmosphere-1976", "701.08 hPa", "memory"),
    Published((540.20,), 5000.0, 1.0, "m", "us-atmosphere-1976", "540.20 hPa", "memory"),
)
def test_a_barometer_as_a_height(row: Published) -> None:
    check(row, altitude_m)


def _rate_ratio(kind: str, hot_c: float, cool_c: float) -> float:
    """How much quicker a kind of food cooks in the hotter water."""
    return time_factor_of(kind, cool_c) / time_factor_of(kind, hot_c)


# Potato: rates 0.8039 at 100, 0.6108 at 95, 0.4605 at 90, 0.3445 at 85 degC. z is a mean over
# 90 to 100 degC: 2 percent.
@published(
    *(
        Published(
            ("starchy-root", 100.0, cool),
            0.8039 / rate,
            0.02 * 0.8039 / rate,
            "times",
            "potato-cooking-rate",
            f"100 against {cool:.0f} °C",
            "calculated",
        )
        for cool, rate in ((95.0, 0.6108), (90.0, 0.4605), (85.0, 0.3445))
    ),
    # Rice, about 80 kJ/mol (18 to 19 kcal/mol): z of 32.5, so 2.03 for 10 K; 5 percent.
    Published(("grain", 100.0, 90.0), 2.03, 0.10, "times", "suzuki1976", "rice, 10 K", "memory"),
    Published(
        ("legume", 100.0, 90.0), 2.27, 0.06, "times", "mansfield1962", "z 28, 10 K", "calculated"
    ),
)
def test_times_by_kind(row: Published) -> None:
    check(row, _rate_ratio)


def _most_at(boiling_c: float) -> float:
    """Largest factor of the range."""
    return time_factor_range(boiling_c)[1]


def _least_at(boiling_c: float) -> float:
    """Smallest factor of the range."""
    return time_factor_range(boiling_c)[0]


# z of 20 and 40 by boiling points of heights, from 99.974 degC where ours begins at 99.97: 0.05
# percent, and half the last digit.
_BY_HEIGHT = (
    (1000, 96.649, 1.466, 1.211),
    (2000, 93.315, 2.153, 1.467),
    (3000, 89.972, 3.163, 1.778),
    (4000, 86.619, 4.653, 2.157),
    (5000, 83.255, 6.854, 2.618),
)


@published(
    *(
        Published(
            (t,), most, 5e-4 * most + 5e-4, "times", "mansfield1962", f"z 20, {h} m", "calculated"
        )
        for h, t, most, _ in _BY_HEIGHT
    )
)
def test_most(row: Published) -> None:
    check(row, _most_at)


@published(
    *(
        Published(
            (t,), least, 5e-4 * least + 5e-4, "times", "mansfield1962", f"z 40, {h} m", "calculated"
        )
        for h, t, _, least in _BY_HEIGHT
    )
)
def test_least(row: Published) -> None:
    check(row, _least_at)


def test_extension_advice_lies_in_the_range() -> None:
    """4 to 11 percent more time for each 1000 feet (Wyoming Extension, read in a copy).

    1000 feet are 1.0146 K. The lower end is that of foods that heat through rather than
    soften; its z is above ours.
    """
    per_1000_feet = [10.0 ** (1.0146 / z) - 1.0 for z in (*Z_K.values(), MOST_Z_K)]
    assert all(0.04 <= share <= 0.11 for share in per_1000_feet)
