"""What earlier trips teach: by hand, its bounds, and how it nears the truth."""

from __future__ import annotations

import math
import random
from statistics import fmean

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.learning import LEAST_FACTOR, MOST_FACTOR, learned_factor

RATIOS = st.floats(0.05, 20.0)


def test_the_plan_counts_like_two_trips_that_went_as_planned() -> None:
    # exp(ln 1.331 / 3) = 1.331 ^ (1/3) = 1.1
    assert learned_factor((1.331,)) == pytest.approx(1.1, rel=1e-12)
    # (1.4641 * 1) ^ (1/4) = 1.1
    assert learned_factor((1.4641, 1.0)) == pytest.approx(1.1, rel=1e-12)


def test_nothing_draws_it_out_of_its_bounds() -> None:
    assert learned_factor((9.0,)) == MOST_FACTOR  # 9 ^ (1/3) = 2.08
    assert learned_factor((0.1,)) == LEAST_FACTOR  # 0.1 ^ (1/3) = 0.46
    # Just inside: 1.49 ^ 3 and 0.71 ^ 3.
    assert learned_factor((1.49**3,)) == pytest.approx(1.49, rel=1e-12)
    assert learned_factor((0.71**3,)) == pytest.approx(0.71, rel=1e-12)


@pytest.mark.parametrize("ratios", [(), (0.0,), (1.0, -0.2)])
def test_no_trip_and_no_ratio_teach_nothing(ratios: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match=r"trip|planned"):
        learned_factor(ratios)


@given(st.lists(RATIOS, min_size=1, max_size=9))
def test_it_lies_between_the_plan_and_the_trips(ratios: list[float]) -> None:
    found = learned_factor(ratios)
    least, most = min(1.0, *ratios), max(1.0, *ratios)
    assert max(LEAST_FACTOR, least) * (1 - 1e-9) <= found <= min(MOST_FACTOR, most) * (1 + 1e-9)


@given(st.lists(RATIOS, min_size=1, max_size=9), st.randoms())
def test_the_order_of_trips_does_not_matter(ratios: list[float], chance: random.Random) -> None:
    mixed = list(ratios)
    chance.shuffle(mixed)
    assert learned_factor(mixed) == pytest.approx(learned_factor(ratios), rel=1e-12)


def nearer_than_the_plan(trips: int, spread: float, draws: int = 1000) -> float:
    """Give the share of draws in which the factor is nearer the truth than no factor at all.

    A stove burns a true factor of what is planned, and each trip differs from it by its weather.
    """
    chance = random.Random(f"{trips} trips")
    nearer = []
    for _ in range(draws):
        true = math.log(chance.choice((0.75, 0.85, 1.2, 1.35)))
        ratios = [math.exp(true + chance.gauss(0, spread)) for _ in range(trips)]
        off = abs(math.log(learned_factor(ratios)) - true)
        nearer.append(off < abs(true))
    return fmean(nearer)


@pytest.mark.parametrize("trips", [1, 2, 3, 5, 8])
def test_in_most_draws_it_is_nearer_the_truth_than_the_plan(trips: int) -> None:
    assert nearer_than_the_plan(trips, spread=0.15) > 0.85


def test_more_trips_are_nearer_more_often() -> None:
    few, many = (nearer_than_the_plan(trips, spread=0.3) for trips in (1, 8))
    assert 0.6 < few < many
