"""Drying at home: what own batches teach, what a dryer takes, what it costs and when it pays."""

from __future__ import annotations

import math
from collections.abc import Sequence

from builder.formulas.declaring import Constant, FromTable, declared
from builder.formulas.ranges import require, require_above, require_known
from builder.formulas.shopping import as_bought_g

# The table's loss counts like so many batches of one's own.
TABLE_COUNTS_AS = 2.0
# So much more is dried than is wanted: pieces stick, crumble and are tried.
SPARE_SHARE = 0.05

# The most that lies on trays at once [kg/m2]. Heat: 12 square feet take half a bushel of apples
# (University of Georgia Extension, read in a copy). Freeze dryers: a layer of 2 cm as leaflets
# have it (from memory).
MOST_ON_TRAYS_KG_M2: dict[str, float] = {
    "dehydrator": 9.0,
    "oven": 9.0,
    "sun": 9.0,
    "freeze-dryer": 20.0,
}

# Current for each kg of water [kWh/kg], where nobody metered it: guesses within the published
# ranges (hot air 0.8 to 8, freeze-drying 1.5 to 8). An oven takes twice as long as a dryer.
DRYING_KWH_KG: dict[str, float] = {
    "dehydrator": 2.0,
    "oven": 4.0,
    "sun": 0.0,
    "freeze-dryer": 5.0,
}
OVEN_HOURS_FACTOR = 2.0

# What a millilitre of pieces holds [g/ml], from household cups of SR28 (worked out): apple rings;
# the mean of carrot, onion flakes and tomato; fresh apple slices and chopped carrot.
HEAT_DRIED_G_ML: dict[str, float] = {"fruit": 0.364, "vegetable": 0.259}
FRESH_PIECES_G_ML: dict[str, float] = {"fruit": 0.46, "vegetable": 0.54}

# Vitamin C that is left (least, most, source): heat-dried fruit and vegetables of SR28 against
# fresh ones (worked out); freeze-dried from strawberries measured to those of SR28.
VITAMIN_C_KEPT_SHARE: dict[str, tuple[float, float, str]] = {
    "heat": (0.01, 0.36, "usda-sr28"),
    "freeze-dryer": (0.44, 1.0, "asami2003"),
}

# What is told of a dryer that never pays.
NEVER_RUNS = -1.0

_G_PER_KG = 1000.0
_CM2_PER_M2 = 10_000.0
_W_PER_KW = 1000.0
_SLACK = 1e-9


@declared(
    "exp((table_counts_as * ln(table_ratio) + sum(ln(own_ratio))) "
    "/ (table_counts_as + sum(own_ratio ^ 0)))",
    {"table_counts_as": Constant(TABLE_COUNTS_AS, "common-practice")},
)
def learned_ratio(table_ratio: float, own_ratio: Sequence[float]) -> float:
    """Dried over fresh mass to plan with, drawn from the table towards one's own batches.

    Parameters
    ----------
    table_ratio : float
        Dried over fresh by listed water and usual residual. [g/g], above 0
    own_ratio : sequence of float
        Dried over fresh of each batch of one's own, at least one. [g/g], above 0

    Returns
    -------
    float
        Dried over fresh. [g/g]

    Raises
    ------
    ValueError
        If there is no batch, or a value is outside its range.

    Notes
    -----
    exp((2 ln table + sum of ln own) / (2 + n)): a geometric mean in which the table counts
    like two batches.

    References
    ----------
    .. [common-practice] Common practice, no source, for counting the table as two batches.
    """
    require_above("dried over fresh of the table", table_ratio, "g/g", 0.0)
    if not own_ratio:
        raise ValueError("there is no batch of one's own to learn from; give at least one")
    for each in own_ratio:
        require_above("dried over fresh of a batch", each, "g/g", 0.0)
    learned = math.fsum(math.log(each) for each in own_ratio)
    whole = TABLE_COUNTS_AS * math.log(table_ratio) + learned
    return math.exp(whole / (TABLE_COUNTS_AS + len(own_ratio)))


@declared(
    "dried_g * (1 + spare_share) / dried_ratio",
    {"spare_share": Constant(SPARE_SHARE, "common-practice")},
)
def fresh_to_dry_g(dried_g: float, dried_ratio: float) -> float:
    """Fresh food to dry for what meals want of it dried, with a little to spare.

    Parameters
    ----------
    dried_g : float
        Dried mass that is wanted. [g], 0 or more
    dried_ratio : float
        Dried over fresh mass. [g/g], above 0

    Returns
    -------
    float
        Fresh mass, without what is peeled or cored away. [g]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    1.05 wanted / (dried / fresh).

    References
    ----------
    .. [common-practice] Common practice, no source, for 5 percent to spare.
    """
    require("dried mass", dried_g, "g", 0.0)
    require_above("dried over fresh", dried_ratio, "g/g", 0.0)
    return dried_g * (1.0 + SPARE_SHARE) / dried_ratio


def _most_on_trays_kg_m2(method: str) -> float:
    require_known("way to dry", method, MOST_ON_TRAYS_KG_M2)
    return MOST_ON_TRAYS_KG_M2[method]


@declared(
    "trays_cm2 / cm2_per_m2 * most_kg_m2 * 1000",
    {"cm2_per_m2": Constant(_CM2_PER_M2, "common-practice")},
    {"most_kg_m2": FromTable(_most_on_trays_kg_m2, ("method",), "uga-drying")},
)
def most_on_trays_g(trays_cm2: float, method: str) -> float:
    """Fresh food that lies on trays in one layer that air, or the vacuum, gets through.

    Parameters
    ----------
    trays_cm2 : float
        Area of all trays together. [cm2], 0 or more
    method : str
        dehydrator, oven, sun or freeze-dryer.

    Returns
    -------
    float
        Mass of fresh food. [g]

    Raises
    ------
    ValueError
        If the area is below zero, or the method is not known.

    Notes
    -----
    area * 9 kg/m2 in warm air, 20 kg/m2 in a freeze dryer.

    References
    ----------
    .. [uga-drying] University of Georgia Extension: 12 square feet take half a bushel
       (read in a copy).
    .. [common-practice] Common practice, no source, for 2 cm in a freeze dryer.
    """
    require("area of the trays", trays_cm2, "cm²", 0.0)
    return trays_cm2 / _CM2_PER_M2 * _most_on_trays_kg_m2(method) * _G_PER_KG


@declared("power_w / 1000 * run_hours * runs")
def metered_kwh(power_w: float, run_hours: float, runs: float) -> float:
    """Current that a dryer of a known power takes.

    Parameters
    ----------
    power_w : float
        Mean power while it runs. [W], 0 or more
    run_hours : float
        Length of a run. [h], 0 or more
    runs : float
        Number of runs. [-], 0 or more

    Returns
    -------
    float
        Energy. [kWh]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    power * hours * runs: an empty tray costs nearly as much as a full one.

    References
    ----------
    .. [msu-dryer-current] Michigan State University Extension, 01600534 (read in a copy).
    """
    require("power", power_w, "W", 0.0)
    require("hours of a run", run_hours, "h", 0.0)
    require("number of runs", runs, "", 0.0)
    return power_w / _W_PER_KW * run_hours * runs


def _drying_kwh_kg(method: str) -> float:
    require_known("way to dry", method, DRYING_KWH_KG)
    return DRYING_KWH_KG[method]


@declared(
    "water_g / 1000 * drying_kwh_kg",
    tables={"drying_kwh_kg": FromTable(_drying_kwh_kg, ("method",), "perera-rahman1997")},
)
def usual_kwh(water_g: float, method: str) -> float:
    """Current that drying takes where no power is told.

    Parameters
    ----------
    water_g : float
        Water to be drawn out. [g], 0 or more
    method : str
        dehydrator, oven, sun or freeze-dryer.

    Returns
    -------
    float
        Energy, a guess within a factor of two or three. [kWh]

    Raises
    ------
    ValueError
        If the mass is below zero, or the method is not known.

    Notes
    -----
    water * 2 kWh/kg in warm air, 4 in an oven, 5 in a freeze dryer, none in the sun.

    References
    ----------
    .. [perera-rahman1997] Perera and Rahman, 1997, hot air 0.8 to 8.3 kWh/kg
       (quoted from memory).
    .. [msu-dryer-current] Michigan State University Extension, 01600534, 0.74 and
       2.75 kWh/kg (worked out).
    """
    require("water to draw out", water_g, "g", 0.0)
    return water_g / _G_PER_KG * _drying_kwh_kg(method)


@declared("fresh_g / 1000 / (1 - refuse_share) * price_per_kg")
def food_cost(fresh_g: float, refuse_share: float, price_per_kg: float) -> float:
    """Price of the food as bought, of which a part is peeled, stoned or cored away.

    Parameters
    ----------
    fresh_g : float
        Mass that goes into the dryer. [g], 0 or more
    refuse_share : float
        Part of what is bought that does not. [share], 0 to 0.95
    price_per_kg : float
        Price of a kilogram as bought, in the currency of the home. [1/kg], 0 or more

    Returns
    -------
    float
        Price, in the currency of the home. [money]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    fresh / (1 - refuse) * price.

    References
    ----------
    .. [usda-sr28] USDA SR28, what refuse is (read in a copy).
    """
    require("price", price_per_kg, "", 0.0)
    return as_bought_g(fresh_g, refuse_share) / _G_PER_KG * price_per_kg


@declared("runs * price / lasts_runs")
def machine_cost(runs: float, price: float, lasts_runs: float) -> float:
    """Part of a dryer's price that some runs use up.

    Parameters
    ----------
    runs : float
        Number of runs. [-], 0 or more
    price : float
        What the dryer cost. [money], 0 or more
    lasts_runs : float
        Runs that it lasts for. [-], above 0

    Returns
    -------
    float
        Price, in the currency of the home. [money]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    In a straight line, without interest.

    References
    ----------
    .. [common-practice] Common practice, no source: straight-line depreciation.
    """
    require("number of runs", runs, "", 0.0)
    require("price of the dryer", price, "", 0.0)
    require_above("runs that it lasts for", lasts_runs, "", 0.0)
    return runs * price / lasts_runs


@declared(
    "if(own_cost < other_cost, ceil(price / (other_cost - own_cost) - slack), 0 - 1)",
    {"slack": Constant(_SLACK, "common-practice")},
)
def pays_after_runs(price: float, own_cost: float, other_cost: float) -> float:
    """Runs after which a dryer has paid for itself.

    Parameters
    ----------
    price : float
        What the dryer cost. [money], 0 or more
    own_cost : float
        Cost of a run in it, without the machine. [money], 0 or more
    other_cost : float
        Cost of the same food the other way, without the machine. [money], 0 or more

    Returns
    -------
    float
        Whole runs; -1 where the other way costs no more, and it never pays. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    ceil(price / (other - own)).

    References
    ----------
    .. [common-practice] Common practice, no source: break-even without interest.
    """
    require("price of the dryer", price, "", 0.0)
    require("cost of a run", own_cost, "", 0.0)
    require("cost the other way", other_cost, "", 0.0)
    if other_cost <= own_cost:
        return NEVER_RUNS
    return float(math.ceil(price / (other_cost - own_cost) - _SLACK))


@declared("runs * (other_cost - own_cost) - price")
def saved_after_runs(runs: float, price: float, own_cost: float, other_cost: float) -> float:
    """Money that a dryer has saved after some runs; below nothing while it has not paid.

    Parameters
    ----------
    runs : float
        Number of runs. [-], 0 or more
    price : float
        What the dryer cost. [money], 0 or more
    own_cost : float
        Cost of a run in it, without the machine. [money], 0 or more
    other_cost : float
        Cost of the same food the other way, without the machine. [money], 0 or more

    Returns
    -------
    float
        Money, in the currency of the home. [money]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    runs * (other - own) - price.

    References
    ----------
    .. [common-practice] Common practice, no source: break-even without interest.
    """
    require("number of runs", runs, "", 0.0)
    require("price of the dryer", price, "", 0.0)
    require("cost of a run", own_cost, "", 0.0)
    require("cost the other way", other_cost, "", 0.0)
    return runs * (other_cost - own_cost) - price


def bulk_density_g_ml(kind: str, as_it_is: str) -> float:
    """Mass of pieces of fruit or vegetable in a volume.

    Parameters
    ----------
    kind : str
        fruit or vegetable.
    as_it_is : str
        fresh, or heat-dried; freeze-dried pieces hardly shrink and take the room of fresh ones.

    Returns
    -------
    float
        Mass of a millilitre of pieces. [g/ml]

    Raises
    ------
    ValueError
        If nothing is known of the kind.

    References
    ----------
    .. [usda-sr28] USDA SR28, household cups: apple rings 86 g, carrot 74 g, fresh apple slices
       109 g, fresh chopped carrot 128 g to 236.6 ml (worked out).
    """
    table = FRESH_PIECES_G_ML if as_it_is == "fresh" else HEAT_DRIED_G_ML
    require_known("kind of pieces", kind, table)
    return table[kind]


@declared("mass_g / density_g_ml")
def room_ml(mass_g: float, density_g_ml: float) -> float:
    """Room that pieces take.

    Parameters
    ----------
    mass_g : float
        Mass of the pieces. [g], 0 or more
    density_g_ml : float
        Mass of a millilitre of them. [g/ml], above 0

    Returns
    -------
    float
        Volume. [ml]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    mass / density.

    References
    ----------
    .. [usda-sr28] USDA SR28, household cups (worked out).
    """
    require("mass of the pieces", mass_g, "g", 0.0)
    require_above("density", density_g_ml, "g/ml", 0.0)
    return mass_g / density_g_ml


def vitamin_c_kept_share(method: str) -> tuple[float, float, str]:
    """Vitamin C that drying leaves, between what, and who says so.

    Parameters
    ----------
    method : str
        freeze-dryer, or any other for warm air.

    Returns
    -------
    tuple
        Least and most that is left [share], and the source.

    References
    ----------
    .. [usda-sr28] USDA SR28, dried fruit and vegetables against fresh ones (worked out).
    .. [asami2003] Asami et al., 2003, strawberries, as a page quotes them (read in a copy).
    """
    return VITAMIN_C_KEPT_SHARE["freeze-dryer" if method == "freeze-dryer" else "heat"]
