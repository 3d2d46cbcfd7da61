"""Drying against worked examples, drying curves, and weighings of the trade."""

from __future__ import annotations

import pytest

from builder.formulas.drying import (
    MOST_WATER_SHARE,
    dried_mass_g,
    dry_enough_share,
    least_residual_share,
    moisture_ratio,
    rehydration_water_ml,
    residual_share,
    solids_factor,
    usual_residual_share,
    water_share_from,
)
from builder.formulas.dryness import (
    least_solids_share,
    odd_solids_share,
    residual_off_share,
    solids_of_listed,
)

from .published import Published, check, published


@published(
    Published(
        (40.0, 0.86, 0.20),
        7.0,
        0.005,
        "oz",
        "usu-dryness",
        "cherries, 40 oz at 14 % solids",
        "copy",
    ),
    Published(
        (1000.0, 0.88, 0.08), 130.4, 0.06, "g", "usu-dryness", "rule, 88 to 8 %", "calculated"
    ),
    Published(
        (1000.0, 0.95, 0.05), 52.6, 0.06, "g", "usu-dryness", "rule, 95 to 5 %", "calculated"
    ),
    Published(
        (1000.0, 0.75, 0.03), 257.7, 0.06, "g", "usu-dryness", "rule, 75 to 3 %", "calculated"
    ),
)
def test_the_worked_example_of_the_extension_service(row: Published) -> None:
    check(row, dried_mass_g)


@published(
    Published(
        (40.0, 7.0, 0.86), 0.20, 1e-9, "share", "usu-dryness", "cherries, weighed at 7 oz", "copy"
    ),
    Published(
        (40.0, 6.5, 0.86),
        0.1385,
        0.00006,
        "share",
        "usu-dryness",
        "cherries at 6.5 oz",
        "calculated",
    ),
    Published(
        (40.0, 5.6, 0.86), 0.0, 1e-9, "share", "usu-dryness", "cherries at 5.6 oz", "calculated"
    ),
)
def test_the_worked_example_read_backwards(row: Published) -> None:
    check(row, residual_share)


# Target shares are printed as whole percents.
@published(
    Published(
        ("dehydrator", "fruit"), 0.20, 0.005, "share", "usu-dryness", "fruit, 80 % solids", "copy"
    ),
    Published(
        ("oven", "vegetable"),
        0.10,
        0.005,
        "share",
        "usu-dryness",
        "vegetables, 90 % solids",
        "copy",
    ),
    Published(
        ("freeze-dryer", "herb"),
        0.02,
        0.00005,
        "share",
        "usda-sr28",
        "NDB 11615, freeze-dried",
        "copy",
    ),
)
def test_usual_residual_is_the_published_target(row: Published) -> None:
    check(row, usual_residual_share)


def test_freeze_dried_food_is_dry_enough_in_the_textbook_range() -> None:
    """1 to 4 percent (Fellows, quoted from memory) passes, the mean and the ends."""
    assert all(share <= dry_enough_share("freeze-dryer", "meat") for share in (0.01, 0.02, 0.04))


@published(
    *(
        Published(
            (float(t), 0.005, 1.0),
            mr,
            0.00006,
            "share",
            "lewis1921",
            f"k = 0.005, {t} min",
            "calculated",
        )
        for t, mr in ((60, 0.7408), (120, 0.5488), (240, 0.3012), (360, 0.1653), (480, 0.0907))
    ),
    *(
        Published(
            (float(t), 0.005, 1.1),
            mr,
            0.00006,
            "share",
            "page1949",
            f"n = 1.1, {t} min",
            "calculated",
        )
        for t, mr in ((60, 0.6365), (120, 0.3797), (240, 0.1254), (360, 0.0391), (480, 0.0117))
    ),
)
def test_drying_curves(row: Published) -> None:
    check(row, moisture_ratio)


@published(
    Published(
        (0.8829, 0.04),
        8.198,
        0.0006,
        "times",
        "usda-sr28",
        "carrots, most they take up",
        "calculated",
    ),
)
def test_the_most_a_dried_food_takes_up(row: Published) -> None:
    check(row, solids_factor)


# What follows are weighings and habits of the trade: bare numbers, no source.


def _residual_of_raw_meat(fresh_g: float, dried_g: float, listed: float) -> float:
    """Water left by the rule: from the weighings, or the method's least with its own w0."""
    share = residual_share(fresh_g, dried_g, listed)
    return max(share, least_residual_share("freeze-dryer"))


# Freeze-dried meat keeps about 0.02. One lean piece differs from the listed mean by up to two
# percent of water, and each of them moves the result by fresh/dried percent.
@published(
    *(
        Published(
            (fresh, dried, listed),
            0.02,
            0.02 * fresh / dried,
            "share",
            "common-practice",
            f"{what}, {fresh:.0f} g to {dried:.0f} g",
            "practice",
        )
        for what, fresh, dried, listed in (
            ("lean meat", 122.0, 34.0, 0.7324),
            ("poultry", 244.0, 54.0, 0.739),
            ("lean meat", 250.0, 73.0, 0.7324),
        )
    )
)
def test_freeze_dried_lean_meats_come_out_dry(row: Published) -> None:
    check(row, _residual_of_raw_meat)


def test_the_poultry_was_wetter_than_listed_and_gets_a_water_share_of_its_own() -> None:
    assert residual_share(244.0, 54.0, 0.739) < 0.0
    least = least_residual_share("freeze-dryer")
    corrected = water_share_from(244.0, 54.0, least)
    assert 0.739 < corrected < MOST_WATER_SHARE
    assert residual_share(244.0, 54.0, corrected) == pytest.approx(least, abs=1e-12)
    assert rehydration_water_ml(54.0, corrected, least) == pytest.approx(244.0 - 54.0, abs=1e-9)


def _water_of_a_load_ml(load_g: float, water_share: float) -> float:
    """What freeze-drying a load takes out."""
    return load_g - dried_mass_g(load_g, water_share, usual_residual_share("freeze-dryer", "meat"))


# "About 2.6 l from a full load of about 5.4 kg": half of the last digit given.
@published(
    Published(
        (5400.0, 0.5),
        2600.0,
        50.0,
        "ml",
        "common-practice",
        "small freeze dryer, load of half water",
        "practice",
    ),
)
def test_a_full_freeze_dryer_holds_food_of_half_water(row: Published) -> None:
    check(row, _water_of_a_load_ml)


@pytest.mark.parametrize("water_share", [0.5, 0.6, 0.75, 0.9])
def test_a_full_freeze_dryer_of_wetter_food_gives_more_water_than_it_is_built_for(
    water_share: float,
) -> None:
    """Hence a load limit by water, not only by mass."""
    assert _water_of_a_load_ml(5400.0, water_share) >= 2600.0


# USDA SR28 standard errors times the root of the number of samples: (food, listed water and its
# standard deviation, grams of 1000 at the limit, two standard deviations of what is left).
SPREADS = [
    ("apple", 0.8556, 0.0149, 180.5, 0.165),
    ("pear", 0.8396, 0.0063, 200.5, 0.063),
    ("onion", 0.8911, 0.0145, 121.0, 0.240),
    ("potato", 0.7925, 0.0124, 230.6, 0.108),
    ("rice, cooked", 0.6844, 0.0191, 350.7, 0.109),
    ("beef, 95 %", 0.7324, 0.0224, 297.3, 0.151),
    ("chicken breast", 0.7390, 0.0064, 290.0, 0.044),
]


def _half_range(fresh_g: float, dried_g: float, water_share: float, spread_share: float) -> float:
    low, high = (
        residual_off_share(fresh_g, dried_g, water_share, spread_share, off) for off in (-2.0, 2.0)
    )
    return (high - low) / 2.0


# Printed to a tenth of a point, the weights to a tenth of a gram.
@published(
    *(
        Published(
            (1000.0, dried_g, water, spread),
            points,
            0.0006,
            "share",
            "usda-sr28",
            f"{name}, two spreads of what is left",
            "calculated",
        )
        for name, water, spread, dried_g, points in SPREADS
    ),
)
def test_what_the_spread_of_listed_water_leaves_open(row: Published) -> None:
    check(row, _half_range)


def _most_left(fresh_g: float, dried_g: float, water_share: float, spread_share: float) -> float:
    return residual_off_share(fresh_g, dried_g, water_share, spread_share, 2.0)


# The weights below which a kilogram is dry whatever its water was.
@published(
    Published(
        (1000.0, 143.2, 0.8556, 0.0149), 0.20, 0.0005, "share", "usda-sr28", "apple, surely dry",
        "calculated",
    ),
    Published(
        (1000.0, 184.7, 0.8396, 0.0063), 0.20, 0.0005, "share", "usda-sr28", "pear, surely dry",
        "calculated",
    ),
    Published(
        (1000.0, 88.8, 0.8911, 0.0145), 0.10, 0.0008, "share", "usda-sr28", "onion, surely dry",
        "calculated",
    ),
    Published(
        (1000.0, 203.0, 0.7925, 0.0124), 0.10, 0.0005, "share", "usda-sr28", "potato, surely dry",
        "calculated",
    ),
    Published(
        (1000.0, 247.6, 0.7324, 0.0224), 0.10, 0.0005, "share", "usda-sr28", "beef, surely dry",
        "calculated",
    ),
    Published(
        (1000.0, 275.8, 0.7390, 0.0064), 0.10, 0.0005, "share", "usda-sr28", "chicken, surely dry",
        "calculated",
    ),
)  # fmt: skip
def test_the_weight_at_which_a_load_is_surely_dry(row: Published) -> None:
    check(row, _most_left)


@published(
    *(
        Published(
            (water, spread), ratio, 0.006, "ratio", "usda-sr28", f"{name}, an odd weight",
            "calculated",
        )
        for name, water, spread, ratio in (
            ("apple", 0.8556, 0.0149, 0.79), ("carrot", 0.8829, 0.0246, 0.58),
            ("mushroom", 0.9245, 0.0178, 0.53), ("tomato", 0.9452, 0.0087, 0.68),
        )
    ),
)  # fmt: skip
def test_the_solids_below_which_a_weight_is_odd(row: Published) -> None:
    check(row, odd_solids_share)


@published(
    Published(
        (0.8829, 0.0246), 0.160, 0.001, "ratio", "usda-sr28", "carrot, four spreads", "calculated"
    ),
    Published(
        (0.8556, 0.0149), 0.5, 1e-9, "ratio", "common-practice", "apple, half at least", "practice"
    ),
)
def test_the_solids_below_which_a_weight_cannot_be(row: Published) -> None:
    check(row, least_solids_share)


@published(
    Published(
        (40.0, 7.0, 0.86, 0.20), 1.0, 1e-9, "ratio", "usu-dryness", "cherries, as listed",
        "calculated",
    ),
)  # fmt: skip
def test_a_load_as_listed_holds_the_solids_listed(row: Published) -> None:
    check(row, solids_of_listed)
