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
# With one litre or less in the pot; fitted to 670 W into 3 l and 1034 W into 5 l.
OPEN_FIRE_POWER_W = 3500.0
# The surface of a pot grows so with what it holds (geometry).
POT_SURFACE_EXPONENT = 2.0 / 3.0
# Published fires turn down by 2.5 to 2.7 for a simmer.
OPEN_FIRE_LOWEST_SHARE = 0.35

# Embers for an iron: field estimates from memory.
EMBER_MIN = 45.0
EMBER_WOOD_G = 3000.0
KEEPING_WOOD_G_PER_H = 2000.0
TURN_MIN = 1.0
_MIN_PER_H = 60.0
_ML_PER_L = 1000.0


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
    "litre_w * max(1, volume_ml / potfuls / 1000)^surface_exponent",
    {
        "litre_w": Constant(OPEN_FIRE_POWER_W, "three-stone-tests"),
        "surface_exponent": Constant(POT_SURFACE_EXPONENT, "common-practice"),
    },
)
def open_fire_w(volume_ml: float, potfuls: float) -> float:
    """Power of the open fire that one keeps under a pot.

    Parameters
    ----------
    volume_ml : float
        The most there is to cook, food and water, in all potfuls. [ml], 0 to 1000000
    potfuls : float
        Times the pot is filled with it. [-], 1 or more

    Returns
    -------
    float
        Power of the fire, of which a tenth reaches the pot. [W]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    3500 max(1, V)^(2/3), V in litres in the pot at once. Half to twice of it is usual.

    References
    ----------
    .. [three-stone-tests] Tests of tended three-stone fires under 3 and 5 litres
       (read in a copy).
    """
    require("volume in the pot", volume_ml, "ml", 0.0, 1_000_000.0)
    require("potfuls", potfuls, "", 1.0)
    litres = volume_ml / potfuls / _ML_PER_L
    return float(OPEN_FIRE_POWER_W * max(1.0, litres) ** POT_SURFACE_EXPONENT)


@declared(
    "lowest_share * power_w",
    {"lowest_share": Constant(OPEN_FIRE_LOWEST_SHARE, "three-stone-tests")},
)
def open_fire_lowest_w(power_w: float) -> float:
    """Least power of an open fire that keeps a pot at the boil.

    Parameters
    ----------
    power_w : float
        Power of the fire in full flames. [W], 0 or more

    Returns
    -------
    float
        Power of the fire once it is let down. [W]

    Raises
    ------
    ValueError
        If the power is negative.

    Notes
    -----
    0.35 power.

    References
    ----------
    .. [three-stone-tests] Tests of tended three-stone fires: turned down 2.5 to 2.7 times
       (read in a copy).
    """
    require("power of the fire", power_w, "W", 0.0)
    return OPEN_FIRE_LOWEST_SHARE * power_w


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
    "fires * ember_g + keeping_g_h / 60 * press_minutes",
    {
        "ember_g": Constant(EMBER_WOOD_G, "common-practice"),
        "keeping_g_h": Constant(KEEPING_WOOD_G_PER_H, "common-practice"),
    },
)
def iron_wood_g(press_minutes: float, fires: float = 1.0) -> float:
    """Wood for what is pressed in irons or baked at one meal.

    Parameters
    ----------
    press_minutes : float
        Minutes of pressing and baking after the embers are ready. [min], 0 or more
    fires : float
        Fires burnt down to embers for it: none where another dish of the meal has them.
        [-], 0 to 1

    Returns
    -------
    float
        Mass of wood. [g]

    Raises
    ------
    ValueError
        If the minutes are negative, or there is more than one fire.

    Notes
    -----
    3000 fires + 2000 / 60 minutes: a fire burnt down to embers, then two kilograms an hour.

    References
    ----------
    .. [common-practice] Common practice, no source.
    """
    require("pressing time", press_minutes, "min", 0.0)
    require("fires", fires, "", 0.0, 1.0)
    return fires * EMBER_WOOD_G + KEEPING_WOOD_G_PER_H / _MIN_PER_H * press_minutes
