"""How much energy a person uses, at rest and on the way."""

from __future__ import annotations

import math

from builder.formulas.declaring import Constant, FromTable, declared
from builder.formulas.ranges import require, require_above, require_known

# Schofield 1985: (up to this age, kcal for each kg, kcal added), last row for all older.
_SCHOFIELD: dict[str, tuple[tuple[float, float, float], ...]] = {
    "male": (
        (3.0, 59.512, -30.4),
        (10.0, 22.706, 504.3),
        (18.0, 17.686, 658.2),
        (30.0, 15.057, 692.2),
        (60.0, 11.472, 873.1),
        (math.inf, 11.711, 587.7),
    ),
    "female": (
        (3.0, 58.317, -31.1),
        (10.0, 20.315, 485.9),
        (18.0, 13.384, 692.6),
        (30.0, 14.818, 486.6),
        (60.0, 8.126, 845.6),
        (math.inf, 9.082, 658.5),
    ),
}
SEXES = ("female", "male")
LEAST_AGE_YEARS = 1.0
MOST_AGE_YEARS = 120.0
LEAST_MASS_KG = 3.0
MOST_MASS_KG = 300.0

# A day without travel: multiples of the basal rate, asleep and awake (FAO/WHO/UNU form).
SLEEP_HOURS = 8.0
SLEEP_FACTOR = 0.95
WAKING_HOURS = 16.0
CAMP_FACTOR = 1.6

# Soule and Goldman 1972; firm snow as packed, soft snow as a foot sinks 15 cm.
GROUND: dict[str, float] = {
    "road": 1.0,
    "path": 1.2,
    "rough": 1.5,
    "sand": 2.1,
    "firm-snow": 1.3,
    "soft-snow": 2.5,
}
GRAVITY_M_S2 = 9.81
MOST_LOAD_KG = 300.0
FASTEST_WALK_M_S = 3.0

# Compendium 2011: 18020 canoe on a camping trip, 19080 ski 2.5 mph, 19190 snowshoe,
# 17010 backpacking; hills without a load and cycling as the compendium's nearest.
MET: dict[str, float] = {
    "paddling": 4.0,
    "skiing": 6.8,
    "snowshoeing": 5.3,
    "cycling": 7.5,
    "walking": 5.3,
    "walking-loaded": 7.0,
}
LOADED_ABOVE_KG = 10.0


HOURS_PER_DAY = 24.0
J_PER_KCAL = 4184.0
_S_PER_H = 3600.0


def _schofield_row(sex: str, age_years: float) -> tuple[float, float, float]:
    """Row of the table for an age."""
    return next(row for row in _SCHOFIELD[sex] if age_years < row[0])


def _schofield_kcal_kg(sex: str | None, age_years: float) -> float:
    """Basal energy for each kilogram; the mean of both where the sex is not told."""
    rows = [_schofield_row(each, age_years) for each in ([sex] if sex else SEXES)]
    return sum(row[1] for row in rows) / len(rows)


def _schofield_added_kcal(sex: str | None, age_years: float) -> float:
    """Basal energy that does not go by mass; the mean of both where the sex is not told."""
    rows = [_schofield_row(each, age_years) for each in ([sex] if sex else SEXES)]
    return sum(row[2] for row in rows) / len(rows)


@declared(
    "mass_kg * each_kcal_kg + added_kcal",
    tables={
        "each_kcal_kg": FromTable(_schofield_kcal_kg, ("sex", "age_years"), "schofield1985"),
        "added_kcal": FromTable(_schofield_added_kcal, ("sex", "age_years"), "schofield1985"),
    },
)
def basal_kcal(sex: str | None, age_years: float, mass_kg: float) -> float:
    """Energy a body uses in a day at complete rest.

    Parameters
    ----------
    sex : str or None
        female or male; None takes the mean of both.
    age_years : float
        Age. [years], 1 to 120
    mass_kg : float
        Body mass. [kg], 3 to 300

    Returns
    -------
    float
        Basal energy of a day. [kcal]

    Raises
    ------
    ValueError
        If a value is outside its range or the sex is not known.

    Notes
    -----
    k mass + c, with k and c by sex and by age under 3, 10, 18, 30, 60 and above.

    References
    ----------
    .. [schofield1985] Schofield, 1985, table as in FAO/WHO/UNU 2001, table 5.2
       (quoted from memory).
    """
    require("age", age_years, "years", LEAST_AGE_YEARS, MOST_AGE_YEARS)
    require("body mass", mass_kg, "kg", LEAST_MASS_KG, MOST_MASS_KG)
    if sex is not None:
        require_known("sex", sex, SEXES)
    return mass_kg * _schofield_kcal_kg(sex, age_years) + _schofield_added_kcal(sex, age_years)


@declared(
    "basal_kcal / 24 * (sleep_hours * sleep_factor + (waking_hours - travel_hours) * camp_factor) "
    "+ travel_kcal",
    {
        "sleep_hours": Constant(SLEEP_HOURS, "schofield1985"),
        "sleep_factor": Constant(SLEEP_FACTOR, "schofield1985"),
        "waking_hours": Constant(WAKING_HOURS, "schofield1985"),
        "camp_factor": Constant(CAMP_FACTOR, "schofield1985"),
    },
)
def day_need_kcal(basal_kcal: float, travel_hours: float, travel_kcal: float) -> float:
    """Energy a person needs on a day with travel.

    Parameters
    ----------
    basal_kcal : float
        Basal energy of a day. [kcal], 0 or more
    travel_hours : float
        Hours on the way. [h], 0 to 16
    travel_kcal : float
        Energy used on the way. [kcal], 0 or more

    Returns
    -------
    float
        Need of the day. [kcal]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    BMR / 24 (8 * 0.95 + (16 - h) 1.6) + travel.

    References
    ----------
    .. [schofield1985] Schofield, 1985, as in FAO/WHO/UNU 2001, factorial day
       (quoted from memory).
    """
    require("basal energy", basal_kcal, "kcal", 0.0)
    require("time on the way", travel_hours, "h", 0.0, WAKING_HOURS)
    require("energy used on the way", travel_kcal, "kcal", 0.0)
    hours_at_rest = SLEEP_HOURS * SLEEP_FACTOR + (WAKING_HOURS - travel_hours) * CAMP_FACTOR
    return basal_kcal / HOURS_PER_DAY * hours_at_rest + travel_kcal


def walking_power_w(
    body_kg: float, load_kg: float, speed_m_s: float, grade_percent: float, ground: str
) -> float:
    """Power a person spends walking on the level or uphill.

    Parameters
    ----------
    body_kg : float
        Body mass. [kg], 3 to 300
    load_kg : float
        Mass carried. [kg], 0 to 300; measured up to 70
    speed_m_s : float
        Speed. [m/s], 0 to 3
    grade_percent : float
        Climb for each 100 m of way. [percent], 0 to 100; measured up to 25
    ground : str
        A key of GROUND.

    Returns
    -------
    float
        Power. [W]

    Raises
    ------
    ValueError
        If a value is outside its range or the ground is not known.

    Notes
    -----
    1.5 W + 2 (W + L) (L / W) ** 2 + n (W + L) (1.5 V ** 2 + 0.35 V G).

    References
    ----------
    .. [pandolf1977] Pandolf, Givoni and Goldman, 1977, equation of the abstract
       (quoted from memory).
    .. [soule1972] Soule and Goldman, 1972, terrain coefficients (quoted from memory).
    """
    require("body mass", body_kg, "kg", LEAST_MASS_KG, MOST_MASS_KG)
    require("load", load_kg, "kg", 0.0, MOST_LOAD_KG)
    require("walking speed", speed_m_s, "m/s", 0.0, FASTEST_WALK_M_S)
    require("grade", grade_percent, "%", 0.0, 100.0)
    require_known("ground", ground, GROUND)
    total_kg = body_kg + load_kg
    moving = 1.5 * speed_m_s**2 + 0.35 * speed_m_s * grade_percent
    standing_w = 1.5 * body_kg + 2.0 * total_kg * (load_kg / body_kg) ** 2
    return standing_w + GROUND[ground] * total_kg * moving


def downhill_power_w(
    body_kg: float, load_kg: float, speed_m_s: float, slope_deg: float, ground: str
) -> float:
    """Power a person spends walking downhill.

    Parameters
    ----------
    body_kg : float
        Body mass. [kg], 3 to 300
    load_kg : float
        Mass carried. [kg], 0 to 300; measured up to 70
    speed_m_s : float
        Speed. [m/s], 0 to 3
    slope_deg : float
        Slope down, as a positive angle. [deg], 0 to 90
    ground : str
        A key of GROUND.

    Returns
    -------
    float
        Power. [W]

    Raises
    ------
    ValueError
        If a value is outside its range or the ground is not known.

    Notes
    -----
    Level value - 2.4 (W + L) 9.81 V sin(a) 0.3 ** (a / 7.65).

    References
    ----------
    .. [santee2001] Santee and others, 2001, A proposed model for load carriage on sloped
       terrain, downhill term (read in a copy), on the level value of [pandolf1977].
    """
    require("slope", slope_deg, "degrees", 0.0, 90.0)
    level_w = walking_power_w(body_kg, load_kg, speed_m_s, 0.0, ground)
    falling_w = (body_kg + load_kg) * GRAVITY_M_S2 * speed_m_s * math.sin(math.radians(slope_deg))
    return float(level_w - 2.4 * falling_w * 0.3 ** (slope_deg / 7.65))


_SPEED = "(distance_m / (hours * 3600))"
_SLOPE = "((ascent_m + descent_m) / distance_m)"
_UP_SHARE = "if(ascent_m + descent_m > 0, ascent_m / (ascent_m + descent_m), 0)"
_STANDING = "1.5 * body_kg + 2 * (body_kg + load_kg) * (load_kg / body_kg) ^ 2"
_MOVING = "ground_factor * (body_kg + load_kg) * "
_LEVEL = f"({_STANDING} + {_MOVING}1.5 * {_SPEED} ^ 2)"
_UP = f"({_STANDING} + {_MOVING}(1.5 * {_SPEED} ^ 2 + 0.35 * {_SPEED} * min(100 * {_SLOPE}, 100)))"
_SLOPE_DEG = f"(atan({_SLOPE}) * degrees_per_radian)"
_DOWN = (
    f"({_LEVEL} - 2.4 * (body_kg + load_kg) * gravity_m_s2 * {_SPEED} * sin(atan({_SLOPE})) "
    f"* 0.3 ^ ({_SLOPE_DEG} / 7.65))"
)


@declared(
    f"({_UP_SHARE} * {_UP} + (1 - {_UP_SHARE}) * {_DOWN}) * hours * 3600 / j_per_kcal",
    {
        "gravity_m_s2": Constant(GRAVITY_M_S2, "santee2001"),
        "degrees_per_radian": Constant(math.degrees(1.0), "santee2001"),
        "j_per_kcal": Constant(J_PER_KCAL, "pandolf1977"),
    },
    {"ground_factor": FromTable(GROUND.__getitem__, ("ground",), "soule1972")},
)
def walk_kcal(
    body_kg: float,
    load_kg: float,
    hours: float,
    distance_m: float,
    ascent_m: float,
    *,
    descent_m: float,
    ground: str,
) -> float:
    """Energy a person uses on a walk up and down at one speed.

    Parameters
    ----------
    body_kg : float
        Body mass. [kg], 3 to 300
    load_kg : float
        Mass carried. [kg], 0 to 300
    hours : float
        Time on the way. [h], above 0
    distance_m : float
        Length of the way. [m], above 0; speed at most 3 m/s
    ascent_m : float
        All climbs together. [m], 0 or more; with descent_m at most distance_m
    descent_m : float
        All drops together. [m], 0 or more
    ground : str
        A key of GROUND.

    Returns
    -------
    float
        Energy. [kcal]

    Raises
    ------
    ValueError
        If a value is outside its range or the ground is not known.

    Notes
    -----
    Speed V = distance / time. The part u = ascent / (ascent + descent) of way and time goes
    up at the grade 100 ascent / (u distance), the rest d = 1 - u goes down at the angle
    atan(descent / (d distance)); kcal = W * 3600 / 4184 for each hour.

    References
    ----------
    .. [pandolf1977] Pandolf, Givoni and Goldman, 1977, level and uphill (quoted from memory).
    .. [santee2001] Santee and others, 2001, downhill (read in a copy).
    """
    require_above("time on the way", hours, "h", 0.0)
    require_above("distance", distance_m, "m", 0.0)
    require("ascent", ascent_m, "m", 0.0)
    require("descent", descent_m, "m", 0.0)
    speed_m_s = distance_m / (hours * _S_PER_H)
    sloping_m = ascent_m + descent_m
    if sloping_m > distance_m:
        raise ValueError(
            f"ascent and descent together are {sloping_m:.10g} m; the way is only "
            f"{distance_m:.10g} m long"
        )
    # One slope up and down: the way is split by what goes up of all that goes up and down.
    up_share = ascent_m / sloping_m if sloping_m > 0.0 else 0.0
    slope = sloping_m / distance_m
    grade_percent = min(100.0 * slope, 100.0)
    slope_deg = math.degrees(math.atan(slope))
    power_w = up_share * walking_power_w(body_kg, load_kg, speed_m_s, grade_percent, ground)
    power_w += (1.0 - up_share) * downhill_power_w(body_kg, load_kg, speed_m_s, slope_deg, ground)
    return power_w * hours * _S_PER_H / J_PER_KCAL


@declared("met * mass_kg * hours")
def met_kcal(met: float, mass_kg: float, hours: float) -> float:
    """Energy used by an activity of known intensity.

    Parameters
    ----------
    met : float
        Intensity in multiples of sitting still, a value of MET. [kcal/(kg h)], 0 to 25
    mass_kg : float
        Body mass (for the young their basal energy in an hour). [kg], 0 to 300
    hours : float
        Time. [h], 0 to 24

    Returns
    -------
    float
        Energy, that of rest included. [kcal]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    MET mass hours.

    References
    ----------
    .. [compendium2011] Ainsworth and others, 2011, Compendium of Physical Activities
       (read in a copy).
    """
    require("intensity", met, "MET", 0.0, 25.0)
    require("body mass", mass_kg, "kg", 0.0, MOST_MASS_KG)
    require("time", hours, "h", 0.0, HOURS_PER_DAY)
    return met * mass_kg * hours


@declared(
    "camp_factor * basal_kcal / 24 * hours",
    {"camp_factor": Constant(CAMP_FACTOR, "schofield1985")},
)
def least_travel_kcal(basal_kcal: float, hours: float) -> float:
    """Least energy that counts for time on the way: that of a waking hour in camp.

    Parameters
    ----------
    basal_kcal : float
        Basal energy of a day. [kcal], 0 or more
    hours : float
        Time on the way. [h], 0 to 24

    Returns
    -------
    float
        Energy. [kcal]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    1.6 BMR / 24 h.

    References
    ----------
    .. [schofield1985] Schofield, 1985, as in FAO/WHO/UNU 2001, factorial day
       (quoted from memory).
    """
    require("basal energy", basal_kcal, "kcal", 0.0)
    require("time on the way", hours, "h", 0.0, HOURS_PER_DAY)
    return CAMP_FACTOR * basal_kcal / HOURS_PER_DAY * hours


# Estimated energy requirements: whole days of people at home, to hold the rules above
# against. Activities in order: inactive, low-active, active, very-active.
ACTIVITIES = ("inactive", "low-active", "active", "very-active")

# NASEM 2023, table 5-16: (constant, years, cm, kg).
_EER_2023_ADULT: dict[str, tuple[tuple[float, float, float, float], ...]] = {
    "male": (
        (753.07, -10.83, 6.50, 14.10),
        (581.47, -10.83, 8.30, 14.94),
        (1004.82, -10.83, 6.52, 15.91),
        (-517.88, -10.83, 15.61, 19.11),
    ),
    "female": (
        (584.90, -7.01, 5.72, 11.71),
        (575.77, -7.01, 6.60, 12.14),
        (710.25, -7.01, 6.54, 12.34),
        (511.83, -7.01, 9.07, 12.56),
    ),
}
# From 3 to 18 years, before the energy that growth takes.
_EER_2023_CHILD: dict[str, tuple[tuple[float, float, float, float], ...]] = {
    "male": (
        (-447.51, 3.68, 13.01, 13.15),
        (19.12, 3.68, 8.62, 20.28),
        (-388.19, 3.68, 12.66, 20.46),
        (-671.75, 3.68, 15.38, 23.25),
    ),
    "female": (
        (55.59, -22.25, 8.43, 17.07),
        (-297.54, -22.25, 12.77, 14.73),
        (-189.55, -22.25, 11.74, 18.34),
        (-709.59, -22.25, 18.22, 14.25),
    ),
}
# Energy of growth: (up to this age, kcal in a day).
_GROWTH_2023_KCAL: dict[str, tuple[tuple[float, float], ...]] = {
    "male": ((9.0, 20.0), (14.0, 25.0), (19.0, 20.0)),
    "female": ((9.0, 15.0), (14.0, 30.0), (19.0, 20.0)),
}
# Mifflin 1990.
MIFFLIN_KCAL_KG, MIFFLIN_KCAL_CM, MIFFLIN_KCAL_YEAR = 10.0, 6.25, 5.0
MIFFLIN_ADDED_KCAL: dict[str, float] = {"female": -161.0, "male": 5.0}
ADULT_FROM_YEARS = 19.0
EER_FROM_YEARS = 3.0


def _eer_2023(sex: str | None, age_years: float, activity: str, place: int) -> float:
    """Coefficient of the 2023 equations, the mean of both sexes where it is not told."""
    sexes = SEXES if sex is None else (sex,)
    table = _EER_2023_ADULT if age_years >= ADULT_FROM_YEARS else _EER_2023_CHILD
    return sum(table[each][ACTIVITIES.index(activity)][place] for each in sexes) / len(sexes)


def _eer_2023_added_kcal(sex: str | None, age_years: float, activity: str) -> float:
    """Constant of the 2023 equations, with the energy that growth takes."""
    constant = _eer_2023(sex, age_years, activity, 0)
    if age_years >= ADULT_FROM_YEARS:
        return constant
    sexes = SEXES if sex is None else (sex,)
    rows = [next(row[1] for row in _GROWTH_2023_KCAL[each] if age_years < row[0]) for each in sexes]
    return constant + sum(rows) / len(rows)


def _eer_2023_kcal_year(sex: str | None, age_years: float, activity: str) -> float:
    """Energy for each year of age."""
    return _eer_2023(sex, age_years, activity, 1)


def _eer_2023_kcal_cm(sex: str | None, age_years: float, activity: str) -> float:
    """Energy for each centimetre of height."""
    return _eer_2023(sex, age_years, activity, 2)


def _eer_2023_kcal_kg(sex: str | None, age_years: float, activity: str) -> float:
    """Energy for each kilogram of the body."""
    return _eer_2023(sex, age_years, activity, 3)


def _mifflin_added_kcal(sex: str | None) -> float:
    """Constant of the equation, the mean of both sexes where it is not told."""
    if sex is None:
        return sum(MIFFLIN_ADDED_KCAL.values()) / len(MIFFLIN_ADDED_KCAL)
    return MIFFLIN_ADDED_KCAL[sex]


@declared(
    "added_kcal + each_kcal_year * age_years + each_kcal_cm * height_cm + each_kcal_kg * mass_kg",
    tables={
        "added_kcal": FromTable(
            _eer_2023_added_kcal, ("sex", "age_years", "activity"), "nasem2023"
        ),
        "each_kcal_year": FromTable(
            _eer_2023_kcal_year, ("sex", "age_years", "activity"), "nasem2023"
        ),
        "each_kcal_cm": FromTable(_eer_2023_kcal_cm, ("sex", "age_years", "activity"), "nasem2023"),
        "each_kcal_kg": FromTable(_eer_2023_kcal_kg, ("sex", "age_years", "activity"), "nasem2023"),
    },
)
def eer_2023_kcal(
    sex: str | None, age_years: float, height_cm: float, mass_kg: float, activity: str
) -> float:
    """Energy requirement of a day at home, by the 2023 equations.

    Parameters
    ----------
    sex : str or None
        female or male; None takes the mean of both.
    age_years : float
        Age. [years], 3 to 120
    height_cm : float
        Height. [cm], 50 to 250
    mass_kg : float
        Body mass. [kg], 3 to 300
    activity : str
        One of ACTIVITIES.

    Returns
    -------
    float
        Energy of a day, growth included. [kcal]

    Raises
    ------
    ValueError
        If a value is outside its range or a name is not known.

    Notes
    -----
    Linear in age, height in cm and mass, by sex and activity; under 19 the energy of
    growth is added.

    References
    ----------
    .. [nasem2023] National Academies, 2023, Dietary Reference Intakes for Energy, tables
       5-15 and 5-16 (read in a copy; growth of boys quoted from memory).
    """
    _require_body(sex, age_years, EER_FROM_YEARS, height_cm, mass_kg)
    require_known("activity", activity, ACTIVITIES)
    return (
        _eer_2023_added_kcal(sex, age_years, activity)
        + _eer_2023_kcal_year(sex, age_years, activity) * age_years
        + _eer_2023_kcal_cm(sex, age_years, activity) * height_cm
        + _eer_2023_kcal_kg(sex, age_years, activity) * mass_kg
    )


@declared(
    "each_kcal_kg * mass_kg + each_kcal_cm * height_cm - each_kcal_year * age_years + added_kcal",
    {
        "each_kcal_kg": Constant(MIFFLIN_KCAL_KG, "mifflin1990"),
        "each_kcal_cm": Constant(MIFFLIN_KCAL_CM, "mifflin1990"),
        "each_kcal_year": Constant(MIFFLIN_KCAL_YEAR, "mifflin1990"),
    },
    {"added_kcal": FromTable(_mifflin_added_kcal, ("sex",), "mifflin1990")},
)
def mifflin_kcal(sex: str | None, age_years: float, height_cm: float, mass_kg: float) -> float:
    """Energy an adult uses in a day at rest, by another published equation.

    Parameters
    ----------
    sex : str or None
        female or male; None takes the mean of both.
    age_years : float
        Age. [years], 19 to 120
    height_cm : float
        Height. [cm], 50 to 250
    mass_kg : float
        Body mass. [kg], 3 to 300

    Returns
    -------
    float
        Resting energy of a day. [kcal]

    Raises
    ------
    ValueError
        If a value is outside its range or the sex is not known.

    Notes
    -----
    10 mass + 6.25 height - 5 age, men + 5, women - 161.

    References
    ----------
    .. [mifflin1990] Mifflin and others, 1990, A new predictive equation for resting energy
       expenditure (quoted from memory).
    """
    _require_body(sex, age_years, ADULT_FROM_YEARS, height_cm, mass_kg)
    grown = MIFFLIN_KCAL_KG * mass_kg + MIFFLIN_KCAL_CM * height_cm
    return grown - MIFFLIN_KCAL_YEAR * age_years + _mifflin_added_kcal(sex)


def _require_body(
    sex: str | None, age_years: float, from_years: float, height_cm: float, mass_kg: float
) -> None:
    """Raise ValueError unless a person can be like this."""
    if sex is not None:
        require_known("sex", sex, SEXES)
    require("age", age_years, "years", from_years, MOST_AGE_YEARS)
    require("height", height_cm, "cm", 50.0, 250.0)
    require("body mass", mass_kg, "kg", LEAST_MASS_KG, MOST_MASS_KG)
