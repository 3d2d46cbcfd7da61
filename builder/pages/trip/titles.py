"""What a figure is called where it stands among those of its day, meal, person or batch."""

from __future__ import annotations

import re

from builder.planning.graph import Node, is_inner
from builder.speech import Speech, later

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
    "days.#.heat.meals_kj": later("Fuel heat for meals"),
    "days.#.heat.melting_kj": later("Fuel heat to melt snow"),
    "days.#.heat.boiling_water_kj": later("Fuel heat to make water safe"),
    "days.#.travel.between_water_h": later("Longest stretch without water"),
    "days.#.travel.hours": later("Time on the way"),
    "days.#.travel.distance_m": later("Way"),
    "days.#.travel.ascent_m": later("Ascent"),
    "days.#.travel.descent_m": later("Descent"),
    "days.#.water.cooking_ml": later("Water to cook with"),
    "days.#.water.drinks_ml": later("Water for hot drinks"),
    "days.#.water.drinking_ml": later("Water to drink besides food and hot drinks"),
    "days.#.water.washing_ml": later("Water to wash with"),
    "days.#.water.total_ml": later("All water"),
    "days.#.water.carry_ml": later("Most water carried at once"),
    "days.#.water.minutes": later("Time to melt snow and make water safe"),
    "days.#.water.treat_ml": later("Water to make safe"),
    "days.#.people.#.energy_need_kcal": later("Energy need"),
    "days.#.people.#.basal_kcal": later("Energy at rest"),
    "days.#.people.#.travel_kcal": later("Energy on the way"),
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
    "weights.by_day_g.#": later("The party's load each morning"),
    "weights.people.#.total_g": later("Pack at its heaviest"),
    "weights.people.#.limit_g": later("Carries to"),
    "weights.people.#.of_limit": later("Pack against the limit"),
    "weights.people.#.by_day_g.#": later("Pack each morning"),
    "trip.party.#.energy_need_kcal": later("Energy need over the trip"),
    "trip.party.#.energy_share": later("Share of a common pot"),
}


def pattern_of(address: str) -> str:
    """Give an address with a sign in place of each number."""
    return _NUMBERS.sub(".#", address)


def title_of(say: Speech, address: str, node: Node | None = None) -> str:
    """Give what a figure is called; what has no title of its own is told by its name."""
    if is_inner(address):
        declared = node.declared.__name__ if node and node.declared else "part"
        return named_plainly(declared)
    known = _TITLES.get(pattern_of(address))
    return say(known) if known is not None else named_plainly(address)


def named_plainly(name: str) -> str:
    """Give a name as words: `looks.snow.0.firm_l` is "snow firm l"."""
    parts = [part for part in re.split(r"[._]", name) if part and not part.isdigit()]
    return " ".join(part for part in parts if part != "looks")
