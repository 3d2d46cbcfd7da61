"""What may leave for a public kit: by inclusion, each field with the reason it may.

A field that is listed nowhere stays at home: a new one leaves only when it is written here.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from builder.model.batch import Batch, Heated, Packs
from builder.model.content import Content
from builder.model.food import Composition, Food, Perishable
from builder.model.gear import (
    Container,
    Dryer,
    Fuel,
    Iron,
    Packaging,
    Pot,
    Stove,
    StoveTest,
)
from builder.model.recipe import Ingredient, Recipe, Step, Swap
from builder.model.source import CautionText, Source
from builder.model.trip import (
    Camp,
    Chilled,
    Day,
    Depot,
    Fire,
    Label,
    Meal,
    MealItem,
    Person,
    SharedGear,
    Travel,
    Trip,
    WaterPlace,
)
from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class PartyNeeds:
    """What all of a party together need on a mean day, in steps that tell nobody's body."""

    energy_kcal: float
    to_drink_ml: float


@dataclass(frozen=True, slots=True)
class PublicTrip:
    """All that a public kit is planned from; its pages see nothing that is not in here."""

    trip: Trip  # of the fields in LEAVES alone, people as "Person 1 …"
    content: Content  # of the fields in LEAVES alone, batches as "batch-1 …"
    needs: PartyNeeds
    names: tuple[str, ...]  # as the front page says them: the party's own only where it wants so


# Steps in which need and drinking are told, for the party and not for one of it.
ENERGY_STEP_KCAL = 500.0
WATER_STEP_ML = 500.0

_ALL_EAT = "what is eaten, and how much, is what a public kit is for"
_COOK = "without it nobody can cook the meal"
_FOOD = "a property of the food, the same for everybody"
_GEAR = "a property of the thing, the same for everybody"
_DRIED = "how the food was dried decides the water that puts it back, and whether it is safe"
_WEATHER = "of the weather and the camp's water; many places have the same"
_WORDS = "words of a published text"

# Of each record the fields that may leave, and why.
LEAVES: Mapping[type, Mapping[str, str]] = {
    Trip: {
        "id": "the kit's address; whoever publishes chooses the file's name",
        "title": "the kit's name; whoever publishes chooses it",
        "days": "what a kit is made of",
        "units": "how the pages show numbers",
        "language": "of the pages",
        "stoves": _COOK,
        "pots": _COOK,
        "fuel_reserve_share": "tells how much fuel to take",
        "stove_test": "tells how much fuel to take",
        "fire": _COOK,
        "mug_ml": "all amounts are told in mugs too",
        "ladle_ml": "pots are shared out in it",
        "washing_ml": "part of the water at camp",
        "gear_shared": "its mass is part of the load; its name stays",
        "start_camp": _COOK,
        "shelter": "decides how the caution about carbon monoxide is said",
        "depots": "decide what is carried on which day; days have no other name here",
        "chilled_until": "decides the caution about fresh food that gets warm",
    },
    Depot: {"camp": "days have no other name here", "holds": "days have no other name here"},
    Chilled: {"day": "days have no other name here", "meal": _ALL_EAT},
    Person: {},
    Day: {
        "number": "days have no other name here",
        "camp": _COOK,
        "meals": _ALL_EAT,
        "travel": "the hours on the way decide how much all eat and drink",
        "ends_home": "a day without a camp needs no water for one",
        "home": "what is eaten at home is not carried",
        "heat": _COOK,
        "pot": _COOK,
    },
    Camp: {
        "altitude_m": "decides how long everything cooks; rounded up to 100 m",
        "air_low_c": _WEATHER,
        "air_high_c": _WEATHER,
        "wind": _WEATHER,
        "water": _WEATHER,
    },
    WaterPlace: {
        "camp": _WEATHER,
        "treat": "decides the cautions about water",
        "at_c": _WEATHER,
        "between_water_h": "decides how much water is carried",
        "near": "what no treatment removes; many places have it",
    },
    Travel: {
        "by": "decides how much all eat and drink",
        "hours": "decide how much all eat and drink",
        "distance_m": "as the hours; rounded up to 1 km, which leads to no map",
        "ascent_m": "as the hours; rounded up to 100 m, which leads to no height",
        "descent_m": "as the hours; rounded up to 100 m, which leads to no height",
        "ground": "as the hours",
    },
    Meal: {"meal": _ALL_EAT, "items": _ALL_EAT},
    MealItem: {
        "recipe": _ALL_EAT,
        "food": _ALL_EAT,
        "label": _ALL_EAT,
        "batches": _DRIED,
        "dried_by": _DRIED,
        "each_g": _ALL_EAT,
        "swaps": _ALL_EAT,
        "heat": _COOK,
        "pot": _COOK,
        "eaters": "how many eat of it; pages tell the number and name nobody",
        "parted": "how many have theirs out of another pot; never who: the last ones are said",
        "parted_without": "what goes into the one pot and not into the other",
    },
    Swap: {"ingredient": _ALL_EAT, "food": _ALL_EAT, "is_dried": _DRIED},
    Label: {
        "name": _ALL_EAT,
        "per_100g": _FOOD,
        "allergens": _FOOD,
        "may_contain": _FOOD,
        "contains": _FOOD,
        "beware": _FOOD,
    },
    SharedGear: {"mass_g": "part of the load"},
    Fire: {
        "irons": _COOK,
        "wood_moisture_share": "tells how much wood to take",
        "allowed": _COOK,
        "allowed_told": _COOK,
        "wood": "tells how much wood to take",
    },
    Batch: {
        "method": _DRIED,
        "food": _DRIED,
        "recipe": _DRIED,
        "fresh_g": _DRIED,
        "dried_g": _DRIED,
        "packs": "packs and what they weigh",
        "kept_at_c": "how long it keeps",
        "kept_at_told": "whether how long it keeps is a guess",
        "heated": _DRIED,
        "jerky": _DRIED,
        "tests": _DRIED,
    },
    Heated: {"to_c": _DRIED, "when": _DRIED, "minutes": _DRIED},
    Packs: {
        "count": "how much is in one",
        "packaging": "what it weighs, and how long it keeps",
        "absorber": "whether wet food in it is safe",
        "of_g": "how much is in one",
    },
    Food: {
        each: _FOOD
        for each in (
            "id", "name", "kind", "state", "per_100g", "density_g_ml", "piece_g",
            "allergens", "may_contain", "contains", "beware", "cut", "game", "sorption", "dry_as",
            "keeps_months", "spread_share", "takes_up_share", "perishable", "source",
            "allergen_source",
        )
    },
    Perishable: {"hours": _FOOD, "below_c": _FOOD},
    Composition: {
        each: _FOOD
        for each in (
            "water_g", "energy_kcal", "protein_g", "fat_g", "carbohydrate_g", "fibre_g",
            "sodium_mg", "ash_g", "alcohol_g", "caffeine_mg",
        )
    },
    Recipe: {
        each: _COOK
        for each in (
            "id", "name", "serves", "cook_in", "uses", "steps", "meals", "reach_c", "drain_ml",
            "part_before",
        )
    },
    Ingredient: dict.fromkeys(("id", "amount_g", "food", "recipe", "dried_by"), _COOK),
    Step: {
        each: _COOK
        for each in (
            "do", "uses", "water_ml", "water_auto", "minutes", "stir", "lid", "hot", "say",
            "each_side_min", "pieces", "baking_c",
        )
    },
    Stove: {
        each: _GEAR
        for each in (
            "id", "name", "burns", "power_w", "efficiency_share", "mass_g", "lowest_w",
            "liquid_feed", "test",
        )
    },
    StoveTest: {
        "boiled_ml": _GEAR,
        "from_c": _GEAR,
        "fuel_g": _GEAR,
        "altitude_m": "rounded up to 100 m",
    },
    Container: {"holds_g": _GEAR, "empty_g": _GEAR},
    Fuel: {
        each: _GEAR
        for each in (
            "id", "name", "kind", "energy_mj_kg", "containers", "mix", "lights_from_c",
        )
    },
    Pot: {
        each: _GEAR
        for each in (
            "id", "name", "holds_ml", "mass_g", "material", "fill_share", "loss_at_boil_w",
            "gauge_kpa", "diameter_cm",
        )
    },
    Iron: dict.fromkeys(("id", "name", "mass_g", "presses", "material", "face_cm2"), _GEAR),
    Packaging: dict.fromkeys(("id", "name", "mass_g", "barrier", "holds_ml"), _GEAR),
    Dryer: {},
    Source: {
        each: _WORDS for each in ("id", "title", "how", "publisher", "author", "year", "url")
    },
    CautionText: {
        each: _WORDS for each in ("id", "level", "title", "text", "sources", "aloud")
    },
}  # fmt: skip

# What leaves only in steps, rounded up.
ROUNDED_UP_TO: Mapping[tuple[type[Any], str], float] = {
    (Camp, "altitude_m"): 100.0,
    (Travel, "ascent_m"): 100.0,
    (Travel, "descent_m"): 100.0,
    (Travel, "distance_m"): 1000.0,
    (StoveTest, "altitude_m"): 100.0,
}
