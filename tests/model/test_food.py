"""What a food says of itself."""

from __future__ import annotations

import pytest

from builder.model.food import FLESH_KINDS, KINDS, Composition, Food, FoodKind, FoodState


def food(kind: FoodKind, state: FoodState = "ready", contains: tuple[str, ...] = ()) -> Food:
    return Food("x", "X", kind, state, Composition(), contains=contains)


@pytest.mark.parametrize(
    ("kind", "contains", "flesh"),
    [
        ("meat", (), True),
        ("poultry", (), True),
        ("fish", (), True),
        ("egg", (), False),
        ("dairy", (), False),
        ("legume", (), False),
        ("meal", (), False),
        ("meal", ("legume", "poultry"), True),
        ("other", ("egg", "dairy"), False),
    ],
)
def test_a_compound_food_is_flesh_where_it_holds_some(
    kind: FoodKind, contains: tuple[str, ...], flesh: bool
) -> None:
    assert bool(food(kind, contains=contains).kinds & FLESH_KINDS) == flesh
    assert food(kind, contains=contains).kinds == {kind, *contains}


@pytest.mark.parametrize(
    ("kind", "state", "raw"),
    [
        ("meat", "raw", True),
        ("poultry", "raw", True),
        ("fish", "raw", True),
        ("egg", "raw", True),
        ("dairy", "raw", False),
        ("fruit", "raw", False),
        ("meat", "cooked", False),
        ("meat", "dried", False),
        ("egg", "ready", False),
    ],
)
def test_only_raw_meat_fish_and_egg_must_be_heated_through(
    kind: FoodKind, state: FoodState, raw: bool
) -> None:
    assert food(kind, state).is_raw_animal == raw
    assert kind in KINDS


def test_a_share_of_water_is_a_hundredth_of_the_grams() -> None:
    assert Composition(water_g=65.7).water_share == pytest.approx(0.657, rel=1e-12)
