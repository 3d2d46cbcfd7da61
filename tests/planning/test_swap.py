"""Another food instead of an ingredient, for those who eat it."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest

from builder.model.kit import Kit
from builder.planning.foods import substance_named
from builder.planning.menu import avoided_how, menu_problems
from builder.reading.anew.cuttings import content_of_kit
from builder.reading.folder import Layer, read_folder
from tests.planning.folders import QUICK_ROOMS, SHIPPED, Hand, Record, day, day_trip, food, hand

PASTA = food(
    "pasta",
    "grain",
    "dried",
    "water 10 g, energy 350 kcal, protein 12 g, carbohydrate 75 g",
    allergens=["cereals-gluten"],
)
RICE_PASTA = food(
    "rice-pasta",
    "grain",
    "dried",
    "water 12 g, energy 360 kcal, protein 7 g, carbohydrate 80 g",
    allergens=[],
)
UNTOLD = food("corn-pasta", "grain", "dried", "water 12 g, energy 360 kcal, carbohydrate 80 g")
LENTIL = food(
    "lentil",
    "legume",
    "cooked",
    "water 70 g, energy 116 kcal, protein 9 g, carbohydrate 20 g",
    allergens=[],
)
BEANS = food(
    "beans",
    "legume",
    "cooked",
    "water 60 g, energy 160 kcal, protein 10 g, carbohydrate 28 g",
    allergens=["soybeans"],
)
FOODS = [PASTA, RICE_PASTA, UNTOLD, LENTIL, BEANS]
POT: Record = {
    "id": "pasta-pot", "name": "Pasta pot", "serves": 2, "cook_in": "pot",
    "uses": [
        {"food": "pasta", "amount": "200 g"},
        {"food": "beans", "amount": "80 g", "dried_by": "dehydrator"},
    ],
    "steps": [{"do": "boil", "with": ["pasta", "beans"], "water": "600 ml"}],
}  # fmt: skip


def trip(*dishes: Record, avoids: tuple[list[str], list[str]] = ([], [])) -> Record:
    party = day_trip()["party"]
    for person, words in zip(party, avoids, strict=True):
        person["avoids"] = words
    return day_trip(days=[day({"dinner": list(dishes)})], party=party)


def read(folder: Path, told: Record) -> Hand:
    return hand(folder, told, [POT], foods=FOODS)


def two(swap: Record, avoids: list[str]) -> Record:
    """Give a dinner of which Bo has another food in his."""
    return trip(
        {"cook": "pasta-pot", "for": ["Ea"]},
        {"cook": "pasta-pot", "for": ["Bo"], "swap": swap},
        avoids=([], avoids),
    )


def refused(kit: Kit, name: str) -> list[str]:
    """Give what of a person's own plate is not, or may not be, for them."""
    (person,) = (each for each in kit.party if each.name == name)
    return [each.what for each in person.refused if each.eats]


def test_as_much_of_the_other_food_goes_in(tmp_path: Path) -> None:
    kit = read(tmp_path, two({"pasta": "rice-pasta"}, ["cereals-gluten"])).kit()
    plain, swapped = kit.days[0].meals
    assert (plain.title, swapped.title) == ("Pasta pot", "Pasta pot (rice-pasta)")
    assert [(each.id, each.food, each.amount_g) for each in swapped.ingredients] == [
        ("pasta", "rice-pasta", 100.0),
        ("beans", "beans", 40.0),
    ]
    # 100 g of 360 kcal; beans as before: the same as in the other pot.
    beans = plain.nutrition.energy_kcal - 350
    assert swapped.nutrition.energy_kcal == pytest.approx(360 + beans)
    assert (plain.allergens, swapped.allergens) == (
        ("cereals-gluten", "soybeans"),
        ("soybeans",),
    )
    assert refused(kit, "Bo") == []
    assert {line.food: line.mass_g for line in kit.shopping}["rice-pasta"] == 100.0


SWAPS: tuple[Record, ...] = (
    {},
    {"pasta": "rice-pasta"},
    {"pasta": "corn-pasta"},
    {"beans": "lentil"},
    {"pasta": "rice-pasta", "beans": "lentil"},
)
WORDS = ("cereals-gluten", "soybeans", "milk", "legume", "vegan")


@pytest.mark.parametrize("swap", SWAPS)
def test_each_is_held_against_what_is_on_their_own_plate(swap: Record, tmp_path: Path) -> None:
    """Every combination of two words to avoid, of foods and not of names."""
    instead = {"pasta": "pasta", "beans": "beans", **swap}
    for number, avoids in enumerate(itertools.combinations(WORDS, 2)):
        found = read(tmp_path / str(number), two(swap, list(avoids)))
        content = found.content
        bad = {
            name
            for name in instead.values()
            for word in avoids
            if avoided_how(substance_named(name, content), word)
        }
        told = {each.split(",")[0] for each in refused(found.kit(), "Bo")}
        assert told == bad


def test_what_is_not_told_of_the_other_food_is_warned_of(tmp_path: Path) -> None:
    found = read(tmp_path, two({"pasta": "corn-pasta"}, ["cereals-gluten"]))
    one = found.content.trips["hand"]
    told = menu_problems(one, found.kit(), found.content)
    assert [each.kind for each in told] == ["allergens-not-told"]
    assert "corn-pasta" in told[0].says
    swapped = read(tmp_path / "told", two({"pasta": "rice-pasta"}, ["cereals-gluten"]))
    kit = swapped.kit()
    assert not menu_problems(swapped.content.trips["hand"], kit, swapped.content)


def test_a_batch_of_the_other_food_may_be_named(tmp_path: Path) -> None:
    batch = {
        "id": "lentils", "food": "lentil", "method": "dehydrator", "done": "2031-05-01",
        "fresh": "1000 g", "dried": "330 g", "packs": {"count": 4},
    }  # fmt: skip
    dish = {"cook": "pasta-pot", "swap": {"beans": "lentil"}, "from": {"beans": "lentils"}}
    found = hand(tmp_path, trip(dish), [POT], [batch], foods=FOODS)
    assert found.kit().days[0].meals[0].ingredients[1].batch == "lentils"
    auto = {**dish, "from": "auto"}
    found = hand(tmp_path / "auto", trip(auto), [POT], [batch], foods=FOODS)
    assert found.kit().days[0].meals[0].ingredients[1].batch == "lentils"


@pytest.mark.parametrize(
    ("dish", "kind"),
    [
        ({"cook": "pasta-pot", "swap": {"noodles": "rice-pasta"}}, "ingredient-unknown"),
        ({"cook": "pasta-pot", "swap": {"pasta": "ryce-pasta"}}, "food-unknown"),
        ({"cook": "pasta-pot", "swap": {"beans": "mince-raw"}}, "reach-missing"),
        ({"eat": "pasta", "each": "50 g", "swap": {"pasta": "rice-pasta"}}, "key-unknown"),
        ({"cook": "pasta-pot", "swap": {"beans": "lentil"}}, ""),
    ],
)
def test_what_cannot_be_swapped_is_told(dish: Record, kind: str, tmp_path: Path) -> None:
    found = read(tmp_path, trip(dish))
    told = {each.kind for each in found.problems if each.severity == "error"}
    assert told == ({kind} if kind else set())


@pytest.mark.parametrize(("instead", "kinds"), [("rice-pasta", ["auto-water"]), ("lentil", [])])
def test_nothing_soaks_without_water(instead: str, kinds: list[str], tmp_path: Path) -> None:
    soaked = {"do": "soak", "with": ["beans"], "water": "auto", "minutes": 20}
    pot = {**POT, "steps": [soaked, *POT["steps"]]}
    found = hand(
        tmp_path, trip({"cook": "pasta-pot", "swap": {"beans": instead}}), [pot], [], foods=FOODS
    )
    assert [each.kind for each in found.problems if each.severity == "error"] == kinds


def test_the_kit_hands_on_the_other_food(tmp_path: Path) -> None:
    found = read(tmp_path, two({"pasta": "rice-pasta"}, []))
    assert found.kit()
    folder = read_folder(
        [Layer(SHIPPED, "shipped", QUICK_ROOMS, vouched=True), Layer(tmp_path, "content")]
    )
    files = content_of_kit(folder, "hand", [])
    text = "".join(each if isinstance(each, str) else str(each) for each in files.values())
    assert "rice-pasta" in text
    assert "corn-pasta" not in text
