"""Drying curves against worked points and textbook identities."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from builder.formulas.drying_curve import (
    lewis_mass_g,
    look_next_min,
    minutes_at_thickness,
    minutes_to_ratio,
    minutes_to_share,
    moisture_ratio_of,
    page_mass_g,
    water_per_solids,
    wet_share,
)
from builder.formulas.freeze_drying import hours_range

from .published import Published, check, published


# Shares to dry basis: four decimals.
@published(
    Published((0.20,), 0.25, 5e-5, "g/g", "usu-dryness", "fruit at 20 %, dry basis", "calculated"),
    Published((0.86,), 6.1429, 6e-5, "g/g", "usu-dryness", "cherries, dry basis", "calculated"),
    Published((0.10,), 0.1111, 6e-5, "g/g", "usu-dryness", "vegetables, dry basis", "calculated"),
)
def test_dry_basis(row: Published) -> None:
    check(row, water_per_solids)


# Percents with two decimals.
@published(
    *(
        Published((x,), w, 6e-5, "share", "fellows", f"{x} g/g", "calculated")
        for x, w in ((0.05, 0.0476), (0.10, 0.0909), (0.15, 0.1304), (0.20, 0.1667), (0.25, 0.2))
    )
)
def test_wet_basis(row: Published) -> None:
    check(row, wet_share)


def _lewis_ratio(minutes: float, rate_per_min: float) -> float:
    """Moisture ratio as the mass of a kilogram of food at 80 percent shows it."""
    mass_g = lewis_mass_g(minutes, 1000.0, 0.8, rate_per_min)
    return (mass_g - 200.0) / 800.0


def _page_ratio(minutes: float, rate_per_min: float, exponent: float) -> float:
    """The same by the Page curve."""
    mass_g = page_mass_g(minutes, 1000.0, 0.8, rate_per_min, exponent)
    return (mass_g - 200.0) / 800.0


@published(
    *(
        Published(
            (float(t), 0.005), mr, 6e-5, "share", "lewis1921", f"mass at {t} min", "calculated"
        )
        for t, mr in ((60, 0.7408), (120, 0.5488), (240, 0.3012), (360, 0.1653), (480, 0.0907))
    )
)
def test_the_mass_by_lewis(row: Published) -> None:
    check(row, _lewis_ratio)


@published(
    *(
        Published(
            (float(t), 0.005, 1.1), mr, 6e-5, "share", "page1949", f"mass at {t} min", "calculated"
        )
        for t, mr in ((60, 0.6365), (120, 0.3797), (240, 0.1254), (360, 0.0391), (480, 0.0117))
    )
)
def test_the_mass_by_page(row: Published) -> None:
    check(row, _page_ratio)


# The same points backwards: half the last digit of the ratio moves the time by 0.3 min.
@published(
    Published((0.7408, 0.005, 1.0), 60.0, 0.02, "min", "lewis1921", "time to 0.7408", "calculated"),
    Published((0.1653, 0.005, 1.0), 360.0, 0.1, "min", "lewis1921", "time to 0.1653", "calculated"),
    Published((0.6365, 0.005, 1.1), 60.0, 0.02, "min", "page1949", "time to 0.6365", "calculated"),
    Published((0.1254, 0.005, 1.1), 240.0, 0.1, "min", "page1949", "time to 0.1254", "calculated"),
)
def test_the_time_to_a_ratio(row: Published) -> None:
    check(row, minutes_to_ratio)


# 80 percent is 4 g/g, 20 percent 0.25 g/g: ratio 1/16, ln 16 / 0.005; half the last digit.
@published(
    Published(
        (0.20, 0.80, 0.005), 554.5, 0.06, "min", "lewis1921", "80 to 20 % of water", "calculated"
    ),
)
def test_the_time_to_a_share(row: Published) -> None:
    check(row, minutes_to_share)


@published(
    Published((0.20, 0.80), 0.0625, 1e-6, "share", "lewis1921", "20 of 80 %", "calculated"),
    Published(
        (0.50, 0.80, 0.20), 0.2, 1e-6, "share", "lewis1921", "50 of 80 to 20 %", "calculated"
    ),
)
def test_the_ratio_is_of_dry_basis(row: Published) -> None:
    check(row, moisture_ratio_of)


# 12.5 mm take 16 h (middle of the chapter's 14 to 18), as the square of the thickness.
@published(
    Published(
        (960.0, 12.5, 25.0),
        3840.0,
        0.5,
        "min",
        "freeze-drying-chapter",
        "25 mm, 64 h",
        "calculated",
    ),
    Published(
        (960.0, 12.5, 6.25),
        240.0,
        0.5,
        "min",
        "freeze-drying-chapter",
        "6.25 mm, 4 h",
        "calculated",
    ),
)
def test_thickness_squared(row: Published) -> None:
    check(row, minutes_at_thickness)


def test_the_two_modules_scale_thickness_alike() -> None:
    fewest, most = hours_range(20.0)
    assert minutes_at_thickness(14.0 * 60.0, 12.5, 20.0) == pytest.approx(fewest * 60.0)
    assert minutes_at_thickness(18.0 * 60.0, 12.5, 20.0) == pytest.approx(most * 60.0)


@pytest.mark.parametrize("exponent", [0.8, 1.0, 1.3])
def test_a_root_finder_finds_the_same_time(exponent: float) -> None:
    """The closed form against scipy's bracketing root finder on the mass curve."""
    wanted_g = 1000.0 * 0.15 / 0.9

    def short_of(minutes: float) -> float:
        return page_mass_g(minutes, 1000.0, 0.85, 0.004, exponent) - wanted_g

    theirs = float(brentq(short_of, 0.0, 40000.0, xtol=1e-9))
    assert minutes_to_share(0.10, 0.85, 0.004, exponent) == pytest.approx(theirs, rel=1e-8)


def test_the_lewis_curve_solves_its_differential_equation() -> None:
    """dX/dt = -k (X - Xe), stepped by scipy."""
    start, rest, rate = water_per_solids(0.85), water_per_solids(0.06), 0.006
    times = np.linspace(0.0, 600.0, 7)
    solved = solve_ivp(
        lambda _, x: -rate * (x - rest), (0.0, 600.0), [start], t_eval=times, rtol=1e-9, atol=1e-12
    )
    for minutes, theirs in zip(times, solved.y[0], strict=True):
        mass_g = lewis_mass_g(float(minutes), 1000.0, 0.85, rate, 0.06)
        assert mass_g / 150.0 - 1.0 == pytest.approx(float(theirs), rel=1e-6)


@published(
    Published(
        (240.0, 400.0, 480.0),
        400.0,
        0.5,
        "min",
        "common-practice",
        "when it may be dry",
        "practice",
    ),
    Published(
        (240.0, 200.0, 300.0),
        270.0,
        0.5,
        "min",
        "common-practice",
        "half an hour later",
        "practice",
    ),
    Published(
        (240.0, 100.0, 600.0),
        360.0,
        0.5,
        "min",
        "common-practice",
        "a third of the rest",
        "practice",
    ),
)
def test_when_to_look_next(row: Published) -> None:
    check(row, look_next_min)
