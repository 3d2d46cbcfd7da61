"""Making water safe to drink: drops of bleach, waiting, boiling, and how germs grow."""

from __future__ import annotations

import math

from builder.formulas.boiling import BOIL_HOLD_MIN, HIGH_BOIL_HOLD_MIN
from builder.formulas.declaring import Constant, FromTable, declared
from builder.formulas.heat import CEILING_SLACK
from builder.formulas.ranges import require, require_known

# EPA: available chlorine from and to, and drops for a litre of clear water. 40, 8 and 6
# drops for a US gallon.
_GALLON_L = 3.785411784
_DROPS_PER_L: tuple[tuple[float, float, float], ...] = (
    (0.009, 0.015, 40.0 / _GALLON_L),
    (0.04, 0.07, 2.0),
    (0.07, 0.10, 6.0 / _GALLON_L),
)
CLOUDY_FACTOR = 2.0
MOST_VOLUME_ML = 200000.0

# CDC and EPA: half an hour; twice that in the cold (common advice, from memory). Chlorine
# dioxide needs four hours where it has to reach Cryptosporidium, or is cold.
CONTACT_MIN = 30.0
COLD_CONTACT_MIN = 60.0
SLOW_CONTACT_MIN = 240.0
COLD_BELOW_C = 10.0
VERY_COLD_BELOW_C = 5.0
CHEMICALS = ("chlorine", "iodine", "chlorine-dioxide")

# EPA prints 5,000 feet and, for them, 1,000 metres: the stricter reading.
EPA_HIGH_ABOVE_M = 1000.0


_ML_PER_L = 1000.0


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
