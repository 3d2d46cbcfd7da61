"""Baking among embers: by hand, edges, errors, laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.baking import COOLEST_BAKING_C, HOTTEST_BAKING_C, embers_to_bake

DIAMETERS_CM = st.floats(8.0, 45.0)
BAKING_C = st.floats(COOLEST_BAKING_C, HOTTEST_BAKING_C)


def test_embers_by_hand() -> None:
    assert embers_to_bake(30.0, 175.0) == pytest.approx(24.0)
    assert embers_to_bake(25.0, 175.0) == pytest.approx(20.0)
    # A pair more for 14 K, a pair less for 14 K less.
    assert embers_to_bake(30.0, 189.0) == pytest.approx(26.0)
    assert embers_to_bake(30.0, 161.0) == pytest.approx(22.0)
    # A small pot keeps warm on none.
    assert embers_to_bake(8.0, 100.0) == 0.0


@given(DIAMETERS_CM, DIAMETERS_CM, BAKING_C, BAKING_C)
def test_wider_and_hotter_take_no_fewer(one: float, two: float, cool: float, hot: float) -> None:
    narrow, wide = sorted((one, two))
    cool, hot = sorted((cool, hot))
    assert 0.0 <= embers_to_bake(narrow, cool) <= embers_to_bake(wide, hot)


@pytest.mark.parametrize("diameter_cm", [0.0, -20.0, math.nan])
def test_a_pot_of_no_width_is_refused(diameter_cm: float) -> None:
    with pytest.raises(ValueError, match="diameter of the pot"):
        embers_to_bake(diameter_cm, 180.0)


@pytest.mark.parametrize("baking_c", [99.0, 261.0, math.nan])
def test_no_pot_bakes_so_cool_or_so_hot(baking_c: float) -> None:
    with pytest.raises(ValueError, match="baking temperature"):
        embers_to_bake(20.0, baking_c)
