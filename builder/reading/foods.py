"""Reads foods."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from typing import cast

from builder.model.food import (
    ALLERGENS,
    CUTS,
    DRY_AS,
    HAZARDS,
    KINDS,
    SORPTION_GROUPS,
    STATES,
    Composition,
    Cut,
    DryAs,
    Food,
    FoodKind,
    FoodState,
    Hazard,
    Perishable,
    SorptionGroup,
)
from builder.reading.eaten import check_energy
from builder.reading.fields import Fields

# The design's bounds: what the parts of 100 g may add up to before it is a slip.
PARTS_ERROR_ABOVE_G = 110.0
PARTS_WARNING_ABOVE_G = 104.0
PARTS_WARNING_BELOW_G = 90.0

# What these kinds hold, one of it at least.
ALLERGENS_OF_KIND: dict[str, tuple[str, ...]] = {
    "egg": ("eggs",),
    "fish": ("fish", "crustaceans", "molluscs"),
    "dairy": ("milk",),
    "nut": ("nuts", "peanuts", "sesame"),
}
# Seeds and coconut are listed as nuts and are none of the fourteen.
_NO_NUT = re.compile(r"seed|coconut|kokos|kern|samen|saat|frø|chia|hanf|hemp|solsikke")

# A year: what keeps longer does not perish on a trip.
MOST_HOURS_FRESH = 8784.0

_SALT_G_PER_MG_SODIUM = 2.5 / 1000


def read_food(fields: Fields) -> Food | None:
    """Read one food; None where it has errors."""
    food_id = fields.id()
    kind = cast(FoodKind, fields.choice("kind", KINDS, required=True))
    per_100g = Composition()
    parts = fields.record(
        "per_100g", "composition", required=True, example="{water: 66 g, protein: 9 g, …}"
    )
    if parts is not None:
        per_100g = read_composition(parts)
        if parts.done() and check_parts(parts, per_100g):
            # Leaves are steeped and thrown away: they may give the cup less than they hold.
            check_energy(parts, per_100g, all_eaten=kind != "drink")
    per_100g = replace(per_100g, caffeine_mg=fields.maybe_quantity("caffeine", "caffeine_mg"))
    food = Food(
        id=food_id,
        name=fields.line("name", required=True),
        kind=kind,
        state=cast(FoodState, fields.choice("state", STATES, required=True)),
        per_100g=per_100g,
        density_g_ml=fields.maybe_quantity("density", "density_g_ml", positive=True),
        piece_g=fields.maybe_quantity("piece", "mass_g", positive=True),
        allergens=fields.told_words("allergens", ALLERGENS),
        may_contain=fields.words("may_contain", ALLERGENS),
        allergen_source=fields.words("allergen_source"),
        contains=fields.words("contains", KINDS),
        beware=read_beware(fields),
        perishable=_perishable(fields),
        cut=cast(Cut | None, fields.choice("cut", CUTS) or None),
        game=fields.flag("game"),
        sorption=cast(SorptionGroup | None, fields.choice("sorption", SORPTION_GROUPS) or None),
        dry_as=cast(DryAs | None, fields.choice("dry_as", DRY_AS) or None),
        keeps_months=fields.maybe_quantity("keeps", "kept_months", positive=True),
        spread_share=fields.maybe_quantity("spread", "spread_share", positive=True),
        takes_up_share=fields.maybe_quantity("takes_up", "share", positive=True),
        source=fields.text("source") or None,
        ndb=fields.text("ndb") or None,
        places=fields.places(fields.places_of_words("allergen_source")),
    )
    _check_allergens(fields, food)
    return food if fields.done() else None


def _check_allergens(fields: Fields, food: Food) -> None:
    """Warn where what a kind of food is made of is missing from the allergens that are told."""
    if food.allergens is None or (food.kind == "nut" and _NO_NUT.search(food.name.lower())):
        return
    for kind in (food.kind, *food.contains):
        usual = ALLERGENS_OF_KIND.get(kind, ())
        if usual and not set(usual) & set(food.allergens):
            fields.warn(
                fields.place("allergens"),
                "allergens-of-kind",
                f"{food.name} is or holds {kind}, and its allergens name no {' or '.join(usual)}",
                f"write `allergens: [{', '.join((*food.allergens, usual[0]))}]`, or another kind",
            )


def read_beware(fields: Fields) -> tuple[Hazard, ...] | None:
    """Read what a food is watched for; None where its name is to decide."""
    return cast(tuple[Hazard, ...] | None, fields.told_words("beware", HAZARDS))


def _perishable(fields: Fields) -> Perishable | None:
    """Read how long a fresh food keeps out of the cold; told without `below`, in any air."""
    told = fields.record("perishable", "perishable", example="{hours: 48, below: 20 degC}")
    if told is None:
        return None
    hours = told.number("hours", required=True, more_than=0, at_most=MOST_HOURS_FRESH)
    below_c = told.maybe_quantity("below", "temperature_c")
    return Perishable(hours, math.inf if below_c is None else below_c) if told.done() else None


def read_composition(parts: Fields) -> Composition:
    """Read what 100 g hold; energy may be left out where protein, fat and carbohydrate tell it."""
    composition = Composition(
        water_g=parts.quantity("water", "mass_g"),
        energy_kcal=parts.maybe_quantity("energy", "energy_kcal"),
        protein_g=parts.quantity("protein", "mass_g"),
        fat_g=parts.quantity("fat", "mass_g"),
        carbohydrate_g=parts.quantity("carbohydrate", "mass_g"),
        fibre_g=parts.quantity("fibre", "mass_g"),
        sodium_mg=parts.quantity("sodium", "sodium_mg"),
        ash_g=parts.quantity("ash", "mass_g"),
        alcohol_g=parts.quantity("alcohol", "mass_g"),
    )
    if composition.fibre_g > composition.carbohydrate_g + 0.5:
        parts.problem(
            parts.place("fibre"),
            "fibre",
            f"{composition.fibre_g:g} g of fibre are more than the "
            f"{composition.carbohydrate_g:g} g of carbohydrate, which counts fibre in",
            "write carbohydrate with its fibre",
        )
    return composition


def check_parts(parts: Fields, composition: Composition, all_told: bool = True) -> bool:
    """Compare the sum of the parts with 100 g; salt stands for ash where ash is not told.

    Tells whether they add up, so that the energy can be held against them. A label need not tell
    them all.
    """
    mineral_g = composition.ash_g or composition.sodium_mg * _SALT_G_PER_MG_SODIUM
    total_g = (
        composition.water_g
        + composition.protein_g
        + composition.fat_g
        + composition.carbohydrate_g
        + composition.alcohol_g
        + mineral_g
    )
    place = parts.node.place
    says = f"the parts of 100 g add up to {total_g:.1f} g"
    if total_g > PARTS_ERROR_ABOVE_G:
        mend = "check each figure; carbohydrate counts fibre in, once"
        parts.problem(place, "parts-sum", says, mend)
    elif total_g > PARTS_WARNING_ABOVE_G or (all_told and total_g < PARTS_WARNING_BELOW_G):
        parts.warn(place, "parts-sum", says, "check water, protein, fat and carbohydrate")
    else:
        return True
    return False
