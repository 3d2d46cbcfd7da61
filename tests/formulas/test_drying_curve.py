"""Drying curves: edges, errors, laws."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.drying import dried_mass_g
from builder.formulas.drying_curve import (
    lewis_mass_g,
    minutes_at_thickness,
    minutes_to_ratio,
    minutes_to_share,
    moisture_ratio_of,
    page_mass_g,
    water_per_solids,
    wet_share,
)

wet = st.floats(0.3, 0.98)
rates = st.floats(1e-4, 0.05)
exponents = st.floats(0.5, 2.0)


@given(st.floats(0.0, 0.98))
def test_wet_and_dry_basis_are_each_others_inverse(share: float) -> None:
    assert wet_share(water_per_solids(share)) == pytest.approx(share, abs=1e-12)


def test_equal_parts_of_water_and_solids() -> None:
    assert water_per_solids(0.5) == 1.0
    assert wet_share(3.0) == 0.75


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


@given(wet, st.floats(0.01, 0.25), rates, exponents)
def test_the_time_to_a_share_gives_the_mass_at_that_share(
    start: float, wanted: float, rate: float, exponent: float
) -> None:
    """Mass balance and curve must tell the same weight."""
    try:
        minutes = minutes_to_share(wanted, start, rate, exponent)
    except ValueError as refused:
        assert "longer than 40320 min" in str(refused)
        assert page_mass_g(40320.0, 850.0, start, rate, exponent) > dried_mass_g(
            850.0, start, wanted
        )
        return
    found_g = page_mass_g(minutes, 850.0, start, rate, exponent)
    assert found_g == pytest.approx(dried_mass_g(850.0, start, wanted), rel=1e-9)


def test_lewis_is_page_with_an_exponent_of_one() -> None:
    assert lewis_mass_g(90.0, 500.0, 0.85, 0.006, 0.05) == page_mass_g(
        90.0, 500.0, 0.85, 0.006, 1.0, equilibrium_share=0.05
    )


def test_in_damp_air_a_load_ends_at_its_equilibrium() -> None:
    end_g = lewis_mass_g(40000.0, 1000.0, 0.9, 0.01, 0.1)
    assert end_g == pytest.approx(dried_mass_g(1000.0, 0.9, 0.1))


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


def test_twice_as_thick_takes_four_times_as_long() -> None:
    assert minutes_at_thickness(300.0, 5.0, 10.0) == 1200.0
    assert minutes_at_thickness(300.0, 8.0, 8.0) == 300.0
    assert minutes_at_thickness(0.0, 8.0, 3.0) == 0.0


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: water_per_solids(0.981), "water share is 0.981"),
        (lambda: water_per_solids(-0.1), "water share is -0.1"),
        (lambda: wet_share(50.0), "water for each gram of solids is 50"),
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
        (lambda: lewis_mass_g(1.0, 1.0, 0.8, 0.0), "drying rate is 0"),
        (lambda: minutes_to_ratio(0.0, 0.01), "moisture ratio is 0"),
        (lambda: minutes_to_ratio(1.1, 0.01), "moisture ratio is 1.1"),
        (lambda: minutes_to_ratio(0.5, 0.0), "drying rate is 0"),
        (lambda: minutes_to_ratio(0.5, 0.01, 0.0), "exponent is 0"),
        (lambda: minutes_to_ratio(0.5, 0.01, 5.1), "exponent is 5.1"),
        (lambda: minutes_to_ratio(0.5, 1e-300, 1e-3), "be warmer, drier or cut thinner$"),
        (lambda: minutes_to_ratio(0.01, 1.0e-4), "it takes longer than 40320 min"),
        (lambda: minutes_to_share(0.1, 0.8, 0.01, 1.0, 0.1), "it never gets so dry"),
        (lambda: minutes_at_thickness(-1.0, 5.0, 5.0), "drying time is -1 min"),
        (lambda: minutes_at_thickness(1.0, 0.4, 5.0), "thickness is 0.4 mm"),
        (lambda: minutes_at_thickness(1.0, 5.0, 101.0), "other thickness is 101 mm"),
        (lambda: minutes_at_thickness(math.nan, 5.0, 5.0), "drying time is nan"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], float], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
