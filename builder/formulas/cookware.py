"""Lids, heat exchangers, wind, snow in the pot, other fuels, and one's own stove test."""

from __future__ import annotations

from itertools import pairwise

from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import boiling_point_c
from builder.formulas.declaring import Constant, declared, declared_ends
from builder.formulas.fire import WATER_IN_WOOD_MJ_KG
from builder.formulas.heat import CEILING_SLACK, pot_heat_kj, water_heat_kj, whole_units
from builder.formulas.ranges import require, require_above, require_known

# What a lid saves of the fuel: least and most (from memory, bench tests vary).
LID_SAVES_SHARE = (0.10, 0.20)

# Part of the fuel's heat that reaches the pot, lid on, no wind: least, likely, most. From
# memory: laboratory water boiling tests (Jetter and Kariher 2009 for wood) and the trade.
EFFICIENCY_SHARE: dict[str, tuple[float, float, float]] = {
    "gas": (0.50, 0.55, 0.60),
    "gas-heat-exchanger": (0.65, 0.70, 0.80),
    "liquid-pressure": (0.45, 0.55, 0.60),
    "alcohol-screened": (0.45, 0.50, 0.55),
    "alcohol-open": (0.30, 0.35, 0.40),
    "tablet": (0.30, 0.40, 0.45),
    "open-fire": (0.05, 0.10, 0.18),
    "chimney-stove": (0.25, 0.30, 0.35),
    "charcoal": (0.20, 0.28, 0.35),
}

# Wind [m/s] and how many times the fuel of calm air an unscreened stove takes there (from
# memory, weak); behind a screen a tenth more.
_WIND_FUEL: tuple[tuple[float, float], ...] = ((0.0, 1.0), (2.5, 1.25), (4.5, 2.0), (6.0, 3.0))
SCREENED_FUEL_FACTOR = 1.1
MOST_WIND_M_S = 12.0

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

# Net heating values of pure fuels (from heats of formation, calculated).
PURE_MJ_KG: dict[str, float] = {
    "ethanol": 26.82,
    "methanol": 19.92,
    "isopropanol": 30.45,
    "hexamine": 28.07,
}
MOST_WATER_IN_FUEL_SHARE = 0.5
# Parts of ethanol by volume and by mass at 20 degC; the volumes shrink when they mix
# (alcohol tables, quoted from memory).
_ETHANOL_SHARES: tuple[tuple[float, float], ...] = (
    (0.70, 0.6239),
    (0.75, 0.6782),
    (0.80, 0.7348),
    (0.85, 0.7940),
    (0.90, 0.8566),
    (0.95, 0.9241),
    (0.96, 0.9384),
    (1.0, 1.0),
)

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


def efficiency_range(stove: str) -> tuple[float, float, float]:
    """Part of the fuel's heat that reaches the pot of a kind of stove.

    Parameters
    ----------
    stove : str
        A key of EFFICIENCY_SHARE.

    Returns
    -------
    tuple of float
        Least, likely and most. [share]

    Raises
    ------
    ValueError
        If the kind is not known.

    References
    ----------
    .. [jetter2009] Jetter and Kariher, 2009, Solid-fuel household cook stoves
       (quoted from memory); gas, alcohol and tablets from memory.
    """
    require_known("kind of stove", stove, EFFICIENCY_SHARE)
    return EFFICIENCY_SHARE[stove]


def fuel_range_g(
    heat_kj: float, energy_mj_kg: float, efficiencies: tuple[float, float, float]
) -> tuple[float, float, float]:
    """Fuel that a heat in the pot takes, with its range.

    Parameters
    ----------
    heat_kj : float
        Heat that the pot and its contents take up. [kJ], 0 or more
    energy_mj_kg : float
        Net heating value of the fuel. [MJ/kg], above 0
    efficiencies : tuple of float
        Least, likely and most efficiency, in this order. [share], above 0 to 1

    Returns
    -------
    tuple of float
        Least, likely and most fuel. [g]

    Raises
    ------
    ValueError
        If a value is outside its range, or the efficiencies are not in order.

    Notes
    -----
    heat / (energy efficiency): the best stove takes the least.

    References
    ----------
    .. [harc-heating-values] Hydrogen Analysis Resource Center, heating values
       (read in a copy).
    """
    require("heat", heat_kj, "kJ", 0.0)
    require_above("heating value of the fuel", energy_mj_kg, "MJ/kg", 0.0)
    worst, likely, best = efficiencies
    require_above("least efficiency", worst, "", 0.0)
    require("likely efficiency", likely, "", worst, 1.0)
    require("best efficiency", best, "", likely, 1.0)
    perfect_g = heat_kj / (energy_mj_kg * _KJ_PER_MJ) * _G_PER_KG
    return perfect_g / best, perfect_g / likely, perfect_g / worst


def wind_fuel_range(wind_m_s: float) -> tuple[float, float]:
    """How many times the fuel of calm air a stove takes in wind.

    Parameters
    ----------
    wind_m_s : float
        Wind where the stove stands. [m/s], 0 to 12

    Returns
    -------
    tuple of float
        Behind a screen, and open. [-]

    Raises
    ------
    ValueError
        If the wind is outside the range above.

    Notes
    -----
    Open: 1 at 0, 1.25 at 2.5, 2 at 4.5, 3 from 6 m/s, straight between. Screened: up to 1.1.

    References
    ----------
    .. [common-practice] Common practice, no source: bench tests vary widely.
    """
    require("wind", wind_m_s, "m/s", 0.0, MOST_WIND_M_S)
    unscreened = _between(min(wind_m_s, _WIND_FUEL[-1][0]), _WIND_FUEL)
    return min(unscreened, SCREENED_FUEL_FACTOR), unscreened


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


def wet_fuel_mj_kg(fuel: str, water_share: float) -> float:
    """Net heat in alcohol or tablets that hold water.

    Parameters
    ----------
    fuel : str
        A key of PURE_MJ_KG.
    water_share : float
        Water in it by mass. [share], 0 to 0.5

    Returns
    -------
    float
        Net heating value. [MJ/kg]

    Raises
    ------
    ValueError
        If the fuel is not known or the share is outside its range.

    Notes
    -----
    H (1 - w) - 2.443 w.

    References
    ----------
    .. [nist-webbook] NIST Chemistry WebBook, heats of formation (quoted from memory).
    .. [harc-heating-values] Hydrogen Analysis Resource Center, ethanol and methanol
       (read in a copy).
    """
    require_known("fuel", fuel, PURE_MJ_KG)
    require("water share of the fuel", water_share, "", 0.0, MOST_WATER_IN_FUEL_SHARE)
    return PURE_MJ_KG[fuel] * (1.0 - water_share) - WATER_IN_WOOD_MJ_KG * water_share


def ethanol_mass_share(volume_share: float) -> float:
    """Ethanol by mass in a spirit whose bottle tells it by volume.

    Parameters
    ----------
    volume_share : float
        Ethanol by volume at 20 degC. [share], 0.7 to 1

    Returns
    -------
    float
        Ethanol by mass. [share]

    Raises
    ------
    ValueError
        If the share is outside the range above.

    Notes
    -----
    Table, straight between its rows.

    References
    ----------
    .. [alcohol-tables] International alcoholometric tables (quoted from memory).
    """
    least, most = _ETHANOL_SHARES[0][0], _ETHANOL_SHARES[-1][0]
    require("ethanol by volume", volume_share, "", least, most)
    return _between(volume_share, _ETHANOL_SHARES)


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


def _between(value: float, table: tuple[tuple[float, float], ...]) -> float:
    """Straight line between the rows of a table that holds the value."""
    for (x0, y0), (x1, y1) in pairwise(table):
        if value <= x1:
            return y0 + (y1 - y0) * (value - x0) / (x1 - x0)
    return table[-1][1]
