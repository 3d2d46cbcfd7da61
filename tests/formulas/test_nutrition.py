"""Food energy and salt: edges, errors, laws."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.nutrition import (
    energy_kcal,
    label_energy_kcal,
    label_energy_kj,
    salt_g,
)

BY_PARTS = [energy_kcal, label_energy_kj, label_energy_kcal]
grams = st.floats(0.0, 100.0)


@pytest.mark.parametrize("formula", BY_PARTS)
def test_water_has_no_energy(formula: Callable[..., float]) -> None:
    assert formula(0.0, 0.0, 0.0, 0.0) == 0.0


@pytest.mark.parametrize(
    ("parts", "kcal", "kj"),
    [
        ((1.0, 0.0, 0.0, 0.0, 0.0), 4.0, 17.0),
        ((0.0, 1.0, 0.0, 0.0, 0.0), 9.0, 37.0),
        ((0.0, 0.0, 1.0, 0.0, 0.0), 4.0, 17.0),
        ((0.0, 0.0, 1.0, 1.0, 0.0), 2.0, 8.0),
        ((0.0, 0.0, 0.0, 0.0, 1.0), 7.0, 29.0),
    ],
)
def test_a_gram_of_each(parts: tuple[float, ...], kcal: float, kj: float) -> None:
    assert energy_kcal(*parts) == kcal
    assert label_energy_kcal(*parts) == kcal
    assert label_energy_kj(*parts) == kj


@pytest.mark.parametrize("formula", BY_PARTS)
@given(grams, grams, grams, st.floats(0.0, 1.0), grams, st.floats(0.1, 10.0))
def test_energy_goes_with_the_amount(
    formula: Callable[..., float],
    protein: float,
    fat: float,
    carbohydrate: float,
    fibre_part: float,
    alcohol: float,
    times: float,
) -> None:
    parts = (protein, fat, carbohydrate, carbohydrate * fibre_part, alcohol)
    scaled = (part * times for part in parts[:3])
    more = formula(*scaled, carbohydrate * times * fibre_part, alcohol * times)
    assert more == pytest.approx(times * formula(*parts), rel=1e-9, abs=1e-12)


@pytest.mark.parametrize("formula", BY_PARTS)
@given(grams, st.floats(0.0, 1.0))
def test_fibre_takes_energy_away(
    formula: Callable[..., float], carbohydrate: float, fibre_part: float
) -> None:
    assert formula(0.0, 0.0, carbohydrate, carbohydrate * fibre_part) <= formula(
        0.0, 0.0, carbohydrate, 0.0
    )


@pytest.mark.parametrize("formula", BY_PARTS)
def test_more_fibre_than_carbohydrate_is_refused(formula: Callable[..., float]) -> None:
    with pytest.raises(ValueError, match="fibre is 5 g; it is part of the total carbohydrate"):
        formula(0.0, 0.0, 4.0, 5.0)


@pytest.mark.parametrize("formula", BY_PARTS)
@pytest.mark.parametrize("at", range(5))
@pytest.mark.parametrize("bad", [-0.1, math.nan, math.inf])
def test_negative_parts_are_refused(formula: Callable[..., float], at: int, bad: float) -> None:
    parts = [1.0, 1.0, 1.0, 1.0, 1.0]
    parts[at] = bad
    with pytest.raises(ValueError, match="g; it must be 0 g or more"):
        formula(*parts)


def test_salt_is_two_and_a_half_times_sodium() -> None:
    assert salt_g(0.0) == 0.0
    assert salt_g(1000.0) == 2.5
    with pytest.raises(ValueError, match="sodium is -1 mg"):
        salt_g(-1.0)
