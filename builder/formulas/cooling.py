"""How food and water cool while they stand, and what warms what."""

from __future__ import annotations

import math

from builder.formulas.declaring import Constant, FromTable, declared, declared_ends
from builder.formulas.ranges import require, require_above, require_known

# USDA FSIS: hot food stays at 140 degF or above (read in a copy).
HOT_HOLDING_C = 60.0

# Siebel 1892, food above freezing.
SIEBEL_WATER_KJ_KG_K, SIEBEL_SOLIDS_KJ_KG_K = 3.35, 0.84


# Heat lost for each kelvin above the air by 600 g of food: least, likely, most [W/K]. Field
# estimates; no source. "-bare" stands free, "-cosy" in foam or cloth, pots lidded or open.
LOSS_W_K: dict[str, tuple[float, float, float]] = {
    "pouch-bare": (1.2, 1.5, 2.0),
    "pouch-cosy": (0.4, 0.5, 0.65),
    "pot-open": (1.5, 2.2, 3.0),
    "pot-lid": (0.8, 1.0, 1.3),
    "pot-lid-cosy": (0.3, 0.4, 0.6),
    "mug-open": (1.2, 1.8, 2.5),
}
LOSS_AT_G = 600.0
# Wind halves the time constant of what stands bare (from memory); a cosy feels it less.
WIND_LOSS_FACTOR: dict[str, float] = {"sheltered": 1.0, "breezy": 1.5, "windy": 2.0}
COSY_FEELS_SHARE = 0.3
SURFACE_OF_MASS = 2.0 / 3.0

_G_PER_KG = 1000.0
_J_PER_KJ = 1000.0
_S_PER_MIN = 60.0
_COLDEST_C = -90.0
_HOTTEST_C = 130.0


@declared("air_c + (start_c - air_c) * exp(-duration_min / constant_min)")
def cooled_c(start_c: float, air_c: float, duration_min: float, constant_min: float) -> float:
    """Temperature of food that has stood for a time.

    Parameters
    ----------
    start_c : float
        Temperature at the start. [degC], -90 to 130
    air_c : float
        Temperature of the air. [degC], -90 to 60
    duration_min : float
        How long it stood. [min], 0 or more
    constant_min : float
        Its time constant. [min], above 0

    Returns
    -------
    float
        Temperature then. [degC]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    T = T_air + (T_start - T_air) exp(-t / tau).

    References
    ----------
    .. [incropera] Incropera and others, 2007, lumped capacitance (quoted from memory).
    """
    _require_temperatures(start_c, air_c)
    require("time it stands", duration_min, "min", 0.0)
    require_above("time constant", constant_min, "min", 0.0)
    return air_c + (start_c - air_c) * math.exp(-duration_min / constant_min)


@declared("mass_g * specific_heat_kj_kg_k / loss_w_k / 60")
def time_constant_min(mass_g: float, specific_heat_kj_kg_k: float, loss_w_k: float) -> float:
    """Time in which the distance to the air's temperature falls to 37 percent.

    Parameters
    ----------
    mass_g : float
        Mass that cools. [g], above 0
    specific_heat_kj_kg_k : float
        Its specific heat. [kJ/(kg K)], above 0
    loss_w_k : float
        Heat it loses for each kelvin above the air. [W/K], above 0

    Returns
    -------
    float
        Time constant. [min]

    Raises
    ------
    ValueError
        If a value is not above zero.

    Notes
    -----
    tau = m c / UA.

    References
    ----------
    .. [incropera] Incropera and others, 2007, lumped capacitance (quoted from memory).
    """
    require_above("mass", mass_g, "g", 0.0)
    require_above("specific heat", specific_heat_kj_kg_k, "kJ/(kg K)", 0.0)
    require_above("heat loss", loss_w_k, "W/K", 0.0)
    held_j_k = mass_g / _G_PER_KG * specific_heat_kj_kg_k * _J_PER_KJ
    return held_j_k / loss_w_k / _S_PER_MIN


@declared("if(start_c < above_c, 0, constant_min * ln((start_c - air_c) / (above_c - air_c)))")
def minutes_above(
    start_c: float, air_c: float, constant_min: float, above_c: float = HOT_HOLDING_C
) -> float:
    """How long standing food stays above a temperature.

    Parameters
    ----------
    start_c : float
        Temperature at the start. [degC], -90 to 130
    air_c : float
        Temperature of the air. [degC], -90 to 60
    constant_min : float
        Time constant. [min], above 0
    above_c : float
        Temperature that counts. [degC], -90 to 130

    Returns
    -------
    float
        Minutes: 0 where it starts below, without end where the air is as warm. [min]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    tau ln((T_start - T_air) / (T - T_air)).

    References
    ----------
    .. [incropera] Incropera and others, 2007, lumped capacitance (quoted from memory).
    """
    _require_temperatures(start_c, air_c)
    require_above("time constant", constant_min, "min", 0.0)
    require("temperature that counts", above_c, "°C", _COLDEST_C, _HOTTEST_C)
    if start_c < above_c:
        return 0.0
    if air_c >= above_c:
        return math.inf
    return constant_min * math.log((start_c - air_c) / (above_c - air_c))


@declared(
    "of_water_kj_kg_k * water_share + of_solids_kj_kg_k",
    {
        "of_water_kj_kg_k": Constant(SIEBEL_WATER_KJ_KG_K, "siebel1892"),
        "of_solids_kj_kg_k": Constant(SIEBEL_SOLIDS_KJ_KG_K, "siebel1892"),
    },
)
def siebel_kj_kg_k(water_share: float) -> float:
    """Specific heat of food above freezing from its water alone.

    Parameters
    ----------
    water_share : float
        Water in the food. [share], 0 to 1

    Returns
    -------
    float
        Specific heat. [kJ/(kg K)]

    Raises
    ------
    ValueError
        If the share is outside the range above.

    Notes
    -----
    3.35 w + 0.84; too low for dry food.

    References
    ----------
    .. [siebel1892] Siebel, 1892, specific heat of various products (quoted from memory).
    """
    require("water share", water_share, "", 0.0, 1.0)
    return SIEBEL_WATER_KJ_KG_K * water_share + SIEBEL_SOLIDS_KJ_KG_K


def _least_w_k(vessel: str) -> float:
    """Least heat lost in calm air."""
    return LOSS_W_K[vessel][0]


def _likely_w_k(vessel: str) -> float:
    """Likely heat lost in calm air."""
    return LOSS_W_K[vessel][1]


def _most_w_k(vessel: str) -> float:
    """Most heat lost in calm air."""
    return LOSS_W_K[vessel][2]


def _wind_factor(vessel: str, wind: str) -> float:
    """How many times the heat of calm air wind takes."""
    excess = WIND_LOSS_FACTOR[wind] - 1.0
    return 1.0 + (excess * COSY_FEELS_SHARE if vessel.endswith("-cosy") else excess)


@declared_ends(
    "least_w_k * (mass_g / loss_at_g) ^ surface_of_mass * wind_factor",
    "likely_w_k * (mass_g / loss_at_g) ^ surface_of_mass * wind_factor",
    "most_w_k * (mass_g / loss_at_g) ^ surface_of_mass * wind_factor",
    constants={
        "loss_at_g": Constant(LOSS_AT_G, "common-practice"),
        "surface_of_mass": Constant(SURFACE_OF_MASS, "common-practice"),
    },
    tables={
        "least_w_k": FromTable(_least_w_k, ("vessel",), "common-practice"),
        "likely_w_k": FromTable(_likely_w_k, ("vessel",), "common-practice"),
        "most_w_k": FromTable(_most_w_k, ("vessel",), "common-practice"),
        "wind_factor": FromTable(_wind_factor, ("vessel", "wind"), "common-practice"),
    },
)
def loss_range_w_k(vessel: str, mass_g: float, wind: str) -> tuple[float, float, float]:
    """Heat that a vessel of hot food loses for each kelvin above the air.

    Parameters
    ----------
    vessel : str
        A key of LOSS_W_K.
    mass_g : float
        Mass of what is in it. [g], above 0
    wind : str
        sheltered, breezy or windy.

    Returns
    -------
    tuple of float
        Least, likely and most. [W/K]

    Raises
    ------
    ValueError
        If a value is outside its range or a name is not known.

    Notes
    -----
    Table for 600 g times (mass / 600) ** (2 / 3), as the surface grows; wind multiplies by
    1.5 or 2, in a cosy by 0.3 of the excess.

    References
    ----------
    .. [common-practice] Common practice, no source: estimates in the field.
    """
    require_known("vessel", vessel, LOSS_W_K)
    require_known("wind", wind, WIND_LOSS_FACTOR)
    require_above("mass", mass_g, "g", 0.0)
    factor = float((mass_g / LOSS_AT_G) ** SURFACE_OF_MASS) * _wind_factor(vessel, wind)
    least, likely, most = LOSS_W_K[vessel]
    return least * factor, likely * factor, most * factor


def _require_temperatures(start_c: float, air_c: float) -> None:
    """Raise ValueError unless food and air can be like this."""
    require("temperature at the start", start_c, "°C", _COLDEST_C, _HOTTEST_C)
    require("air temperature", air_c, "°C", _COLDEST_C, 60.0)
