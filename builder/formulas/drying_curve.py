"""How the weight of food falls while it dries, and when it will be dry."""

from __future__ import annotations

import math

from builder.formulas.declaring import Constant, declared
from builder.formulas.drying import MOST_WATER_SHARE, moisture_ratio
from builder.formulas.ranges import require, require_above

# No dryer runs for longer: four weeks.
LONGEST_MIN = 40320.0
THINNEST_MM = 0.5
THICKEST_MM = 100.0
# Sooner after the last weighing a load tells nothing new.
LOOK_AGAIN_MIN = 30.0
LOOK_AGAIN_SHARE = 1.0 / 3.0  # of the time that is likely still to go


def water_per_solids(water_share: float) -> float:
    """Water for each gram of solids (dry basis), from the share of water in the whole.

    Parameters
    ----------
    water_share : float
        Water in the food, wet basis. [share], 0 to 0.98

    Returns
    -------
    float
        Water for each gram of solids. [g/g]

    Raises
    ------
    ValueError
        If the share is outside the range above.

    Notes
    -----
    X = w / (1 - w).

    References
    ----------
    .. [fellows] Fellows, 2009, Food Processing Technology, dry and wet basis
       (quoted from memory).
    """
    require("water share", water_share, "", 0.0, MOST_WATER_SHARE)
    return water_share / (1.0 - water_share)


_EQUILIBRIUM = "equilibrium_share / (1 - equilibrium_share)"


@declared(
    f"(water_share / (1 - water_share) - {_EQUILIBRIUM}) / "
    f"(start_share / (1 - start_share) - {_EQUILIBRIUM})"
)
def moisture_ratio_of(
    water_share: float, start_share: float, equilibrium_share: float = 0.0
) -> float:
    """Share of the removable water that is still there.

    Parameters
    ----------
    water_share : float
        Water in the food now, wet basis. [share], equilibrium_share to start_share
    start_share : float
        Water in the food at the start. [share], above equilibrium_share to 0.98
    equilibrium_share : float
        Water that stays in the food however long it lies in that air. [share], 0 to 0.98

    Returns
    -------
    float
        Moisture ratio, 1 at the start. [share]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    MR = (X - Xe) / (X0 - Xe), all dry basis: of wet shares the ratio would be wrong.

    References
    ----------
    .. [lewis1921] Lewis, 1921, The rate of drying of solid materials (quoted from memory).
    """
    require("water share in equilibrium", equilibrium_share, "", 0.0, MOST_WATER_SHARE)
    require_above("water share at the start", start_share, "", equilibrium_share)
    require("water share now", water_share, "", equilibrium_share, start_share)
    equilibrium = water_per_solids(equilibrium_share)
    going = water_per_solids(water_share) - equilibrium
    return going / (water_per_solids(start_share) - equilibrium)


@declared(
    "start_g * (1 - start_share) * (1 + equilibrium_share / (1 - equilibrium_share) + "
    "(start_share / (1 - start_share) - equilibrium_share / (1 - equilibrium_share)) * "
    "exp(-rate_per_min * duration_min ^ exponent))"
)
def page_mass_g(
    duration_min: float,
    start_g: float,
    start_share: float,
    rate_per_min: float,
    exponent: float,
    *,
    equilibrium_share: float = 0.0,
) -> float:
    """Mass of a load after a time of drying, by the Page curve.

    Parameters
    ----------
    duration_min : float
        Time since the start. [min], 0 to 40320
    start_g : float
        Mass at the start. [g], 0 or more
    start_share : float
        Water in the food at the start, wet basis. [share], above equilibrium_share to 0.98
    rate_per_min : float
        Rate k. [1/min ** exponent], above 0
    exponent : float
        Exponent n. [-], above 0 to 5
    equilibrium_share : float
        Water that stays in the food however long it lies in that air. [share], 0 to 0.98

    Returns
    -------
    float
        Mass of the load then. [g]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    m = m0 (1 - w0) (1 + Xe + (X0 - Xe) exp(-k t ** n)): the solids stay.

    References
    ----------
    .. [page1949] Page, 1949, air drying shelled corn in thin layers (quoted from memory).
    """
    require("mass at the start", start_g, "g", 0.0)
    require("drying time", duration_min, "min", 0.0, LONGEST_MIN)
    require("water share in equilibrium", equilibrium_share, "", 0.0, MOST_WATER_SHARE)
    require_above("water share at the start", start_share, "", equilibrium_share)
    equilibrium = water_per_solids(equilibrium_share)
    removable = water_per_solids(start_share) - equilibrium
    left = removable * moisture_ratio(duration_min, rate_per_min, exponent)
    return start_g * (1.0 - start_share) * (1.0 + equilibrium + left)


@declared("(0 - ln(moisture_ratio) / rate_per_min) ^ (1 / exponent)")
def minutes_to_ratio(moisture_ratio: float, rate_per_min: float, exponent: float = 1.0) -> float:
    """Drying time after which a share of the removable water is left.

    Parameters
    ----------
    moisture_ratio : float
        Share of the removable water left, dry basis. [share], above 0 to 1
    rate_per_min : float
        Rate k. [1/min ** exponent], above 0
    exponent : float
        Exponent n: 1 for Lewis, else Page. [-], above 0 to 5

    Returns
    -------
    float
        Time since the start, at most 40320. [min]

    Raises
    ------
    ValueError
        If a value is outside its range, or it takes longer than four weeks.

    Notes
    -----
    t = (-ln MR / k) ** (1 / n).

    References
    ----------
    .. [lewis1921] Lewis, 1921, The rate of drying of solid materials (quoted from memory).
    .. [page1949] Page, 1949, air drying shelled corn in thin layers (quoted from memory).
    """
    require_above("moisture ratio", moisture_ratio, "", 0.0)
    require("moisture ratio", moisture_ratio, "", 0.0, 1.0)
    require_above("drying rate", rate_per_min, "per min", 0.0)
    require_above("exponent", exponent, "", 0.0)
    require("exponent", exponent, "", 0.0, 5.0)
    if moisture_ratio == 1.0:
        return 0.0
    # By logarithms, since the power itself may be larger than any number.
    log_minutes = (math.log(-math.log(moisture_ratio)) - math.log(rate_per_min)) / exponent
    if log_minutes > math.log(LONGEST_MIN):
        raise ValueError(
            f"at this rate it takes longer than {LONGEST_MIN:.10g} min; it must be warmer, "
            "drier or cut thinner"
        )
    return math.exp(log_minutes)


@declared(
    "max(earliest_min, last_min + max(look_again_min, (likely_min - last_min) * look_again_share))",
    {
        "look_again_min": Constant(LOOK_AGAIN_MIN, "common-practice"),
        "look_again_share": Constant(LOOK_AGAIN_SHARE, "common-practice"),
    },
)
def look_next_min(last_min: float, earliest_min: float, likely_min: float) -> float:
    """Time since the start at which to look at a load and weigh it next.

    Parameters
    ----------
    last_min : float
        When it was last weighed. [min], 0 or more
    earliest_min : float
        When it may first be dry enough. [min], 0 or more
    likely_min : float
        When it is likely dry enough. [min], 0 or more

    Returns
    -------
    float
        Time since the start. [min]

    Raises
    ------
    ValueError
        If a value is below nothing.

    Notes
    -----
    When it may first be dry; and where the weighings leave that open for long, after a third of
    the time that is likely still to go, half an hour or more.

    References
    ----------
    .. [common-practice] No load is opened more often than it tells something new.
    """
    require("last weighing", last_min, "min", 0.0)
    require("earliest time", earliest_min, "min", 0.0)
    require("likely time", likely_min, "min", 0.0)
    pause_min = max(LOOK_AGAIN_MIN, (likely_min - last_min) * LOOK_AGAIN_SHARE)
    return max(earliest_min, last_min + pause_min)
