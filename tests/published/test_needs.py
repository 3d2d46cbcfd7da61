"""Additions to needs, protein, salt, and other models of walking."""

from __future__ import annotations

import pytest

from builder.formulas.effort import (
    basal_kcal,
    day_need_kcal,
    eer_2023_kcal,
    mifflin_kcal,
)
from builder.formulas.needs import (
    active_protein_range_g,
    activity_level,
    activity_of,
    altitude_range_kcal,
    cold_range_kcal,
    held_level,
    lcda_knows,
    lcda_power_w,
    lcda_walk_kcal,
    nursing_kcal,
    pregnancy_kcal,
    protein_need_g,
)

from .published import Published, check, published


@published(
    *(
        Published((third, source), kcal, 0.005, "kcal", source, f"pregnancy, third {third}", "copy")
        for source, thirds in (
            ("efsa-energy-2013", (70.0, 260.0, 500.0)),
            ("fao-energy-2004", (85.0, 285.0, 475.0)),
            ("iom2005", (0.0, 340.0, 452.0)),
        )
        for third, kcal in enumerate(thirds, start=1)
    )
)
def test_pregnancy(row: Published) -> None:
    check(row, pregnancy_kcal)


@published(
    Published(("efsa-energy-2013",), 500.0, 0.5, "kcal", "efsa-energy-2013", "nursing", "copy"),
    Published(
        ("fao-energy-2004",), 505.0, 0.5, "kcal", "fao-energy-2004", "675 less 170", "memory"
    ),
    Published(("iom2005",), 330.0, 0.5, "kcal", "iom2005", "500 less 170", "memory"),
)
def test_nursing(row: Published) -> None:
    check(row, nursing_kcal)


# 58.1 g for 70 kg, as the opinion's summary prints.
@published(
    *(
        Published(args, value, 0.05, "g", "efsa-protein-2012", place, "copy")
        for args, value, place in (
            (("male", 35.0, 70.0), 58.1, "70 kg"),
            (("female", 35.0, 60.0, 1), 50.8, "60 kg, first third"),
            (("female", 35.0, 60.0, 2), 58.8, "60 kg, second third"),
            (("female", 35.0, 60.0, 3), 77.8, "60 kg, last third"),
            (("female", 35.0, 60.0, 0, True), 68.8, "60 kg, nursing"),
            (("female", 34.0, 64.0), 53.1, "woman of 64 kg"),
            (("female", 34.0, 64.0, 3), 81.1, "woman of 64 kg, last third"),
            (("male", 41.0, 82.0), 68.1, "man of 82 kg"),
            (("male", 10.0, 33.0), 30.0, "ten years, 33 kg"),
            (("female", 1.0, 10.0), 11.4, "one year, 10 kg"),
            (("male", 17.0, 65.0), 55.9, "boy of 17, 65 kg"),
        )
    ),
)
def test_protein(row: Published) -> None:
    check(row, protein_need_g)


def _middle_protein_g(mass_kg: float) -> float:
    """Middle of the range for hard days."""
    return sum(active_protein_range_g(mass_kg)) / 2.0


@published(
    Published((1.0 * 70.0,), 112.0, 28.0, "g", "acsm-nutrition-2016", "1.2 to 2.0 g/kg", "memory"),
)
def test_protein_of_hard_days(row: Published) -> None:
    check(row, _middle_protein_g)


def _most_cold_kcal(need_kcal: float) -> float:
    """Most that a cold day adds."""
    return cold_range_kcal(need_kcal, -5.0)[1]


def _least_cold_kcal(need_kcal: float) -> float:
    """Least that a cold day adds."""
    return cold_range_kcal(need_kcal, -5.0)[0]


# 5.8 MET at -10 to 0 degC for 4.8 at 5 to 20 degC, each to 0.05.
@published(
    Published((480.0,), 100.0, 7.0, "kcal", "compendium2024", "17438 over 17434", "copy"),
)
def test_cold_at_most(row: Published) -> None:
    check(row, _most_cold_kcal)


@published(
    Published((1000.0,), 75.0, 25.0, "kcal", "iom1996", "5 to 10 percent for clothes", "memory"),
)
def test_cold_at_least(row: Published) -> None:
    check(row, _least_cold_kcal)


def _middle_height_kcal(basal: float, altitude_m: float) -> float:
    """Middle of the range of height."""
    return sum(altitude_range_kcal(basal, altitude_m)) / 2.0


@published(
    Published(
        (1000.0, 4000.0), 80.0, 20.0, "kcal", "iom1996", "6 to 10 percent at 4000 m", "memory"
    ),
    Published((1000.0, 4500.0), 170.0, 110.0, "kcal", "iom1996", "to 28 percent above", "memory"),
)
def test_height(row: Published) -> None:
    check(row, _middle_height_kcal)


@published(
    # A factorial day of 66.6 MET hours is 2.78 times 24.
    Published((66.6, 24.0), 2.775, 0.005, "times", "compendium2011", "factorial day", "calculated"),
    Published((3417.0, 1708.5), 2.0, 0.005, "times", "fao-energy-2004", "heavy work", "memory"),
)
def test_level(row: Published) -> None:
    check(row, activity_level)


@published(
    Published((3417.0, 1708.5), 2.0, 0.005, "times", "fao-energy-2004", "heavy work", "memory"),
    Published(
        (8000.0, 1600.0), 2.5, 0.005, "times", "fao-energy-2004", "most held for long", "memory"
    ),
)
def test_level_held(row: Published) -> None:
    check(row, held_level)


def _band(level: float, age_years: float) -> float:
    """Number of the band."""
    words = ("inactive", "low-active", "active", "very-active")
    return float(words.index(activity_of(level, age_years)))


@published(
    Published((1.52, 30.0), 0.0, 0.5, "band", "nasem2023", "adults under 1.53", "copy"),
    Published((1.60, 30.0), 1.0, 0.5, "band", "nasem2023", "adults under 1.68", "copy"),
    Published((1.80, 30.0), 2.0, 0.5, "band", "nasem2023", "adults under 1.85", "copy"),
    Published((1.90, 30.0), 3.0, 0.5, "band", "nasem2023", "adults from 1.85", "copy"),
    Published((1.75, 10.0), 2.0, 0.5, "band", "nasem2023", "9 to 13 under 1.77", "copy"),
    Published((1.60, 5.0), 3.0, 0.5, "band", "nasem2023", "3 to 8 from 1.59", "copy"),
)
def test_bands(row: Published) -> None:
    check(row, _band)


def _by(method: str, travel_hours: float, travel_kcal: float) -> float:
    """Need of a man of 30 years, 70 kg and 175 cm by one method."""
    man = ("male", 30.0, 175.0, 70.0)
    basal = basal_kcal("male", 30.0, 70.0)
    level = held_level(day_need_kcal(basal, travel_hours, travel_kcal), basal)
    if method == "nasem2023":
        return eer_2023_kcal(*man, activity_of(level, 30.0))
    if method == "mifflin1990":
        return level * mifflin_kcal(*man)
    return day_need_kcal(basal, travel_hours, travel_kcal)


# BMR 11.472 * 70 + 873.1 = 1676.14: a quiet day 1.3833 times, resting energy 1648.75.
@published(
    Published(
        ("schofield1985", 0.0, 0.0), 2318.7, 0.5, "kcal", "schofield1985", "quiet day", "calculated"
    ),
    Published(
        ("nasem2023", 0.0, 0.0), 2552.67, 0.01, "kcal", "nasem2023", "inactive", "calculated"
    ),
    Published(
        ("nasem2023", 6.0, 2200.0), 3226.67, 0.01, "kcal", "nasem2023", "very active", "calculated"
    ),
    Published(
        ("mifflin1990", 0.0, 0.0),
        2280.8,
        0.5,
        "kcal",
        "mifflin1990",
        "1648.75 * 1.3833",
        "calculated",
    ),
)
def test_three_methods(row: Published) -> None:
    check(row, _by)


# W for each kg of body and load: three decimals.
def _lcda_w_kg(speed_m_s: float, grade: float) -> float:
    """Power for each kilogram."""
    return lcda_power_w(70.0, 20.0, speed_m_s, grade) / 90.0


@published(
    *(
        Published((s, g), w, 0.001, "W/kg", "looney2019", f"{s} m/s, {g:+.0f} %", "calculated")
        for s, g, w in (
            (1.11, 0.0, 3.833),
            (1.34, 0.0, 4.414),
            (1.11, 5.0, 5.343),
            (1.11, 10.0, 7.334),
            (1.11, -10.0, 2.723),
            (1.34, -8.0, 3.136),
        )
    )
)
def test_load_carriage_decision_aid(row: Published) -> None:
    check(row, _lcda_w_kg)


@pytest.mark.parametrize("speed", [0.8, 1.11, 1.34])
@pytest.mark.parametrize("grade", [-12.0, -8.0, -4.0, 4.0, 8.0])
def test_the_digit_that_copies_differ_in_matters_little(speed: float, grade: float) -> None:
    """1.11 in place of 1.1: down to 9 percent less on the way down, up to 6 more up."""
    bend = 1.0 - 1.05 ** (1.0 - 1.11 ** (grade + 32.0))
    other = 1.44 + 1.94 * speed**0.43 + 0.24 * speed**4 + 0.34 * speed * grade * bend
    assert _lcda_w_kg(speed, grade) == pytest.approx(other, rel=0.10)


# Level and graded power for each kilogram, times body and load, over an hour on firm ground.
@published(
    *(
        Published(
            (70.0, 0.0, 1.0, speed * 3600.0, ascent_share * speed * 3600.0,
             descent_share * speed * 3600.0),
            w_kg * 70.0 * 3600.0 / 4184.0, 0.0005 * 70.0 * 3600.0 / 4184.0, "kcal", "looney2019",
            place, "calculated",
        )
        for speed, ascent_share, descent_share, w_kg, place in (
            (1.11, 0.0, 0.0, 3.833, "4 km/h, level"),
            (1.34, 0.0, 0.0, 4.414, "4.8 km/h, level"),
            (1.11, 0.05, 0.0, 5.343, "4 km/h, 5 % up"),
            (1.11, 0.10, 0.0, 7.333, "4 km/h, 10 % up"),
            (1.11, 0.0, 0.10, 2.723, "4 km/h, 10 % down"),
            (1.0, 0.20, 0.0, 10.413, "3.6 km/h, 20 % up"),
            (1.0, 0.0, 0.20, 2.946, "3.6 km/h, 20 % down"),
        )
    )
)  # fmt: skip
def test_an_hour_on_foot_by_the_second_equation(row: Published) -> None:
    check(row, lcda_walk_kcal)


# Measured on 95 people up to 1.96 m/s, on grades of -40 to +45 percent (abstract).
@published(
    Published((1.0, 1.95 * 3600.0, 0.0, 0.0), 1.0, 0.1, "-", "looney2019", "as fast", "copy"),
    Published((2.0, 5000.0, 1999.0, 0.0), 1.0, 0.1, "-", "looney2019", "as steep", "copy"),
    Published((2.0, 5000.0, 2300.0, 0.0), 0.0, 0.1, "-", "looney2019", "steeper", "copy"),
)
def test_how_far_the_second_equation_was_measured(row: Published) -> None:
    check(row, lcda_knows)
