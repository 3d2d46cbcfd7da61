"""Labels: edges, errors, laws."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import strategies as st

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

masses = st.floats(0.0, 100.0)


@pytest.mark.parametrize(("energy", "shown"), [(0.0, 0), (0.5, 1), (2.5, 3), (2.49, 2), (53.0, 53)])
def test_energy_goes_to_the_nearest_one_halves_up(energy: float, shown: int) -> None:
    assert eu_energy(energy) == shown


def test_carbohydrate_is_without_fibre() -> None:
    assert eu_carbohydrate_g(13.81, 2.4) == pytest.approx(11.41)
    assert eu_carbohydrate_g(5.0, 5.0) == 0.0


@pytest.mark.parametrize(
    ("mass", "shown"),
    [
        (0.0, 0.0),
        (0.5, 0.0),
        (0.51, 0.5),
        (0.55, 0.6),
        (1.25, 1.3),
        (9.94, 9.9),
        (9.95, 10.0),
        (10.0, 10.0),
        (10.1, 10.0),
        (10.4, 10.0),
        (10.5, 11.0),
        (100.0, 100.0),
    ],
)
def test_masses_of_an_eu_label(mass: float, shown: float) -> None:
    assert eu_mass_g(mass) == shown


@pytest.mark.parametrize(
    ("sodium", "shown"),
    [
        (0.0, 0.0),
        (5.0, 0.0),
        (5.1, 0.01),
        (107.0, 0.27),
        (399.0, 1.0),
        (400.0, 1.0),
        (404.0, 1.0),
        (419.0, 1.0),
        (420.0, 1.1),
        (2081.0, 5.2),
    ],
)
def test_salt_of_an_eu_label(sodium: float, shown: float) -> None:
    assert eu_salt_g(sodium) == shown


@pytest.mark.parametrize(
    ("energy", "shown"),
    [
        (4.9, 0),
        (5.0, 5),
        (7.4, 5),
        (7.5, 10),
        (47.5, 50),
        (50.0, 50),
        (50.1, 50),
        (55.0, 60),
        (144.9, 140),
        (145.0, 150),
    ],
)
def test_calories_of_a_us_label(energy: float, shown: int) -> None:
    assert us_calories(energy) == shown


@pytest.mark.parametrize(
    ("sodium", "shown"),
    [
        (4.9, 0),
        (5.0, 5),
        (7.5, 10),
        (137.5, 140),
        (140.0, 140),
        (140.1, 140),
        (142.6, 140),
        (145.0, 150),
    ],
)
def test_sodium_of_a_us_label(sodium: float, shown: int) -> None:
    assert us_sodium_mg(sodium) == shown


def test_calories_count_fibre_as_carbohydrate() -> None:
    assert us_energy_kcal(10.0, 5.0, 60.0) == 325.0


def test_energy_density() -> None:
    assert energy_density_kcal_g(2250.0, 500.0) == 4.5


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: eu_energy(-1.0), "energy is -1"),
        (lambda: eu_carbohydrate_g(-1.0, 0.0), "carbohydrate is -1 g"),
        (lambda: eu_carbohydrate_g(1.0, 2.0), "fibre is 2 g"),
        (lambda: eu_mass_g(101.0), "mass in 100 g is 101 g"),
        (lambda: eu_salt_g(-1.0), "sodium is -1 mg"),
        (lambda: us_energy_kcal(-1.0, 0.0, 0.0), "protein is -1 g"),
        (lambda: us_energy_kcal(0.0, -1.0, 0.0), "fat is -1 g"),
        (lambda: us_energy_kcal(0.0, 0.0, -1.0), "carbohydrate is -1 g"),
        (lambda: us_calories(-1.0), "energy is -1 kcal"),
        (lambda: us_sodium_mg(-1.0), "sodium is -1 mg"),
        (lambda: energy_density_kcal_g(-1.0, 1.0), "energy is -1 kcal"),
        (lambda: energy_density_kcal_g(1.0, 0.0), "mass is 0 g"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
