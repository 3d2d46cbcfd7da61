"""At what temperature water boils, and how much longer cooking takes there."""

from __future__ import annotations

import math

from builder.formulas.declaring import Constant, declared
from builder.formulas.ranges import require

# IAPWS R7-97(2012), table 34 (quoted from memory; checked against an independent library).
_N1 = 0.11670521452767e4
_N2 = -0.72421316703206e6
_N3 = -0.17073846940092e2
_N4 = 0.12020824702470e5
_N5 = -0.32325550322333e7
_N6 = 0.14915108613530e2
_N7 = -0.48232657361591e4
_N8 = 0.40511340542057e6
_N9 = -0.23855557567849
_N10 = 0.65017534844798e3
HPA_PER_MPA = 1.0e4
ZERO_CELSIUS_K = 273.15
LEAST_PRESSURE_HPA = 6.11213
MOST_PRESSURE_HPA = 220640.0

# Boiling point at 1013.25 hPa, to which recipe times refer (IAPWS-IF97, calculated).
SEA_LEVEL_BOILING_POINT_C = 99.97
# Warming by this much cooks ten times as fast; Mansfield 1962 gives 33.1 (quoted from memory).
COOKING_Z_K = 33.0
# No boiling point outside this can come from air that people breathe.
LEAST_BOILING_POINT_C = 60.0
MOST_BOILING_POINT_C = 130.0

# CDC and EPA advice as given in the Wilderness Medical Society proceedings 2005.
BOIL_HOLD_MIN = 1.0
HIGH_BOIL_HOLD_MIN = 3.0
HIGH_BOIL_ABOVE_M = 2000.0


# Region 4, equation 31, written out: b is the fourth root of the pressure in MPa. Under the last
# root (n10 + D)2 - 4 (n9 + n10 D) is (n10 - D)2 - 4 n9, which names D once less.
_B = "((pressure_hpa / hpa_per_mpa) ^ 0.25)"
_E = f"(({_B} + n3) * {_B} + n6)"
_F = f"((n1 * {_B} + n4) * {_B} + n7)"
_G = f"((n2 * {_B} + n5) * {_B} + n8)"
_D = f"(2 * {_G} / (-{_F} - sqrt({_F} ^ 2 - 4 * {_E} * {_G})))"


@declared(
    f"(n10 + {_D} - sqrt((n10 - {_D}) ^ 2 - 4 * n9)) / 2 - zero_celsius_k",
    {
        "hpa_per_mpa": Constant(HPA_PER_MPA, "iapws-if97"),
        "zero_celsius_k": Constant(ZERO_CELSIUS_K, "iapws-if97"),
        "n1": Constant(_N1, "iapws-if97"),
        "n2": Constant(_N2, "iapws-if97"),
        "n3": Constant(_N3, "iapws-if97"),
        "n4": Constant(_N4, "iapws-if97"),
        "n5": Constant(_N5, "iapws-if97"),
        "n6": Constant(_N6, "iapws-if97"),
        "n7": Constant(_N7, "iapws-if97"),
        "n8": Constant(_N8, "iapws-if97"),
        "n9": Constant(_N9, "iapws-if97"),
        "n10": Constant(_N10, "iapws-if97"),
    },
)
def boiling_point_c(pressure_hpa: float) -> float:
    """Temperature at which water boils under a pressure.

    Parameters
    ----------
    pressure_hpa : float
        Absolute pressure. [hPa], 6.11213 to 220640

    Returns
    -------
    float
        Boiling point. [degC]

    Raises
    ------
    ValueError
        If the pressure is outside the range above.

    Notes
    -----
    Closed form in b = (p / 1 MPa) ** 0.25: E = b2 + n3 b + n6, F = n1 b2 + n4 b + n7,
    G = n2 b2 + n5 b + n8, D = 2 G / (-F - sqrt(F2 - 4 E G)),
    T = (n10 + D - sqrt((n10 + D)2 - 4 (n9 + n10 D))) / 2.

    References
    ----------
    .. [iapws-if97] IAPWS R7-97(2012), section 8.2, equation 31 (quoted from memory).
    """
    require("pressure", pressure_hpa, "hPa", LEAST_PRESSURE_HPA, MOST_PRESSURE_HPA)
    b = (pressure_hpa / HPA_PER_MPA) ** 0.25
    e = b * b + _N3 * b + _N6
    f = _N1 * b * b + _N4 * b + _N7
    g = _N2 * b * b + _N5 * b + _N8
    d = 2.0 * g / (-f - math.sqrt(f * f - 4.0 * e * g))
    inner = (_N10 + d) ** 2 - 4.0 * (_N9 + _N10 * d)
    return float((_N10 + d - math.sqrt(inner)) / 2.0 - ZERO_CELSIUS_K)


@declared(
    "10 ^ ((sea_level_c - boiling_point_c) / z_k)",
    {
        "sea_level_c": Constant(SEA_LEVEL_BOILING_POINT_C, "iapws-if97"),
        "z_k": Constant(COOKING_Z_K, "mansfield1962"),
    },
)
def time_factor(boiling_point_c: float) -> float:
    """How many times as long plant food cooks as at sea level.

    Parameters
    ----------
    boiling_point_c : float
        Temperature of the boiling water. [degC], 60 to 130

    Returns
    -------
    float
        Factor on the sea-level minutes, 1 at 99.97 degC. [-]

    Raises
    ------
    ValueError
        If the boiling point is outside the range above.

    Notes
    -----
    10 ** ((99.97 - T) / 33). Not for egg, meat, poultry or fish, which go by the
    temperature in the middle.

    References
    ----------
    .. [mansfield1962] Mansfield, 1962, cook value, z = 33.1 K (quoted from memory).
    """
    require("boiling point", boiling_point_c, "°C", LEAST_BOILING_POINT_C, MOST_BOILING_POINT_C)
    return float(10.0 ** ((SEA_LEVEL_BOILING_POINT_C - boiling_point_c) / COOKING_Z_K))


@declared(
    "if(altitude_m > high_above_m, high_hold_min, hold_min)",
    {
        "high_above_m": Constant(HIGH_BOIL_ABOVE_M, "wms2005"),
        "high_hold_min": Constant(HIGH_BOIL_HOLD_MIN, "wms2005"),
        "hold_min": Constant(BOIL_HOLD_MIN, "wms2005"),
    },
)
def boil_hold_min(altitude_m: float) -> float:
    """How long water to drink is held at a rolling boil.

    Parameters
    ----------
    altitude_m : float
        Altitude of the camp. [m], -500 to 11000

    Returns
    -------
    float
        Minutes at the boil: 1, above 2000 m 3. [min]

    Raises
    ------
    ValueError
        If the altitude is outside the range above.

    References
    ----------
    .. [wms2005] Wilderness Medical Society, 2005, proceedings, citing CDC and EPA
       (read in a copy).
    """
    require("altitude", altitude_m, "m", -500.0, 11000.0)
    return HIGH_BOIL_HOLD_MIN if altitude_m > HIGH_BOIL_ABOVE_M else BOIL_HOLD_MIN
