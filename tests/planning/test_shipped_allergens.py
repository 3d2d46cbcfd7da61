"""What the shipped foods are made of is told among their allergens, by every word of their names.

A food that names an allergen and does not tell it can hurt somebody: here the words decide, so that
a slip in the list cannot pass.
"""

from __future__ import annotations

import re

import pytest

from builder.model.content import Content
from builder.planning.foods.hazards import called
from builder.reading.folder import Layer, read_folder
from tests.reading.folder_builder import SHIPPED

_NAMED = {
    "cereals-gluten": (
        r"(?<!buck)wheat|\brye\b|\bbarley|\bspelt|\boat|couscous|bulgur|semolina|\bmalt|farina"
        r"|\bbread|cracker|biscuit|cookie|noodle|\bpasta\b|\bbeer\b|matzo|pretzel|crouton|rusk"
        r"|bagel|tortilla|naan|chapati|granola|muesli"
    ),
    "milk": (
        r"\bmilk|cheese|\bbutter\b|buttermilk|cream|yoghurt|\bwhey|ghee|clarified|feta|brie"
        r"|camembert|roquefort|gouda|edam\b|ricotta|mozzarella|parmesan|pecorino|fudge|caramel"
        r"|pesto"
    ),
    "eggs": r"\beggs?\b|omelette|mayonnaise|nougat",
    "fish": r"salmon|trout|\bcod\b|tuna|herring|anchov|sardine|mackerel|fish sauce|halibut",
    "crustaceans": r"shrimp|\bcrab|lobster|crayfish|kimchi",
    "molluscs": r"mussel|clam|oyster|squid|octopus",
    "nuts": (
        r"almond|hazelnut|walnut|cashew|pecan|pistachio|brazil nut|macadamia|tree nut|trail mix"
        r"|pesto|mixed nuts"
    ),
    "peanuts": "peanut",
    "soybeans": r"\bsoya?\b|soybean|tofu|tempeh|miso|tamari|hoisin",
    "sesame": "sesame|tahini|halva|hummus|hoisin",
    "celery": "celery|celeriac|stock powder|yeast extract",
    "mustard": "mustard|curry",
    "lupin": "lupin",
    "sulphites": r"\bwine|mashed potato (flakes|granules)|apricots,|sultana|candied",
}
# Whose names have such a word, and who hold none of it but traces at most.
_NONE_OF_IT = {
    "cereals-gluten": {
        "bread-rice-white",
        "bread-rice-brown",
        "tortilla-maize",
        "tortilla-chips",
        "masa-flour",
        "crackers-seeded",
        "pasta-maize-dry",
        "pasta-maize-cooked",
        "rice-noodles-dry",
        "rice-noodles-cooked",
        "glass-noodles-dry",
        "tomato-sauce",
    },
    "milk": {
        "cream-of-tartar",
        "butter-beans-dry",
        "butter-beans-cooked",
        "almond-butter",
        "cashew-butter",
        "peanut-butter",
        "peanut-butter-crunchy",
        "peanut-butter-unsalted",
        "bar-peanut-butter",
        "sunflower-seed-butter",
        "coconut-creamed",
        "coconut-milk-canned",
    },
    "molluscs": {"oyster-mushroom-raw"},
}


@pytest.fixture(scope="module")
def shipped() -> Content:
    return read_folder([Layer(SHIPPED, "content")]).content


@pytest.mark.parametrize("allergen", _NAMED)
def test_a_food_tells_the_allergens_that_its_name_names(allergen: str, shipped: Content) -> None:
    untold = {
        name
        for name, food in shipped.foods.items()
        if re.search(_NAMED[allergen], called(food)) and allergen not in (food.allergens or ())
    }
    assert untold == _NONE_OF_IT.get(allergen, set())


def test_grain_without_gluten_tells_that_traces_may_be_in_it(shipped: Content) -> None:
    for name in _NONE_OF_IT["cereals-gluten"]:
        assert "cereals-gluten" in shipped.foods[name].may_contain, name
    for grain in ("quinoa", "millet", "teff", "amaranth", "sorghum", "buckwheat"):
        assert "cereals-gluten" in shipped.foods[f"{grain}-dry"].may_contain
