"""Oxygen, absorbers, swelling and storage against extension pages and pressure tables."""

from __future__ import annotations

from builder.formulas.packing import (
    absorber_size_ml,
    days_left,
    life_used,
    pack_oxygen_ml,
    solid_volume_ml,
)

from .published import Published, check, published


# 1.4 to 1.6 g/ml of dry solids: 7 percent either way.
@published(
    Published((1000.0, 0.0), 667.0, 48.0, "ml", "fellows", "dry solids, 1 kg", "memory"),
)
def test_volume_of_solids(row: Published) -> None:
    check(row, solid_volume_ml)


# 646 with 21 percent of oxygen for our 20.95; 0.83 of it at 1500 m, two decimals.
@published(
    Published((3076.0, 0.0), 646.0, 2.0, "ml", "usu-oxygen", "can of 3076 ml", "copy"),
    Published(
        (3076.0, 0.0, 1500.0),
        0.83 * 646.0,
        5.0,
        "ml",
        "iso2533",
        "the same can at 1500 m",
        "memory",
    ),
    Published(
        (3785.0, 757.0),
        634.0,
        0.6,
        "ml",
        "us-atmosphere-1976",
        "gallon, a fifth food",
        "calculated",
    ),
)
def test_oxygen(row: Published) -> None:
    check(row, pack_oxygen_ml)


@published(
    Published((280.0,), 300.0, 1.0, "ml", "common-practice", "the usual size", "practice"),
    Published((60.0,), 100.0, 1.0, "ml", "common-practice", "a pint jar", "practice"),
)
def test_sizes(row: Published) -> None:
    check(row, absorber_size_ml)


# Fruit: 12 months at 60 degF, 6 at 80: half a year in each uses 1.5 of half a life.
_YEAR_D = 365.25


def used_in_places(table_months: float, stays: list[tuple[float, float]]) -> float:
    return sum(life_used(table_months, days, kept_at_c) for days, kept_at_c in stays)


def left_after_places(
    table_months: float, stays: list[tuple[float, float]], kept_at_c: float
) -> float:
    return days_left(table_months, used_in_places(table_months, stays), kept_at_c)


@published(
    Published(
        (12.0, [(_YEAR_D, 15.56)]),
        1.0,
        0.005,
        "share",
        "uga-drying",
        "fruit, a year at 60 °F",
        "copy",
    ),
    Published(
        (12.0, [(_YEAR_D / 2.0, 26.67)]),
        1.0,
        0.005,
        "share",
        "uga-drying",
        "fruit, half a year at 80 °F",
        "copy",
    ),
    Published(
        (12.0, [(_YEAR_D / 2.0, 15.56), (_YEAR_D / 4.0, 26.67)]),
        1.0,
        0.005,
        "share",
        "uga-drying",
        "fruit, half the life in each",
        "calculated",
    ),
)
def test_life_used(row: Published) -> None:
    check(row, used_in_places)


@published(
    Published(
        (12.0, [(_YEAR_D / 2.0, 15.56)], 26.67),
        _YEAR_D / 4.0,
        1.0,
        "d",
        "uga-drying",
        "fruit, half a year at 60 °F, rest at 80",
        "calculated",
    ),
)
def test_days_left(row: Published) -> None:
    check(row, left_after_places)
