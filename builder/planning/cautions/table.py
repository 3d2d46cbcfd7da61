"""Which cautions a trip shows: one predicate for each text in content/cautions."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from builder.model.kit import KitCaution
from builder.model.source import LEVELS, CautionText
from builder.planning.cautions.facts import Facts, Finding, once_each
from builder.planning.cautions.food import (
    dryers,
    dryness,
    fresh,
    keeping,
    not_for_them,
    poisons,
    raw,
    standing,
)
from builder.planning.cautions.outdoors import camp, fuel, heat, height, loads, people, water
from builder.units import other_system

STANDING = "standing"

PREDICATES: dict[str, Callable[[Facts], Iterator[Finding]]] = {
    "not-to-be-eaten": people.not_to_be_eaten,
    "allergen-beside": people.allergen_beside,
    "allergens-not-told": people.allergens_not_told,
    "may-contain": people.may_contain,
    "alcohol": not_for_them.alcohol,
    "liver": not_for_them.liver,
    "raw-milk-and-soft-cheese": not_for_them.raw_milk_and_soft_cheese,
    "cured-raw": not_for_them.cured_raw,
    "raw-fish": not_for_them.raw_fish,
    "choking": not_for_them.choking,
    "caffeine": not_for_them.caffeine,
    "raw-dried-animal-food": raw.raw_dried_animal_food,
    "raw-animal-food": raw.raw_animal_food,
    "raw-animal-food-eaten": raw.raw_animal_food_eaten,
    "game-not-heated": raw.game_not_heated,
    "freshwater-fish-not-heated": raw.freshwater_fish_not_heated,
    "raw-and-cooked-in-one-run": dryers.raw_and_cooked_in_one_run,
    "reach-above-boiling": raw.reach_above_boiling,
    "raw-loose-dried": dryness.raw_loose_dried,
    "sun-dried-meat": dryness.sun_dried_meat,
    "sun-dried-vegetables": dryers.sun_dried_vegetables,
    "overloaded-dryer": dryers.overloaded_dryer,
    "no-best-before": dryness.no_best_before,
    "egg-and-dairy-by-heat": dryness.egg_and_dairy_by_heat,
    "low-oxygen-wet": dryness.low_oxygen_wet,
    "not-dry-enough": dryness.not_dry_enough,
    "dry-it-on": dryness.dry_it_on,
    "not-dried-yet": dryness.not_dried_yet,
    "jerky-not-heated": dryness.jerky_not_heated,
    "animal-food-past-best-before": keeping.animal_food_past_best_before,
    "past-best-before": keeping.past_best_before,
    "start-not-told": keeping.start_not_told,
    "dryness-not-proven": dryness.dryness_not_proven,
    "low-oxygen-meat": dryness.low_oxygen_meat,
    "low-oxygen-moist": dryness.low_oxygen_moist,
    "kidney-beans": poisons.raw_beans,
    "not-cooked": poisons.uncooked,
    "wild-mushrooms": poisons.gathered_mushrooms,
    "wild-plants": poisons.gathered_plants,
    "gathered-shellfish": poisons.gathered_shellfish,
    "garlic-in-oil": poisons.garlic_in_oil,
    "home-canned": poisons.home_canned,
    "raw-sprouts": poisons.raw_sprouts,
    "honey-and-babies": people.honey_and_babies,
    "infant-formula": poisons.infant_formula,
    "nuts-and-small-children": not_for_them.nuts_and_small_children,
    "small-children": people.small_children,
    "older-people": people.older_people,
    "pregnancy": people.pregnancy,
    "animal-food-carried-warm": fresh.animal_food_carried_warm,
    "plant-food-carried-warm": fresh.plant_food_carried_warm,
    "animal-food-standing": standing.animal_food_standing,
    "plant-food-standing": standing.plant_food_standing,
    "two-hours": standing.two_hours,
    "leftovers": standing.leftovers,
    "clean-hands": camp.clean_hands,
    "carbon-monoxide": heat.carbon_monoxide,
    "hut-flue": heat.hut_flue,
    "fire-and-embers": heat.fire_and_embers,
    "hot-fat": heat.hot_fat,
    "hot-iron": heat.hot_iron,
    "gas-in-the-cold": fuel.gas_in_the_cold,
    "gas-left-in-the-can": fuel.gas_left_in_the_can,
    "fuel-too-cold": fuel.fuel_too_cold,
    "gas-and-heat": fuel.gas_and_heat,
    "windscreen-and-gas": fuel.windscreen_and_gas,
    "refuelling": fuel.refuelling,
    "untreated-water": water.untreated_water,
    "filter-limits": water.filter_limits,
    "chemical-limits": water.chemical_limits,
    "boil-longer": water.boil_longer,
    "boil-water": water.boil_water,
    "chemicals-near": water.chemicals_near,
    "algae": water.algae,
    "frozen-filter": water.frozen_filter,
    "weather-not-told": water.weather_not_told,
    "long-dry-stretch": water.long_dry_stretch,
    "melting-snow": water.melting_snow,
    "height-gained-fast": height.height_gained_fast,
    "thin-air": height.thin_air,
    "heat-illness": water.heat_illness,
    "over-drinking": water.over_drinking,
    "depot": camp.depot,
    "animals-and-food": camp.animals_and_food,
    "dishwater": camp.dishwater,
    "heavy-load": loads.heavy_load,
    "energy-short": loads.energy_short,
    "energy-short-day": loads.energy_short_day,
}


def cautions_of(facts: Facts, texts: Mapping[str, CautionText]) -> tuple[KitCaution, ...]:
    """Give every caution whose condition holds, the most dangerous first."""
    found = [
        _caution(facts, texts[name], finding)
        for name, predicate in PREDICATES.items()
        if name in texts
        for finding in once_each(predicate(facts))
    ]
    order = list(PREDICATES)
    found.sort(key=lambda each: (LEVELS.index(each.level), order.index(each.id)))
    return tuple(found)


def _caution(facts: Facts, told: CautionText, finding: Finding) -> KitCaution:
    """Give a caution with its reason, its quantities in the units of the trip and in the others."""
    say, units = facts.say, facts.trip.units
    text, otherwise = (say.in_units(told.text, each) for each in (units, other_system(units)))
    differs = otherwise != text
    return KitCaution(
        id=told.id,
        level=told.level,
        title=told.title,
        text=text,
        because=finding.because,
        where=finding.where,
        sources=told.sources,
        at=finding.at,
        aloud=told.aloud,
        otherwise=otherwise if differs else "",
        in_both=say.in_both(told.text, units) if differs else "",
    )
