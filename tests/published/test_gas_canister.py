"""Heat, pressure and what is left of canister gas, against reference equations of state."""

from __future__ import annotations

import CoolProp.CoolProp as coolprop
import numpy as np
import pytest
from scipy.integrate import solve_ivp

from builder.formulas.air import altitude_m
from builder.formulas.gas import MOLAR_MASS_G_MOL, vapour_pressure_kpa
from builder.formulas.gas_canister import (
    LIQUID_KJ_KG_K,
    can_cooling_k,
    left_pressure_kpa,
    left_shares,
    lowest_air_c,
    usable_share,
    vaporisation_kj_kg,
)

from .published import Published, check, published

Masses = np.ndarray[tuple[int], np.dtype[np.float64]]

_NAMES = {"propane": "Propane", "isobutane": "IsoButane", "butane": "n-Butane"}
_MIX = {"propane": 0.3, "butane": 0.7}
_ISO = {"isobutane": 0.8, "propane": 0.2}


@published(
    Published(("propane", 0.0), 375.0, 0.6, "kJ/kg", "coolprop", "propane, 0 °C", "calculated"),
    Published(("isobutane", 0.0), 354.0, 0.6, "kJ/kg", "coolprop", "isobutane, 0 °C", "calculated"),
    Published(("butane", 0.0), 385.0, 0.6, "kJ/kg", "coolprop", "butane, 0 °C", "calculated"),
    # Handbook values at the normal boiling points; Watson's relation is good to 2 percent.
    Published(("propane", -42.1), 426.0, 8.0, "kJ/kg", "reid1987", "propane boiling", "memory"),
    Published(("butane", -0.5), 386.0, 8.0, "kJ/kg", "reid1987", "butane boiling", "memory"),
)
def test_heat_of_vaporisation(row: Published) -> None:
    check(row, vaporisation_kj_kg)


@pytest.mark.parametrize("gas", sorted(_NAMES))
@pytest.mark.parametrize("temperature_c", [-70, -40, -20, 0, 20, 50])
def test_heat_of_vaporisation_agrees_with_the_library(gas: str, temperature_c: int) -> None:
    """Watson's relation from 0 degC is good to 2 percent."""
    kelvin = temperature_c + 273.15
    gas_j, liquid_j = (coolprop.PropsSI("H", "T", kelvin, "Q", q, _NAMES[gas]) for q in (1, 0))
    theirs = float(gas_j - liquid_j) / 1000.0
    assert vaporisation_kj_kg(gas, float(temperature_c)) == pytest.approx(theirs, rel=0.02)


def test_watsons_relation_worked_by_hand() -> None:
    """Butane at 40 degC: (112.05 / 152.05) ** 0.38 of 385.3; isobutane (95.05 / 135.05)."""
    assert vaporisation_kj_kg("butane", 40.0) == pytest.approx(343.1, abs=0.1)
    assert vaporisation_kj_kg("isobutane", 40.0) == pytest.approx(310.0, abs=0.1)


@pytest.mark.parametrize("gas", sorted(_NAMES))
def test_specific_heat_of_the_liquid_agrees_with_the_library(gas: str) -> None:
    theirs = float(coolprop.PropsSI("C", "T", 273.15, "Q", 0, _NAMES[gas])) / 1000.0
    assert LIQUID_KJ_KG_K[gas] == pytest.approx(theirs, rel=0.01)


@pytest.mark.parametrize("temperature_c", [-15.0, 0.0, 20.0])
@pytest.mark.parametrize("used", [0.2, 0.5, 0.8, 0.95])
def test_boiling_off_in_small_steps_leaves_the_same(temperature_c: float, used: float) -> None:
    """Rayleigh's distillation stepped by scipy: each gas leaves as its part of the vapour."""
    gases = ("propane", "isobutane", "butane")
    start = np.array([0.2, 0.4, 0.4])
    molar = np.array([MOLAR_MASS_G_MOL[gas] for gas in gases])
    pressures = np.array([vapour_pressure_kpa(gas, temperature_c) for gas in gases])

    def leaving(_: float, mass: Masses) -> Masses:
        moles = np.maximum(mass, 0.0) / molar
        vapour = moles * pressures
        vapour_mass = vapour * molar
        gone: Masses = -vapour_mass / vapour_mass.sum()
        return gone

    solved = solve_ivp(leaving, (0.0, used), start, rtol=1e-10, atol=1e-13)
    theirs = solved.y[:, -1] / (1.0 - used)
    ours = left_shares(dict(zip(gases, start, strict=True)), used, temperature_c)
    for gas, share in zip(gases, theirs, strict=True):
        assert ours[gas] == pytest.approx(float(share), abs=2e-7)


def _propane_left(used: float, temperature_c: float) -> float:
    """Propane in what is left of a mixture of 30 and 70 percent."""
    return left_shares(_MIX, used, temperature_c)["propane"]


# n1 / n10 = (n2 / n20) ** 4.6 at 0 degC (474.5 over 103.2 kPa): with half the butane left
# 0.041 of the propane, so 0.3624 of the mass with 0.0341 of it propane; 2 percent.
@published(
    Published(
        (1.0 - 0.36239, 0.0),
        0.0342,
        0.0008,
        "share",
        "coolprop",
        "half the butane left",
        "calculated",
    ),
)
def test_what_is_left_by_hand(row: Published) -> None:
    check(row, _propane_left)


def _old_kpa(gas: str, used: float, temperature_c: float) -> float:
    """Pressure of an old canister of that gas with a tenth of propane."""
    return left_pressure_kpa({"propane": 0.1, gas: 0.9}, used, temperature_c)


# The last of a canister behaves as its heaviest gas: 1 percent as the pressures.
@published(
    Published(
        ("butane", 0.95, 0.0), 103.2, 1.1, "kPa", "coolprop", "old can, butane", "calculated"
    ),
    Published(
        ("isobutane", 0.97, 0.0), 157.0, 1.6, "kPa", "coolprop", "old can, isobutane", "calculated"
    ),
    Published(
        ("butane", 0.95, -10.0),
        69.6,
        0.8,
        "kPa",
        "coolprop",
        "old can, butane, -10 °C",
        "calculated",
    ),
)
def test_an_old_canister_is_its_heaviest_gas(row: Published) -> None:
    check(row, _old_kpa)


# Pure gases at 713.25 hPa need 101.325 kPa: boiling points, 5 K above; 0.4 K for 1 percent.
_HEIGHT_M = altitude_m(713.25)


@published(
    *(
        Published(
            ({gas: 1.0}, _HEIGHT_M),
            boils + 5.0,
            0.4,
            "°C",
            "coolprop",
            f"{gas} boils",
            "calculated",
        )
        for gas, boils in (("propane", -42.11), ("isobutane", -11.75), ("butane", -0.49))
    ),
    # -10 degC has 167.1 kPa, -20 115.1 (80/20); 131.3 kPa lie between, at -16.7.
    Published((_ISO, 0.0), -11.7, 0.6, "°C", "coolprop", "isobutane 80, propane 20", "calculated"),
    Published((_MIX, 0.0), -12.1, 0.6, "°C", "coolprop", "butane 70, propane 30", "calculated"),
)
def test_the_lowest_air(row: Published) -> None:
    check(row, lowest_air_c)


def test_height_lowers_the_limit_by_three_degrees_a_kilometre() -> None:
    """The trade's rule (from memory), to a third."""
    for mix in ({"isobutane": 1.0}, {"butane": 1.0}, _ISO):
        falls = lowest_air_c(mix, 0.0) - lowest_air_c(mix, 3000.0)
        assert falls / 3.0 == pytest.approx(2.5, rel=0.35)


def _usable(temperature_c: float, kpa: float) -> float:
    """Usable part of the mixture of 30 and 70 percent against a wanted pressure."""
    return usable_share(_MIX, temperature_c, (kpa - 30.0) * 10.0)


# By hand at 0 degC: with half the butane left the moles of propane are a share 0.0445 of the
# rest, so 474.5 * 0.0445 + 103.2 * 0.9555 = 119.7 kPa, after 0.6376 of the mass; 1 percent of
# pressure is 2 percent of the mass.
@published(
    Published((0.0, 119.7), 0.6376, 0.02, "share", "coolprop", "usable to 119.7 kPa", "calculated"),
)
def test_the_usable_part(row: Published) -> None:
    check(row, _usable)


# 2600 W at 45.8 MJ/kg are 0.0568 g/s; 382 kJ/kg of the mixture; in 5 min 17 g, 6.5 kJ, from
# 230 g at 2.36 and 150 g of steel at 0.5: 618 J/K. One percent.
@published(
    Published(
        (_MIX, 2600.0, 45.8, 5.0, 230.0, 150.0),
        10.5,
        0.15,
        "K",
        "coolprop",
        "five minutes at full power",
        "calculated",
    ),
    # With 0.5 W/K from the air: 43.4 K (1 - exp(-300 * 0.5 / 618)) = 9.35.
    Published(
        (_MIX, 2600.0, 45.8, 5.0, 230.0, 150.0, 0.5),
        9.35,
        0.15,
        "K",
        "incropera",
        "five minutes, air helps",
        "calculated",
    ),
)
def test_cooling_of_a_canister(row: Published) -> None:
    check(row, can_cooling_k)
