"""What people must not eat: the fourteen allergens, diets, and kinds of food."""

from __future__ import annotations

from builder.model.food import ALLERGENS, KINDS, MEAT_KINDS
from builder.model.kit import How
from builder.model.trip import DIETS
from builder.planning.foods import Substance, hazards_of
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


def avoided_how(substance: Substance, word: str) -> How | None:
    """Tell how something is not for who avoids a word of `avoids`; None where it is for them.

    Traces matter for allergens, and so does what nobody told of them. Diets and kinds of food ask
    what is inside of what could be anything, such as a packet: its allergens tell no beef.
    """
    if _is_told(substance, word):
        return "told"
    if word in substance.may_contain:
        return "may-contain"
    if word in ALLERGENS:
        return "not-told" if substance.untold else None
    untold = asks_kinds(word) and any(food.is_anything for food in substance.foods)
    return "not-told" if untold else None


def asks_kinds(word: str) -> bool:
    """Tell whether a word of `avoids` hangs on kinds of food; fish is an allergen first."""
    return word in DIETS or (word in KINDS and word not in ALLERGENS)


def _is_told(substance: Substance, word: str) -> bool:
    allergens, kinds = substance.allergens, substance.kinds
    if word in DIETS:
        flesh = substance.has_flesh or bool(allergens & SEA_ALLERGENS)
        if word == "vegetarian":
            return flesh
        honey = any("honey" in hazards_of(food) for food in substance.foods)
        animal = bool(kinds & {"egg", "dairy"}) or bool(allergens & {"eggs", "milk"})
        return flesh or honey or animal
    if word == "meat":
        return bool(kinds & MEAT_KINDS)
    same_kind = {"eggs": "egg", "milk": "dairy"}.get(word)  # fish is a kind by its own name
    ids = {food.id for food in substance.foods}
    return word in allergens or word in kinds or word in ids or same_kind in kinds
