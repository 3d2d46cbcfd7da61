"""Stoves, wind, snow, other fuels and stove tests."""

from __future__ import annotations

import pytest

from builder.formulas.cookware import (
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
from builder.formulas.heat import snow_to_boil_kj

from .published import Published, check, published


def _middle_open_g(fuel_g: float) -> float:
    """Middle of what an open pot takes."""
    return sum(open_pot_range_g(fuel_g)) / 2.0


# A lid saves 10 to 20 percent.
@published(
    Published((100.0,), 118.0, 7.0, "g", "common-practice", "no lid", "practice"),
)
def test_an_open_pot(row: Published) -> None:
    check(row, _middle_open_g)


def _likely(stove: str) -> float:
    """Likely efficiency."""
    return efficiency_range(stove)[1]


# Middles of printed ranges, half their width.
@published(
    *(
        Published((stove,), middle, within, "share", source, what, "memory")
        for stove, middle, within, source, what in (
            ("open-fire", 0.14, 0.045, "jetter2009", "three stones, 0.10 to 0.18"),
            ("chimney-stove", 0.30, 0.05, "jetter2009", "rocket stove, 0.25 to 0.35"),
            ("charcoal", 0.275, 0.075, "jetter2009", "charcoal stove, 0.20 to 0.35"),
            ("liquid-pressure", 0.50, 0.055, "jetter2009", "pressure kerosene, 0.45 to 0.55"),
            ("gas", 0.55, 0.05, "jetter2009", "LPG burner, 0.50 to 0.60"),
        )
    )
)
def test_efficiencies(row: Published) -> None:
    check(row, _likely)


def _least_of(stove: str) -> float:
    """Least efficiency."""
    return efficiency_range(stove)[0]


def _most_of(stove: str) -> float:
    """Most efficiency."""
    return efficiency_range(stove)[2]


# Printed ranges, two decimals; the open fire's lower end is that of fires in the open air.
_RANGES = (
    ("gas", 0.50, 0.60, "common-practice"),
    ("gas-heat-exchanger", 0.65, 0.80, "common-practice"),
    ("liquid-pressure", 0.45, 0.60, "common-practice"),
    ("alcohol-screened", 0.45, 0.55, "common-practice"),
    ("alcohol-open", 0.30, 0.40, "common-practice"),
    ("tablet", 0.30, 0.45, "common-practice"),
    ("open-fire", 0.05, 0.18, "jetter2009"),
    ("chimney-stove", 0.25, 0.35, "jetter2009"),
    ("charcoal", 0.20, 0.35, "jetter2009"),
)


@published(
    *(
        Published((stove,), least, 0.005, "share", source, f"{stove}, least", "memory")
        for stove, least, _, source in _RANGES
    )
)
def test_least_efficiencies(row: Published) -> None:
    check(row, _least_of)


@published(
    *(
        Published((stove,), most, 0.005, "share", source, f"{stove}, most", "memory")
        for stove, _, most, source in _RANGES
    )
)
def test_most_efficiencies(row: Published) -> None:
    check(row, _most_of)


def _one_fuel_g(heat_kj: float, energy_mj_kg: float, efficiency: float) -> float:
    """Likely fuel where the efficiency is known."""
    return fuel_range_g(heat_kj, energy_mj_kg, (efficiency, efficiency, efficiency))[1]


# A litre from 10 degC (376.8 kJ) and a kilogram of snow at -10 degC (773 kJ): half a percent.
@published(
    *(
        Published(
            (heat, energy, eta),
            g,
            0.005 * g,
            "g",
            "harc-heating-values",
            f"{what}, {load}",
            "calculated",
        )
        for what, energy, eta, water_g, snow_g in (
            ("gas at 0.6", 45.5, 0.60, 13.80, 28.32),
            ("gas at 0.5", 45.5, 0.50, 16.56, 33.98),
            ("white gas", 44.0, 0.55, 15.57, 31.94),
            ("kerosene", 43.1, 0.55, 15.90, 32.61),
            ("ethanol", 26.8, 0.50, 28.12, 57.69),
            ("tablets", 28.1, 0.40, 33.52, 68.77),
        )
        for load, heat, g in (("water", 376.8, water_g), ("snow", 773.0, snow_g))
    )
)
def test_fuel_for_a_litre(row: Published) -> None:
    check(row, _one_fuel_g)


def test_common_practice_lies_in_the_range_of_gas() -> None:
    """8 to 16 g of gas boil a litre from 20 degC in still air (handbooks, from memory)."""
    least, likely, most = fuel_range_g(335.0, 45.5, efficiency_range("gas"))
    assert 8.0 <= least < likely < most <= 16.0


def _open_wind(wind_m_s: float) -> float:
    """Fuel of an unscreened stove."""
    return wind_fuel_range(wind_m_s)[1]


@published(
    *(
        Published((v,), f, 0.15, "times", "common-practice", f"{v} m/s", "practice")
        for v, f in ((2.5, 1.25), (4.5, 2.0), (6.0, 3.0), (9.0, 3.0))
    )
)
def test_wind(row: Published) -> None:
    check(row, _open_wind)


# Litres of snow for a litre of water: two decimals.
@published(
    *(
        Published((1000.0, rho), litres, 0.05, "l", source, f"{rho:.0f} kg/m³", known)
        for rho, litres, source, known in (
            (70.0, 14.3, "ams-glossary", "calculated"),
            (100.0, 10.0, "ams-glossary", "calculated"),
            (150.0, 6.67, "ams-glossary", "calculated"),
            (200.0, 5.0, "paterson", "calculated"),
            (300.0, 3.33, "paterson", "calculated"),
            (400.0, 2.5, "paterson", "calculated"),
            (550.0, 1.82, "paterson", "calculated"),
        )
    )
)
def test_snow(row: Published) -> None:
    check(row, snow_l)


@published(
    Published(
        (1000.0, 100.0, 1500.0), 7.0, 0.1, "potfuls", "ams-glossary", "new snow", "calculated"
    ),
    Published(
        (1000.0, 400.0, 1500.0), 2.0, 0.1, "potfuls", "paterson", "packed snow", "calculated"
    ),
)
def test_potfuls_of_snow(row: Published) -> None:
    check(row, snow_potfuls)


def _least_snow(kind: str) -> float:
    """Least density of a kind of snow."""
    return 1000.0 / snow_l(1000.0, SNOW_KG_M3[kind][0])


def _most_snow(kind: str) -> float:
    """Most density of a kind of snow."""
    return 1000.0 / snow_l(1000.0, SNOW_KG_M3[kind][1])


# Whole tens of the printed ranges.
_SNOW = (
    ("damp-new", 100.0, 200.0, "memory"),
    ("settled", 200.0, 300.0, "memory"),
    ("wind-packed", 350.0, 400.0, "memory"),
    ("depth-hoar", 100.0, 300.0, "memory"),
    ("firn", 400.0, 830.0, "memory"),
    ("ice", 830.0, 917.0, "memory"),
)


@published(
    *(
        Published((kind,), least, 0.5, "kg/m3", "paterson", f"{kind}, least", known)
        for kind, least, _, known in _SNOW
    ),
    Published(("new",), 50.0, 0.5, "kg/m3", "paterson", "new, calm", "memory"),
)
def test_least_density_of_snow(row: Published) -> None:
    check(row, _least_snow)


@published(
    *(
        Published((kind,), most, 0.5, "kg/m3", "paterson", f"{kind}, most", known)
        for kind, _, most, known in _SNOW
    ),
    Published(("new",), 150.0, 0.5, "kg/m3", "ams-glossary", "new, most", "copy"),
)
def test_most_density_of_snow(row: Published) -> None:
    check(row, _most_snow)


def test_kinds_of_snow_hold_the_glossary() -> None:
    """New snow 70 to 150 kg/m3, glacier ice up to 917 (read in a copy)."""
    assert SNOW_KG_M3["new"][0] <= 70.0 <= 150.0 <= SNOW_KG_M3["new"][1]
    assert SNOW_KG_M3["ice"][1] == 917.0


# 0.924 by mass at 26.82 less 2.443 * 0.076; pure fuels of HARC within 1 percent.
@published(
    Published(
        ("ethanol", 0.076),
        24.6,
        0.06,
        "MJ/kg",
        "nist-webbook",
        "spirit of 95 percent",
        "calculated",
    ),
    Published(
        ("ethanol", 0.0), 26.945, 0.27, "MJ/kg", "harc-heating-values", "ethanol, LHV", "copy"
    ),
    Published(
        ("methanol", 0.0), 20.089, 0.21, "MJ/kg", "harc-heating-values", "methanol, LHV", "copy"
    ),
    Published(("hexamine", 0.0), 28.07, 0.28, "MJ/kg", "nist-webbook", "hexamine", "memory"),
    Published(("isopropanol", 0.0), 30.45, 0.30, "MJ/kg", "nist-webbook", "2-propanol", "memory"),
)
def test_fuels_with_water(row: Published) -> None:
    check(row, wet_fuel_mj_kg)


# Heats of formation at 25 degC in kJ/mol (NIST, from memory), the liquid or solid fuel.
@pytest.mark.parametrize(
    ("fuel", "formation", "carbon", "hydrogen", "molar"),
    [
        ("ethanol", -277.0, 2, 6, 46.069),
        ("methanol", -239.2, 1, 4, 32.042),
        ("isopropanol", -318.0, 3, 8, 60.096),
        ("hexamine", 124.0, 6, 12, 140.186),
    ],
)
def test_heating_values_follow_from_heats_of_formation(
    fuel: str, formation: float, carbon: int, hydrogen: int, molar: float
) -> None:
    """C to CO2 at -393.51, H to water vapour at -241.826 kJ/mol; one percent."""
    burnt_kj_mol = formation + 393.51 * carbon + 241.826 * hydrogen / 2.0
    assert wet_fuel_mj_kg(fuel, 0.0) == pytest.approx(burnt_kj_mol / molar, rel=0.01)


# By volume and density of the mixture at 20 degC [kg/m3], ethanol 789.24: another column of
# the tables.
@published(
    *(
        Published(
            (v,),
            v * 789.24 / density,
            0.0003,
            "share",
            "alcohol-tables",
            f"{v:.0%}, by density",
            "memory",
        )
        for v, density in (
            (0.70, 885.56),
            (0.75, 872.79),
            (0.80, 859.27),
            (0.85, 844.85),
            (0.90, 829.18),
            (0.95, 811.38),
            (0.96, 807.42),
            (1.00, 789.24),
        )
    )
)
def test_spirit_by_density(row: Published) -> None:
    check(row, ethanol_mass_share)


# 95 percent by volume is 92.4 by mass.
@published(
    Published((0.95,), 0.924, 0.0006, "share", "alcohol-tables", "95 % by volume", "memory"),
    Published((0.96,), 0.938, 0.0006, "share", "alcohol-tables", "96 % by volume", "memory"),
    Published((0.70,), 0.624, 0.0006, "share", "alcohol-tables", "70 % by volume", "memory"),
)
def test_spirit_by_mass(row: Published) -> None:
    check(row, ethanol_mass_share)


# 376.8 kJ for a litre from 10 degC: the fuel above gives its efficiency back, half a percent.
@published(
    Published(
        (1000.0, 10.0, 13.80, 45.5, 0.0),
        0.60,
        0.003,
        "share",
        "jetter2009",
        "13.8 g of gas",
        "calculated",
    ),
    Published(
        (1000.0, 10.0, 28.12, 26.8, 0.0),
        0.50,
        0.003,
        "share",
        "jetter2009",
        "28.1 g of ethanol",
        "calculated",
    ),
    # 334.76 kJ at 3000 m.
    Published(
        (1000.0, 10.0, 14.0, 45.8, 3000.0),
        334.76 / 641.2,
        0.003,
        "share",
        "iapws-if97",
        "14 g at 3000 m",
        "calculated",
    ),
)
def test_stove_tests(row: Published) -> None:
    check(row, efficiency_from_test)


def test_snow_takes_twice_the_fuel_of_water() -> None:
    """Ratio 2.05 for snow at -10 and water at 10 degC (calculated)."""
    water_kj = 376.8
    assert snow_to_boil_kj(1000.0, -10.0, 99.97) / water_kj == pytest.approx(2.05, abs=0.01)
