"""Food that stands, on paper: cautions on a trip, errors of a recipe, and what the page says."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from builder.model.kit import Kit
from builder.planning.cooking.standing import waits
from builder.reading.folder import Layer, read_folder

from .caution_cases import Case, Folder, with_and_without
from .folders import SHIPPED, Record, day, day_trip, food, hand, uses
from .test_cautions import cooks, dish, dried

FOODS = [
    food("dry-bean", "legume", "dried", "water 12 g, carbohydrate 88 g"),
    food("milk-powder", "dairy", "ready", "water 3 g, carbohydrate 97 g"),
    food("trail-dust", "sugar", "ready", "water 3 g, carbohydrate 97 g"),
]


FROZEN = {"kept_at": "-18 degC", "start": "2031-08-28"}


def carried(days: int, name: str, **batch: Any) -> Folder:
    """Give a trip that carries a batch for some days before it eats of it."""
    folder = dried(name, **batch)
    trip = folder["trip"]
    trip["days"] = [*(day() for _ in range(days)), *trip["days"]]
    return folder


def soaked(*names: str, minutes: float, boiled: bool = True, rest: float = 0) -> Record:
    """Give a recipe that soaks foods cold, and boils them or not, and lets them rest."""
    how = {"pulse": "dehydrator", "leaf": "oven", "lean-meat": "dehydrator", "berry": "oven"}
    lines = uses(**{name.replace("-", "_"): f"40 g {how.get(name, '')}" for name in names})
    steps: list[Record] = [
        {"do": "soak", "with": [*names], "water": "100 ml", "minutes": minutes},
    ]
    if boiled:
        steps.append({"do": "boil", "with": [*names], "water": "100 ml"})
    if rest:
        steps.append({"do": "rest", "minutes": rest})
    return dish(lines, *steps, cook_in="pot" if boiled else "none")


def warm(recipe: Record, high: str = "20 degC") -> Folder:
    """Give a trip that cooks a recipe in such air."""
    return cooks(recipe, air={"low": "0 degC", "high": high})


CASES: list[Case] = [
    # Above 32.2 °C one hour, else two; at 4.4 °C and below it stands as in a fridge.
    ("animal-food-standing", warm(soaked("lean-meat", minutes=61), "32.3 degC"),
     warm(soaked("lean-meat", minutes=61), "32.2 degC")),
    ("animal-food-standing", warm(soaked("lean-meat", minutes=61), "33 degC"),
     warm(soaked("lean-meat", minutes=60), "33 degC")),
    ("animal-food-standing", warm(soaked("milk-powder", minutes=61), "33 degC"),
     warm(soaked("trail-dust", minutes=61), "33 degC")),
    ("plant-food-standing", warm(soaked("pulse", minutes=121)),
     warm(soaked("pulse", minutes=120))),
    ("plant-food-standing", warm(soaked("pulse", minutes=61), "32.3 degC"),
     warm(soaked("pulse", minutes=61), "32.2 degC")),
    ("plant-food-standing", warm(soaked("pulse", minutes=480), "4.5 degC"),
     warm(soaked("pulse", minutes=480), "4.4 degC")),
    # Raw pulses that are boiled may soak overnight, those eaten uncooked may not.
    ("plant-food-standing", warm(soaked("leaf", minutes=480, boiled=False)),
     warm(soaked("leaf", minutes=480))),
    ("plant-food-standing", warm(soaked("berry", minutes=480, boiled=False)),
     warm(soaked("dry-bean", minutes=480))),
    # Raw beans soak overnight, but not in heat.
    ("plant-food-standing", warm(soaked("dry-bean", minutes=720), "32.3 degC"),
     warm(soaked("dry-bean", minutes=720), "32.2 degC")),
    # What was boiled is cooked, however raw it was before; a rest is 1.26 times as long up here.
    ("plant-food-standing", warm(soaked("dry-bean", minutes=480, rest=121)),
     warm(soaked("dry-bean", minutes=480, rest=95))),
    ("past-best-before", dried("berry", kept_at="15.6 degC", start="2032-01-02"),
     dried("berry", kept_at="15.6 degC", start="2032-01-01")),
    ("start-not-told", dried("lean-meat", kept_at="15.6 degC", start=None),
     dried("lean-meat", kept_at="15.6 degC")),
    ("start-not-told", dried("berry", start=None), {"trip": day_trip(start=None)}),
    # What failed has no date.
    ("start-not-told", dried("lean-meat", start=None), dried("lean-meat", "sun", start=None)),
    # Cooked meat keeps one month from 1 January.
    ("animal-food-past-best-before",
     dried("lean-meat", kept_at="15.6 degC", start="2031-02-02"),
     dried("lean-meat", kept_at="15.6 degC", start="2031-02-01")),
    ("past-best-before", dried("berry", kept_at="15.6 degC", start="2032-01-02"),
     dried("lean-meat", kept_at="15.6 degC", start="2031-02-02")),
    ("animal-food-past-best-before",
     dried("lean-meat", kept_at="15.6 degC", start="2031-02-02"),
     dried("berry", kept_at="15.6 degC", start="2032-01-02")),
    # Frozen, cooked meat keeps until 5 September, and each day at 12.5 °C takes seven of those.
    ("animal-food-past-best-before", carried(2, "lean-meat", **FROZEN),
     carried(1, "lean-meat", **FROZEN)),
    ("animal-food-past-best-before", carried(2, "lean-meat", **FROZEN),
     carried(2, "lean-meat", **{**FROZEN, "start": "2031-08-20"})),
    ("past-best-before", carried(2, "berry", **{**FROZEN, "start": "2031-12-25"}),
     carried(2, "lean-meat", **FROZEN)),
]  # fmt: skip


def plan(path: Path, folder: Folder) -> Kit:
    return hand(path, foods=FOODS, **folder).kit()


@with_and_without(CASES)
def test_a_caution_comes_with_its_condition_and_goes_with_it(
    tmp_path: Path, name: str, with_it: Folder, without: Folder
) -> None:
    assert name in {each.id for each in plan(tmp_path / "with", with_it).cautions}
    assert name not in {each.id for each in plan(tmp_path / "without", without).cautions}


def test_standing_tells_food_minutes_air_and_its_step(tmp_path: Path) -> None:
    kit = plan(tmp_path, warm(soaked("pulse", minutes=150)))
    (found,) = [each for each in kit.cautions if each.id == "plant-food-standing"]
    assert found.because == (
        "pulse, cooked and dried in dish (day 1, dinner) stands wet for 2\u00a0h 30\u00a0min. "
        "In air of 20\u00a0°C wet food keeps 2\u00a0h."
    )
    assert (found.where, found.at.meal, found.at.step) == ("cook/dish", (1, 0), 0)


def test_a_kit_in_us_units_tells_the_air_in_them(tmp_path: Path) -> None:
    folder = warm(soaked("pulse", minutes=150))
    folder["trip"]["units"] = "us"
    (found,) = [
        each for each in plan(tmp_path, folder).cautions if each.id == "plant-food-standing"
    ]
    assert "In air of 68\u00a0°F wet food keeps" in found.because
    assert "°C" not in found.because


ERRORS = [
    # foods, minutes of the soak, minutes of a rest after boiling, whether it is an error
    (("lean-meat",), 121, 0, True),
    (("lean-meat",), 120, 0, False),
    (("lean-meat",), 90, 90, False),  # the boil between them starts the time anew
    (("lean-meat",), 10, 121, True),
    (("pulse", "milk-powder"), 121, 0, True),
    (("pulse",), 600, 0, False),
]


@pytest.mark.parametrize(("names", "minutes", "rest", "is_error"), ERRORS)
def test_animal_food_that_a_recipe_leaves_standing_is_an_error(
    tmp_path: Path, names: tuple[str, ...], minutes: float, rest: float, is_error: bool
) -> None:
    recipe = soaked(*names, minutes=minutes, rest=rest)
    problems = hand(tmp_path, warm(recipe)["trip"], [recipe], foods=FOODS).problems
    found = [each for each in problems if each.kind == "stands-too-long"]
    assert bool(found) is is_error
    for each in found:
        assert each.place.file.endswith("recipes/dish.yaml")
        assert each.place.line > 1
        assert f"stands wet for {max(minutes, rest):g} min in dish" in each.says


def test_what_is_put_in_late_has_not_stood(tmp_path: Path) -> None:
    steps: list[Record] = [
        {"do": "soak", "with": ["dry-bean"], "water": "100 ml", "minutes": 480},
        {"do": "soak", "with": ["lean-meat"], "water": "50 ml", "minutes": 15},
        {"do": "boil", "with": ["dry-bean", "lean-meat"]},
    ]
    recipe = dish(uses(dry_bean="40 g", lean_meat="20 g dehydrator"), *steps)
    read = hand(tmp_path, warm(recipe)["trip"], [recipe], foods=FOODS)
    assert read.problems == ()
    found = waits(read.content.recipes["dish"], [480, 15, 0])
    assert {(each.name, each.minutes) for each in found} == {("dry-bean", 495), ("lean-meat", 15)}


def test_mince_that_was_heated_before_it_was_dried_is_not_called_raw(tmp_path: Path) -> None:
    batch = {
        "id": "batch", "food": "mince-raw", "method": "dehydrator", "done": "2031-05-25",
        "fresh": "1000 g", "dried": "310 g", "packs": {"count": 1, "in": "zip-bag"},
        "heated": {"to": "72 degC", "when": "before"},
    }  # fmt: skip
    recipe = dish(
        uses(mince_raw="40 g dehydrator"),
        {"do": "soak", "with": ["mince-raw"], "water": "100 ml", "minutes": 70},
        {"do": "boil", "with": ["mince-raw"], "water": "100 ml"},
        reach="72 degC",
    )
    meal = {"dinner": [{"cook": "dish", "from": {"mince-raw": "batch"}}]}
    hot = day(meal, air={"low": "20 degC", "high": "34 degC"})
    read = hand(tmp_path, day_trip(days=[hot]), [recipe], [batch], foods=FOODS)
    (found,) = [each for each in read.kit().cautions if each.id == "animal-food-standing"]
    assert found.because.startswith("mince-raw, heated and dried in dish")


def test_a_dried_meal_with_meat_counts_as_meat(tmp_path: Path) -> None:
    stew = dish(
        uses(stew_meat="40 g", pulse="40 g"),
        {"do": "boil", "with": ["stew-meat", "pulse"], "water": "100 ml"},
    )
    again = {
        "id": "again", "serves": 1, "cook_in": "pot",
        "uses": [{"recipe": "dish", "amount": "50 g", "dried_by": "dehydrator"}],
        "steps": [{"do": "soak", "with": ["dish"], "water": "90 ml", "minutes": 130},
                  {"do": "boil", "with": ["dish"]}],
    }  # fmt: skip
    trip = day_trip(days=[day({"dinner": [{"cook": "again"}]})])
    problems = hand(tmp_path, trip, [stew, again]).problems
    assert [each.kind for each in problems] == ["stands-too-long"]
    # It is named by what is soaked, not by the raw meat that it was cooked of.
    assert problems[0].says.startswith("dish stands wet for 130 min in again")


def test_no_shipped_recipe_leaves_food_standing() -> None:
    content = read_folder([Layer(SHIPPED, "content")]).content
    longest = {
        name: max((each.minutes for each in waits(recipe, _minutes(recipe))), default=0)
        for name, recipe in content.recipes.items()
    }
    assert longest and max(longest.values()) <= 60


def _minutes(recipe: Any) -> list[float]:
    return [step.minutes for step in recipe.steps]
