"""What is left in a gas canister after use, how it cools, and how cold it may get."""

from __future__ import annotations

import math
from collections.abc import Mapping

from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import ZERO_CELSIUS_K
from builder.formulas.gas import (
    BURNER_WANTS_KPA,
    CANISTER_COOLS_K,
    CRITICAL_K,
    LEAST_TEMPERATURE_C,
    MOST_TEMPERATURE_C,
    mixture_pressure_kpa,
    vapour_pressure_kpa,
)
from builder.formulas.heat import SPECIFIC_HEAT_KJ_KG_K
from builder.formulas.ranges import require, require_above, require_known

# Heat that turns a kilogram of liquid at 0 degC to gas, and specific heat of the liquid
# there (calculated with the library CoolProp).
VAPORISATION_KJ_KG: dict[str, float] = {"propane": 374.9, "isobutane": 354.3, "butane": 385.3}
LIQUID_KJ_KG_K: dict[str, float] = {"propane": 2.49, "isobutane": 2.28, "butane": 2.31}
_WATSON_EXPONENT = 0.38

# With less than this the level is too low to say anything.
MOST_USED_SHARE = 0.999

_HPA_PER_KPA = 10.0
_G_PER_KG = 1000.0
_KJ_PER_MJ = 1000.0
_S_PER_MIN = 60.0
_W_PER_KW = 1000.0
# Halvings that bring 120 K or a share of 1 down to a rounding.
_HALVINGS = 60


def left_shares(
    mass_shares: Mapping[str, float],
    used_share: float,
    temperature_c: float,
    liquid_feed: bool = False,
) -> dict[str, float]:
    """What a canister of mixed gas holds after a part of it was burnt.

    Parameters
    ----------
    mass_shares : mapping of str to float
        Share of each gas by mass when full, together 1. [share], 0 to 1 each
    used_share : float
        Mass burnt over the mass when full. [share], 0 to 0.999
    temperature_c : float
        Temperature of the liquid while it was burnt. [degC], -70 to 50
    liquid_feed : bool
        Whether the stove takes liquid, which leaves the mixture as it is.

    Returns
    -------
    dict of str to float
        Share of each gas by mass in what is left, together 1. [share]

    Raises
    ------
    ValueError
        If a value is outside its range or a gas is not known.

    Notes
    -----
    Vapour leaves by Raoult: dn_i is as x_i p_i, so n_i = n_i0 exp(-p_i s) with one s for
    all, found from the mass that is left (Rayleigh's distillation). The most volatile goes
    first.

    References
    ----------
    .. [reid1987] Reid, Prausnitz and Poling, 1987, Raoult's law and vapour pressures
       (quoted from memory).
    """
    require("share used", used_share, "", 0.0, MOST_USED_SHARE)
    mixture_pressure_kpa(mass_shares, temperature_c)
    whole = sum(mass_shares.values())
    full = {gas: mass_shares[gas] / whole for gas in sorted(mass_shares) if mass_shares[gas] > 0.0}
    if liquid_feed or len(full) == 1 or used_share == 0.0:
        return full
    pressures = {gas: vapour_pressure_kpa(gas, temperature_c) for gas in full}
    slowest = min(pressures.values())
    rates = {gas: pressures[gas] / slowest for gas in full}
    left = 1.0 - used_share
    # The mass left falls with s and is convex, so Newton's rule climbs to s from below.
    s = -math.log(left) / max(rates.values())
    for _ in range(_HALVINGS):
        held = sum(full[gas] * math.exp(-rates[gas] * s) for gas in full)
        slope = sum(rates[gas] * full[gas] * math.exp(-rates[gas] * s) for gas in full)
        before, s = s, s + (held - left) / slope
        if s == before:
            break
    kept = {gas: full[gas] * math.exp(-rates[gas] * s) for gas in full}
    mass = sum(kept.values())
    return {gas: kept[gas] / mass for gas in kept}


def left_pressure_kpa(
    mass_shares: Mapping[str, float],
    used_share: float,
    temperature_c: float,
    liquid_feed: bool = False,
) -> float:
    """Pressure in a canister after a part of it was burnt.

    Parameters
    ----------
    mass_shares : mapping of str to float
        Share of each gas by mass when full, together 1. [share], 0 to 1 each
    used_share : float
        Mass burnt over the mass when full. [share], 0 to 0.999
    temperature_c : float
        Temperature of the liquid. [degC], -70 to 50
    liquid_feed : bool
        Whether the stove takes liquid.

    Returns
    -------
    float
        Absolute pressure. [kPa]

    Raises
    ------
    ValueError
        If a value is outside its range or a gas is not known.

    Notes
    -----
    Raoult's sum over what is left.

    References
    ----------
    .. [reid1987] Reid, Prausnitz and Poling, 1987, Raoult's law and vapour pressures
       (quoted from memory).
    """
    left = left_shares(mass_shares, used_share, temperature_c, liquid_feed)
    return mixture_pressure_kpa(left, temperature_c)


def usable_share(
    mass_shares: Mapping[str, float],
    temperature_c: float,
    outside_hpa: float,
    liquid_feed: bool = False,
) -> float:
    """How much of a full canister feeds a burner before its pressure is too low.

    Parameters
    ----------
    mass_shares : mapping of str to float
        Share of each gas by mass when full, together 1. [share], 0 to 1 each
    temperature_c : float
        Temperature of the canister, colder than the air. [degC], -70 to 50
    outside_hpa : float
        Air pressure outside. [hPa], above 0
    liquid_feed : bool
        Whether the stove takes liquid.

    Returns
    -------
    float
        Usable part of the mass, 0 to 1. [share]

    Raises
    ------
    ValueError
        If a value is outside its range or a gas is not known.

    Notes
    -----
    Largest used share at which what is left has 30 kPa more than the air outside.

    References
    ----------
    .. [reid1987] Reid, Prausnitz and Poling, 1987, Raoult's law and vapour pressures
       (quoted from memory).
    .. [common-practice] Common practice, no source, for the 30 kPa.
    """
    require_above("air pressure", outside_hpa, "hPa", 0.0)
    wanted_kpa = outside_hpa / _HPA_PER_KPA + BURNER_WANTS_KPA
    if mixture_pressure_kpa(mass_shares, temperature_c) < wanted_kpa:
        return 0.0
    if _at_the_end_kpa(mass_shares, temperature_c, liquid_feed) >= wanted_kpa:
        return 1.0
    low, high = 0.0, MOST_USED_SHARE
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        if middle in (low, high):
            break
        if left_pressure_kpa(mass_shares, middle, temperature_c, liquid_feed) >= wanted_kpa:
            low = middle
        else:
            high = middle
    return low


def lowest_air_c(
    mass_shares: Mapping[str, float],
    altitude_m: float,
    used_share: float = 0.0,
    liquid_feed: bool = False,
) -> float:
    """Lowest air temperature at which a canister still feeds a burner.

    Parameters
    ----------
    mass_shares : mapping of str to float
        Share of each gas by mass when full, together 1. [share], 0 to 1 each
    altitude_m : float
        Altitude of the camp. [m], -500 to 11000
    used_share : float
        Mass burnt so far over the mass when full. [share], 0 to 0.999
    liquid_feed : bool
        Whether the stove takes liquid.

    Returns
    -------
    float
        Temperature of the air, -65 where it flows in any cold. [degC]

    Raises
    ------
    ValueError
        If a value is outside its range or a gas is not known.

    Notes
    -----
    Temperature at which what is left, 5 K colder than the air, has 30 kPa more than the air
    outside.

    References
    ----------
    .. [reid1987] Reid, Prausnitz and Poling, 1987, Raoult's law and vapour pressures
       (quoted from memory).
    .. [common-practice] Common practice, no source, for the 5 K and the 30 kPa.
    """
    wanted_kpa = pressure_hpa(altitude_m) / _HPA_PER_KPA + BURNER_WANTS_KPA
    low, high = LEAST_TEMPERATURE_C, MOST_TEMPERATURE_C
    if left_pressure_kpa(mass_shares, used_share, low, liquid_feed) >= wanted_kpa:
        return low + CANISTER_COOLS_K
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        if middle in (low, high):
            break
        if left_pressure_kpa(mass_shares, used_share, middle, liquid_feed) >= wanted_kpa:
            high = middle
        else:
            low = middle
    return high + CANISTER_COOLS_K


def vaporisation_kj_kg(gas: str, temperature_c: float) -> float:
    """Heat that turns a kilogram of liquid gas to vapour.

    Parameters
    ----------
    gas : str
        propane, isobutane or butane.
    temperature_c : float
        Temperature of the liquid. [degC], -70 to 50

    Returns
    -------
    float
        Heat of vaporisation. [kJ/kg]

    Raises
    ------
    ValueError
        If the gas is not known or the temperature is outside its range.

    Notes
    -----
    Watson: h = h0 ((Tc - T) / (Tc - T0)) ** 0.38 from the value at 0 degC.

    References
    ----------
    .. [reid1987] Reid, Prausnitz and Poling, 1987, Watson's relation (quoted from memory).
    .. [coolprop] Library CoolProp, values at 0 degC (calculated).
    """
    require_known("gas", gas, VAPORISATION_KJ_KG)
    require("temperature of the gas", temperature_c, "°C", LEAST_TEMPERATURE_C, MOST_TEMPERATURE_C)
    critical = CRITICAL_K[gas]
    ratio = (critical - temperature_c - ZERO_CELSIUS_K) / (critical - ZERO_CELSIUS_K)
    return VAPORISATION_KJ_KG[gas] * float(ratio**_WATSON_EXPONENT)


def can_cooling_k(
    mass_shares: Mapping[str, float],
    power_w: float,
    energy_mj_kg: float,
    duration_min: float,
    fuel_g: float,
    *,
    empty_g: float,
    gain_w_k: float = 0.0,
) -> float:
    """How far a canister cools below the air while it gives off gas.

    Parameters
    ----------
    mass_shares : mapping of str to float
        Share of each gas by mass, together 1. [share], 0 to 1 each
    power_w : float
        Power of the burner. [W], 0 or more
    energy_mj_kg : float
        Net heating value of the gas. [MJ/kg], above 0
    duration_min : float
        How long it burns. [min], 0 or more
    fuel_g : float
        Gas in the canister. [g], above 0
    empty_g : float
        Mass of the steel. [g], 0 or more
    gain_w_k : float
        Heat that the canister takes from the air for each kelvin, 0 for none. [W/K], 0 or more

    Returns
    -------
    float
        Cooling below the air; more than 40 K is not to be taken at its word. [K]

    Raises
    ------
    ValueError
        If a value is outside its range, more is burnt than there is, or a gas is not known.

    Notes
    -----
    With q = h power / energy: without gain q t / C, else q / UA (1 - exp(-t UA / C)), where
    C = fuel c + steel 0.5 at the start.

    References
    ----------
    .. [coolprop] Library CoolProp, heat of vaporisation and specific heat at 0 degC
       (calculated).
    .. [incropera] Incropera and others, 2007, lumped capacitance (quoted from memory).
    """
    mixture_pressure_kpa(mass_shares, 0.0)
    require("power of the burner", power_w, "W", 0.0)
    require_above("heating value of the gas", energy_mj_kg, "MJ/kg", 0.0)
    require("time it burns", duration_min, "min", 0.0)
    require_above("gas in the canister", fuel_g, "g", 0.0)
    require("mass of the empty canister", empty_g, "g", 0.0)
    require("heat from the air", gain_w_k, "W/K", 0.0)
    burnt_kg_s = power_w / _W_PER_KW / (energy_mj_kg * _KJ_PER_MJ)
    seconds = duration_min * _S_PER_MIN
    if burnt_kg_s * seconds * _G_PER_KG > fuel_g:
        raise ValueError(
            f"the burner takes {burnt_kg_s * seconds * _G_PER_KG:.4g} g in that time; "
            f"the canister holds {fuel_g:.10g} g"
        )
    heat = sum(share * VAPORISATION_KJ_KG[gas] for gas, share in mass_shares.items())
    liquid = sum(share * LIQUID_KJ_KG_K[gas] for gas, share in mass_shares.items())
    held_j_k = fuel_g * liquid + empty_g * SPECIFIC_HEAT_KJ_KG_K["steel"]
    drawn_w = burnt_kg_s * heat * _W_PER_KW
    if gain_w_k == 0.0:
        return drawn_w * seconds / held_j_k
    return drawn_w / gain_w_k * -math.expm1(-seconds * gain_w_k / held_j_k)


def _at_the_end_kpa(
    mass_shares: Mapping[str, float], temperature_c: float, liquid_feed: bool
) -> float:
    """Pressure of the very last of a canister: of the mixture, or of its heaviest gas."""
    if liquid_feed:
        return mixture_pressure_kpa(mass_shares, temperature_c)
    held = [gas for gas, share in mass_shares.items() if share > 0.0]
    return min(vapour_pressure_kpa(gas, temperature_c) for gas in held)
