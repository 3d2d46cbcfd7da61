"""Fresh food carried warm, on paper: hours since the fridge against what a kind bears."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from builder.model.kit import KitCaution
from builder.planning.cautions.food.fresh import bears
from builder.reading.folder import Layer, read_folder

from .caution_cases import Case, Folder, of_id, with_and_without
from .folders import SHIPPED, day, day_trip, food, hand

ANIMAL, PLANT = "animal-food-carried-warm", "plant-food-carried-warm"
FOODS = [
    food("brie", "dairy", "ready", "water 48 g, fat 30 g, protein 20 g"),
    food("bread", "grain", "ready", "water 38 g, carbohydrate 60 g"),
    food("salami", "meat", "ready", "water 33 g, fat 40 g, protein 25 g"),
    food("trout-canned", "fish", "ready", "water 60 g, fat 10 g, protein 28 g"),
    food("trout-smoked", "fish", "ready", "water 60 g, fat 10 g, protein 28 g"),
    food("own-hens-egg", "egg", "raw", "water 76 g, fat 12 g, protein 12 g",
         perishable={"hours": 48, "below": "20 degC"}),
    food("pickle", "vegetable", "ready", "water 90 g, carbohydrate 9 g",
         perishable={"hours": 29}),
    food("tuna-sandwich", "other", "ready", "water 52 g, protein 11 g, fat 9 g, carbohydrate 25 g",
         allergens=["fish"]),
    food("leaf-wrap", "other", "ready", "water 52 g, protein 5 g, fat 9 g, carbohydrate 32 g"),
    food("leaf-wrap-untold", "other", "ready", "protein 5 g, fat 9 g, carbohydrate 32 g"),
    food("oat-bar", "other", "ready", "protein 9 g, fat 20 g, carbohydrate 60 g"),
    food("leaf-wrap-canned", "other", "ready", "water 52 g, fat 9 g, carbohydrate 37 g"),
    food("red-sauce", "other", "ready", "water 70 g, carbohydrate 28 g"),
    food("apple-halves", "fruit", "raw", "water 85 g, carbohydrate 14 g"),
    food("apple-sliced", "fruit", "raw", "water 85 g, carbohydrate 14 g"),
]  # fmt: skip


BAG = {"until": {"day": 2, "meal": "snacks"}}


def carried(
    what: str, on_day: int = 1, meal: str = "lunch", highs: tuple[float, ...] = (20,), **trip: Any
) -> Folder:
    """Give a trip that eats something at a meal of a day, in air as warm as this day by day."""
    days = []
    for number in range(1, on_day + 1):
        high = highs[min(number, len(highs)) - 1]
        meals = {meal: [{"eat": what, "each": "10 g"}]} if number == on_day else None
        days.append(day(meals, air={"low": "0 degC", "high": f"{high} degC"}))
    home = trip.pop("home", None)
    if home:
        days[0]["home"] = home
    return {"trip": day_trip(days=days, **trip)}


def waits(what: str, on_day: int, camp: int, holds: list[int], meal: str = "lunch") -> Folder:
    """Give the same trip in mild air, with a depot; the cool bag holds to the end."""
    chilled = {"until": {"day": on_day, "meal": "snacks"}}
    return carried(what, on_day, meal, depots=[{"camp": camp, "holds": holds}], chilled=chilled)


CASES: list[Case] = [
    # Breakfast at 7:30, lunch five hours on: the two-hour rule.
    (ANIMAL, carried("brie"), carried("brie", meal="breakfast")),
    (ANIMAL, carried("egg-cooked"), carried("hard-cheese")),
    (ANIMAL, carried("stew-meat"), carried("salami")),
    (ANIMAL, carried("trout-smoked"), carried("trout-canned")),
    # As cold as a fridge all the way; one warm day breaks it.
    (ANIMAL, carried("brie", 2, highs=(4.5, 4)), carried("brie", 2, highs=(4.4, 4))),
    # Lunch at home, at 12:30: dinner is six hours on, what is nibbled is eaten from then.
    (ANIMAL, carried("brie", meal="dinner", home=["breakfast", "lunch"]),
     carried("brie", meal="snacks", home=["breakfast", "lunch"])),
    # A cool bag until dinner: what is eaten then was cold till then, the next breakfast is not.
    (ANIMAL, carried("brie", 2, "breakfast", chilled={"until": {"day": 1, "meal": "dinner"}}),
     carried("brie", 1, "dinner", chilled={"until": {"day": 1, "meal": "dinner"}})),
    # 48 h are told below 20 °C: lunch of day 3 is 53 h on, its breakfast 48 h.
    (ANIMAL, carried("own-hens-egg", 3, highs=(19,)),
     carried("own-hens-egg", 3, "breakfast", highs=(19,))),
    (ANIMAL, carried("own-hens-egg", highs=(20,)), carried("own-hens-egg", highs=(19.9,))),
    # 120 h below 26 °C: lunch of day 6 is 125 h on, its breakfast 120 h.
    (ANIMAL, carried("salami", 6), carried("salami", 6, "breakfast")),
    (PLANT, carried("pulse"), carried("pulse", meal="breakfast")),
    (PLANT, carried("apple-sliced"), carried("apple-halves")),
    # 168 h below 26 °C: lunch of day 8 is 173 h on, its breakfast 168 h.
    (PLANT, carried("bread", 8), carried("bread", 8, "breakfast")),
    (PLANT, carried("hard-cheese", 8), carried("hard-cheese", 8, "breakfast")),
    # Half of that for 11.1 K more: 84 h at 37.1 °C, and lunch of day 4 is 77 h on, dinner 83 h,
    # breakfast of day 5 96 h.
    (PLANT, carried("bread", 5, "breakfast", highs=(20, 37.1, 20)),
     carried("bread", 4, "dinner", highs=(20, 37.1, 20))),
    (PLANT, carried("pickle", 2, "dinner"), carried("pickle", 2, "lunch")),
    # Of `other` that is wet nobody told how long it keeps; seasoning keeps, and what is unopened.
    (ANIMAL, carried("tuna-sandwich"), carried("tuna-sandwich", meal="breakfast")),
    (ANIMAL, carried("tuna-sandwich"), carried("leaf-wrap")),
    (PLANT, carried("leaf-wrap"), carried("tuna-sandwich")),
    (PLANT, carried("leaf-wrap"), carried("red-sauce")),
    (PLANT, carried("leaf-wrap"), carried("leaf-wrap-canned")),
    # Where a label tells all but the water, the rest is water.
    (PLANT, carried("leaf-wrap-untold"), carried("oat-bar")),
    (ANIMAL, carried("tuna-sandwich"),
     carried("tuna-sandwich", chilled={"until": {"day": 1, "meal": "lunch"}})),
    # What waits at a camp lay there nobody knows since when, whatever the bag holds.
    (ANIMAL, waits("brie", 2, 1, [2]), carried("brie", 2, chilled=BAG)),
    (ANIMAL, waits("brie", 2, 1, [2]), waits("trout-canned", 2, 1, [2])),
    (PLANT, waits("bread", 2, 1, [2]), carried("bread", 2, chilled=BAG)),
    # Of the depot's own day only dinner waits there.
    (ANIMAL, waits("brie", 1, 1, [1], "dinner"), waits("brie", 1, 1, [1])),
]  # fmt: skip


def told(path: Path, name: str, folder: Folder) -> list[KitCaution]:
    kit = hand(path, foods=FOODS, **folder).kit()
    return of_id(kit, name)


@with_and_without(CASES)
def test_a_caution_comes_with_its_condition_and_goes_with_it(
    tmp_path: Path, name: str, with_it: Folder, without: Folder
) -> None:
    (found,) = told(tmp_path / "with", name, with_it)
    assert (found.at.pack, found.because[-1]) == ("food", ".")
    assert told(tmp_path / "without", name, without) == []


def test_it_tells_hours_air_and_what_the_food_bears(tmp_path: Path) -> None:
    folder = carried("brie", highs=(33,))
    (found,) = told(tmp_path / "metric", ANIMAL, folder)
    assert found.because == (
        "brie (day 1, lunch) is carried for 5\u00a0h. "
        "In air of 33\u00a0°C it bears 1\u00a0h out of the cold."
    )
    folder["trip"]["units"] = "us"
    (found,) = told(tmp_path / "us", ANIMAL, folder)
    assert "In air of 91\u00a0°F it bears" in found.because


def test_dried_food_and_labels_are_not_fresh(tmp_path: Path) -> None:
    folder = carried("lean-meat", 9)
    eaten = folder["trip"]["days"][8]["meals"]["lunch"]
    eaten[0]["dried_by"] = "freeze-dryer"
    eaten.append({"eat": "Cheese spread", "each": "20 g", "energy": "300 kcal"})
    assert told(tmp_path, ANIMAL, folder) == []


def test_shipped_foods_bear_what_their_kind_does() -> None:
    foods = read_folder([Layer(SHIPPED, "shipped", ("foods", "sources.yaml"))]).content.foods
    at_most = {
        name: (kept.hours if (kept := bears(each)) else None) for name, each in foods.items()
    }
    expected = {
        "egg-raw": 0.0, "egg-boiled": 0.0, "milk-whole": 0.0, "chicken-breast-cooked": 0.0,
        "rice-cooked": 0.0, "tofu-firm": 0.0, "cheddar": 168.0, "rye-bread": 168.0,
        "apple-raw": 168.0, "salami": 120.0, "beef-cured": 120.0, "tuna-canned": None,
        "butter": None, "carrot-raw": None, "beef-jerky": None, "raisins": None, "rice-dry": None,
        "milk-powder-whole": None, "coffee-brewed": None, "parmesan": None, "crispbread": None,
    }  # fmt: skip
    assert {name: at_most[name] for name in expected} == expected


def test_what_is_of_no_kind_is_said_to_be_not_told(tmp_path: Path) -> None:
    (found,) = told(tmp_path, ANIMAL, carried("tuna-sandwich"))
    assert found.because == (
        "Nobody wrote down how long tuna-sandwich (day 1, lunch) keeps; it is "
        "carried for 5\u00a0h. In air of 20\u00a0°C fresh food bears 2\u00a0h out of the cold."
    )
