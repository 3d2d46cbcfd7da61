"""What a batch says of itself."""

from __future__ import annotations

from builder.model.batch import HEAT_METHODS, METHODS, Batch, Packs


def test_a_batch_holds_a_food_or_a_meal() -> None:
    assert Batch("b", "oven", food="beans").holds == "beans"
    assert Batch("b", "oven", recipe="stew").holds == "stew"


def test_a_batch_kept_loose_counts_as_one_pack() -> None:
    assert Batch("b", "oven", food="beans").pack_count == 1
    assert Batch("b", "oven", food="beans", packs=Packs(4)).pack_count == 4


def test_ice_and_shops_are_no_heat() -> None:
    assert set(METHODS) - HEAT_METHODS == {"freeze-dryer", "bought"}
