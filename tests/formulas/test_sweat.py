"""Sweat: edges, errors, laws."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.sweat import (
    WORK,
    army_drinking_ml_h,
    army_work_min,
    body_surface_m2,
    drinkable_ml_h,
    most_evaporation_w_m2,
    osec_g_m2_h,
    piecewise_g_m2_h,
    required_evaporation_w_m2,
    saturation_hpa,
    sweat_ml_h,
    wet_bulb_globe_c,
)

requireds = st.floats(50.0, 360.0)
greatests = st.floats(20.0, 525.0)
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


@given(requireds, requireds, greatests)
def test_harder_work_never_sweats_less(one: float, other: float, greatest: float) -> None:
    easy, hard = sorted((one, other))
    assert osec_g_m2_h(easy, greatest) <= osec_g_m2_h(hard, greatest)
    assert piecewise_g_m2_h(easy, greatest, 25.0) <= piecewise_g_m2_h(hard, greatest, 25.0)


@given(requireds, greatests, greatests)
def test_drier_air_never_sweats_more(required: float, one: float, other: float) -> None:
    damp, dry = sorted((one, other))
    assert osec_g_m2_h(required, dry) <= osec_g_m2_h(required, damp)
    assert piecewise_g_m2_h(required, dry, 25.0) >= 0.0
    assert piecewise_g_m2_h(required, dry, 25.0) <= piecewise_g_m2_h(required, damp, 25.0)


def test_cool_air_has_its_own_constant() -> None:
    warm, cool = (piecewise_g_m2_h(200.0, 200.0, air) for air in (20.0, 19.9))
    assert cool - warm == pytest.approx(203.0)
    assert piecewise_g_m2_h(50.0, 525.0, 25.0) == 0.0


def test_sweat_of_a_whole_body() -> None:
    assert sweat_ml_h(268.1, 1.9) == pytest.approx(509.4, abs=0.1)


@given(st.floats(0.0, 50.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_damp_heat_is_worse(air: float, one: float, other: float) -> None:
    dry, damp = sorted((one, other))
    assert wet_bulb_globe_c(air, dry) <= wet_bulb_globe_c(air, damp)


def test_wet_bulb_globe_worked_by_hand() -> None:
    """Dry air at 30 degC: 0.567 * 30 + 3.94. Each hPa of vapour adds 0.393."""
    assert wet_bulb_globe_c(30.0, 0.0) == pytest.approx(20.95)
    added = wet_bulb_globe_c(30.0, 0.5) - wet_bulb_globe_c(30.0, 0.0)
    assert added == pytest.approx(0.393 * 0.5 * saturation_hpa(30.0))


@given(st.floats(25.6, 45.0), st.floats(25.6, 45.0), st.sampled_from(WORK))
def test_hotter_days_drink_more_and_work_less(one: float, other: float, work: str) -> None:
    warm, hot = sorted((one, other))
    assert army_drinking_ml_h(warm, work) <= army_drinking_ml_h(hot, work)
    assert army_work_min(warm, work) >= army_work_min(hot, work)


def test_what_may_be_drunk_ends_at_the_limits() -> None:
    assert drinkable_ml_h(700.0) == 700.0
    assert drinkable_ml_h(1500.0) == 1000.0
    assert drinkable_ml_h(1300.0, cautious=False) == 1300.0
    assert drinkable_ml_h(1500.0, cautious=False) == 1420.0


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
        (lambda: piecewise_g_m2_h(100.0, 19.0, 25.0), "greatest evaporation is 19"),
        (lambda: piecewise_g_m2_h(100.0, 526.0, 25.0), "greatest evaporation is 526"),
        (lambda: sweat_ml_h(-1.0, 1.8), "sweat on each area is -1"),
        (lambda: sweat_ml_h(1.0, 0.0), "surface of the body is 0"),
        (lambda: wet_bulb_globe_c(-1.0, 0.5), "air temperature is -1 °C"),
        (lambda: wet_bulb_globe_c(20.0, -0.1), "humidity is -0.1"),
        (lambda: army_drinking_ml_h(25.5, "easy"), "wet bulb globe temperature is 25.5 °C"),
        (lambda: army_drinking_ml_h(45.1, "easy"), "wet bulb globe temperature is 45.1 °C"),
        (lambda: army_work_min(30.0, "light"), "work 'light' is not known"),
        (lambda: drinkable_ml_h(-1.0), "sweat is -1 ml/h"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
