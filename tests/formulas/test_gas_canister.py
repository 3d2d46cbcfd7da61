"""Gas left in canisters: edges, errors, laws."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.air import pressure_hpa
from builder.formulas.gas import gas_flows, mixture_pressure_kpa, vapour_pressure_kpa
from builder.formulas.gas_canister import (
    can_cooling_k,
    left_pressure_kpa,
    left_shares,
    lowest_air_c,
    usable_share,
    vaporisation_kj_kg,
)

MIX = {"propane": 0.3, "butane": 0.7}
THREE = {"propane": 0.2, "isobutane": 0.5, "butane": 0.3}
used = st.floats(0.0, 0.999)
temperatures = st.floats(-40.0, 40.0)


@given(used, temperatures)
def test_what_is_left_is_a_whole(part: float, temperature: float) -> None:
    left = left_shares(THREE, part, temperature)
    assert sum(left.values()) == pytest.approx(1.0, abs=1e-12)
    assert all(0.0 <= share <= 1.0 for share in left.values())


@given(used, temperatures)
def test_no_gas_grows(part: float, temperature: float) -> None:
    left = left_shares(THREE, part, temperature)
    for gas, share in left.items():
        assert share * (1.0 - part) <= THREE[gas] * (1.0 + 1e-9)


@given(st.floats(0.0, 0.9), st.floats(0.0, 0.9), temperatures)
def test_using_in_two_steps_leaves_the_same(one: float, other: float, temperature: float) -> None:
    both = one + (1.0 - one) * other
    at_once = left_shares(THREE, both, temperature)
    twice = left_shares(left_shares(THREE, one, temperature), other, temperature)
    assert {gas: pytest.approx(share, abs=1e-7) for gas, share in at_once.items()} == twice


@given(st.floats(0.01, 0.99), temperatures)
def test_two_gases_leave_by_the_ratio_of_their_pressures(part: float, temperature: float) -> None:
    """Rayleigh: n1 / n10 = (n2 / n20) ** (p1 / p2)."""
    left = left_shares(MIX, part, temperature)
    propane, butane = (left[gas] * (1.0 - part) / MIX[gas] for gas in ("propane", "butane"))
    alpha = vapour_pressure_kpa("propane", temperature) / vapour_pressure_kpa("butane", temperature)
    assert propane == pytest.approx(butane**alpha, rel=1e-6, abs=1e-12)


@given(used, used, temperatures)
def test_an_older_canister_never_has_more_pressure(
    one: float, other: float, temperature: float
) -> None:
    early, late = sorted((one, other))
    assert left_pressure_kpa(MIX, late, temperature) <= left_pressure_kpa(
        MIX, early, temperature
    ) * (1.0 + 1e-9)


def test_liquid_feed_and_one_gas_change_nothing() -> None:
    assert left_shares(MIX, 0.8, 0.0, liquid_feed=True) == {"butane": 0.7, "propane": 0.3}
    assert left_shares({"isobutane": 1.0}, 0.8, 0.0) == {"isobutane": 1.0}
    assert left_shares(MIX, 0.0, 0.0) == {"butane": 0.7, "propane": 0.3}
    assert left_shares({"isobutane": 1.0, "butane": 0.0}, 0.5, 0.0) == {"isobutane": 1.0}


def test_a_full_canister_has_the_pressure_of_its_mixture() -> None:
    assert left_pressure_kpa(MIX, 0.0, -5.0) == pytest.approx(mixture_pressure_kpa(MIX, -5.0))


def test_shares_a_percent_off_are_made_whole() -> None:
    left = left_shares({"propane": 0.3, "butane": 0.695}, 0.0, 0.0)
    assert sum(left.values()) == pytest.approx(1.0)


@given(st.floats(-25.0, 25.0), st.floats(500.0, 1013.0))
def test_the_usable_part_ends_where_the_pressure_does(temperature: float, outside: float) -> None:
    share = usable_share(MIX, temperature, outside)
    wanted = outside / 10.0 + 30.0
    if 0.0 < share < 0.99:
        assert left_pressure_kpa(MIX, share, temperature) == pytest.approx(wanted, rel=1e-6)
    elif share == 0.0:
        assert mixture_pressure_kpa(MIX, temperature) < wanted
    elif share == 1.0:
        assert vapour_pressure_kpa("butane", temperature) >= wanted


def test_usable_parts_at_their_ends() -> None:
    assert usable_share(MIX, 15.0, 1013.25) == 1.0
    assert usable_share(MIX, -30.0, 1013.25) == 0.0
    assert usable_share(MIX, -10.0, 1013.25, liquid_feed=True) == 1.0
    assert usable_share(MIX, -30.0, 1013.25, liquid_feed=True) == 0.0
    assert 0.2 < usable_share(MIX, -10.0, 1013.25) < 0.4
    assert usable_share({"propane": 1.0, "butane": 0.0}, -10.0, 1013.25) == 1.0


@given(st.floats(0.0, 5000.0), st.floats(0.0, 0.99))
def test_the_lowest_air_is_where_it_just_flows(height: float, part: float) -> None:
    lowest = lowest_air_c(MIX, height, part)
    wanted = pressure_hpa(height) / 10.0 + 30.0
    assert left_pressure_kpa(MIX, part, lowest - 5.0) == pytest.approx(wanted, rel=1e-6)


@pytest.mark.parametrize("height", [0.0, 1500.0, 4000.0])
def test_a_fresh_canister_flows_above_its_lowest_air_and_not_below(height: float) -> None:
    lowest = lowest_air_c(MIX, height)
    assert gas_flows(MIX, lowest + 0.01, pressure_hpa(height))
    assert not gas_flows(MIX, lowest - 0.01, pressure_hpa(height))


def test_height_helps_and_use_hurts() -> None:
    assert lowest_air_c(MIX, 3000.0) < lowest_air_c(MIX, 0.0) < lowest_air_c(MIX, 0.0, 0.5)
    assert lowest_air_c(MIX, 0.0, 0.5, liquid_feed=True) == pytest.approx(lowest_air_c(MIX, 0.0))


@given(temperatures, temperatures)
def test_warmer_liquid_takes_less_heat_to_boil(one: float, other: float) -> None:
    colder, warmer = sorted((one, other))
    assert vaporisation_kj_kg("butane", warmer) <= vaporisation_kj_kg("butane", colder)


def test_at_zero_it_is_the_value_of_the_table() -> None:
    assert vaporisation_kj_kg("propane", 0.0) == 374.9
    assert vaporisation_kj_kg("isobutane", 0.0) == 354.3
    assert vaporisation_kj_kg("butane", 0.0) == 385.3


def test_cooling_worked_by_hand() -> None:
    """Butane, 2290 W, 45.8 MJ/kg: 0.05 g/s. In 2 min 6 g take 2311.8 J of 200 * 2.31 + 120
    * 0.5 = 522 J/K."""
    found = can_cooling_k({"butane": 1.0}, 2290.0, 45.8, 2.0, 200.0, empty_g=120.0)
    assert found == pytest.approx(2311.8 / 522.0, rel=1e-9)


@given(st.floats(0.01, 5.0), st.floats(0.0, 20.0))
def test_air_that_gives_heat_slows_the_cooling(gain: float, minutes: float) -> None:
    alone = can_cooling_k(MIX, 2000.0, 45.8, minutes, 230.0, empty_g=150.0)
    warmed = can_cooling_k(MIX, 2000.0, 45.8, minutes, 230.0, empty_g=150.0, gain_w_k=gain)
    assert 0.0 <= warmed <= alone * (1.0 + 1e-12)


def test_a_little_heat_from_the_air_is_nearly_none() -> None:
    alone = can_cooling_k(MIX, 2000.0, 45.8, 5.0, 230.0, empty_g=150.0)
    assert can_cooling_k(
        MIX, 2000.0, 45.8, 5.0, 230.0, empty_g=150.0, gain_w_k=1e-6
    ) == pytest.approx(alone, rel=1e-5)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: left_shares(MIX, 1.0, 0.0), "share used is 1"),
        (lambda: left_shares(MIX, -0.1, 0.0), "share used is -0.1"),
        (lambda: left_shares({"propane": 0.5}, 0.1, 0.0), "sum of the gas shares is 0.5"),
        (lambda: left_shares({"ethane": 1.0}, 0.1, 0.0), "gas 'ethane' is not known"),
        (lambda: left_shares(MIX, 0.1, 51.0), "temperature of the gas is 51 °C"),
        (lambda: left_pressure_kpa(MIX, 0.1, -71.0), "temperature of the gas is -71 °C"),
        (lambda: usable_share(MIX, 0.0, 0.0), "air pressure is 0 hPa"),
        (lambda: lowest_air_c(MIX, 12000.0), "altitude is 12000 m"),
        (lambda: lowest_air_c(MIX, 0.0, 1.0), "share used is 1"),
        (lambda: vaporisation_kj_kg("methane", 0.0), "gas 'methane' is not known"),
        (lambda: vaporisation_kj_kg("butane", 51.0), "temperature of the gas is 51 °C"),
        (
            lambda: can_cooling_k({"propane": 0.5}, 1.0, 45.0, 1.0, 1.0, empty_g=1.0),
            "sum of the gas",
        ),
        (
            lambda: can_cooling_k(MIX, -1.0, 45.0, 1.0, 1.0, empty_g=1.0),
            "power of the burner is -1 W",
        ),
        (
            lambda: can_cooling_k(MIX, 1.0, 0.0, 1.0, 1.0, empty_g=1.0),
            "heating value of the gas is 0",
        ),
        (lambda: can_cooling_k(MIX, 1.0, 45.0, -1.0, 1.0, empty_g=1.0), "time it burns is -1 min"),
        (
            lambda: can_cooling_k(MIX, 1.0, 45.0, 1.0, 0.0, empty_g=1.0),
            "gas in the canister is 0 g",
        ),
        (lambda: can_cooling_k(MIX, 1.0, 45.0, 1.0, 1.0, empty_g=-1.0), "empty canister is -1 g"),
        (
            lambda: can_cooling_k(MIX, 1.0, 45.0, 1.0, 1.0, empty_g=1.0, gain_w_k=-1.0),
            "heat from the air is -1",
        ),
        (
            lambda: can_cooling_k(MIX, 2290.0, 45.8, 10.0, 29.0, empty_g=1.0),
            "takes 30 g in that time",
        ),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
