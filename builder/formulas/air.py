"""Air pressure and height in the standard atmosphere."""

from __future__ import annotations

from builder.formulas.declaring import Constant, declared
from builder.formulas.ranges import require

# ISO 2533:1975, table 1 and section 2 (quoted from memory).
SEA_LEVEL_PRESSURE_HPA = 1013.25
SEA_LEVEL_TEMPERATURE_K = 288.15
LAPSE_RATE_K_M = 0.0065
GRAVITY_M_S2 = 9.80665
AIR_MOLAR_MASS_KG_KMOL = 28.96442
GAS_CONSTANT_J_KMOL_K = 8314.32

# The layer in which temperature falls evenly, and what lies under the sea's level on land.
LOWEST_ALTITUDE_M = -500.0
HIGHEST_ALTITUDE_M = 11000.0

EXPONENT = GRAVITY_M_S2 * AIR_MOLAR_MASS_KG_KMOL / (GAS_CONSTANT_J_KMOL_K * LAPSE_RATE_K_M)


@declared(
    "p0_hpa * (1 - lapse_k_m * altitude_m / t0_k) ^ (gravity_m_s2 * molar_kg_kmol "
    "/ (gas_constant_j_kmol_k * lapse_k_m))",
    {
        "p0_hpa": Constant(SEA_LEVEL_PRESSURE_HPA, "iso2533"),
        "t0_k": Constant(SEA_LEVEL_TEMPERATURE_K, "iso2533"),
        "lapse_k_m": Constant(LAPSE_RATE_K_M, "iso2533"),
        "gravity_m_s2": Constant(GRAVITY_M_S2, "iso2533"),
        "molar_kg_kmol": Constant(AIR_MOLAR_MASS_KG_KMOL, "iso2533"),
        "gas_constant_j_kmol_k": Constant(GAS_CONSTANT_J_KMOL_K, "iso2533"),
    },
)
def pressure_hpa(altitude_m: float) -> float:
    """Air pressure of the standard atmosphere at an altitude.

    Parameters
    ----------
    altitude_m : float
        Geopotential altitude above mean sea level. [m], -500 to 11000

    Returns
    -------
    float
        Static pressure. [hPa]

    Raises
    ------
    ValueError
        If the altitude is outside the range above.

    Notes
    -----
    p = p0 (1 - L h / T0) ** (g M / (R L)); weather moves the real value by 2 to 3 percent.

    References
    ----------
    .. [iso2533] ISO 2533:1975, Standard Atmosphere, pressure below 11 km (quoted from memory).
    """
    require("altitude", altitude_m, "m", LOWEST_ALTITUDE_M, HIGHEST_ALTITUDE_M)
    ratio = 1.0 - LAPSE_RATE_K_M * altitude_m / SEA_LEVEL_TEMPERATURE_K
    return float(SEA_LEVEL_PRESSURE_HPA * ratio**EXPONENT)


@declared(
    "t0_k / lapse_k_m * (1 - (pressure_hpa / p0_hpa) ^ (gas_constant_j_kmol_k * lapse_k_m "
    "/ (gravity_m_s2 * molar_kg_kmol)))",
    {
        "p0_hpa": Constant(SEA_LEVEL_PRESSURE_HPA, "iso2533"),
        "t0_k": Constant(SEA_LEVEL_TEMPERATURE_K, "iso2533"),
        "lapse_k_m": Constant(LAPSE_RATE_K_M, "iso2533"),
        "gravity_m_s2": Constant(GRAVITY_M_S2, "iso2533"),
        "molar_kg_kmol": Constant(AIR_MOLAR_MASS_KG_KMOL, "iso2533"),
        "gas_constant_j_kmol_k": Constant(GAS_CONSTANT_J_KMOL_K, "iso2533"),
    },
)
def altitude_m(pressure_hpa: float) -> float:
    """Altitude at which the standard atmosphere has a pressure.

    Parameters
    ----------
    pressure_hpa : float
        Static pressure. [hPa], about 226.3 to 1074.8 (the pressures of 11000 and -500 m)

    Returns
    -------
    float
        Geopotential altitude above mean sea level. [m]

    Raises
    ------
    ValueError
        If the pressure is outside the range above.

    Notes
    -----
    h = T0 / L (1 - (p / p0) ** (R L / (g M))), the inverse of the pressure formula.

    References
    ----------
    .. [iso2533] ISO 2533:1975, Standard Atmosphere, pressure below 11 km (quoted from memory).
    """
    require("air pressure", pressure_hpa, "hPa", LEAST_PRESSURE_HPA, MOST_PRESSURE_HPA)
    ratio = (pressure_hpa / SEA_LEVEL_PRESSURE_HPA) ** (1.0 / EXPONENT)
    return float(SEA_LEVEL_TEMPERATURE_K / LAPSE_RATE_K_M * (1.0 - ratio))


LEAST_PRESSURE_HPA = pressure_hpa(HIGHEST_ALTITUDE_M)
MOST_PRESSURE_HPA = pressure_hpa(LOWEST_ALTITUDE_M)
