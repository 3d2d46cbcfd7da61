"""Heat for water, pots and snow against the steam tables and handbooks."""

from __future__ import annotations

import pytest
from iapws import IAPWS97

from builder.formulas.boiling import boiling_point_c
from builder.formulas.heat import (
    WATER_KJ_KG_K,
    pot_heat_kj,
    snow_to_boil_kj,
    snow_to_water_kj,
    water_heat_kj,
)

from .published import Published, check, published


# Enthalpy differences of one litre from 10 degC, IF97; a constant heat capacity is good to
# 0.1 percent of them.
@published(
    *(
        Published(
            (1000.0, 10.0, t), q, 0.001 * q, "kJ", "iapws-if97", f"10 to {t} °C", "calculated"
        )
        for t, q in (
            (99.97, 376.87),
            (96.65, 362.86),
            (93.32, 348.82),
            (89.97, 334.76),
            (86.62, 320.67),
            (83.25, 306.54),
        )
    )
)
def test_heat_to_boil_a_litre_is_that_of_the_steam_tables(row: Published) -> None:
    check(row, water_heat_kj)


@pytest.mark.parametrize("at_hpa", [540.2, 700.0, 850.0, 1013.25])
@pytest.mark.parametrize("from_c", [2.0, 8.0, 20.0])
def test_heat_to_boil_agrees_with_the_library_iapws(at_hpa: float, from_c: float) -> None:
    to_c = boiling_point_c(at_hpa)
    cold = IAPWS97(T=from_c + 273.15, P=at_hpa / 1.0e4)
    hot = IAPWS97(P=at_hpa / 1.0e4, x=0)
    assert water_heat_kj(1000.0, from_c, to_c) == pytest.approx(hot.h - cold.h, rel=0.002)


def test_heat_capacity_of_water_is_the_mean_of_the_steam_tables() -> None:
    steps = [IAPWS97(T=273.15 + t, P=0.101325).cp for t in range(10, 100, 5)]
    assert sum(steps) / len(steps) == pytest.approx(WATER_KJ_KG_K, abs=0.01)


@published(
    Published(
        (150.0, "aluminium", 10.0, 100.0),
        12.1,
        0.05,
        "kJ",
        "crc-handbook",
        "aluminium pot",
        "memory",
    ),
    Published(
        (2500.0, "cast-iron", 20.0, 200.0), 207.0, 0.5, "kJ", "crc-handbook", "cast iron", "memory"
    ),
    Published((1000.0, "steel", 0.0, 1.0), 0.50, 0.005, "kJ", "crc-handbook", "steel", "memory"),
    Published(
        (1000.0, "titanium", 0.0, 1.0), 0.52, 0.005, "kJ", "crc-handbook", "titanium", "memory"
    ),
    Published(
        (1000.0, "copper", 0.0, 1.0), 0.385, 0.0005, "kJ", "crc-handbook", "copper", "memory"
    ),
    Published(
        (1000.0, "enamel", 0.0, 1.0), 0.47, 0.005, "kJ", "crc-handbook", "enamelled steel", "memory"
    ),
)
def test_heat_of_metal_is_that_of_the_handbooks(row: Published) -> None:
    check(row, pot_heat_kj)


# Ice takes 1.96 to 2.11 kJ/(kg K) from -20 to 0 degC and melting 333.43 to 333.55 kJ/kg:
# 1 kJ together.
@published(
    Published(
        (1000.0, -10.0, 99.97),
        772.98,
        1.0,
        "kJ",
        "crc-handbook",
        "snow of -10 °C to boil",
        "memory",
    ),
    Published(
        (1000.0, 0.0, 99.97), 752.5, 1.0, "kJ", "crc-handbook", "snow of 0 °C to boil", "memory"
    ),
    Published(
        (1000.0, -20.0, 99.97), 793.5, 1.0, "kJ", "crc-handbook", "snow of -20 °C to boil", "memory"
    ),
)
def test_heat_to_boil_snow_is_that_of_the_handbooks(row: Published) -> None:
    check(row, snow_to_boil_kj)


def test_melting_alone_is_the_handbooks_heat_and_five_degrees_of_water() -> None:
    """From -10 degC to water of 0 degC 354.05 kJ (quoted from memory), then 5 K of water."""
    warmed_kj = water_heat_kj(1000.0, 0.0, 5.0)
    assert abs(snow_to_water_kj(1000.0, -10.0) - warmed_kj - 354.05) <= 1.0


def test_snow_takes_about_twice_the_heat_of_water() -> None:
    """The climbers' rule; 2.05 for snow of -10 degC against water of 10 degC (calculated)."""
    ratio = snow_to_boil_kj(1000.0, -10.0, 99.97) / water_heat_kj(1000.0, 10.0, 99.97)
    assert abs(ratio - 2.05) <= 0.005
