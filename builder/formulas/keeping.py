"""How long dried food keeps, and what is in the air of its pack."""

from __future__ import annotations

from builder.formulas.declaring import Constant, declared
from builder.formulas.ranges import require, require_above, require_known

# Months at 15.6 degC (60 degF). Fruit and vegetables: extension tables; jerky: two weeks;
# the rest cautious figures from memory. Freeze-dried plant food is capped far under the
# 25 years of common practice, since no authority vouches for those.
TABLE_MONTHS: dict[str, float] = {
    "fruit": 12.0,
    "plant": 6.0,
    "cooked-meat": 1.0,
    "jerky": 0.5,
    "egg-dairy": 1.0,
    "nut": 3.0,
    "freeze-dried-plant": 120.0,
    "freeze-dried-animal": 36.0,
    "freeze-dried-raw-or-fat": 12.0,
}

# Air and fat reach the food: half the months, once for both.
BAG_OR_FAT_FACTOR = 0.5
FAT_HALVES_ABOVE_G = 10.0
FAT_RICH_ABOVE_G = 25.0
# Without proof of dryness nothing is promised for longer.
UNPROVEN_MOST_MONTHS = 12.0

# 12 months at 60 degF and 6 at 80 degF: half for each 20 degF, that is 11.1 K.
TABLE_KEPT_AT_C = 15.6
HALVING_K = 11.1
FROZEN_C = -18.0
# Ten years, frozen or not: common practice names 25, and nobody vouches for those.
MOST_MONTHS = 120.0
COLDEST_KEPT_C = -40.0
WARMEST_KEPT_C = 40.0

# Standard atmosphere, by volume (quoted from memory).
OXYGEN_SHARE_OF_AIR = 0.2095


# How a person would write the months at a temperature; other formulas build on it.
MONTHS_KEPT = (
    "min(table_months * 2 ^ ((table_at_c - kept_at_c) / halving_k), "
    "if(kept_at_c <= frozen_c, most_months, table_months))"
)
MONTHS_KEPT_BY = {
    "frozen_c": Constant(FROZEN_C, "common-practice"),
    "table_at_c": Constant(TABLE_KEPT_AT_C, "uga-drying"),
    "halving_k": Constant(HALVING_K, "uga-drying"),
    "most_months": Constant(MOST_MONTHS, "common-practice"),
}


@declared(MONTHS_KEPT, MONTHS_KEPT_BY)
def months_kept(table_months: float, kept_at_c: float) -> float:
    """Months that a dried food keeps at a temperature.

    Parameters
    ----------
    table_months : float
        Months at 15.6 degC. [months], 0 to 120
    kept_at_c : float
        Temperature of the store. [degC], -40 to 40

    Returns
    -------
    float
        Months, not above the table's unless kept at -18 degC or colder, never above 120.
        [months]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    T * 2 ** ((15.6 - kept_at) / 11.1). A guideline; smell and look decide.

    References
    ----------
    .. [uga-drying] University of Georgia Extension, 2014, So Easy to Preserve: fruit 12
       months at 60 degF, 6 at 80 degF (read in a copy).
    """
    require("months of the table", table_months, "months", 0.0, MOST_MONTHS)
    require("temperature of the store", kept_at_c, "°C", COLDEST_KEPT_C, WARMEST_KEPT_C)
    months = table_months * float(2.0 ** ((TABLE_KEPT_AT_C - kept_at_c) / HALVING_K))
    return min(months, MOST_MONTHS if kept_at_c <= FROZEN_C else table_months)


def table_months(
    group: str, in_bag: bool, fat_g: float, keeps_months: float | None = None
) -> float:
    """Months that a group of dried food keeps at 15.6 degC in its pack.

    Parameters
    ----------
    group : str
        A key of TABLE_MONTHS.
    in_bag : bool
        Whether the pack lets air in: a zip bag or paper.
    fat_g : float
        Fat in 100 g of the dried food. [g], 0 to 100
    keeps_months : float, optional
        What is known of this very food, in place of its group's months. [months], 0 to 120

    Returns
    -------
    float
        Months at 15.6 degC. [months]

    Raises
    ------
    ValueError
        If the group is not known or the fat is outside its range.

    Notes
    -----
    A bag, or fat above 10 g in 100 g, halves the months, once for both; the months of nuts
    count their fat.

    References
    ----------
    .. [uga-drying] University of Georgia Extension, 2014, So Easy to Preserve
       (read in a copy).
    .. [nchfp-jerky] National Center for Home Food Preservation, jerky, two weeks
       (quoted from memory).
    .. [umn-months] University of Minnesota Extension, months by kind of vegetable at 60 degF
       (read in a copy).
    """
    require_known("group of dried food", group, TABLE_MONTHS)
    require("fat", fat_g, "g in 100 g", 0.0, 100.0)
    months = TABLE_MONTHS[group]
    if keeps_months is not None:
        require("months that this food keeps", keeps_months, "months", 0.0, MOST_MONTHS)
        months = keeps_months
    halved = in_bag or (fat_g > FAT_HALVES_ABOVE_G and group != "nut")
    return months * (BAG_OR_FAT_FACTOR if halved else 1.0)


@declared(
    "oxygen_share * (container_ml - food_ml)",
    {"oxygen_share": Constant(OXYGEN_SHARE_OF_AIR, "iso2533")},
)
def void_oxygen_ml(container_ml: float, food_ml: float) -> float:
    """Oxygen in the air around the food of a container.

    Parameters
    ----------
    container_ml : float
        Inner volume. [ml], 0 or more
    food_ml : float
        Volume of the food itself, without the air between. [ml], 0 to container_ml

    Returns
    -------
    float
        Volume of oxygen at the pressure of the packing place. [ml]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    0.2095 (container - food).

    References
    ----------
    .. [us-atmosphere-1976] U.S. Standard Atmosphere, 1976, composition of air
       (quoted from memory).
    """
    require("volume of the container", container_ml, "ml", 0.0)
    require("volume of the food", food_ml, "ml", 0.0, container_ml)
    return OXYGEN_SHARE_OF_AIR * (container_ml - food_ml)


@declared("pressure_packed_hpa / pressure_hpa")
def bag_swelling(pressure_packed_hpa: float, pressure_hpa: float) -> float:
    """How many times its volume the air in a slack bag takes at another height.

    Parameters
    ----------
    pressure_packed_hpa : float
        Air pressure where the bag was closed. [hPa], above 0
    pressure_hpa : float
        Air pressure where the bag is. [hPa], above 0

    Returns
    -------
    float
        Volume there over volume when packed. [-]

    Raises
    ------
    ValueError
        If a pressure is not above zero.

    Notes
    -----
    p_packed / p, at one temperature.

    References
    ----------
    .. [iso2533] ISO 2533:1975, Standard Atmosphere, for the pressures (quoted from memory).
    """
    require_above("air pressure at packing", pressure_packed_hpa, "hPa", 0.0)
    require_above("air pressure", pressure_hpa, "hPa", 0.0)
    return pressure_packed_hpa / pressure_hpa
