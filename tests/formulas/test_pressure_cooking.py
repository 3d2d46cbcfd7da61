"""Pressure and barometers in cooking: edges, errors, laws."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.boiling import time_factor
from builder.formulas.pressure_cooking import (
    ANIMAL_KINDS,
    Z_K,
    time_factor_of,
    time_factor_range,
)

heights = st.floats(0.0, 6000.0)
boilings = st.floats(75.0, 125.0)


@given(boilings, st.sampled_from(sorted(Z_K)))
def test_longer_where_it_boils_cooler(boiling: float, kind: str) -> None:
    factor = time_factor_of(kind, boiling)
    assert (factor > 1.0) == (boiling < 99.97) or factor == 1.0
    least, most = time_factor_range(boiling)
    assert least <= most
    if Z_K[kind] <= 40.0:
        assert least - 1e-12 <= factor <= most + 1e-12


@given(boilings)
def test_vegetables_go_by_the_usual_factor(boiling: float) -> None:
    assert time_factor_of("vegetable", boiling) == time_factor(boiling)
    assert time_factor_of("fruit", boiling) == time_factor(boiling)


@pytest.mark.parametrize("kind", ANIMAL_KINDS)
def test_animal_foods_have_no_factor(kind: str) -> None:
    with pytest.raises(ValueError, match=f"{kind} has no factor .* temperature in the middle"):
        time_factor_of(kind, 90.0)


def test_ten_z_are_a_factor_of_ten() -> None:
    assert time_factor_range(99.97 - 20.0) == pytest.approx((10.0**0.5, 10.0))
    assert time_factor_range(99.97 + 20.0) == pytest.approx((0.1, 10.0**-0.5))


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: time_factor_of("herb", 90.0), "kind of food 'herb' is not known"),
        (lambda: time_factor_of("legume", 59.0), "boiling point is 59 °C"),
        (lambda: time_factor_range(131.0), "boiling point is 131 °C"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
