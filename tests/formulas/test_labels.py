"""Labels: edges, errors, laws."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.labels import (
    EU_ALLERGENS,
    US_ALLERGENS,
    energy_density_kcal_g,
    eu_carbohydrate_g,
    eu_energy,
    eu_mass_g,
    eu_salt_g,
    us_allergens,
    us_calories,
    us_energy_kcal,
    us_fat_g,
    us_mass_g,
    us_sodium_mg,
)
from builder.formulas.nutrition import salt_g

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
    ("fat", "shown"),
    [(0.49, 0.0), (0.5, 0.5), (0.74, 0.5), (0.75, 1.0), (4.9, 5.0), (5.4, 5.0), (5.5, 6.0)],
)
def test_fat_of_a_us_label(fat: float, shown: float) -> None:
    assert us_fat_g(fat) == shown


@pytest.mark.parametrize(
    ("mass", "shown"), [(0.49, 0.0), (0.5, 1.0), (0.99, 1.0), (1.49, 1.0), (1.5, 2.0), (2.5, 3.0)]
)
def test_masses_of_a_us_label(mass: float, shown: float) -> None:
    assert us_mass_g(mass) == shown


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


@given(masses)
def test_rounding_is_never_further_off_than_half_a_step(mass: float) -> None:
    assert abs(eu_mass_g(mass) - mass) <= 0.5 + 1e-9
    assert abs(us_mass_g(mass) - mass) <= 0.5 + 1e-9
    assert abs(us_fat_g(mass) - mass) <= 0.5 + 1e-9
    assert abs(us_calories(mass) - mass) <= 5.0 + 1e-9
    assert abs(us_sodium_mg(mass) - mass) < 5.0 + 1e-9
    assert abs(eu_salt_g(mass) - salt_g(mass)) <= 0.0125 + 1e-9


@given(masses, masses)
def test_more_is_never_shown_as_less(one: float, other: float) -> None:
    less, more = sorted((one, other))
    for shown in (eu_energy, eu_mass_g, eu_salt_g, us_calories, us_fat_g, us_mass_g, us_sodium_mg):
        assert shown(less) <= shown(more)


def test_calories_count_fibre_as_carbohydrate() -> None:
    assert us_energy_kcal(10.0, 5.0, 60.0) == 325.0


def test_energy_density() -> None:
    assert energy_density_kcal_g(2250.0, 500.0) == 4.5


@pytest.mark.parametrize(
    ("eu", "wheat", "us"),
    [
        ((), False, ()),
        (("sulphites",), False, ()),
        (("cereals-gluten",), True, ("wheat",)),
        (("cereals-gluten",), False, ()),
        (("celery",), False, ()),
        (("molluscs", "mustard", "lupin"), False, ()),
        (("sesame",), False, ("sesame",)),
        (("nuts", "milk", "nuts"), False, ("milk", "nuts")),
        (EU_ALLERGENS, True, US_ALLERGENS),
    ],
)
def test_allergens_across_the_sea(eu: tuple[str, ...], wheat: bool, us: tuple[str, ...]) -> None:
    assert us_allergens(eu, wheat) == us


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
        (lambda: us_fat_g(-1.0), "fat is -1 g"),
        (lambda: us_mass_g(-1.0), "mass is -1 g"),
        (lambda: us_sodium_mg(-1.0), "sodium is -1 mg"),
        (lambda: energy_density_kcal_g(-1.0, 1.0), "energy is -1 kcal"),
        (lambda: energy_density_kcal_g(1.0, 0.0), "mass is 0 g"),
        (lambda: us_allergens(("gluten",), False), "allergen 'gluten' is not known"),
        (
            lambda: us_allergens(("milk",), True),
            "^wheat is a cereal with gluten; name cereals-gluten too$",
        ),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
