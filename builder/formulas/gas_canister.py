"""What is left in a gas canister after use, how it cools, and how cold it may get."""

from __future__ import annotations

import math
from collections.abc import Mapping

from builder.formulas.gas import (
    BURNER_WANTS_KPA,
    mixture_pressure_kpa,
    vapour_pressure_kpa,
)
from builder.formulas.ranges import require, require_above

# With less than this the level is too low to say anything.
MOST_USED_SHARE = 0.999

_HPA_PER_KPA = 10.0
# More steps than either search for a share ever needs.
_STEPS = 60
_ROUNDING_KPA = 1e-9


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
    gases = [(full[gas], rates[gas], rates[gas] * full[gas]) for gas in full]
    for _ in range(_STEPS):
        held = slope = 0.0
        for part, rate, flow in gases:
            fallen = math.exp(-rate * s)
            held += part * fallen
            slope += flow * fallen
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
    full_kpa = mixture_pressure_kpa(mass_shares, temperature_c)
    if full_kpa < wanted_kpa:
        return 0.0
    if _at_the_end_kpa(mass_shares, temperature_c, liquid_feed) >= wanted_kpa:
        return 1.0

    def spare_kpa(used_share: float) -> float:
        return left_pressure_kpa(mass_shares, used_share, temperature_c, liquid_feed) - wanted_kpa

    share, spare = MOST_USED_SHARE, spare_kpa(MOST_USED_SHARE)
    if spare >= 0.0:
        return share
    # False position, in the Illinois way: an end that stays counts half the next time.
    end, end_spare = 0.0, full_kpa - wanted_kpa
    for _ in range(_STEPS):
        if abs(spare) <= _ROUNDING_KPA:
            break
        before, spare_before = share, spare
        share -= spare * (share - end) / (spare - end_spare)
        spare = spare_kpa(share)
        if spare * spare_before < 0.0:
            end, end_spare = before, spare_before
        else:
            end_spare /= 2.0
    return share


def _at_the_end_kpa(
    mass_shares: Mapping[str, float], temperature_c: float, liquid_feed: bool
) -> float:
    """Pressure of the very last of a canister: of the mixture, or of its heaviest gas."""
    if liquid_feed:
        return mixture_pressure_kpa(mass_shares, temperature_c)
    held = [gas for gas, share in mass_shares.items() if share > 0.0]
    return min(vapour_pressure_kpa(gas, temperature_c) for gas in held)
