"""What a figure is called where it stands among those of its day, meal, person or batch."""

from __future__ import annotations

import re

from builder.formulas.declaring import FORMULAS
from builder.pages.trip.origins.sources import SUBJECTS
from builder.planning.graph import Node, is_inner
from builder.speech import Speech, later

# An end of a range is called as the range is.
_END = re.compile(r"(?<=\.)(least|likely|most)_(?=\w+_)|_range")
# What each formula works out, in plain words, as the page of sources tells it.
_WORDS = {
    _END.sub("", formula): said for each in SUBJECTS.values() for formula, said in each.items()
}
_NUMBERS = re.compile(r"\.\d+(?=\.|$)")
_TITLES = {
    "days.#.pressure_hpa": later("Air pressure"),
    "days.#.boiling_point_c": later("Water boils at"),
    "days.#.time_factor": later("Cooking takes so many times longer"),
    "days.#.camp_altitude_m": later("Height of the camp"),
    "days.#.air_low_c": later("Lowest air"),
    "days.#.air_high_c": later("Highest air"),
    "days.#.water_c": later("Water comes this cold"),
    "days.#.energy_kcal": later("Food energy"),
    "days.#.energy_need_kcal": later("What all need"),
    "days.#.minutes": later("Time at the pot"),
    "days.#.fuel_g": later("Fuel"),
    "days.#.wood_g": later("Wood"),
    "days.#.fuel_low_g": later("Fuel, at least"),
    "days.#.fuel_high_g": later("Fuel, at most"),
    "days.#.wood_low_g": later("Wood, at least"),
    "days.#.wood_high_g": later("Wood, at most"),
    "days.#.heat.meals_kj": later("Fuel heat for meals"),
    "days.#.heat.melting_kj": later("Fuel heat to melt snow"),
    "days.#.heat.boiling_water_kj": later("Fuel heat to make water safe"),
    "days.#.travel.between_water_h": later("Longest stretch without water"),
    "days.#.travel.hours": later("Time on the way"),
    "days.#.travel.distance_m": later("Way"),
    "days.#.travel.ascent_m": later("Ascent"),
    "days.#.travel.descent_m": later("Descent"),
    "days.#.travel.legs.#.hours": later("Time on the way"),
    "days.#.travel.legs.#.distance_m": later("Way"),
    "days.#.travel.legs.#.ascent_m": later("Ascent"),
    "days.#.travel.legs.#.descent_m": later("Descent"),
    "days.#.water.cooking_ml": later("Water to cook with"),
    "days.#.water.drinks_ml": later("Water for hot drinks"),
    "days.#.water.drinking_ml": later("Water to drink besides food and hot drinks"),
    "days.#.water.washing_ml": later("Water to wash with"),
    "days.#.water.total_ml": later("All water"),
    "days.#.water.carry_ml": later("Most water carried at once"),
    "days.#.water.minutes": later("Time to melt snow and make water safe"),
    "days.#.water.treat_ml": later("Water to make safe"),
    "days.#.water.boil_ml": later("Water to boil to make it safe"),
    "days.#.people.#.energy_need_kcal": later("Energy need"),
    "days.#.people.#.basal_kcal": later("Energy at rest"),
    "days.#.people.#.travel_kcal": later("Energy on the way"),
    "days.#.people.#.travel_low_kcal": later("Energy on the way, at least"),
    "days.#.people.#.travel_high_kcal": later("Energy on the way, at most"),
    "days.#.people.#.protein_need_g": later("Protein need"),
    "days.#.people.#.food_g": later("Food on their plates"),
    "days.#.people.#.food_kcal": later("Energy on their plates"),
    "days.#.people.#.food_protein_g": later("Protein on their plates"),
    "days.#.people.#.load_g": later("Load on the way"),
    "days.#.people.#.intake_ml": later("Water on a quiet day"),
    "days.#.people.#.rate_ml_h": later("Drinks on the way"),
    "days.#.people.#.water_need_ml": later("Water need"),
    "days.#.people.#.water_from_food_ml": later("Water out of food"),
    "days.#.people.#.to_drink_ml": later("To drink"),
    "days.#.meals.#.mass_g": later("Food as carried"),
    "days.#.meals.#.packaging_g": later("Packaging"),
    "days.#.meals.#.energy_kcal": later("Food energy"),
    "days.#.meals.#.water_ml": later("Water that goes in"),
    "days.#.meals.#.soak_water_ml": later("Water to soak with"),
    "days.#.meals.#.food_water_ml": later("Water drunk with the food"),
    "days.#.meals.#.drain_ml": later("Water poured off"),
    "days.#.meals.#.potfuls": later("Potfuls"),
    "days.#.meals.#.presses": later("Presses"),
    "days.#.meals.#.heat_kj": later("Heat into the pot"),
    "days.#.meals.#.fuel_heat_kj": later("Heat out of the fuel"),
    "days.#.meals.#.wood_g": later("Wood"),
    "days.#.meals.#.minutes": later("Time to cook"),
    "days.#.meals.#.embers_min": later("Time until there are embers"),
    "days.#.meals.#.reach_c": later("Reach in the middle"),
    "batches.#.fresh_g": later("Weight before drying"),
    "batches.#.dried_g": later("Weight once dry"),
    "batches.#.water_share": later("Water in the fresh food"),
    "batches.#.water_removed_g": later("Water taken out"),
    "batches.#.water_back_ml": later("Water to put back"),
    "batches.#.taken_up_ml": later("Water it takes up again"),
    "batches.#.residual_moisture": later("Moisture left"),
    "batches.#.residual_low": later("Moisture left, at least"),
    "batches.#.residual_high": later("Moisture left, at most"),
    "batches.#.target_g": later("Dry enough at"),
    "batches.#.to_go_g": later("Still to go"),
    "batches.#.months": later("Keeps"),
    "batches.#.pack_g": later("A pack"),
    "batches.#.packs_left": later("Packs left"),
    "batches.#.sublimation_kwh": later("Least energy to freeze-dry"),
    "batches.#.water_activity": later("Water activity"),
    "energy_need_kcal": later("What all need, over the trip"),
    "nutrition.energy_kcal": later("Food energy of the trip"),
    "fuel.likely_g": later("Likely fuel"),
    "fuel.carry_g": later("Fuel to take"),
    "fuel.low_g": later("Fuel, at least"),
    "fuel.high_g": later("Fuel, at most"),
    "fuel.no_lid_low_g": later("Fuel without lids, at least"),
    "fuel.no_lid_high_g": later("Fuel without lids, at most"),
    "fuel.efficiency_share": later("Heat of the fuel that reaches the pot"),
    "fuel.energy_mj_kg": later("Heat in the fuel"),
    "fuel.reserve_share": later("Reserve"),
    "wood.likely_g": later("Wood of the trip"),
    "wood.low_g": later("Wood, at least"),
    "wood.high_g": later("Wood, at most"),
    "weights.food_g": later("All food"),
    "weights.packaging_g": later("What the food is packed in"),
    "weights.fuel_g": later("Fuel with its containers, full"),
    "weights.gear_g": later("Shared gear, stove, pots and irons"),
    "weights.water_most_g": later("Most water carried at once"),
    "weights.food_left_g.#": later("Food left each morning"),
    "weights.fuel_left_g.#": later("Fuel left each morning, with its containers"),
    "weights.by_day_g.#": later("The party's load each morning"),
    "weights.depots.#.mass_g": later("What waits at a camp"),
    "weights.people.#.total_g": later("Pack at its heaviest"),
    "weights.people.#.limit_g": later("Carries to"),
    "weights.people.#.of_limit": later("Pack against the limit"),
    "weights.people.#.food_left_g.#": later("Food in the pack each morning"),
    "weights.people.#.by_day_g.#": later("Pack each morning"),
    "trip.party.#.energy_need_kcal": later("Energy need over the trip"),
    "trip.party.#.energy_share": later("Share of a common pot"),
    "days.#.meals.#.eaters": later("Eaters"),
    "days.#.meals.#.ingredients.#.amount_g": later("An ingredient"),
    "days.#.meals.#.ingredients.#.packs": later("Packs of an ingredient"),
    "days.#.meals.#.plate_shares.#": later("Share of the pot"),
    "days.#.meals.#.steps.#.minutes": later("Time of a step"),
    "days.#.meals.#.steps.#.minutes_at_sea_level": later("Time of a step at the sea's level"),
    "days.#.meals.#.steps.#.each_side_min": later("Time on each side"),
    "days.#.meals.#.steps.#.pieces": later("Pieces"),
    "days.#.meals.#.steps.#.baking_c": later("Baking temperature"),
    "days.#.meals.#.steps.#.ember_pieces": later("Embers to bake with"),
    "days.#.meals.#.steps.#.ember_pieces_below": later("Of them below the pot"),
    "days.#.meals.#.steps.#.palm_s": later("So long a palm stands the embers"),
    "days.#.meals.#.steps.#.presses": later("Presses of a step"),
    "days.#.meals.#.steps.#.water_ml": later("Water of a step"),
    "batches.#.loaded_at_c": later("Temperature when loaded"),
    "batches.#.water_activity_low": later("Water activity, at least"),
    "batches.#.water_activity_high": later("Water activity, at most"),
    "batches.#.dry_limit": later("Moisture at which it is dry"),
    "batches.#.packs_used": later("Packs eaten"),
    "fuel.containers.#.holds_g": later("A container holds"),
    "fuel.containers.#.empty_g": later("A container, empty"),
    "fuel.containers.#.count": later("Containers"),
    "shopping.#.mass_g": later("To buy or dry"),
    "shopping.#.buy_g": later("To buy, as sold"),
    "shopping.#.dried_g": later("The same, dried"),
    "trip.mug_ml": later("A mug holds"),
    "weights.people.#.carries.#.mass_g": later("One thing to carry"),
    "bags_swell_times": later("Closed bags grow so many times"),
    "days.#.cold_gas.can_kpa": later("Pressure in a full can"),
    "days.#.cold_gas.usable_share": later("Gas that comes out in the cold"),
    "days.#.cold_gas.wanted_kpa": later("Pressure that the burner needs"),
    "density_kcal_g": later("Energy in each gram of food"),
    "trip.party.#.energy_by_method.kcal_by_source.schofield1985": later(
        "Energy of a mean day, by its hours"
    ),
    "trip.party.#.energy_by_method.kcal_by_source.nasem2023": later(
        "Energy of a mean day, by an equation for whole days"
    ),
    "trip.party.#.energy_by_method.kcal_by_source.mifflin1990": later(
        "Energy of a mean day, by another energy at rest"
    ),
    "trip.party.#.energy_by_method.spread_share": later(
        "How far the columns of the need lie apart"
    ),
    "guides.#.air_c.#": later("Air in the dryer"),
    "guides.#.boil_min.#": later("Blanching in boiling water"),
    "guides.#.steam_min.#": later("Blanching in steam"),
    "guides.#.heat_to_c": later("Heat all through"),
    "guides.#.hours.#": later("Hours in the dryer"),
    "guides.#.pieces_mm.#": later("How thick to cut"),
    "days.#.meals.#.irons.heats_min.#": later("Embers heat an iron in"),
    "days.#.meals.#.irons.cold_press_min.#": later("First press in a cold iron"),
    "batches.#.load.freezing_kwh": later("Energy to freeze the load"),
    "batches.#.load.ice_gone_h.#": later("Until the ice is gone"),
    "batches.#.load.layer_mm": later("Layer on the trays"),
    "batches.#.load.listed_hours": later("Hours that the dryer's maker tells"),
    "batches.#.load.of_limit": later("Load against the limit"),
    "trip.party.#.needs_more.#.days": later("Days that ask for more"),
    "trip.party.#.needs_more.#.kcal.#": later("Energy on top"),
    "batches.#.oxygen.absorber_ml": later("Absorber for a pack"),
    "batches.#.oxygen.oxygen_ml": later("Oxygen in a pack"),
    "trip.party.#.food.energy_kcal": later("Eats on a mean day"),
    "trip.party.#.food.protein_active_g.#": later("Protein for hard days"),
    "trip.party.#.food.protein_g": later("Protein on a mean day"),
    "trip.party.#.food.protein_need_g": later("Protein need"),
    "trip.party.#.food.salt_g": later("Salt on a mean day"),
    "days.#.meals.#.steps.#.under_pressure.boils_c": later("Water boils in the pressure cooker at"),
    "days.#.meals.#.steps.#.under_pressure.minutes": later("Time under pressure"),
    "days.#.meals.#.steps.#.under_pressure.likely_min.#": later(
        "Time under pressure, least and most"
    ),
    "days.#.snow.firm_l": later("Firm snow"),
    "days.#.snow.fluffy_l": later("Fluffy snow"),
    "days.#.snow.potfuls_firm": later("Potfuls of firm snow"),
    "days.#.snow.potfuls_fluffy": later("Potfuls of fluffy snow"),
    "days.#.meals.#.steps.#.soaking.stands_h": later("May stand wet"),
    "days.#.meals.#.steps.#.soaking.uptake_ml.#": later("Water taken up"),
    "days.#.meals.#.steps.#.soaking.usual_min.#": later("Soaks as a rule"),
    "days.#.meals.#.steps.#.keeps_hot.bare_above_60_min": later("Stays hot"),
    "days.#.meals.#.steps.#.keeps_hot.bare_c.#": later("Temperature after standing"),
    "days.#.meals.#.steps.#.keeps_hot.cosy_above_60_min": later("Stays hot in a cosy"),
    "days.#.meals.#.steps.#.keeps_hot.cosy_c.#": later("Temperature after standing in a cosy"),
    "days.#.people.#.sweat.damp_ml_h": later("Sweat in damp air"),
    "days.#.people.#.sweat.dry_ml_h": later("Sweat in dry air"),
    "days.#.treating.boil_min": later("Boil for"),
    "days.#.treating.contact_min": later("Wait before drinking"),
    "days.#.treating.drops_per_litre": later("Drops of bleach for a litre"),
    "days.#.treating.strict_boil_min": later("Boil for, by the stricter rule"),
    "wood.by_species_g.#": later("Wood of the trip, by its species"),
    "days.#.meals.#.nutrition.energy_kcal": later("Food energy"),
    "days.#.nutrition.energy_kcal": later("Food energy"),
    "days.#.meals.#.nutrition.protein_g": later("Protein"),
    "days.#.nutrition.protein_g": later("Protein"),
    "nutrition.protein_g": later("Protein"),
    "days.#.meals.#.nutrition.fat_g": later("Fat"),
    "days.#.nutrition.fat_g": later("Fat"),
    "nutrition.fat_g": later("Fat"),
    "days.#.meals.#.nutrition.carbohydrate_g": later("Carbohydrate"),
    "days.#.nutrition.carbohydrate_g": later("Carbohydrate"),
    "nutrition.carbohydrate_g": later("Carbohydrate"),
    "days.#.meals.#.nutrition.fibre_g": later("Fibre"),
    "days.#.nutrition.fibre_g": later("Fibre"),
    "nutrition.fibre_g": later("Fibre"),
    "days.#.meals.#.nutrition.sodium_mg": later("Sodium"),
    "days.#.nutrition.sodium_mg": later("Sodium"),
    "nutrition.sodium_mg": later("Sodium"),
}


def pattern_of(address: str) -> str:
    """Give an address with a sign in place of each number."""
    return _NUMBERS.sub(".#", address)


def title_of(say: Speech, address: str, node: Node | None = None) -> str:
    """Give what a figure is called; what has no title of its own is told by its name."""
    if is_inner(address):
        formula = FORMULAS[node.declared] if node and node.declared else None
        if formula is None:
            return say("A part of it")
        words = _WORDS.get(_END.sub("", formula.id, count=1), "")
        said = say(words) if words else named_plainly(formula.function.__name__)
        return said[:1].upper() + said[1:]
    known = _TITLES.get(pattern_of(address))
    return say(known) if known is not None else named_plainly(address)


def named_plainly(name: str) -> str:
    """Give a name as words: `days.0.snow.firm_l` is "days snow firm l"."""
    return " ".join(part for part in re.split(r"[._]", name) if part and not part.isdigit())
