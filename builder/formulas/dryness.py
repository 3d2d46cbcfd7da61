"""How far the spread of listed water leaves open what two weighings tell."""

from __future__ import annotations

from builder.formulas.declaring import Constant, declared
from builder.formulas.drying import MOST_WATER_SHARE, residual_share
from builder.formulas.ranges import require, require_above

# Raw fruit 1.35 points, vegetables 1.6, legumes 1.3, meat and fish 1.2 to 2.4: medians of the
# samples in USDA SR28 (read in a copy), rounded.
USUAL_SPREAD_SHARE = 0.015
# About nineteen lots of twenty lie within two standard deviations, all but one of 16,000 in four.
SPREADS = 2.0
SPREADS_IMPOSSIBLE = 4.0
# No lot holds less than half the solids listed, however little its table tells of others.
LEAST_SOLIDS_SHARE = 0.5
_SLACK_SHARE = 1e-9
MOST_SPREAD_SHARE = 0.1


@declared(
    "1 - (1 - min(max(water_share + spreads * spread_share, 0), most_share)) * fresh_g / dried_g",
    {"most_share": Constant(MOST_WATER_SHARE, "usda-sr28")},
)
def residual_off_share(
    fresh_g: float, dried_g: float, water_share: float, spread_share: float, spreads: float
) -> float:
    """Water left in a dried food where its listed water is some spreads off.

    Parameters
    ----------
    fresh_g : float
        Mass before drying. [g], above dried_g
    dried_g : float
        Mass after drying. [g], above 0
    water_share : float
        Listed water of the fresh food. [share], 0 to 0.98
    spread_share : float
        One standard deviation of the listed water. [share], 0 to 0.1
    spreads : float
        How many of them it is off: below 0 for less water, above for more. [-], -4 to 4

    Returns
    -------
    float
        Water left. [share]; below zero where the load would be wetter than that

    Raises
    ------
    ValueError
        If a value is outside its range, or the dried mass is not below the fresh one.

    Notes
    -----
    1 - (1 - w0 - n SD) fresh / dried, w0 + n SD at most 0.98 and at least 0: two SD of listed
    water are two SD fresh / dried of what is left.

    References
    ----------
    .. [usda-sr28] USDA SR28, 2016, standard errors of water times the root of the number of
       samples (read in a copy).
    """
    require("spread of listed water", spread_share, "", 0.0, MOST_SPREAD_SHARE)
    require("water share before drying", water_share, "", 0.0, MOST_WATER_SHARE)
    require("spreads", spreads, "", -SPREADS_IMPOSSIBLE, SPREADS_IMPOSSIBLE)
    off_share = min(max(water_share + spreads * spread_share, 0.0), MOST_WATER_SHARE)
    return residual_share(fresh_g, dried_g, off_share)


@declared(
    "if(high_share <= limit_share + slack_share, 1, "
    "if(low_share > limit_share + slack_share, -1, 0))",
    {"slack_share": Constant(_SLACK_SHARE, "common-practice")},
)
def dry_by_weight(low_share: float, high_share: float, limit_share: float) -> float:
    """Whether a load is dry enough by its weight alone, with the doubt in its listed water.

    Parameters
    ----------
    low_share : float
        Least water that may be left. [share], 0 to 1
    high_share : float
        Most water that may be left. [share], 0 to 1
    limit_share : float
        Water at or below which it keeps. [share], 0 to 1

    Returns
    -------
    float
        1 where it is dry even if it holds the most, -1 where it is not even if it holds the
        least, else 0: undecided. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    high <= limit: dry; low > limit: not dry.

    References
    ----------
    .. [usu-dryness] Utah State University Extension, Testing Foods for Dryness
       (read in a copy).
    """
    require("least water left", low_share, "", 0.0, 1.0)
    require("most water left", high_share, "", 0.0, 1.0)
    require("limit", limit_share, "", 0.0, 1.0)
    if high_share <= limit_share + _SLACK_SHARE:
        return 1.0
    return -1.0 if low_share > limit_share + _SLACK_SHARE else 0.0


def solids_of_listed(
    fresh_g: float, dried_g: float, water_share: float, residual_share: float
) -> float:
    """Solids that a dried load holds, over those that its fresh mass should.

    Parameters
    ----------
    fresh_g : float
        Mass before drying. [g], above 0
    dried_g : float
        Mass after drying. [g], 0 or more
    water_share : float
        Listed water of the fresh food. [share], 0 to 0.98
    residual_share : float
        Least water that the way of drying leaves. [share], 0 to 0.98

    Returns
    -------
    float
        Ratio, 1 where the load is as listed. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    dried (1 - wr) / (fresh (1 - w0)).

    References
    ----------
    .. [usu-dryness] Utah State University Extension, Testing Foods for Dryness
       (read in a copy).
    """
    require_above("fresh mass", fresh_g, "g", 0.0)
    require("dried mass", dried_g, "g", 0.0)
    require("water share before drying", water_share, "", 0.0, MOST_WATER_SHARE)
    require("water share after drying", residual_share, "", 0.0, MOST_WATER_SHARE)
    return dried_g * (1.0 - residual_share) / (fresh_g * (1.0 - water_share))


def odd_solids_share(water_share: float, spread_share: float) -> float:
    """Share of the listed solids below which a weighing is odd.

    Parameters
    ----------
    water_share : float
        Listed water of the fresh food. [share], 0 to 0.98
    spread_share : float
        One standard deviation of the listed water. [share], 0 to 0.1

    Returns
    -------
    float
        Ratio; at or below zero no weighing is odd. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    1 - 2 SD / (1 - w0).

    References
    ----------
    .. [usda-sr28] USDA SR28, 2016, standard errors of water times the root of the number of
       samples (read in a copy).
    """
    return _solids_share(water_share, spread_share, SPREADS)


def least_solids_share(water_share: float, spread_share: float) -> float:
    """Share of the listed solids below which a weighing cannot be.

    Parameters
    ----------
    water_share : float
        Listed water of the fresh food. [share], 0 to 0.98
    spread_share : float
        One standard deviation of the listed water. [share], 0 to 0.1

    Returns
    -------
    float
        Ratio, at most 0.5; at or below zero any weighing can be. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    min(0.5, 1 - 4 SD / (1 - w0)).

    References
    ----------
    .. [usda-sr28] USDA SR28, 2016, standard errors of water times the root of the number of
       samples (read in a copy).
    """
    return min(LEAST_SOLIDS_SHARE, _solids_share(water_share, spread_share, SPREADS_IMPOSSIBLE))


def _solids_share(water_share: float, spread_share: float, spreads: float) -> float:
    require("water share before drying", water_share, "", 0.0, MOST_WATER_SHARE)
    require("spread of listed water", spread_share, "", 0.0, MOST_SPREAD_SHARE)
    return 1.0 - spreads * spread_share / (1.0 - water_share)
