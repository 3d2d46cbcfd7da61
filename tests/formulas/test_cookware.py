"""Pots, snow, fuels and stove tests: edges, errors, laws."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import boiling_point_c
from builder.formulas.cookware import (
    SNOW_KG_M3,
    efficiency_from_test,
    open_pot_range_g,
    snow_l,
    snow_potfuls,
)
from builder.formulas.heat import water_heat_kj


def test_a_pot_without_its_lid_takes_more() -> None:
    assert open_pot_range_g(90.0) == pytest.approx((100.0, 112.5))
    assert open_pot_range_g(0.0) == (0.0, 0.0)


@given(st.floats(0.0, 10000.0), st.floats(30.0, 917.0))
def test_snow_weighs_what_its_water_does(water: float, density: float) -> None:
    assert snow_l(water, density) * density == pytest.approx(water)


def test_snow_of_half_the_density_takes_twice_the_pots() -> None:
    assert snow_potfuls(1000.0, 200.0, 1000.0) == 5
    assert snow_potfuls(1000.0, 100.0, 1000.0) == 10
    assert snow_potfuls(1001.0, 100.0, 1000.0) == 11
    assert snow_potfuls(0.0, 100.0, 1000.0) == 0


@pytest.mark.parametrize("kind", sorted(SNOW_KG_M3))
def test_kinds_of_snow_lie_within_what_is_allowed(kind: str) -> None:
    least, most = SNOW_KG_M3[kind]
    assert least < most
    assert snow_l(1000.0, least) > snow_l(1000.0, most) > 1.0


def test_a_stove_test_worked_by_hand() -> None:
    """1 l from 9.97 to 99.97 degC: 376.74 kJ; 14 g of 45.8 MJ/kg: 641.2 kJ."""
    found = efficiency_from_test(1000.0, 9.974, 14.0, 45.8, 0.0)
    assert found == pytest.approx(376.74 / 641.2, rel=1e-4)


@pytest.mark.parametrize(("share", "passes"), [(0.0199, 0), (0.0201, 1), (0.899, 1), (0.901, 0)])
def test_what_no_stove_does_is_a_slip_of_the_scale(share: float, passes: int) -> None:
    heat = water_heat_kj(1000.0, 10.0, boiling_point_c(pressure_hpa(0.0)))
    fuel = heat / (45.0 * share)
    if passes:
        assert efficiency_from_test(1000.0, 10.0, fuel, 45.0, 0.0) == pytest.approx(share)
    else:
        with pytest.raises(ValueError, match="so weigh again"):
            efficiency_from_test(1000.0, 10.0, fuel, 45.0, 0.0)


def test_a_small_test_counts_like_a_large_one() -> None:
    """A tenth of the water with a tenth of the fuel, and a fuel with a tenth of the heat."""
    share = efficiency_from_test(100.0, 9.0, 2.0, 45.8, 0.0)
    assert efficiency_from_test(10.0, 9.0, 0.2, 45.8, 0.0) == pytest.approx(share, rel=1e-12)
    assert efficiency_from_test(1.0, 9.0, 1.0, 0.916, 0.0) == pytest.approx(share, rel=1e-12)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: open_pot_range_g(-1.0), "fuel with the lid on is -1 g"),
        (lambda: snow_l(-1.0, 100.0), "water wanted is -1 ml"),
        (lambda: snow_l(1.0, 29.0), "density of the snow is 29 kg/m³"),
        (lambda: snow_l(1.0, 918.0), "density of the snow is 918 kg/m³"),
        (lambda: snow_potfuls(1.0, 100.0, 0.0), "what one unit holds is 0"),
        (lambda: efficiency_from_test(0.0, 9.0, 14.0, 45.8, 0.0), "water boiled is 0 ml"),
        (lambda: efficiency_from_test(1.0, 61.0, 14.0, 45.8, 0.0), "water before is 61 °C"),
        (lambda: efficiency_from_test(1.0, 9.0, 0.0, 45.8, 0.0), "fuel burnt is 0 g"),
        (lambda: efficiency_from_test(1.0, 9.0, 14.0, 0.0, 0.0), "heating value of the fuel is 0"),
        (lambda: efficiency_from_test(1.0, 9.0, 14.0, 45.8, 12000.0), "altitude is 12000 m"),
        (lambda: efficiency_from_test(1000.0, 9.0, 5.0, 45.8, 0.0), "so weigh again"),
        (lambda: efficiency_from_test(10.0, 9.0, 14.0, 45.8, 0.0), "0.02 to 0.9, so weigh again$"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
