"""Additions to the energy need, protein and salt, and second opinions on energy."""

from __future__ import annotations

from collections.abc import Sequence

from builder.formulas.declaring import Constant, FromTable, declared, declared_ends
from builder.formulas.effort import (
    ACTIVITIES,
    EER_FROM_YEARS,
    FASTEST_WALK_M_S,
    J_PER_KCAL,
    LEAST_AGE_YEARS,
    LEAST_MASS_KG,
    MOST_AGE_YEARS,
    MOST_LOAD_KG,
    MOST_MASS_KG,
    SEXES,
)
from builder.formulas.ranges import require, require_above, require_known

# Energy that a pregnancy adds in each third [kcal a day], by who published it.
PREGNANCY_KCAL: dict[str, tuple[float, float, float]] = {
    "efsa-energy-2013": (70.0, 260.0, 500.0),
    "fao-energy-2004": (85.0, 285.0, 475.0),
    "iom2005": (0.0, 340.0, 452.0),
}
# Energy that nursing adds in the first half year [kcal a day]; two count on some fat lost.
NURSING_KCAL: dict[str, float] = {
    "efsa-energy-2013": 500.0,
    "fao-energy-2004": 505.0,
    "iom2005": 330.0,
}

# EFSA 2012: for each kg of body, and what each third and nursing add [g a day]. From this age on,
# girls and boys apart from 11 years.
PROTEIN_G_KG = 0.83
_PROTEIN_FROM_YEARS: tuple[tuple[float, float, float], ...] = (
    (1.0, 1.14, 1.14),
    (1.5, 1.03, 1.03),
    (2.0, 0.97, 0.97),
    (3.0, 0.90, 0.90),
    (4.0, 0.86, 0.86),
    (5.0, 0.85, 0.85),
    (6.0, 0.89, 0.89),
    (7.0, 0.91, 0.91),
    (8.0, 0.92, 0.92),
    (9.0, 0.91, 0.91),
    (11.0, 0.90, 0.91),
    (12.0, 0.89, 0.90),
    (13.0, 0.88, 0.90),
    (14.0, 0.87, 0.89),
    (15.0, 0.85, 0.88),
    (16.0, 0.84, 0.87),
    (17.0, 0.83, 0.86),
    (18.0, PROTEIN_G_KG, PROTEIN_G_KG),
)
PREGNANCY_PROTEIN_G = (1.0, 9.0, 28.0)
NURSING_PROTEIN_G = 19.0
# Hard days in a row: position stand of 2016, from memory.
ACTIVE_PROTEIN_G_KG = (1.2, 2.0)

# WHO 2012: less than 5 g of salt a day.
SALT_G_DAY = 5.0

# Cold: heavy clothes add about a twentieth; a measured walk with a load at -10 to 0 degC took
# a fifth more than at 5 to 20 degC (2024 compendium, 17438 over 17434).
COLD_SHARE = (0.05, 0.21)
COLD_AT_C = 0.0
# Height: basal rate at 3500 to 4500 m, and in the first days above 4300 m (IOM 1996).
HIGH_SHARE = (0.06, 0.10)
HIGH_FROM_M = 3500.0
VERY_HIGH_SHARE = (0.06, 0.28)
VERY_HIGH_FROM_M = 4300.0

# Upper ends of inactive, low-active and active as multiples of the basal rate, by age.
_ACTIVITY_UP_TO: tuple[tuple[float, tuple[float, float, float]], ...] = (
    (9.0, (1.31, 1.44, 1.59)),
    (14.0, (1.44, 1.59, 1.77)),
    (19.0, (1.56, 1.73, 1.92)),
    (float("inf"), (1.53, 1.68, 1.85)),
)
# More than this nobody keeps up for weeks.
MOST_ACTIVITY_LEVEL = 2.5

# How far the Load Carriage Decision Aid goes.
FASTEST_LCDA_M_S = 2.0
MOST_LCDA_GRADE_PERCENT = 40.0
# How far two equations for one walk may lie from what it takes, beyond the lower and the higher.
WALK_OFF_SHARE = 0.05

_S_PER_H = 3600.0


def pregnancy_kcal(third: int | None, published_by: str = "efsa-energy-2013") -> float:
    """Energy that a pregnancy adds to the need of a day.

    Parameters
    ----------
    third : int or None
        Third of the pregnancy, 1, 2 or 3; None, not told, takes the last. [-]
    published_by : str
        A key of PREGNANCY_KCAL.

    Returns
    -------
    float
        Energy added. [kcal]

    Raises
    ------
    ValueError
        If the third or the publication is not known.

    Notes
    -----
    EFSA 70, 260, 500; FAO 85, 285, 475; IOM 0, 340, 452.

    References
    ----------
    .. [efsa-energy-2013] EFSA, 2013, Dietary Reference Values for energy (read in a copy).
    .. [fao-energy-2004] FAO/WHO/UNU, 2004, Human energy requirements (read in a copy).
    .. [iom2005] Institute of Medicine, 2005, pregnancy (read in a copy).
    """
    require_known("publication", published_by, PREGNANCY_KCAL)
    return PREGNANCY_KCAL[published_by][_third(third)]


def nursing_kcal(published_by: str = "efsa-energy-2013") -> float:
    """Energy that nursing adds to the need of a day in the first half year.

    Parameters
    ----------
    published_by : str
        A key of NURSING_KCAL.

    Returns
    -------
    float
        Energy added. [kcal]

    Raises
    ------
    ValueError
        If the publication is not known.

    Notes
    -----
    EFSA 500; FAO 675 - 170 from fat lost; IOM 500 - 170.

    References
    ----------
    .. [efsa-energy-2013] EFSA, 2013, Dietary Reference Values for energy (read in a copy).
    .. [fao-energy-2004] FAO/WHO/UNU, 2004, Human energy requirements (quoted from memory).
    .. [iom2005] Institute of Medicine, 2005, lactation (quoted from memory).
    """
    require_known("publication", published_by, NURSING_KCAL)
    return NURSING_KCAL[published_by]


def _protein_g_kg(sex: str | None, age_years: float) -> float:
    """Protein for each kilogram of body by age; the mean of both where the sex is not told."""
    row = next(row for row in reversed(_PROTEIN_FROM_YEARS) if age_years >= row[0])
    by_sex = {"female": row[1], "male": row[2]}
    return (row[1] + row[2]) / 2.0 if sex is None else by_sex[sex]


def _pregnancy_protein_g(third: int) -> float:
    """Protein that a third of a pregnancy adds; none without one."""
    return PREGNANCY_PROTEIN_G[third - 1] if third else 0.0


def _nursing_protein_g(nursing: bool) -> float:
    """Protein that nursing adds."""
    return NURSING_PROTEIN_G if nursing else 0.0


@declared(
    "each_g_kg * mass_kg + pregnancy_g + nursing_g",
    tables={
        "each_g_kg": FromTable(_protein_g_kg, ("sex", "age_years"), "efsa-protein-2012"),
        "pregnancy_g": FromTable(_pregnancy_protein_g, ("third",), "efsa-protein-2012"),
        "nursing_g": FromTable(_nursing_protein_g, ("nursing",), "efsa-protein-2012"),
    },
)
def protein_need_g(
    sex: str | None, age_years: float, mass_kg: float, third: int = 0, nursing: bool = False
) -> float:
    """Protein that a person needs in a day.

    Parameters
    ----------
    sex : str or None
        female or male; None takes the mean of both.
    age_years : float
        Age. [years], 1 to 120
    mass_kg : float
        Body mass. [kg], 3 to 300
    third : int
        Third of a pregnancy, 1, 2 or 3, which adds 1, 9 or 28 g; 0 for none. [-], 0 to 3
    nursing : bool
        Whether 19 g are added.

    Returns
    -------
    float
        Protein. [g]

    Raises
    ------
    ValueError
        If a value is outside its range or the sex is not known.

    Notes
    -----
    From 18 years 0.83 mass, younger by age up to 1.14; plus what pregnancy and nursing add.

    References
    ----------
    .. [efsa-protein-2012] EFSA, 2012, Dietary Reference Values for protein (read in a copy).
    """
    require("age", age_years, "years", LEAST_AGE_YEARS, MOST_AGE_YEARS)
    require("body mass", mass_kg, "kg", LEAST_MASS_KG, MOST_MASS_KG)
    require("third of the pregnancy", float(third), "", 0.0, 3.0)
    if sex is not None:
        require_known("sex", sex, SEXES)
    added = _pregnancy_protein_g(third) + _nursing_protein_g(nursing)
    return _protein_g_kg(sex, age_years) * mass_kg + added


@declared_ends(
    "least_g_kg * mass_kg",
    "most_g_kg * mass_kg",
    constants={
        "least_g_kg": Constant(ACTIVE_PROTEIN_G_KG[0], "acsm-nutrition-2016"),
        "most_g_kg": Constant(ACTIVE_PROTEIN_G_KG[1], "acsm-nutrition-2016"),
    },
)
def active_protein_range_g(mass_kg: float) -> tuple[float, float]:
    """Protein that is advised to people who work hard day after day.

    Parameters
    ----------
    mass_kg : float
        Body mass. [kg], 3 to 300

    Returns
    -------
    tuple of float
        Least and most of a day. [g]

    Raises
    ------
    ValueError
        If the mass is outside the range above.

    Notes
    -----
    1.2 to 2.0 mass.

    References
    ----------
    .. [acsm-nutrition-2016] Nutrition and Athletic Performance, 2016 (quoted from memory).
    """
    require("body mass", mass_kg, "kg", LEAST_MASS_KG, MOST_MASS_KG)
    least, most = ACTIVE_PROTEIN_G_KG
    return least * mass_kg, most * mass_kg


@declared_ends(
    "if(air_low_c > cold_at_c, 0, least_share * need_kcal)",
    "if(air_low_c > cold_at_c, 0, most_share * need_kcal)",
    constants={
        "cold_at_c": Constant(COLD_AT_C, "iom1996"),
        "least_share": Constant(COLD_SHARE[0], "iom1996"),
        "most_share": Constant(COLD_SHARE[1], "compendium2024"),
    },
)
def cold_range_kcal(need_kcal: float, air_low_c: float) -> tuple[float, float]:
    """Energy that a cold day may add, from little to much.

    Parameters
    ----------
    need_kcal : float
        Need of the day without it. [kcal], 0 or more
    air_low_c : float
        Lowest temperature of the air. [degC], -90 to 60

    Returns
    -------
    tuple of float
        Least and most energy added. [kcal]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    None above 0 degC; at 0 degC and below 0.05 to 0.21 of the need.

    References
    ----------
    .. [compendium2024] 2024 Compendium, 17434 and 17438: 4.8 and 5.8 MET (read in a copy).
    .. [iom1996] Institute of Medicine, 1996, cold environments (quoted from memory).
    """
    require("need of the day", need_kcal, "kcal", 0.0)
    require("lowest air temperature", air_low_c, "°C", -90.0, 60.0)
    if air_low_c > COLD_AT_C:
        return 0.0, 0.0
    least, most = COLD_SHARE
    return least * need_kcal, most * need_kcal


@declared_ends(
    "if(altitude_m < high_from_m, 0, if(altitude_m < very_high_from_m, least_high_share, "
    "least_very_high_share) * basal_kcal)",
    "if(altitude_m < high_from_m, 0, if(altitude_m < very_high_from_m, most_high_share, "
    "most_very_high_share) * basal_kcal)",
    constants={
        "high_from_m": Constant(HIGH_FROM_M, "iom1996"),
        "very_high_from_m": Constant(VERY_HIGH_FROM_M, "iom1996"),
        "least_high_share": Constant(HIGH_SHARE[0], "iom1996"),
        "most_high_share": Constant(HIGH_SHARE[1], "iom1996"),
        "least_very_high_share": Constant(VERY_HIGH_SHARE[0], "iom1996"),
        "most_very_high_share": Constant(VERY_HIGH_SHARE[1], "iom1996"),
    },
)
def altitude_range_kcal(basal_kcal: float, altitude_m: float) -> tuple[float, float]:
    """Energy that a day high up may add, from little to much.

    Parameters
    ----------
    basal_kcal : float
        Basal energy of a day. [kcal], 0 or more
    altitude_m : float
        Altitude of the camp. [m], -500 to 11000

    Returns
    -------
    tuple of float
        Least and most energy added. [kcal]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    From 3500 m 0.06 to 0.10 of the basal rate, from 4300 m up to 0.28 in the first days.

    References
    ----------
    .. [iom1996] Institute of Medicine, 1996, high-altitude environments (quoted from memory).
    """
    require("basal energy", basal_kcal, "kcal", 0.0)
    require("altitude", altitude_m, "m", -500.0, 11000.0)
    if altitude_m < HIGH_FROM_M:
        return 0.0, 0.0
    least, most = VERY_HIGH_SHARE if altitude_m >= VERY_HIGH_FROM_M else HIGH_SHARE
    return least * basal_kcal, most * basal_kcal


def activity_level(need_kcal: float, basal_kcal: float) -> float:
    """How many times the basal energy a day takes.

    Parameters
    ----------
    need_kcal : float
        Need of the day. [kcal], 0 or more
    basal_kcal : float
        Basal energy of a day. [kcal], above 0

    Returns
    -------
    float
        Physical activity level. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    need / basal; above 2.5 nobody keeps it up for weeks.

    References
    ----------
    .. [fao-energy-2004] FAO/WHO/UNU, 2004, physical activity level (quoted from memory).
    """
    require("need of the day", need_kcal, "kcal", 0.0)
    require_above("basal energy", basal_kcal, "kcal", 0.0)
    return need_kcal / basal_kcal


def activity_of(level: float, age_years: float) -> str:
    """Word of the 2023 equations for a physical activity level.

    Parameters
    ----------
    level : float
        Physical activity level. [-], 1 or more
    age_years : float
        Age. [years], 3 to 120

    Returns
    -------
    str
        One of inactive, low-active, active, very-active. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    From 19 years inactive under 1.53, low-active under 1.68, active under 1.85; other limits
    from 3, 9 and 14 years.

    References
    ----------
    .. [nasem2023] National Academies, 2023, bands of the activity level (read in a copy).
    """
    require("physical activity level", level, "", 1.0)
    require("age", age_years, "years", EER_FROM_YEARS, 120.0)
    limits = next(row[1] for row in _ACTIVITY_UP_TO if age_years < row[0])
    return ACTIVITIES[sum(level >= limit for limit in limits)]


@declared(
    "max(1, min(need_kcal / basal_kcal, most_level))",
    {"most_level": Constant(MOST_ACTIVITY_LEVEL, "fao-energy-2004")},
)
def held_level(need_kcal: float, basal_kcal: float) -> float:
    """Physical activity level of a day, within what bodies hold out.

    Parameters
    ----------
    need_kcal : float
        Need of the day. [kcal], 0 or more
    basal_kcal : float
        Basal energy of a day. [kcal], above 0

    Returns
    -------
    float
        Need over basal energy, 1 at least and 2.5 at most. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    max(1, min(need / basal, 2.5)).

    References
    ----------
    .. [fao-energy-2004] FAO/WHO/UNU, 2004, physical activity level (quoted from memory).
    """
    return max(1.0, min(activity_level(need_kcal, basal_kcal), MOST_ACTIVITY_LEVEL))


@declared("(max(values) - min(values)) / (sum(values) / sum(values ^ 0))")
def spread_share(values: Sequence[float]) -> float:
    """How far values of one thing lie apart.

    Parameters
    ----------
    values : sequence of float
        At least one value. [any], above 0

    Returns
    -------
    float
        Largest less smallest, over the mean. [share]

    Raises
    ------
    ValueError
        If there is no value, or one is not above zero.

    Notes
    -----
    (max - min) / mean.
    """
    if not values:
        raise ValueError("there is no value to compare; give at least one")
    for value in values:
        require_above("value to compare", value, "", 0.0)
    return (max(values) - min(values)) / (sum(values) / len(values))


def lcda_power_w(body_kg: float, load_kg: float, speed_m_s: float, grade_percent: float) -> float:
    """Power of walking up or down, by the Load Carriage Decision Aid.

    Parameters
    ----------
    body_kg : float
        Body mass. [kg], 3 to 300
    load_kg : float
        Mass carried. [kg], 0 to 300
    speed_m_s : float
        Speed. [m/s], 0 to 2
    grade_percent : float
        Climb for each 100 m of way, negative down. [percent], -40 to 45

    Returns
    -------
    float
        Power on firm ground; the load counts as body. [W]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    (W + L) (1.44 + 1.94 S ** 0.43 + 0.24 S ** 4 + 0.34 S G (1 - 1.05 ** (1 - 1.1 ** (G + 32)))).
    Copies print 1.1 or 1.11 for the innermost number; 1.1 here.

    References
    ----------
    .. [looney2019] Looney and others, 2019, graded walking (read in copies that differ).
    """
    _require_walk(body_kg, load_kg, speed_m_s)
    require("walking speed", speed_m_s, "m/s", 0.0, FASTEST_LCDA_M_S)
    require("grade", grade_percent, "%", -MOST_LCDA_GRADE_PERCENT, 45.0)
    level = 1.44 + 1.94 * speed_m_s**0.43 + 0.24 * speed_m_s**4
    bend = 1.0 - 1.05 ** (1.0 - 1.1 ** (grade_percent + 32.0))
    return float((body_kg + load_kg) * (level + 0.34 * speed_m_s * grade_percent * bend))


# The way as walk_kcal has it: one speed, one slope up and one down.
_SPEED = "(distance_m / (hours * 3600))"
_GRADE = "(100 * (ascent_m + descent_m) / distance_m)"
_UP_SHARE = "if(ascent_m + descent_m > 0, ascent_m / (ascent_m + descent_m), 0)"


def _lcda_w_kg(grade: str) -> str:
    """Write the power for each kilogram out, for a grade as it is written."""
    return (
        f"(1.44 + 1.94 * {_SPEED} ^ 0.43 + 0.24 * {_SPEED} ^ 4 "
        f"+ 0.34 * {_SPEED} * {grade} * (1 - 1.05 ^ (1 - 1.1 ^ ({grade} + 32))))"
    )


@declared(
    f"(body_kg + load_kg) * ({_UP_SHARE} * {_lcda_w_kg(_GRADE)} "
    f"+ (1 - {_UP_SHARE}) * {_lcda_w_kg(f'(0 - {_GRADE})')}) * hours * 3600 / j_per_kcal",
    {"j_per_kcal": Constant(J_PER_KCAL, "looney2019")},
)
def lcda_walk_kcal(
    body_kg: float,
    load_kg: float,
    hours: float,
    distance_m: float,
    ascent_m: float,
    *,
    descent_m: float,
) -> float:
    """Energy a person uses on a walk up and down, by the Load Carriage Decision Aid.

    Parameters
    ----------
    body_kg : float
        Body mass. [kg], 3 to 300
    load_kg : float
        Mass carried. [kg], 0 to 300
    hours : float
        Time on the way. [h], above 0
    distance_m : float
        Length of the way. [m], above 0; speed at most 2 m/s
    ascent_m : float
        All climbs together. [m], 0 or more; with descent_m at most 0.4 of the way
    descent_m : float
        All drops together. [m], 0 or more

    Returns
    -------
    float
        Energy on firm ground. [kcal]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    The way is split as walk_kcal splits it: u = ascent / (ascent + descent) of it goes up, the
    rest down, both at the grade 100 (ascent + descent) / distance and at one speed; kcal =
    W * 3600 / 4184 for each hour. Measured to 1.96 m/s and from -40 to 45 percent.

    References
    ----------
    .. [looney2019] Looney and others, 2019, graded walking (read in copies that differ).
    """
    require_above("time on the way", hours, "h", 0.0)
    require_above("distance", distance_m, "m", 0.0)
    require("ascent", ascent_m, "m", 0.0)
    require("descent", descent_m, "m", 0.0)
    speed_m_s = distance_m / (hours * _S_PER_H)
    sloping_m = ascent_m + descent_m
    up_share = ascent_m / sloping_m if sloping_m > 0.0 else 0.0
    grade_percent = 100.0 * sloping_m / distance_m
    require("grade", grade_percent, "%", 0.0, MOST_LCDA_GRADE_PERCENT)
    power_w = up_share * lcda_power_w(body_kg, load_kg, speed_m_s, grade_percent)
    power_w += (1.0 - up_share) * lcda_power_w(body_kg, load_kg, speed_m_s, -grade_percent)
    return power_w * hours * _S_PER_H / J_PER_KCAL


def lcda_knows(hours: float, distance_m: float, ascent_m: float, descent_m: float) -> bool:
    """Whether a walk is neither faster nor steeper than the Load Carriage Decision Aid goes.

    Parameters
    ----------
    hours : float
        Time on the way. [h], above 0
    distance_m : float
        Length of the way. [m], above 0
    ascent_m : float
        All climbs together. [m], 0 or more
    descent_m : float
        All drops together. [m], 0 or more

    Returns
    -------
    bool
        Whether lcda_walk_kcal gives its energy. [-]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Notes
    -----
    At most 2 m/s and 40 percent.

    References
    ----------
    .. [looney2019] Looney and others, 2019, graded walking (read in copies that differ).
    """
    require_above("time on the way", hours, "h", 0.0)
    require_above("distance", distance_m, "m", 0.0)
    require("ascent", ascent_m, "m", 0.0)
    require("descent", descent_m, "m", 0.0)
    is_slow = distance_m <= FASTEST_LCDA_M_S * hours * _S_PER_H
    return is_slow and ascent_m + descent_m <= MOST_LCDA_GRADE_PERCENT / 100.0 * distance_m


def _third(third: int | None) -> int:
    """Place of a third of a pregnancy in the tables."""
    if third is None:
        return 2
    require("third of the pregnancy", float(third), "", 1.0, 3.0)
    return third - 1


def _require_walk(body_kg: float, load_kg: float, speed_m_s: float) -> None:
    """Raise ValueError unless someone can walk like this."""
    require("body mass", body_kg, "kg", LEAST_MASS_KG, MOST_MASS_KG)
    require("load", load_kg, "kg", 0.0, MOST_LOAD_KG)
    require("walking speed", speed_m_s, "m/s", 0.0, FASTEST_WALK_M_S)
