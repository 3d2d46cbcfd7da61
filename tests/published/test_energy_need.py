"""Energy need against published tables, and one set of equations against another."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from builder.formulas.effort import (
    MET,
    basal_kcal,
    day_need_kcal,
    eer_2023_kcal,
    met_kcal,
    mifflin_kcal,
)

from .published import Published, check, published

_MAN = ("male", 30.0, 175.0, 70.0)
_WOMAN = ("female", 30.0, 165.0, 60.0)
_BOY = ("male", 10.0, 140.0, 33.0)
_GIRL = ("female", 10.0, 140.0, 33.0)
_LEVELS = ("inactive", "low-active", "active", "very-active")


@published(
    *(
        Published(
            (*body, level),
            kcal + growth,
            0.006,
            "kcal",
            "nasem2023",
            f"{who}, {level}",
            "calculated",
        )
        for who, body, growth, row in (
            ("man of 30", _MAN, 0.0, (2552.67, 2754.87, 2934.62, 3226.67)),
            ("woman of 30", _WOMAN, 0.0, (2021.00, 2182.87, 2319.45, 2551.68)),
            ("boy of 10", _BOY, 25.0, (1844.64, 1931.96, 2096.19, 2285.50)),
            ("girl of 10", _GIRL, 30.0, (1576.60, 1753.85, 1836.77, 2088.96)),
        )
        for level, kcal in zip(_LEVELS, row, strict=True)
    ),
    Published(
        ("male", 30.0, 170.0, 70.0, "inactive"),
        2520.17,
        0.006,
        "kcal",
        "nasem2023",
        "man of 170 cm",
        "copy",
    ),
    Published(
        ("female", 30.0, 170.0, 70.0, "active"),
        2475.55,
        0.006,
        "kcal",
        "nasem2023",
        "woman of 170 cm",
        "copy",
    ),
)
def test_energy_requirement_of_2023(row: Published) -> None:
    check(row, eer_2023_kcal)


@published(
    Published(_MAN, 1648.75, 0.005, "kcal", "mifflin1990", "man of 30", "calculated"),
    Published(_WOMAN, 1320.25, 0.005, "kcal", "mifflin1990", "woman of 30", "calculated"),
    Published(
        ("male", 40.0, 180.0, 80.0), 1730.0, 0.05, "kcal", "mifflin1990", "man of 40", "calculated"
    ),
    Published(
        ("female", 50.0, 170.0, 70.0),
        1351.5,
        0.05,
        "kcal",
        "mifflin1990",
        "woman of 50",
        "calculated",
    ),
)
def test_resting_energy_of_1990(row: Published) -> None:
    check(row, mifflin_kcal)


# By hand from the table of 1985: k mass + c.
@published(
    Published(
        ("male", 35.0, 70.0), 1676.1, 0.06, "kcal", "schofield1985", "man of 35, 70 kg", "memory"
    ),
    Published(
        ("female", 35.0, 60.0),
        1333.2,
        0.06,
        "kcal",
        "schofield1985",
        "woman of 35, 60 kg",
        "memory",
    ),
    Published(
        ("male", 25.0, 70.0), 1746.2, 0.06, "kcal", "schofield1985", "man of 25, 70 kg", "memory"
    ),
    Published(
        ("female", 25.0, 60.0),
        1375.7,
        0.06,
        "kcal",
        "schofield1985",
        "woman of 25, 60 kg",
        "memory",
    ),
    Published(
        ("male", 14.0, 50.0), 1542.5, 0.06, "kcal", "schofield1985", "boy of 14, 50 kg", "memory"
    ),
    Published(
        ("female", 5.0, 18.0), 851.6, 0.06, "kcal", "schofield1985", "girl of 5, 18 kg", "memory"
    ),
    Published(
        ("male", 2.0, 12.0), 683.7, 0.06, "kcal", "schofield1985", "boy of 2, 12 kg", "memory"
    ),
    Published(
        ("female", 70.0, 60.0),
        1203.4,
        0.06,
        "kcal",
        "schofield1985",
        "woman of 70, 60 kg",
        "memory",
    ),
)
def test_basal_energy_of_1985(row: Published) -> None:
    check(row, basal_kcal)


# Mifflin 1990 states that its equation finds most people within 10 percent. Schofield has one
# line for each band of ages, so the two are held together in the middle of a band; at 59, the
# end of one, Schofield lies 11 to 13 percent higher.
@pytest.mark.parametrize("age_years", [24.0, 45.0, 70.0])
@pytest.mark.parametrize(
    ("sex", "height_cm", "mass_kg"), [("male", 175.0, 70.0), ("female", 165.0, 60.0)]
)
def test_two_equations_for_rest_agree(
    sex: str, age_years: float, height_cm: float, mass_kg: float
) -> None:
    other = mifflin_kcal(sex, age_years, height_cm, mass_kg)
    assert basal_kcal(sex, age_years, mass_kg) == pytest.approx(other, rel=0.10)


# A camp day has a physical activity level of 1.38, the upper end of "sedentary" in 2005 and
# inside "inactive" in 2023: between the two lowest levels, or 10 percent off.
@pytest.mark.parametrize("equation", [eer_2023_kcal])
@pytest.mark.parametrize("age_years", [20.0, 35.0, 55.0])
@pytest.mark.parametrize(
    ("sex", "height_cm", "mass_kg"), [("male", 175.0, 70.0), ("female", 165.0, 60.0)]
)
def test_a_day_in_camp_is_a_quiet_day_at_home(
    equation: Callable[..., float], sex: str, age_years: float, height_cm: float, mass_kg: float
) -> None:
    camp_kcal = day_need_kcal(basal_kcal(sex, age_years, mass_kg), 0.0, 0.0)
    home_kcal = equation(sex, age_years, height_cm, mass_kg, "inactive")
    busier_kcal = equation(sex, age_years, height_cm, mass_kg, "low-active")
    assert 0.9 * home_kcal <= camp_kcal <= 1.1 * busier_kcal


@published(
    Published(
        ("paddling",), 4.0, 0.05, "MET", "compendium2011", "18020, canoe on a camping trip", "copy"
    ),
    Published(
        ("skiing",), 6.8, 0.05, "MET", "compendium2011", "19080, cross country, 2.5 mph", "copy"
    ),
    Published(("snowshoeing",), 5.3, 0.05, "MET", "compendium2011", "19190, moderate", "copy"),
    Published(
        ("walking-loaded",), 7.0, 0.05, "MET", "compendium2011", "17010, backpacking", "copy"
    ),
    Published(
        ("walking",), 5.3, 0.05, "MET", "compendium2011", "17082, fields and hillsides", "memory"
    ),
    Published(
        ("cycling",), 7.5, 0.05, "MET", "compendium2011", "01015, cycling, general", "memory"
    ),
)
def test_intensities_are_those_of_the_compendium(row: Published) -> None:
    check(row, MET.__getitem__)


@published(
    Published(
        (7.0, 70.0, 5.0), 2450.0, 0.5, "kcal", "compendium2011", "5 h at 7.0, 70 kg", "calculated"
    ),
    Published(
        (4.0, 60.0, 6.0), 1440.0, 0.5, "kcal", "compendium2011", "6 h at 4.0, 60 kg", "calculated"
    ),
)
def test_energy_by_intensity(row: Published) -> None:
    check(row, met_kcal)
