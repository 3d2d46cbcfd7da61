"""The other side of each condition: trips as near as can be to what brings a caution up."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from builder.model.kit import KitCaution

from . import test_cautions_food, test_cautions_people
from .caution_cases import Case, Folder, of_id, with_and_without
from .folders import Record, day, day_trip, food, hand, uses
from .test_cautions import (
    FIRE,
    MARKED,
    PRESSED,
    SPIRIT,
    at_camp,
    boiled,
    cooks,
    dish,
    dried,
    eats,
    on_the_way,
)
from .test_cautions_food import FRUIT, RAW, at_height, batch, boiled_hard, from_batches
from .test_cautions_outdoors import gas, water
from .test_cautions_people import (
    CARRYING,
    NURSING,
    OLD,
    SMALL,
    cooked,
    dried_at_home,
    ea,
    only_bo,
)

FLESH = "water 74 g, protein 23 g, fat 2 g"
FOODS = [
    *MARKED,
    *test_cautions_food.FOODS,
    *test_cautions_people.FOODS,
    food("wild-greens", "vegetable", "cooked", "water 90 g, carbohydrate 10 g",
         beware=["wild-plant"]),
    food("sprouts-boiled", "vegetable", "cooked", "water 90 g, carbohydrate 10 g",
         beware=["sprouts"]),
    food("boar-smoked", "meat", "cooked", FLESH, beware=["game"]),
    food("pike-cold", "fish", "ready", FLESH, beware=["freshwater-fish", "raw-fish"]),
    food("mussels-dry", "fish", "dried", FLESH, beware=["shellfish"]),
    food("brown-beans", "legume", "raw", "water 12 g, carbohydrate 88 g", beware=["kidney-bean"]),
]  # fmt: skip
HOME = day(ends="home")


def days(*each: Record, **trip: Any) -> Folder:
    return {"trip": day_trip(days=[*each], **trip)}


def planned(record: Record, on: str = "2031-01-01") -> Record:
    """Give a batch that is still to be dried."""
    told = {key: value for key, value in record.items() if key not in ("done", "dried")}
    return {**told, "planned": on}


def loose(record: Record) -> Record:
    """Give a batch of which nobody told in what it was dried."""
    return {key: value for key, value in record.items() if key != "dryer"}


def heated_to(celsius: float) -> Record:
    return {**RAW, "heated": {"to": f"{celsius} degC", "when": "before"}}


def mixed(what: str, **her: Any) -> Folder:
    """Give a dinner that stirs a food into cold water, for the trip of two, one of them changed."""
    lines = uses(**{what.replace("-", "_"): "30 g"})
    cold = dish(lines, {"do": "mix", "with": [what], "water": "80 ml"}, cook_in="none")
    folder = cooks(cold)
    folder["trip"]["party"][0].update(her)
    return folder


BIG = batch("big", "berry", "3001", 80, dryer="shelf", done="2031-01-02")
MORE = batch("more", "berry", "900", 80, dryer="shelf")


FRIED_AND_BOILED = dish(
    uses(kernel="40 g", oil="9 g"),
    {"do": "fry", "with": ["kernel", "oil"], "minutes": 4},
    {"do": "boil", "water": "100 ml"},
)
LEAN = batch("berries", "deer-raw", "1000", 74)
# Beans that the first step does not touch have not soaked, and none soak once they were boiled.
LATE = dish(
    uses(kernel="40 g", kidney_dry="40 g"),
    {"do": "soak", "with": ["kernel"], "water": "100 ml", "minutes": 300},
    {"do": "boil", "with": ["kernel", "kidney-dry"], "water": "300 ml", "minutes": 30},
)
EARLY = dish(
    uses(kernel="40 g", kidney_dry="40 g"),
    {"do": "soak", "with": ["kernel", "kidney-dry"], "water": "200 ml", "minutes": 300},
    {"do": "boil", "with": ["kernel", "kidney-dry"], "water": "300 ml", "minutes": 30},
)
AFTERWARDS = dish(
    uses(kidney_dry="40 g"),
    {"do": "boil", "with": ["kidney-dry"], "water": "300 ml", "minutes": 30},
    {"do": "soak", "minutes": 300},
)


CASES: list[Case] = [
    ("kidney-beans", cooks(LATE), cooks(EARLY)),
    ("kidney-beans", cooks(AFTERWARDS), cooks(EARLY)),
    ("home-canned", at_height(cooks(boiled_hard("home-beans", 9.9)), "0 m"),
     at_height(cooks(boiled_hard("home-beans", 10.2)), "0 m")),
    ("gathered-shellfish", cooks(boiled("mussels", reach="74 degC")),
     cooks(boiled("mussels-dry", reach="74 degC"))),
    ("freshwater-fish-not-heated", eats("pike-cold"), eats("cod-cured")),
    # What a heat step made safe may be eaten as it is; what is thrown out is told as that alone.
    ("game-not-heated", eats("bear-ham-cured"),
     from_batches({**LEAN, "heated": {"to": "74 degC", "when": "before"}})),
    ("raw-animal-food-eaten", from_batches(LEAN), from_batches(RAW, eaten="hens")),
    # Frying makes hotter than water, whatever boils afterwards.
    ("reach-above-boiling", at_height(cooks(boiled(reach="100 degC")), "2000 m"),
     at_height(cooks({**FRIED_AND_BOILED, "reach": "100 degC"}), "2000 m")),
    ("raw-dried-animal-food", dried("egg-raw", "freeze-dryer"),
     from_batches(LEAN, method="freeze-dryer")),
    # Too cool a step leaves it raw in the dryer.
    ("raw-and-cooked-in-one-run", from_batches(heated_to(60), FRUIT),
     from_batches(heated_to(74), FRUIT)),
    ("raw-and-cooked-in-one-run", from_batches(planned(RAW), planned(FRUIT)),
     from_batches(planned(RAW), planned(FRUIT, "2031-01-02"))),
    # One day is no run where nobody told the dryer.
    ("raw-and-cooked-in-one-run", from_batches(RAW, FRUIT), from_batches(loose(RAW), loose(FRUIT))),
    ("raw-and-cooked-in-one-run", from_batches(RAW, FRUIT), from_batches(RAW, loose(FRUIT))),
    # Raw food beside raw food.
    ("raw-and-cooked-in-one-run", from_batches(RAW, FRUIT),
     from_batches(RAW, FRUIT, eaten="hens")),
    # The dryer may be told at one of a run's batches alone.
    ("overloaded-dryer",
     from_batches(loose({**FRUIT, "run": "one"}),
                  batch("more", "berry", "2001", 80, run="one", dryer="shelf")),
     from_batches(loose({**FRUIT, "run": "one"}),
                  batch("more", "berry", "2000", 80, run="one", dryer="shelf"))),
    # Of a run that no meal eats of nothing is told.
    ("overloaded-dryer", from_batches(BIG, FRUIT, eaten="big"), from_batches(BIG, FRUIT)),
    ("low-oxygen-meat", dried("lean-meat", absorber=True, tests=["constant"]),
     dried("lean-meat", packaging="jar", tests=["constant"])),
    ("animals-and-food", days(day(), HOME), days(HOME)),
    ("raw-animal-food", cooks(boiled("egg-raw", reach="72 degC")), eats("egg-raw")),
    ("raw-animal-food-eaten", eats("egg-raw"), cooks(boiled("egg-raw", reach="72 degC"))),
    ("game-not-heated", eats("bear-ham-cured"), eats("boar-smoked")),
    ("wild-plants", cooks(boiled("wild-greens")), cooks(boiled("leaf"))),
    ("raw-sprouts", eats("mung-sprouts"), eats("sprouts-boiled")),
    ("kidney-beans", eats("kidney-dry"), eats("black-beans-boiled")),
    ("kidney-beans", eats("brown-beans"), eats("pulse")),
    ("home-canned", eats("home-beans"), eats("pulse")),
    # In an iron it gets hotter than water.
    ("reach-above-boiling", at_height(cooks(boiled(reach="100 degC")), "2000 m"),
     at_height(cooks({**PRESSED, "reach": "100 degC"}, FIRE), "2000 m")),
    # No thermometer at camp tells half a kelvin: water boils at 96.7 °C at 1000 m.
    ("reach-above-boiling", cooks(boiled(reach="97.3 degC")), cooks(boiled(reach="97.1 degC"))),
    # What is handed on from the camp before is not drunk at home.
    ("long-dry-stretch", days(day(water=water(camp="none", treat="filter"))),
     days({**HOME, "water": water(camp="none", treat="filter")})),
    ("nuts-and-small-children", cooked("round-nuts", **SMALL), cooked("milled-nuts", **SMALL)),
    ("alcohol", cooked("punch", **CARRYING), cooked("punch", **OLD)),
    # Nothing cooks what is only stirred.
    ("choking", mixed("hard-bits", **SMALL), cooked("hard-bits", **SMALL)),
    ("raw-milk-and-soft-cheese", mixed("farm-milk", **OLD), cooked("farm-milk", **OLD)),
    # Heat makes fruit and flesh tough, not pulses.
    ("choking", dried_at_home("berry", "oven"), dried_at_home("pulse", "oven")),
    ("choking", dried_at_home("lean-meat", "oven"), dried_at_home("lean-meat", "freeze-dryer")),
    ("caffeine", ea("strong-brew", **NURSING), only_bo("strong-brew", **NURSING)),
    ("caffeine", ea("strong-brew", **CARRYING), ea("punch", **CARRYING)),
    ("caffeine", ea("strong-brew", **CARRYING), ea("strong-brew", **OLD)),
    ("gas-in-the-cold", gas("-15 degC"), gas("-15 degC", SPIRIT)),
    ("over-drinking", on_the_way(25.1), at_camp(air={"low": "9 degC", "high": "25.1 degC"})),
]  # fmt: skip


def told(path: Path, name: str, folder: Folder) -> list[KitCaution]:
    foods = list({each["id"]: each for each in FOODS}.values())
    kit = hand(path, foods=foods, **folder).kit()
    return of_id(kit, name)


@with_and_without(CASES)
def test_a_caution_comes_with_its_condition_and_goes_with_it(
    tmp_path: Path, name: str, with_it: Folder, without: Folder
) -> None:
    assert told(tmp_path / "with", name, with_it)
    assert told(tmp_path / "without", name, without) == []


def two_days(first: Record, second: Record) -> Folder:
    return days(day(**first), day(**second))


COLD_NIGHT = {"air": {"low": "-15 degC", "high": "5 degC"}}
COLDER_NIGHT = {"air": {"low": "-17 degC", "high": "5 degC"}}
HOT_DAY = {"air": {"low": "9 degC", "high": "31 degC"}}
HOTTER_DAY = {"air": {"low": "9 degC", "high": "33 degC"}}

SAYS: list[tuple[str, Folder, list[str]]] = [
    # caution, trip, all its reasons
    ("animals-and-food", days(day(), HOME), ["You camp with food on day 1."]),
    ("low-oxygen-meat", dried("lean-meat", absorber=True, tests=["constant"]),
     ["Batch batch (lean-meat, cooked and dried) is heat-dried meat or fish, packed with an "
      "absorber."]),
    ("low-oxygen-wet", dried("lean-meat", packaging="vacuum"),
     ["Batch batch (lean-meat, cooked and dried) is packed in a vacuum bag; 0\u00a0% to 13\u00a0% "
      "moisture is left in it."]),
    # The batch that the trip eats is named first in the run, or not.
    ("raw-and-cooked-in-one-run", from_batches(RAW, MORE, FRUIT),
     ["Batch berries (berry, dried) shared the dryer with raw food: Batch hens (hen-raw, dried "
      "raw)."]),
    ("overloaded-dryer", from_batches({**MORE, "fresh": "2500 g", "dried": "520 g"}, FRUIT),
     ["Batch more (berry, dried) and Batch berries (berry, dried): 3.5\u00a0kg at once in Shelf, "
      "which takes 3\u00a0kg."]),
    ("boil-longer",
     two_days({"camp_altitude": "2400 m", "water": water()},
              {"camp_altitude": "2200 m", "water": water()}),
     ["The camp lies at up to 2,400\u00a0m on days 1 and 2."]),
    ("heat-illness", two_days(HOTTER_DAY, HOT_DAY),
     ["The air reaches up to 33\u00a0°C on days 1 and 2."]),
    ("over-drinking", two_days(HOT_DAY, {}), ["It is above 30\u00a0°C on day 1, at rest too."]),
    ("two-hours", two_days({"meals": {"dinner": [{"cook": "dish"}]}, **HOTTER_DAY}, {}),
     ["Food is soaked or cooked on day 1. The air is above 32\u00a0°C on day 1: one hour only."]),
    ("gas-in-the-cold", two_days(COLD_NIGHT, COLDER_NIGHT),
     ["On day 1 the air falls to −15\u00a0°C, and Gas gives little pressure then.",
      "On day 2 the air falls to −17\u00a0°C, and Gas gives little pressure then."]),
    ("honey-and-babies", ea("sweet", age=1.9, mass="11 kg", height="85 cm"),
     ["There is honey in sweet (day 1, snacks), and Ea is 1.9."]),
    ("not-to-be-eaten", mixed("sure", avoids=["nuts", "grain"]),
     ["Ea must not eat sure (grain) and sure (tree nuts): it is in dish (day 1, dinner)."]),
    ("choking", mixed("hard-bits", **SMALL),
     ["hard-bits in dish (day 1, dinner), and Ea is 4.9."]),
    ("choking", dried_at_home("berry", "oven"),
     ["berry, oven-dried (day 1, snacks), and Ea is 4.9."]),
    ("caffeine", ea("brew", "600 g", **CARRYING),
     ["Ea is pregnant, and day 1 gives 240\u00a0mg of caffeine: 200\u00a0mg would do."]),
    # Nursing at sixteen: 3 mg for each of 50 kg are less than 200.
    ("caffeine", ea("brew", "600 g", **NURSING, age=16, mass="50 kg"),
     ["Ea is nursing, and day 1 gives 240\u00a0mg of caffeine: 150\u00a0mg would do."]),
    ("caffeine", ea("strong-brew", **NURSING),
     ["Ea is nursing. Caffeine not given: strong-brew."]),
    ("alcohol", ea("punch", age=16), ["punch (day 1, snacks), and Ea is 16."]),
]  # fmt: skip


@pytest.mark.parametrize(("name", "folder", "because"), SAYS)
def test_a_caution_tells_each_of_its_reasons(
    tmp_path: Path, name: str, folder: Folder, because: list[str]
) -> None:
    folder = {"recipes": [boiled()], **folder} if name == "two-hours" else folder
    assert [each.because for each in told(tmp_path, name, folder)] == because


def test_an_overloaded_run_stands_at_the_batch_that_the_trip_eats(tmp_path: Path) -> None:
    more = {**MORE, "fresh": "2500 g", "dried": "520 g"}
    (found,) = told(tmp_path, "overloaded-dryer", from_batches(more, FRUIT))
    assert found.at.batch == "berries"


WHERE = {
    "tent": "in a tent",
    "tarp": "under a tarp",
    "hut": "in a hut",
    "snow": "in a snow shelter",
    "open": "in the open",
}
ON_STOVE = {"dinner": [{"cook": "dish"}]}
ON_FIRE = {"lunch": [{"cook": "pressed"}]}
BURNS: list[tuple[Record, str]] = [
    (ON_STOVE, "a stove"),
    (ON_FIRE, "a fire"),
    ({**ON_FIRE, **ON_STOVE}, "a stove and a fire"),
]


@pytest.mark.parametrize("shelter", WHERE)
def test_every_shelter_and_everything_that_burns_is_named(tmp_path: Path, shelter: str) -> None:
    recipes = [boiled(), {**PRESSED, "id": "pressed"}]
    for number, (meals, burns) in enumerate(BURNS):
        folder = {**days(day(meals), shelter=shelter, **FIRE), "recipes": recipes}
        path = tmp_path / str(number)
        says = [f"You sleep {WHERE[shelter]} and cook on {burns}."]
        assert [each.because for each in told(path, "carbon-monoxide", folder)] == says
        in_hut = [each.because for each in told(path / "hut", "hut-flue", folder)]
        assert in_hut == (says if shelter == "hut" else [])
