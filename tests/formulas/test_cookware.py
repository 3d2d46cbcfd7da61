"""Pots, snow, fuels and stove tests: edges, errors, laws."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import boiling_point_c
from builder.formulas.cookware import (
    EFFICIENCY_SHARE,
    PURE_MJ_KG,
    SNOW_KG_M3,
    efficiency_from_test,
    efficiency_range,
    ethanol_mass_share,
    fuel_range_g,
    open_pot_range_g,
    snow_l,
    snow_potfuls,
    wet_fuel_mj_kg,
    wind_fuel_range,
)
from builder.formulas.heat import fuel_heat_kj, fuel_mass_g, pot_heat_kj, water_heat_kj


def test_a_pot_without_its_lid_takes_more() -> None:
    assert open_pot_range_g(90.0) == pytest.approx((100.0, 112.5))
    assert open_pot_range_g(0.0) == (0.0, 0.0)


@pytest.mark.parametrize("stove", sorted(EFFICIENCY_SHARE))
def test_efficiencies_are_in_order_and_no_stove_is_perfect(stove: str) -> None:
    least, likely, most = efficiency_range(stove)
    assert 0.0 < least < likely < most < 1.0


@pytest.mark.parametrize(
    ("stove", "likely"),
    [
        ("gas", 0.55),
        ("gas-heat-exchanger", 0.70),
        ("liquid-pressure", 0.55),
        ("alcohol-screened", 0.50),
        ("alcohol-open", 0.35),
        ("tablet", 0.40),
        ("open-fire", 0.10),
        ("chimney-stove", 0.30),
        ("charcoal", 0.28),
    ],
)
def test_likely_efficiencies_do_not_change_unseen(stove: str, likely: float) -> None:
    assert efficiency_range(stove)[1] == likely


@given(st.floats(0.0, 5000.0), st.floats(10.0, 50.0), st.sampled_from(sorted(EFFICIENCY_SHARE)))
def test_the_likely_fuel_is_that_of_the_rule_and_lies_in_its_range(
    heat: float, energy: float, stove: str
) -> None:
    efficiencies = efficiency_range(stove)
    least, likely, most = fuel_range_g(heat, energy, efficiencies)
    assert least <= likely <= most
    assert likely == pytest.approx(
        fuel_mass_g(fuel_heat_kj(heat, efficiencies[1], 1.0), energy), rel=1e-12
    )


@given(st.floats(0.0, 12.0), st.floats(0.0, 12.0))
def test_more_wind_never_saves_fuel(one: float, other: float) -> None:
    calm, windy = sorted((one, other))
    assert wind_fuel_range(calm)[0] <= wind_fuel_range(windy)[0]
    assert wind_fuel_range(calm)[1] <= wind_fuel_range(windy)[1]


@pytest.mark.parametrize(
    ("wind", "screened", "unscreened"),
    [
        (0.0, 1.0, 1.0),
        (0.5, 1.05, 1.05),
        (2.5, 1.1, 1.25),
        (3.5, 1.1, 1.625),
        (4.5, 1.1, 2.0),
        (6.0, 1.1, 3.0),
        (12.0, 1.1, 3.0),
    ],
)
def test_wind(wind: float, screened: float, unscreened: float) -> None:
    assert wind_fuel_range(wind) == pytest.approx((screened, unscreened))


@given(st.floats(0.0, 10000.0), st.floats(30.0, 917.0))
def test_snow_weighs_what_its_water_does(water: float, density: float) -> None:
    assert snow_l(water, density) * density == pytest.approx(water)


def test_snow_of_half_the_density_takes_twice_the_pots() -> None:
    assert snow_potfuls(1000.0, 200.0, 1000.0) == 5
    assert snow_potfuls(1000.0, 100.0, 1000.0) == 10
    assert snow_potfuls(1001.0, 100.0, 1000.0) == 11
    assert snow_potfuls(0.0, 100.0, 1000.0) == 0


@pytest.mark.parametrize("kind", sorted(SNOW_KG_M3))
def test_kinds_of_snow_lie_within_what_is_allowed(kind: str) -> None:
    least, most = SNOW_KG_M3[kind]
    assert least < most
    assert snow_l(1000.0, least) > snow_l(1000.0, most) > 1.0


@pytest.mark.parametrize("fuel", sorted(PURE_MJ_KG))
def test_water_in_a_fuel_only_costs(fuel: str) -> None:
    assert wet_fuel_mj_kg(fuel, 0.0) == PURE_MJ_KG[fuel]
    assert wet_fuel_mj_kg(fuel, 0.1) == pytest.approx(0.9 * PURE_MJ_KG[fuel] - 0.2443)


@given(st.floats(0.7, 1.0), st.floats(0.7, 1.0))
def test_a_stronger_spirit_is_stronger_by_mass_too(one: float, other: float) -> None:
    weak, strong = sorted((one, other))
    assert ethanol_mass_share(weak) <= ethanol_mass_share(strong)
    assert ethanol_mass_share(weak) <= weak


def test_the_ends_of_the_alcohol_table() -> None:
    assert ethanol_mass_share(0.70) == 0.6239
    assert ethanol_mass_share(1.0) == 1.0
    assert ethanol_mass_share(0.925) == pytest.approx((0.8566 + 0.9241) / 2.0)


def test_a_stove_test_worked_by_hand() -> None:
    """1 l from 9.97 to 99.97 degC: 376.74 kJ; 14 g of 45.8 MJ/kg: 641.2 kJ."""
    found = efficiency_from_test(1000.0, 9.974, 14.0, 45.8, 0.0)
    assert found == pytest.approx(376.74 / 641.2, rel=1e-4)


@pytest.mark.parametrize(("share", "passes"), [(0.0199, 0), (0.0201, 1), (0.899, 1), (0.901, 0)])
def test_what_no_stove_does_is_a_slip_of_the_scale(share: float, passes: int) -> None:
    heat = water_heat_kj(1000.0, 10.0, boiling_point_c(pressure_hpa(0.0)))
    fuel = heat / (45.0 * share)
    if passes:
        assert efficiency_from_test(1000.0, 10.0, fuel, 45.0, 0.0) == pytest.approx(share)
    else:
        with pytest.raises(ValueError, match="so weigh again"):
            efficiency_from_test(1000.0, 10.0, fuel, 45.0, 0.0)


@given(st.floats(0.3, 0.8), st.floats(0.0, 5000.0), st.floats(0.0, 40.0))
def test_a_test_gives_back_the_efficiency_it_was_done_with(
    share: float, height: float, cold: float
) -> None:
    hot = boiling_point_c(pressure_hpa(height))
    heat = water_heat_kj(800.0, cold, hot) + pot_heat_kj(150.0, "titanium", cold, hot)
    _, fuel, _ = fuel_range_g(heat, 45.0, (share, share, share))
    found = efficiency_from_test(
        800.0, cold, fuel, 45.0, height, pot_mass_g=150.0, material="titanium"
    )
    assert found == pytest.approx(share, rel=1e-9)


def test_a_small_test_counts_like_a_large_one() -> None:
    """A tenth of the water with a tenth of the fuel, and a fuel with a tenth of the heat."""
    share = efficiency_from_test(100.0, 9.0, 2.0, 45.8, 0.0)
    assert efficiency_from_test(10.0, 9.0, 0.2, 45.8, 0.0) == pytest.approx(share, rel=1e-12)
    assert efficiency_from_test(1.0, 9.0, 1.0, 0.916, 0.0) == pytest.approx(share, rel=1e-12)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: open_pot_range_g(-1.0), "fuel with the lid on is -1 g"),
        (lambda: efficiency_range("rocket"), "kind of stove 'rocket' is not known"),
        (lambda: fuel_range_g(-1.0, 45.0, (0.5, 0.5, 0.5)), "heat is -1 kJ"),
        (lambda: fuel_range_g(1.0, 0.0, (0.5, 0.5, 0.5)), "heating value of the fuel is 0"),
        (lambda: fuel_range_g(1.0, 45.0, (0.0, 0.5, 0.6)), "least efficiency is 0; it must be"),
        (lambda: fuel_range_g(1.0, 45.0, (0.5, 0.4, 0.6)), "is 0.4; it must be 0.5 to 1$"),
        (lambda: fuel_range_g(1.0, 45.0, (0.5, 1.1, 1.1)), "likely efficiency is 1.1; it must"),
        (lambda: fuel_range_g(1.0, 45.0, (0.5, 0.6, 0.5)), "best efficiency is 0.5; it must"),
        (lambda: fuel_range_g(1.0, 45.0, (0.5, 0.6, 1.1)), "is 1.1; it must be 0.6 to 1$"),
        (lambda: wind_fuel_range(-0.1), "wind is -0.1 m/s"),
        (lambda: wind_fuel_range(12.1), "wind is 12.1 m/s"),
        (lambda: snow_l(-1.0, 100.0), "water wanted is -1 ml"),
        (lambda: snow_l(1.0, 29.0), "density of the snow is 29 kg/m³"),
        (lambda: snow_l(1.0, 918.0), "density of the snow is 918 kg/m³"),
        (lambda: snow_potfuls(1.0, 100.0, 0.0), "what one unit holds is 0"),
        (lambda: wet_fuel_mj_kg("petrol", 0.1), "fuel 'petrol' is not known"),
        (lambda: wet_fuel_mj_kg("ethanol", 0.51), "water share of the fuel is 0.51"),
        (lambda: ethanol_mass_share(0.69), "ethanol by volume is 0.69"),
        (lambda: ethanol_mass_share(1.01), "ethanol by volume is 1.01"),
        (lambda: efficiency_from_test(0.0, 9.0, 14.0, 45.8, 0.0), "water boiled is 0 ml"),
        (lambda: efficiency_from_test(1.0, 61.0, 14.0, 45.8, 0.0), "water before is 61 °C"),
        (lambda: efficiency_from_test(1.0, 9.0, 0.0, 45.8, 0.0), "fuel burnt is 0 g"),
        (lambda: efficiency_from_test(1.0, 9.0, 14.0, 0.0, 0.0), "heating value of the fuel is 0"),
        (lambda: efficiency_from_test(1.0, 9.0, 14.0, 45.8, 12000.0), "altitude is 12000 m"),
        (lambda: efficiency_from_test(1000.0, 9.0, 5.0, 45.8, 0.0), "so weigh again"),
        (lambda: efficiency_from_test(10.0, 9.0, 14.0, 45.8, 0.0), "0.02 to 0.9, so weigh again$"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
