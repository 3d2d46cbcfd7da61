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
    OPEN_FIRE_LOWEST_W,
    OPEN_FIRE_POWER_W,
    iron_minutes,
    iron_wood_g,
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


def test_negative_presses_and_times_are_refused() -> None:
    with pytest.raises(ValueError, match="number of presses is -1"):
        iron_minutes(-1.0, 4.0)
    with pytest.raises(ValueError, match="time on each side is -4 min"):
        iron_minutes(1.0, -4.0)
    with pytest.raises(ValueError, match="pressing time is -1 min"):
        iron_wood_g(-1.0)


def test_an_open_fire_boils_a_litre_in_about_twenty_minutes() -> None:
    assert (OPEN_FIRE_EFFICIENCY_SHARE, OPEN_FIRE_POWER_W) == (0.10, 3000.0)
    minutes = heating_min(376.8, OPEN_FIRE_EFFICIENCY_SHARE, 1.0, OPEN_FIRE_POWER_W)
    assert 15.0 < minutes < 25.0
    assert OPEN_FIRE_LOWEST_W == 0.0
    assert EMBER_MIN == 45.0
