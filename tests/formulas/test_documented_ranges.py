"""Each range that a docstring tells is the one that the code keeps: its edges are let in, what
lies just outside is not, and the refusal says what it is, how much, in which unit, and the limit.
"""

from __future__ import annotations

import importlib
import inspect
import re
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple

import pytest

import builder.formulas

MIX = {"propane": 0.3, "butane": 0.7}

# A call of each formula that is in order; the edges are tried one at a time from here.
EXAMPLES: dict[str, dict[str, Any]] = {
    "serving.pot_half_ladles": {"pot_ml": 1200.0, "drain_ml": 0.0, "ladle_ml": 120.0},
    "serving.own_half_ladles": {"half_ladles": 20.0, "plate_share": 0.5, "more": 0.0},
    "shopping.as_bought_g": {"edible_g": 100.0, "refuse_share": 0.0},
    "baking.embers_to_bake": {"diameter_cm": 20.0, "baking_c": 175.0},
    "boiling.boiling_point_c": {"pressure_hpa": 1000.0},
    "boiling.time_factor": {"boiling_point_c": 90.0},
    "boiling.boil_hold_min": {"altitude_m": 0.0},
    "air.pressure_hpa": {"altitude_m": 0.0},
    "heat.water_heat_kj": {"volume_ml": 1.0, "from_c": 0.0, "to_c": 130.0},
    "heat.pot_heat_kj": {
        "pot_mass_g": 1.0, "material": "steel", "from_c": -90.0, "to_c": 400.0,
    },
    "heat.snow_to_boil_kj": {"volume_ml": 1.0, "air_low_c": -10.0, "boiling_point_c": 90.0},
    "heat.snow_to_water_kj": {"volume_ml": 1.0, "air_low_c": -10.0},
    "heat.simmer_fuel_kj": {
        "loss_at_boil_w": 1.0, "efficiency_share": 0.5, "lowest_w": 1.0, "duration_min": 1.0,
    },
    "heat.fry_fuel_kj": {"power_w": 1.0, "duration_min": 1.0},
    "heat.fuel_heat_kj": {"heat_kj": 1.0, "efficiency_share": 0.5, "wind_factor": 0.5},
    "heat.heating_min": {
        "heat_kj": 1.0, "efficiency_share": 0.5, "wind_factor": 0.5, "power_w": 1.0,
    },
    "heat.fuel_mass_g": {"fuel_heat_kj": 1.0, "energy_mj_kg": 45.0},
    "heat.whole_units": {"amount": 1.0, "per_unit": 1.0},
    "water.adequate_intake_ml": {"sex": None, "age_years": 30.0},
    "water.drinking_rate_ml_h": {"air_high_c": 20.0, "mass_kg": 70.0},
    "water.water_need_ml": {
        "intake_ml": 1.0, "travel_hours": 1.0, "rate_ml_h": 1.0, "altitude_m": 0.0,
        "air_high_c": 20.0,
    },
    "water.way_water_ml": {"travel_hours": 1.0, "rate_ml_h": 1.0, "intake_ml": 1.0},
    "water.drunk_away_ml": {"to_drink_ml": 1.0, "home_share": 0.5, "way_ml": 0.0},
    "water.water_to_drink_ml": {"need_ml": 1.0, "from_food_ml": 1.0, "intake_ml": 1.0},
    "water.night_water_ml": {"intake_ml": 1.0},
    "drying.dried_mass_g": {"fresh_g": 1.0, "water_share": 0.9, "residual_share": 0.0},
    "drying.residual_share": {"fresh_g": 100.0, "dried_g": 99.0, "water_share": 0.9},
    "drying.water_share_from": {"fresh_g": 100.0, "dried_g": 20.0, "residual_share": 0.1},
    "drying.solids_factor": {"water_share": 0.9, "residual_share": 0.0},
    "drying.rehydration_water_ml": {
        "amount_g": 1.0, "water_share": 0.9, "residual_share": 0.0,
    },
    "drying.moisture_ratio": {"duration_min": 1.0, "rate_per_min": 0.01, "exponent": 1.0},
    "dryness.residual_off_share": {
        "fresh_g": 100.0, "dried_g": 99.0, "water_share": 0.9, "spread_share": 0.015,
        "spreads": 2.0,
    },
    "dryness.dry_by_weight": {"low_share": 0.05, "high_share": 0.15, "limit_share": 0.1},
    "dryness.solids_of_listed": {
        "fresh_g": 100.0, "dried_g": 9.0, "water_share": 0.9, "residual_share": 0.0,
    },
    "dryness.odd_solids_share": {"water_share": 0.9, "spread_share": 0.015},
    "dryness.least_solids_share": {"water_share": 0.9, "spread_share": 0.015},
    "home_drying.learned_ratio": {"table_ratio": 0.2, "own_ratio": (0.25, 0.3)},
    "learning.learned_factor": {"used_ratio": (1.1, 0.9)},
    "home_drying.fresh_to_dry_g": {"dried_g": 100.0, "dried_ratio": 0.2},
    "home_drying.most_on_trays_g": {"trays_cm2": 1000.0, "method": "dehydrator"},
    "home_drying.metered_kwh": {"power_w": 500.0, "run_hours": 10.0, "runs": 1.0},
    "home_drying.usual_kwh": {"water_g": 1000.0, "method": "oven"},
    "home_drying.food_cost": {"fresh_g": 1000.0, "refuse_share": 0.1, "price_per_kg": 2.0},
    "home_drying.machine_cost": {"runs": 2.0, "price": 150.0, "lasts_runs": 400.0},
    "home_drying.pays_after_runs": {"price": 150.0, "own_cost": 10.0, "other_cost": 20.0},
    "home_drying.saved_after_runs": {
        "runs": 20.0, "price": 150.0, "own_cost": 10.0, "other_cost": 20.0,
    },
    "home_drying.room_ml": {"mass_g": 100.0, "density_g_ml": 0.3},
    "keeping.months_kept": {"table_months": 1.0, "kept_at_c": 20.0},
    "keeping.table_months": {
        "group": "plant", "in_bag": True, "fat_g": 1.0, "keeps_months": 4.0,
    },
    "keeping.void_oxygen_ml": {"container_ml": 1.0, "food_ml": 0.0},
    "keeping.bag_swelling": {"pressure_packed_hpa": 1000.0, "pressure_hpa": 800.0},
    "nutrition.energy_kcal": {
        "protein_g": 1.0, "fat_g": 1.0, "carbohydrate_g": 1.0, "fibre_g": 0.0, "alcohol_g": 1.0,
    },
    "nutrition.label_energy_kj": {
        "protein_g": 1.0, "fat_g": 1.0, "carbohydrate_g": 1.0, "fibre_g": 0.0, "alcohol_g": 1.0,
    },
    "nutrition.label_energy_kcal": {
        "protein_g": 1.0, "fat_g": 1.0, "carbohydrate_g": 1.0, "fibre_g": 0.0, "alcohol_g": 1.0,
    },
    "nutrition.salt_g": {"sodium_mg": 1.0},
    "gas.vapour_pressure_kpa": {"gas": "butane", "temperature_c": 0.0},
    "gas.mixture_pressure_kpa": {"mass_shares": MIX, "temperature_c": 0.0},
    "gas.gas_flows": {"mass_shares": MIX, "air_low_c": 0.0, "pressure_hpa": 1000.0},
    "load.least_containers": {"needed_g": 1.0, "containers": [(1e6, 1.0)]},
    "fire.wood_heating_value_mj_kg": {"moisture_share": 0.2},
    "fire.iron_minutes": {"presses": 1.0, "each_side_min": 1.0},
    "fuel_ranges.least_burnt_g": {"likely_g": 100.0, "burns": "gas", "wind": "windy"},
    "fuel_ranges.most_burnt_g": {
        "likely_g": 100.0, "lightings": 2.0, "burns": "liquid", "wind": "breezy",
    },
    "fire.iron_wood_g": {"press_minutes": 1.0},
    "fire.open_fire_lowest_w": {"power_w": 3500.0},
    "fire.open_fire_w": {"volume_ml": 2000.0, "potfuls": 1.0},
    "safety.home_canned_boil_min": {"altitude_m": 1000.0},
    "safety.hours_out_of_cold": {"air_c": 20.0},
    "effort.basal_kcal": {"sex": None, "age_years": 30.0, "mass_kg": 70.0},
    "effort.day_need_kcal": {"basal_kcal": 1.0, "travel_hours": 1.0, "travel_kcal": 1.0},
    "effort.walking_power_w": {
        "body_kg": 70.0, "load_kg": 1.0, "speed_m_s": 1.0, "grade_percent": 1.0, "ground": "road",
    },
    "effort.downhill_power_w": {
        "body_kg": 70.0, "load_kg": 1.0, "speed_m_s": 1.0, "slope_deg": 1.0, "ground": "road",
    },
    "effort.walk_kcal": {
        "body_kg": 70.0, "load_kg": 1.0, "hours": 1.0, "distance_m": 1.0, "ascent_m": 0.0,
        "descent_m": 0.0, "ground": "road",
    },
    "effort.met_kcal": {"met": 1.0, "mass_kg": 70.0, "hours": 1.0},
    "effort.least_travel_kcal": {"basal_kcal": 1.0, "hours": 1.0},
    "effort.eer_2023_kcal": {
        "sex": "male", "age_years": 30.0, "height_cm": 175.0, "mass_kg": 70.0,
        "activity": "active",
    },
    "effort.mifflin_kcal": {
        "sex": "male", "age_years": 30.0, "height_cm": 175.0, "mass_kg": 70.0,
    },
    "drying_curve.water_per_solids": {"water_share": 0.5},
    "drying_curve.moisture_ratio_of": {
        "water_share": 0.5, "start_share": 0.9, "equilibrium_share": 0.1,
    },
    "drying_curve.page_mass_g": {
        "duration_min": 60.0, "start_g": 100.0, "start_share": 0.9, "rate_per_min": 0.01,
        "exponent": 1.0, "equilibrium_share": 0.1,
    },
    "drying_curve.minutes_to_ratio": {
        "moisture_ratio": 0.5, "rate_per_min": 0.01, "exponent": 1.0,
    },
    "drying_curve.look_next_min": {
        "last_min": 120.0, "earliest_min": 300.0, "likely_min": 360.0,
    },
    "sorption.gab_water_per_solids": {
        "water_activity": 0.5, "monolayer": 0.1, "c": 5.0, "k": 0.9,
    },
    "sorption.gab_water_activity": {
        "water_per_solids": 0.05, "monolayer": 0.1, "c": 5.0, "k": 0.9,
    },
    "sorption.water_activity_of": {"group": "lean-meat", "water_share": 0.1},
    "sorption.can_grow": {"water_activity": 0.5},
    "freeze_drying.ice_pressure_pa": {"temperature_c": -20.0},
    "freeze_drying.sublimation_kj_kg": {"temperature_c": -20.0},
    "freeze_drying.sublimation_floor_kj": {"ice_g": 1.0, "loaded_at_c": -20.0, "ice_c": -20.0},
    "freeze_drying.freezing_heat_kj": {
        "load_g": 1.0, "water_share": 0.8, "loaded_at_c": 20.0, "frozen_at_c": -30.0,
    },
    "freeze_drying.load_of_limit": {
        "load_g": 5.0, "ice_g": 0.0, "most_load_g": 4.0, "most_ice_g": 3.0,
    },
    "freeze_drying.layer_mm": {"load_g": 1.0, "density_g_ml": 0.7, "trays_cm2": 900.0},
    "freeze_drying.hours_range": {"thickness_mm": 10.0},
    "rehydration.takes_up_share": {"method": "oven", "kind": "fruit"},
    "rehydration.taken_up_ml": {"lost_ml": 100.0, "takes_up_share": 0.6},
    "rehydration.auto_water_ml": {"lost_ml": 100.0, "takes_up_share": 0.6},
    "rehydration.standing_hours": {"food_c": 20.0, "air_c": 20.0},
    "cooling.cooled_c": {
        "start_c": 90.0, "air_c": 10.0, "duration_min": 5.0, "constant_min": 20.0,
    },
    "cooling.time_constant_min": {"mass_g": 1.0, "specific_heat_kj_kg_k": 1.0, "loss_w_k": 1.0},
    "cooling.minutes_above": {
        "start_c": 90.0, "air_c": 10.0, "constant_min": 20.0, "above_c": 60.0,
    },
    "cooling.siebel_kj_kg_k": {"water_share": 0.5},
    "cooling.loss_range_w_k": {"vessel": "pot-lid", "mass_g": 1.0, "wind": "windy"},
    "packing.solid_volume_ml": {"food_g": 1.0, "water_share": 0.1},
    "packing.pack_oxygen_ml": {"container_ml": 100.0, "food_ml": 0.0, "altitude_m": 0.0},
    "packing.absorber_size_ml": {"oxygen_ml": 1.0},
    "packing.life_used": {"table_months": 1.0, "days": 1.0, "kept_at_c": 20.0},
    "packing.days_left": {"table_months": 1.0, "used_share": 0.0, "kept_at_c": 20.0},
    "pressure_cooking.time_factor_of": {"kind": "grain", "boiling_point_c": 90.0},
    "pressure_cooking.time_factor_range": {"boiling_point_c": 90.0},
    "gas_canister.left_shares": {"mass_shares": MIX, "used_share": 0.5, "temperature_c": 0.0},
    "gas_canister.left_pressure_kpa": {
        "mass_shares": MIX, "used_share": 0.5, "temperature_c": 0.0,
    },
    "gas_canister.usable_share": {
        "mass_shares": MIX, "temperature_c": 0.0, "outside_hpa": 1000.0,
    },
    "cookware.open_pot_range_g": {"fuel_g": 1.0},
    "cookware.snow_l": {"water_ml": 1.0, "snow_kg_m3": 100.0},
    "cookware.snow_potfuls": {"water_ml": 1.0, "snow_kg_m3": 100.0, "pot_ml": 100.0},
    "cookware.efficiency_from_test": {
        "boiled_ml": 1000.0, "from_c": 10.0, "fuel_g": 20.0, "energy_mj_kg": 45.0,
        "altitude_m": 0.0, "pot_mass_g": 100.0,
    },
    "embers.plates_heat_kj": {"iron_g": 1.0, "from_c": 20.0, "to_c": 400.0},
    "embers.preheat_min": {
        "iron_g": 1.0, "face_cm2": 1.0, "from_c": 20.0, "to_c": 400.0, "kw_m2": 1.0,
    },
    "embers.preheat_range_min": {"iron_g": 1.0, "face_cm2": 1.0, "from_c": 20.0, "to_c": 400.0},
    "embers.first_press_min": {
        "each_side_min": 1.0, "iron_g": 1.0, "face_cm2": 1.0, "iron_c": 20.0,
        "wanted_c": 200.0, "kw_m2": 1.0,
    },
    "embers.species_mj_kg": {"species": "oak", "moisture_share": 0.2},
    "embers.wood_range_mj_kg": {"moisture_share": 0.2},
    "labels.eu_energy": {"energy": 1.0},
    "labels.eu_carbohydrate_g": {"carbohydrate_g": 1.0, "fibre_g": 0.0},
    "labels.eu_mass_g": {"mass_g": 1.0},
    "labels.eu_salt_g": {"sodium_mg": 1.0},
    "labels.us_energy_kcal": {"protein_g": 1.0, "fat_g": 1.0, "carbohydrate_g": 1.0},
    "labels.us_calories": {"energy_kcal": 1.0},
    "labels.us_sodium_mg": {"sodium_mg": 1.0},
    "labels.energy_density_kcal_g": {"energy_kcal": 1.0, "mass_g": 1.0},
    "needs.protein_need_g": {"sex": None, "age_years": 30.0, "mass_kg": 60.0},
    "needs.lcda_walk_kcal": {
        "body_kg": 70.0, "load_kg": 10.0, "hours": 2.0, "distance_m": 0.5, "ascent_m": 0.0,
        "descent_m": 0.0,
    },
    "needs.lcda_knows": {
        "hours": 1.0, "distance_m": 1.0, "ascent_m": 0.0, "descent_m": 0.0,
    },
    "needs.active_protein_range_g": {"mass_kg": 60.0},
    "needs.cold_range_kcal": {"need_kcal": 1.0, "air_low_c": 0.0},
    "needs.altitude_range_kcal": {"basal_kcal": 1.0, "altitude_m": 0.0},
    "needs.activity_level": {"need_kcal": 1.0, "basal_kcal": 1.0},
    "needs.activity_of": {"level": 1.5, "age_years": 30.0},
    "needs.held_level": {"need_kcal": 1.0, "basal_kcal": 1.0},
    "needs.lcda_power_w": {
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
    "sweat.sweat_ml_h": {"rate_g_m2_h": 1.0, "surface_m2": 1.0},
    "treatment.bleach_drops": {"volume_ml": 1.0, "strength_share": 0.06},
    "treatment.contact_min": {"chemical": "iodine", "water_c": 20.0},
    "treatment.strict_boil_min": {"altitude_m": 0.0},
}  # fmt: skip

# Edges that cannot be tried one at a time: another value of the call, or what comes of it,
# forbids them first.
FORBIDDEN_BY_OTHERS = {
    "drying.water_share_from-dried_g=0.0001",
    "drying.water_share_from-residual_share=0.98",
    "drying_curve.moisture_ratio_of-start_share=0.1001",
    "drying_curve.moisture_ratio_of-equilibrium_share=0.98",
    "drying_curve.page_mass_g-equilibrium_share=0.98",
    "drying_curve.minutes_to_ratio-exponent=0.0001",
    "sorption.gab_water_activity-monolayer=0.0001",
    "sorption.gab_water_activity-c=0.0001",
    "sorption.gab_water_activity-k=0.0001",
    "cookware.efficiency_from_test-boiled_ml=0.0001",
    "cookware.efficiency_from_test-fuel_g=0.0001",
    "cookware.efficiency_from_test-energy_mj_kg=0.0001",
}

# How a unit of the docstrings is written for people.
_SHOWN = {
    "share": "", "-": "", "money": "", "same unit": "", "kJ or kcal": "", "degC": "°C",
    "deg": "degrees",
    "percent": "%", "m2": "m²", "cm2": "cm²", "W/m2": "W/m²", "kW/m2": "kW/m²",
    "g/(m2 h)": "g/(m² h)", "kg/m3": "kg/m³", "kcal/(kg h)": "MET",
    "1/min ** exponent": "per min", "1/clo": "per clo",
}  # fmt: skip

# "water share now is 0.2; it must be 0.3 to 0.9": plain words, A, B, C or K of an isotherm.
_REFUSAL = re.compile(
    r"^(?:[ABCK] |[a-z])[a-z0-9' -]* is (?P<value>\S+(?: .+)?); it must be (?P<limits>.+)$"
)

# Units written otherwise than in the docstring: with what they refer to, or left out where the
# name of the constant says more.
WRITTEN_UNITS = {
    "keeping.table_months-fat_g": "g in 100 g",
    "home_drying.food_cost-price_per_kg": "",
}

# Refusals that say it another way, because a number and its limits alone would not help.
IN_OWN_WORDS = {
    "treatment.bleach_drops-strength_share": "no table gives drops between 0.015 and 0.04",
    "dryness.residual_off_share-fresh_g": "dried mass is 99 g; it must be less than the fresh 9",
    "drying.residual_share-fresh_g": "dried mass is 99 g; it must be less than the fresh 9",
    "drying.water_share_from-fresh_g": "dried mass is 20 g; it must be less than the fresh ",
    "nutrition.energy_kcal-fibre_g": "part of the total carbohydrate, which is 1 g",
    "nutrition.label_energy_kj-fibre_g": "part of the total carbohydrate, which is 1 g",
    "nutrition.label_energy_kcal-fibre_g": "part of the total carbohydrate, which is 1 g",
    "gas.gas_flows-air_low_c": "temperature of the gas is .*; it must be -70 to 50 °C",
    "cookware.snow_potfuls-pot_ml": "what one unit holds is .*; it must be more than 0",
}

_LIMIT = r"-?\d+(?:\.\d+)?|[a-z]\w*_\w+"
_RANGE = re.compile(
    rf"\[(?P<unit>[^\]]+)\], (?P<above>above )?(?P<least>{_LIMIT})"
    rf"(?: to (?P<most>{_LIMIT})| or more)?(?=[.;,:(\s]|$)"
)


class _Edge(NamedTuple):
    """A value at or beside a limit, the limit, its unit, and whether the value is let in."""

    value: float
    limit: float
    unit: str
    let_in: bool


def blocks(doc: str, kinds: Sequence[str] = ("float",)) -> Iterator[tuple[str, str]]:
    """Each parameter of a docstring of these kinds and its text on one line."""
    section = doc.split("Parameters\n----------\n")[1].split("\n\nReturns")[0]
    for block in re.split(r"\n(?=\w)", section):
        head, _, text = block.partition("\n")
        name, _, kind = head.partition(" : ")
        if kind in kinds:
            yield name, " ".join(text.split())


def told_range(text: str) -> re.Match[str] | None:
    """Unit and limits of a parameter, where its docstring tells them."""
    return _RANGE.search(text)


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


def _edges(name: str, parameter: str) -> Iterator[_Edge]:
    """The edges of one parameter, as its docstring tells them."""
    call = EXAMPLES[name]
    text = dict(blocks(inspect.getdoc(_formula(name)) or "")).get(parameter, "")
    told = told_range(text)
    if told is None:
        return
    unit = told["unit"]
    least, most = (_number(told[each], call) for each in ("least", "most"))
    if least is not None:
        step = max(abs(least), 1.0) * 1e-4
        yield _Edge(least - step, least, unit, False)
        if told["above"]:
            yield _Edge(least, least, unit, False)
            yield _Edge(least + step, least, unit, True)
        else:
            yield _Edge(least, least, unit, True)
    if most is not None:
        yield _Edge(most + max(abs(most), 1.0) * 1e-4, most, unit, False)
        yield _Edge(most, most, unit, True)


def _id(name: str, parameter: str, edge: _Edge) -> str:
    """What an exception is called."""
    return f"{name}-{parameter}={edge.value:.6g}"


def _formula(name: str) -> Callable[..., object]:
    """The function of a dotted name."""
    module, function = name.split(".")
    found: Callable[..., object] = getattr(
        importlib.import_module(f"builder.formulas.{module}"), function
    )
    return found


def _check_words(message: str, edge: _Edge, unit: str) -> None:
    """A refusal tells a person what is wrong, how much it is, in which unit, and the limit."""
    read = _REFUSAL.match(message)
    assert read, message
    shown = f" {unit}" if unit else ""
    assert read["value"] == f"{edge.value:.10g}{shown}", message
    assert read["limits"].endswith((shown, f"{shown} or more")), message
    numbers = [float(each) for each in re.findall(r"-?\d[\d.e+-]*", read["limits"])]
    assert edge.limit in [pytest.approx(each, rel=1e-9, abs=1e-12) for each in numbers], message


def _try_edge(name: str, parameter: str, edge: _Edge) -> None:
    """An edge is let in, or refused in words that a person can use."""
    call = {**EXAMPLES[name], parameter: edge.value}
    if edge.let_in:
        assert _formula(name)(**call) is not None
        return
    with pytest.raises(ValueError) as refusal:
        _formula(name)(**call)
    message, own = str(refusal.value), IN_OWN_WORDS.get(f"{name}-{parameter}")
    if own is None or not re.search(own, message):
        shown = _SHOWN.get(edge.unit, edge.unit)
        _check_words(message, edge, WRITTEN_UNITS.get(f"{name}-{parameter}", shown))


@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_the_documented_edges_are_the_real_ones(name: str) -> None:
    assert _formula(name)(**EXAMPLES[name]) is not None
    for parameter in EXAMPLES[name]:
        for edge in _edges(name, parameter):
            if _id(name, parameter, edge) not in FORBIDDEN_BY_OTHERS:
                _try_edge(name, parameter, edge)


def test_many_edges_were_found() -> None:
    assert len(_all_ids()) > 700


def test_no_formula_with_a_range_was_left_out() -> None:
    for path in sorted(Path(builder.formulas.__file__).parent.glob("[a-z]*.py")):
        module = importlib.import_module(f"builder.formulas.{path.stem}")
        for name, formula in inspect.getmembers(module, inspect.isfunction):
            if formula.__module__ != module.__name__ or name.startswith("_"):
                continue
            if any(told_range(text) for _, text in blocks(inspect.getdoc(formula) or "")):
                assert f"{path.stem}.{name}" in EXAMPLES


def test_every_exception_is_an_edge() -> None:
    assert _all_ids() >= FORBIDDEN_BY_OTHERS


def _all_ids() -> set[str]:
    """Every edge by its name."""
    return {
        _id(name, parameter, edge)
        for name, call in EXAMPLES.items()
        for parameter in call
        for edge in _edges(name, parameter)
    }
