"""Pressure cookers, barometers and times by kind of food."""

from __future__ import annotations

import pytest
from iapws import IAPWS97

from builder.formulas.air import pressure_hpa
from builder.formulas.pressure_cooking import (
    MOST_Z_K,
    Z_K,
    equivalent_altitude_m,
    gauge_boiling_point_c,
    station_pressure_hpa,
    time_factor_of,
    time_factor_range,
    z_from_activation_k,
)

from .published import Published, check, published


@published(
    *(
        Published(
            (gauge, h), t, 0.006, "°C", "iapws-if97", f"+{gauge:.0f} kPa at {h:.0f} m", "calculated"
        )
        for gauge, points in (
            (50.0, (111.61, 104.81, 100.71)),
            (80.0, (117.14, 111.37, 108.00)),
            (100.0, (120.42, 115.17, 112.15)),
        )
        for h, t in zip((0.0, 3000.0, 5000.0), points, strict=True)
    ),
    # 15 psi are 103.4 kPa; printed in whole degrees.
    Published((103.4, 0.0), 121.0, 0.5, "°C", "pressure-cooking-table", "15 psi", "copy"),
)
def test_boiling_in_a_cooker(row: Published) -> None:
    check(row, gauge_boiling_point_c)


@pytest.mark.parametrize("gauge_kpa", [0.0, 40.0, 80.0, 120.0])
@pytest.mark.parametrize("altitude_m", [0.0, 1500.0, 4000.0])
def test_boiling_in_a_cooker_agrees_with_the_library_iapws(
    gauge_kpa: float, altitude_m: float
) -> None:
    inside_mpa = pressure_hpa(altitude_m) / 1e4 + gauge_kpa / 1e3
    theirs_c = float(IAPWS97(P=inside_mpa, x=0).T) - 273.15
    assert gauge_boiling_point_c(gauge_kpa, altitude_m) == pytest.approx(theirs_c, abs=0.001)


# Printed pressures of the standard atmosphere, to a metre.
@published(
    Published((898.75,), 1000.0, 1.0, "m", "us-atmosphere-1976", "898.75 hPa", "memory"),
    Published((794.95,), 2000.0, 1.0, "m", "us-atmosphere-1976", "794.95 hPa", "memory"),
    Published((701.08,), 3000.0, 1.0, "m", "us-atmosphere-1976", "701.08 hPa", "memory"),
    Published((540.20,), 5000.0, 1.0, "m", "us-atmosphere-1976", "540.20 hPa", "memory"),
)
def test_a_barometer_as_a_height(row: Published) -> None:
    check(row, equivalent_altitude_m)


# Altimeter setting: 1 hPa is 8.23 m at the sea (27 feet), so 26.75 hPa are 223 m (2 percent).
def _shift_m(reduced_hpa: float) -> float:
    """How far a weather map's pressure moves the height of the sea."""
    return equivalent_altitude_m(station_pressure_hpa(reduced_hpa, 0.0))


@published(
    Published((1003.25,), 83.0, 2.0, "m", "icao-7488", "10 hPa low, 27 feet each", "memory"),
    Published((1023.25,), -83.0, 2.0, "m", "icao-7488", "10 hPa high, 27 feet each", "memory"),
)
def test_weather_moves_the_height(row: Published) -> None:
    check(row, _shift_m)


# 90 to 100 degC: one decimal. 15,000 cal/mol are 62.8 kJ/mol.
@published(
    *(
        Published((ea, 90.0, 100.0), z, 0.06, "K", source, f"{ea} kJ/mol", known)
        for ea, z, source, known in (
            (62.8, 41.3, "potato-cooking-rate", "calculated"),
            (92.0, 28.2, "mansfield1962", "calculated"),
            (124.0, 20.9, "mansfield1962", "calculated"),
            (150.0, 17.3, "mansfield1962", "calculated"),
        )
    )
)
def test_z_from_activation(row: Published) -> None:
    check(row, z_from_activation_k)


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


def test_z_of_roots_is_that_of_their_activation() -> None:
    assert Z_K["starchy-root"] == pytest.approx(z_from_activation_k(62.76, 90.0, 100.0), abs=0.1)
    assert Z_K["legume"] == pytest.approx(z_from_activation_k(92.0, 90.0, 100.0), abs=0.3)
    assert Z_K["grain"] == pytest.approx(z_from_activation_k(80.0, 90.0, 100.0), abs=0.6)


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


def test_a_cooker_takes_about_a_third_of_the_time() -> None:
    """One third, as pressure cooking pages say (read in a copy), at 15 psi and the sea."""
    boiling_c = gauge_boiling_point_c(103.4, 0.0)
    for kind in Z_K:
        assert 0.15 <= time_factor_of(kind, boiling_c) <= 0.40
