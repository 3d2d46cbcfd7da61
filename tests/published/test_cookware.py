"""Stoves, wind, snow, other fuels and stove tests."""

from __future__ import annotations

import pytest

from builder.formulas.cookware import (
    SNOW_KG_M3,
    efficiency_from_test,
    open_pot_range_g,
    snow_l,
    snow_potfuls,
)
from builder.formulas.heat import snow_to_boil_kj

from .published import Published, check, published


def _middle_open_g(fuel_g: float) -> float:
    """Middle of what an open pot takes."""
    return sum(open_pot_range_g(fuel_g)) / 2.0


# A lid saves 10 to 20 percent.
@published(
    Published((100.0,), 118.0, 7.0, "g", "common-practice", "no lid", "practice"),
)
def test_an_open_pot(row: Published) -> None:
    check(row, _middle_open_g)


# Litres of snow for a litre of water: two decimals.
@published(
    *(
        Published((1000.0, rho), litres, 0.05, "l", source, f"{rho:.0f} kg/m³", known)
        for rho, litres, source, known in (
            (70.0, 14.3, "ams-glossary", "calculated"),
            (100.0, 10.0, "ams-glossary", "calculated"),
            (150.0, 6.67, "ams-glossary", "calculated"),
            (200.0, 5.0, "paterson", "calculated"),
            (300.0, 3.33, "paterson", "calculated"),
            (400.0, 2.5, "paterson", "calculated"),
            (550.0, 1.82, "paterson", "calculated"),
        )
    )
)
def test_snow(row: Published) -> None:
    check(row, snow_l)


@published(
    Published(
        (1000.0, 100.0, 1500.0), 7.0, 0.1, "potfuls", "ams-glossary", "new snow", "calculated"
    ),
    Published(
        (1000.0, 400.0, 1500.0), 2.0, 0.1, "potfuls", "paterson", "packed snow", "calculated"
    ),
)
def test_potfuls_of_snow(row: Published) -> None:
    check(row, snow_potfuls)


def _least_snow(kind: str) -> float:
    """Least density of a kind of snow."""
    return 1000.0 / snow_l(1000.0, SNOW_KG_M3[kind][0])


def _most_snow(kind: str) -> float:
    """Most density of a kind of snow."""
    return 1000.0 / snow_l(1000.0, SNOW_KG_M3[kind][1])


# Whole tens of the printed ranges.
_SNOW = (
    ("damp-new", 100.0, 200.0, "memory"),
    ("settled", 200.0, 300.0, "memory"),
    ("wind-packed", 350.0, 400.0, "memory"),
    ("depth-hoar", 100.0, 300.0, "memory"),
    ("firn", 400.0, 830.0, "memory"),
    ("ice", 830.0, 917.0, "memory"),
)


@published(
    *(
        Published((kind,), least, 0.5, "kg/m3", "paterson", f"{kind}, least", known)
        for kind, least, _, known in _SNOW
    ),
    Published(("new",), 50.0, 0.5, "kg/m3", "paterson", "new, calm", "memory"),
)
def test_least_density_of_snow(row: Published) -> None:
    check(row, _least_snow)


@published(
    *(
        Published((kind,), most, 0.5, "kg/m3", "paterson", f"{kind}, most", known)
        for kind, _, most, known in _SNOW
    ),
    Published(("new",), 150.0, 0.5, "kg/m3", "ams-glossary", "new, most", "copy"),
)
def test_most_density_of_snow(row: Published) -> None:
    check(row, _most_snow)


def test_kinds_of_snow_hold_the_glossary() -> None:
    """New snow 70 to 150 kg/m3, glacier ice up to 917 (read in a copy)."""
    assert SNOW_KG_M3["new"][0] <= 70.0 <= 150.0 <= SNOW_KG_M3["new"][1]
    assert SNOW_KG_M3["ice"][1] == 917.0


# 376.8 kJ for a litre from 10 degC: the fuel above gives its efficiency back, half a percent.
@published(
    Published(
        (1000.0, 10.0, 13.80, 45.5, 0.0),
        0.60,
        0.003,
        "share",
        "jetter2009",
        "13.8 g of gas",
        "calculated",
    ),
    Published(
        (1000.0, 10.0, 28.12, 26.8, 0.0),
        0.50,
        0.003,
        "share",
        "jetter2009",
        "28.1 g of ethanol",
        "calculated",
    ),
    # 334.76 kJ at 3000 m.
    Published(
        (1000.0, 10.0, 14.0, 45.8, 3000.0),
        334.76 / 641.2,
        0.003,
        "share",
        "iapws-if97",
        "14 g at 3000 m",
        "calculated",
    ),
)
def test_stove_tests(row: Published) -> None:
    check(row, efficiency_from_test)


def test_snow_takes_twice_the_fuel_of_water() -> None:
    """Ratio 2.05 for snow at -10 and water at 10 degC (calculated)."""
    water_kj = 376.8
    assert snow_to_boil_kj(1000.0, -10.0, 99.97) / water_kj == pytest.approx(2.05, abs=0.01)
