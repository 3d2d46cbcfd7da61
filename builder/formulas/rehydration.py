"""How fast and how far dried food takes water up again, and how long it may stand."""

from __future__ import annotations

import math

from builder.formulas.cooling import HOT_HOLDING_C
from builder.formulas.declaring import Constant, declared
from builder.formulas.ranges import require, require_known
from builder.formulas.safety import hours_out_of_cold

COLDEST_WATER_C = 0.0
HOTTEST_WATER_C = 100.0

# How much of what drying took out comes back, by kind: between the stewed and the dried foods of
# SR28 (worked out) and ratios of reviews (quoted from memory). The wetter the fresh food, the less.
FREEZE_DRIED_TAKES_UP_SHARE = 0.9
TAKES_UP_SHARE: dict[str, float] = {
    "grain": 1.0,
    "legume": 0.7,
    "vegetable": 0.6,
    "meat": 0.5,
    "poultry": 0.5,
    "fish": 0.5,
    "fruit": 0.4,
}
ELSE_TAKES_UP_SHARE = 1.0
# A quarter more is poured, so that all of it is wet; never more than was lost.
POUR_FACTOR = 1.25

# USDA FSIS danger zone: from 40 degF, to 140 where hot food is held (read in a copy).
COLD_UP_TO_C = 4.4

# (kind, water): fewest and most minutes. Extension tables (read in a copy): fruit in warm
# and vegetables in boiling water; roots, stems and seeds in cold water half an hour to two.
# Freeze-dried food and mushrooms in cold water as the literature gives it.
SOAK_MIN: dict[tuple[str, str], tuple[float, float]] = {
    ("fruit", "warm"): (30.0, 75.0),
    ("vegetable", "boiling"): (30.0, 90.0),
    ("vegetable", "cold"): (30.0, 120.0),
    ("mushroom", "boiling"): (10.0, 30.0),
    ("mushroom", "cold"): (120.0, 180.0),
    ("freeze-dried", "boiling"): (2.0, 10.0),
    ("freeze-dried", "cold"): (5.0, 30.0),
}


def takes_up_share(method: str, kind: str) -> float:
    """How much of the water that drying took out a dried food usually takes up again.

    Parameters
    ----------
    method : str
        How it was dried: freeze-dryer, or any other for warm air.
    kind : str
        Kind of food; one that is not listed takes up all.

    Returns
    -------
    float
        Share of what was lost. [share]

    Notes
    -----
    Freeze-dried 0.9; dried in warm air grain 1, legumes 0.7, vegetables 0.6, meat and fish 0.5,
    fruit 0.4, all else 1.

    References
    ----------
    .. [usda-sr28] USDA SR28, dried foods and the same ones stewed (worked out).
    .. [ranganna1986] Ranganna, 1986, rehydration ratios (quoted from memory).
    """
    if method == "freeze-dryer":
        return FREEZE_DRIED_TAKES_UP_SHARE
    return TAKES_UP_SHARE.get(kind, ELSE_TAKES_UP_SHARE)


@declared("lost_ml * takes_up_share")
def taken_up_ml(lost_ml: float, takes_up_share: float) -> float:
    """Water that a dried food takes up again.

    Parameters
    ----------
    lost_ml : float
        Water that drying took out. [ml], 0 or more
    takes_up_share : float
        Share of it that comes back. [share], 0 to 1

    Returns
    -------
    float
        Uptake. [ml]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    lost * takes up.

    References
    ----------
    .. [usda-sr28] USDA SR28, dried foods and the same ones stewed (worked out).
    """
    require("water that drying took out", lost_ml, "ml", 0.0)
    require("share taken up", takes_up_share, "", 0.0, 1.0)
    return lost_ml * takes_up_share


@declared(
    "lost_ml * min(1, pour_factor * takes_up_share)",
    {"pour_factor": Constant(POUR_FACTOR, "common-practice")},
)
def auto_water_ml(lost_ml: float, takes_up_share: float) -> float:
    """Water to pour on a dried food, so that it takes up what it will and swims in little more.

    Parameters
    ----------
    lost_ml : float
        Water that drying took out. [ml], 0 or more
    takes_up_share : float
        Share of it that comes back. [share], 0 to 1

    Returns
    -------
    float
        Volume; what is not taken up stays as broth. [ml]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    lost * min(1, 1.25 takes up).

    References
    ----------
    .. [usda-sr28] USDA SR28, dried foods and the same ones stewed (worked out).
    .. [common-practice] A quarter more than is taken up, no source.
    """
    require("water that drying took out", lost_ml, "ml", 0.0)
    require("share taken up", takes_up_share, "", 0.0, 1.0)
    return lost_ml * min(1.0, POUR_FACTOR * takes_up_share)


def soak_range_min(kind: str, water: str) -> tuple[float, float]:
    """Minutes that a kind of dried food usually soaks.

    Parameters
    ----------
    kind : str
        fruit, vegetable, mushroom or freeze-dried.
    water : str
        cold, warm or boiling, as far as SOAK_MIN has it.

    Returns
    -------
    tuple of float
        Fewest and most minutes. [min]

    Raises
    ------
    ValueError
        If nothing is known for this kind and water.

    References
    ----------
    .. [extension-rehydration] Soaking table of an extension service (read in a copy).
    .. [msu-preserving] Michigan State University Extension: half an hour to two in cold
       water (read in a copy).
    """
    known = tuple(f"{a} in {b} water" for a, b in SOAK_MIN)
    require_known("soaking", f"{kind} in {water} water", known)
    return SOAK_MIN[kind, water]


def standing_hours(food_c: float, air_c: float) -> float:
    """How long wetted food may stand before it is eaten.

    Parameters
    ----------
    food_c : float
        Temperature of the food. [degC], 0 to 100
    air_c : float
        Temperature of the air. [degC], -90 to 60

    Returns
    -------
    float
        Hours: 2, above 32.2 degC 1; no limit at 4.4 degC and below or from 60 degC. [h]

    Raises
    ------
    ValueError
        If a value is outside its range.

    References
    ----------
    .. [fsis-two-hours] USDA FSIS, 2016, danger zone of 40 to 140 degF (read in a copy).
    """
    require("temperature of the food", food_c, "°C", COLDEST_WATER_C, HOTTEST_WATER_C)
    hours = hours_out_of_cold(air_c)
    return hours if COLD_UP_TO_C < food_c < HOT_HOLDING_C else math.inf
