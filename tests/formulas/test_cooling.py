"""Cooling: edges, errors, laws."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.cooling import (
    LOSS_W_K,
    cooled_c,
    loss_range_w_k,
    minutes_above,
    siebel_kj_kg_k,
    time_constant_min,
)

constants = st.floats(5.0, 200.0)
airs = st.floats(-40.0, 40.0)
hots = st.floats(61.0, 100.0)


@given(hots, airs, st.floats(0.0, 300.0), constants)
def test_standing_food_comes_no_colder_than_the_air(
    start: float, air: float, minutes: float, constant: float
) -> None:
    # A sum of doubles may end a last digit past its bound.
    slack = 1e-12 * (start + abs(air))
    assert air - slack <= cooled_c(start, air, minutes, constant) <= start + slack


@given(hots, airs, constants, st.floats(0.0, 60.0), st.floats(0.0, 60.0))
def test_two_rests_are_one(
    start: float, air: float, constant: float, one: float, other: float
) -> None:
    between = cooled_c(start, air, one, constant)
    assert cooled_c(between, air, other, constant) == pytest.approx(
        cooled_c(start, air, one + other, constant), abs=1e-9
    )


@given(hots, airs, constants)
def test_after_the_time_above_it_is_at_the_temperature(
    start: float, air: float, constant: float
) -> None:
    minutes = minutes_above(start, air, constant)
    assert cooled_c(start, air, minutes, constant) == pytest.approx(60.0, abs=1e-9)


def test_cold_food_is_never_hot_and_hot_air_keeps_it_so() -> None:
    assert minutes_above(59.9, 15.0, 20.0) == 0.0
    assert minutes_above(60.0, 15.0, 20.0) == 0.0
    assert minutes_above(95.0, 50.0, 20.0, 50.0) == math.inf
    assert minutes_above(95.0, 49.9, 20.0, 50.0) < math.inf


def test_cold_food_in_warm_air_warms() -> None:
    assert cooled_c(5.0, 25.0, 1000.0, 20.0) == pytest.approx(25.0)


def test_time_constant() -> None:
    assert time_constant_min(600.0, 3.9, 0.5) == pytest.approx(78.0)


@pytest.mark.parametrize("vessel", sorted(LOSS_W_K))
def test_losses_are_in_order_and_wind_makes_them_larger(vessel: str) -> None:
    still = loss_range_w_k(vessel, 600.0, "sheltered")
    assert still == LOSS_W_K[vessel]
    assert still[0] < still[1] < still[2]
    breezy, windy = (loss_range_w_k(vessel, 600.0, wind)[1] for wind in ("breezy", "windy"))
    assert still[1] < breezy < windy


@pytest.mark.parametrize(
    ("vessel", "losses"),
    [
        ("pouch-bare", (1.2, 1.5, 2.0)),
        ("pouch-cosy", (0.4, 0.5, 0.65)),
        ("pot-open", (1.5, 2.2, 3.0)),
        ("pot-lid", (0.8, 1.0, 1.3)),
        ("pot-lid-cosy", (0.3, 0.4, 0.6)),
        ("mug-open", (1.2, 1.8, 2.5)),
    ],
)
def test_losses_of_600_g(vessel: str, losses: tuple[float, float, float]) -> None:
    """Estimates without a source: told here once more, so that none changes unseen."""
    assert loss_range_w_k(vessel, 600.0, "sheltered") == losses
    windy = 1.3 if vessel.endswith("cosy") else 2.0
    assert loss_range_w_k(vessel, 600.0, "windy") == pytest.approx(
        [each * windy for each in losses]
    )


def test_wind_doubles_what_stands_bare_and_hardly_what_is_wrapped() -> None:
    assert loss_range_w_k("pouch-bare", 600.0, "windy")[1] == 3.0
    assert loss_range_w_k("pouch-cosy", 600.0, "windy")[1] == pytest.approx(0.65)
    assert loss_range_w_k("pot-lid-cosy", 600.0, "breezy")[1] == pytest.approx(0.46)


def test_eight_times_the_mass_loses_four_times_the_heat() -> None:
    assert loss_range_w_k("pot-lid", 4800.0, "sheltered")[1] == pytest.approx(4.0)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: cooled_c(131.0, 15.0, 5.0, 20.0), "temperature at the start is 131 °C"),
        (lambda: cooled_c(95.0, 61.0, 5.0, 20.0), "air temperature is 61 °C"),
        (lambda: cooled_c(95.0, 15.0, -1.0, 20.0), "time it stands is -1 min"),
        (lambda: cooled_c(95.0, 15.0, 5.0, 0.0), "time constant is 0 min"),
        (lambda: time_constant_min(0.0, 3.9, 0.5), "mass is 0 g"),
        (lambda: time_constant_min(1.0, 0.0, 0.5), "specific heat is 0"),
        (lambda: time_constant_min(1.0, 3.9, 0.0), "heat loss is 0 W/K"),
        (lambda: minutes_above(95.0, 15.0, 0.0), "time constant is 0 min"),
        (lambda: minutes_above(95.0, -91.0, 20.0), "air temperature is -91 °C"),
        (lambda: minutes_above(95.0, 15.0, 20.0, 131.0), "temperature that counts is 131 °C"),
        (lambda: siebel_kj_kg_k(1.1), "water share is 1.1"),
        (lambda: loss_range_w_k("bowl", 600.0, "windy"), "vessel 'bowl' is not known"),
        (lambda: loss_range_w_k("pot-lid", 600.0, "storm"), "wind 'storm' is not known"),
        (lambda: loss_range_w_k("pot-lid", 0.0, "windy"), "mass is 0 g"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
