"""How much water a dried food holds in air of a humidity, and what can grow in it."""

from __future__ import annotations

import math
from typing import NamedTuple

from builder.formulas.drying_curve import water_per_solids
from builder.formulas.ranges import require, require_above, require_known

# Wetter than this nobody measures isotherms well.
MOST_WATER_ACTIVITY = 0.95
# The inverse of the isotherm at its end may come out a rounding above it.
ROUNDING = 1e-9

# FDA and extension services (quoted from memory): nothing grows below the first, hardly a
# mould below the second, no Staphylococcus below the third.
NO_GROWTH_BELOW = 0.60
HARDLY_MOULD_BELOW = 0.70
NO_STAPHYLOCOCCUS_BELOW = 0.85


class Gab(NamedTuple):
    """Three numbers of a GAB isotherm: water of the first layer [g/g], C and K [-]."""

    monolayer: float
    c: float
    k: float


# Order of magnitude of what the literature gives at 25 to 30 degC, quoted from memory and of
# no single publication: good for "crisp, leathery or too wet", not for a safety limit.
GROUPS: dict[str, Gab] = {
    "starchy": Gab(0.065, 14.0, 0.80),
    "root-vegetable": Gab(0.11, 5.0, 0.95),
    "sweet-fruit": Gab(0.10, 6.0, 1.00),
    "lean-meat": Gab(0.055, 12.0, 0.93),
    "mushroom": Gab(0.07, 8.0, 0.95),
}


def gab_water_per_solids(water_activity: float, monolayer: float, c: float, k: float) -> float:
    """Water that a food holds at a water activity, by the GAB isotherm.

    Parameters
    ----------
    water_activity : float
        Water activity, the humidity of the air in equilibrium with it. [share], 0 to 0.95
    monolayer : float
        Water of the first layer, Xm. [g/g], above 0
    c : float
        C of the isotherm. [-], above 0
    k : float
        K of the isotherm, with K times the water activity below 1. [-], above 0

    Returns
    -------
    float
        Water for each gram of solids, dry basis. [g/g]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    X = Xm C K a / ((1 - K a) (1 - K a + C K a)).

    References
    ----------
    .. [van-den-berg1981] van den Berg and Bruin, 1981, GAB isotherm (quoted from memory).
    """
    _require_activity(water_activity, MOST_WATER_ACTIVITY)
    _require_gab(monolayer, c, k)
    reduced = k * water_activity
    if reduced >= 1.0:
        raise ValueError(
            f"K times the water activity is {reduced:.10g}; it must be less than 1 "
            "for this isotherm"
        )
    return monolayer * c * reduced / ((1.0 - reduced) * (1.0 - reduced + c * reduced))


def gab_water_activity(water_per_solids: float, monolayer: float, c: float, k: float) -> float:
    """Water activity of a food that holds an amount of water, by the GAB isotherm.

    Parameters
    ----------
    water_per_solids : float
        Water for each gram of solids, dry basis. [g/g], 0 or more
    monolayer : float
        Water of the first layer, Xm. [g/g], above 0
    c : float
        C of the isotherm. [-], above 0
    k : float
        K of the isotherm. [-], above 0

    Returns
    -------
    float
        Water activity. [share], at most 0.95

    Raises
    ------
    ValueError
        If a value is outside its range, or the food is wetter than at 0.95.

    Notes
    -----
    With y = K a the isotherm is X (C - 1) y ** 2 + (Xm C - X (C - 2)) y - X = 0; the root
    below 1 is y = 2 X / (b + sqrt(b ** 2 + 4 X ** 2 (C - 1))), b = Xm C - X (C - 2).

    References
    ----------
    .. [van-den-berg1981] van den Berg and Bruin, 1981, GAB isotherm solved for the water
       activity (quoted from memory).
    """
    require("water for each gram of solids", water_per_solids, "g/g", 0.0)
    _require_gab(monolayer, c, k)
    b = monolayer * c - water_per_solids * (c - 2.0)
    root = math.sqrt(b * b + 4.0 * water_per_solids**2 * (c - 1.0))
    activity = 2.0 * water_per_solids / (b + root) / k
    if activity > MOST_WATER_ACTIVITY + ROUNDING:
        raise ValueError(
            f"{water_per_solids:.10g} g of water for each gram of solids is wetter than "
            f"the isotherm reaches, a water activity of {MOST_WATER_ACTIVITY:.10g}"
        )
    return activity


def water_activity_of(group: str, water_share: float) -> float:
    """Water activity that a dried food of a group has about.

    Parameters
    ----------
    group : str
        A key of GROUPS.
    water_share : float
        Water in the dried food, wet basis. [share], 0 to about 0.5

    Returns
    -------
    float
        Water activity at 25 to 30 degC. [share]

    Raises
    ------
    ValueError
        If the group is not known, or the food is wetter than its isotherm reaches.

    Notes
    -----
    The GAB isotherm of the group at X = w / (1 - w). An order of magnitude.

    References
    ----------
    .. [van-den-berg1981] van den Berg and Bruin, 1981, GAB isotherm; the groups' numbers
       are ranges of the literature (quoted from memory).
    """
    require_known("group of foods", group, GROUPS)
    return gab_water_activity(water_per_solids(water_share), *GROUPS[group])


def can_grow(water_activity: float) -> tuple[str, ...]:
    """What can grow in a food of a water activity, when there is air and warmth.

    Parameters
    ----------
    water_activity : float
        Water activity. [share], 0 to 1

    Returns
    -------
    tuple of str
        Of dry-moulds, moulds, staphylococcus those that can; empty for none. [-]

    Raises
    ------
    ValueError
        If the water activity is outside its range.

    Notes
    -----
    From 0.60 moulds that stand dryness, from 0.70 common moulds, from 0.85 Staphylococcus.

    References
    ----------
    .. [fda-food-code] US FDA, Food Code and the report on potentially hazardous foods
       (limits quoted from memory).
    """
    _require_activity(water_activity, 1.0)
    limits = (
        ("dry-moulds", NO_GROWTH_BELOW),
        ("moulds", HARDLY_MOULD_BELOW),
        ("staphylococcus", NO_STAPHYLOCOCCUS_BELOW),
    )
    return tuple(name for name, least in limits if water_activity >= least)


def _require_activity(water_activity: float, most: float) -> None:
    """Raise ValueError unless a food can have this water activity."""
    require("water activity", water_activity, "", 0.0, most)


def _require_gab(monolayer: float, c: float, k: float) -> None:
    """Raise ValueError unless the three numbers make an isotherm."""
    require_above("water of the first layer", monolayer, "g/g", 0.0)
    require_above("C of the isotherm", c, "", 0.0)
    require_above("K of the isotherm", k, "", 0.0)
