"""Oxygen in a pack, absorbers for it, swelling with height, and life used up in storage."""

from __future__ import annotations

from builder.formulas.air import (
    EXPONENT,
    LAPSE_RATE_K_M,
    SEA_LEVEL_PRESSURE_HPA,
    SEA_LEVEL_TEMPERATURE_K,
    pressure_hpa,
)
from builder.formulas.declaring import Constant, declared
from builder.formulas.keeping import (
    MONTHS_KEPT,
    MONTHS_KEPT_BY,
    OXYGEN_SHARE_OF_AIR,
    months_kept,
    void_oxygen_ml,
)
from builder.formulas.ranges import require, require_above

# Sizes in trade, in ml of oxygen taken up (common practice).
ABSORBER_SIZES_ML = (20.0, 50.0, 100.0, 200.0, 300.0, 500.0, 1000.0, 2000.0)
# Dried plant solids without the air in them (textbooks, from memory: 1.4 to 1.6).
SOLIDS_G_ML = 1.5

# Pressure at a height over that at the sea's level.
_THINNER = "(1 - lapse_k_m * altitude_m / t0_k) ^ air_exponent"

# The sizes as a chain of questions: the first that is enough.
_SIZES = {f"size_{each:.0f}_ml": Constant(each, "common-practice") for each in ABSORBER_SIZES_ML}

DAYS_PER_MONTH = 365.25 / 12.0
_KEPT_BY = {**MONTHS_KEPT_BY, "days_per_month": Constant(DAYS_PER_MONTH, "common-practice")}


@declared(
    "food_g * ((1 - water_share) / solids_g_ml + water_share)",
    {"solids_g_ml": Constant(SOLIDS_G_ML, "fellows")},
)
def solid_volume_ml(food_g: float, water_share: float) -> float:
    """Volume of a dried food itself, without the air in and between the pieces.

    Parameters
    ----------
    food_g : float
        Mass of the dried food. [g], 0 or more
    water_share : float
        Water in it. [share], 0 to 1

    Returns
    -------
    float
        Volume that holds no air. [ml]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    food ((1 - w) / 1.5 + w).

    References
    ----------
    .. [fellows] Fellows, 2009, density of dry solids 1.4 to 1.6 g/ml (quoted from memory).
    """
    require("mass of the food", food_g, "g", 0.0)
    require("water share", water_share, "", 0.0, 1.0)
    return food_g * ((1.0 - water_share) / SOLIDS_G_ML + water_share)


@declared(
    f"oxygen_share * (container_ml - food_ml) * {_THINNER}",
    {
        "oxygen_share": Constant(OXYGEN_SHARE_OF_AIR, "iso2533"),
        "lapse_k_m": Constant(LAPSE_RATE_K_M, "iso2533"),
        "t0_k": Constant(SEA_LEVEL_TEMPERATURE_K, "iso2533"),
        "air_exponent": Constant(EXPONENT, "iso2533"),
    },
)
def pack_oxygen_ml(container_ml: float, food_ml: float, altitude_m: float = 0.0) -> float:
    """Oxygen in a container that was closed at a height, as volume at the sea's level.

    Parameters
    ----------
    container_ml : float
        Inner volume. [ml], 0 or more
    food_ml : float
        Volume of the food itself, without air. [ml], 0 to container_ml
    altitude_m : float
        Where it was closed. [m], -500 to 11000

    Returns
    -------
    float
        Volume of oxygen at the sea's level, as absorbers are rated. [ml]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    0.2095 (container - food) p / p0.

    References
    ----------
    .. [us-atmosphere-1976] U.S. Standard Atmosphere, 1976, composition of air and pressure
       (quoted from memory).
    """
    thinner = pressure_hpa(altitude_m) / SEA_LEVEL_PRESSURE_HPA
    return void_oxygen_ml(container_ml, food_ml) * thinner


def _first_enough() -> str:
    """Expression that gives the smallest size that is enough."""
    *small, largest = _SIZES
    text = largest
    for size in reversed(small):
        text = f"if(oxygen_ml <= {size}, {size}, {text})"
    return text


@declared(_first_enough(), _SIZES)
def absorber_size_ml(oxygen_ml: float) -> float:
    """Smallest absorber in trade that takes up the oxygen of a pack.

    Parameters
    ----------
    oxygen_ml : float
        Oxygen in the pack. [ml], 0 to 2000

    Returns
    -------
    float
        One of ABSORBER_SIZES_ML. [ml]

    Raises
    ------
    ValueError
        If the oxygen is outside the range above.

    References
    ----------
    .. [common-practice] Common practice, no source: sizes in trade.
    """
    require("oxygen in the pack", oxygen_ml, "ml", 0.0, ABSORBER_SIZES_ML[-1])
    return next(size for size in ABSORBER_SIZES_ML if size >= oxygen_ml)


@declared(f"days / ({MONTHS_KEPT} * days_per_month)", _KEPT_BY)
def life_used(table_months: float, days: float, kept_at_c: float) -> float:
    """Share of its keeping time that a food has used up in one place.

    Parameters
    ----------
    table_months : float
        Months that it keeps at 15.6 degC. [months], above 0 to 120
    days : float
        Days there. [d], 0 or more
    kept_at_c : float
        Temperature of the place. [degC], -40 to 40

    Returns
    -------
    float
        Used share; over all places 1 is the best-before day. [share]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    Days / (30.44 T 2 ** ((15.6 - t) / 11.1)), by the rule for one place: cold, unless it
    freezes, gives nothing back above the table. Shares of several places add up.

    References
    ----------
    .. [uga-drying] University of Georgia Extension, 2014, So Easy to Preserve: half as long
       for each 20 degF (read in a copy).
    """
    require_above("months of the table", table_months, "months", 0.0)
    require("days in a place", days, "d", 0.0)
    return days / (months_kept(table_months, kept_at_c) * DAYS_PER_MONTH)


@declared(f"max(0, 1 - used_share) * {MONTHS_KEPT} * days_per_month", _KEPT_BY)
def days_left(table_months: float, used_share: float, kept_at_c: float) -> float:
    """Days that a food still keeps after stays in several places.

    Parameters
    ----------
    table_months : float
        Months that it keeps at 15.6 degC. [months], above 0 to 120
    used_share : float
        Share of its time that it used up in other places. [share], 0 or more
    kept_at_c : float
        Temperature of the place where it stays from now on. [degC], -40 to 40

    Returns
    -------
    float
        Days, 0 where nothing is left. [d]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    (1 - used) 30.44 T 2 ** ((15.6 - kept_at) / 11.1).

    References
    ----------
    .. [uga-drying] University of Georgia Extension, 2014, So Easy to Preserve: half as long
       for each 20 degF (read in a copy).
    """
    require_above("months of the table", table_months, "months", 0.0)
    require("share used up", used_share, "", 0.0)
    return max(0.0, 1.0 - used_share) * months_kept(table_months, kept_at_c) * DAYS_PER_MONTH
