"""Rounding and allergens of labels against the rules as printed."""

from __future__ import annotations

from builder.formulas.labels import (
    energy_density_kcal_g,
    eu_carbohydrate_g,
    eu_energy,
    eu_mass_g,
    eu_salt_g,
    us_calories,
    us_energy_kcal,
    us_sodium_mg,
)

from .published import Published, check, published

# A label's number is exact: 1e-6.
_EXACT = 1e-6


@published(
    Published((223.9,), 224.0, _EXACT, "kJ", "eu-tolerances-2012", "energy, apples", "copy"),
    Published((53.0,), 53.0, _EXACT, "kcal", "eu-tolerances-2012", "energy, apples, kcal", "copy"),
)
def test_eu_energy(row: Published) -> None:
    check(row, eu_energy)


@published(
    Published((13.81, 2.4), 11.41, 1e-6, "g", "eu-1169-2011", "apples without fibre", "copy"),
)
def test_eu_carbohydrate(row: Published) -> None:
    check(row, eu_carbohydrate_g)


@published(
    Published((12.4,), 12.0, _EXACT, "g", "eu-tolerances-2012", "10 g and above", "copy"),
    Published((6.52,), 6.5, _EXACT, "g", "eu-tolerances-2012", "between 0.5 and 10 g", "copy"),
    Published((0.5,), 0.0, _EXACT, "g", "eu-tolerances-2012", "0.5 g and below", "copy"),
)
def test_eu_masses(row: Published) -> None:
    check(row, eu_mass_g)


@published(
    Published((2081.0,), 5.2, _EXACT, "g", "eu-tolerances-2012", "salt, 1 g and above", "copy"),
    Published((107.0,), 0.27, _EXACT, "g", "eu-tolerances-2012", "salt below 1 g", "copy"),
    Published((5.0,), 0.0, _EXACT, "g", "eu-tolerances-2012", "salt, 0.0125 g and below", "copy"),
)
def test_eu_salt(row: Published) -> None:
    check(row, eu_salt_g)


# Apple by 4, 9 and 4 is 57.8, not the 52 of its own factors.
@published(
    Published(
        (0.26, 0.17, 13.81), 57.8, 0.05, "kcal", "cfr-101-9", "apples by 4, 9, 4", "calculated"
    ),
)
def test_us_energy(row: Published) -> None:
    check(row, us_energy_kcal)


@published(
    Published((4.9,), 0.0, _EXACT, "kcal", "cfr-101-9", "calories under 5", "copy"),
    Published((47.0,), 45.0, _EXACT, "kcal", "cfr-101-9", "calories to 50", "copy"),
    Published((57.8,), 60.0, _EXACT, "kcal", "cfr-101-9", "calories above 50", "copy"),
)
def test_us_calories(row: Published) -> None:
    check(row, us_calories)


@published(
    Published((4.0,), 0.0, _EXACT, "mg", "cfr-101-9", "sodium under 5", "copy"),
    Published((107.0,), 105.0, _EXACT, "mg", "cfr-101-9", "sodium to 140", "copy"),
    Published((2081.0,), 2080.0, _EXACT, "mg", "cfr-101-9", "sodium above 140", "copy"),
)
def test_us_sodium(row: Published) -> None:
    check(row, us_sodium_mg)


# Fat and sugar at their ends: 884 and 387 kcal in 100 g.
@published(
    Published((884.0, 100.0), 8.84, 1e-6, "kcal/g", "usda-sr28", "04053, olive oil", "copy"),
    Published((387.0, 100.0), 3.87, 1e-6, "kcal/g", "usda-sr28", "19335, sugar", "copy"),
)
def test_energy_density(row: Published) -> None:
    check(row, energy_density_kcal_g)
