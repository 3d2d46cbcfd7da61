"""Ice, its pressure and heat, against tables and the library iapws; freeze-drying times."""

from __future__ import annotations

import pytest
from iapws import _iapws as iapws
from scipy.optimize import brentq

from builder.formulas.freeze_drying import (
    freezing_heat_kj,
    hours_range,
    ice_pressure_pa,
    ice_temperature_c,
    load_of_limit,
    sublimation_floor_kj,
    sublimation_kj_kg,
)

from .published import Published, check, published

# Murphy and Koop: 0.01 percent; the IAPWS release differs from it by up to 0.03 percent.
_ICE = (
    (0.0, 611.154, 611.154),
    (-10.0, 259.892, 259.874),
    (-20.0, 103.253, 103.239),
    (-30.0, 38.012, 38.005),
    (-40.0, 12.844, 12.841),
    (-50.0, 3.939, 3.938),
)


@published(
    *(
        Published((t,), p, 1.2e-4 * p, "Pa", "murphy-koop2005", f"ice, {t:.0f} °C", "calculated")
        for t, p, _ in _ICE
    ),
    *(
        Published((t,), p, 4e-4 * p, "Pa", "iapws-ice", f"ice, {t:.0f} °C", "calculated")
        for t, _, p in _ICE
    ),
)
def test_pressure_over_ice(row: Published) -> None:
    check(row, ice_pressure_pa)


# Buck 1996 for ice: 0.05 percent from the others at -20 degC.
@published(
    Published((-20.0,), 103.286, 0.06, "Pa", "buck1996", "ice, -20 °C", "calculated"),
)
def test_pressure_over_ice_by_another_equation(row: Published) -> None:
    check(row, ice_pressure_pa)


@pytest.mark.parametrize("temperature_c", range(-80, 1, 10))
def test_pressure_over_ice_agrees_with_the_library_iapws(temperature_c: int) -> None:
    """0.03 percent to -50 degC as in the tables above, 0.1 percent to -80."""
    theirs_pa = iapws._Sublimation_Pressure(temperature_c + 273.15) * 1e6
    assert ice_pressure_pa(float(temperature_c)) == pytest.approx(
        float(theirs_pa), rel=4e-4 if temperature_c >= -50 else 1e-3
    )


# The quick inverse of the paper is good to 0.04 K, the printed full one to half a digit.
@published(
    *(
        Published((p,), t, 0.006, "°C", "murphy-koop2005", f"ice at {p:.0f} Pa", "calculated")
        for p, t in (
            (10.0, -42.19),
            (20.0, -36.02),
            (50.0, -27.34),
            (100.0, -20.33),
            (200.0, -12.92),
            (500.0, -2.42),
        )
    ),
    *(
        Published((p,), t, 0.04, "°C", "murphy-koop2005", f"quick inverse at {p:.0f} Pa", "copy")
        for p, t in (
            (10.0, -42.17),
            (20.0, -35.99),
            (50.0, -27.31),
            (100.0, -20.30),
            (200.0, -12.89),
            (500.0, -2.41),
        )
    ),
)
def test_temperature_of_ice(row: Published) -> None:
    check(row, ice_temperature_c)


@pytest.mark.parametrize("pressure_pa", [1.0, 13.0, 66.66, 300.0])
def test_a_root_finder_finds_the_same_temperature(pressure_pa: float) -> None:
    theirs = brentq(lambda t: ice_pressure_pa(t) - pressure_pa, -100.0, 0.0, xtol=1e-12)
    assert ice_temperature_c(pressure_pa) == pytest.approx(float(theirs), abs=1e-9)


# One decimal. 2834.4 is melting plus vaporisation at 0 degC, 333.55 + 2500.9.
@published(
    *(
        Published((t,), heat, 0.06, "kJ/kg", "murphy-koop2005", f"heat, {t:.0f} °C", "calculated")
        for t, heat in (
            (0.0, 2834.2),
            (-10.0, 2836.5),
            (-20.0, 2837.9),
            (-30.0, 2838.6),
            (-40.0, 2838.5),
            (-50.0, 2837.6),
        )
    ),
    Published((0.0,), 2834.4, 0.5, "kJ/kg", "crc-handbook", "melting and vaporisation", "memory"),
)
def test_heat_of_sublimation(row: Published) -> None:
    check(row, sublimation_kj_kg)


# 0.8780 kg at 2837.9 kJ/kg, and 2.09 for each kelvin colder than -20 degC: 0.1 percent.
@published(
    Published(
        (878.0, -20.0, -20.0),
        2491.7,
        2.5,
        "kJ",
        "murphy-koop2005",
        "carrots at -20 °C",
        "calculated",
    ),
    Published(
        (878.0, -40.0, -20.0),
        2528.4,
        2.5,
        "kJ",
        "murphy-koop2005",
        "loaded at -40 °C",
        "calculated",
    ),
    Published(
        (1000.0, -18.0, -20.0),
        2838.0,
        5.0,
        "kJ",
        "crc-handbook",
        "a kilogram from the freezer",
        "memory",
    ),
)
def test_the_least_heat(row: Published) -> None:
    check(row, sublimation_floor_kj)


# Water alone: 84 to cool, 333.55 to freeze, 2.1 a kelvin of ice: 397 + 41 (CRC), one percent.
@published(
    Published(
        (1000.0, 0.98, 20.0, -20.0),
        458.0,
        9.0,
        "kJ",
        "crc-handbook",
        "nearly water, 20 to -20 °C",
        "calculated",
    ),
    # 1 kg with 80 percent: 3.52 * 20 + 266.84 + 1.848 * 30, by hand.
    Published(
        (1000.0, 0.8, 20.0, -30.0), 392.7, 0.06, "kJ", "siebel1892", "80 % of water", "calculated"
    ),
)
def test_freezing(row: Published) -> None:
    check(row, freezing_heat_kj)


@published(
    Published(
        (3000.0, 2400.0, 4000.0, 3000.0),
        0.8,
        1e-9,
        "share",
        "common-practice",
        "the nearer limit",
        "practice",
    ),
)
def test_limits_of_a_dryer(row: Published) -> None:
    check(row, load_of_limit)


def _middle_hours(thickness_mm: float) -> float:
    """Middle of the range of hours."""
    return sum(hours_range(thickness_mm)) / 2.0


@published(
    Published((12.5,), 16.0, 2.0, "h", "freeze-drying-chapter", "slab of 12.5 mm", "copy"),
    Published((25.0,), 64.0, 8.0, "h", "freeze-drying-chapter", "slab of 25 mm", "calculated"),
    Published((6.25,), 4.0, 0.5, "h", "freeze-drying-chapter", "slab of 6.25 mm", "calculated"),
)
def test_hours_of_a_slab(row: Published) -> None:
    check(row, _middle_hours)
