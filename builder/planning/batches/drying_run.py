"""Forecasts, from weighings during a run, when a load will be dry, and how sure that is."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import Literal

from builder.formulas.drying import (
    MOST_WATER_SHARE,
    dried_mass_g,
    residual_share,
)
from builder.formulas.drying_curve import (
    look_next_min,
    minutes_to_ratio,
    moisture_ratio_of,
    page_mass_g,
)
from builder.formulas.dryness import SPREADS, USUAL_SPREAD_SHARE
from builder.model.batch import Weighing
from builder.model.figure import found, largest, named
from builder.model.kit import DryingRun
from builder.planning.batches.least_squares import closest
from builder.planning.tracing import work
from builder.record import dataclass

# Two standard errors: about nineteen runs of twenty end within.
STANDARD_ERRORS = 2.0
_STANDARD_ERRORS = named(STANDARD_ERRORS, "standard_errors", "common-practice")
# In the air of a dryer nearly all water goes in the end.
_DRY_AIR_SHARE = named(0.0, "equilibrium_share", "common-practice")
_FITTED = "least squares through the weighings"
LEAST_WEIGHINGS = 2
LEAST_FOR_PAGE = 3
# The second parameter must earn its place: the squares left over fall to less than half.
PAGE_MUST_HALVE = 0.5
CURVE_POINTS = 25
# Of the logarithm of the rate per minute, and of the exponent: wider than any run.
BOUNDS = ([-60.0, 0.2], [5.0, 3.0])
# What a fit elsewhere has to go by, by name.
FIT: Mapping[str, float | tuple[list[float], list[float]]] = {
    "standard_errors": STANDARD_ERRORS,
    "least_weighings": LEAST_WEIGHINGS,
    "least_for_page": LEAST_FOR_PAGE,
    "page_must_halve": PAGE_MUST_HALVE,
    "bounds": BOUNDS,
}


@dataclass(frozen=True, slots=True)
class _Fit:
    model: Literal["lewis", "page"]
    rate_per_min: float
    exponent: float
    rate_error: float
    exponent_error: float
    covariance: float
    squares: float


def drying_run(
    fresh_g: float,
    water_share: float,
    limit_share: float,
    weighings: Sequence[Weighing],
    spread_share: float = USUAL_SPREAD_SHARE,
) -> DryingRun | None:
    """Fit Lewis, or Page where it does much better; None where there is too little to go by."""
    # The fit and its errors are searched for with plain numbers; what follows has its origin.
    plain = [Weighing(float(each.at_min), float(each.mass_g)) for each in weighings]
    fit = _fitted(float(fresh_g), float(water_share), plain)
    if fit is None:
        return None
    source = "page1949" if fit.model == "page" else "lewis1921"
    rate_per_min = found(fit.rate_per_min, "rate_per_min", _FITTED, source)
    exponent = found(fit.exponent, "exponent", _FITTED, source)
    ratio = work(moisture_ratio_of, limit_share, water_share, _DRY_AIR_SHARE)
    dry_after_min = work(minutes_to_ratio, ratio, rate_per_min, exponent)
    error_min = found(
        math.hypot(
            _error_of_fit(float(ratio), fit),
            _error_of_table(
                float(fresh_g),
                float(water_share),
                float(limit_share),
                plain,
                float(spread_share),
                dry_after_min=float(dry_after_min),
            ),
        ),
        "error_min",
        "standard error of fit and table",
        source,
    )
    spread_min = _STANDARD_ERRORS * error_min
    last_min = max(float(dry_after_min), plain[-1].at_min)
    return DryingRun(
        model=fit.model,
        rate_per_min=rate_per_min,
        exponent=exponent,
        target_g=work(dried_mass_g, fresh_g, water_share, limit_share),
        dry_after_min=dry_after_min,
        earliest_min=largest(dry_after_min - spread_min, 0.0),
        latest_min=dry_after_min + spread_min,
        weighed=tuple(weighings),
        curve=tuple(
            Weighing(
                at_min,
                page_mass_g(
                    at_min, float(fresh_g), float(water_share), fit.rate_per_min, fit.exponent
                ),
            )
            for at_min in (last_min * step / (CURVE_POINTS - 1) for step in range(CURVE_POINTS))
        ),
    )


def look_next(run: DryingRun) -> float:
    """Give when to look at a load next, in minutes since it went in."""
    return work(look_next_min, run.weighed[-1].at_min, run.earliest_min, run.dry_after_min)


def _fitted(fresh_g: float, water_share: float, weighings: Sequence[Weighing]) -> _Fit | None:
    """Fit to the weighings that still hold water by the listed share."""
    times: list[float] = []
    ratios: list[float] = []
    for each in weighings:
        if each.mass_g >= fresh_g:
            continue
        share = residual_share(fresh_g, each.mass_g, water_share)
        if share > 0:
            times.append(each.at_min)
            ratios.append(moisture_ratio_of(share, water_share))
    if len(times) < LEAST_WEIGHINGS:
        return None
    lewis = _least_squares(times, ratios, page=False)
    if len(times) < LEAST_FOR_PAGE or lewis is None:
        return lewis
    page = _least_squares(times, ratios, page=True)
    if page is not None and page.squares < PAGE_MUST_HALVE * lewis.squares:
        return page
    return lewis


def _least_squares(times: list[float], ratios: list[float], page: bool) -> _Fit | None:
    start = -math.log(ratios[-1]) / times[-1]
    if start <= 0:
        return None
    # The rate is fitted as its logarithm, which keeps it above nothing.
    found = closest(times, ratios, [math.log(start), 1.0][: 1 + page], BOUNDS)
    return _Fit(
        model="page" if page else "lewis",
        rate_per_min=math.exp(found.at[0]),
        exponent=found.at[1] if page else 1.0,
        rate_error=math.sqrt(found.covariance[0][0]),
        exponent_error=math.sqrt(found.covariance[1][1]) if page else 0.0,
        covariance=found.covariance[0][1] if page else 0.0,
        squares=found.squares,
    )


def _error_of_fit(ratio: float, fit: _Fit) -> float:
    """Carry the errors of rate and exponent over to the time, to first order."""
    by_rate = _slope(
        lambda log: minutes_to_ratio(ratio, math.exp(log), fit.exponent), math.log(fit.rate_per_min)
    )
    by_exponent = _slope(lambda n: minutes_to_ratio(ratio, fit.rate_per_min, n), fit.exponent)
    variance = (
        (by_rate * fit.rate_error) ** 2
        + (by_exponent * fit.exponent_error) ** 2
        + 2 * by_rate * by_exponent * fit.covariance
    )
    return math.sqrt(max(variance, 0.0))


def _slope(function: Callable[[float], float], at: float, step: float = 1e-5) -> float:
    return (function(at + step) - function(at - step)) / (2 * step)


def _error_of_table(
    fresh_g: float,
    water_share: float,
    limit_share: float,
    weighings: Sequence[Weighing],
    spread_share: float,
    *,
    dry_after_min: float,
) -> float:
    """Carry the doubt in the listed water over: fit again with a wetter and a drier load.

    Half the distance of the two ends stands for two standard errors, since they lie two standard
    deviations of the listed water away; where one end cannot be, the distance of the other.
    """
    ends = []
    for off in (-SPREADS * spread_share, SPREADS * spread_share):
        share = min(water_share + off, MOST_WATER_SHARE)
        if share <= limit_share:
            continue
        fit = _fitted(fresh_g, share, weighings)
        if fit is not None:
            ratio = moisture_ratio_of(limit_share, share)
            ends.append(minutes_to_ratio(ratio, fit.rate_per_min, fit.exponent))
    if not ends:
        return 0.0
    off_min = abs(ends[1] - ends[0]) / 2 if len(ends) == 2 else abs(ends[0] - dry_after_min)
    return off_min / STANDARD_ERRORS
