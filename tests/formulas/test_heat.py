"""Heat and fuel: edges, errors, laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.heat import (
    FOOD_AS_WATER_SHARE,
    FOOD_ROOM_ML_PER_G,
    SPECIFIC_HEAT_KJ_KG_K,
    WIND_FACTOR,
    fry_fuel_kj,
    fuel_heat_kj,
    fuel_mass_g,
    heating_min,
    pot_heat_kj,
    simmer_fuel_kj,
    snow_to_boil_kj,
    snow_to_water_kj,
    water_heat_kj,
    whole_units,
)

volumes = st.floats(0.0, 20000.0)
temperatures = st.floats(0.0, 100.0)
shares = st.floats(0.01, 1.0)


@given(volumes, temperatures, temperatures, temperatures)
def test_heating_in_two_goes_takes_what_one_takes(
    volume: float, one: float, other: float, third: float
) -> None:
    cold, lukewarm, hot = sorted((one, other, third))
    in_two = water_heat_kj(volume, cold, lukewarm) + water_heat_kj(volume, lukewarm, hot)
    assert in_two == pytest.approx(water_heat_kj(volume, cold, hot), rel=1e-9, abs=1e-9)


@given(volumes, volumes, temperatures)
def test_two_pots_take_what_one_large_pot_takes(one: float, other: float, to_c: float) -> None:
    apart = water_heat_kj(one, 0.0, to_c) + water_heat_kj(other, 0.0, to_c)
    assert apart == pytest.approx(water_heat_kj(one + other, 0.0, to_c), rel=1e-9, abs=1e-9)


def test_a_litre_and_a_degree() -> None:
    assert water_heat_kj(1000.0, 10.0, 11.0) == pytest.approx(4.186, rel=1e-12)


@pytest.mark.parametrize(
    ("volume", "from_c", "to_c"),
    [(-1.0, 10.0, 90.0), (1.0, -1.0, 90.0), (1.0, 90.0, 10.0), (1.0, 10.0, 131.0)],
)
def test_water_that_cannot_be_is_refused(volume: float, from_c: float, to_c: float) -> None:
    with pytest.raises(ValueError, match="water"):
        water_heat_kj(volume, from_c, to_c)


@pytest.mark.parametrize("material", sorted(SPECIFIC_HEAT_KJ_KG_K))
def test_a_kilogram_of_metal_and_a_degree(material: str) -> None:
    assert pot_heat_kj(1000.0, material, 20.0, 21.0) == SPECIFIC_HEAT_KJ_KG_K[material]


def test_unknown_metal_and_a_pot_that_cools_are_refused() -> None:
    with pytest.raises(ValueError, match="material 'bronze' is not known; known are aluminium"):
        pot_heat_kj(100.0, "bronze", 10.0, 90.0)
    with pytest.raises(ValueError, match="pot temperature after heating is 9 °C"):
        pot_heat_kj(100.0, "steel", 10.0, 9.0)
    with pytest.raises(ValueError, match="mass of the pot is -1 g"):
        pot_heat_kj(-1.0, "steel", 10.0, 90.0)


def test_snow_by_hand() -> None:
    boil = 2.09 * 10.0 + 333.55 + 4.186 * 90.0
    assert snow_to_boil_kj(2000.0, -10.0, 90.0) == pytest.approx(2.0 * boil, rel=1e-12)
    melt = 2.09 * 10.0 + 333.55 + 4.186 * 5.0
    assert snow_to_water_kj(500.0, -10.0) == pytest.approx(0.5 * melt, rel=1e-12)


@given(volumes, st.floats(0.0, 30.0), st.floats(70.0, 100.0))
def test_snow_is_never_warmer_than_it_can_be(volume: float, low: float, boil: float) -> None:
    assert snow_to_boil_kj(volume, low, boil) == snow_to_boil_kj(volume, 0.0, boil)
    assert snow_to_water_kj(volume, low) == snow_to_water_kj(volume, 0.0)


@given(volumes, st.floats(-60.0, 10.0), st.floats(70.0, 100.0))
def test_melting_then_boiling_is_boiling_snow(volume: float, low: float, boil: float) -> None:
    in_two = snow_to_water_kj(volume, low) + water_heat_kj(volume, 5.0, boil)
    assert in_two == pytest.approx(snow_to_boil_kj(volume, low, boil), rel=1e-9, abs=1e-9)


@pytest.mark.parametrize(
    ("volume", "low", "boil"),
    [(-1.0, -5.0, 90.0), (1.0, -91.0, 90.0), (1.0, math.nan, 90.0), (1.0, -5.0, 59.0)],
)
def test_snow_that_cannot_be_is_refused(volume: float, low: float, boil: float) -> None:
    with pytest.raises(ValueError, match="it must be"):
        snow_to_boil_kj(volume, low, boil)


def test_dry_food_counts_as_some_water_and_takes_some_room() -> None:
    assert (FOOD_AS_WATER_SHARE, FOOD_ROOM_ML_PER_G) == (0.4, 0.7)


@pytest.mark.parametrize(("low", "fits"), [(-90.0, True), (-90.1, False)])
def test_snow_is_as_cold_as_the_coldest_air(low: float, fits: bool) -> None:
    if fits:
        assert snow_to_boil_kj(1000.0, low, 130.0) > 0.0
    else:
        with pytest.raises(ValueError, match="lowest air temperature is"):
            snow_to_boil_kj(1000.0, low, 130.0)


def test_simmering_burns_the_loss_or_the_lowest_flame() -> None:
    assert simmer_fuel_kj(100.0, 0.5, 150.0, 10.0) == pytest.approx(120.0)
    assert simmer_fuel_kj(100.0, 0.5, 500.0, 10.0) == pytest.approx(300.0)
    assert simmer_fuel_kj(100.0, 0.1, 0.0, 10.0) == pytest.approx(600.0)
    assert simmer_fuel_kj(100.0, 0.5, 500.0, 0.0) == 0.0


def test_frying_burns_half_the_power() -> None:
    assert fry_fuel_kj(2600.0, 5.0) == pytest.approx(390.0)


@pytest.mark.parametrize(
    ("loss", "share", "lowest", "minutes"),
    [
        (-1.0, 0.5, 0.0, 1.0),
        (1.0, 0.0, 0.0, 1.0),
        (1.0, 1.1, 0.0, 1.0),
        (1.0, 0.5, -1.0, 1.0),
        (1.0, 0.5, 0.0, -1.0),
    ],
)
def test_simmers_that_cannot_be_are_refused(
    loss: float, share: float, lowest: float, minutes: float
) -> None:
    with pytest.raises(ValueError, match="it must be"):
        simmer_fuel_kj(loss, share, lowest, minutes)


@given(st.floats(0.0, 1e5), shares, shares)
def test_the_fuel_gives_what_the_pot_takes_and_more(heat: float, share: float, wind: float) -> None:
    burnt = fuel_heat_kj(heat, share, wind)
    assert burnt >= heat
    assert burnt * share * wind == pytest.approx(heat, rel=1e-9, abs=1e-12)


@given(st.floats(0.0, 1e5), shares, shares, st.floats(100.0, 5000.0))
def test_power_times_time_is_the_heat_burnt(
    heat: float, share: float, wind: float, power: float
) -> None:
    seconds = heating_min(heat, share, wind, power) * 60.0
    burnt_kj = fuel_heat_kj(heat, share, wind)
    assert seconds * power / 1000.0 == pytest.approx(burnt_kj, rel=1e-9, abs=1e-9)


def test_wind_takes_its_share() -> None:
    assert WIND_FACTOR == {"sheltered": 1.0, "breezy": 0.8, "windy": 0.5}
    assert fuel_heat_kj(100.0, 0.5, WIND_FACTOR["windy"]) == 400.0


def test_fires_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="heat is -1 kJ"):
        fuel_heat_kj(-1.0, 0.5, 1.0)
    with pytest.raises(ValueError, match="wind factor is 0; it must be more than 0"):
        fuel_heat_kj(1.0, 0.5, 0.0)
    with pytest.raises(ValueError, match="power of the stove is 0 W"):
        heating_min(1.0, 0.5, 1.0, 0.0)
    with pytest.raises(ValueError, match="power of the stove is -1 W"):
        fry_fuel_kj(-1.0, 1.0)
    with pytest.raises(ValueError, match="frying time is -1 min"):
        fry_fuel_kj(1.0, -1.0)
    with pytest.raises(ValueError, match="heating value of the fuel is 0 MJ/kg"):
        fuel_mass_g(1.0, 0.0)
    with pytest.raises(ValueError, match="heat of the fuel is -1 kJ"):
        fuel_mass_g(-1.0, 45.0)


def test_a_kilogram_of_fuel_holds_its_heating_value() -> None:
    assert fuel_mass_g(45.8e3, 45.8) == pytest.approx(1000.0, rel=1e-12)


@pytest.mark.parametrize(
    ("amount", "per_unit", "units"),
    [
        (0.0, 1.0, 0),
        (1.0, 1.0, 1),
        (1.0 + 1e-10, 1.0, 1),
        (1.00001, 1.0, 2),
        (0.3, 0.1, 3),
        (1500.0, 1500.0, 1),
        (1501.0, 1500.0, 2),
        (1e-12, 1.0, 0),
        (7.0, 2.0, 4),
    ],
)
def test_whole_units(amount: float, per_unit: float, units: int) -> None:
    assert whole_units(amount, per_unit) == units


@given(st.integers(0, 5000), st.floats(0.001, 1000.0))
def test_equal_parts_are_counted_right(count: int, per_unit: float) -> None:
    assert whole_units(count * per_unit, per_unit) == count


@given(st.floats(0.0, 1e5), st.floats(0.1, 1e4))
def test_whole_units_are_enough_and_one_less_is_not(amount: float, per_unit: float) -> None:
    units = whole_units(amount, per_unit)
    assert units * per_unit >= amount - 2e-9 * per_unit
    assert units == 0 or (units - 1) * per_unit < amount


@pytest.mark.parametrize(("amount", "per_unit"), [(-1.0, 1.0), (1.0, 0.0), (math.nan, 1.0)])
def test_units_that_hold_nothing_are_refused(amount: float, per_unit: float) -> None:
    with pytest.raises(ValueError, match="it must be"):
        whole_units(amount, per_unit)
