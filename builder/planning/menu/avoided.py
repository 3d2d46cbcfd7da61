"""What people must not eat, in words: the fourteen allergens, diets, and kinds of food."""

from __future__ import annotations

from builder.planning.hazards import hazards_of
from builder.planning.menu.menu import Portion
from builder.speech import Speech, later

SEA_ALLERGENS = frozenset({"fish", "crustaceans", "molluscs"})

_AVOIDED = {
    "cereals-gluten": later("cereals with gluten"),
    "crustaceans": later("crustaceans"),
    "eggs": later("eggs"),
    "fish": later("fish"),
    "peanuts": later("peanuts"),
    "soybeans": later("soybeans"),
    "milk": later("milk"),
    "nuts": later("tree nuts"),
    "celery": later("celery"),
    "mustard": later("mustard"),
    "sesame": later("sesame"),
    "sulphites": later("sulphites"),
    "lupin": later("lupin"),
    "molluscs": later("molluscs"),
    "vegetarian": later("meat and fish"),
    "vegan": later("anything from animals"),
    "fruit": later("fruit"),
    "vegetable": later("vegetables"),
    "legume": later("legumes"),
    "grain": later("grain"),
    "nut": later("tree nuts"),
    "meat": later("meat"),
    "poultry": later("poultry"),
    "egg": later("eggs"),
    "dairy": later("dairy"),
    "fat": later("fat"),
    "sugar": later("sugar"),
    "herb": later("herbs"),
    "drink": later("drinks"),
    "meal": later("ready meals"),
}


def avoided_said(say: Speech, word: str) -> str:
    """Say what somebody must not eat; a food named by its id is told as it is."""
    return say(_AVOIDED[word]) if word in _AVOIDED else word.replace("-", " ")


def is_avoided(portion: Portion, word: str) -> bool:
    """Tell whether something holds what a word of `avoids` stands for."""
    substance = portion.substance
    allergens, kinds = substance.allergens, substance.kinds
    if word in ("vegetarian", "vegan"):
        flesh = substance.has_flesh or bool(allergens & SEA_ALLERGENS)
        if word == "vegetarian":
            return flesh
        honey = any("honey" in hazards_of(food) for food in substance.foods)
        animal = bool(kinds & {"egg", "dairy"}) or bool(allergens & {"eggs", "milk"})
        return flesh or honey or animal
    same_kind = {"eggs": "egg", "milk": "dairy", "fish": "fish"}.get(word)
    ids = {food.id for food in substance.foods}
    return word in allergens or word in kinds or word in ids or same_kind in kinds
