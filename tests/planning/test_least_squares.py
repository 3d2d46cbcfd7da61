"""The curve closest to weighings is the one that scipy's `curve_fit` finds."""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from typing import Any

import numpy as np
import pytest
from scipy.optimize import curve_fit

from builder.planning.batches.drying_run import BOUNDS
from builder.planning.batches.least_squares import Closest, closest

# Rates and exponents as of herbs to whole plums, and weighings off by as much as a kitchen scale.
CASES = 120


def curve(minutes: Any, log_rate: float, exponent: float = 1.0) -> Any:
    return np.exp(-math.exp(log_rate) * np.power(minutes, exponent))


def by_scipy(
    times: Sequence[float], ratios: Sequence[float], first: Sequence[float]
) -> tuple[Sequence[float], Sequence[Sequence[float]]]:
    model: Any = curve if len(first) == 2 else lambda minutes, log_rate: curve(minutes, log_rate)
    bounds = (BOUNDS[0][: len(first)], BOUNDS[1][: len(first)])
    exact: dict[str, Any] = {"ftol": 1e-14, "xtol": 1e-14, "gtol": 1e-14}
    found = curve_fit(model, times, ratios, p0=first, bounds=bounds, **exact)
    return found[0].tolist(), found[1].tolist()


def weighed(number: int) -> tuple[list[float], list[float]]:
    chance = random.Random(number)
    rate, exponent = chance.uniform(0.002, 0.012), chance.uniform(0.75, 1.3)
    times = [float(chance.randint(20, 90) * step) for step in range(1, 4 + number % 6)]
    ratios = [
        float(math.exp(-rate * at**exponent) * (1 + chance.uniform(-0.1, 0.1))) for at in times
    ]
    return times, ratios


def squares_at(times: Sequence[float], ratios: Sequence[float], at: Sequence[float]) -> float:
    return float(np.sum(np.square(np.asarray(curve(np.array(times), *at)) - np.array(ratios))))


def fit(times: Sequence[float], ratios: Sequence[float], first: Sequence[float]) -> Closest:
    return closest(times, ratios, first, BOUNDS)


@pytest.mark.parametrize("unknowns", [1, 2])
def test_it_is_the_curve_that_scipy_finds(unknowns: int) -> None:
    for number in range(CASES):
        times, ratios = weighed(number)
        first = [math.log(-math.log(ratios[-1]) / times[-1]), 1.0][:unknowns]
        found = fit(times, ratios, first)
        at, covariance = by_scipy(times, ratios, first)
        assert found.at == pytest.approx(tuple(at), rel=1e-6), number
        assert found.squares == pytest.approx(squares_at(times, ratios, at), rel=1e-6)
        for own, theirs in zip(found.covariance, covariance, strict=True):
            assert own == pytest.approx(tuple(theirs), rel=1e-4), number


def test_an_unknown_stays_inside_its_bounds_and_the_other_is_still_the_closest() -> None:
    # Nothing goes for two hours and all in the next: steeper than any run may be taken for.
    times, ratios = [60.0, 120.0, 180.0, 200.0], [0.999, 0.998, 0.3, 0.01]
    found = fit(times, ratios, [math.log(0.01), 1.0])
    assert found.at[1] == BOUNDS[1][1]
    at, _ = by_scipy(times, ratios, [math.log(0.01), 1.0])
    assert found.squares <= squares_at(times, ratios, at) * (1 + 1e-6)
    for off in (-1e-3, 1e-3):
        assert found.squares < squares_at(times, ratios, [found.at[0] + off, found.at[1]])


def test_points_on_a_curve_leave_no_squares_over() -> None:
    times = [60.0, 150.0, 240.0, 330.0]
    ratios = [float(math.exp(-0.004 * at**1.1)) for at in times]
    found = fit(times, ratios, [math.log(0.01), 1.0])
    assert found.at == pytest.approx((math.log(0.004), 1.1), rel=1e-9)
    assert found.squares < 1e-20


def test_as_many_points_as_unknowns_tell_nothing_of_their_doubt() -> None:
    times, ratios = [120.0, 240.0], [0.5, 0.3]
    assert fit(times, ratios, [math.log(0.005), 1.0]).covariance == ((0.0, 0.0), (0.0, 0.0))
    assert fit(times, ratios, [math.log(0.005)]).covariance[0][0] > 0


def test_points_that_no_unknown_moves_are_left_as_they_are() -> None:
    # So fast that after ten minutes nothing is left: every rate about it says the same.
    found = fit([10.0, 20.0], [0.0, 0.0], [4.0])
    assert found.at == (4.0,)
    assert found.covariance == ((0.0,),)
