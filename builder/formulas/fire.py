"""Wood: the heat in it, an open fire, and embers for the iron."""

from __future__ import annotations

from builder.formulas.declaring import Constant, declared
from builder.formulas.ranges import require

# Dry wood without ash, and heat to turn its water to vapour (ISO 18125 form, from memory).
DRY_WOOD_MJ_KG = 18.5
WATER_IN_WOOD_MJ_KG = 2.443
# Wood with more water than this does not burn by itself.
MOST_WOOD_MOISTURE_SHARE = 0.60

# A pot over an open fire: Jetter and Kariher 2009 found 0.10 to 0.18 indoors (from memory).
OPEN_FIRE_EFFICIENCY_SHARE = 0.10
# Field estimates from memory; an open fire has no lowest setting.
OPEN_FIRE_POWER_W = 3000.0
OPEN_FIRE_LOWEST_W = 0.0

# Embers for an iron: field estimates from memory.
EMBER_MIN = 45.0
EMBER_WOOD_G = 3000.0
KEEPING_WOOD_G_PER_H = 2000.0
TURN_MIN = 1.0
_MIN_PER_H = 60.0


@declared(
    "dry_mj_kg * (1 - moisture_share) - vapour_mj_kg * moisture_share",
    {
        "dry_mj_kg": Constant(DRY_WOOD_MJ_KG, "iso18125"),
        "vapour_mj_kg": Constant(WATER_IN_WOOD_MJ_KG, "iso18125"),
    },
)
def wood_heating_value_mj_kg(moisture_share: float) -> float:
    """Net heat in a kilogram of wood as it lies.

    Parameters
    ----------
    moisture_share : float
        Water in the wood, wet basis. [share], 0 to 0.6

    Returns
    -------
    float
        Net heating value. [MJ/kg]

    Raises
    ------
    ValueError
        If the share is outside the range above.

    Notes
    -----
    18.5 (1 - M) - 2.443 M.

    References
    ----------
    .. [iso18125] ISO 18125, Solid biofuels: determination of calorific value
       (quoted from memory).
    """
    require("water share of the wood", moisture_share, "", 0.0, MOST_WOOD_MOISTURE_SHARE)
    return DRY_WOOD_MJ_KG * (1.0 - moisture_share) - WATER_IN_WOOD_MJ_KG * moisture_share


@declared(
    "presses * (2 * each_side_min + turn_min)", {"turn_min": Constant(TURN_MIN, "common-practice")}
)
def iron_minutes(presses: float, each_side_min: float) -> float:
    """Minutes at the embers for a number of presses, one after the other.

    Parameters
    ----------
    presses : float
        Fillings cooked one after the other. [-], 0 or more
    each_side_min : float
        Minutes on each side. [min], 0 or more

    Returns
    -------
    float
        Minutes, with one to turn and fill each press. [min]

    Raises
    ------
    ValueError
        If a value is negative.

    Notes
    -----
    presses (2 each_side + 1).

    References
    ----------
    .. [common-practice] Common practice, no source.
    """
    require("number of presses", presses, "", 0.0)
    require("time on each side", each_side_min, "min", 0.0)
    return presses * (2.0 * each_side_min + TURN_MIN)


@declared(
    "ember_g + keeping_g_h / 60 * press_minutes",
    {
        "ember_g": Constant(EMBER_WOOD_G, "common-practice"),
        "keeping_g_h": Constant(KEEPING_WOOD_G_PER_H, "common-practice"),
    },
)
def iron_wood_g(press_minutes: float) -> float:
    """Wood for the embers of one meal from the iron.

    Parameters
    ----------
    press_minutes : float
        Minutes of pressing after the embers are ready. [min], 0 or more

    Returns
    -------
    float
        Mass of wood. [g]

    Raises
    ------
    ValueError
        If the minutes are negative.

    Notes
    -----
    3000 + 2000 / 60 minutes: a fire burnt down to embers, then two kilograms an hour.

    References
    ----------
    .. [common-practice] Common practice, no source.
    """
    require("pressing time", press_minutes, "min", 0.0)
    return EMBER_WOOD_G + KEEPING_WOOD_G_PER_H / _MIN_PER_H * press_minutes
