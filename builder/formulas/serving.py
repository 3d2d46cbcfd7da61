"""How what a pot holds goes onto plates: in half ladles, of which none is promised twice."""

from __future__ import annotations

import math

from builder.formulas.declaring import Constant, declared
from builder.formulas.heat import CEILING_SLACK
from builder.formulas.ranges import require, require_above

_SLACK = {"slack": Constant(CEILING_SLACK, "common-practice")}


@declared("max(0, floor(2 * (pot_ml - drain_ml) / ladle_ml + slack))", _SLACK)
def pot_half_ladles(pot_ml: float, drain_ml: float, ladle_ml: float) -> int:
    """How many half ladles a pot gives.

    Parameters
    ----------
    pot_ml : float
        What is in the pot, water and food. [ml], 0 or more
    drain_ml : float
        Water poured off before it is shared out. [ml], 0 or more
    ladle_ml : float
        What a full ladle holds. [ml], above 0

    Returns
    -------
    int
        Half ladles, rounded down. [-]

    Raises
    ------
    ValueError
        If an amount is negative or the ladle holds nothing.

    Notes
    -----
    floor(2 (pot - drain) / ladle): half a ladle is what one still judges by eye.

    References
    ----------
    .. [common-practice] Common practice, no source: whole and half ladles.
    """
    require("what is in the pot", pot_ml, "ml", 0.0)
    require("water poured off", drain_ml, "ml", 0.0)
    require_above("what a ladle holds", ladle_ml, "ml", 0.0)
    return max(0, math.floor(2 * (pot_ml - drain_ml) / ladle_ml + CEILING_SLACK))


@declared("floor(half_ladles * plate_share + slack) + more", _SLACK)
def own_half_ladles(half_ladles: float, plate_share: float, more: float) -> float:
    """How many half ladles of a pot are one person's.

    Parameters
    ----------
    half_ladles : float
        What the pot gives. [-], 0 or more
    plate_share : float
        One's share of the pot. [share], 0 to 1
    more : float
        Half ladles on top, of what rounding down leaves over. [-], 0 to 1

    Returns
    -------
    float
        Half ladles. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    floor(pot share) + more; those whose share was cut most by rounding have more, as far as
    the pot goes (the method of the largest remainder).

    References
    ----------
    .. [common-practice] Common practice, no source: whole and half ladles.
    """
    require("half ladles in the pot", half_ladles, "", 0.0)
    require("share of the pot", plate_share, "", 0.0, 1.0)
    require("half ladles on top", more, "", 0.0, 1.0)
    return math.floor(half_ladles * plate_share + CEILING_SLACK) + more
