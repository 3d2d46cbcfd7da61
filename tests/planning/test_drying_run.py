"""Forecasts from weighings: known curves are found again, and doubt widens the range."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.formulas.drying_curve import page_mass_g
from builder.model.batch import Weighing
from builder.planning.batches.drying_run import drying_run

CARROT_WATER = 0.8829  # USDA SR28, 11124
FRESH_G = 1000.0
LIMIT = 0.10


def weighed(
    times_min: tuple[float, ...], rate: float, exponent: float, wobble_g: float = 0.0
) -> tuple[Weighing, ...]:
    """Weigh along a known curve; every second weighing lies off by `wobble_g`."""
    return tuple(
        Weighing(
            at, page_mass_g(at, FRESH_G, CARROT_WATER, rate, exponent) + wobble_g * (-1) ** number
        )
        for number, at in enumerate(times_min)
    )


@pytest.mark.parametrize(
    ("rate", "exponent", "times_min", "model"),
    [
        (0.005, 1.0, (120, 240), "lewis"),
        (0.005, 1.0, (60, 120, 240, 360), "lewis"),
        (0.004, 1.1, (60, 150, 240, 330), "page"),
        (0.02, 0.8, (30, 90, 180, 300, 420), "page"),
    ],
)
def test_a_known_curve_is_found_again(
    rate: float, exponent: float, times_min: tuple[float, ...], model: str
) -> None:
    run = drying_run(FRESH_G, CARROT_WATER, LIMIT, weighed(times_min, rate, exponent))
    assert run is not None
    assert run.model == model
    # MR at the limit: X = 0.1/0.9 over X0 = 0.8829/0.1171.
    ratio = (LIMIT / (1 - LIMIT)) / (CARROT_WATER / (1 - CARROT_WATER))
    expected_min = (-math.log(ratio) / rate) ** (1 / exponent)
    # Half a minute is less than anyone looks away.
    assert run.dry_after_min == pytest.approx(expected_min, abs=0.5)
    assert run.earliest_min < run.dry_after_min < run.latest_min
    assert run.target_g == pytest.approx(FRESH_G * (1 - CARROT_WATER) / (1 - LIMIT))


def test_scatter_widens_the_range() -> None:
    times = (60.0, 120.0, 180.0, 240.0, 300.0)
    # The doubt in the listed water would drown the rest.
    sure = 0.001
    quiet = drying_run(FRESH_G, CARROT_WATER, LIMIT, weighed(times, 0.005, 1.0), sure)
    noisy = drying_run(FRESH_G, CARROT_WATER, LIMIT, weighed(times, 0.005, 1.0, 45.0), sure)
    assert quiet is not None and noisy is not None
    assert noisy.latest_min - noisy.earliest_min > 1.5 * (quiet.latest_min - quiet.earliest_min)


def test_the_curve_starts_fresh_falls_and_ends_at_the_target() -> None:
    run = drying_run(FRESH_G, CARROT_WATER, LIMIT, weighed((90, 180, 270), 0.005, 1.0))
    assert run is not None
    masses = [point.mass_g for point in run.curve]
    assert masses[0] == pytest.approx(FRESH_G)
    assert masses == sorted(masses, reverse=True)
    assert masses[-1] == pytest.approx(run.target_g, rel=1e-3)


@pytest.mark.parametrize(
    "weighings",
    [
        (),
        (Weighing(60, 800),),
        (Weighing(60, 1000), Weighing(120, 1000)),  # nothing lost yet
        (Weighing(60, 100), Weighing(120, 90)),  # lighter than its own solids
    ],
)
def test_too_little_to_go_by_gives_no_forecast(weighings: tuple[Weighing, ...]) -> None:
    assert drying_run(FRESH_G, CARROT_WATER, LIMIT, weighings) is None


@settings(deadline=None, max_examples=40)
@given(
    rate=st.floats(0.002, 0.02),
    first=st.floats(30, 90),
    water=st.floats(0.6, 0.95),
)
def test_a_later_weighing_on_the_same_curve_changes_no_forecast(
    rate: float, first: float, water: float
) -> None:
    times = [first, 2 * first, 3 * first]
    points = [Weighing(at, page_mass_g(at, FRESH_G, water, rate, 1.0)) for at in times]
    two = drying_run(FRESH_G, water, LIMIT, points[:2])
    three = drying_run(FRESH_G, water, LIMIT, points)
    assert two is not None and three is not None
    assert two.dry_after_min == pytest.approx(three.dry_after_min, rel=1e-3)


def test_a_wider_spread_of_listed_water_widens_the_range() -> None:
    runs = [
        drying_run(FRESH_G, CARROT_WATER, LIMIT, weighed((120, 240, 360), 0.005, 1.0), spread)
        for spread in (0.0, 0.005, 0.01, 0.0246)
    ]
    widths = [run.latest_min - run.earliest_min for run in runs if run is not None]
    assert len(widths) == 4
    assert widths == sorted(widths)
    assert widths[-1] > 4 * widths[1] > 0


def test_a_load_lighter_than_one_end_of_the_table_is_no_surer_for_it() -> None:
    # 65 g over the solids of 100.7 g: with two points of water less there would be none left.
    points = weighed((240, 480, 720), 0.005, 1.0)
    narrow = drying_run(FRESH_G, CARROT_WATER, LIMIT, points, 0.002)
    wide = drying_run(FRESH_G, CARROT_WATER, LIMIT, points, 0.02)
    assert narrow is not None and wide is not None
    assert wide.latest_min - wide.earliest_min > narrow.latest_min - narrow.earliest_min
