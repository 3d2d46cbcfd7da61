"""How much a person should drink, and how much of it on the way."""

from __future__ import annotations

from builder.formulas.declaring import Constant, FromTable, declared
from builder.formulas.ranges import require, require_above, require_known

# EFSA 2010, adequate intakes of total water (read in a copy); from 14 years as adults.
INTAKE_1_Y_ML = 1150.0
INTAKE_2_3_Y_ML = 1300.0
INTAKE_4_8_Y_ML = 1600.0
INTAKE_9_13_Y_ML: dict[str, float] = {"female": 1900.0, "male": 2100.0}
INTAKE_ADULT_ML: dict[str, float] = {"female": 2000.0, "male": 2500.0}
PREGNANT_ML = 300.0
NURSING_ML = 700.0

# Half a litre an hour, one litre in heat: walkers' rule, from memory; the US Army's table
# for easy to moderate work lies at 0.5 to 1 quart.
RATE_ML_H = 500.0
WARM_RATE_ML_H = 750.0
HOT_RATE_ML_H = 1000.0
WARM_ABOVE_C = 25.0
HOT_ABOVE_C = 30.0
FULL_RATE_MASS_KG = 60.0

# Of the adequate intake four fifths are drunk, in the 16 hours a person is awake.
DRUNK_SHARE_OF_INTAKE = 0.8
WAKING_HOURS = 16.0
# Heat at rest: 1 at 25 degC and 0.06 more with each degree of the day's high. Our fit to what
# men at rest in the shade needed at a mean of 30 degC: 3.8 l (1959) and 4.5 l (1947), and to two
# to three times the temperate need at about 40 degC (NAP 10925, read).
HEAT_SHARE_PER_K = 0.06
# Dry air and hard breathing high up; IOM 1996, lower end (quoted from memory).
HIGH_ML = 500.0
HIGH_ABOVE_M = 2500.0
# EFSA: food brings 20 to 30 percent.
MOST_FROM_FOOD_SHARE = 0.3
LEAST_TO_DRINK_ML = 1000.0
NIGHT_HOURS = 10.0
# More than this, in an hour or a day, can do harm: 1.5 and 12 quarts, TB MED 507 (read in a
# copy). The need of a long hot day would lie above it: such a way is too long for the heat.
MOST_ML_H = 1420.0
MOST_ML_DAY = 11400.0


def _intake_by_age_ml(sex: str | None, age_years: float) -> float:
    """Adequate intake by age and sex alone."""
    if age_years < 2.0:
        return INTAKE_1_Y_ML
    if age_years < 4.0:
        return INTAKE_2_3_Y_ML
    if age_years < 9.0:
        return INTAKE_4_8_Y_ML
    by_sex = INTAKE_9_13_Y_ML if age_years < 14.0 else INTAKE_ADULT_ML
    return (by_sex["female"] + by_sex["male"]) / 2.0 if sex is None else by_sex[sex]


def _added_ml(pregnant: bool, nursing: bool) -> float:
    """Intake that comes on top of the one by age and sex."""
    return (PREGNANT_ML if pregnant else 0.0) + (NURSING_ML if nursing else 0.0)


@declared(
    "by_age_ml + added_ml",
    tables={
        "by_age_ml": FromTable(_intake_by_age_ml, ("sex", "age_years"), "efsa2010"),
        "added_ml": FromTable(_added_ml, ("pregnant", "nursing"), "efsa2010"),
    },
)
def adequate_intake_ml(
    sex: str | None, age_years: float, pregnant: bool = False, nursing: bool = False
) -> float:
    """Water a person needs on a quiet day, from drinks and food together.

    Parameters
    ----------
    sex : str or None
        female or male; None takes the mean of both.
    age_years : float
        Age. [years], 1 to 120
    pregnant : bool
        Whether 300 ml are added.
    nursing : bool
        Whether 700 ml are added.

    Returns
    -------
    float
        Adequate intake of total water in a day. [ml]

    Raises
    ------
    ValueError
        If the age is outside its range or the sex is not known.

    Notes
    -----
    1 year 1150, 2 to 3 1300, 4 to 8 1600, 9 to 13 girls 1900 and boys 2100,
    from 14 women 2000 and men 2500.

    References
    ----------
    .. [efsa2010] EFSA, 2010, Dietary Reference Values for water (read in a copy).
    """
    require("age", age_years, "years", 1.0, 120.0)
    if sex is not None:
        require_known("sex", sex, INTAKE_ADULT_ML)
    return _intake_by_age_ml(sex, age_years) + _added_ml(pregnant, nursing)


@declared(
    "if(air_high_c > hot_above_c, hot_ml_h, if(air_high_c > warm_above_c, warm_ml_h, cool_ml_h)) "
    "* min(1, mass_kg / full_rate_kg)",
    {
        "hot_above_c": Constant(HOT_ABOVE_C, "tb-med-507"),
        "hot_ml_h": Constant(HOT_RATE_ML_H, "tb-med-507"),
        "warm_above_c": Constant(WARM_ABOVE_C, "tb-med-507"),
        "warm_ml_h": Constant(WARM_RATE_ML_H, "tb-med-507"),
        "cool_ml_h": Constant(RATE_ML_H, "common-practice"),
        "full_rate_kg": Constant(FULL_RATE_MASS_KG, "common-practice"),
    },
)
def drinking_rate_ml_h(air_high_c: float, mass_kg: float) -> float:
    """What a person drinks in an hour on the way.

    Parameters
    ----------
    air_high_c : float
        Highest temperature of the day. [degC], -90 to 60
    mass_kg : float
        Body mass. [kg], above 0

    Returns
    -------
    float
        Volume in an hour. [ml/h]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    500, above 25 degC 750, above 30 degC 1000, times min(1, mass / 60).

    References
    ----------
    .. [tb-med-507] US Army, 2003, TB MED 507, fluid replacement table (read in a copy).
    .. [common-practice] Common practice, no source.
    """
    require("highest air temperature", air_high_c, "°C", -90.0, 60.0)
    require_above("body mass", mass_kg, "kg", 0.0)
    rate_ml_h = RATE_ML_H
    if air_high_c > HOT_ABOVE_C:
        rate_ml_h = HOT_RATE_ML_H
    elif air_high_c > WARM_ABOVE_C:
        rate_ml_h = WARM_RATE_ML_H
    return rate_ml_h * min(1.0, mass_kg / FULL_RATE_MASS_KG)


@declared(
    "min(intake_ml * (1 + heat_share_per_k * max(0, air_high_c - warm_above_c) "
    "* (waking_hours - travel_hours) / waking_hours) "
    "+ travel_hours * (rate_ml_h - drunk_share * intake_ml / waking_hours) "
    "+ if(altitude_m > high_above_m, high_ml, 0), most_ml_day)",
    {
        "heat_share_per_k": Constant(HEAT_SHARE_PER_K, "nap-10925"),
        "warm_above_c": Constant(WARM_ABOVE_C, "tb-med-507"),
        "drunk_share": Constant(DRUNK_SHARE_OF_INTAKE, "efsa2010"),
        "waking_hours": Constant(WAKING_HOURS, "common-practice"),
        "high_above_m": Constant(HIGH_ABOVE_M, "iom1996"),
        "high_ml": Constant(HIGH_ML, "iom1996"),
        "most_ml_day": Constant(MOST_ML_DAY, "tb-med-507"),
    },
)
def water_need_ml(
    intake_ml: float,
    travel_hours: float,
    rate_ml_h: float,
    altitude_m: float,
    air_high_c: float,
) -> float:
    """Water a person needs in a day, from drinks and food together, in heat and on the way.

    Parameters
    ----------
    intake_ml : float
        Adequate intake on a quiet day. [ml], 0 or more
    travel_hours : float
        Hours on the way. [h], 0 to 16
    rate_ml_h : float
        What is drunk in an hour on the way. [ml/h], 0 or more
    altitude_m : float
        Altitude of the camp. [m], -500 to 11000
    air_high_c : float
        Highest temperature of the day. [degC], -90 to 60

    Returns
    -------
    float
        Need of the day, at most 11400. [ml]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    AI (1 + 0.06 max(0, high - 25) (16 - h) / 16) + h (rate - 0.8 AI / 16), above 2500 m
    500 more: the hours on the way take the place of as many quiet ones. The 0.06 is a fit.

    References
    ----------
    .. [efsa2010] EFSA, 2010, Dietary Reference Values for water (read in a copy).
    .. [nap-10925] Institute of Medicine, 2005, Dietary Reference Intakes for Water, pages 88
       to 156: men at rest and at work in heat (read in a copy).
    .. [tb-med-507] US Army, 2003, TB MED 507, 12 quarts a day at most (read in a copy).
    .. [iom1996] Institute of Medicine, 1996, high altitude (quoted from memory).
    """
    require("adequate intake", intake_ml, "ml", 0.0)
    require("time on the way", travel_hours, "h", 0.0, WAKING_HOURS)
    require("drinking rate", rate_ml_h, "ml/h", 0.0)
    require("altitude", altitude_m, "m", -500.0, 11000.0)
    require("highest air temperature", air_high_c, "°C", -90.0, 60.0)
    quiet_share = (WAKING_HOURS - travel_hours) / WAKING_HOURS
    heat_share = HEAT_SHARE_PER_K * max(0.0, air_high_c - WARM_ABOVE_C) * quiet_share
    high_ml = HIGH_ML if altitude_m > HIGH_ABOVE_M else 0.0
    way_ml = way_water_ml(travel_hours, rate_ml_h, intake_ml)
    return min(intake_ml * (1.0 + heat_share) + way_ml + high_ml, MOST_ML_DAY)


@declared(
    "travel_hours * (rate_ml_h - drunk_share * intake_ml / waking_hours)",
    {
        "drunk_share": Constant(DRUNK_SHARE_OF_INTAKE, "efsa2010"),
        "waking_hours": Constant(WAKING_HOURS, "common-practice"),
    },
)
def way_water_ml(travel_hours: float, rate_ml_h: float, intake_ml: float) -> float:
    """Water that the way asks for on top of a quiet day's.

    Parameters
    ----------
    travel_hours : float
        Hours on the way. [h], 0 to 16
    rate_ml_h : float
        What is drunk in an hour on the way. [ml/h], 0 or more
    intake_ml : float
        Adequate intake on a quiet day. [ml], 0 or more

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
    h (rate - 0.8 AI / 16).

    References
    ----------
    .. [efsa2010] EFSA, 2010, Dietary Reference Values for water (read in a copy).
    """
    require("time on the way", travel_hours, "h", 0.0, WAKING_HOURS)
    require("drinking rate", rate_ml_h, "ml/h", 0.0)
    require("adequate intake", intake_ml, "ml", 0.0)
    return travel_hours * (rate_ml_h - DRUNK_SHARE_OF_INTAKE * intake_ml / WAKING_HOURS)


@declared(
    "max(need_ml - min(from_food_ml, most_share * intake_ml), least_ml)",
    {
        "most_share": Constant(MOST_FROM_FOOD_SHARE, "efsa2010"),
        "least_ml": Constant(LEAST_TO_DRINK_ML, "common-practice"),
    },
)
def water_to_drink_ml(need_ml: float, from_food_ml: float, intake_ml: float) -> float:
    """What is left to drink after the water in the food.

    Parameters
    ----------
    need_ml : float
        Need of the day. [ml], 0 or more
    from_food_ml : float
        Water in the food eaten. [ml], 0 or more
    intake_ml : float
        Adequate intake on a quiet day. [ml], 0 or more

    Returns
    -------
    float
        Volume to drink, tea and other drinks included. [ml]

    Raises
    ------
    ValueError
        If a value is negative.

    Notes
    -----
    max(need - min(from food, 0.3 AI), 1000).

    References
    ----------
    .. [efsa2010] EFSA, 2010, Dietary Reference Values for water: 20 to 30 percent come
       from food (read in a copy).
    """
    require("water need", need_ml, "ml", 0.0)
    require("water in the food", from_food_ml, "ml", 0.0)
    require("adequate intake", intake_ml, "ml", 0.0)
    counted_ml = min(from_food_ml, MOST_FROM_FOOD_SHARE * intake_ml)
    return max(need_ml - counted_ml, LEAST_TO_DRINK_ML)


@declared("max(to_drink_ml - home_share * max(to_drink_ml - way_ml, 0), 0)")
def drunk_away_ml(to_drink_ml: float, home_share: float, way_ml: float) -> float:
    """What is left to drink away from home where some meals are eaten at home.

    Parameters
    ----------
    to_drink_ml : float
        Volume to drink in the day. [ml], 0 or more
    home_share : float
        Share of the day's meals that are eaten at home. [share], 0 to 1
    way_ml : float
        Water that the way asks for on top of a quiet day's. [ml], any

    Returns
    -------
    float
        Volume; the water of the way is never made less. [ml]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    to drink - home share (to drink - way), neither the bracket nor the whole below 0.

    References
    ----------
    .. [common-practice] Common practice, no source.
    """
    require("water to drink", to_drink_ml, "ml", 0.0)
    require("share of meals at home", home_share, "", 0.0, 1.0)
    return max(to_drink_ml - home_share * max(to_drink_ml - way_ml, 0.0), 0.0)


@declared(
    "night_hours * drunk_share * intake_ml / waking_hours",
    {
        "night_hours": Constant(NIGHT_HOURS, "common-practice"),
        "drunk_share": Constant(DRUNK_SHARE_OF_INTAKE, "efsa2010"),
        "waking_hours": Constant(WAKING_HOURS, "common-practice"),
    },
)
def night_water_ml(intake_ml: float) -> float:
    """What a person drinks from evening to morning at a camp without water.

    Parameters
    ----------
    intake_ml : float
        Adequate intake on a quiet day. [ml], 0 or more

    Returns
    -------
    float
        Volume for ten hours. [ml]

    Raises
    ------
    ValueError
        If the intake is negative.

    Notes
    -----
    10 * 0.8 AI / 16.

    References
    ----------
    .. [efsa2010] EFSA, 2010, Dietary Reference Values for water (read in a copy).
    """
    require("adequate intake", intake_ml, "ml", 0.0)
    return NIGHT_HOURS * DRUNK_SHARE_OF_INTAKE * intake_ml / WAKING_HOURS
