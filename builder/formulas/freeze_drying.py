"""What a freeze dryer has to do: ice, its pressure, its heat, and the hours."""

from __future__ import annotations

import math

from builder.formulas.boiling import ZERO_CELSIUS_K
from builder.formulas.declaring import Constant, FromTable, declared, declared_ends
from builder.formulas.drying import MOST_WATER_SHARE
from builder.formulas.heat import ICE_KJ_KG_K, MELTING_KJ_KG
from builder.formulas.ranges import require, require_above

# Murphy and Koop 2005, equations 7 and 5.
_A, _B, _C, _D = 9.550426, 5723.265, 3.53068, 0.00728332
_L0, _L1, _L2, _L3, _L4 = 46782.5, 35.8925, -0.07414, 541.5, 123.75
WATER_MOLAR_MASS_G_MOL = 18.01528

COLDEST_ICE_C = -100.0
WARMEST_ICE_C = 0.0

# Siebel 1892: kJ/(kg K) of unfrozen and frozen food, for its water and for all of it.
_UNFROZEN_WATER_KJ_KG_K = 3.35
_FROZEN_WATER_KJ_KG_K = 1.26
_SOLIDS_KJ_KG_K = 0.84

# A slab of 12.5 mm with 75 to 85 percent water (chapter on freeze-drying, read in a copy).
SLAB_MM = 12.5
SLAB_HOURS = (14.0, 18.0)
THINNEST_MM = 3.0
THICKEST_MM = 40.0

_G_PER_KG = 1000.0
_MM_PER_CM = 10.0

_FROZEN = "(frozen_water_kj_kg_k * water_share + solids_kj_kg_k)"


def ice_pressure_pa(temperature_c: float) -> float:
    """Pressure of water vapour over ice.

    Parameters
    ----------
    temperature_c : float
        Temperature of the ice. [degC], -100 to 0

    Returns
    -------
    float
        Vapour pressure. [Pa]

    Raises
    ------
    ValueError
        If the temperature is outside the range above.

    Notes
    -----
    ln p = 9.550426 - 5723.265 / T + 3.53068 ln T - 0.00728332 T, T in K.

    References
    ----------
    .. [murphy-koop2005] Murphy and Koop, 2005, equation 7 (read in a copy).
    """
    _require_ice(temperature_c)
    return math.exp(_log_pressure(temperature_c + ZERO_CELSIUS_K))


def ice_temperature_c(pressure_pa: float) -> float:
    """Temperature at which ice has a vapour pressure: that of food drying in a chamber.

    Parameters
    ----------
    pressure_pa : float
        Pressure of the vapour. [Pa], about 0.0014 to 611.15 (those of -100 and 0 degC)

    Returns
    -------
    float
        Temperature of the ice. [degC]

    Raises
    ------
    ValueError
        If the pressure is outside the range above.

    Notes
    -----
    Inverse of the pressure formula by Newton's rule, from the closed start
    T = (1.814625 ln p + 6190.134) / (29.120 - ln p) of the same paper.

    References
    ----------
    .. [murphy-koop2005] Murphy and Koop, 2005, equations 7 and 8 (read in a copy).
    """
    require("pressure of the vapour", pressure_pa, "Pa", LEAST_PRESSURE_PA, MOST_PRESSURE_PA)
    wanted = math.log(pressure_pa)
    kelvin = (1.814625 * wanted + 6190.134) / (29.120 - wanted)
    # The start is good to 0.04 K and each round squares the error: three reach rounding.
    for _ in range(3):
        slope = _B / kelvin**2 + _C / kelvin - _D
        kelvin -= (_log_pressure(kelvin) - wanted) / slope
    return min(kelvin - ZERO_CELSIUS_K, WARMEST_ICE_C)


def sublimation_kj_kg(temperature_c: float) -> float:
    """Heat that turns a kilogram of ice to vapour at a temperature.

    Parameters
    ----------
    temperature_c : float
        Temperature of the ice. [degC], -100 to 0

    Returns
    -------
    float
        Heat of sublimation. [kJ/kg]

    Raises
    ------
    ValueError
        If the temperature is outside the range above.

    Notes
    -----
    (46782.5 + 35.8925 T - 0.07414 T ** 2 + 541.5 exp(-(T / 123.75) ** 2)) J/mol over
    18.01528 g/mol.

    References
    ----------
    .. [murphy-koop2005] Murphy and Koop, 2005, equation 5 (read in a copy).
    """
    _require_ice(temperature_c)
    kelvin = temperature_c + ZERO_CELSIUS_K
    molar = _L0 + _L1 * kelvin + _L2 * kelvin**2 + _L3 * math.exp(-((kelvin / _L4) ** 2))
    return molar / WATER_MOLAR_MASS_G_MOL


@declared(
    "ice_g / 1000 * (ice_kj_kg_k * (ice_c - loaded_at_c) + sublimation_kj_kg)",
    {"ice_kj_kg_k": Constant(ICE_KJ_KG_K, "crc-handbook")},
    {"sublimation_kj_kg": FromTable(sublimation_kj_kg, ("ice_c",), "murphy-koop2005")},
)
def sublimation_floor_kj(ice_g: float, loaded_at_c: float, ice_c: float) -> float:
    """Least heat that the shelves give to a frozen load.

    Parameters
    ----------
    ice_g : float
        Water to be taken out, as ice. [g], 0 or more
    loaded_at_c : float
        Temperature at which the load went in. [degC], -100 to 0
    ice_c : float
        Temperature of the ice while it dries. [degC], -100 to 0

    Returns
    -------
    float
        Heat; a dryer takes several times as much. [kJ]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    ice (2.09 (ice_c - loaded_at) + L(ice_c)): a colder load has to be warmed first, a
    warmer one gives a little back.

    References
    ----------
    .. [murphy-koop2005] Murphy and Koop, 2005, equation 5 (read in a copy).
    .. [crc-handbook] CRC Handbook of Chemistry and Physics, ice (quoted from memory).
    """
    require("mass of ice", ice_g, "g", 0.0)
    require("temperature of the load", loaded_at_c, "°C", COLDEST_ICE_C, WARMEST_ICE_C)
    warming = ICE_KJ_KG_K * (ice_c - loaded_at_c)
    return ice_g / _G_PER_KG * (warming + sublimation_kj_kg(ice_c))


@declared(
    f"load_g / 1000 * if(loaded_at_c <= 0, {_FROZEN} * (loaded_at_c - frozen_at_c), "
    f"(unfrozen_water_kj_kg_k * water_share + solids_kj_kg_k) * loaded_at_c "
    f"+ melting_kj_kg * water_share - {_FROZEN} * frozen_at_c)",
    {
        "unfrozen_water_kj_kg_k": Constant(_UNFROZEN_WATER_KJ_KG_K, "siebel1892"),
        "frozen_water_kj_kg_k": Constant(_FROZEN_WATER_KJ_KG_K, "siebel1892"),
        "solids_kj_kg_k": Constant(_SOLIDS_KJ_KG_K, "siebel1892"),
        "melting_kj_kg": Constant(MELTING_KJ_KG, "crc-handbook"),
    },
)
def freezing_heat_kj(
    load_g: float, water_share: float, loaded_at_c: float, frozen_at_c: float
) -> float:
    """Heat that has to be taken out of a load to freeze it.

    Parameters
    ----------
    load_g : float
        Mass of the load. [g], 0 or more
    water_share : float
        Water in the food. [share], 0 to 0.98
    loaded_at_c : float
        Temperature at which the load goes in. [degC], frozen_at_c to 100
    frozen_at_c : float
        Temperature at which drying may start. [degC], -100 to -5

    Returns
    -------
    float
        Heat; a load frozen beforehand saves the machine most of it. [kJ]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    Above 0 degC (3.35 w + 0.84) t, at 0 degC 333.55 w, below (1.26 w + 0.84) (0 - t), in
    kJ/kg; all water freezes at 0 degC.

    References
    ----------
    .. [siebel1892] Siebel, 1892, specific heat of unfrozen and frozen food
       (quoted from memory).
    """
    require("mass of the load", load_g, "g", 0.0)
    require("water share", water_share, "", 0.0, MOST_WATER_SHARE)
    require("temperature of the frozen load", frozen_at_c, "°C", COLDEST_ICE_C, -5.0)
    require("temperature of the load", loaded_at_c, "°C", frozen_at_c, 100.0)
    frozen = _FROZEN_WATER_KJ_KG_K * water_share + _SOLIDS_KJ_KG_K
    if loaded_at_c <= 0.0:
        # At 0 degC itself it counts as frozen through.
        return load_g / _G_PER_KG * frozen * (loaded_at_c - frozen_at_c)
    unfrozen = _UNFROZEN_WATER_KJ_KG_K * water_share + _SOLIDS_KJ_KG_K
    each_kg = unfrozen * loaded_at_c + MELTING_KJ_KG * water_share - frozen * frozen_at_c
    return load_g / _G_PER_KG * each_kg


@declared("max(load_g / most_load_g, ice_g / most_ice_g)")
def load_of_limit(load_g: float, ice_g: float, most_load_g: float, most_ice_g: float) -> float:
    """How much of what a freeze dryer can take a load asks for.

    Parameters
    ----------
    load_g : float
        Mass of the load. [g], 0 or more
    ice_g : float
        Water it gives off. [g], 0 to load_g
    most_load_g : float
        Most that the trays take. [g], above 0
    most_ice_g : float
        Most ice that the condenser takes. [g], above 0

    Returns
    -------
    float
        The larger of the two parts; above 1 is too much. [share]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    max(load / most load, ice / most ice).

    References
    ----------
    .. [common-practice] Common practice, no source: makers give both limits.
    """
    require("mass of the load", load_g, "g", 0.0)
    require("water it gives off", ice_g, "g", 0.0, load_g)
    require_above("largest load", most_load_g, "g", 0.0)
    require_above("most ice", most_ice_g, "g", 0.0)
    return max(load_g / most_load_g, ice_g / most_ice_g)


@declared("load_g / density_g_ml / trays_cm2 * 10")
def layer_mm(load_g: float, density_g_ml: float, trays_cm2: float) -> float:
    """Thickness of a load spread evenly over the trays.

    Parameters
    ----------
    load_g : float
        Mass of the load. [g], 0 or more
    density_g_ml : float
        Density as it lies. [g/ml], above 0
    trays_cm2 : float
        Area of all trays together. [cm2], above 0

    Returns
    -------
    float
        Thickness. [mm]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    10 load / density / area.
    """
    require("mass of the load", load_g, "g", 0.0)
    require_above("density", density_g_ml, "g/ml", 0.0)
    require_above("area of the trays", trays_cm2, "cm²", 0.0)
    return load_g / density_g_ml / trays_cm2 * _MM_PER_CM


@declared_ends(
    "fewest_h * (thickness_mm / slab_mm) ^ 2",
    "most_h * (thickness_mm / slab_mm) ^ 2",
    constants={
        "fewest_h": Constant(SLAB_HOURS[0], "freeze-drying-chapter"),
        "most_h": Constant(SLAB_HOURS[1], "freeze-drying-chapter"),
        "slab_mm": Constant(SLAB_MM, "freeze-drying-chapter"),
    },
)
def hours_range(thickness_mm: float) -> tuple[float, float]:
    """Hours that a frozen layer takes, from few to many.

    Parameters
    ----------
    thickness_mm : float
        Thickness of the layer. [mm], 3 to 40

    Returns
    -------
    tuple of float
        Fewest and most hours for food with 75 to 85 percent water. [h]

    Raises
    ------
    ValueError
        If the thickness is outside the range above.

    Notes
    -----
    14 to 18 hours for 12.5 mm, times (L / 12.5) ** 2.

    References
    ----------
    .. [freeze-drying-chapter] Freeze-drying, chapter of an encyclopedia (read in a copy).
    """
    require("thickness of the layer", thickness_mm, "mm", THINNEST_MM, THICKEST_MM)
    factor = (thickness_mm / SLAB_MM) ** 2
    fewest, most = SLAB_HOURS
    return fewest * factor, most * factor


def _log_pressure(kelvin: float) -> float:
    """Natural logarithm of the vapour pressure over ice in Pa."""
    return _A - _B / kelvin + _C * math.log(kelvin) - _D * kelvin


def _require_ice(temperature_c: float) -> None:
    """Raise ValueError unless there is ice at this temperature."""
    require("temperature of the ice", temperature_c, "°C", COLDEST_ICE_C, WARMEST_ICE_C)


LEAST_PRESSURE_PA = ice_pressure_pa(COLDEST_ICE_C)
MOST_PRESSURE_PA = ice_pressure_pa(WARMEST_ICE_C)
