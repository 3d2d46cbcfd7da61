"""How hot embers are, what they give a campfire iron, and wood by its species."""

from __future__ import annotations

from builder.formulas.declaring import Constant, declared, declared_ends
from builder.formulas.fire import MOST_WOOD_MOISTURE_SHARE, TURN_MIN, WATER_IN_WOOD_MJ_KG
from builder.formulas.heat import SPECIFIC_HEAT_KJ_KG_K, pot_heat_kj
from builder.formulas.ranges import require, require_above, require_known

HOTTEST_PLATE_C = 400.0

# What reaches an iron that lies in or just over embers, least and most: a bed of 600 to
# 900 degC seen through its ash (estimate, no source).
EMBER_KW_M2 = (8.0, 25.0)
# A pressed sandwich wants plates of 180 to 220 degC (handbooks, from memory).
PLATE_C = 200.0

# Most seconds that a palm stands 12 cm over embers, name, and what the food meets [degC].
HAND_TEST: tuple[tuple[float, str, float, float], ...] = (
    (3.0, "high", 200.0, 290.0),
    (5.0, "medium", 145.0, 200.0),
    (8.0, "low", 120.0, 165.0),
)

# Net heating value of wood without water, from a table of logs at 15 percent of water
# (read in a copy; kWh/kg there).
_KWH_KG_AT_15_PERCENT: dict[str, float] = {
    "alder": 4.06,
    "ash": 4.10,
    "beech": 4.13,
    "birch": 4.01,
    "douglas-fir": 4.43,
    "fir": 4.40,
    "larch": 4.27,
    "maple": 4.04,
    "oak": 4.10,
    "pine": 4.32,
    "poplar": 3.99,
    "robinia": 4.11,
    "spruce": 4.49,
    "willow": 3.76,
}
_TABLE_WATER_SHARE = 0.15
_MJ_PER_KWH = 3.6
DRY_SPECIES_MJ_KG: dict[str, float] = {
    species: (kwh * _MJ_PER_KWH + WATER_IN_WOOD_MJ_KG * _TABLE_WATER_SHARE)
    / (1.0 - _TABLE_WATER_SHARE)
    for species, kwh in _KWH_KG_AT_15_PERCENT.items()
}

_CM2_PER_M2 = 10000.0
_S_PER_MIN = 60.0

_PREHEAT = "iron_g / 1000 * iron_kj_kg_k * ({}) / ({} * face_cm2 / cm2_per_m2) / 60"
_IRON = {
    "iron_kj_kg_k": Constant(SPECIFIC_HEAT_KJ_KG_K["cast-iron"], "crc-handbook"),
    "cm2_per_m2": Constant(_CM2_PER_M2, "crc-handbook"),
}


def plates_heat_kj(iron_g: float, from_c: float, to_c: float) -> float:
    """Heat that the plates of a cast-iron iron take up.

    Parameters
    ----------
    iron_g : float
        Mass of the plates. [g], 0 or more
    from_c : float
        Temperature before. [degC], -90 to 400
    to_c : float
        Temperature after. [degC], from_c to 400

    Returns
    -------
    float
        Heat. [kJ]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    mass 0.46 (to - from).

    References
    ----------
    .. [crc-handbook] CRC Handbook of Chemistry and Physics, cast iron (quoted from memory).
    """
    return pot_heat_kj(iron_g, "cast-iron", from_c, to_c)


def preheat_min(iron_g: float, face_cm2: float, from_c: float, to_c: float, kw_m2: float) -> float:
    """Minutes that bring the plates of an iron to a temperature.

    Parameters
    ----------
    iron_g : float
        Mass of the plates. [g], 0 or more
    face_cm2 : float
        Area that the embers heat: one face, or both where it lies between. [cm2], above 0
    from_c : float
        Temperature before. [degC], -90 to 400
    to_c : float
        Temperature after. [degC], from_c to 400
    kw_m2 : float
        Heat on each area. [kW/m2], above 0

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
    mass c (to - from) / (heat area).

    References
    ----------
    .. [crc-handbook] CRC Handbook of Chemistry and Physics, cast iron (quoted from memory).
    """
    require_above("heated face", face_cm2, "cm²", 0.0)
    require_above("heat of the embers", kw_m2, "kW/m²", 0.0)
    heat_kj = plates_heat_kj(iron_g, from_c, to_c)
    return heat_kj / (kw_m2 * face_cm2 / _CM2_PER_M2) / _S_PER_MIN


@declared_ends(
    _PREHEAT.format("to_c - from_c", "most_kw_m2"),
    _PREHEAT.format("to_c - from_c", "least_kw_m2"),
    constants={
        **_IRON,
        "least_kw_m2": Constant(EMBER_KW_M2[0], "common-practice"),
        "most_kw_m2": Constant(EMBER_KW_M2[1], "common-practice"),
    },
)
def preheat_range_min(
    iron_g: float, face_cm2: float, from_c: float, to_c: float = PLATE_C
) -> tuple[float, float]:
    """Minutes that usual embers take to heat an iron, from few to many.

    Parameters
    ----------
    iron_g : float
        Mass of the plates. [g], 0 or more
    face_cm2 : float
        Area that the embers heat. [cm2], above 0
    from_c : float
        Temperature before. [degC], -90 to 400
    to_c : float
        Temperature after. [degC], from_c to 400

    Returns
    -------
    tuple of float
        Fewest and most minutes. [min]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    As for one heat, with 25 and 8 kW/m2.

    References
    ----------
    .. [common-practice] Common practice, no source: an estimate of what embers give.
    """
    least, most = EMBER_KW_M2
    return (
        preheat_min(iron_g, face_cm2, from_c, to_c, most),
        preheat_min(iron_g, face_cm2, from_c, to_c, least),
    )


@declared(
    "2 * each_side_min + turn_min + "
    + _PREHEAT.format("wanted_c - min(iron_c, wanted_c)", "kw_m2"),
    {**_IRON, "turn_min": Constant(TURN_MIN, "common-practice")},
)
def first_press_min(
    each_side_min: float,
    iron_g: float,
    face_cm2: float,
    iron_c: float,
    wanted_c: float,
    *,
    kw_m2: float,
) -> float:
    """Minutes of the first press of an iron that was not heated through before.

    Parameters
    ----------
    each_side_min : float
        Minutes on each side of a hot iron. [min], 0 or more
    iron_g : float
        Mass of the plates. [g], 0 or more
    face_cm2 : float
        Area that the embers heat. [cm2], above 0
    iron_c : float
        Temperature of the plates when the filling goes in. [degC], -90 to 400
    wanted_c : float
        Temperature at which the minutes hold. [degC], -90 to 400
    kw_m2 : float
        Heat on each area. [kW/m2], above 0

    Returns
    -------
    float
        Minutes, with one to turn and fill. [min]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    2 each_side + 1 + time to heat the plates from iron_c to wanted_c, none where they are
    hotter.

    References
    ----------
    .. [common-practice] Common practice, no source.
    """
    require("time on each side", each_side_min, "min", 0.0)
    require("temperature of the plates", iron_c, "°C", -90.0, HOTTEST_PLATE_C)
    heating_min = preheat_min(iron_g, face_cm2, min(iron_c, wanted_c), wanted_c, kw_m2)
    return 2.0 * each_side_min + TURN_MIN + heating_min


def species_mj_kg(species: str, moisture_share: float) -> float:
    """Net heat in a kilogram of wood of a species as it lies.

    Parameters
    ----------
    species : str
        A key of DRY_SPECIES_MJ_KG.
    moisture_share : float
        Water in the wood, wet basis. [share], 0 to 0.6

    Returns
    -------
    float
        Net heating value. [MJ/kg]

    Raises
    ------
    ValueError
        If the species is not known or the share is outside its range.

    Notes
    -----
    H (1 - M) - 2.443 M.

    References
    ----------
    .. [wood-species] Heating values of logs by species at 15 percent of water
       (read in a copy).
    .. [iso18125] ISO 18125, calorific value of solid biofuels (quoted from memory).
    """
    require_known("species", species, DRY_SPECIES_MJ_KG)
    return _wet_mj_kg(DRY_SPECIES_MJ_KG[species], moisture_share)


@declared_ends(
    "least_dry_mj_kg * (1 - moisture_share) - water_mj_kg * moisture_share",
    "most_dry_mj_kg * (1 - moisture_share) - water_mj_kg * moisture_share",
    constants={
        "least_dry_mj_kg": Constant(min(DRY_SPECIES_MJ_KG.values()), "wood-species"),
        "most_dry_mj_kg": Constant(max(DRY_SPECIES_MJ_KG.values()), "wood-species"),
        "water_mj_kg": Constant(WATER_IN_WOOD_MJ_KG, "iso18125"),
    },
)
def wood_range_mj_kg(moisture_share: float) -> tuple[float, float]:
    """Net heat in a kilogram of wood of unknown species.

    Parameters
    ----------
    moisture_share : float
        Water in the wood, wet basis. [share], 0 to 0.6

    Returns
    -------
    tuple of float
        Least and most net heating value. [MJ/kg]

    Raises
    ------
    ValueError
        If the share is outside the range above.

    Notes
    -----
    The least and the most of all species in the table: willow and spruce.

    References
    ----------
    .. [wood-species] Heating values of logs by species (read in a copy).
    """
    dry = DRY_SPECIES_MJ_KG.values()
    return _wet_mj_kg(min(dry), moisture_share), _wet_mj_kg(max(dry), moisture_share)


def _wet_mj_kg(dry_mj_kg: float, moisture_share: float) -> float:
    """Net heating value with water in the wood."""
    require("water share of the wood", moisture_share, "", 0.0, MOST_WOOD_MOISTURE_SHARE)
    return dry_mj_kg * (1.0 - moisture_share) - WATER_IN_WOOD_MJ_KG * moisture_share
