"""How much a working person sweats, and how much may be drunk."""

from __future__ import annotations

import math

from builder.formulas.declaring import Constant, declared
from builder.formulas.ranges import require, require_above

# Skin and clothes of a person walking warm (Givoni and Goldman 1972, from memory): heat
# passes at 6.45 W/(m2 K) for each clo, vapour at 2.2 K/mmHg of that.
SKIN_C = 36.0
CLO_W_M2_K = 6.45
LEWIS_K_MMHG = 2.2
HPA_PER_MMHG = 1.33322
USUAL_CLO = 1.0
# im/clo of light trousers and shirt with a pack, about; uniforms 0.33 (read in a copy).
USUAL_PERMEABILITY = 0.4

# Du Bois 1916: m2 from kg and cm.
SURFACE_FACTOR, SURFACE_OF_MASS, SURFACE_OF_HEIGHT = 0.007184, 0.425, 0.725
# Buck 1996, over water.
BUCK_A_HPA, BUCK_B, BUCK_C_C, BUCK_D_C = 6.1121, 18.678, 257.14, 234.5
# Shapiro 1982 and its correction of 2009 (abstract, read in a copy).
SHAPIRO_FACTOR, SHAPIRO_OF_EMAX = 27.9, -0.455
OSEC_G_M2_H, OSEC_OF_SHAPIRO = 147.0, 0.0012

# Shapiro 1982 as in Gonzalez 2009, and what it was measured for.
LEAST_REQUIRED_W_M2 = 50.0
MOST_REQUIRED_W_M2 = 360.0
LEAST_EMAX_W_M2 = 20.0
MOST_EMAX_W_M2 = 525.0


# Slow walkers are told to drink to thirst and no more than this (guideline, from memory).
CAUTIOUS_ML_H = 1000.0

_SATURATED = "buck_a_hpa * exp((buck_b - {0} / buck_d_c) * {0} / (buck_c_c + {0}))"
_BUCK = {
    "buck_a_hpa": Constant(BUCK_A_HPA, "buck1996"),
    "buck_b": Constant(BUCK_B, "buck1996"),
    "buck_c_c": Constant(BUCK_C_C, "buck1996"),
    "buck_d_c": Constant(BUCK_D_C, "buck1996"),
}


@declared(
    "surface_factor * mass_kg ^ of_mass * height_cm ^ of_height",
    {
        "surface_factor": Constant(SURFACE_FACTOR, "dubois1916"),
        "of_mass": Constant(SURFACE_OF_MASS, "dubois1916"),
        "of_height": Constant(SURFACE_OF_HEIGHT, "dubois1916"),
    },
)
def body_surface_m2(mass_kg: float, height_cm: float) -> float:
    """Surface of a body.

    Parameters
    ----------
    mass_kg : float
        Body mass. [kg], 3 to 300
    height_cm : float
        Height. [cm], 50 to 250

    Returns
    -------
    float
        Surface. [m2]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    0.007184 mass ** 0.425 height ** 0.725.

    References
    ----------
    .. [dubois1916] Du Bois and Du Bois, 1916, formula (quoted from memory).
    """
    require("body mass", mass_kg, "kg", 3.0, 300.0)
    require("height", height_cm, "cm", 50.0, 250.0)
    return float(SURFACE_FACTOR * mass_kg**SURFACE_OF_MASS * height_cm**SURFACE_OF_HEIGHT)


def saturation_hpa(temperature_c: float) -> float:
    """Pressure of water vapour over water.

    Parameters
    ----------
    temperature_c : float
        Temperature. [degC], -40 to 100

    Returns
    -------
    float
        Vapour pressure. [hPa]

    Raises
    ------
    ValueError
        If the temperature is outside the range above.

    Notes
    -----
    6.1121 exp((18.678 - t / 234.5) t / (257.14 + t)).

    References
    ----------
    .. [buck1996] Buck, 1996, equation for water (quoted from memory).
    """
    require("temperature", temperature_c, "°C", -40.0, 100.0)
    rises = BUCK_B - temperature_c / BUCK_D_C
    return BUCK_A_HPA * math.exp(rises * temperature_c / (BUCK_C_C + temperature_c))


@declared(
    "max(0, power_w / surface_m2 + sun_w_m2 - clo_w_m2_k / clo * (skin_c - air_c))",
    {
        "clo_w_m2_k": Constant(CLO_W_M2_K, "givoni-goldman1972"),
        "skin_c": Constant(SKIN_C, "givoni-goldman1972"),
    },
)
def required_evaporation_w_m2(
    power_w: float, surface_m2: float, air_c: float, clo: float = USUAL_CLO, sun_w_m2: float = 0.0
) -> float:
    """Heat that a working body must get rid of by sweating.

    Parameters
    ----------
    power_w : float
        Power spent, all of it heat in the end. [W], 0 or more
    surface_m2 : float
        Surface of the body. [m2], above 0
    air_c : float
        Temperature of the air. [degC], -40 to 60
    clo : float
        Insulation of clothes and air. [clo], above 0
    sun_w_m2 : float
        Heat from the sun on each area of the body. [W/m2], 0 or more

    Returns
    -------
    float
        Evaporation required, 0 where the air takes all. [W/m2]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    power / surface + sun - 6.45 / clo (36 - air).

    References
    ----------
    .. [givoni-goldman1972] Givoni and Goldman, 1972, heat balance (quoted from memory).
    """
    require("power", power_w, "W", 0.0)
    require_above("surface of the body", surface_m2, "m²", 0.0)
    require("air temperature", air_c, "°C", -40.0, 60.0)
    require_above("clothing", clo, "clo", 0.0)
    require("heat from the sun", sun_w_m2, "W/m²", 0.0)
    given_off = CLO_W_M2_K / clo * (SKIN_C - air_c)
    return max(0.0, power_w / surface_m2 + sun_w_m2 - given_off)


@declared(
    f"max(0, clo_w_m2_k * lewis_k_mmhg * permeability * ({_SATURATED.format('skin_c')} "
    f"- humidity_share * {_SATURATED.format('air_c')}) / hpa_per_mmhg)",
    {
        **_BUCK,
        "clo_w_m2_k": Constant(CLO_W_M2_K, "givoni-goldman1972"),
        "lewis_k_mmhg": Constant(LEWIS_K_MMHG, "givoni-goldman1972"),
        "skin_c": Constant(SKIN_C, "givoni-goldman1972"),
        "hpa_per_mmhg": Constant(HPA_PER_MMHG, "givoni-goldman1972"),
    },
)
def most_evaporation_w_m2(
    air_c: float, humidity_share: float, permeability: float = USUAL_PERMEABILITY
) -> float:
    """Heat that the air could take from a wholly wet skin through the clothes.

    Parameters
    ----------
    air_c : float
        Temperature of the air. [degC], -40 to 60
    humidity_share : float
        Relative humidity. [share], 0 to 1
    permeability : float
        im/clo of the clothes. [1/clo], above 0 to 2

    Returns
    -------
    float
        Greatest evaporation, 0 where the air is wetter than the skin. [W/m2]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    6.45 * 2.2 im/clo (p_skin - humidity p_air), pressures in mmHg.

    References
    ----------
    .. [givoni-goldman1972] Givoni and Goldman, 1972, evaporative capacity
       (quoted from memory).
    """
    require("air temperature", air_c, "°C", -40.0, 60.0)
    require("humidity", humidity_share, "", 0.0, 1.0)
    require_above("permeability of the clothes", permeability, "per clo", 0.0)
    require("permeability of the clothes", permeability, "per clo", 0.0, 2.0)
    drier_hpa = saturation_hpa(SKIN_C) - humidity_share * saturation_hpa(air_c)
    return max(0.0, CLO_W_M2_K * LEWIS_K_MMHG * permeability * drier_hpa / HPA_PER_MMHG)


@declared(
    "osec_g_m2_h * exp(of_shapiro * shapiro_factor * required_w_m2 * emax_w_m2 ^ of_emax)",
    {
        "osec_g_m2_h": Constant(OSEC_G_M2_H, "gonzalez2009"),
        "of_shapiro": Constant(OSEC_OF_SHAPIRO, "gonzalez2009"),
        "shapiro_factor": Constant(SHAPIRO_FACTOR, "gonzalez2009"),
        "of_emax": Constant(SHAPIRO_OF_EMAX, "gonzalez2009"),
    },
)
def osec_g_m2_h(required_w_m2: float, emax_w_m2: float) -> float:
    """Sweat by the corrected equation of Shapiro.

    Parameters
    ----------
    required_w_m2 : float
        Evaporation required. [W/m2], 50 to 360
    emax_w_m2 : float
        Greatest evaporation. [W/m2], 20 to 525

    Returns
    -------
    float
        Sweat on each area in an hour. [g/(m2 h)]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    147 exp(0.0012 * 27.9 Ereq Emax ** -0.455).

    References
    ----------
    .. [gonzalez2009] Gonzalez and others, 2009, OSEC, abstract (read in a copy).
    """
    _require_evaporation(required_w_m2, emax_w_m2)
    shapiro = SHAPIRO_FACTOR * required_w_m2 * emax_w_m2**SHAPIRO_OF_EMAX
    return float(OSEC_G_M2_H * math.exp(OSEC_OF_SHAPIRO * shapiro))


@declared("rate_g_m2_h * surface_m2")
def sweat_ml_h(rate_g_m2_h: float, surface_m2: float) -> float:
    """Sweat of a whole body.

    Parameters
    ----------
    rate_g_m2_h : float
        Sweat on each area in an hour. [g/(m2 h)], 0 or more
    surface_m2 : float
        Surface of the body. [m2], above 0

    Returns
    -------
    float
        Volume in an hour, 1 ml each gram. [ml/h]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    rate surface.

    References
    ----------
    .. [gonzalez2009] Gonzalez and others, 2009 (read in a copy).
    """
    require("sweat on each area", rate_g_m2_h, "g/(m² h)", 0.0)
    require_above("surface of the body", surface_m2, "m²", 0.0)
    return rate_g_m2_h * surface_m2


def _require_evaporation(required_w_m2: float, emax_w_m2: float) -> None:
    """Raise ValueError outside what was measured."""
    require("evaporation required", required_w_m2, "W/m²", LEAST_REQUIRED_W_M2, MOST_REQUIRED_W_M2)
    require("greatest evaporation", emax_w_m2, "W/m²", LEAST_EMAX_W_M2, MOST_EMAX_W_M2)
