"""What a shop must sell for what is cooked: with peel, stones and cores, in whole packets."""

from __future__ import annotations

from builder.formulas.declaring import declared
from builder.formulas.ranges import require

MOST_REFUSE_SHARE = 0.95


@declared("edible_g / (1 - refuse_share)")
def as_bought_g(edible_g: float, refuse_share: float) -> float:
    """What to buy of a food for a mass of its eaten part.

    Parameters
    ----------
    edible_g : float
        Mass that is cooked, dried or eaten. [g], 0 or more
    refuse_share : float
        Share of the food as bought that is peeled, stoned or cored away. [share], 0 to 0.95

    Returns
    -------
    float
        Mass as bought. [g]

    Raises
    ------
    ValueError
        If an argument is outside its range.

    Notes
    -----
    edible / (1 - refuse).

    References
    ----------
    .. [usda-sr28] FOOD_DES, Refuse_Pct: the percentage of refuse of the food as bought
       (read in a copy).
    """
    require("edible mass", edible_g, "g", 0.0)
    require("refuse", refuse_share, "", 0.0, MOST_REFUSE_SHARE)
    return edible_g / (1.0 - refuse_share)
