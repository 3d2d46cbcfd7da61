"""Keeping: edges, errors, laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.keeping import (
    FAT_HALVES_ABOVE_G,
    FAT_RICH_ABOVE_G,
    TABLE_MONTHS,
    UNPROVEN_MOST_MONTHS,
    bag_swelling,
    months_kept,
    table_months,
    void_oxygen_ml,
)


def test_the_table_holds_where_it_was_made() -> None:
    assert months_kept(12.0, 15.6) == 12.0


def test_eleven_degrees_warmer_is_half() -> None:
    assert months_kept(12.0, 15.6 + 11.1) == pytest.approx(6.0, rel=1e-12)


@given(st.floats(0.0, 120.0), st.floats(-17.99, 15.6))
def test_a_cool_store_promises_no_more_than_the_table(months: float, kept_at_c: float) -> None:
    assert months_kept(months, kept_at_c) == months


def test_a_freezer_does() -> None:
    assert months_kept(1.0, -18.0) == pytest.approx(2.0 ** (33.6 / 11.1), rel=1e-12)
    assert months_kept(1.0, -17.9) == 1.0


@given(st.floats(0.0, 120.0), st.floats(-40.0, 40.0), st.floats(0.0, 20.0))
def test_warmer_never_keeps_longer(months: float, kept_at_c: float, warmer_k: float) -> None:
    warmer_c = min(kept_at_c + warmer_k, 40.0)
    assert months_kept(months, warmer_c) <= months_kept(months, kept_at_c)


@pytest.mark.parametrize("kept_at_c", [-40.1, 40.1, math.nan])
def test_stores_beyond_the_rule_are_refused(kept_at_c: float) -> None:
    with pytest.raises(ValueError, match="temperature of the store is"):
        months_kept(12.0, kept_at_c)


def test_negative_months_are_refused() -> None:
    with pytest.raises(ValueError, match="months of the table"):
        months_kept(-1.0, 15.0)


@pytest.mark.parametrize("group", sorted(set(TABLE_MONTHS) - {"nut"}))
def test_bag_and_fat_halve_once_together(group: str) -> None:
    whole = table_months(group, False, FAT_HALVES_ABOVE_G)
    assert whole == TABLE_MONTHS[group]
    halves = [
        table_months(group, True, 0.0),
        table_months(group, False, FAT_HALVES_ABOVE_G + 0.1),
        table_months(group, True, 100.0),
    ]
    assert halves == [whole / 2.0] * 3


def test_the_months_of_nuts_count_their_fat() -> None:
    assert table_months("nut", False, 100.0) == 3.0
    assert table_months("nut", True, 50.0) == 1.5


def test_what_is_known_of_a_food_stands_for_its_group() -> None:
    assert table_months("plant", False, 0.0, 3.0) == 3.0
    assert table_months("plant", True, 0.0, 3.0) == 1.5
    with pytest.raises(ValueError, match="months that this food keeps"):
        table_months("plant", False, 0.0, 120.1)


def test_nothing_is_promised_for_more_than_ten_years() -> None:
    assert months_kept(36.0, -18.0) == 120.0  # 36 · 2^(33.6 / 11.1) would be 293
    assert months_kept(120.0, -40.0) == 120.0


def test_the_months_of_each_group() -> None:
    assert TABLE_MONTHS == {
        "fruit": 12.0,
        "plant": 6.0,
        "cooked-meat": 1.0,
        "jerky": 0.5,
        "egg-dairy": 1.0,
        "nut": 3.0,
        "freeze-dried-plant": 120.0,
        "freeze-dried-animal": 36.0,
        "freeze-dried-raw-or-fat": 12.0,
    }
    assert (FAT_HALVES_ABOVE_G, FAT_RICH_ABOVE_G, UNPROVEN_MOST_MONTHS) == (10.0, 25.0, 12.0)


def test_unknown_groups_and_impossible_fat_are_refused() -> None:
    with pytest.raises(ValueError, match="group of dried food 'bread' is not known"):
        table_months("bread", False, 0.0)
    with pytest.raises(ValueError, match="fat is 101 g in 100 g"):
        table_months("fruit", False, 101.0)


@given(st.floats(0.0, 5000.0), st.floats(0.0, 1.0))
def test_food_takes_the_place_of_air(container_ml: float, filled: float) -> None:
    food_ml = container_ml * filled
    oxygen_ml = void_oxygen_ml(container_ml, food_ml)
    assert 0.0 <= oxygen_ml <= void_oxygen_ml(container_ml, 0.0)
    assert oxygen_ml / 0.2095 + food_ml == pytest.approx(container_ml, abs=1e-6)


def test_more_food_than_fits_is_refused() -> None:
    with pytest.raises(ValueError, match="volume of the food is 600 ml; it must be 0 to 500 ml"):
        void_oxygen_ml(500.0, 600.0)


@given(st.floats(200.0, 1100.0), st.floats(200.0, 1100.0))
def test_what_swells_going_up_shrinks_going_down(low_hpa: float, high_hpa: float) -> None:
    there_and_back = bag_swelling(low_hpa, high_hpa) * bag_swelling(high_hpa, low_hpa)
    assert there_and_back == pytest.approx(1.0, rel=1e-12)
    assert (bag_swelling(low_hpa, high_hpa) > 1.0) == (low_hpa > high_hpa)


@pytest.mark.parametrize(("packed", "here"), [(0.0, 900.0), (900.0, 0.0), (900.0, math.nan)])
def test_a_bag_needs_air_around_it(packed: float, here: float) -> None:
    with pytest.raises(ValueError, match="air pressure"):
        bag_swelling(packed, here)
