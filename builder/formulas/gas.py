"""Whether gas flows out of a cold canister."""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import lru_cache

from builder.formulas.ranges import require, require_above, require_known

# Critical temperature [K] and pressure [bar], then the four coefficients of the Wagner
# equation: Reid, Prausnitz and Poling, 4th edition, 1987, appendix A (quoted from memory).
_WAGNER: dict[str, tuple[float, float, float, float, float, float]] = {
    "propane": (369.8, 42.5, -6.72219, 1.33236, -2.13868, -1.38551),
    "isobutane": (408.2, 36.5, -6.95579, 1.50090, -2.52717, -1.49776),
    "butane": (425.2, 38.0, -6.88709, 1.15157, -1.99873, -3.13003),
}
MOLAR_MASS_G_MOL: dict[str, float] = {"propane": 44.096, "isobutane": 58.122, "butane": 58.122}

LEAST_TEMPERATURE_C = -70.0
MOST_TEMPERATURE_C = 50.0
# A canister cools below the air as it gives off gas; a burner wants some pressure to spare.
CANISTER_COOLS_K = 5.0
BURNER_WANTS_KPA = 30.0
SHARES_OFF_BY = 0.01

_ZERO_CELSIUS_K = 273.15
_KPA_PER_BAR = 100.0
_HPA_PER_KPA = 10.0


def vapour_pressure_kpa(gas: str, temperature_c: float) -> float:
    """Pressure of a gas over its own liquid.

    Parameters
    ----------
    gas : str
        propane, isobutane or butane.
    temperature_c : float
        Temperature of the liquid. [degC], -70 to 50

    Returns
    -------
    float
        Absolute pressure. [kPa]

    Raises
    ------
    ValueError
        If the gas is not known or the temperature is outside its range.

    Notes
    -----
    Wagner: ln(p / pc) = (a x + b x ** 1.5 + c x ** 3 + d x ** 6) / (1 - x), x = 1 - T / Tc.

    References
    ----------
    .. [reid1987] Reid, Prausnitz and Poling, 1987, The Properties of Gases and Liquids,
       appendix A (quoted from memory; within 1 percent of the library CoolProp).
    """
    require_known("gas", gas, _WAGNER)
    require("temperature of the gas", temperature_c, "°C", LEAST_TEMPERATURE_C, MOST_TEMPERATURE_C)
    return _wagner_kpa(gas, temperature_c)


@lru_cache(maxsize=4096)  # who looks for a limit asks for the same gas at the same warmth
def _wagner_kpa(gas: str, temperature_c: float) -> float:
    critical_k, critical_bar, a, b, c, d = _WAGNER[gas]
    reduced = (temperature_c + _ZERO_CELSIUS_K) / critical_k
    x = 1.0 - reduced
    exponent = (a * x + b * x**1.5 + c * x**3 + d * x**6) / reduced
    return critical_bar * _KPA_PER_BAR * math.exp(exponent)


def mixture_pressure_kpa(mass_shares: Mapping[str, float], temperature_c: float) -> float:
    """Pressure in a fresh canister of mixed gas.

    Parameters
    ----------
    mass_shares : mapping of str to float
        Share of each gas by mass, together 1. [share], 0 to 1 each
    temperature_c : float
        Temperature of the liquid. [degC], -70 to 50

    Returns
    -------
    float
        Absolute pressure. [kPa]

    Raises
    ------
    ValueError
        If a gas is not known, the shares do not make 1, or the temperature is outside
        its range.

    Notes
    -----
    Raoult: sum of x_i p_i with mole fractions x. The propane leaves first, so an old
    canister has less.

    References
    ----------
    .. [reid1987] Reid, Prausnitz and Poling, 1987, The Properties of Gases and Liquids,
       appendix A (quoted from memory).
    """
    moles = {}
    for gas in sorted(mass_shares):
        require_known("gas", gas, _WAGNER)
        require(f"share of {gas}", mass_shares[gas], "", 0.0, 1.0)
        moles[gas] = mass_shares[gas] / MOLAR_MASS_G_MOL[gas]
    require(
        "sum of the gas shares",
        sum(mass_shares.values()),
        "",
        1.0 - SHARES_OFF_BY,
        1.0 + SHARES_OFF_BY,
    )
    all_moles = sum(moles.values())
    return sum(
        amount / all_moles * vapour_pressure_kpa(gas, temperature_c)
        for gas, amount in moles.items()
    )


def gas_flows(mass_shares: Mapping[str, float], air_low_c: float, pressure_hpa: float) -> bool:
    """Whether a fresh canister, upright, feeds a burner on the coldest hour.

    Parameters
    ----------
    mass_shares : mapping of str to float
        Share of each gas by mass, together 1. [share], 0 to 1 each
    air_low_c : float
        Lowest temperature of the air. [degC], -65 to 55
    pressure_hpa : float
        Air pressure outside. [hPa], above 0

    Returns
    -------
    bool
        Whether the mixture, 5 K colder than the air, has 30 kPa more than the air outside.

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    p_mixture(low - 5) >= p_outside + 30 kPa.

    References
    ----------
    .. [reid1987] Reid, Prausnitz and Poling, 1987, The Properties of Gases and Liquids,
       appendix A (quoted from memory).
    .. [common-practice] Common practice, no source, for the 5 K and the 30 kPa.
    """
    require_above("air pressure", pressure_hpa, "hPa", 0.0)
    inside_kpa = mixture_pressure_kpa(mass_shares, air_low_c - CANISTER_COOLS_K)
    return inside_kpa >= pressure_hpa / _HPA_PER_KPA + BURNER_WANTS_KPA
