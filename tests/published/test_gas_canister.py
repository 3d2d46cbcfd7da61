"""Heat, pressure and what is left of canister gas, against reference equations of state."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from builder.formulas.gas import MOLAR_MASS_G_MOL, vapour_pressure_kpa
from builder.formulas.gas_canister import (
    left_pressure_kpa,
    left_shares,
    usable_share,
)

from .published import Published, check, published

Masses = np.ndarray[tuple[int], np.dtype[np.float64]]

_MIX = {"propane": 0.3, "butane": 0.7}


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
