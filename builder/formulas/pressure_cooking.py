"""How long each kind of food cooks, also under a lid that holds pressure."""

from __future__ import annotations

from builder.formulas.boiling import (
    COOKING_Z_K,
    LEAST_BOILING_POINT_C,
    MOST_BOILING_POINT_C,
    SEA_LEVEL_BOILING_POINT_C,
)
from builder.formulas.declaring import Constant, FromTable, declared, declared_ends
from builder.formulas.ranges import require, require_known

# Warming by this much cooks ten times as fast. Starchy roots: from the activation energy of
# a potato (read in a copy); grain: that of rice (from memory); legumes: softening at about
# 92 kJ/mol (from memory); all other plants as the cook value.
Z_K: dict[str, float] = {
    "vegetable": COOKING_Z_K,
    "fruit": COOKING_Z_K,
    "starchy-root": 41.3,
    "grain": 32.0,
    "legume": 28.0,
}
# Softening of plant food lies between these.
LEAST_Z_K = 20.0
MOST_Z_K = 40.0
# These go by the temperature in the middle, never by a factor on the time.
ANIMAL_KINDS = ("egg", "fish", "meat", "poultry")

_FACTOR = "10 ^ ((sea_level_c - boiling_point_c) / {})"


@declared(
    _FACTOR.format("z_k"),
    {"sea_level_c": Constant(SEA_LEVEL_BOILING_POINT_C, "iapws-if97")},
    {"z_k": FromTable(Z_K.__getitem__, ("kind",), "mansfield1962")},
)
def time_factor_of(kind: str, boiling_point_c: float) -> float:
    """How many times as long a kind of plant food cooks as at the sea's level.

    Parameters
    ----------
    kind : str
        A key of Z_K; never egg, meat, poultry or fish.
    boiling_point_c : float
        Temperature of the boiling water. [degC], 60 to 130

    Returns
    -------
    float
        Factor on the sea-level minutes; below 1 in a pressure cooker. [-]

    Raises
    ------
    ValueError
        If the kind is an animal food or not known, or the boiling point is outside its range.

    Notes
    -----
    10 ** ((99.97 - T) / z), z by kind.

    References
    ----------
    .. [potato-cooking-rate] Hiroshima University, cooking rate of potato: 62.8 kJ/mol
       (read in a copy).
    .. [suzuki1976] Suzuki and others, 1976, rice, about 80 kJ/mol (quoted from memory).
    .. [mansfield1962] Mansfield, 1962, cook value, z = 33 K (quoted from memory).
    """
    if kind in ANIMAL_KINDS:
        raise ValueError(
            f"{kind} has no factor on its cooking time; it goes by the temperature in the middle"
        )
    require_known("kind of food", kind, Z_K)
    return _factor(boiling_point_c, Z_K[kind])


@declared_ends(
    f"min({_FACTOR.format('least_z_k')}, {_FACTOR.format('most_z_k')})",
    f"max({_FACTOR.format('least_z_k')}, {_FACTOR.format('most_z_k')})",
    constants={
        "sea_level_c": Constant(SEA_LEVEL_BOILING_POINT_C, "iapws-if97"),
        "least_z_k": Constant(LEAST_Z_K, "mansfield1962"),
        "most_z_k": Constant(MOST_Z_K, "mansfield1962"),
    },
)
def time_factor_range(boiling_point_c: float) -> tuple[float, float]:
    """Range in which the time factor of plant foods lies.

    Parameters
    ----------
    boiling_point_c : float
        Temperature of the boiling water. [degC], 60 to 130

    Returns
    -------
    tuple of float
        Least and most factor on the sea-level minutes. [-]

    Raises
    ------
    ValueError
        If the boiling point is outside the range above.

    Notes
    -----
    10 ** ((99.97 - T) / z) with z of 20 and 40 K.

    References
    ----------
    .. [mansfield1962] Mansfield, 1962, cook value; softening at 60 to 130 kJ/mol
       (quoted from memory).
    """
    one = _factor(boiling_point_c, MOST_Z_K)
    other = _factor(boiling_point_c, LEAST_Z_K)
    return min(one, other), max(one, other)


def _factor(boiling_point_c: float, z_k: float) -> float:
    """Factor on the time for a boiling point and a z."""
    require("boiling point", boiling_point_c, "°C", LEAST_BOILING_POINT_C, MOST_BOILING_POINT_C)
    return float(10.0 ** ((SEA_LEVEL_BOILING_POINT_C - boiling_point_c) / z_k))
