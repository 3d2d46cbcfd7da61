"""Heat for water, pots and snow, and the fuel that gives it."""

from __future__ import annotations

import math

from builder.formulas.declaring import Constant, FromTable, declared
from builder.formulas.ranges import require, require_above, require_known

# CRC Handbook and engineering tables (quoted from memory).
SPECIFIC_HEAT_KJ_KG_K: dict[str, float] = {
    "aluminium": 0.897,
    "steel": 0.50,
    "titanium": 0.523,
    "cast-iron": 0.46,
    "copper": 0.385,
    "enamel": 0.47,
}
# Mean of 10 to 100 degC from IAPWS-IF97, good to 0.1 percent (calculated).
WATER_KJ_KG_K = 4.186
# Ice near 0 degC, and its melting (CRC Handbook, quoted from memory).
ICE_KJ_KG_K = 2.09
MELTING_KJ_KG = 333.55
# Snow melted for drinking is warmed this far, so that it stays water.
MELTED_TO_C = 5.0

# Field estimates from memory.
FOOD_AS_WATER_SHARE = 0.4
FOOD_ROOM_ML_PER_G = 0.7
FRY_POWER_SHARE = 0.5
WIND_FACTOR: dict[str, float] = {"sheltered": 1.0, "breezy": 0.8, "windy": 0.5}

# A pile of a thousand equal parts must not become 1001 by rounding.
CEILING_SLACK = 1e-9

_ML_PER_L = 1000.0
_G_PER_KG = 1000.0
_KJ_PER_MJ = 1000.0
_J_PER_KJ = 1000.0
_S_PER_MIN = 60.0
_COLDEST_C = -90.0
_HOTTEST_WATER_C = 130.0


@declared(
    "volume_ml / 1000 * water_kj_kg_k * (to_c - from_c)",
    {"water_kj_kg_k": Constant(WATER_KJ_KG_K, "iapws-if97")},
)
def water_heat_kj(volume_ml: float, from_c: float, to_c: float) -> float:
    """Heat to warm water.

    Parameters
    ----------
    volume_ml : float
        Volume of cold water, 1 g each ml. [ml], 0 or more
    from_c : float
        Temperature before. [degC], 0 to 130
    to_c : float
        Temperature after, not below the one before. [degC], 0 to 130

    Returns
    -------
    float
        Heat taken up. [kJ]

    Raises
    ------
    ValueError
        If a value is outside its range, or the water would have to cool.

    Notes
    -----
    V / 1000 * 4.186 (to - from).

    References
    ----------
    .. [iapws-if97] IAPWS R7-97(2012), mean heat capacity 10 to 100 degC
       (calculated with the library iapws).
    """
    require("volume of water", volume_ml, "ml", 0.0)
    require("water temperature before heating", from_c, "°C", 0.0, _HOTTEST_WATER_C)
    require("water temperature after heating", to_c, "°C", from_c, _HOTTEST_WATER_C)
    return volume_ml / _ML_PER_L * WATER_KJ_KG_K * (to_c - from_c)


@declared(
    "pot_mass_g / 1000 * metal_kj_kg_k * (to_c - from_c)",
    tables={
        "metal_kj_kg_k": FromTable(SPECIFIC_HEAT_KJ_KG_K.__getitem__, ("material",), "crc-handbook")
    },
)
def pot_heat_kj(pot_mass_g: float, material: str, from_c: float, to_c: float) -> float:
    """Heat to warm a pot or an iron.

    Parameters
    ----------
    pot_mass_g : float
        Mass of the metal. [g], 0 or more
    material : str
        A key of SPECIFIC_HEAT_KJ_KG_K.
    from_c : float
        Temperature before. [degC], -90 to 400
    to_c : float
        Temperature after, not below the one before. [degC], -90 to 400

    Returns
    -------
    float
        Heat taken up. [kJ]

    Raises
    ------
    ValueError
        If a value is outside its range, or the material is not known.

    Notes
    -----
    mass_kg c (to - from).

    References
    ----------
    .. [crc-handbook] CRC Handbook of Chemistry and Physics, specific heats
       (quoted from memory).
    """
    require("mass of the pot", pot_mass_g, "g", 0.0)
    require_known("material", material, SPECIFIC_HEAT_KJ_KG_K)
    require("pot temperature before heating", from_c, "°C", _COLDEST_C, 400.0)
    require("pot temperature after heating", to_c, "°C", from_c, 400.0)
    return pot_mass_g / _G_PER_KG * SPECIFIC_HEAT_KJ_KG_K[material] * (to_c - from_c)


@declared(
    "volume_ml / 1000 * (ice_kj_kg_k * (0 - min(air_low_c, 0)) + melting_kj_kg "
    "+ water_kj_kg_k * boiling_point_c)",
    {
        "ice_kj_kg_k": Constant(ICE_KJ_KG_K, "crc-handbook"),
        "melting_kj_kg": Constant(MELTING_KJ_KG, "crc-handbook"),
        "water_kj_kg_k": Constant(WATER_KJ_KG_K, "iapws-if97"),
    },
)
def snow_to_boil_kj(volume_ml: float, air_low_c: float, boiling_point_c: float) -> float:
    """Heat to turn snow into boiling water.

    Parameters
    ----------
    volume_ml : float
        Volume of the water that comes of it. [ml], 0 or more
    air_low_c : float
        Lowest temperature of the air, taken for the snow's; above zero counts as zero.
        [degC], -90 to 60
    boiling_point_c : float
        Temperature at which water boils there. [degC], 60 to 130

    Returns
    -------
    float
        Heat taken up. [kJ]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    V / 1000 (2.09 (0 - min(low, 0)) + 333.55 + 4.186 T_boil).

    References
    ----------
    .. [crc-handbook] CRC Handbook of Chemistry and Physics, heat of fusion and heat capacity
       of ice (quoted from memory).
    """
    require("boiling point", boiling_point_c, "°C", 60.0, _HOTTEST_WATER_C)
    return _snow_kj(volume_ml, air_low_c, boiling_point_c)


@declared(
    "volume_ml / 1000 * (ice_kj_kg_k * (0 - min(air_low_c, 0)) + melting_kj_kg "
    "+ water_kj_kg_k * melted_to_c)",
    {
        "ice_kj_kg_k": Constant(ICE_KJ_KG_K, "crc-handbook"),
        "melting_kj_kg": Constant(MELTING_KJ_KG, "crc-handbook"),
        "water_kj_kg_k": Constant(WATER_KJ_KG_K, "iapws-if97"),
        "melted_to_c": Constant(MELTED_TO_C, "common-practice"),
    },
)
def snow_to_water_kj(volume_ml: float, air_low_c: float) -> float:
    """Heat to turn snow into cold water.

    Parameters
    ----------
    volume_ml : float
        Volume of the water that comes of it. [ml], 0 or more
    air_low_c : float
        Lowest temperature of the air, taken for the snow's; above zero counts as zero.
        [degC], -90 to 60

    Returns
    -------
    float
        Heat taken up. [kJ]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    V / 1000 (2.09 (0 - min(low, 0)) + 333.55 + 4.186 * 5).

    References
    ----------
    .. [crc-handbook] CRC Handbook of Chemistry and Physics, heat of fusion and heat capacity
       of ice (quoted from memory).
    """
    return _snow_kj(volume_ml, air_low_c, MELTED_TO_C)


def _snow_kj(volume_ml: float, air_low_c: float, to_c: float) -> float:
    """Heat from snow at the air's low to water at a temperature."""
    require("volume of water", volume_ml, "ml", 0.0)
    require("lowest air temperature", air_low_c, "°C", _COLDEST_C, 60.0)
    snow_c = min(air_low_c, 0.0)
    each_kg = ICE_KJ_KG_K * (0.0 - snow_c) + MELTING_KJ_KG + WATER_KJ_KG_K * to_c
    return volume_ml / _ML_PER_L * each_kg


@declared("max(loss_at_boil_w / efficiency_share, lowest_w) * duration_min * 60 / 1000")
def simmer_fuel_kj(
    loss_at_boil_w: float, efficiency_share: float, lowest_w: float, duration_min: float
) -> float:
    """Fuel heat to hold one potful at the boil.

    Parameters
    ----------
    loss_at_boil_w : float
        What the pot loses while it boils gently. [W], 0 or more
    efficiency_share : float
        Share of the fuel's heat that reaches the pot. [share], above 0 to 1
    lowest_w : float
        Smallest power of the stove. [W], 0 or more
    duration_min : float
        How long. [min], 0 or more

    Returns
    -------
    float
        Heat of the fuel burnt. [kJ]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    max(loss / efficiency, lowest) t * 60 / 1000.

    References
    ----------
    .. [common-practice] Common practice, no source.
    """
    require("loss of the pot at the boil", loss_at_boil_w, "W", 0.0)
    _require_share("efficiency", efficiency_share)
    require("lowest power of the stove", lowest_w, "W", 0.0)
    require("simmering time", duration_min, "min", 0.0)
    power_w = max(loss_at_boil_w / efficiency_share, lowest_w)
    return power_w * duration_min * _S_PER_MIN / _J_PER_KJ


@declared(
    "fry_share * power_w * duration_min * 60 / 1000",
    {"fry_share": Constant(FRY_POWER_SHARE, "common-practice")},
)
def fry_fuel_kj(power_w: float, duration_min: float) -> float:
    """Fuel heat to fry, at half the power of the stove.

    Parameters
    ----------
    power_w : float
        Full power of the stove. [W], 0 or more
    duration_min : float
        How long. [min], 0 or more

    Returns
    -------
    float
        Heat of the fuel burnt. [kJ]

    Raises
    ------
    ValueError
        If a value is negative.

    Notes
    -----
    0.5 power t * 60 / 1000.

    References
    ----------
    .. [common-practice] Common practice, no source.
    """
    require("power of the stove", power_w, "W", 0.0)
    require("frying time", duration_min, "min", 0.0)
    return FRY_POWER_SHARE * power_w * duration_min * _S_PER_MIN / _J_PER_KJ


@declared("heat_kj / (efficiency_share * wind_factor)")
def fuel_heat_kj(heat_kj: float, efficiency_share: float, wind_factor: float) -> float:
    """Fuel heat that brings a heat into the pot.

    Parameters
    ----------
    heat_kj : float
        Heat that the pot and its contents take up. [kJ], 0 or more
    efficiency_share : float
        Share of the fuel's heat that reaches the pot in still air. [share], above 0 to 1
    wind_factor : float
        What the wind leaves of it, a value of WIND_FACTOR. [share], above 0 to 1

    Returns
    -------
    float
        Heat of the fuel burnt. [kJ]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    heat / (efficiency wind_factor).

    References
    ----------
    .. [common-practice] Common practice, no source.
    """
    require("heat", heat_kj, "kJ", 0.0)
    _require_share("efficiency", efficiency_share)
    _require_share("wind factor", wind_factor)
    return heat_kj / (efficiency_share * wind_factor)


@declared("1000 * heat_kj / (efficiency_share * wind_factor * power_w) / 60")
def heating_min(
    heat_kj: float, efficiency_share: float, wind_factor: float, power_w: float
) -> float:
    """Minutes at full power that bring a heat into the pot.

    Parameters
    ----------
    heat_kj : float
        Heat that the pot and its contents take up. [kJ], 0 or more
    efficiency_share : float
        Share of the fuel's heat that reaches the pot in still air. [share], above 0 to 1
    wind_factor : float
        What the wind leaves of it, a value of WIND_FACTOR. [share], above 0 to 1
    power_w : float
        Full power of the stove. [W], above 0

    Returns
    -------
    float
        Time. [min]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    1000 heat / (efficiency wind_factor power) / 60.

    References
    ----------
    .. [common-practice] Common practice, no source.
    """
    require_above("power of the stove", power_w, "W", 0.0)
    burnt_kj = fuel_heat_kj(heat_kj, efficiency_share, wind_factor)
    return _J_PER_KJ * burnt_kj / power_w / _S_PER_MIN


@declared("fuel_heat_kj / 1000 / energy_mj_kg * 1000")
def fuel_mass_g(fuel_heat_kj: float, energy_mj_kg: float) -> float:
    """Mass of fuel that holds a heat.

    Parameters
    ----------
    fuel_heat_kj : float
        Heat of the fuel burnt. [kJ], 0 or more
    energy_mj_kg : float
        Net heating value of the fuel. [MJ/kg], above 0

    Returns
    -------
    float
        Mass of fuel. [g]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    1000 heat_MJ / energy.

    References
    ----------
    .. [harc-heating-values] Hydrogen Analysis Resource Center, 2016, heating values of fuels
       (read in a copy).
    """
    require("heat of the fuel", fuel_heat_kj, "kJ", 0.0)
    require_above("heating value of the fuel", energy_mj_kg, "MJ/kg", 0.0)
    return fuel_heat_kj / _KJ_PER_MJ / energy_mj_kg * _G_PER_KG


@declared("max(0, ceil(amount / per_unit - 0.000000001))")
def whole_units(amount: float, per_unit: float) -> int:
    """How many whole units hold an amount: potfuls, packs, presses.

    Parameters
    ----------
    amount : float
        What has to be held, in any unit. [same unit], 0 or more
    per_unit : float
        What one holds, in that unit. [same unit], above 0

    Returns
    -------
    int
        Number of units, 0 for nothing. [-]

    Raises
    ------
    ValueError
        If the amount is negative or a unit holds nothing.

    Notes
    -----
    ceil(amount / per_unit - 1e-9).
    """
    require("amount", amount, "", 0.0)
    require_above("what one unit holds", per_unit, "", 0.0)
    return max(0, math.ceil(amount / per_unit - CEILING_SLACK))


def _require_share(what: str, value: float) -> None:
    """Raise ValueError unless the value can be divided by and is at most one."""
    require_above(what, value, "", 0.0)
    require(what, value, "", 0.0, 1.0)
