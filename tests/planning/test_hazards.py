"""What a food is watched for: told, or read off its name in any of the three languages."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.model.content import Content
from builder.model.food import HAZARDS, Composition, Food, FoodKind, FoodState
from builder.planning.hazards import hazards_of, is_game, is_minced
from builder.reading.folder import Layer, read_folder

from .folders import SHIPPED


def food(name: str, kind: FoodKind = "other", state: FoodState = "ready", **more: object) -> Food:
    return replace(Food("it", name, kind, state, Composition()), **more)  # type: ignore[arg-type]


NAMED: list[tuple[str, str, FoodKind]] = [
    ("honey", "Forest honey", "sugar"),
    ("honey", "Waldhonig", "sugar"),
    ("honey", "Lynghonning", "sugar"),
    ("kidney-bean", "Red kidney beans", "legume"),
    ("kidney-bean", "Kidneybohnen", "legume"),
    ("kidney-bean", "Kidneybønner", "legume"),
    ("mushroom-gathered", "Dried porcini", "vegetable"),
    ("mushroom-gathered", "Pfifferlinge", "vegetable"),
    ("mushroom-gathered", "Kantareller", "vegetable"),
    ("sprouts", "Bean sprouts", "vegetable"),
    ("sprouts", "Mungbohnensprossen", "vegetable"),
    ("sprouts", "Bønnespirer", "vegetable"),
    ("garlic-in-oil", "Garlic in oil", "fat"),
    ("garlic-in-oil", "Knoblauch in Öl", "fat"),
    ("garlic-in-oil", "Hvitløk i olje", "fat"),
    ("home-canned", "Home-canned beans", "legume"),
    ("home-canned", "Eingeweckte Bohnen", "legume"),
    ("home-canned", "Hjemmehermetiserte bønner", "legume"),
    ("liver", "Liver sausage", "meat"),
    ("liver", "Kalbsleberwurst", "meat"),
    ("liver", "Leverpostei", "meat"),
    ("raw-milk", "Raw-milk cheese", "dairy"),
    ("raw-milk", "Rohmilchkäse", "dairy"),
    ("raw-milk", "Ost av rå melk", "dairy"),
    ("soft-cheese", "Ripe Brie", "dairy"),
    ("soft-cheese", "Blauschimmelkäse", "dairy"),
    ("soft-cheese", "Blåmuggost", "dairy"),
    ("cured-raw", "Salami sticks", "meat"),
    ("cured-raw", "Rohschinken", "meat"),
    ("cured-raw", "Spekeskinke", "meat"),
    ("raw-fish", "Cold-smoked salmon", "fish"),
    ("raw-fish", "Räucherlachs", "fish"),
    ("raw-fish", "Røykelaks", "fish"),
    ("game", "Venison stew", "meat"),
    ("game", "Wildschwein", "meat"),
    ("game", "Elgkjøtt", "meat"),
    ("freshwater-fish", "Pike fillet", "fish"),
    ("freshwater-fish", "Hechtfilet", "fish"),
    ("freshwater-fish", "Gjeddefilet", "fish"),
    ("shellfish", "Mussels", "fish"),
    ("shellfish", "Miesmuscheln", "fish"),
    ("shellfish", "Blåskjell", "fish"),
    ("wild-plant", "Wild garlic leaves", "vegetable"),
    ("wild-plant", "Bärlauch", "vegetable"),
    ("wild-plant", "Ramsløk", "vegetable"),
    ("caffeine", "Iced coffee", "drink"),
    ("caffeine", "Schwarztee", "drink"),
    ("caffeine", "Mørk sjokolade", "sugar"),
    ("alcohol", "Mulled wine", "drink"),
    ("alcohol", "Glühwein", "drink"),
    ("alcohol", "Rødvin", "drink"),
    ("choking", "Raisins", "other"),
    ("choking", "Studentenfutter", "other"),
    ("choking", "Rosiner", "other"),
    ("whole-nut", "Cashews", "nut"),
]

# Names that look like another hazard and are none.
INNOCENT: list[tuple[str, str, FoodKind]] = [
    ("honey", "Honeydew melon", "fruit"),
    ("mushroom-gathered", "Morello cherries", "fruit"),
    ("sprouts", "Brussels sprouts", "vegetable"),
    ("liver", "Weizenkleber", "grain"),
    ("game", "Gummibärchen", "sugar"),
    ("game", "Hazelnut spread", "other"),
    ("freshwater-fish", "Chard", "vegetable"),
    ("shellfish", "Oyster mushrooms", "vegetable"),
    ("shellfish", "Muschelnudeln", "grain"),
    ("caffeine", "Fruit tea", "drink"),
    ("caffeine", "Steamed rice", "grain"),
    ("alcohol", "Schweinefleisch", "meat"),
    ("alcohol", "Weintrauben", "fruit"),
    ("alcohol", "Ginger beer", "drink"),
    ("alcohol", "Alkoholfreies Bier", "drink"),
    ("alcohol", "Wine vinegar", "other"),
    ("choking", "Raisin paste", "fruit"),
    ("whole-nut", "Almond butter", "nut"),
    ("whole-nut", "Ground hazelnuts", "nut"),
]


@pytest.mark.parametrize(("hazard", "name", "kind"), NAMED)
def test_a_name_tells_in_every_language(hazard: str, name: str, kind: FoodKind) -> None:
    assert hazard in hazards_of(food(name, kind))


@pytest.mark.parametrize(("hazard", "name", "kind"), INNOCENT)
def test_a_name_that_only_looks_like_it_tells_nothing(
    hazard: str, name: str, kind: FoodKind
) -> None:
    assert hazard not in hazards_of(food(name, kind))


def test_every_hazard_can_be_found_by_name() -> None:
    assert {hazard for hazard, _, _ in NAMED} == set(HAZARDS) - {"wild-mushroom"}


def test_the_id_tells_where_the_name_is_in_no_known_tongue() -> None:
    assert "liver" in hazards_of(replace(food("Foie"), id="duck-liver"))


def test_what_is_told_is_believed_over_the_name() -> None:
    assert hazards_of(food("Liver of a chocolate bear", beware=())) == frozenset()
    assert hazards_of(food("Paste", beware=("liver",))) == {"liver"}


def test_figures_and_marks_tell_even_where_beware_does_not() -> None:
    assert hazards_of(food("Punch", beware=(), per_100g=Composition(alcohol_g=4.0))) == {"alcohol"}
    assert hazards_of(food("Drops", beware=(), per_100g=Composition(caffeine_mg=9.0))) == {
        "caffeine"
    }
    assert hazards_of(food("Roast", "meat", "cooked", beware=(), game=True)) == {"game"}


def test_raw_fish_molluscs_and_dry_chunks_tell_by_themselves() -> None:
    assert hazards_of(food("Fillet", "fish", "raw")) == {"raw-fish"}
    assert hazards_of(food("Squid", "fish", "cooked", allergens=("molluscs",))) == {"shellfish"}
    assert hazards_of(food("Rings", "fruit", "dried")) == {"choking"}
    assert hazards_of(food("Sticks", "meat", "ready")) == {"choking"}
    assert hazards_of(food("Carrot", "vegetable", "raw")) == {"choking"}
    assert hazards_of(food("Carrot", "vegetable", "cooked")) == frozenset()
    assert hazards_of(food("Mountain cheese", "dairy")) == {"choking"}
    assert hazards_of(food("Slices", "fruit", "raw")) == frozenset()


def test_both_words_for_a_gathered_mushroom_mean_it() -> None:
    assert hazards_of(food("Found", "vegetable", "dried", beware=("wild-mushroom",))) == {
        "mushroom-gathered"
    }


@pytest.fixture(scope="module")
def shipped() -> Content:
    return read_folder([Layer(SHIPPED, "content")]).content


def test_every_shipped_food_tells_allergens_their_source_and_hazards(shipped: Content) -> None:
    assert len(shipped.foods) >= 164
    silent = [
        name
        for name, food in shipped.foods.items()
        if food.allergens is None or not food.allergen_source or food.beware is None
    ]
    assert silent == []


def test_shipped_foods_tell_no_allergen_twice(shipped: Content) -> None:
    twice = {
        name: set(food.allergens or ()) & set(food.may_contain)
        for name, food in shipped.foods.items()
        if set(food.allergens or ()) & set(food.may_contain)
    }
    assert twice == {}


@pytest.mark.parametrize(
    ("name", "told", "traces"),
    [
        ("apricot-dried", {"sulphites"}, set()),
        ("potato-flakes", {"sulphites"}, {"milk"}),
        ("beef-jerky", set(), {"soybeans", "cereals-gluten"}),
        ("stock-powder", {"celery"}, {"cereals-gluten", "milk", "fish"}),
        ("raisins", set(), {"sulphites"}),
        ("baking-powder", set(), {"cereals-gluten"}),
    ],
)
def test_what_such_foods_usually_carry_is_told(
    shipped: Content, name: str, told: set[str], traces: set[str]
) -> None:
    food = shipped.foods[name]
    assert set(food.allergens or ()) == told
    assert traces <= set(food.may_contain)


def test_a_kind_that_is_an_allergen_is_told_as_one(shipped: Content) -> None:
    by_kind = {"fish": "fish", "egg": "eggs", "dairy": "milk"}
    for name, food in shipped.foods.items():
        for kind in food.kinds & set(by_kind):
            assert by_kind[kind] in (food.allergens or ()), name


def test_whatever_holds_caffeine_tells_how_much(shipped: Content) -> None:
    untold = [
        name
        for name, food in shipped.foods.items()
        if "caffeine" in hazards_of(food) and food.per_100g.caffeine_mg is None
    ]
    assert untold == []


def test_marks_of_shipped_foods_miss_nothing_that_their_names_tell(shipped: Content) -> None:
    """Where a shipped food's marks leave out what its name would tell, that was a choice."""
    chosen = {
        "kidney-beans-cooked": {"kidney-bean"},  # boiled soft
        "beef-cured": {"choking"},  # thin slices
        "coconut-raw": {"whole-nut"},  # marked as hard pieces
        "hazelnuts-chopped": {"whole-nut"},  # marked as hard pieces
    }
    missed = {
        name: hazards_of(replace(food, beware=None)) - hazards_of(food)
        for name, food in shipped.foods.items()
    }
    assert {name: found for name, found in missed.items() if found} == chosen


@pytest.mark.parametrize(
    "name",
    ["Ground beef, raw", "Pork sausage", "Turkey burger", "Rinderhack, roh", "Hackfleisch",
     "Schweinegehacktes", "Bratwurst, roh", "Würstchen", "Kjøttdeig, rå", "Karbonadedeig",
     "Kyllingfarse", "Grillpølser", "Hakket oksekjøtt"],
)  # fmt: skip
def test_minced_meat_is_known_by_its_name_in_every_language(name: str) -> None:
    assert is_minced(food(name, "meat", "raw"))
    assert not is_minced(food(name, "meat", "raw", cut="whole"))
    assert not is_minced(food(name, "legume", "raw"))


@pytest.mark.parametrize("name", ["Beef, lean, raw", "Rinderhüfte, roh", "Lammelår, rå", "Hachse"])
def test_whole_cuts_are_not_minced(name: str) -> None:
    assert not is_minced(food(name, "meat", "raw"))
    assert is_minced(food(name, "meat", "raw", cut="minced"))


def test_game_is_known_by_its_name_as_well() -> None:
    assert is_game(food("Rehrücken, roh", "meat", "raw"))
    assert is_game(food("Elgkjøtt, rå", "meat", "raw"))
    assert not is_game(food("Beef, lean, raw", "meat", "raw"))
    assert not is_game(food("Rehrücken, roh", "meat", "raw", beware=()))
