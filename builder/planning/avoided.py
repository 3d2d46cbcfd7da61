"""What people must not eat, in words: the fourteen allergens, diets, and kinds of food."""

from __future__ import annotations

from builder.speech import Speech, later

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
