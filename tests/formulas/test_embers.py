"""Embers, irons and wood by species: edges, errors, laws."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.embers import (
    DRY_SPECIES_MJ_KG,
    first_press_min,
    plates_heat_kj,
    preheat_min,
    preheat_range_min,
    species_mj_kg,
    wood_range_mj_kg,
)
from builder.formulas.fire import wood_heating_value_mj_kg
from builder.model.trip import WOODS

plates = st.floats(-20.0, 250.0)


def test_plates_take_mass_times_heat_times_warming() -> None:
    assert plates_heat_kj(2500.0, 20.0, 200.0) == pytest.approx(207.0)
    assert plates_heat_kj(0.0, 20.0, 200.0) == 0.0


@given(st.floats(100.0, 5000.0), st.floats(50.0, 800.0), plates, plates, st.floats(1.0, 40.0))
def test_heating_brings_the_heat(
    mass: float, face: float, one: float, other: float, flux: float
) -> None:
    cold, hot = sorted((one, other))
    minutes = preheat_min(mass, face, cold, hot, flux)
    assert minutes * 60.0 * flux * face / 10000.0 == pytest.approx(
        plates_heat_kj(mass, cold, hot), abs=1e-9
    )


def test_few_minutes_over_hot_embers_many_over_dull_ones() -> None:
    few, many = preheat_range_min(1900.0, 200.0, 10.0)
    assert (few, many) == preheat_range_min(1900.0, 200.0, 10.0, 200.0)
    assert many / few == pytest.approx(25.0 / 8.0)
    assert few == pytest.approx(preheat_min(1900.0, 200.0, 10.0, 200.0, 25.0))


def test_a_cold_iron_makes_the_first_press_slower() -> None:
    hot = first_press_min(4.0, 1900.0, 200.0, 200.0, 200.0, kw_m2=15.0)
    assert hot == 9.0
    assert first_press_min(4.0, 1900.0, 200.0, 260.0, 200.0, kw_m2=15.0) == 9.0
    cold = first_press_min(4.0, 1900.0, 200.0, 20.0, 200.0, kw_m2=15.0)
    assert cold == pytest.approx(9.0 + preheat_min(1900.0, 200.0, 20.0, 200.0, 15.0))


def test_a_trip_may_tell_each_species() -> None:
    assert set(WOODS) == set(DRY_SPECIES_MJ_KG)


@pytest.mark.parametrize("species", sorted(DRY_SPECIES_MJ_KG))
def test_dry_wood_of_any_species_lies_near_the_usual_value(species: str) -> None:
    """18.5 MJ/kg for all is good to an eighth."""
    dry = species_mj_kg(species, 0.0)
    assert dry == pytest.approx(wood_heating_value_mj_kg(0.0), rel=0.125)


@given(st.sampled_from(sorted(DRY_SPECIES_MJ_KG)), st.floats(0.0, 0.6))
def test_every_species_lies_in_the_range(species: str, moisture: float) -> None:
    least, most = wood_range_mj_kg(moisture)
    assert least <= species_mj_kg(species, moisture) <= most
    assert least <= wood_heating_value_mj_kg(moisture) <= most


@given(st.floats(0.0, 0.6), st.floats(0.0, 0.6))
def test_wetter_wood_never_holds_more_heat(one: float, other: float) -> None:
    dry, wet = sorted((one, other))
    assert species_mj_kg("birch", wet) <= species_mj_kg("birch", dry)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: plates_heat_kj(-1.0, 20.0, 200.0), "mass of the pot is -1 g"),
        (lambda: preheat_min(1.0, 0.0, 20.0, 200.0, 15.0), "heated face is 0"),
        (lambda: preheat_min(1.0, 1.0, 20.0, 200.0, 0.0), "heat of the embers is 0"),
        (lambda: preheat_min(1.0, 1.0, 200.0, 20.0, 15.0), "after heating is 20 °C"),
        (lambda: preheat_range_min(1.0, 1.0, 20.0, 401.0), "after heating is 401 °C"),
        (lambda: first_press_min(-1.0, 1.0, 1.0, 20.0, 200.0, kw_m2=15.0), "each side is -1 min"),
        (lambda: species_mj_kg("yew", 0.2), "species 'yew' is not known"),
        (lambda: species_mj_kg("oak", 0.61), "water share of the wood is 0.61"),
        (lambda: wood_range_mj_kg(-0.1), "water share of the wood is -0.1"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
