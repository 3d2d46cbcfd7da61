"""The curve that lies closest to weighings: least squares by Levenberg and Marquardt.

scipy's `curve_fit` finds the same and is asked in the tests. Loading it takes half a second and
50 MB, which is more than all else that planning a trip takes, for one unknown or two.
`assets/kit/fit.js` goes the same way on the page.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TypeAlias

from builder.formulas.drying import moisture_ratio
from builder.record import dataclass

# The least and the most of each unknown.
Bounds: TypeAlias = "tuple[Sequence[float], Sequence[float]]"

_MOST_STEPS = 300
_LEAST_DAMPING, _FIRST_DAMPING, _MOST_DAMPING = 1e-10, 1e-3, 1e12
_DAMPING_TIMES = 10.0
# Of the logarithm of the rate and of the exponent: what is nearer is the same.
_SAME = 1e-12


@dataclass(frozen=True, slots=True)
class Closest:
    """The unknowns of the closest curve: the logarithm of its rate, then perhaps its exponent."""

    at: tuple[float, ...]
    squares: float  # the sum of the squares that are left over
    # Of the unknowns; nothing where there are no more points than unknowns to tell it by.
    covariance: tuple[tuple[float, ...], ...]


def closest(
    times_min: Sequence[float],
    ratios: Sequence[float],
    first: Sequence[float],
    bounds: Bounds,
) -> Closest:
    """Fit exp(-k t ** n) to points, from a first guess and inside bounds of its unknowns.

    The first unknown is the logarithm of k, which keeps k above nothing; n is 1 where it is none.
    """
    at = list(first)
    misses = _misses(times_min, ratios, at)
    damping = _FIRST_DAMPING
    for _ in range(_MOST_STEPS):
        if damping > _MOST_DAMPING:
            break  # no step, however short, comes closer
        then = _next(_slopes(times_min, at), misses, at, bounds, damping)
        further = _misses(times_min, ratios, then)
        if _dot(further, further) > _dot(misses, misses):
            damping *= _DAMPING_TIMES
            continue
        moved = max(abs(new - old) for new, old in zip(then, at, strict=True))
        at, misses, damping = then, further, max(damping / _DAMPING_TIMES, _LEAST_DAMPING)
        if moved < _SAME:
            break
    squares = _dot(misses, misses)
    return Closest(tuple(at), squares, _covariance(_slopes(times_min, at), squares))


def _next(
    slopes: Sequence[Sequence[float]],
    misses: Sequence[float],
    at: Sequence[float],
    bounds: Bounds,
    damping: float,
) -> list[float]:
    """Go one step down, the shorter the more it is damped."""
    least, most = bounds
    down = [-_dot(each, misses) for each in slopes]
    # An unknown that would leave its bounds stays there, and the other goes on alone.
    free = [
        k
        for k, push in enumerate(down)
        if not (at[k] <= least[k] and push < 0) and not (at[k] >= most[k] and push > 0)
    ]
    damped = [
        [_dot(slopes[a], slopes[b]) * (1 + damping if a == b else 1) for b in free] for a in free
    ]
    then = list(at)
    for k, row in zip(free, _inverse(damped), strict=True):
        step = _dot(row, [down[each] for each in free])
        then[k] = min(max(at[k] + step, least[k]), most[k])
    return then


def _misses(
    times_min: Sequence[float], ratios: Sequence[float], at: Sequence[float]
) -> list[float]:
    rate, exponent = math.exp(at[0]), at[1] if len(at) > 1 else 1.0
    return [
        moisture_ratio(time_min, rate, exponent) - ratio
        for time_min, ratio in zip(times_min, ratios, strict=True)
    ]


def _slopes(times_min: Sequence[float], at: Sequence[float]) -> list[list[float]]:
    """Give how the curve changes at each point with each unknown."""
    rate, exponent = math.exp(at[0]), at[1] if len(at) > 1 else 1.0
    by_rate = [
        -moisture_ratio(time_min, rate, exponent) * rate * time_min**exponent
        for time_min in times_min
    ]
    if len(at) == 1:
        return [by_rate]
    logs = (math.log(time_min) if time_min > 0 else 0.0 for time_min in times_min)
    return [by_rate, [slope * log for slope, log in zip(by_rate, logs, strict=True)]]


def _covariance(slopes: Sequence[Sequence[float]], squares: float) -> tuple[tuple[float, ...], ...]:
    over = len(slopes[0]) - len(slopes)
    of_one = squares / over if over > 0 else 0.0
    inverse = _inverse([[_dot(a, b) for b in slopes] for a in slopes])
    return tuple(tuple(each * of_one for each in row) for row in inverse)


def _inverse(matrix: Sequence[Sequence[float]]) -> list[list[float]]:
    """Invert a matrix of none, one or two rows; of one that has no inverse all is nothing."""
    if not matrix:
        return []
    if len(matrix) == 1:
        return [[1 / matrix[0][0] if matrix[0][0] else 0.0]]
    (a, b), (c, d) = matrix
    whole = a * d - b * c
    if whole <= 0:
        return [[0.0, 0.0], [0.0, 0.0]]
    return [[d / whole, -b / whole], [-c / whole, a / whole]]


def _dot(one: Sequence[float], other: Sequence[float]) -> float:
    return math.fsum(a * b for a, b in zip(one, other, strict=True))
