"""What is not, or may not be, for one of the party: on each side of every limit."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from builder.model.food import Composition
from builder.model.kit import Kit
from builder.planning.foods.substance import mixed

from .caution_cases import Case, Folder, of_id, with_and_without
from .folders import Record, day, day_trip, food, hand, uses
from .test_cautions import dish

DRY = "water 5 g, carbohydrate 95 g"
FOODS = [
    food("told-none", "grain", "ready", DRY, allergens=[], beware=[]),
    food("untold", "grain", "ready", DRY, beware=[]),
    food("traces", "grain", "ready", DRY, allergens=[], may_contain=["nuts"], beware=[]),
    food("sure", "grain", "ready", DRY, allergens=["nuts"], may_contain=["milk"], beware=[]),
    food("sausage-dry", "meat", "ready", DRY, allergens=[], beware=["cured-raw"]),
    food("sausage-boiled", "meat", "ready", DRY, allergens=[], beware=[]),
    food("spread-of-it", "meat", "cooked", DRY, allergens=[], beware=["liver"]),
    food("ripe-cheese", "dairy", "ready", DRY, allergens=["milk"], beware=["soft-cheese"]),
    food("farm-milk", "dairy", "ready", DRY, allergens=["milk"], beware=["raw-milk"]),
    food("cold-fillet", "fish", "ready", DRY, allergens=["fish"], beware=["raw-fish"]),
    food("tin-fillet", "fish", "ready", DRY, allergens=["fish"], beware=[]),
    food("punch", "drink", "ready", "water 90 g, carbohydrate 5 g, alcohol 5 g",
         allergens=[], beware=[]),
    food("brew", "drink", "ready", "water 99 g", allergens=[], beware=["caffeine"],
         caffeine="40 mg"),
    food("thick-brew", "drink", "ready", "water 80 g, carbohydrate 20 g", allergens=[],
         beware=["caffeine"], caffeine="40 mg"),
    food("strong-brew", "drink", "ready", "water 99 g", allergens=[], beware=["caffeine"]),
    food("hard-bits", "fruit", "ready", DRY, allergens=[], beware=["choking"]),
    food("sausage-rounds", "meat", "ready", DRY, allergens=[], beware=["choking"]),
    food("round-nuts", "nut", "ready", DRY, allergens=["nuts"], beware=["whole-nut"]),
    food("milled-nuts", "nut", "ready", DRY, allergens=["nuts"], beware=[]),
]  # fmt: skip


Her = dict[str, Any]
CHILD: Her = {"mass": "18 kg", "height": "107 cm", "carries_to": "2 kg", "own_gear": "1 kg"}
SMALL: Her = {"age": 4.9, **CHILD}
NOT_SMALL: Her = {"age": 5, **CHILD}
TEN: Her = {"age": 10, "mass": "30 kg", "height": "138 cm", "carries_to": "5 kg"}
CARRYING: Her = {"pregnant": True}
NURSING: Her = {"nursing": True}
OLD: Her = {"age": 65}
NOT_OLD: Her = {"age": 64.9}


def ea(what: str, each: str = "10 g", **her: Any) -> Folder:
    """Give the trip of two on which both eat one thing as it is, one of them changed."""
    trip = day_trip(days=[day({"snacks": [{"eat": what, "each": each}]})])
    trip["party"][0].update(her)
    return {"trip": trip}


def without_mass(what: str, each: str) -> Folder:
    """Give the same trip with a child of ten of whom nobody told what they weigh."""
    folder = ea(what, each, age=10, height="138 cm", carries_to="5 kg")
    del folder["trip"]["party"][0]["mass"]
    return folder


def only_bo(what: str, **her: Any) -> Folder:
    """Give the same trip, and only the other one eats it."""
    folder = ea(what, **her)
    folder["trip"]["days"][0]["meals"] = {
        "snacks": [
            {"eat": what, "each": "10 g", "for": ["Bo"]},
            {"eat": "told-none", "each": "9 g"},
        ]
    }
    return folder


def packet(**label: Any) -> Folder:
    folder = ea("told-none", avoids=["nuts"])
    item = {"eat": "Packet", "each": "10 g", "energy": "400 kcal", **label}
    folder["trip"]["days"][0]["meals"] = {"snacks": [item]}
    return folder


def cooked(what: str, *, late: bool = False, **her: Any) -> Folder:
    """Give a dinner that boils a food with grain, or puts it in when all is cooked."""
    lines = uses(**{"kernel": "40 g", what.replace("-", "_"): "30 g"})
    boiled = ["kernel"] if late else ["kernel", what]
    steps: list[Record] = [{"do": "boil", "with": boiled, "water": "100 ml"}]
    steps.append({"do": "serve", "with": [what]} if late else {"do": "serve"})
    trip = day_trip(days=[day({"dinner": [{"cook": "dish"}]})])
    trip["party"][0].update(her)
    return {"trip": trip, "recipes": [dish(lines, *steps)]}


def dried_at_home(name: str, method: str) -> Folder:
    folder = ea(name, **SMALL)
    folder["trip"]["days"][0]["meals"]["snacks"][0]["dried_by"] = method
    return folder


def dried_brew(each: str) -> Folder:
    folder = ea("thick-brew", each, **CARRYING)
    folder["trip"]["days"][0]["meals"]["snacks"][0]["dried_by"] = "freeze-dryer"
    return folder


def one_each(his: str, hers: str = "told-none", **her: Any) -> Folder:
    """Give the same trip, on which each eats something else."""
    folder = ea(hers, **her)
    folder["trip"]["days"][0]["meals"] = {
        "snacks": [
            {"eat": his, "each": "10 g", "for": ["Bo"]},
            {"eat": hers, "each": "9 g", "for": ["Ea"]},
        ]
    }
    return folder


CASES: list[Case] = [
    # What she eats herself is told as not to be eaten.
    ("allergen-beside", one_each("sure", avoids=["nuts"]), ea("sure", avoids=["nuts"])),
    ("allergen-beside", one_each("sure", avoids=["nuts"]), one_each("traces", avoids=["nuts"])),
    ("allergen-beside", one_each("tin-fillet", avoids=["fish"]),
     one_each("tin-fillet", avoids=["vegetarian"])),
    ("not-to-be-eaten", ea("sure", avoids=["nuts"]), ea("traces", avoids=["nuts"])),
    ("not-to-be-eaten", ea("sure", avoids=["nuts"]), only_bo("sure", avoids=["nuts"])),
    ("not-to-be-eaten", packet(allergens=["nuts"]), packet(allergens=["milk"])),
    ("may-contain", ea("traces", avoids=["nuts"]), ea("sure", avoids=["nuts"])),
    ("may-contain", ea("sure", avoids=["milk"]), ea("sure", avoids=["vegan"])),
    ("may-contain", ea("traces", avoids=["nuts"]), only_bo("traces", avoids=["nuts"])),
    ("may-contain", packet(allergens=[], may_contain=["nuts"]), packet(allergens=[])),
    ("allergens-not-told", ea("untold", avoids=["nuts"]), ea("told-none", avoids=["nuts"])),
    ("allergens-not-told", ea("untold", avoids=["nuts"]), ea("untold", avoids=["nut"])),
    ("allergens-not-told", ea("untold", avoids=["nuts"]), only_bo("untold", avoids=["nuts"])),
    ("allergens-not-told", packet(), packet(allergens=[])),
    ("alcohol", ea("punch", **CARRYING), ea("punch", **NURSING)),
    ("alcohol", ea("punch", age=17.9), ea("punch", age=18)),
    ("alcohol", cooked("punch", age=17.9), cooked("brew", age=17.9)),
    ("liver", ea("spread-of-it", **CARRYING), ea("sausage-boiled", **CARRYING)),
    ("liver", cooked("spread-of-it", **SMALL), cooked("spread-of-it", **NOT_SMALL)),
    ("raw-milk-and-soft-cheese", ea("ripe-cheese", **CARRYING), ea("ripe-cheese", **NURSING)),
    ("raw-milk-and-soft-cheese", ea("farm-milk", **OLD), ea("farm-milk", **NOT_OLD)),
    ("raw-milk-and-soft-cheese", ea("farm-milk", **SMALL), ea("farm-milk", **NOT_SMALL)),
    ("raw-milk-and-soft-cheese", cooked("farm-milk", late=True, **CARRYING),
     cooked("farm-milk", **CARRYING)),
    ("cured-raw", ea("sausage-dry", **CARRYING), ea("sausage-boiled", **CARRYING)),
    ("cured-raw", ea("sausage-dry", **SMALL), ea("sausage-dry", **NOT_SMALL)),
    ("cured-raw", cooked("sausage-dry", late=True, **CARRYING),
     cooked("sausage-dry", **CARRYING)),
    # No listeria rule names it for the old.
    ("cured-raw", ea("sausage-dry", **CARRYING), ea("sausage-dry", **OLD)),
    ("raw-fish", ea("cold-fillet", **CARRYING), ea("tin-fillet", **CARRYING)),
    ("raw-fish", ea("cold-fillet", **OLD), ea("cold-fillet", **NOT_OLD)),
    ("raw-fish", ea("cold-fillet", **SMALL), cooked("cold-fillet", **SMALL)),
    ("nuts-and-small-children", ea("round-nuts", **SMALL), ea("round-nuts", **NOT_SMALL)),
    ("nuts-and-small-children", ea("round-nuts", **SMALL), ea("milled-nuts", **SMALL)),
    ("choking", ea("hard-bits", **SMALL), ea("hard-bits", **NOT_SMALL)),
    ("choking", ea("hard-bits", **SMALL), cooked("hard-bits", **SMALL)),
    ("choking", ea("hard-bits", **SMALL), only_bo("hard-bits", **SMALL)),
    # What is strewn over a cooked dish is as hard as before, and cooked sausage as round.
    ("choking", cooked("hard-bits", late=True, **SMALL), cooked("hard-bits", **SMALL)),
    ("choking", cooked("sausage-rounds", **SMALL), cooked("hard-bits", **SMALL)),
    # What heat dries at home is tough, what the freeze dryer dries crumbles.
    ("choking", dried_at_home("berry", "oven"), dried_at_home("berry", "freeze-dryer")),
    # 40 mg in 100 g: 500 g are 200 mg.
    ("caffeine", ea("brew", "501 g", **CARRYING), ea("brew", "500 g", **CARRYING)),
    ("caffeine", ea("brew", "501 g", **NURSING), ea("brew", "501 g")),
    # 3 mg for each of 30 kg are 90 mg, in 225 g.
    ("caffeine", ea("brew", "226 g", **TEN),
     ea("brew", "225 g", **TEN)),
    ("caffeine", ea("brew", "600 g", age=17.9, mass="60 kg"),
     ea("brew", "600 g", age=18, mass="60 kg")),
    # Nobody told the mass: 3 mg for each of 10 kg, in 75 g.
    ("caffeine", without_mass("brew", "76 g"), without_mass("brew", "75 g")),
    # The lower of both limits for the youngest mothers: 3 · 50 = 150 mg, in 375 g.
    ("caffeine", ea("brew", "376 g", age=17, mass="50 kg", pregnant=True),
     ea("brew", "375 g", age=17, mass="50 kg", pregnant=True)),
    # 80 % water once dried to 2 %: 40 · 0.98 / 0.2 = 196 mg in 100 g, so 103 g hold 201.9 mg.
    ("caffeine", dried_brew("103 g"), dried_brew("102 g")),
    ("caffeine", ea("strong-brew", **CARRYING), ea("strong-brew")),
]  # fmt: skip


def plan(path: Path, folder: Folder) -> Kit:
    return hand(path, foods=FOODS, **folder).kit()


@with_and_without(CASES)
def test_a_caution_comes_with_its_condition_and_goes_with_it(
    tmp_path: Path, name: str, with_it: Folder, without: Folder
) -> None:
    cautions = of_id(plan(tmp_path / "with", with_it), name)
    assert cautions
    assert of_id(plan(tmp_path / "without", without), name) == []
    for caution in cautions:
        assert "Ea" in caution.because
        assert caution.because.endswith((".", ")."))
        assert caution.at.person == "Ea"


@pytest.mark.parametrize(
    ("name", "level"),
    [
        ("not-to-be-eaten", "danger"),
        ("may-contain", "care"),
        ("allergens-not-told", "care"),
        ("caffeine", "care"),
        ("choking", "care"),
        ("alcohol", "danger"),
        ("nuts-and-small-children", "danger"),
    ],
)
def test_each_has_its_level(tmp_path: Path, name: str, level: str) -> None:
    folder = next(with_it for case, with_it, _ in CASES if case == name)
    assert {caution.level for caution in of_id(plan(tmp_path, folder), name)} == {level}


def test_all_that_may_hold_traces_is_said_once_for_each_person(tmp_path: Path) -> None:
    folder = ea("traces", avoids=["nuts", "milk"])
    snacks = folder["trip"]["days"][0]["meals"]["snacks"]
    snacks += [{"eat": "sure", "each": "10 g"}, {"eat": "traces", "each": "5 g"}]
    (caution,) = of_id(plan(tmp_path, folder), "may-contain")
    assert caution.because == "Ea avoids tree nuts and milk. Traces may be in: traces; sure."


def test_what_is_not_told_names_the_food_and_the_person(tmp_path: Path) -> None:
    (caution,) = of_id(plan(tmp_path, ea("untold", avoids=["nuts"])), "allergens-not-told")
    assert caution.because == "Ea avoids tree nuts. Nobody told if that is in: untold."
    assert caution.where == "shopping"


def test_caffeine_is_told_with_both_figures(tmp_path: Path) -> None:
    (caution,) = of_id(plan(tmp_path, ea("brew", "550 g", **CARRYING)), "caffeine")
    assert caution.because == (
        "Ea is pregnant, and day 1 gives 220\u00a0mg of caffeine: 200\u00a0mg would do."
    )
    assert caution.at.days == (1,)


def test_a_pot_of_it_is_shared_by_need(tmp_path: Path) -> None:
    """Of 400 mg in the pot Ea, who needs 1844 kcal of 4322, gets 171; beside 1843 kcal, 200.1."""
    lines = uses(brew="500 g")
    trip = day_trip(days=[day({"drinks": [{"cook": "dish"}]})])
    trip["party"][0].update(CARRYING)
    recipe = dish(lines, {"do": "boil", "with": ["brew"], "water": "10 ml"})
    folder = {"trip": trip, "recipes": [recipe]}
    assert of_id(plan(tmp_path / "shared", folder), "caffeine") == []
    trip["party"][1]["mass"] = "40 kg"
    assert of_id(plan(tmp_path / "other", folder), "caffeine") != []


def test_caffeine_that_nobody_told_is_named(tmp_path: Path) -> None:
    (caution,) = of_id(plan(tmp_path, ea("strong-brew", **CARRYING)), "caffeine")
    assert caution.because == "Ea is pregnant. Caffeine not given: strong-brew."


def test_a_mixture_holds_the_caffeine_that_its_parts_tell() -> None:
    told, none, untold = Composition(caffeine_mg=40), Composition(caffeine_mg=0), Composition()
    assert mixed([(told, 50), (untold, 150)]).caffeine_mg == pytest.approx(10)
    assert mixed([(none, 50), (untold, 150)]).caffeine_mg == 0
    assert mixed([(untold, 50)]).caffeine_mg is None
