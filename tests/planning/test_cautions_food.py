"""Raw, gathered, poisonous food and how it was dried: a trip with each caution, one without."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest

from builder.model.food import Composition, Food
from builder.model.kit import Kit, KitCaution
from builder.planning.cautions.food.poisons import never_raw

from .caution_cases import Case, Folder, of_id, with_and_without
from .folders import GEAR, Record, day, day_trip, food, hand, uses
from .test_cautions import FRIED, boiled, cooks, dish, eats

FLESH = "water 60 g, protein 30 g, fat 10 g"
PLANT = "water 60 g, carbohydrate 40 g"
DRY = "water 12 g, carbohydrate 88 g"
FOODS = [
    food("bear-ham-cured", "meat", "ready", FLESH, beware=["game", "cured-raw"]),
    food("bear-meat", "meat", "raw", FLESH, cut="whole"),  # game by its name alone
    food("pork-ham", "meat", "ready", FLESH, beware=["cured-raw"]),
    food("bear-stew", "meat", "cooked", FLESH),
    food("pike-cured", "fish", "ready", FLESH, beware=["freshwater-fish", "cured-raw"]),
    food("cod-cured", "fish", "ready", FLESH, beware=["cured-raw"]),
    food("pike-fried", "fish", "cooked", FLESH),
    food("white-beans", "legume", "dried", DRY),
    food("kidney-dry", "legume", "dried", DRY, beware=["kidney-bean"]),
    food("black-beans-boiled", "legume", "cooked", PLANT),
    food("lentil", "legume", "dried", DRY),
    food("wheat-flour", "grain", "dried", DRY),
    food("nettle-leaves", "vegetable", "raw", PLANT),
    food("spinach", "vegetable", "raw", PLANT),
    food("mussels", "fish", "raw", FLESH),
    food("mussels-tin", "fish", "ready", FLESH),
    food("mung-sprouts", "vegetable", "raw", PLANT),
    food("brussels-sprouts", "vegetable", "raw", PLANT),
    food("infant-milk", "dairy", "dried", "water 3 g, protein 10 g, fat 26 g, carbohydrate 58 g"),
    food("infant-milk-in-bottles", "dairy", "ready", "water 88 g, protein 2 g, fat 4 g,"
         " carbohydrate 6 g"),
    food("garlic-oil", "fat", "ready", "water 0 g, fat 100 g"),
    food("plain-oil", "fat", "ready", "water 0 g, fat 100 g"),
    food("home-beans", "vegetable", "cooked", PLANT, beware=["home-canned"]),
    food("tomato", "vegetable", "raw", "water 94 g, carbohydrate 6 g"),
    food("red-fruit", "vegetable", "raw", "water 94 g, carbohydrate 6 g", dry_as="tomato"),
    food("thyme", "herb", "raw", "water 80 g, carbohydrate 20 g"),
]  # fmt: skip


SOAKED_HOT = dish(
    uses(lentil="40 g"),
    {"do": "soak", "with": ["lentil"], "water": "100 ml", "minutes": 15, "hot": True},
)
FLOUR_LATE = dish(
    uses(spinach="40 g", wheat_flour="9 g"),
    {"do": "boil", "with": ["spinach"], "water": "100 ml"},
    {"do": "serve", "with": ["wheat-flour"]},
)
# What is stirred into a batter is baked with it, whatever the step that bakes names.
FLOUR_FRIED = dish(
    uses(wheat_flour="40 g", plain_oil="9 g"),
    {"do": "mix", "with": ["wheat-flour"], "water": "60 ml"},
    {"do": "fry", "with": ["plain-oil"], "minutes": 4},
)


def at_height(folder: Folder, height: str) -> Folder:
    """Give the same trip with its camp as high as this."""
    folder = copy.deepcopy(folder)
    folder["trip"]["days"][0]["camp_altitude"] = height
    return folder


def boiled_hard(name: str, minutes: float) -> Record:
    """Give a recipe that boils one food hard for so long."""
    recipe = boiled(name)
    recipe["steps"][0]["minutes"] = minutes
    return recipe


def batch(name: str, what: str, fresh: str, water: float, **more: Any) -> Record:
    """Give a batch dried to 4 %; `fresh` in grams."""
    dried_g = float(fresh) * (1 - water / 100) / 0.96
    return {"id": name, "food": what, "method": "dehydrator", "done": "2031-01-01",
            "fresh": f"{fresh} g", "dried": f"{dried_g:.6f} g", "packs": {"count": 9, "in": "foil"},
            **more}  # fmt: skip


SHELF: Record = {
    "id": "shelf",
    "name": "Shelf",
    "method": "dehydrator",
    "load": "3 kg",
    "hours": 12,
}
COLD_BOX: Record = {"id": "cold-box", "name": "Cold box", "method": "freeze-dryer", "load": "5 kg",
                    "hours": 30, "ice": "2.5 kg"}  # fmt: skip


def from_batches(*batches: Record, eaten: str = "berries", method: str = "") -> Folder:
    """Give a trip that eats of one of these batches."""
    snacks = [
        {
            "eat": next(each["food"] for each in batches if each["id"] == eaten),
            "each": "10 g",
            "from": eaten,
        }
    ]
    trip = day_trip(days=[day({"snacks": snacks})], start="2031-01-15")
    made = [{**each, **({"method": method} if method else {})} for each in batches]
    return {"trip": trip, "batches": made, "gear": {**GEAR, "dryers": [SHELF, COLD_BOX]}}


RAW = batch("hens", "hen-raw", "1000", 74, dryer="shelf")
HEATED = {**RAW, "heated": {"to": "74 degC", "when": "before"}}
FRUIT = batch("berries", "berry", "1000", 80, dryer="shelf")


def ice(fresh_g: float) -> Folder:
    """Give a trip that eats of a freeze-dried batch; berries give 4/5 of their weight, less 4 %."""
    told = batch("berries", "berry", f"{fresh_g:g}", 80, dryer="cold-box")
    return from_batches(told, method="freeze-dryer")


def sunned(what: str, water: float) -> Folder:
    return from_batches(batch("berries", what, "1000", water), method="sun")


def bottle(mixed: Record, *before: Record) -> Record:
    """Give a recipe that puts infant formula in at one step, after others."""
    step = {**mixed, "with": ["infant-milk"]}
    return dish(uses(infant_milk="13 g"), *before, step, cook_in="pot")


CASES: list[Case] = [
    ("raw-animal-food-eaten", eats("steak-raw"), eats("stew-meat")),
    ("raw-animal-food-eaten", eats("steak-raw"), cooks(boiled("steak-raw", reach="74 degC"))),
    ("game-not-heated", eats("bear-ham-cured"), eats("pork-ham")),
    ("game-not-heated", eats("bear-ham-cured"), eats("bear-stew")),
    ("game-not-heated", cooks(boiled("bear-ham-cured")),
     cooks(boiled("bear-ham-cured", reach="74 degC"))),
    # Raw game, known by its name alone, must tell 74 °C: less is an error (test_reach).
    ("game-not-heated", cooks(boiled("bear-ham-cured", reach="73.8 degC")),
     cooks(boiled("bear-meat", reach="74 degC"))),
    ("freshwater-fish-not-heated", eats("pike-cured"), eats("cod-cured")),
    ("freshwater-fish-not-heated", eats("pike-cured"), eats("pike-fried")),
    ("freshwater-fish-not-heated", cooks(boiled("pike-cured", reach="144.9 degF")),
     cooks(boiled("pike-cured", reach="63 degC"))),
    ("raw-and-cooked-in-one-run", from_batches(RAW, FRUIT), from_batches(HEATED, FRUIT)),
    ("raw-and-cooked-in-one-run", from_batches(RAW, FRUIT),
     from_batches({**RAW, "done": "2031-01-02"}, FRUIT)),
    ("raw-and-cooked-in-one-run", from_batches(RAW, FRUIT),
     from_batches({**RAW, "dryer": "cold-box", "method": "freeze-dryer"}, FRUIT)),
    # A run may be told by its name, whatever the dryer and the day.
    ("raw-and-cooked-in-one-run",
     from_batches(batch("hens", "hen-raw", "1000", 74, run="one"),
                  batch("berries", "berry", "1000", 80, run="one")),
     from_batches(batch("hens", "hen-raw", "1000", 74, run="one"),
                  batch("berries", "berry", "1000", 80, run="two"))),
    # What the oven did afterwards came too late for its neighbours.
    ("raw-and-cooked-in-one-run",
     from_batches(batch("hens", "steak-raw", "1000", 74, run="one",
                        heated={"to": "135 degC", "when": "after", "minutes": 10}),
                  batch("berries", "berry", "1000", 80, run="one")),
     from_batches(batch("hens", "steak-raw", "1000", 74, run="one",
                        heated={"to": "71 degC", "when": "before"}),
                  batch("berries", "berry", "1000", 80, run="one"))),
    ("overloaded-dryer", from_batches(batch("berries", "berry", "3001", 80, dryer="shelf")),
     from_batches(batch("berries", "berry", "3000", 80, dryer="shelf"))),
    ("overloaded-dryer",
     from_batches(FRUIT, batch("more", "berry", "2001", 80, dryer="shelf")),
     from_batches(FRUIT, batch("more", "berry", "2000", 80, dryer="shelf"))),
    # 1 - 0.2 / 0.96 of the fresh weight is water: 2.5 kg of it are in 3157.9 g.
    ("overloaded-dryer", ice(3158), ice(3157)),
    ("sun-dried-vegetables", sunned("leaf", 90), sunned("berry", 80)),
    ("sun-dried-vegetables", sunned("leaf", 90), sunned("tomato", 94)),
    ("sun-dried-vegetables", sunned("leaf", 90), sunned("red-fruit", 94)),
    ("sun-dried-vegetables", sunned("leaf", 90), sunned("thyme", 80)),
    ("sun-dried-vegetables", sunned("leaf", 90), from_batches(batch("berries", "leaf", "900", 90))),
    # Water boils at 93.3 °C at 2000 m.
    ("reach-above-boiling", at_height(cooks(boiled(reach="94 degC")), "2000 m"),
     at_height(cooks(boiled(reach="93 degC")), "2000 m")),
    ("reach-above-boiling", at_height(cooks(boiled(reach="100 degC")), "2000 m"),
     at_height(cooks(boiled(reach="100 degC")), "0 m")),
    ("reach-above-boiling", at_height(cooks(boiled(reach="100 degC")), "2000 m"),
     at_height(cooks({**FRIED, "reach": "100 degC"}), "2000 m")),
    ("kidney-beans", cooks(boiled("kidney-dry")), cooks(boiled("black-beans-boiled"))),
    ("kidney-beans", cooks(boiled("white-beans")), cooks(boiled("lentil"))),
    # Pulses and flour are cooked, before whatever is strewn over; a soak in boiling water is none.
    ("not-cooked", cooks(SOAKED_HOT), cooks(boiled("lentil"))),
    ("not-cooked", eats("lentil"), eats("black-beans-boiled")),
    ("not-cooked", cooks(FLOUR_LATE), cooks(FLOUR_FRIED)),
    ("wild-plants", cooks(boiled("nettle-leaves")), cooks(boiled("spinach"))),
    ("gathered-shellfish", cooks(boiled("mussels", reach="74 degC")), eats("mussels-tin")),
    ("garlic-in-oil", eats("garlic-oil"), eats("plain-oil")),
    ("infant-formula", eats("infant-milk"), eats("infant-milk-in-bottles")),
    ("infant-formula", cooks(bottle({"do": "mix", "water": "90 ml"})),
     cooks(bottle({"do": "soak", "water": "90 ml", "minutes": 5, "hot": True}))),
    ("infant-formula", cooks(bottle({"do": "soak", "water": "90 ml", "minutes": 5})),
     cooks(bottle({"do": "boil", "water": "90 ml"}))),
    # Into water that was boiled, and none that was not.
    ("infant-formula",
     cooks(bottle({"do": "mix", "water": "90 ml"}, {"do": "boil", "water": "9 ml"})),
     cooks(bottle({"do": "mix"}, {"do": "boil", "water": "90 ml"}))),
    ("infant-formula", cooks(bottle({"do": "mix"})),
     cooks(bottle({"do": "serve"}, {"do": "boil", "water": "90 ml"}))),
    ("raw-sprouts", eats("mung-sprouts"), cooks(boiled("mung-sprouts"))),
    ("raw-sprouts", eats("mung-sprouts"), eats("brussels-sprouts")),
    ("home-canned", cooks(boiled("home-beans")), cooks(boiled("black-beans-boiled"))),
    # 13 min at 1000 m, where 10 min of a recipe become 12.6 and 10.4 become 13.1.
    ("home-canned", cooks(boiled_hard("home-beans", 10)), cooks(boiled_hard("home-beans", 10.4))),
]  # fmt: skip


def plan(path: Path, folder: Folder) -> Kit:
    return hand(path, foods=FOODS, **folder).kit()


def told(path: Path, name: str, folder: Folder) -> list[KitCaution]:
    return of_id(plan(path, folder), name)


@with_and_without(CASES)
def test_a_caution_comes_with_its_condition_and_goes_with_it(
    tmp_path: Path, name: str, with_it: Folder, without: Folder
) -> None:
    for caution in told(tmp_path / "with", name, with_it) or pytest.fail("not shown"):
        assert caution.because.endswith(".")
    assert told(tmp_path / "without", name, without) == []


SAYS: list[tuple[str, Folder, str, str]] = [
    # caution, trip, what it says in metric units, in US ones
    ("raw-and-cooked-in-one-run", from_batches(RAW, FRUIT),
     "(berry, dried) shared the dryer with raw food: Batch hens (hen-raw, dried raw).",
     ""),
    ("overloaded-dryer", from_batches(batch("berries", "berry", "3600", 80, dryer="shelf")),
     "Batch berries (berry, dried): 3.6\u00a0kg at once in Shelf, which takes 3\u00a0kg.",
     "7.94\u00a0lb at once in Shelf, which takes 6.61\u00a0lb"),
    ("overloaded-dryer", ice(4000),
     "3.17\u00a0kg of water to draw out in Cold box, which holds 2.5\u00a0kg of ice.",
     "6.98\u00a0lb of water"),
    # Water boils at 90.0 °C, 193.9 °F.
    ("reach-above-boiling", at_height(cooks(boiled(reach="95 degC")), "3000 m"),
     "dish (day 1, dinner) is to reach 95\u00a0°C in the middle, and water boils at 90\u00a0°C",
     "is to reach 203\u00a0°F in the middle, and water boils at 194\u00a0°F there."),
    ("kidney-beans", at_height(cooks(boiled("kidney-dry")), "2001 m"),
     "kidney-dry in dish (day 1, dinner): at 2,001\u00a0m water boils at 93\u00a0°C, and no time",
     "at 6,565\u00a0ft water boils at 200\u00a0°F"),
    ("kidney-beans", at_height(cooks(boiled("kidney-dry")), "2000 m"),
     "soaked for 0\u00a0min and boiled hard for 0\u00a0min. They want 5\u00a0h and 10\u00a0min.",
     ""),
    # 10 min, and one for each 305 m above the first 305 m or part of it.
    ("home-canned", at_height(cooks(boiled("home-beans")), "1000 m"),
     "is boiled for 0\u00a0min. At 1,000\u00a0m it wants 13\u00a0min.",
     "At 3,281\u00a0ft it wants 13\u00a0min."),
    ("game-not-heated", eats("bear-ham-cured"),
     "bear-ham-cured (day 1, snacks) is not cooked; it must reach 74\u00a0°C",
     "it must reach 165\u00a0°F in the middle."),
    ("game-not-heated", cooks(boiled("bear-ham-cured")), "Nobody wrote down how hot",
     ""),
    ("game-not-heated", cooks(boiled("bear-ham-cured", reach="72 degC")),
     "is heated to 72\u00a0°C in the middle; it must reach 74\u00a0°C.", ""),
]  # fmt: skip


@pytest.mark.parametrize(("name", "folder", "metric", "us"), SAYS)
def test_a_caution_says_what_in_this_trip_brings_it_up(
    tmp_path: Path, name: str, folder: Folder, metric: str, us: str
) -> None:
    (found,) = told(tmp_path / "metric", name, folder)
    assert metric in found.because
    folder = copy.deepcopy(folder)
    folder["trip"]["units"] = "us"
    (found,) = told(tmp_path / "us", name, folder)
    assert us in found.because
    for sign in ("°C", "kg", "\u00a0m "):
        assert sign not in f"{found.because} {found.text}"


def test_a_batch_of_another_trip_is_not_told_here(tmp_path: Path) -> None:
    trip_eats_raw = from_batches(RAW, FRUIT, eaten="hens")
    assert told(tmp_path, "raw-and-cooked-in-one-run", trip_eats_raw) == []


def test_a_caution_stands_at_its_meal_pack_or_batch(tmp_path: Path) -> None:
    (eaten,) = told(tmp_path / "1", "raw-animal-food-eaten", eats("steak-raw"))
    assert (eaten.at.meal, eaten.at.pack) == ((1, 0), "food")
    (shared,) = told(tmp_path / "2", "raw-and-cooked-in-one-run", from_batches(RAW, FRUIT))
    assert (shared.at.batch, shared.where) == ("berries", "drying")


@pytest.mark.parametrize(
    ("name", "state", "kind", "is_poisonous"),
    [
        ("Black beans, dry", "dried", "legume", True),
        ("White bean", "raw", "legume", True),
        ("Weiße Bohnen, getrocknet", "dried", "legume", True),
        ("Schwarze Bohnen", "dried", "legume", True),
        ("Svarte bønner", "dried", "legume", True),
        ("Borlotti", "dried", "legume", True),
        ("Black beans, cooked", "cooked", "legume", False),
        ("Broad beans", "dried", "legume", False),
        ("Black bean sauce", "ready", "other", False),
        ("Chickpeas", "dried", "legume", False),
    ],
)
def test_beans_are_known_by_name_in_every_language(
    tmp_path: Path, name: str, state: str, kind: str, is_poisonous: bool
) -> None:
    bean = {**food("something", kind, state, DRY), "name": name}
    kit = hand(tmp_path, cooks(boiled("something"))["trip"], [boiled("something")], foods=[bean])
    assert ("kidney-beans" in {each.id for each in kit.kit().cautions}) is is_poisonous


LECTIN = [
    # soak, hard boil, simmer, height, whether it is told
    (300, 10, 0, "2000 m", False),
    (299, 10, 0, "2000 m", True),
    (300, 9.9, 0, "2000 m", True),
    (300, 0, 60, "2000 m", True),  # a simmer is no hard boil
    (480, 30, 0, "2001 m", True),
]


@pytest.mark.parametrize(("soak", "boil", "simmer", "height", "is_told"), LECTIN)
def test_raw_beans_want_a_long_soak_a_hard_boil_and_no_great_height(
    tmp_path: Path, soak: float, boil: float, simmer: float, height: str, is_told: bool
) -> None:
    steps: list[Record] = [
        {"do": "soak", "with": ["kidney-dry"], "water": "200 ml", "minutes": soak},
        {"do": "boil", "with": ["kidney-dry"], "water": "300 ml", "minutes": boil},
        {"do": "simmer", "minutes": simmer},
    ]
    if not boil:
        del steps[1]["minutes"]
    recipe = dish(uses(kidney_dry="40 g"), *steps, drain="200 ml")
    found = told(tmp_path, "kidney-beans", at_height(cooks(recipe), height))
    assert bool(found) is is_told


def test_a_dried_meal_with_raw_beans_goes_by_its_own_steps(tmp_path: Path) -> None:
    for minutes, is_told in ((10, False), (9, True)):
        stew = dish(
            uses(white_beans="40 g"),
            {"do": "soak", "with": ["white-beans"], "water": "200 ml", "minutes": 300},
            {"do": "boil", "with": ["white-beans"], "minutes": minutes},
        )
        again: Record = {
            "id": "again", "serves": 1, "cook_in": "pot",
            "uses": [{"recipe": "dish", "amount": "50 g", "dried_by": "dehydrator"}],
            "steps": [{"do": "boil", "with": ["dish"], "water": "90 ml"}],
        }  # fmt: skip
        folder: Folder = {
            "trip": day_trip(days=[day({"dinner": [{"cook": "again"}]})]),
            "recipes": [stew, again],
        }
        path = tmp_path / str(minutes)
        assert bool(told(path, "kidney-beans", folder)) is is_told
        # It was boiled at home: the height of the camp does not matter.
        high = at_height(folder, "2500 m")
        assert bool(told(path / "high", "kidney-beans", high)) is is_told


@pytest.mark.parametrize(
    ("name", "kind", "state", "is_never_raw"),
    [
        ("Red lentils", "legume", "dried", True),
        ("Soya flour", "legume", "dried", True),
        ("Green beans", "vegetable", "raw", True),
        ("Rote Linsen", "legume", "dried", True),
        ("Grüne Bohnen", "vegetable", "raw", True),
        ("Weizenmehl", "grain", "dried", True),
        ("Kikerter", "legume", "dried", True),
        ("Brekkbønner", "vegetable", "raw", True),
        ("Hvetemel", "grain", "dried", True),
        ("Red lentils", "legume", "cooked", False),
        ("Flour tortilla", "grain", "ready", False),
        ("Mung bean sprouts", "vegetable", "raw", False),  # a caution of their own
        ("Mung bean noodles", "legume", "dried", False),
        ("Kartoffelmehl", "vegetable", "dried", False),
        ("Garden peas", "vegetable", "raw", False),
        ("Rolled oats", "grain", "dried", False),
        ("Almond flour", "nut", "dried", False),
    ],
)
def test_pulses_and_flour_are_known_in_every_language(
    name: str, kind: Any, state: Any, is_never_raw: bool
) -> None:
    assert never_raw(Food("it", name, kind, state, Composition(water_g=10))) == is_never_raw
