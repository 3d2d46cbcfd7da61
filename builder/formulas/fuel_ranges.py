"""How far the fuel and the wood really burnt lie from the likely figure."""

from __future__ import annotations

from builder.formulas.declaring import FromTable, declared
from builder.formulas.heat import WIND_FACTOR
from builder.formulas.ranges import require, require_known

# Judged from tests of burners, pots and fires: small pots and full flames belong to the upper
# end. No curve of what wind takes was found, so it widens the range.
LEAST_TIMES: dict[str, dict[str, float]] = {
    "gas": {"sheltered": 0.85, "breezy": 0.80, "windy": 0.65},
    "liquid": dict.fromkeys(WIND_FACTOR, 0.85),
    "alcohol": dict.fromkeys(WIND_FACTOR, 0.80),
    "solid": dict.fromkeys(WIND_FACTOR, 0.80),
    "wood": dict.fromkeys(WIND_FACTOR, 0.50),
    "embers": dict.fromkeys(WIND_FACTOR, 0.50),
}
MOST_TIMES: dict[str, dict[str, float]] = {
    "gas": {"sheltered": 1.25, "breezy": 1.45, "windy": 2.00},
    "liquid": dict.fromkeys(WIND_FACTOR, 1.30),
    "alcohol": dict.fromkeys(WIND_FACTOR, 1.50),
    "solid": dict.fromkeys(WIND_FACTOR, 1.40),
    "wood": dict.fromkeys(WIND_FACTOR, 2.00),
    "embers": dict.fromkeys(WIND_FACTOR, 1.50),
}
# A stove that burns liquid under pressure is warmed with some of it each time it is lit.
LIGHTING_G: dict[str, float] = {
    **dict.fromkeys(LEAST_TIMES, 0.0),
    "liquid": 10.0,
}


def _least(burns: str, wind: str) -> float:
    return LEAST_TIMES[burns][wind]


def _most(burns: str, wind: str) -> float:
    return MOST_TIMES[burns][wind]


@declared(
    "likely_g * least_factor",
    tables={"least_factor": FromTable(_least, ("burns", "wind"), "common-practice")},
)
def least_burnt_g(likely_g: float, burns: str, wind: str) -> float:
    """Least that is burnt where so much is likely.

    Parameters
    ----------
    likely_g : float
        What is likely burnt. [g], 0 or more
    burns : str
        A key of LEAST_TIMES.
    wind : str
        A key of WIND_FACTOR.

    Returns
    -------
    float
        Lower end of the range. [g]

    Raises
    ------
    ValueError
        If the mass is negative, or a word is not known.

    Notes
    -----
    Likely fuel less 15 (gas, sheltered, and liquid), 20, 35 or 50 percent.

    References
    ----------
    .. [common-practice] Common practice, no source: judged from tests of single burners.
    """
    _require(likely_g, burns, wind)
    return likely_g * _least(burns, wind)


@declared(
    "likely_g * most_factor + lightings * lighting_g",
    tables={
        "most_factor": FromTable(_most, ("burns", "wind"), "common-practice"),
        "lighting_g": FromTable(LIGHTING_G.__getitem__, ("burns",), "common-practice"),
    },
)
def most_burnt_g(likely_g: float, lightings: float, burns: str, wind: str) -> float:
    """Most that is burnt where so much is likely.

    Parameters
    ----------
    likely_g : float
        What is likely burnt. [g], 0 or more
    lightings : float
        Times the stove is lit for it. [-], 0 or more
    burns : str
        A key of MOST_TIMES.
    wind : str
        A key of WIND_FACTOR.

    Returns
    -------
    float
        Upper end of the range. [g]

    Raises
    ------
    ValueError
        If a number is negative, or a word is not known.

    Notes
    -----
    Likely fuel and 25 to 100 percent more, and 10 g of liquid fuel for each lighting.

    References
    ----------
    .. [common-practice] Common practice, no source: judged from tests of single burners.
    """
    _require(likely_g, burns, wind)
    require("lightings", lightings, "", 0.0)
    return likely_g * _most(burns, wind) + lightings * LIGHTING_G[burns]


def _require(likely_g: float, burns: str, wind: str) -> None:
    require("what is likely burnt", likely_g, "g", 0.0)
    require_known("what burns", burns, LEAST_TIMES)
    require_known("wind", wind, WIND_FACTOR)
