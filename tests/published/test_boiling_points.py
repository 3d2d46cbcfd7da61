"""Boiling points against printed tables and independent steam libraries."""

from __future__ import annotations

import CoolProp.CoolProp as coolprop
import pytest
from iapws.iapws97 import _TSat_P

from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import boil_hold_min, boiling_point_c

from .published import Published, check, published


def _boiling_at(altitude_m: float) -> float:
    """Boiling point at a height in the standard atmosphere."""
    return boiling_point_c(pressure_hpa(altitude_m))


# Computed with the library iapws 1.5.5, three decimals: half of the last is 0.0005.
_IF97_C = {
    0: 99.974,
    500: 98.313,
    1000: 96.649,
    1500: 94.983,
    2000: 93.315,
    2500: 91.645,
    3000: 89.972,
    3500: 88.297,
    4000: 86.619,
    4500: 84.939,
    5000: 83.255,
    5500: 81.568,
    6000: 79.878,
}


@published(
    *(
        Published((float(h),), t, 0.0006, "°C", "iapws-if97", f"at {h} m", "calculated")
        for h, t in _IF97_C.items()
    )
)
def test_water_boils_where_the_steam_tables_say(row: Published) -> None:
    check(row, _boiling_at)


# The release's own check values, in MPa and K with nine digits.
@published(
    Published(
        (1.0e3,), 372.755919 - 273.15, 1e-6, "°C", "iapws-if97", "table 36, 0.1 MPa", "memory"
    ),
    Published((1.0e4,), 453.035632 - 273.15, 1e-6, "°C", "iapws-if97", "table 36, 1 MPa", "memory"),
    Published(
        (1.0e5,), 584.149488 - 273.15, 1e-6, "°C", "iapws-if97", "table 36, 10 MPa", "memory"
    ),
)
def test_the_closed_form_gives_the_check_values_of_its_release(row: Published) -> None:
    check(row, boiling_point_c)


# Heights are whole feet and temperatures have one decimal; the list rests on an older
# atmosphere and steam table, so 0.3 K.
@published(
    *(
        Published((h,), t, 0.3, "°C", "high-altitude-cooking-table", f"{h:.0f} m", "copy")
        for h, t in ((1524.0, 95.0), (2438.0, 91.9), (3048.0, 89.8), (3658.0, 87.6))
    ),
    *(
        Published((h,), t, 0.3, "°C", "high-altitude-cooking-table", f"{h:.0f} m", "copy")
        for h, t in ((4267.0, 85.5), (4572.0, 84.5))
    ),
)
def test_water_boils_where_the_cooks_table_says(row: Published) -> None:
    check(row, _boiling_at)


# Whole degrees for climbers at round heights in feet: 1.5 K.
@published(
    Published((3048.0,), 90.0, 1.5, "°C", "wms2005", "10 000 ft", "copy"),
    Published((4267.0,), 86.0, 1.5, "°C", "wms2005", "14 000 ft", "copy"),
    Published((5791.0,), 82.0, 1.5, "°C", "wms2005", "19 000 ft", "copy"),
)
def test_water_boils_where_the_wilderness_doctors_say(row: Published) -> None:
    check(row, _boiling_at)


@pytest.mark.parametrize("at_hpa", [226.33, 300.0, 500.0, 700.0, 850.0, 1013.25, 1074.7])
def test_boiling_point_is_that_of_the_library_iapws(at_hpa: float) -> None:
    theirs_c = float(_TSat_P(at_hpa / 1.0e4)) - 273.15
    assert abs(boiling_point_c(at_hpa) - theirs_c) <= 1e-9


# The scientific formulation and the industrial one differ by up to 0.01 K here.
@pytest.mark.parametrize("at_hpa", [226.33, 300.0, 500.0, 700.0, 850.0, 1013.25, 1074.7])
def test_boiling_point_is_that_of_the_library_coolprop(at_hpa: float) -> None:
    theirs_c = float(coolprop.PropsSI("T", "P", at_hpa * 100.0, "Q", 0, "Water")) - 273.15
    assert abs(boiling_point_c(at_hpa) - theirs_c) <= 0.01


@pytest.mark.parametrize("altitude_m", range(0, 6001, 250))
def test_the_climbers_rule_of_one_degree_each_300_m_holds(altitude_m: int) -> None:
    """Within 0.12 K up to 6000 m, two decimals given."""
    assert abs(_boiling_at(float(altitude_m)) - (100.0 - altitude_m / 300.0)) <= 0.125


@published(
    Published((0.0,), 1.0, 1e-9, "min", "wms2005", "boiling, sea level", "copy"),
    Published((1999.0,), 1.0, 1e-9, "min", "wms2005", "boiling, under 2000 m", "copy"),
    Published((2001.0,), 3.0, 1e-9, "min", "wms2005", "boiling, above 2000 m", "copy"),
)
def test_water_to_drink_is_boiled_as_long_as_told(row: Published) -> None:
    check(row, boil_hold_min)
