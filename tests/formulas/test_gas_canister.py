"""Gas left in canisters: edges, errors, laws."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.gas import mixture_pressure_kpa, vapour_pressure_kpa
from builder.formulas.gas_canister import (
    left_pressure_kpa,
    left_shares,
    usable_share,
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
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
