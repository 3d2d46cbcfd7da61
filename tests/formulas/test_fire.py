"""Wood and irons: edges, errors, laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.fire import (
    DRY_WOOD_MJ_KG,
    EMBER_MIN,
    MOST_WOOD_MOISTURE_SHARE,
    OPEN_FIRE_EFFICIENCY_SHARE,
    iron_minutes,
    iron_wood_g,
    open_fire_lowest_w,
    open_fire_w,
    wood_heating_value_mj_kg,
)
from builder.formulas.heat import heating_min


def test_dry_wood_has_all_its_heat() -> None:
    assert wood_heating_value_mj_kg(0.0) == DRY_WOOD_MJ_KG


@given(st.floats(0.0, MOST_WOOD_MOISTURE_SHARE), st.floats(0.0, MOST_WOOD_MOISTURE_SHARE))
def test_wetter_wood_gives_less_but_something(one: float, other: float) -> None:
    drier, wetter = sorted((one, other))
    assert 0.0 < wood_heating_value_mj_kg(wetter) <= wood_heating_value_mj_kg(drier)


@pytest.mark.parametrize("moisture", [-0.01, 0.61, 20.0, math.nan])
def test_wood_that_does_not_burn_is_refused(moisture: float) -> None:
    with pytest.raises(ValueError, match="water share of the wood is"):
        wood_heating_value_mj_kg(moisture)


def test_iron_minutes_by_hand() -> None:
    assert iron_minutes(3.0, 4.0) == 27.0
    assert iron_minutes(0.0, 4.0) == 0.0
    assert iron_minutes(2.0, 0.0) == 2.0


def test_iron_wood_by_hand() -> None:
    assert iron_wood_g(0.0) == 3000.0
    assert iron_wood_g(60.0) == pytest.approx(5000.0)
    assert iron_wood_g(27.0) == pytest.approx(3900.0)
    # Another dish of the meal has burnt the 3 kg for embers.
    assert iron_wood_g(27.0, 0.0) == pytest.approx(900.0)


def test_negative_presses_and_times_are_refused() -> None:
    with pytest.raises(ValueError, match="number of presses is -1"):
        iron_minutes(-1.0, 4.0)
    with pytest.raises(ValueError, match="time on each side is -4 min"):
        iron_minutes(1.0, -4.0)
    with pytest.raises(ValueError, match="pressing time is -1 min"):
        iron_wood_g(-1.0)
    with pytest.raises(ValueError, match="fires"):
        iron_wood_g(1.0, 2.0)


@pytest.mark.parametrize(
    ("volume_ml", "potfuls", "power_w", "minutes"),
    [
        (250.0, 1, 3500.0, 4.5),
        (1000.0, 1, 3500.0, 17.9),
        (1000.0, 2, 3500.0, 17.9),  # half a litre at a time: no smaller fire
        (2000.0, 1, 5556.0, 22.6),
        (4000.0, 2, 5556.0, 45.2),
        (5000.0, 1, 10234.0, 30.7),
    ],
)
def test_a_fire_reaches_round_a_fuller_pot(
    volume_ml: float, potfuls: int, power_w: float, minutes: float
) -> None:
    # By hand 3500 max(1, V)^(2/3); a litre from 10 degC takes 376.8 kJ.
    assert open_fire_w(volume_ml, potfuls) == pytest.approx(power_w, abs=0.5)
    heat_kj = 376.8 * volume_ml / 1000
    power = open_fire_w(volume_ml, potfuls)
    found = heating_min(heat_kj, OPEN_FIRE_EFFICIENCY_SHARE, 1.0, power)
    assert found == pytest.approx(minutes, abs=0.06)


def test_a_fire_is_let_down_to_a_third_and_embers_take_three_quarters_of_an_hour() -> None:
    assert open_fire_lowest_w(3500.0) == pytest.approx(1225.0)
    assert EMBER_MIN == 45.0
    with pytest.raises(ValueError, match="potfuls"):
        open_fire_w(1000.0, 0)
    with pytest.raises(ValueError, match="volume"):
        open_fire_w(-1.0, 1)
    with pytest.raises(ValueError, match="power"):
        open_fire_lowest_w(-1.0)
