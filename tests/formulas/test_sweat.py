"""Sweat: edges, errors, laws."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.sweat import (
    body_surface_m2,
    most_evaporation_w_m2,
    osec_g_m2_h,
    required_evaporation_w_m2,
    saturation_hpa,
    sweat_ml_h,
)

airs = st.floats(-30.0, 50.0)


@given(st.floats(20.0, 150.0), st.floats(100.0, 220.0))
def test_bodies_twice_as_heavy_have_less_than_twice_the_surface(mass: float, height: float) -> None:
    one, two = body_surface_m2(mass, height), body_surface_m2(2.0 * mass, height)
    assert one < two < 2.0 * one


@given(airs, airs)
def test_warm_air_holds_more_vapour(one: float, other: float) -> None:
    colder, warmer = sorted((one, other))
    assert saturation_hpa(colder) <= saturation_hpa(warmer)


def test_evaporation_required_worked_by_hand() -> None:
    """360 W on 1.8 m2 are 200 W/m2; at 26 degC 10 K through 1 clo give off 64.5."""
    assert required_evaporation_w_m2(360.0, 1.8, 26.0) == pytest.approx(135.5)
    assert required_evaporation_w_m2(360.0, 1.8, 26.0, 2.0) == pytest.approx(167.75)
    assert required_evaporation_w_m2(360.0, 1.8, 26.0, 1.0, 50.0) == pytest.approx(185.5)
    assert required_evaporation_w_m2(360.0, 1.8, 40.0) == pytest.approx(225.8)
    assert required_evaporation_w_m2(100.0, 1.8, 0.0) == 0.0


def test_evaporation_possible_worked_by_hand() -> None:
    """At 36 degC and half humidity the difference is half of 59.5 hPa, 22.3 mmHg."""
    half = saturation_hpa(36.0) / 2.0 / 1.33322
    assert most_evaporation_w_m2(36.0, 0.5) == pytest.approx(6.45 * 2.2 * 0.4 * half)
    assert most_evaporation_w_m2(36.0, 0.5, 0.8) == pytest.approx(6.45 * 2.2 * 0.8 * half)
    assert most_evaporation_w_m2(36.0, 1.0) == 0.0
    assert most_evaporation_w_m2(45.0, 1.0) == 0.0


def test_sweat_of_a_whole_body() -> None:
    assert sweat_ml_h(268.1, 1.9) == pytest.approx(509.4, abs=0.1)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: body_surface_m2(2.0, 170.0), "body mass is 2 kg"),
        (lambda: body_surface_m2(70.0, 251.0), "height is 251 cm"),
        (lambda: saturation_hpa(-41.0), "temperature is -41 °C"),
        (lambda: saturation_hpa(101.0), "temperature is 101 °C"),
        (lambda: required_evaporation_w_m2(-1.0, 1.8, 20.0), "power is -1 W"),
        (lambda: required_evaporation_w_m2(1.0, 0.0, 20.0), "surface of the body is 0"),
        (lambda: required_evaporation_w_m2(1.0, 1.8, 61.0), "air temperature is 61 °C"),
        (lambda: required_evaporation_w_m2(1.0, 1.8, 20.0, 0.0), "clothing is 0 clo"),
        (lambda: required_evaporation_w_m2(1.0, 1.8, 20.0, 1.0, -1.0), "heat from the sun is -1"),
        (lambda: most_evaporation_w_m2(61.0, 0.5), "air temperature is 61 °C"),
        (lambda: most_evaporation_w_m2(20.0, 1.1), "humidity is 1.1"),
        (lambda: most_evaporation_w_m2(20.0, 0.5, 0.0), "permeability of the clothes is 0"),
        (lambda: most_evaporation_w_m2(20.0, 0.5, 2.1), "permeability of the clothes is 2.1"),
        (lambda: osec_g_m2_h(49.0, 100.0), "evaporation required is 49"),
        (lambda: osec_g_m2_h(361.0, 100.0), "evaporation required is 361"),
        (lambda: sweat_ml_h(-1.0, 1.8), "sweat on each area is -1"),
        (lambda: sweat_ml_h(1.0, 0.0), "surface of the body is 0"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
