"""Drying curves: edges, errors, laws."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.drying_curve import (
    minutes_to_ratio,
    moisture_ratio_of,
    page_mass_g,
    water_per_solids,
)

wet = st.floats(0.3, 0.98)
rates = st.floats(1e-4, 0.05)
exponents = st.floats(0.5, 2.0)


def test_the_ratio_runs_from_one_to_nothing() -> None:
    assert moisture_ratio_of(0.8, 0.8) == 1.0
    assert moisture_ratio_of(0.0, 0.8) == 0.0
    assert moisture_ratio_of(0.05, 0.8, 0.05) == 0.0
    # 0.5 wet is 1 g/g, 0.8 is 4 g/g, 0.2 is 0.25 g/g.
    assert moisture_ratio_of(0.5, 0.8) == pytest.approx(0.25)
    assert moisture_ratio_of(0.5, 0.8, 0.2) == pytest.approx(0.75 / 3.75)


@given(wet, rates, exponents, st.floats(0.0, 3000.0), st.floats(0.0, 3000.0))
def test_a_drying_load_never_gains(
    start: float, rate: float, exponent: float, one: float, other: float
) -> None:
    early, late = sorted((one, other))
    early_g = page_mass_g(early, 1000.0, start, rate, exponent)
    late_g = page_mass_g(late, 1000.0, start, rate, exponent)
    assert late_g <= early_g + 1e-9
    assert 1000.0 * (1.0 - start) - 1e-9 <= late_g


def test_at_the_start_it_weighs_what_it_weighs() -> None:
    assert page_mass_g(0.0, 1234.0, 0.87, 0.004, 1.2, equilibrium_share=0.06) == pytest.approx(
        1234.0
    )


@given(st.floats(1e-3, 0.999), st.floats(2e-3, 0.05), st.floats(0.8, 2.0))
def test_the_time_to_a_ratio_is_the_inverse_of_the_curve(
    ratio: float, rate: float, exponent: float
) -> None:
    minutes = minutes_to_ratio(ratio, rate, exponent)
    assert math.exp(-rate * minutes**exponent) == pytest.approx(ratio, rel=1e-9)


def test_at_once_it_is_as_wet_as_it_was() -> None:
    assert minutes_to_ratio(1.0, 0.01, 1.3) == 0.0


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: water_per_solids(0.981), "water share is 0.981"),
        (lambda: water_per_solids(-0.1), "water share is -0.1"),
        (lambda: moisture_ratio_of(0.9, 0.8), "water share now is 0.9"),
        (lambda: moisture_ratio_of(0.1, 0.8, 0.2), "water share now is 0.1"),
        (lambda: moisture_ratio_of(0.1, 0.2, 0.2), "water share at the start is 0.2"),
        (lambda: moisture_ratio_of(0.1, 0.2, 1.0), "water share in equilibrium is 1"),
        (lambda: page_mass_g(-1.0, 100.0, 0.8, 0.01, 1.0), "drying time is -1 min"),
        (lambda: page_mass_g(40321.0, 100.0, 0.8, 0.01, 1.0), "drying time is 40321 min"),
        (lambda: page_mass_g(1.0, -1.0, 0.8, 0.01, 1.0), "mass at the start is -1 g"),
        (
            lambda: page_mass_g(1.0, 1.0, 0.1, 0.01, 1.0, equilibrium_share=0.1),
            "water share at the start is 0.1",
        ),
        (lambda: minutes_to_ratio(0.0, 0.01), "moisture ratio is 0"),
        (lambda: minutes_to_ratio(1.1, 0.01), "moisture ratio is 1.1"),
        (lambda: minutes_to_ratio(0.5, 0.0), "drying rate is 0"),
        (lambda: minutes_to_ratio(0.5, 0.01, 0.0), "exponent is 0"),
        (lambda: minutes_to_ratio(0.5, 0.01, 5.1), "exponent is 5.1"),
        (lambda: minutes_to_ratio(0.5, 1e-300, 1e-3), "be warmer, drier or cut thinner$"),
        (lambda: minutes_to_ratio(0.01, 1.0e-4), "it takes longer than 40320 min"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], float], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
