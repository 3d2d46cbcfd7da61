"""How long fresh food bears the way, by its kind, its water and its name in three languages."""

from __future__ import annotations

import math
from typing import Any

import pytest

from builder.model.food import Composition, Food, Perishable
from builder.planning.cautions.food.fresh import Bears, bears

NOT_SOON = None
TWO_HOURS = Bears(0.0, -math.inf)
WEEK = Bears(168.0, 26.0)
CURED = Bears(120.0, 26.0)


def food(
    kind: Any, state: Any = "ready", water_g: float = 60, name: str = "It", **more: Any
) -> Food:
    told = {"beware": (), **more}
    return Food("it", name, kind, state, Composition(water_g=water_g), **told)


BY_KIND: list[tuple[Food, Bears | None]] = [
    (food("meat"), TWO_HOURS),
    (food("poultry", "raw"), TWO_HOURS),
    (food("fish", "cooked"), TWO_HOURS),
    (food("egg"), TWO_HOURS),
    (food("egg", "raw"), TWO_HOURS),
    # Dry food spoils within no trip.
    (food("meat", water_g=25), NOT_SOON),
    (food("meat", water_g=25.1), TWO_HOURS),
    (food("meat", "dried"), NOT_SOON),
    # Only what was cured raw and is no fish.
    (food("meat", beware=("cured-raw",)), CURED),
    (food("meat", "cooked", beware=("cured-raw",)), TWO_HOURS),
    (food("meat", "raw", beware=("cured-raw",)), TWO_HOURS),
    (food("fish", beware=("cured-raw",)), TWO_HOURS),
    # Hard cheese is drier than soft.
    (food("dairy", water_g=42), WEEK),
    (food("dairy", water_g=42.1), TWO_HOURS),
    (food("dairy", "raw", water_g=42), WEEK),
    *((food(kind), NOT_SOON) for kind in ("fat", "sugar", "herb", "drink", "nut")),
    *((food(kind, "cooked"), NOT_SOON) for kind in ("fat", "sugar", "herb", "drink", "nut")),
    *((food(kind, "cooked"), TWO_HOURS) for kind in ("vegetable", "fruit", "grain", "legume")),
    (food("fruit", "raw"), WEEK),
    (food("fruit"), TWO_HOURS),
    # Bread keeps, soft grain does not.
    (food("grain", water_g=50), WEEK),
    (food("grain", water_g=50.1), TWO_HOURS),
    (food("legume"), TWO_HOURS),
    (food("meal"), TWO_HOURS),
    (food("legume", "raw"), NOT_SOON),
    (food("vegetable"), NOT_SOON),
    (food("vegetable", "raw"), NOT_SOON),
    (food("other"), NOT_SOON),
]


@pytest.mark.parametrize(("food", "at_most"), BY_KIND)
def test_a_fresh_food_bears_what_its_kind_does(food: Food, at_most: Bears | None) -> None:
    assert bears(food) == at_most


@pytest.mark.parametrize(
    "name",
    [
        "Canned fish",
        "Tinned fish",
        "Fish in a pouch",
        "Long-life fish",
        "UHT fish",
        "H-Milch",
        "Fischkonserve",
        "Fisch aus der Dose",
        "Haltbarer Fisch",
        "Hermetisk fisk",
        "Fisk på boks",
        "Langtidsholdbar fisk",
    ],
)
def test_what_was_never_opened_keeps_in_every_language(name: str) -> None:
    assert bears(food("fish", name=name)) is NOT_SOON


@pytest.mark.parametrize(
    "name",
    [
        "Melon, cut",
        "Sliced melon",
        "Diced melon",
        "Melon purée",
        "Melon puree",
        "Melon salad",
        "Melonenschnitten",
        "Melonenwürfel",
        "Melonensalat",
        "Skåret melon",
        "Melonbiter",
        "Melonterninger",
    ],
)
def test_cut_fruit_does_not_keep_in_any_language(name: str) -> None:
    assert bears(food("fruit", "raw", name=name)) == TWO_HOURS
    assert bears(food("fruit", "raw", name="Melon uncut")) == WEEK
    # Cut vegetables that are eaten as they are keep no better; pickles and whole ones do.
    assert bears(food("vegetable", name=name)) == TWO_HOURS
    assert bears(food("vegetable", "raw", name=name)) is NOT_SOON


def test_what_a_food_tells_goes_before_its_kind() -> None:
    assert bears(food("meat", perishable=Perishable(48, 20))) == Bears(48, 20)
    assert bears(food("sugar", perishable=Perishable(3, 30))) == Bears(3, 30)
