"""Drying curves against worked points and textbook identities."""

from __future__ import annotations

from builder.formulas.drying_curve import (
    look_next_min,
    minutes_to_ratio,
    moisture_ratio_of,
    page_mass_g,
    water_per_solids,
)

from .published import Published, check, published


# Shares to dry basis: four decimals.
@published(
    Published((0.20,), 0.25, 5e-5, "g/g", "usu-dryness", "fruit at 20 %, dry basis", "calculated"),
    Published((0.86,), 6.1429, 6e-5, "g/g", "usu-dryness", "cherries, dry basis", "calculated"),
    Published((0.10,), 0.1111, 6e-5, "g/g", "usu-dryness", "vegetables, dry basis", "calculated"),
)
def test_dry_basis(row: Published) -> None:
    check(row, water_per_solids)


def _page_ratio(minutes: float, rate_per_min: float, exponent: float) -> float:
    """The same by the Page curve."""
    mass_g = page_mass_g(minutes, 1000.0, 0.8, rate_per_min, exponent)
    return (mass_g - 200.0) / 800.0


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


@published(
    Published((0.20, 0.80), 0.0625, 1e-6, "share", "lewis1921", "20 of 80 %", "calculated"),
    Published(
        (0.50, 0.80, 0.20), 0.2, 1e-6, "share", "lewis1921", "50 of 80 to 20 %", "calculated"
    ),
)
def test_the_ratio_is_of_dry_basis(row: Published) -> None:
    check(row, moisture_ratio_of)


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
