"""Treating water: edges, errors, laws."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.treatment import (
    bleach_drops,
    chlorine_mg_l,
    contact_min,
    growth_factor,
    halogen_min,
    strict_boil_min,
)

volumes = st.floats(0.0, 20000.0)
strengths = st.one_of(st.floats(0.009, 0.015), st.floats(0.04, 0.10))


@given(volumes, volumes, strengths)
def test_more_water_never_takes_fewer_drops(one: float, other: float, strength: float) -> None:
    less, more = sorted((one, other))
    assert bleach_drops(less, strength) <= bleach_drops(more, strength)


@given(volumes, strengths)
def test_cloudy_water_takes_twice_as_much(volume: float, strength: float) -> None:
    clear, cloudy = (bleach_drops(volume, strength, each) for each in (False, True))
    assert 2 * clear - 1 <= cloudy <= 2 * clear


@pytest.mark.parametrize(
    ("volume", "strength", "drops"),
    [
        (0.0, 0.06, 0),
        (1.0, 0.06, 1),
        (1000.0, 0.04, 2),
        (1000.0, 0.0699, 2),
        (5000.0, 0.0699, 10),
        (5000.0, 0.07, 8),
        (5000.0, 0.10, 8),
        (1000.0, 0.009, 11),
        (1000.0, 0.015, 11),
        (37854.11784, 0.01, 400),
        (37854.11784, 0.0825, 60),
    ],
)
def test_drops(volume: float, strength: float, drops: int) -> None:
    assert bleach_drops(volume, strength) == drops


@given(st.floats(100.0, 20000.0), strengths)
def test_the_dose_of_the_drops_is_one_that_works(volume: float, strength: float) -> None:
    """At least 3.5 mg/l; the dose of one drop in a little water is higher."""
    drops = bleach_drops(volume, strength)
    assert chlorine_mg_l(drops, volume, strength) >= 3.5


def test_dose_worked_by_hand() -> None:
    """8 drops of 0.05 ml with 0.06 g in each ml in 4 l: 24 mg."""
    assert chlorine_mg_l(8.0, 4000.0, 0.06) == pytest.approx(6.0)
    assert chlorine_mg_l(0.0, 4000.0, 0.06) == 0.0


@pytest.mark.parametrize(
    ("chemical", "water", "cryptosporidium", "minutes"),
    [
        ("chlorine", 20.0, False, 30.0),
        ("chlorine", 10.0, False, 30.0),
        ("chlorine", 9.9, False, 60.0),
        ("iodine", 2.0, False, 60.0),
        ("chlorine", 20.0, True, math.inf),
        ("iodine", 20.0, True, math.inf),
        ("chlorine-dioxide", 20.0, False, 30.0),
        ("chlorine-dioxide", 5.0, False, 30.0),
        ("chlorine-dioxide", 4.9, False, 240.0),
        ("chlorine-dioxide", 20.0, True, 240.0),
    ],
)
def test_waiting(chemical: str, water: float, cryptosporidium: bool, minutes: float) -> None:
    assert contact_min(chemical, water, cryptosporidium) == minutes


@given(st.floats(5.0, 40.0), st.floats(5.0, 40.0), st.floats(2.0, 16.0), st.floats(2.0, 16.0))
def test_warmer_and_stronger_is_never_slower(
    one: float, other: float, weak: float, strong: float
) -> None:
    cold, warm = sorted((one, other))
    weak, strong = sorted((weak, strong))
    assert halogen_min(warm, strong) <= halogen_min(cold, weak)


def test_between_the_rows_the_slower_one_counts() -> None:
    assert halogen_min(14.9, 4.0) == halogen_min(5.0, 4.0)
    assert halogen_min(25.0, 7.9) == halogen_min(25.0, 4.0)
    assert halogen_min(40.0, 20.0) == 15.0


@pytest.mark.parametrize(("height", "minutes"), [(0.0, 1.0), (1000.0, 1.0), (1000.1, 3.0)])
def test_boiling_by_the_stricter_rule(height: float, minutes: float) -> None:
    assert strict_boil_min(height) == minutes


@given(st.floats(0.0, 400.0), st.floats(0.0, 400.0), st.floats(15.0, 120.0))
def test_growth_multiplies(one: float, other: float, doubling: float) -> None:
    assert growth_factor(one, doubling) * growth_factor(other, doubling) == pytest.approx(
        growth_factor(one + other, doubling)
    )


def test_growth() -> None:
    assert growth_factor(0.0) == 1.0
    assert growth_factor(20.0) == 2.0


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: bleach_drops(-1.0, 0.06), "volume of water is -1 ml"),
        (lambda: bleach_drops(1000.0, 6.0), "strength of the bleach is 6;"),
        (lambda: bleach_drops(1000.0, 0.008), "strength of the bleach is 0.008"),
        (lambda: bleach_drops(1000.0, 0.101), "0.101; it must be 0.009 to 0.1$"),
        (lambda: bleach_drops(1000.0, 0.02), "no table gives drops between 0.015 and 0.04"),
        (lambda: chlorine_mg_l(-1.0, 1000.0, 0.06), "drops is -1"),
        (lambda: chlorine_mg_l(1.0, 0.0, 0.06), "volume of water is 0 ml"),
        (lambda: chlorine_mg_l(1.0, 1000.0, 0.21), "strength of the bleach is 0.21"),
        (lambda: contact_min("silver", 20.0), "chemical 'silver' is not known"),
        (lambda: contact_min("chlorine", -1.0), "water temperature is -1 °C"),
        (lambda: halogen_min(4.9, 4.0), "water temperature is 4.9 °C"),
        (lambda: halogen_min(20.0, 1.9), "dose is 1.9 mg/l"),
        (lambda: halogen_min(20.0, 20.1), "dose is 20.1 mg/l"),
        (lambda: strict_boil_min(12000.0), "altitude is 12000 m"),
        (lambda: growth_factor(-1.0), "time is -1 min"),
        (lambda: growth_factor(1441.0), "time is 1441 min"),
        (lambda: growth_factor(1.0, 4.9), "doubling time is 4.9 min"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
