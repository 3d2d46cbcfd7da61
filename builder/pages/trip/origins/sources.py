"""The page of sources: what each publication checks, and how its figures are known."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path

from builder.model.kit import Kit
from builder.model.source import Source
from builder.record import dataclass
from builder.speech import Speech, later, speech_of

CHECKED_NAME = "checked_against.json"
_PRACTICE = "common-practice"
_WORKED_OUT = "calculated"
# How a source is known, and what follows from it by arithmetic or by a general library.
KNOWN = {
    "read": later("read"),
    "copy": later("read in a copy"),
    "memory": later("quoted from memory"),
    "practice": later("common practice"),
    _WORKED_OUT: later("worked out"),
}


@dataclass(frozen=True, slots=True)
class Checked:
    """What the project's tests hold against one source: figures by formula and how known."""

    source: Source
    figures: Mapping[str, Mapping[str, int]]


@dataclass(frozen=True, slots=True)
class CheckedSource:
    """A source under one subject; only where it is named first can it be led to."""

    anchor: str
    title: str
    whose: str
    url: str
    checks: str


@dataclass(frozen=True, slots=True)
class CheckedSubject:
    """Sources that check one subject."""

    title: str
    anchor: str
    sources: tuple[CheckedSource, ...]


@dataclass(frozen=True, slots=True)
class SourcesPage:
    """What the arithmetic is checked against."""

    figures: str
    publications: str
    subjects: tuple[CheckedSubject, ...]


# What each formula works out, in plain words, under the subject it belongs to.
SUBJECTS: Mapping[str, Mapping[str, str]] = {
    later("Drying and soaking"): {
        "drying.dried_mass_g": later("weight once dry"),
        "drying.residual_share": later("water left in dried food"),
        "drying.least_residual_share": later("water left in dried food"),
        "drying.usual_residual_share": later("water usually left"),
        "drying.water_share_from": later("water in fresh food"),
        "drying.solids_factor": later("solids in a gram of dried food"),
        "drying.rehydration_water_ml": later("water that puts it back"),
        "drying.dry_enough_share": later("when food is dry enough"),
        "dryness.residual_off_share": later("what the spread of listed water leaves open"),
        "dryness.dry_by_weight": later("when food is dry enough"),
        "dryness.solids_of_listed": later("weights that hardly can be"),
        "dryness.odd_solids_share": later("weights that hardly can be"),
        "dryness.least_solids_share": later("weights that hardly can be"),
        "drying.moisture_ratio": later("drying over time"),
        "drying_curve.moisture_ratio_of": later("drying over time"),
        "drying_curve.page_mass_g": later("weight while drying"),
        "drying_curve.minutes_to_ratio": later("drying time"),
        "drying_curve.look_next_min": later("when to look at a load"),
        "drying_curve.water_per_solids": later("water for each gram of solids"),
        "heat_drying.AIR_C": later("how warm the dryer is set"),
        "heat_drying.PIECES_MM": later("how thick pieces are cut"),
        "heat_drying.BOIL_MIN": later("blanching time"),
        "heat_drying.HOURS": later("drying time"),
        "heat_drying.SUN_AIR_C": later("weather for drying in the sun"),
        "freeze_drying.hours_range": later("hours in the freeze dryer"),
        "freeze_drying.ice_pressure_pa": later("vapour pressure of ice"),
        "freeze_drying.ice_temperature_c": later("temperature of ice in a vacuum"),
        "freeze_drying.sublimation_kj_kg": later("heat that freeze-drying takes"),
        "freeze_drying.sublimation_floor_kj": later("heat that freeze-drying takes"),
        "freeze_drying.freezing_heat_kj": later("heat to freeze a load"),
        "home_drying.learned_ratio": later("weight learned from own batches"),
        "home_drying.fresh_to_dry_g": later("fresh food to dry"),
        "home_drying.most_on_trays_g": later("load of the trays"),
        "home_drying.metered_kwh": later("current of a dryer"),
        "home_drying.usual_kwh": later("current of a dryer of unknown power"),
        "home_drying.food_cost": later("price of the food"),
        "home_drying.machine_cost": later("price of a dryer for each run"),
        "home_drying.pays_after_runs": later("runs until a dryer has paid"),
        "home_drying.saved_after_runs": later("money that a dryer has saved"),
        "home_drying.bulk_density_g_ml": later("how closely pieces lie"),
        "home_drying.room_ml": later("room that food takes"),
        "home_drying.vitamin_c_kept_share": later("vitamin C that is left"),
        "freeze_drying.load_of_limit": later("what a freeze dryer can take"),
        "rehydration.takes_up_share": later("water taken up while soaking"),
        "rehydration.taken_up_ml": later("water taken up while soaking"),
        "rehydration.auto_water_ml": later("water to put back"),
        "rehydration.soak_range_min": later("soaking time"),
    },
    later("Keeping and packing"): {
        "keeping.table_months": later("keeping time by kind of food"),
        "keeping.months_kept": later("keeping time by warmth"),
        "packing.life_used": later("keeping time over several places"),
        "packing.days_left": later("keeping time over several places"),
        "keeping.void_oxygen_ml": later("oxygen in a pack"),
        "packing.pack_oxygen_ml": later("oxygen in a pack"),
        "packing.absorber_size_ml": later("sizes of oxygen absorbers"),
        "packing.solid_volume_ml": later("room that dried food takes"),
        "keeping.bag_swelling": later("how bags swell with height"),
        "shopping.as_bought_g": later("what to buy with peel and stones"),
        "sorption.gab_water_per_solids": later("water that food takes from damp air"),
        "sorption.gab_water_activity": later("water activity of dried food"),
        "sorption.water_activity_of": later("water activity of dried food"),
        "sorption.can_grow": later("what can grow in food"),
    },
    later("Safe food"): {
        "safety.centre_temperature_c": later("temperature in the middle"),
        "safety.heated_before_drying_c": later("heating meat before drying"),
        "safety.hours_out_of_cold": later("time out of the cold"),
        "safety.home_canned_boil_min": later("boiling home-canned food"),
        "rehydration.standing_hours": later("how long soaked food may stand"),
    },
    later("Height and boiling"): {
        "air.pressure_hpa": later("air pressure at a height"),
        "air.altitude_m": later("height from air pressure"),
        "boiling.boiling_point_c": later("boiling point"),
        "boiling.time_factor": later("cooking time at a height"),
        "pressure_cooking.time_factor_of": later("cooking time by kind of food"),
        "pressure_cooking.time_factor_range": later("cooking time by kind of food"),
    },
    later("Water and sweat"): {
        "water.adequate_intake_ml": later("water a person needs"),
        "water.water_need_ml": later("water on a day of travel"),
        "water.way_water_ml": later("water for the way"),
        "water.drunk_away_ml": later("water on a day that is partly at home"),
        "water.water_to_drink_ml": later("what is left to drink"),
        "water.night_water_ml": later("water for the night"),
        "water.drinking_rate_ml_h": later("drinking on the way"),
        "sweat.body_surface_m2": later("surface of a body"),
        "sweat.saturation_hpa": later("water vapour in air"),
        "sweat.required_evaporation_w_m2": later("cooling by sweat"),
        "sweat.most_evaporation_w_m2": later("cooling by sweat"),
        "sweat.osec_g_m2_h": later("sweat in an hour"),
        "sweat.sweat_ml_h": later("sweat in an hour"),
        "boiling.boil_hold_min": later("boiling water to make it safe"),
        "treatment.strict_boil_min": later("boiling water to make it safe"),
        "treatment.bleach_drops": later("drops of bleach"),
        "treatment.contact_min": later("waiting time of treated water"),
    },
    later("Heat and fuel"): {
        "heat.water_heat_kj": later("heat for water"),
        "heat.pot_heat_kj": later("heat for a pot"),
        "heat.snow_to_boil_kj": later("heat for snow"),
        "heat.snow_to_water_kj": later("heat for snow"),
        "cookware.snow_l": later("snow for an amount of water"),
        "cookware.snow_potfuls": later("snow for an amount of water"),
        "heat.heating_min": later("minutes to boil"),
        "heat.simmer_fuel_kj": later("fuel to simmer"),
        "heat.fry_fuel_kj": later("fuel to fry"),
        "heat.fuel_mass_g": later("weight of fuel"),
        "cookware.efficiency_from_test": later("heat that reaches the pot"),
        "cookware.open_pot_range_g": later("fuel without a lid"),
        "gas.vapour_pressure_kpa": later("pressure in a gas canister"),
        "gas.mixture_pressure_kpa": later("pressure in a gas canister"),
        "gas_canister.left_pressure_kpa": later("pressure in a gas canister"),
        "gas.gas_flows": later("gas in the cold"),
        "gas_canister.left_shares": later("what is left in a canister"),
        "gas_canister.usable_share": later("what is left in a canister"),
        "fire.wood_heating_value_mj_kg": later("heat in wood"),
        "fuels.energy_mj_kg": later("heat in fuels"),
        "embers.species_mj_kg": later("heat in wood"),
        "embers.wood_range_mj_kg": later("heat in wood"),
        "baking.embers_to_bake": later("embers to bake with"),
        "embers.HAND_TEST": later("heat of embers by the hand test"),
        "embers.plates_heat_kj": later("heating an iron"),
        "embers.preheat_min": later("heating an iron"),
        "embers.preheat_range_min": later("heating an iron"),
        "embers.first_press_min": later("minutes at the iron"),
        "fire.iron_minutes": later("minutes at the iron"),
        "fire.iron_wood_g": later("wood for the iron"),
        "serving.pot_half_ladles": later("ladles of each"),
        "serving.own_half_ladles": later("ladles of each"),
        "learning.learned_factor": later("what earlier trips taught"),
        "fuel_ranges.least_burnt_g": later("how far fuel differs"),
        "fuel_ranges.most_burnt_g": later("how far fuel differs"),
        "fire.open_fire_lowest_w": later("an open fire"),
        "fire.open_fire_w": later("an open fire"),
        "cooling.cooled_c": later("how food cools"),
        "cooling.minutes_above": later("how food cools"),
        "cooling.time_constant_min": later("how food cools"),
        "cooling.siebel_kj_kg_k": later("heat that food holds"),
    },
    later("Food value and labels"): {
        "nutrition.energy_kcal": later("energy of food"),
        "labels.energy_density_kcal_g": later("energy for each gram carried"),
        "nutrition.label_energy_kj": later("energy on labels"),
        "nutrition.label_energy_kcal": later("energy on labels"),
        "labels.us_energy_kcal": later("energy on labels"),
        "nutrition.salt_g": later("salt on labels"),
        "labels.eu_carbohydrate_g": later("carbohydrate on labels"),
        "labels.eu_energy": later("rounding on labels"),
        "labels.eu_mass_g": later("rounding on labels"),
        "labels.eu_salt_g": later("rounding on labels"),
        "labels.us_calories": later("rounding on labels"),
        "labels.us_sodium_mg": later("rounding on labels"),
    },
    later("Energy, needs and walking"): {
        "effort.basal_kcal": later("energy at rest"),
        "effort.mifflin_kcal": later("energy at rest"),
        "effort.eer_2023_kcal": later("energy of a day at home"),
        "needs.held_level": later("how active a day is"),
        "effort.day_need_kcal": later("energy of a day of travel"),
        "effort.least_travel_kcal": later("energy of a day of travel"),
        "effort.met_kcal": later("energy of activities"),
        "needs.activity_level": later("how active a day is"),
        "needs.activity_of": later("how active a day is"),
        "effort.walking_power_w": later("walking with a load"),
        "effort.walk_kcal": later("walking with a load"),
        "effort.downhill_power_w": later("walking downhill"),
        "needs.lcda_power_w": later("walking up and down"),
        "needs.lcda_walk_kcal": later("walking up and down"),
        "needs.lcda_knows": later("walking up and down"),
        "needs.cold_range_kcal": later("energy that cold adds"),
        "needs.altitude_range_kcal": later("energy that height adds"),
        "needs.pregnancy_kcal": later("energy in pregnancy"),
        "needs.nursing_kcal": later("energy while nursing"),
        "needs.protein_need_g": later("protein in a day"),
        "needs.active_protein_range_g": later("protein in a day"),
    },
}


def read_checked(templates: Path) -> tuple[Checked, ...]:
    """Read what the project's tests hold against which source."""
    rows = json.loads((templates / CHECKED_NAME).read_text("utf-8"))
    return tuple(Checked(Source(**row["source"]), row["figures"]) for row in rows)


def sources_page(kit: Kit, checked: Sequence[Checked]) -> SourcesPage:
    """Give what the arithmetic is checked against."""
    say = speech_of(kit.language)
    named: set[str] = set()
    subjects = []
    for number, (title, words) in enumerate(SUBJECTS.items(), start=1):
        sources = []
        for each in checked:
            if words.keys() & each.figures.keys():
                sources.append(_checked_source(say, each, words, each.source.id not in named))
                named.add(each.source.id)
        subjects.append(CheckedSubject(say(title), f"subject-{number}", tuple(sources)))
    figures = sum(sum(known.values()) for each in checked for known in each.figures.values())
    return SourcesPage(
        say.number(figures),
        say.number(sum(each.source.id != _PRACTICE for each in checked)),
        tuple(subjects),
    )


def checked_at(source: Source, checked: Sequence[Checked]) -> str:
    """Give where the page of sources tells what a source checks; "" where it checks nothing."""
    told = any(each.source.id == source.id for each in checked)
    return f"sources.md#{_anchor(source)}" if told else ""


def _anchor(source: Source) -> str:
    return f"checked-{source.id}"


def _checked_source(
    say: Speech, each: Checked, words: Mapping[str, str], is_first: bool
) -> CheckedSource:
    source = each.source
    whose = (source.publisher, str(source.year or ""))
    figures, known = known_said(say, each, words)
    return CheckedSource(
        _anchor(source) if is_first else "",
        source.title,
        ", ".join(part for part in whose if part),
        source.url,
        say.count(
            "{n} figure ({known}) checks {what}.",
            "{n} figures ({known}) check {what}.",
            figures,
            known=known,
            what=checks_said(say, each, words),
        ),
    )


def checks_said(say: Speech, each: Checked, words: Mapping[str, str]) -> str:
    """Tell what a source checks among some formulas, in their order, each thing once."""
    told = (said for formula, said in words.items() if formula in each.figures)
    return ", ".join(say(said) for said in dict.fromkeys(told))


def known_said(say: Speech, each: Checked, words: Mapping[str, str]) -> tuple[int, str]:
    """Count the figures of a source among some formulas, and tell how they are known."""
    counts: dict[str, int] = {}
    for how in KNOWN:
        found = sum(known.get(how, 0) for at, known in each.figures.items() if at in words)
        if found:
            counts[how] = found
    figures = sum(counts.values())
    if len(counts) > 1:
        known = (f"{say.number(found)} {say(KNOWN[how])}" for how, found in counts.items())
        return figures, ", ".join(known)
    (how,) = counts
    if how == _WORKED_OUT:
        return figures, say("worked out; source: {known}", known=say(KNOWN[each.source.how]))
    return figures, say(KNOWN[how])
