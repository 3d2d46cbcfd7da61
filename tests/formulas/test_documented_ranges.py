"""Each range that a docstring tells is the one that the code keeps: its edges are let in,
and what lies just outside is not."""

from __future__ import annotations

import importlib
import inspect
import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest

MIX = {"propane": 0.3, "butane": 0.7}

# A call of each formula that is in order; the edges are tried one at a time from here.
EXAMPLES: dict[str, dict[str, Any]] = {
    "drying_curve.water_per_solids": {"water_share": 0.5},
    "drying_curve.wet_share": {"water_per_solids": 1.0},
    "drying_curve.moisture_ratio_of": {
        "water_share": 0.5, "start_share": 0.9, "equilibrium_share": 0.1,
    },
    "drying_curve.page_mass_g": {
        "duration_min": 60.0, "start_g": 100.0, "start_share": 0.9, "rate_per_min": 0.01,
        "exponent": 1.0, "equilibrium_share": 0.1,
    },
    "drying_curve.lewis_mass_g": {
        "duration_min": 60.0, "start_g": 100.0, "start_share": 0.9, "rate_per_min": 0.01,
        "equilibrium_share": 0.1,
    },
    "drying_curve.minutes_to_ratio": {
        "moisture_ratio": 0.5, "rate_per_min": 0.01, "exponent": 1.0,
    },
    "drying_curve.minutes_to_share": {
        "water_share": 0.2, "start_share": 0.9, "rate_per_min": 0.01, "exponent": 1.0,
        "equilibrium_share": 0.1,
    },
    "drying_curve.minutes_at_thickness": {
        "duration_min": 60.0, "thickness_mm": 5.0, "other_mm": 6.0,
    },
    "sorption.gab_water_per_solids": {
        "water_activity": 0.5, "monolayer": 0.1, "c": 5.0, "k": 0.9,
    },
    "sorption.gab_water_activity": {
        "water_per_solids": 0.05, "monolayer": 0.1, "c": 5.0, "k": 0.9,
    },
    "sorption.bet_water_per_solids": {"water_activity": 0.3, "monolayer": 0.1, "c": 5.0},
    "sorption.oswin_water_per_solids": {"water_activity": 0.5, "a": 0.1, "b": 0.4},
    "sorption.halsey_water_per_solids": {"water_activity": 0.5, "a": 0.02, "b": 1.6},
    "sorption.can_grow": {"water_activity": 0.5},
    "freeze_drying.ice_pressure_pa": {"temperature_c": -20.0},
    "freeze_drying.sublimation_kj_kg": {"temperature_c": -20.0},
    "freeze_drying.water_drawn_g": {"load_g": 1.0, "water_share": 0.8, "residual_share": 0.0},
    "freeze_drying.sublimation_floor_kj": {"ice_g": 1.0, "loaded_at_c": -20.0, "ice_c": -20.0},
    "freeze_drying.freezing_heat_kj": {
        "load_g": 1.0, "water_share": 0.8, "loaded_at_c": 20.0, "frozen_at_c": -30.0,
    },
    "freeze_drying.load_of_limit": {
        "load_g": 5.0, "ice_g": 0.0, "most_load_g": 4.0, "most_ice_g": 3.0,
    },
    "freeze_drying.layer_mm": {"load_g": 1.0, "density_g_ml": 0.7, "trays_cm2": 900.0},
    "freeze_drying.hours_range": {"thickness_mm": 10.0},
    "rehydration.peleg_water_per_solids": {
        "duration_min": 5.0, "start": 0.1, "k1": 3.0, "k2": 0.2,
    },
    "rehydration.peleg_limit": {"start": 0.1, "k2": 0.2},
    "rehydration.peleg_minutes": {"uptake_share": 0.5, "k1": 3.0, "k2": 0.2},
    "rehydration.k1_factor": {"from_c": 20.0, "to_c": 60.0, "activation_kj_mol": 19.2},
    "rehydration.rehydration_ratio": {"drained_g": 5.0, "dried_g": 1.0},
    "rehydration.rehydration_coefficient": {
        "drained_g": 5.0, "dried_g": 1.0, "water_share": 0.9, "residual_share": 0.0,
    },
    "rehydration.uptake_range_ml": {"full_return_ml": 100.0},
    "rehydration.standing_hours": {"food_c": 20.0, "air_c": 20.0},
    "cooling.cooled_c": {
        "start_c": 90.0, "air_c": 10.0, "duration_min": 5.0, "constant_min": 20.0,
    },
    "cooling.time_constant_min": {"mass_g": 1.0, "specific_heat_kj_kg_k": 1.0, "loss_w_k": 1.0},
    "cooling.minutes_above": {
        "start_c": 90.0, "air_c": 10.0, "constant_min": 20.0, "above_c": 60.0,
    },
    "cooling.mixed_c": {
        "water_g": 1.0, "water_c": 90.0, "food_g": 1.0, "food_c": 10.0, "food_kj_kg_k": 2.0,
    },
    "cooling.siebel_kj_kg_k": {"water_share": 0.5},
    "cooling.loss_range_w_k": {"vessel": "pot-lid", "mass_g": 1.0, "wind": "windy"},
    "packing.solid_volume_ml": {"food_g": 1.0, "water_share": 0.1},
    "packing.pack_oxygen_ml": {"container_ml": 100.0, "food_ml": 0.0, "altitude_m": 0.0},
    "packing.absorbers_needed": {"oxygen_ml": 1.0, "absorber_ml": 1.0},
    "packing.absorber_size_ml": {"oxygen_ml": 1.0},
    "packing.gas_swelling": {
        "packed_m": 0.0, "there_m": 0.0, "packed_c": 20.0, "there_c": 20.0,
    },
    "packing.bag_fullness": {"bag_ml": 1.0, "solids_ml": 1.0, "gas_ml": 1.0, "swelling": 1.0},
    "packing.life_used": {"table_months": 1.0, "stays": [(1.0, 20.0)]},
    "packing.days_left": {"table_months": 1.0, "stays": [], "kept_at_c": 20.0},
    "pressure_cooking.gauge_boiling_point_c": {"gauge_kpa": 80.0, "altitude_m": 0.0},
    "pressure_cooking.station_pressure_hpa": {"reduced_hpa": 1000.0, "altitude_m": 500.0},
    "pressure_cooking.z_from_activation_k": {
        "activation_kj_mol": 80.0, "from_c": 0.0, "to_c": 150.0,
    },
    "pressure_cooking.time_factor_of": {"kind": "grain", "boiling_point_c": 90.0},
    "pressure_cooking.time_factor_range": {"boiling_point_c": 90.0},
    "gas_canister.left_shares": {"mass_shares": MIX, "used_share": 0.5, "temperature_c": 0.0},
    "gas_canister.left_pressure_kpa": {
        "mass_shares": MIX, "used_share": 0.5, "temperature_c": 0.0,
    },
    "gas_canister.usable_share": {
        "mass_shares": MIX, "temperature_c": 0.0, "outside_hpa": 1000.0,
    },
    "gas_canister.lowest_air_c": {"mass_shares": MIX, "altitude_m": 0.0, "used_share": 0.5},
    "gas_canister.vaporisation_kj_kg": {"gas": "butane", "temperature_c": 0.0},
    "gas_canister.can_cooling_k": {
        "mass_shares": MIX, "power_w": 0.0, "energy_mj_kg": 45.0, "duration_min": 1.0,
        "fuel_g": 100.0, "empty_g": 100.0, "gain_w_k": 0.1,
    },
    "cookware.open_pot_range_g": {"fuel_g": 1.0},
    "cookware.fuel_range_g": {
        "heat_kj": 1.0, "energy_mj_kg": 45.0, "efficiencies": (0.4, 0.5, 0.6),
    },
    "cookware.wind_fuel_range": {"wind_m_s": 2.0},
    "cookware.snow_l": {"water_ml": 1.0, "snow_kg_m3": 100.0},
    "cookware.snow_potfuls": {"water_ml": 1.0, "snow_kg_m3": 100.0, "pot_ml": 100.0},
    "cookware.wet_fuel_mj_kg": {"fuel": "ethanol", "water_share": 0.1},
    "cookware.ethanol_mass_share": {"volume_share": 0.9},
    "cookware.efficiency_from_test": {
        "boiled_ml": 1000.0, "from_c": 10.0, "fuel_g": 20.0, "energy_mj_kg": 45.0,
        "altitude_m": 0.0, "pot_mass_g": 100.0,
    },
    "embers.plates_heat_kj": {"iron_g": 1.0, "from_c": 20.0, "to_c": 400.0},
    "embers.ember_kw_m2": {"ember_c": 700.0, "plate_c": 100.0, "seen_share": 0.5},
    "embers.preheat_min": {
        "iron_g": 1.0, "face_cm2": 1.0, "from_c": 20.0, "to_c": 400.0, "kw_m2": 1.0,
    },
    "embers.preheat_range_min": {"iron_g": 1.0, "face_cm2": 1.0, "from_c": 20.0, "to_c": 400.0},
    "embers.first_press_min": {
        "each_side_min": 1.0, "iron_g": 1.0, "face_cm2": 1.0, "iron_c": 20.0,
        "wanted_c": 200.0, "kw_m2": 1.0,
    },
    "embers.hand_test_c": {"seconds": 4.0},
    "embers.species_mj_kg": {"species": "oak", "moisture_share": 0.2},
    "embers.wood_range_mj_kg": {"moisture_share": 0.2},
    "labels.eu_energy": {"energy": 1.0},
    "labels.eu_carbohydrate_g": {"carbohydrate_g": 1.0, "fibre_g": 0.0},
    "labels.eu_mass_g": {"mass_g": 1.0},
    "labels.eu_salt_g": {"sodium_mg": 1.0},
    "labels.us_energy_kcal": {"protein_g": 1.0, "fat_g": 1.0, "carbohydrate_g": 1.0},
    "labels.us_calories": {"energy_kcal": 1.0},
    "labels.us_fat_g": {"fat_g": 1.0},
    "labels.us_mass_g": {"mass_g": 1.0},
    "labels.us_sodium_mg": {"sodium_mg": 1.0},
    "labels.energy_density_kcal_g": {"energy_kcal": 1.0, "mass_g": 1.0},
    "needs.protein_need_g": {"mass_kg": 60.0},
    "needs.active_protein_range_g": {"mass_kg": 60.0},
    "needs.salt_of_limit": {"sodium_mg": 1.0, "person_days": 1.0},
    "needs.cold_range_kcal": {"need_kcal": 1.0, "air_low_c": 0.0},
    "needs.altitude_range_kcal": {"basal_kcal": 1.0, "altitude_m": 0.0},
    "needs.activity_level": {"need_kcal": 1.0, "basal_kcal": 1.0},
    "needs.activity_of": {"level": 1.5, "age_years": 30.0},
    "needs.whole_day_kcal": {
        "sex": "male", "age_years": 30.0, "height_cm": 175.0, "mass_kg": 70.0,
        "travel_hours": 1.0, "travel_kcal": 100.0,
    },
    "needs.lcda_power_w": {
        "body_kg": 70.0, "load_kg": 1.0, "speed_m_s": 1.0, "grade_percent": 1.0,
    },
    "needs.ludlow_weyand_power_w": {
        "body_kg": 70.0, "load_kg": 1.0, "speed_m_s": 1.0, "grade_percent": 1.0,
    },
    "sweat.body_surface_m2": {"mass_kg": 60.0, "height_cm": 170.0},
    "sweat.saturation_hpa": {"temperature_c": 20.0},
    "sweat.required_evaporation_w_m2": {
        "power_w": 1.0, "surface_m2": 1.0, "air_c": 20.0, "clo": 1.0, "sun_w_m2": 1.0,
    },
    "sweat.most_evaporation_w_m2": {
        "air_c": 20.0, "humidity_share": 0.5, "permeability": 0.4,
    },
    "sweat.osec_g_m2_h": {"required_w_m2": 100.0, "emax_w_m2": 100.0},
    "sweat.piecewise_g_m2_h": {"required_w_m2": 100.0, "emax_w_m2": 100.0, "air_c": 20.0},
    "sweat.sweat_ml_h": {"rate_g_m2_h": 1.0, "surface_m2": 1.0},
    "sweat.wet_bulb_globe_c": {"air_c": 20.0, "humidity_share": 0.5},
    "sweat.army_drinking_ml_h": {"wbgt_c": 30.0, "work": "easy"},
    "sweat.army_work_min": {"wbgt_c": 30.0, "work": "easy"},
    "sweat.drinkable_ml_h": {"sweat_ml_h": 1.0},
    "treatment.chlorine_mg_l": {"drops": 1.0, "volume_ml": 1.0, "strength_share": 0.06},
    "treatment.bleach_drops": {"volume_ml": 1.0, "strength_share": 0.06},
    "treatment.contact_min": {"chemical": "iodine", "water_c": 20.0},
    "treatment.halogen_min": {"water_c": 20.0, "dose_mg_l": 4.0},
    "treatment.strict_boil_min": {"altitude_m": 0.0},
    "treatment.growth_factor": {"duration_min": 1.0, "doubling_min": 20.0},
}  # fmt: skip

# Edges that cannot be tried one at a time: another value of the call, or what comes of it,
# forbids them first.
FORBIDDEN_BY_OTHERS = {
    "drying_curve.moisture_ratio_of-start_share=0.1001",
    "drying_curve.moisture_ratio_of-equilibrium_share=0.98",
    "drying_curve.page_mass_g-equilibrium_share=0.98",
    "drying_curve.lewis_mass_g-equilibrium_share=0.98",
    "drying_curve.minutes_to_ratio-exponent=0.0001",
    "drying_curve.minutes_to_share-start_share=0.1001",
    "drying_curve.minutes_to_share-rate_per_min=0.0001",
    "drying_curve.minutes_to_share-exponent=0.0001",
    "drying_curve.minutes_to_share-equilibrium_share=0.98",
    "sorption.gab_water_activity-monolayer=0.0001",
    "sorption.gab_water_activity-c=0.0001",
    "sorption.gab_water_activity-k=0.0001",
    "cookware.efficiency_from_test-boiled_ml=0.0001",
    "cookware.efficiency_from_test-fuel_g=0.0001",
    "cookware.efficiency_from_test-energy_mj_kg=0.0001",
}

_LIMIT = r"-?\d+(?:\.\d+)?|[a-z]\w*_\w+"
_RANGE = re.compile(
    rf"^(?P<above>above )?(?P<least>{_LIMIT})(?: to (?P<most>{_LIMIT})| or more)?(?=[.;,:(\s]|$)"
)


def _blocks(doc: str) -> Iterator[tuple[str, str]]:
    """Each float parameter of a docstring and its text on one line."""
    section = doc.split("Parameters\n----------\n")[1].split("\n\nReturns")[0]
    for block in re.split(r"\n(?=\w)", section):
        head, _, text = block.partition("\n")
        name, _, kind = head.partition(" : ")
        if kind == "float":
            yield name, " ".join(text.split())


def _number(word: str | None, call: dict[str, Any]) -> float | None:
    """A limit: a number, or another value of the same call."""
    if word is None:
        return None
    if word in call:
        return float(call[word])
    try:
        return float(word)
    except ValueError:
        return None


def _edges() -> Iterator[tuple[str, str, float, bool]]:
    """Formula, parameter, value, and whether that value is let in."""
    for name, call in EXAMPLES.items():
        for parameter, text in _blocks(inspect.getdoc(_formula(name)) or ""):
            told = re.search(r"\[[^\]]+\], (.*)", text)
            found = _RANGE.match(told.group(1)) if told else None
            if parameter not in call or found is None:
                continue
            least, most = (_number(found.group(each), call) for each in ("least", "most"))
            if least is not None:
                step = max(abs(least), 1.0) * 1e-4
                yield name, parameter, least - step, False
                if found.group("above"):
                    yield name, parameter, least, False
                    yield name, parameter, least + step, True
                else:
                    yield name, parameter, least, True
            if most is not None:
                yield name, parameter, most + max(abs(most), 1.0) * 1e-4, False
                yield name, parameter, most, True


def _id(edge: tuple[str, str, float, bool]) -> str:
    """What a failing test prints."""
    name, parameter, value, _ = edge
    return f"{name}-{parameter}={value:.6g}"


def _formula(name: str) -> Callable[..., object]:
    """The function of a dotted name."""
    module, function = name.split(".")
    found: Callable[..., object] = getattr(
        importlib.import_module(f"builder.formulas.{module}"), function
    )
    return found


@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_the_example_is_in_order(name: str) -> None:
    assert _formula(name)(**EXAMPLES[name]) is not None


@pytest.mark.parametrize(
    ("name", "parameter", "value", "let_in"),
    [
        pytest.param(*edge, id=_id(edge))
        for edge in _edges()
        if _id(edge) not in FORBIDDEN_BY_OTHERS
    ],
)
def test_the_documented_edge_is_the_real_one(
    name: str, parameter: str, value: float, let_in: bool
) -> None:
    call = {**EXAMPLES[name], parameter: value}
    if let_in:
        assert _formula(name)(**call) is not None
        return
    with pytest.raises(ValueError, match=r"must be|never gets so dry|no table gives"):
        _formula(name)(**call)


def test_many_edges_were_found() -> None:
    assert len(list(_edges())) > 500


def test_every_exception_is_an_edge() -> None:
    assert {_id(edge) for edge in _edges()} >= FORBIDDEN_BY_OTHERS
