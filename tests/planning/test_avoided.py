"""What somebody avoids, and how something is not for them: told, traces, or not told."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from builder.model.food import ALLERGENS, Composition, Food
from builder.model.kit import How
from builder.model.trip import DIETS
from builder.planning.foods.substance import Substance
from builder.planning.menu.avoided import avoided_how, avoided_said
from builder.speech import speech_of
from tests.planning.folders import day, day_trip, hand, uses
from tests.planning.folders import food as written


def food(kind: Any, name: str = "it", **more: Any) -> Food:
    told = {"allergens": (), "beware": (), **more}
    return Food(name, name.title(), kind, "ready", Composition(), **told)


def of(*foods: Food, kind: str = "") -> Substance:
    return Substance("all", "All", kind or foods[0].kind, Composition(), foods)


HOW: list[tuple[Substance, str, How | None]] = [
    # an allergen: told, traces, not told
    (of(food("grain", allergens=("nuts",))), "nuts", "told"),
    (of(food("grain", may_contain=("nuts",))), "nuts", "may-contain"),
    (of(food("grain", allergens=None)), "nuts", "not-told"),
    (of(food("grain")), "nuts", None),
    (of(food("grain", allergens=("milk",))), "nuts", None),
    # The gravest of several foods.
    (of(food("grain"), food("grain", allergens=None), kind="meal"), "nuts", "not-told"),
    (
        of(food("grain", allergens=None), food("grain", may_contain=("nuts",)), kind="meal"),
        "nuts",
        "may-contain",
    ),
    (
        of(food("grain", may_contain=("nuts",)), food("grain", allergens=("nuts",)), kind="meal"),
        "nuts",
        "told",
    ),
    # a kind that is an allergen under another name
    (of(food("egg")), "eggs", "told"),
    (of(food("dairy")), "milk", "told"),
    (of(food("fish")), "fish", "told"),
    (of(food("meat")), "fish", None),
    (of(food("nut")), "nuts", None),  # a peanut is a nut of the kitchen
    (of(food("other", contains=("egg",))), "eggs", "told"),
    # a kind, an id
    (of(food("nut")), "nut", "told"),
    (of(food("grain"), food("fruit"), kind="meal"), "fruit", "told"),
    (of(food("grain")), "meal", None),
    (of(food("grain"), kind="meal"), "meal", "told"),
    (of(food("grain", "rye-bread")), "rye-bread", "told"),
    (of(food("grain", "rye-bread")), "oat-bread", None),
    # What nobody told of a kind or an id is no trace of it.
    (of(food("grain", allergens=None)), "fruit", None),
    (of(food("other", contains=("grain",))), "fruit", None),
    *((of(food(kind)), "fruit", "not-told") for kind in ("meal", "other")),
    # Who eats no meat eats no chicken, and may eat fish.
    *((of(food(kind)), "meat", "told") for kind in ("meat", "poultry")),
    (of(food("fish")), "meat", None),
    (of(food("meat")), "poultry", None),
    (of(food("other", allergens=None)), "rye-bread", None),
    # vegetarian
    *((of(food(kind)), "vegetarian", "told") for kind in ("meat", "poultry", "fish")),
    *((of(food(kind)), "vegetarian", None) for kind in ("egg", "dairy", "grain")),
    # Gelatine in sweets, lard as a fat, beef in a broth.
    *((of(food(kind)), "vegetarian", "not-told") for kind in ("sugar", "fat", "drink")),
    *((of(food(kind, contains=())), "vegetarian", None) for kind in ("sugar", "fat", "drink")),
    (of(food("sugar", contains=("meat",))), "vegetarian", "told"),
    *(
        (of(food("other", allergens=(each,))), "vegetarian", "told")
        for each in ("fish", "crustaceans", "molluscs")
    ),
    (of(food("other", allergens=("milk",), contains=())), "vegetarian", None),
    (of(food("other", allergens=("milk",))), "vegetarian", "not-told"),  # beef is no allergen
    (of(food("other", contains=("grain", "poultry"))), "vegetarian", "told"),
    (of(food("sugar", beware=("honey",), contains=())), "vegetarian", None),
    # vegan
    *((of(food(kind)), "vegan", "told") for kind in ("meat", "poultry", "fish", "egg", "dairy")),
    *(
        (of(food("other", allergens=(each,))), "vegan", "told")
        for each in ("fish", "crustaceans", "molluscs", "milk", "eggs")
    ),
    (of(food("sugar", beware=("honey",))), "vegan", "told"),
    (of(food("grain"), food("sugar", beware=("honey",)), kind="meal"), "vegan", "told"),
    (of(food("grain", allergens=("cereals-gluten",))), "vegan", None),
    # A diet asks no trace, and asks what is not told of what could be anything.
    *((of(food("grain", may_contain=("milk", "fish"))), diet, None) for diet in DIETS),
    *((of(food("grain", allergens=None)), diet, None) for diet in DIETS),
    *((of(food("meal", allergens=None)), diet, "not-told") for diet in DIETS),
    *((of(food("other", allergens=None)), diet, "not-told") for diet in DIETS),
    *((of(food("other", allergens=None, contains=())), diet, None) for diet in DIETS),
    (of(food("other", contains=()), food("grain", allergens=None), kind="meal"), "vegan", None),
    (
        of(food("other"), food("grain", allergens=None), kind="meal"),
        "vegan",
        "not-told",
    ),
    (of(food("other", allergens=None)), "nuts", "not-told"),
]


@pytest.mark.parametrize(("substance", "word", "how"), HOW)
def test_a_word_is_avoided_as_it_is_told(substance: Substance, word: str, how: How | None) -> None:
    assert avoided_how(substance, word) == how


SAID = {
    "cereals-gluten": "cereals with gluten",
    "crustaceans": "crustaceans",
    "eggs": "eggs",
    "fish": "fish",
    "peanuts": "peanuts",
    "soybeans": "soybeans",
    "milk": "milk",
    "nuts": "tree nuts",
    "celery": "celery",
    "mustard": "mustard",
    "sesame": "sesame",
    "sulphites": "sulphites",
    "lupin": "lupin",
    "molluscs": "molluscs",
    "vegetarian": "meat and fish",
    "vegan": "anything from animals",
    "fruit": "fruit",
    "vegetable": "vegetables",
    "legume": "legumes",
    "grain": "grain",
    "nut": "tree nuts",
    "meat": "meat",
    "poultry": "poultry",
    "egg": "eggs",
    "dairy": "dairy",
    "fat": "fat",
    "sugar": "sugar",
    "herb": "herbs",
    "drink": "drinks",
    "meal": "ready meals",
}


def test_each_word_is_said_in_words_of_the_kitchen() -> None:
    english, german = speech_of("en"), speech_of("de")
    assert {word: avoided_said(english, word) for word in SAID} == SAID
    assert {*ALLERGENS, *DIETS} <= {*SAID}
    assert avoided_said(english, "rye-bread") == "rye bread"
    # None is said as it is written, for want of a word.
    assert [word for word in SAID if avoided_said(german, word) in (SAID[word], word)] == []


def test_a_meal_tells_what_its_foods_hold_and_may_hold_in_the_order_of_the_law(
    tmp_path: Path,
) -> None:
    dry = "water 5 g, energy 400 kcal, carbohydrate 80 g"
    foods = [
        written("bar", "grain", "ready", dry, allergens=["milk", "soybeans"], may_contain=["nuts"]),
        written("mix", "grain", "ready", dry, allergens=["nuts"], may_contain=["eggs", "milk"]),
    ]
    cook = {
        "id": "bars", "serves": 2, "cook_in": "none", "uses": uses(bar="80 g", mix="80 g"),
        "steps": [{"do": "mix", "with": ["bar", "mix"]}, {"do": "serve"}],
    }  # fmt: skip
    meals = {"lunch": [{"cook": "bars"}], "snacks": [{"eat": "bar", "each": "30 g"}]}
    kit = hand(tmp_path, day_trip(days=[day(meals)]), [cook], foods=foods).kit()
    both, alone = kit.days[0].meals
    in_order = ("soybeans", "milk", "nuts")  # as Annex II of Regulation 1169/2011 lists them
    assert both.allergens == in_order and both.may_contain == ("eggs",)
    assert set(alone.allergens) == {"milk", "soybeans"} and alone.may_contain == ("nuts",)
