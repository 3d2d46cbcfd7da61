"""Drying at home: edges, errors, laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.home_drying import (
    DRYING_KWH_KG,
    MOST_ON_TRAYS_KG_M2,
    NEVER_RUNS,
    VITAMIN_C_KEPT_SHARE,
    bulk_density_g_ml,
    food_cost,
    fresh_to_dry_g,
    learned_ratio,
    machine_cost,
    most_on_trays_g,
    pays_after_runs,
    room_ml,
    saved_after_runs,
    usual_kwh,
)

RATIOS = st.floats(0.02, 0.9)


def test_the_table_counts_like_two_batches() -> None:
    # exp((2 ln 0.20 + ln 0.25) / 3) = (0.04 * 0.25) ^ (1/3)
    assert learned_ratio(0.20, (0.25,)) == pytest.approx(0.01 ** (1 / 3), rel=1e-12)
    assert learned_ratio(0.20, (0.25, 0.25)) == pytest.approx(math.sqrt(0.05), rel=1e-12)


@given(RATIOS, st.lists(RATIOS, min_size=1, max_size=8))
def test_what_was_learned_lies_between_table_and_batches(table: float, own: list[float]) -> None:
    learned = learned_ratio(table, own)
    assert min(table, *own) * (1 - 1e-9) <= learned <= max(table, *own) * (1 + 1e-9)


@given(RATIOS, RATIOS, st.integers(1, 20))
def test_each_batch_more_draws_it_on(table: float, own: float, count: int) -> None:
    off = [abs(math.log(learned_ratio(table, [own] * n) / own)) for n in (count, count + 1)]
    assert off[1] <= off[0] + 1e-12


def test_nothing_is_learned_from_no_batch() -> None:
    with pytest.raises(ValueError, match="no batch"):
        learned_ratio(0.2, ())


@given(st.floats(0.0, 1e4), RATIOS)
def test_what_is_dried_covers_what_is_wanted_with_a_twentieth_to_spare(
    wanted_g: float, ratio: float
) -> None:
    assert fresh_to_dry_g(wanted_g, ratio) * ratio == pytest.approx(wanted_g * 1.05)


def test_every_way_to_dry_has_its_current_and_its_trays() -> None:
    assert DRYING_KWH_KG.keys() == MOST_ON_TRAYS_KG_M2.keys()
    assert usual_kwh(1000.0, "sun") == 0.0
    assert usual_kwh(1000.0, "oven") == 2 * usual_kwh(1000.0, "dehydrator")


@pytest.mark.parametrize("formula", [usual_kwh, most_on_trays_g])
def test_a_way_that_is_none_is_refused(formula: type) -> None:
    with pytest.raises(ValueError, match="way to dry"):
        formula(1.0, "bought")


def test_what_is_cored_away_is_paid_for() -> None:
    assert food_cost(900.0, 0.1, 2.0) == pytest.approx(2.0)


def test_a_machine_is_paid_in_equal_parts() -> None:
    assert machine_cost(400.0, 150.0, 400.0) == 150.0


def test_a_dryer_has_paid_with_the_run_that_reaches_its_price() -> None:
    assert pays_after_runs(100.0, 5.0, 15.0) == 10.0
    assert pays_after_runs(100.01, 5.0, 15.0) == 11.0
    assert pays_after_runs(0.0, 5.0, 15.0) == 0.0


def test_a_dryer_never_pays_against_what_costs_no_more() -> None:
    # Told as -1 rather than refused, so that a page can tell it of prices that somebody tries.
    assert pays_after_runs(100.0, 15.0, 15.0) == NEVER_RUNS
    assert pays_after_runs(100.0, 15.0, 14.0) == NEVER_RUNS
    assert pays_after_runs(100.0, 15.0, 15.01) == 10_000.0
    with pytest.raises(ValueError, match="cost the other way"):
        pays_after_runs(100.0, 15.0, -0.1)


def test_what_is_saved_begins_below_nothing_by_the_price() -> None:
    assert saved_after_runs(0.0, 150.0, 10.528, 17.6) == -150.0
    assert (
        saved_after_runs(22.0, 150.0, 10.528, 17.6)
        > 0.0
        > saved_after_runs(21.0, 150.0, 10.528, 17.6)
    )


def test_dried_pieces_lie_closer_than_fresh_ones_and_take_less_room() -> None:
    for kind in ("fruit", "vegetable"):
        dried = room_ml(200.0, bulk_density_g_ml(kind, "heat-dried"))
        assert dried < room_ml(1000.0, bulk_density_g_ml(kind, "fresh"))
    with pytest.raises(ValueError, match="kind of pieces"):
        bulk_density_g_ml("egg", "fresh")


def test_the_ranges_of_vitamin_c_run_upwards() -> None:
    for least, most, _ in VITAMIN_C_KEPT_SHARE.values():
        assert 0.0 <= least < most <= 1.0
