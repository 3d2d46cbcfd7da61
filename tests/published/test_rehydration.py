"""Taking water up again against curves, ratios and kitchen tables."""

from __future__ import annotations

import pytest

from builder.formulas.drying import rehydration_water_ml
from builder.formulas.rehydration import (
    auto_water_ml,
    soak_range_min,
    standing_hours,
    taken_up_ml,
    takes_up_share,
)

from .published import Published, check, published


# Stewed rows of SR28 against the dried and the fresh ones: 0.29 (prune) to 0.65 (low-moisture
# apple) for fruit in warm air, to two decimals. A mean of them is what a fruit gets that tells
# none of its own.
@published(
    Published(
        ("dehydrator", "fruit"),
        0.45,
        0.16,
        "share",
        "usda-sr28",
        "prune 0.29 and 0.31, pear 0.30, peach 0.41, apricot 0.45, fig 0.56",
        "calculated",
    ),
    Published(
        ("oven", "legume"),
        0.68,
        0.13,
        "share",
        "ranganna1986",
        "black beans, cooked: ratio 1.9 to 2.3",
        "memory",
    ),
    Published(
        ("dehydrator", "vegetable"),
        0.58,
        0.17,
        "share",
        "ranganna1986",
        "carrot 4 to 6, potato 2.5 to 3.2, peas 2.3 to 3",
        "memory",
    ),
    Published(
        ("dehydrator", "meat"),
        0.50,
        0.14,
        "share",
        "ranganna1986",
        "minced beef, cooked: ratio 1.5 to 1.9",
        "memory",
    ),
    Published(
        ("dehydrator", "grain"),
        0.85,
        0.155,
        "share",
        "ranganna1986",
        "rice, cooked: ratio 2.3 to 2.85",
        "memory",
    ),
    Published(
        ("freeze-dryer", "fruit"),
        0.875,
        0.075,
        "share",
        "ranganna1986",
        "freeze-dried, most",
        "memory",
    ),
)
def test_what_dried_food_takes_up_again(row: Published) -> None:
    check(row, takes_up_share)


# Carrot, 88.29 % fresh and 4 % dried, comes back to six times its dried mass: it took up 0.695
# of the 7.198 g that each gram lost.
@published(
    Published((7.198, 0.695), 5.0, 0.005, "ml", "ranganna1986", "carrot, a gram", "calculated"),
    Published((100.0, 0.2), 20.0, 0.5, "ml", "ranganna1986", "tomato, a fifth", "calculated"),
)
def test_uptake(row: Published) -> None:
    check(row, taken_up_ml)


@published(
    Published((100.0, 0.2), 25.0, 0.5, "ml", "common-practice", "a quarter more", "practice"),
    Published((100.0, 0.9), 100.0, 0.5, "ml", "common-practice", "no more than lost", "practice"),
)
def test_what_is_poured(row: Published) -> None:
    check(row, auto_water_ml)


# Water for dried food in US cups (236.588 ml), dry mass of a cup from SR28: what an extension
# table pours on is what full return takes, to 12 percent.
@pytest.mark.parametrize(
    ("what", "dry_g", "cups", "fresh", "dried"),
    [
        ("carrots", 74.0, 2.25, 0.8829, 0.04),
        ("onions", 56.0, 2.0, 0.8911, 0.0393),
        ("apples", 86.0, 1.5, 0.8556, 0.3176),
    ],
)
def test_full_return_is_what_kitchens_pour(
    what: str, dry_g: float, cups: float, fresh: float, dried: float
) -> None:
    poured_ml = cups * 236.588
    assert rehydration_water_ml(dry_g, fresh, dried) == pytest.approx(poured_ml, rel=0.12), what


def _soak_middle(kind: str, water: str) -> float:
    """Middle of a range of soaking minutes."""
    return sum(soak_range_min(kind, water)) / 2.0


# Values of the tables; half the width of our range.
@published(
    *(
        Published(
            (kind, water), t, within, "min", "extension-rehydration", f"{what} in {water}", "copy"
        )
        for what, kind, water, t, within in (
            ("apples", "fruit", "warm", 30.0, 22.5),
            ("pears", "fruit", "warm", 60.0, 22.5),
            ("peaches", "fruit", "warm", 75.0, 22.5),
            ("carrots", "vegetable", "boiling", 60.0, 30.0),
            ("green beans", "vegetable", "boiling", 90.0, 30.0),
            ("peas", "vegetable", "boiling", 30.0, 30.0),
        )
    ),
    Published(
        ("vegetable", "cold"), 30.0, 45.0, "min", "msu-preserving", "roots, half an hour", "copy"
    ),
    Published(("vegetable", "cold"), 120.0, 45.0, "min", "msu-preserving", "roots, 2 h", "copy"),
)
def test_soaking(row: Published) -> None:
    check(row, _soak_middle)


@published(
    Published((25.0, 20.0), 2.0, 1e-9, "h", "fsis-two-hours", "soaked food, 20 °C", "copy"),
    Published((25.0, 33.0), 1.0, 1e-9, "h", "fsis-two-hours", "soaked food, 33 °C", "copy"),
)
def test_standing(row: Published) -> None:
    check(row, standing_hours)
