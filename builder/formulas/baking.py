"""Baking in a lidded cast-iron pot among embers."""

from __future__ import annotations

from builder.formulas.declaring import Constant, declared
from builder.formulas.ranges import require, require_above

# Common practice, no source: so many egg-sized embers for each centimetre of the pot give 175 °C,
# and one pair more or less changes it by 14 °C.
EMBERS_PER_CM = 0.8
EMBERS_GIVE_C = 175.0
PAIR_GIVES_K = 14.0
# A third lies below the pot, the rest on its lid.
BELOW_SHARE = 1.0 / 3.0
# What such a pot can be held at.
COOLEST_BAKING_C = 100.0
HOTTEST_BAKING_C = 260.0


@declared(
    "max(0, embers_per_cm * diameter_cm + 2 * (baking_c - embers_give_c) / pair_gives_k)",
    {
        "embers_per_cm": Constant(EMBERS_PER_CM, "common-practice"),
        "embers_give_c": Constant(EMBERS_GIVE_C, "common-practice"),
        "pair_gives_k": Constant(PAIR_GIVES_K, "common-practice"),
    },
)
def embers_to_bake(diameter_cm: float, baking_c: float) -> float:
    """Egg-sized embers that heat a lidded cast-iron pot.

    Parameters
    ----------
    diameter_cm : float
        Diameter of the pot. [cm], above 0
    baking_c : float
        Temperature wanted inside. [degC], 100 to 260

    Returns
    -------
    float
        Pieces of embers, below and on the lid together. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    0.8 for each cm, and two more or less for 14 K above or below 175 degC.

    References
    ----------
    .. [common-practice] Common practice, no source: cooks count pieces by the pot.
    """
    require_above("diameter of the pot", diameter_cm, "cm", 0.0)
    require("baking temperature", baking_c, "°C", COOLEST_BAKING_C, HOTTEST_BAKING_C)
    pairs = (baking_c - EMBERS_GIVE_C) / PAIR_GIVES_K
    return max(0.0, EMBERS_PER_CM * diameter_cm + 2.0 * pairs)
