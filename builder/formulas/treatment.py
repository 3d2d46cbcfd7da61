"""Making water safe to drink: drops of bleach, waiting, boiling, and how germs grow."""

from __future__ import annotations

import math

from builder.formulas.boiling import BOIL_HOLD_MIN, HIGH_BOIL_HOLD_MIN
from builder.formulas.declaring import Constant, FromTable, declared
from builder.formulas.heat import CEILING_SLACK
from builder.formulas.ranges import require, require_above, require_known

# EPA: available chlorine from and to, and drops for a litre of clear water. 40, 8 and 6
# drops for a US gallon.
_GALLON_L = 3.785411784
_DROPS_PER_L: tuple[tuple[float, float, float], ...] = (
    (0.009, 0.015, 40.0 / _GALLON_L),
    (0.04, 0.07, 2.0),
    (0.07, 0.10, 6.0 / _GALLON_L),
)
CLOUDY_FACTOR = 2.0
DROP_ML = 0.05
MOST_VOLUME_ML = 200000.0

# CDC and EPA: half an hour; twice that in the cold (common advice, from memory). Chlorine
# dioxide needs four hours where it has to reach Cryptosporidium, or is cold.
CONTACT_MIN = 30.0
COLD_CONTACT_MIN = 60.0
SLOW_CONTACT_MIN = 240.0
COLD_BELOW_C = 10.0
VERY_COLD_BELOW_C = 5.0
CHEMICALS = ("chlorine", "iodine", "chlorine-dioxide")

# Backer: least water temperature [degC], then minutes at 2, 4 and 8 mg/l of halogen.
_HALOGEN_MIN: tuple[tuple[float, tuple[float, float, float]], ...] = (
    (25.0, (60.0, 45.0, 15.0)),
    (15.0, (180.0, 60.0, 30.0)),
    (5.0, (240.0, 180.0, 60.0)),
)
_HALOGEN_MG_L = (2.0, 4.0, 8.0)

# EPA prints 5,000 feet and, for them, 1,000 metres: the stricter reading.
EPA_HIGH_ABOVE_M = 1000.0

DOUBLING_MIN = 20.0

_ML_PER_L = 1000.0
_MG_PER_G = 1000.0


def _drops_per_l(strength_share: float) -> float:
    """Drops for a litre of clear water."""
    for least, most, drops in reversed(_DROPS_PER_L):
        if least <= strength_share <= most:
            return drops
    raise ValueError(
        f"strength of the bleach is {strength_share:.10g}; no table gives drops between "
        f"{_DROPS_PER_L[0][1]:.10g} and {_DROPS_PER_L[1][0]:.10g}"
    )


def _cloudy_factor(cloudy_or_cold: bool) -> float:
    """How many times the drops of clear water."""
    return CLOUDY_FACTOR if cloudy_or_cold else 1.0


def _cold_below_c(chemical: str) -> float:
    """Temperature under which water is cold for a chemical."""
    return VERY_COLD_BELOW_C if chemical == "chlorine-dioxide" else COLD_BELOW_C


def _warm_contact_min(chemical: str, cryptosporidium: bool) -> float:
    """Minutes in water that is not cold."""
    if cryptosporidium:
        return SLOW_CONTACT_MIN if chemical == "chlorine-dioxide" else math.inf
    return CONTACT_MIN


def _cold_contact_min(chemical: str, cryptosporidium: bool) -> float:
    """Minutes in cold water."""
    if chemical == "chlorine-dioxide":
        return SLOW_CONTACT_MIN
    return math.inf if cryptosporidium else COLD_CONTACT_MIN


@declared(
    "max(0, ceil(drops_per_l * volume_ml / 1000 * cloudy_factor - slack))",
    {"slack": Constant(CEILING_SLACK, "common-practice")},
    {
        "drops_per_l": FromTable(_drops_per_l, ("strength_share",), "epa-emergency-disinfection"),
        "cloudy_factor": FromTable(
            _cloudy_factor, ("cloudy_or_cold",), "epa-emergency-disinfection"
        ),
    },
)
def bleach_drops(volume_ml: float, strength_share: float, cloudy_or_cold: bool = False) -> int:
    """Drops of plain household bleach for an amount of water.

    Parameters
    ----------
    volume_ml : float
        Water. [ml], 0 to 200000
    strength_share : float
        Available chlorine of the bleach. [share], 0.009 to 0.015, 0.04 to 0.10
    cloudy_or_cold : bool
        Whether the water is cloudy, coloured or very cold: twice as many.

    Returns
    -------
    int
        Drops, rounded up. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    For a litre 10.6 at 1 percent, 2 from 4 percent, 1.6 from 7 percent.

    References
    ----------
    .. [epa-emergency-disinfection] US EPA, Emergency Disinfection of Drinking Water
       (read in a copy).
    """
    require("volume of water", volume_ml, "ml", 0.0, MOST_VOLUME_ML)
    require("strength of the bleach", strength_share, "", _DROPS_PER_L[0][0], _DROPS_PER_L[-1][1])
    wanted = _drops_per_l(strength_share) * volume_ml / _ML_PER_L * _cloudy_factor(cloudy_or_cold)
    return max(0, math.ceil(wanted - CEILING_SLACK))


def chlorine_mg_l(drops: float, volume_ml: float, strength_share: float) -> float:
    """Chlorine that drops of bleach bring into water.

    Parameters
    ----------
    drops : float
        Drops of 0.05 ml. [-], 0 or more
    volume_ml : float
        Water. [ml], above 0
    strength_share : float
        Available chlorine of the bleach, g in each ml. [share], 0 to 0.2

    Returns
    -------
    float
        Dose. [mg/l]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    drops 0.05 strength 1000 / litres.

    References
    ----------
    .. [lantagne2014] Lantagne and others, 2014: 8 drops in a gallon are 5.55 to 8.67 mg/l
       (abstract, read in a copy).
    """
    require("drops", drops, "", 0.0)
    require_above("volume of water", volume_ml, "ml", 0.0)
    require("strength of the bleach", strength_share, "", 0.0, 0.2)
    return drops * DROP_ML * strength_share * _MG_PER_G / (volume_ml / _ML_PER_L)


@declared(
    "if(water_c < cold_below_c, cold_contact_min, warm_contact_min)",
    tables={
        "cold_below_c": FromTable(_cold_below_c, ("chemical",), "common-practice"),
        "cold_contact_min": FromTable(
            _cold_contact_min, ("chemical", "cryptosporidium"), "cdc-backcountry-water"
        ),
        "warm_contact_min": FromTable(
            _warm_contact_min, ("chemical", "cryptosporidium"), "epa-emergency-disinfection"
        ),
    },
)
def contact_min(chemical: str, water_c: float, cryptosporidium: bool = False) -> float:
    """How long treated water stands before it is drunk.

    Parameters
    ----------
    chemical : str
        chlorine, iodine or chlorine-dioxide.
    water_c : float
        Temperature of the water. [degC], 0 to 50
    cryptosporidium : bool
        Whether it has to reach Cryptosporidium.

    Returns
    -------
    float
        Minutes; without end where the chemical never reaches it. [min]

    Raises
    ------
    ValueError
        If the chemical is not known or the temperature is outside its range.

    Notes
    -----
    30, below 10 degC 60; chlorine dioxide 30, below 5 degC or for Cryptosporidium 240, which
    chlorine and iodine do not kill.

    References
    ----------
    .. [epa-emergency-disinfection] US EPA, 30 minutes (read in a copy).
    .. [cdc-backcountry-water] CDC, 2009: chlorine and iodine do not kill Cryptosporidium
       (read in a copy); four hours from makers' labels (from memory).
    """
    require_known("chemical", chemical, CHEMICALS)
    require("water temperature", water_c, "°C", 0.0, 50.0)
    if water_c < _cold_below_c(chemical):
        return _cold_contact_min(chemical, cryptosporidium)
    return _warm_contact_min(chemical, cryptosporidium)


def halogen_min(water_c: float, dose_mg_l: float) -> float:
    """Cautious waiting time with chlorine or iodine, by warmth and dose.

    Parameters
    ----------
    water_c : float
        Temperature of the water. [degC], 5 to 50
    dose_mg_l : float
        Chlorine or iodine. [mg/l], 2 to 20

    Returns
    -------
    float
        Minutes, enough for Giardia. [min]

    Raises
    ------
    ValueError
        If a value is outside its range; in colder water nothing is told.

    Notes
    -----
    Row of 25, 15 or 5 degC and column of 2, 4 or 8 mg/l, each the next one below.

    References
    ----------
    .. [backer-halogens] Backer, contact times of halogens (read in a copy).
    """
    require("water temperature", water_c, "°C", _HALOGEN_MIN[-1][0], 50.0)
    require("dose", dose_mg_l, "mg/l", _HALOGEN_MG_L[0], 20.0)
    row = next(minutes for least, minutes in _HALOGEN_MIN if water_c >= least)
    return row[sum(dose_mg_l >= dose for dose in _HALOGEN_MG_L) - 1]


@declared(
    "if(altitude_m > high_above_m, high_hold_min, hold_min)",
    {
        "high_above_m": Constant(EPA_HIGH_ABOVE_M, "epa-emergency-disinfection"),
        "high_hold_min": Constant(HIGH_BOIL_HOLD_MIN, "epa-emergency-disinfection"),
        "hold_min": Constant(BOIL_HOLD_MIN, "epa-emergency-disinfection"),
    },
)
def strict_boil_min(altitude_m: float) -> float:
    """How long water to drink is held at the boil by the stricter of two rules.

    Parameters
    ----------
    altitude_m : float
        Altitude of the camp. [m], -500 to 11000

    Returns
    -------
    float
        Minutes at a rolling boil: 1, above 1000 m 3. [min]

    Raises
    ------
    ValueError
        If the altitude is outside the range above.

    Notes
    -----
    The leaflet prints 5,000 feet and 1,000 metres for one height; CDC says 2000 m.

    References
    ----------
    .. [epa-emergency-disinfection] US EPA, Emergency Disinfection of Drinking Water
       (read in a copy).
    """
    require("altitude", altitude_m, "m", -500.0, 11000.0)
    return HIGH_BOIL_HOLD_MIN if altitude_m > EPA_HIGH_ABOVE_M else BOIL_HOLD_MIN


def growth_factor(duration_min: float, doubling_min: float = DOUBLING_MIN) -> float:
    """How many times as many germs there are after a time in the warm.

    Parameters
    ----------
    duration_min : float
        Time. [min], 0 to 1440
    doubling_min : float
        Time in which they double. [min], 5 or more

    Returns
    -------
    float
        Number then over number before. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    2 ** (t / doubling).

    References
    ----------
    .. [fsis-two-hours] USDA FSIS, 2016: they can double in 20 minutes (read in a copy).
    """
    require("time", duration_min, "min", 0.0, 1440.0)
    require("doubling time", doubling_min, "min", 5.0)
    return float(2.0 ** (duration_min / doubling_min))
