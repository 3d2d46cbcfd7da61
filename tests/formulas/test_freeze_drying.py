"""Freeze-drying: edges, errors, laws."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.freeze_drying import (
    freezing_heat_kj,
    hours_range,
    ice_pressure_pa,
    ice_temperature_c,
    layer_mm,
    load_of_limit,
    sublimation_floor_kj,
    sublimation_kj_kg,
)

ices = st.floats(-100.0, 0.0)


@given(ices)
def test_the_inverse_gives_the_temperature_back(temperature: float) -> None:
    back = ice_temperature_c(ice_pressure_pa(temperature))
    assert back == pytest.approx(temperature, abs=1e-8)
    assert back <= 0.0


@given(ices, ices)
def test_warmer_ice_has_more_pressure(one: float, other: float) -> None:
    colder, warmer = sorted((one, other))
    assert ice_pressure_pa(colder) <= ice_pressure_pa(warmer)


@given(st.floats(-90.0, -1.0))
def test_pressure_and_heat_are_bound_by_clausius_and_clapeyron(temperature: float) -> None:
    """d ln p / dT = L / (R T ** 2): two equations of one paper, to 0.3 percent."""
    kelvin = temperature + 273.15
    slope = (ice_pressure_pa(temperature + 0.5) / ice_pressure_pa(temperature - 0.5) - 1.0) / 1.0
    mean = slope / (1.0 + slope / 2.0)
    assert sublimation_kj_kg(temperature) == pytest.approx(
        mean * 8.314462618 * kelvin**2 / 18.01528, rel=0.003
    )


def test_a_colder_load_takes_more_heat() -> None:
    same = sublimation_floor_kj(1000.0, -20.0, -20.0)
    assert same == pytest.approx(sublimation_kj_kg(-20.0))
    assert sublimation_floor_kj(1000.0, -40.0, -20.0) == pytest.approx(same + 2.09 * 20.0)
    assert sublimation_floor_kj(1000.0, -18.0, -20.0) == pytest.approx(same - 2.09 * 2.0)
    assert sublimation_floor_kj(0.0, -40.0, -20.0) == 0.0


def test_freezing_worked_by_hand() -> None:
    """1 kg with 80 percent of water from 20 to -30 degC.

    (3.35 * 0.8 + 0.84) 20 = 70.4; 333.55 * 0.8 = 266.84; (1.26 * 0.8 + 0.84) 30 = 55.44.
    """
    assert freezing_heat_kj(1000.0, 0.8, 20.0, -30.0) == pytest.approx(70.4 + 266.84 + 55.44)
    assert freezing_heat_kj(500.0, 0.8, 0.0, -30.0) == pytest.approx(55.44 / 2.0)
    assert freezing_heat_kj(1000.0, 0.8, -30.0, -30.0) == 0.0
    # Just above freezing the water is still to be frozen.
    assert freezing_heat_kj(1000.0, 0.8, 0.01, -30.0) == pytest.approx(266.84 + 55.44, abs=0.1)


def test_a_load_frozen_beforehand_saves_most_of_the_cooling() -> None:
    assert freezing_heat_kj(1000.0, 0.8, -18.0, -30.0) < 0.1 * freezing_heat_kj(
        1000.0, 0.8, 20.0, -30.0
    )


@pytest.mark.parametrize(
    ("load", "ice", "most_load", "most_ice", "share"),
    [
        (3000.0, 2400.0, 4000.0, 3000.0, 0.8),
        (3000.0, 1500.0, 4000.0, 3000.0, 0.75),
        (4500.0, 4000.0, 4000.0, 4500.0, 1.125),
        (0.0, 0.0, 4000.0, 3000.0, 0.0),
    ],
)
def test_the_nearer_limit_counts(
    load: float, ice: float, most_load: float, most_ice: float, share: float
) -> None:
    assert load_of_limit(load, ice, most_load, most_ice) == share


def test_a_kilogram_of_water_on_a_square_metre_is_a_millimetre() -> None:
    assert layer_mm(1000.0, 1.0, 10000.0) == pytest.approx(1.0)
    assert layer_mm(1000.0, 0.5, 10000.0) == pytest.approx(2.0)


def test_hours_grow_with_the_square_of_the_thickness() -> None:
    assert hours_range(12.5) == (14.0, 18.0)
    assert hours_range(25.0) == (56.0, 72.0)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: ice_pressure_pa(0.1), "temperature of the ice is 0.1 °C"),
        (lambda: ice_pressure_pa(-100.1), "temperature of the ice is -100.1 °C"),
        (lambda: ice_temperature_c(611.2), "pressure of the vapour is 611.2 Pa"),
        (lambda: ice_temperature_c(0.001), "pressure of the vapour is 0.001 Pa"),
        (lambda: sublimation_kj_kg(1.0), "temperature of the ice is 1 °C"),
        (lambda: sublimation_floor_kj(-1.0, -20.0, -20.0), "mass of ice is -1 g"),
        (lambda: sublimation_floor_kj(1.0, 1.0, -20.0), "temperature of the load is 1 °C"),
        (lambda: sublimation_floor_kj(1.0, -20.0, 1.0), "temperature of the ice is 1 °C"),
        (lambda: freezing_heat_kj(-1.0, 0.8, 20.0, -30.0), "mass of the load is -1 g"),
        (lambda: freezing_heat_kj(1.0, 0.99, 20.0, -30.0), "water share is 0.99"),
        (lambda: freezing_heat_kj(1.0, 0.8, 20.0, -4.0), "frozen load is -4 °C"),
        (lambda: freezing_heat_kj(1.0, 0.8, -40.0, -30.0), "load is -40 °C; it must be -30"),
        (lambda: freezing_heat_kj(1.0, 0.8, 101.0, -30.0), "load is 101 °C"),
        (lambda: load_of_limit(-1.0, 0.0, 1.0, 1.0), "mass of the load is -1 g"),
        (lambda: load_of_limit(1.0, 2.0, 1.0, 1.0), "water it gives off is 2 g"),
        (lambda: load_of_limit(1.0, 1.0, 0.0, 1.0), "largest load is 0 g"),
        (lambda: load_of_limit(1.0, 1.0, 1.0, 0.0), "most ice is 0 g"),
        (lambda: layer_mm(-1.0, 1.0, 1.0), "mass of the load is -1 g"),
        (lambda: layer_mm(1.0, 0.0, 1.0), "density is 0"),
        (lambda: layer_mm(1.0, 1.0, 0.0), "area of the trays is 0"),
        (lambda: hours_range(2.9), "thickness of the layer is 2.9 mm"),
        (lambda: hours_range(40.1), "thickness of the layer is 40.1 mm"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
