"""Gas in the cold: edges, errors, laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.air import pressure_hpa
from builder.formulas.gas import (
    LEAST_TEMPERATURE_C,
    MOLAR_MASS_G_MOL,
    MOST_TEMPERATURE_C,
    gas_flows,
    mixture_pressure_kpa,
    vapour_pressure_kpa,
)

GASES = sorted(MOLAR_MASS_G_MOL)
temperatures = st.floats(LEAST_TEMPERATURE_C, MOST_TEMPERATURE_C)


@pytest.mark.parametrize("gas", GASES)
@given(temperatures, st.floats(0.001, 20.0))
def test_pressure_rises_with_warmth(gas: str, temperature: float, warmer_by: float) -> None:
    warmer = min(temperature + warmer_by, MOST_TEMPERATURE_C)
    if warmer > temperature + 1e-6:
        assert vapour_pressure_kpa(gas, warmer) > vapour_pressure_kpa(gas, temperature)


@given(temperatures)
def test_lighter_gases_press_harder(temperature: float) -> None:
    propane, isobutane, butane = (
        vapour_pressure_kpa(gas, temperature) for gas in ("propane", "isobutane", "butane")
    )
    assert propane > isobutane > butane > 0.0


@pytest.mark.parametrize("gas", GASES)
@given(temperatures)
def test_a_mixture_of_one_is_that_gas(gas: str, temperature: float) -> None:
    assert mixture_pressure_kpa({gas: 1.0}, temperature) == pytest.approx(
        vapour_pressure_kpa(gas, temperature), rel=1e-12
    )


@given(st.floats(0.0, 1.0), temperatures)
def test_a_mixture_lies_between_its_parts(propane: float, temperature: float) -> None:
    mixed = mixture_pressure_kpa({"propane": propane, "butane": 1.0 - propane}, temperature)
    low, high = (vapour_pressure_kpa(gas, temperature) for gas in ("butane", "propane"))
    assert low * (1 - 1e-12) <= mixed <= high * (1 + 1e-12)


def test_equal_masses_are_not_equal_moles() -> None:
    """Propane is lighter, so half of the mass is 0.569 of the moles."""
    mixed = mixture_pressure_kpa({"propane": 0.5, "butane": 0.5}, 0.0)
    low, high = (vapour_pressure_kpa(gas, 0.0) for gas in ("butane", "propane"))
    assert (mixed - low) / (high - low) == pytest.approx(58.122 / (58.122 + 44.096), rel=1e-9)


def test_the_order_of_the_gases_does_not_matter() -> None:
    one = mixture_pressure_kpa({"propane": 0.3, "butane": 0.5, "isobutane": 0.2}, -10.0)
    other = mixture_pressure_kpa({"isobutane": 0.2, "butane": 0.5, "propane": 0.3}, -10.0)
    assert one == other


@pytest.mark.parametrize(
    ("shares", "says"),
    [
        ({}, "sum of the gas shares is 0; it must"),
        ({"propane": 0.6, "butane": 0.6}, "sum of the gas shares is 1.2; it must"),
        ({"propane": 0.3, "butane": 0.3}, "sum of the gas shares is 0.6"),
        ({"propane": 30.0, "butane": 70.0}, "share of butane is 70; it must be 0 to 1$"),
        ({"propane": -0.1, "butane": 1.1}, "share of butane is 1.1"),
        ({"ethane": 1.0}, "gas 'ethane' is not known; known are propane, isobutane, butane"),
    ],
)
def test_mixtures_that_cannot_be_are_refused(shares: dict[str, float], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        mixture_pressure_kpa(shares, 0.0)


def test_a_gas_that_no_canister_holds_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^gas 'ethane' is not known; known are propane"):
        vapour_pressure_kpa("ethane", 0.0)


def test_a_flowing_gas_has_30_kpa_to_spare_when_5_degrees_colder_than_the_air() -> None:
    mix = {"propane": 0.3, "butane": 0.7}
    inside_kpa = mixture_pressure_kpa(mix, -5.0)
    assert gas_flows(mix, 0.0, (inside_kpa - 30.0) * 10.0 - 0.01)
    assert not gas_flows(mix, 0.0, (inside_kpa - 30.0) * 10.0 + 0.01)


def test_shares_may_be_a_percent_off() -> None:
    assert mixture_pressure_kpa({"propane": 0.3, "butane": 0.691}, 0.0) > 0.0
    with pytest.raises(ValueError, match="sum of the gas shares"):
        mixture_pressure_kpa({"propane": 0.3, "butane": 0.6899}, 0.0)


@pytest.mark.parametrize("temperature", [-70.1, 50.1, math.nan])
def test_temperatures_outside_the_range_are_refused(temperature: float) -> None:
    assert vapour_pressure_kpa("propane", -70.0) < vapour_pressure_kpa("propane", 50.0)
    with pytest.raises(ValueError, match="temperature of the gas is"):
        vapour_pressure_kpa("propane", temperature)


@pytest.mark.parametrize(
    ("shares", "air_low_c", "altitude_m", "flows"),
    [
        ({"propane": 0.3, "butane": 0.7}, 5.0, 0.0, True),
        ({"propane": 0.3, "butane": 0.7}, -25.0, 0.0, False),
        ({"butane": 1.0}, 0.0, 0.0, False),
        ({"butane": 1.0}, 15.0, 0.0, True),
        ({"propane": 1.0}, -25.0, 0.0, True),
        ({"isobutane": 1.0}, -5.0, 0.0, False),
        ({"isobutane": 1.0}, -5.0, 4000.0, True),
    ],
)
def test_where_gas_flows(
    shares: dict[str, float], air_low_c: float, altitude_m: float, flows: bool
) -> None:
    assert gas_flows(shares, air_low_c, pressure_hpa(altitude_m)) is flows


@given(st.floats(-40.0, 40.0), st.floats(0.0, 10.0), st.floats(300.0, 1050.0))
def test_what_flows_in_the_cold_flows_in_the_warm(
    air_low_c: float, warmer_k: float, outside_hpa: float
) -> None:
    mix = {"propane": 0.3, "butane": 0.7}
    if gas_flows(mix, air_low_c, outside_hpa):
        assert gas_flows(mix, air_low_c + warmer_k, outside_hpa)


def test_gas_needs_air_outside() -> None:
    with pytest.raises(ValueError, match="air pressure is 0 hPa"):
        gas_flows({"propane": 1.0}, 0.0, 0.0)
