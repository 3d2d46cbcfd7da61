"""Lids, heat exchangers, wind, snow in the pot, other fuels, and one's own stove test."""

from __future__ import annotations

from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import boiling_point_c
from builder.formulas.declaring import Constant, declared, declared_ends
from builder.formulas.heat import CEILING_SLACK, pot_heat_kj, water_heat_kj, whole_units
from builder.formulas.ranges import require, require_above

# What a lid saves of the fuel: least and most (from memory, bench tests vary).
LID_SAVES_SHARE = (0.10, 0.20)


# Density of snow as it lies, least and most [kg/m3].
SNOW_KG_M3: dict[str, tuple[float, float]] = {
    "new": (50.0, 150.0),
    "damp-new": (100.0, 200.0),
    "settled": (200.0, 300.0),
    "wind-packed": (350.0, 400.0),
    "depth-hoar": (100.0, 300.0),
    "firn": (400.0, 830.0),
    "ice": (830.0, 917.0),
}
LEAST_SNOW_KG_M3 = 30.0
MOST_SNOW_KG_M3 = 917.0

# A stove test outside these was weighed or read wrongly.
LEAST_TESTED_SHARE = 0.02
MOST_TESTED_SHARE = 0.90

_ML_PER_L = 1000.0
_KG_M3_OF_WATER = 1000.0
_KJ_PER_MJ = 1000.0
_G_PER_KG = 1000.0


@declared_ends(
    "fuel_g / (1 - least_saved_share)",
    "fuel_g / (1 - most_saved_share)",
    constants={
        "least_saved_share": Constant(LID_SAVES_SHARE[0], "common-practice"),
        "most_saved_share": Constant(LID_SAVES_SHARE[1], "common-practice"),
    },
)
def open_pot_range_g(fuel_g: float) -> tuple[float, float]:
    """Fuel that a pot without its lid takes, from little to much.

    Parameters
    ----------
    fuel_g : float
        Fuel with the lid on. [g], 0 or more

    Returns
    -------
    tuple of float
        Least and most fuel without a lid. [g]

    Raises
    ------
    ValueError
        If the mass is negative.

    Notes
    -----
    fuel / (1 - saving), the saving 0.1 to 0.2.

    References
    ----------
    .. [common-practice] Common practice, no source: a lid saves 10 to 20 percent.
    """
    require("fuel with the lid on", fuel_g, "g", 0.0)
    least, most = LID_SAVES_SHARE
    return fuel_g / (1.0 - least), fuel_g / (1.0 - most)


@declared("water_ml / snow_kg_m3")
def snow_l(water_ml: float, snow_kg_m3: float) -> float:
    """Snow that gives an amount of water.

    Parameters
    ----------
    water_ml : float
        Water wanted. [ml], 0 or more
    snow_kg_m3 : float
        Density of the snow as it lies. [kg/m3], 30 to 917

    Returns
    -------
    float
        Volume of snow. [l]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    water 1000 / density: nothing is lost in melting.

    References
    ----------
    .. [ams-glossary] American Meteorological Society, density of new snow 70 to 150
       (read in a copy).
    .. [paterson] Paterson, 1994, densities of settled snow, firn and ice
       (quoted from memory).
    """
    require("water wanted", water_ml, "ml", 0.0)
    require("density of the snow", snow_kg_m3, "kg/m³", LEAST_SNOW_KG_M3, MOST_SNOW_KG_M3)
    return water_ml / _ML_PER_L * _KG_M3_OF_WATER / snow_kg_m3


@declared(
    "max(0, ceil(water_ml / snow_kg_m3 * 1000 / pot_ml - slack))",
    {"slack": Constant(CEILING_SLACK, "common-practice")},
)
def snow_potfuls(water_ml: float, snow_kg_m3: float, pot_ml: float) -> int:
    """How often a pot is filled with snow for an amount of water.

    Parameters
    ----------
    water_ml : float
        Water wanted. [ml], 0 or more
    snow_kg_m3 : float
        Density of the snow as it lies. [kg/m3], 30 to 917
    pot_ml : float
        What the pot holds. [ml], above 0

    Returns
    -------
    int
        Potfuls of snow, rounded up. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    ceil(1000 snow / pot).

    References
    ----------
    .. [ams-glossary] American Meteorological Society, density of new snow (read in a copy).
    """
    return whole_units(snow_l(water_ml, snow_kg_m3) * _ML_PER_L, pot_ml)


def efficiency_from_test(
    boiled_ml: float,
    from_c: float,
    fuel_g: float,
    energy_mj_kg: float,
    altitude_m: float,
    *,
    pot_mass_g: float = 0.0,
    material: str = "aluminium",
) -> float:
    """Efficiency of a stove from one's own test: so much water boiled with so much fuel.

    Parameters
    ----------
    boiled_ml : float
        Water brought to the boil. [ml], above 0
    from_c : float
        Its temperature before. [degC], 0 to 60
    fuel_g : float
        Fuel burnt. [g], above 0
    energy_mj_kg : float
        Net heating value of the fuel. [MJ/kg], above 0
    altitude_m : float
        Where the test was done. [m], -500 to 11000
    pot_mass_g : float
        Mass of the pot, 0 to leave it out. [g], 0 or more
    material : str
        What the pot is made of.

    Returns
    -------
    float
        Part of the fuel's heat that reached pot and water. [share]

    Raises
    ------
    ValueError
        If a value is outside its range, or the result is below 0.02 or above 0.9.

    Notes
    -----
    (V 4.186 + m c) (T_boil - T) / (fuel energy).

    References
    ----------
    .. [jetter2009] Jetter and Kariher, 2009, water boiling test (quoted from memory).
    """
    require_above("water boiled", boiled_ml, "ml", 0.0)
    require("temperature of the water before", from_c, "°C", 0.0, 60.0)
    require_above("fuel burnt", fuel_g, "g", 0.0)
    require_above("heating value of the fuel", energy_mj_kg, "MJ/kg", 0.0)
    boiling_c = boiling_point_c(pressure_hpa(altitude_m))
    taken_kj = water_heat_kj(boiled_ml, from_c, boiling_c)
    taken_kj += pot_heat_kj(pot_mass_g, material, from_c, boiling_c)
    share = taken_kj / (fuel_g / _G_PER_KG * energy_mj_kg * _KJ_PER_MJ)
    if not LEAST_TESTED_SHARE <= share <= MOST_TESTED_SHARE:
        raise ValueError(
            f"{boiled_ml:.10g} ml boiled with {fuel_g:.10g} g makes an efficiency of "
            f"{share:.2g}; it must be {LEAST_TESTED_SHARE} to {MOST_TESTED_SHARE}, "
            "so weigh again"
        )
    return share
