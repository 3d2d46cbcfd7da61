"""What drying takes away and what water puts back."""

from __future__ import annotations

import math

from builder.formulas.declaring import declared
from builder.formulas.ranges import require, require_above, require_known

METHODS = ("dehydrator", "freeze-dryer", "oven", "sun")

# No food is wetter than this (USDA SR28: cucumber and lettuce lie at 0.95 to 0.96).
MOST_WATER_SHARE = 0.98

# Water left in food that was not weighed: extension targets, freeze-dried from SR28 rows.
FREEZE_DRIED_RESIDUAL_SHARE = 0.02
FRUIT_RESIDUAL_SHARE = 0.20
OTHER_RESIDUAL_SHARE = 0.10

# Dry enough at or below.
DRY_ENOUGH_FRUIT_SHARE = 0.20
DRY_ENOUGH_EGG_DAIRY_SHARE = 0.05
DRY_ENOUGH_FREEZE_DRIED_SHARE = 0.05
DRY_ENOUGH_OTHER_SHARE = 0.10
# Grain and pulses keep as shops store them, wetter than that (common practice).
DRY_ENOUGH_GRAIN_LEGUME_SHARE = 0.13
# Guidance for packing without oxygen stops here, whatever the food (USU Extension, in a copy).
LOW_OXYGEN_SHARE = 0.10


@declared("fresh_g * (1 - water_share) / (1 - residual_share)")
def dried_mass_g(fresh_g: float, water_share: float, residual_share: float) -> float:
    """Mass that a fresh food has when it is dry.

    Parameters
    ----------
    fresh_g : float
        Mass before drying. [g], 0 or more
    water_share : float
        Water in the fresh food. [share], 0 to 0.98
    residual_share : float
        Water in the dried food, at most that in the fresh. [share], 0 to water_share

    Returns
    -------
    float
        Mass after drying. [g]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    fresh (1 - w0) / (1 - wr): the solids stay.

    References
    ----------
    .. [usu-dryness] Utah State University Extension, Testing Foods for Dryness
       (read in a copy).
    """
    require("fresh mass", fresh_g, "g", 0.0)
    return fresh_g / solids_factor(water_share, residual_share)


@declared("1 - (1 - water_share) * fresh_g / dried_g")
def residual_share(fresh_g: float, dried_g: float, water_share: float) -> float:
    """Water share of a dried food, from its two weighings.

    Parameters
    ----------
    fresh_g : float
        Mass before drying. [g], above dried_g
    dried_g : float
        Mass after drying. [g], above 0
    water_share : float
        Listed water of the fresh food. [share], 0 to 0.98

    Returns
    -------
    float
        Water left. [share]; below zero where the batch was wetter than listed

    Raises
    ------
    ValueError
        If a value is outside its range, or the dried mass is not below the fresh one.

    Notes
    -----
    1 - (1 - w0) fresh / dried.

    References
    ----------
    .. [usu-dryness] Utah State University Extension, Testing Foods for Dryness
       (read in a copy).
    """
    _require_weighings(fresh_g, dried_g)
    _require_water(water_share)
    return 1.0 - (1.0 - water_share) * fresh_g / dried_g


@declared("1 - (1 - residual_share) * dried_g / fresh_g")
def water_share_from(fresh_g: float, dried_g: float, residual_share: float) -> float:
    """Water share of the fresh food that explains two weighings.

    Parameters
    ----------
    fresh_g : float
        Mass before drying. [g], above dried_g
    dried_g : float
        Mass after drying. [g], above 0
    residual_share : float
        Water in the dried food. [share], 0 to 0.98

    Returns
    -------
    float
        Water in the fresh food. [share], at most 0.98

    Raises
    ------
    ValueError
        If a value is outside its range, or the loss would need food wetter than 0.98.

    Notes
    -----
    1 - (1 - wr) dried / fresh.

    References
    ----------
    .. [usu-dryness] Utah State University Extension, Testing Foods for Dryness
       (read in a copy).
    """
    _require_weighings(fresh_g, dried_g)
    require("water share after drying", residual_share, "", 0.0, MOST_WATER_SHARE)
    share = 1.0 - (1.0 - residual_share) * dried_g / fresh_g
    if share > MOST_WATER_SHARE:
        raise ValueError(
            f"from {fresh_g:.10g} g to {dried_g:.10g} g is more than food can lose; "
            f"no food has more than {MOST_WATER_SHARE:.0%} water"
        )
    return share


@declared("(1 - residual_share) / (1 - water_share)")
def solids_factor(water_share: float, residual_share: float) -> float:
    """How many times as much solids a gram of the dried food holds.

    Parameters
    ----------
    water_share : float
        Water in the fresh food. [share], 0 to 0.98
    residual_share : float
        Water in the dried food, at most that in the fresh. [share], 0 to water_share

    Returns
    -------
    float
        Factor on what 100 g of the fresh food hold, 1 or more. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    (1 - wr) / (1 - w0).

    References
    ----------
    .. [usu-dryness] Utah State University Extension, Testing Foods for Dryness
       (read in a copy).
    """
    _require_water(water_share)
    require("water share after drying", residual_share, "", 0.0, water_share)
    return (1.0 - residual_share) / (1.0 - water_share)


@declared("amount_g * ((1 - residual_share) / (1 - water_share) - 1)")
def rehydration_water_ml(amount_g: float, water_share: float, residual_share: float) -> float:
    """Water that drying took out of an amount, so the most it takes up again.

    Parameters
    ----------
    amount_g : float
        Dried mass. [g], 0 or more
    water_share : float
        Water in the fresh food. [share], 0 to 0.98
    residual_share : float
        Water in the dried food, at most that in the fresh. [share], 0 to water_share

    Returns
    -------
    float
        Volume of water, 1 ml each gram. [ml]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    amount ((1 - wr) / (1 - w0) - 1).

    References
    ----------
    .. [usu-dryness] Utah State University Extension, Testing Foods for Dryness
       (read in a copy).
    """
    require("dried mass", amount_g, "g", 0.0)
    return amount_g * (solids_factor(water_share, residual_share) - 1.0)


def usual_residual_share(method: str, food_kind: str) -> float:
    """Water usually left in a dried food that nobody weighed.

    Parameters
    ----------
    method : str
        dehydrator, freeze-dryer, oven or sun.
    food_kind : str
        Kind of the food; only fruit makes a difference.

    Returns
    -------
    float
        Water left: freeze-dried 0.02, fruit 0.20, all else 0.10. [share]

    Raises
    ------
    ValueError
        If the method is not known.

    References
    ----------
    .. [usu-dryness] Utah State University Extension, Testing Foods for Dryness: 80 and 90
       percent solids (read in a copy).
    .. [usda-sr28] USDA SR28, 2016, freeze-dried rows, 2.00 g in 100 g (read in a copy).
    """
    require_known("drying method", method, METHODS)
    if method == "freeze-dryer":
        return FREEZE_DRIED_RESIDUAL_SHARE
    return FRUIT_RESIDUAL_SHARE if food_kind == "fruit" else OTHER_RESIDUAL_SHARE


def least_residual_share(method: str) -> float:
    """Least water that a way of drying leaves.

    Parameters
    ----------
    method : str
        dehydrator, freeze-dryer, oven or sun.

    Returns
    -------
    float
        Least water left: freeze-dried 0.02, all else 0. [share]

    Raises
    ------
    ValueError
        If the method is not known.

    References
    ----------
    .. [usda-sr28] USDA SR28, 2016, freeze-dried rows, 2.00 g in 100 g (read in a copy).
    """
    require_known("drying method", method, METHODS)
    return FREEZE_DRIED_RESIDUAL_SHARE if method == "freeze-dryer" else 0.0


def dry_enough_share(method: str, food_kind: str) -> float:
    """Water share at or below which a dried food is dry enough to keep.

    Parameters
    ----------
    method : str
        dehydrator, freeze-dryer, oven or sun.
    food_kind : str
        Kind of the food; fruit, grain, legume, egg and dairy make a difference.

    Returns
    -------
    float
        Most water: freeze-dried 0.05, fruit 0.20, grain and legume 0.13, egg and dairy 0.05,
        all else 0.10. [share]

    Raises
    ------
    ValueError
        If the method is not known.

    References
    ----------
    .. [usu-dryness] Utah State University Extension, Testing Foods for Dryness: 80 and 90
       percent solids (read in a copy).
    .. [fellows] Fellows, 2009, Food Processing Technology: freeze-dried 1 to 4 percent
       (quoted from memory).
    """
    require_known("drying method", method, METHODS)
    if method == "freeze-dryer":
        return DRY_ENOUGH_FREEZE_DRIED_SHARE
    if food_kind == "fruit":
        return DRY_ENOUGH_FRUIT_SHARE
    if food_kind in ("grain", "legume"):
        return DRY_ENOUGH_GRAIN_LEGUME_SHARE
    if food_kind in ("egg", "dairy"):
        return DRY_ENOUGH_EGG_DAIRY_SHARE
    return DRY_ENOUGH_OTHER_SHARE


@declared("exp(-rate_per_min * duration_min ^ exponent)")
def moisture_ratio(duration_min: float, rate_per_min: float, exponent: float = 1.0) -> float:
    """Share of the water still to go, dry basis, after a time of drying.

    Parameters
    ----------
    duration_min : float
        Time since the start. [min], 0 or more
    rate_per_min : float
        Rate k. [1/min ** exponent], above 0
    exponent : float
        Exponent n: 1 for Lewis, else Page. [-], above 0 to 5

    Returns
    -------
    float
        (X - Xe) / (X0 - Xe), 1 at the start. [share]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    exp(-k t ** n).

    References
    ----------
    .. [lewis1921] Lewis, 1921, The rate of drying of solid materials (quoted from memory).
    .. [page1949] Page, 1949, air drying shelled corn in thin layers (quoted from memory).
    """
    require("drying time", duration_min, "min", 0.0)
    require_above("drying rate", rate_per_min, "per min", 0.0)
    require_above("exponent", exponent, "", 0.0)
    require("exponent", exponent, "", 0.0, 5.0)
    return math.exp(-rate_per_min * duration_min**exponent)


def _require_water(water_share: float) -> None:
    """Raise ValueError unless a food can hold this share of water."""
    require("water share before drying", water_share, "", 0.0, MOST_WATER_SHARE)


def _require_weighings(fresh_g: float, dried_g: float) -> None:
    """Raise ValueError unless the two weighings show a loss."""
    require_above("fresh mass", fresh_g, "g", 0.0)
    require_above("dried mass", dried_g, "g", 0.0)
    if dried_g >= fresh_g:
        raise ValueError(
            f"dried mass is {dried_g:.10g} g; it must be less than the fresh {fresh_g:.10g} g"
        )
