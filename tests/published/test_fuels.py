"""Fuel for a litre, and the heat in wood and in the shipped fuels."""

from __future__ import annotations

import pytest

from builder.formulas.fire import wood_heating_value_mj_kg
from builder.formulas.heat import fuel_heat_kj, fuel_mass_g

from .published import Published, check, published


def _fuel_g(heat_kj: float, energy_mj_kg: float, efficiency_share: float) -> float:
    """Fuel for a heat in still air."""
    return fuel_mass_g(fuel_heat_kj(heat_kj, efficiency_share, 1.0), energy_mj_kg)


# One litre from 10 degC takes 376.8 kJ, snow of -10 degC 773 kJ. Half of the last digit.
@published(
    *(
        Published(
            (376.8, lhv, eta), g, 0.006, "g", "harc-heating-values", f"litre, {what}", "calculated"
        )
        for what, lhv, eta, g in (
            ("gas at 0.60", 45.5, 0.60, 13.80),
            ("gas at 0.50", 45.5, 0.50, 16.56),
            ("gas at 0.40", 45.5, 0.40, 20.70),
            ("white gas", 44.0, 0.55, 15.57),
            ("kerosene", 43.1, 0.55, 15.90),
            ("ethanol", 26.8, 0.50, 28.12),
            ("spirit", 24.6, 0.50, 30.63),
            ("methanol", 19.9, 0.45, 42.08),
            ("hexamine", 28.1, 0.40, 33.52),
        )
    ),
    *(
        Published(
            (773.0, lhv, eta), g, 0.006, "g", "harc-heating-values", f"snow, {what}", "calculated"
        )
        for what, lhv, eta, g in (
            ("gas at 0.60", 45.5, 0.60, 28.32),
            ("white gas", 44.0, 0.55, 31.94),
            ("ethanol", 26.8, 0.50, 57.69),
        )
    ),
    Published(
        (376.8, 14.31, 0.10),
        263.3,
        0.06,
        "g",
        "harc-heating-values",
        "litre, wood fire",
        "calculated",
    ),
)
def test_fuel_for_a_litre(row: Published) -> None:
    check(row, _fuel_g)


@published(
    *(
        Published((m,), q, 0.0006, "MJ/kg", "iso18125", f"wood with {m:.0%} water", "memory")
        for m, q in (
            (0.0, 18.500),
            (0.10, 16.406),
            (0.15, 15.359),
            (0.20, 14.311),
            (0.25, 13.264),
            (0.30, 12.217),
            (0.40, 10.123),
            (0.50, 8.028),
        )
    )
)
def test_heat_in_wood(row: Published) -> None:
    check(row, wood_heating_value_mj_kg)


# Standard heats of formation, kJ/mol, and molar masses, g/mol (NIST WebBook, from memory).
_CO2, _STEAM = -393.51, -241.826
_LIQUIDS = {
    "propane": (3, 8, -104.7, 44.096),
    "butane": (4, 10, -125.6, 58.122),
    "isobutane": (4, 10, -134.2, 58.122),
    "ethanol": (2, 6, -277.0, 46.068),
    "methanol": (1, 4, -238.4, 32.042),
}


def _net_mj_kg(name: str) -> float:
    """Net heating value from heats of formation, burnt to gas and steam."""
    carbon, hydrogen, formation, molar_mass = _LIQUIDS[name]
    return (formation - carbon * _CO2 - hydrogen / 2 * _STEAM) / molar_mass


# Denatured and wet samples of the table differ from the pure substance by up to 1 percent.
@published(
    Published(("ethanol",), 26.945, 0.27, "MJ/kg", "harc-heating-values", "ethanol, net", "copy"),
    Published(("methanol",), 20.089, 0.20, "MJ/kg", "harc-heating-values", "methanol, net", "copy"),
    Published(("propane",), 46.33, 0.46, "MJ/kg", "nist-webbook", "propane, net", "memory"),
    Published(("butane",), 45.72, 0.46, "MJ/kg", "nist-webbook", "butane, net", "memory"),
    Published(("isobutane",), 45.56, 0.46, "MJ/kg", "nist-webbook", "isobutane, net", "memory"),
)
def test_heating_values_follow_from_heats_of_formation(row: Published) -> None:
    check(row, _net_mj_kg)


def test_gas_for_a_litre_is_what_climbers_reckon() -> None:
    """From 20 degC in still air 8 to 16 g (mountaineering handbooks, quoted from memory)."""
    assert 8.0 <= _fuel_g(335.0, 45.5, 0.6) <= 16.0
    assert _fuel_g(335.0, 45.5, 0.6) == pytest.approx(12.3, abs=0.05)
