"""What somebody must not eat is found on every plate, their own and the others'."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.food import Composition, Food, FoodKind
from builder.model.kit import Refused
from builder.planning.foods import Substance
from builder.planning.menu import avoided_how
from tests.planning.folders import day, day_trip, food, hand, uses


def party(*avoids: str) -> list[dict[str, object]]:
    return [
        {"name": "Ea", "carries_to": "12 kg", "avoids": list(avoids)},
        {"name": "Bo", "carries_to": "18 kg"},
    ]


def test_what_others_eat_is_told_too(tmp_path: Path) -> None:
    meals = {
        "snacks": [
            {"eat": "kernel-nut", "each": "50 g", "for": ["Bo"]},
            {"eat": "hard-cheese", "each": "40 g"},
        ]
    }
    trip = day_trip(party=party("nut"), days=[day(meals), day(meals)])
    ea, bo = hand(tmp_path, trip).kit().party
    assert ea.refused == (Refused(1, 0, "kernel-nut", False), Refused(2, 0, "kernel-nut", False))
    assert bo.refused == ()


def test_what_is_on_their_own_plate_is_marked(tmp_path: Path) -> None:
    meals = {"snacks": [{"eat": "hard-cheese", "each": "40 g"}]}
    ea, _ = hand(tmp_path, day_trip(party=party("milk"), days=[day(meals)])).kit().party
    assert ea.refused == (Refused(1, 0, "hard-cheese", True),)


def test_nothing_is_refused_where_nothing_is_avoided(tmp_path: Path) -> None:
    ea, _ = hand(tmp_path, day_trip(party=party())).kit().party
    assert ea.refused == ()


def test_traces_and_what_is_not_told_are_said_apart(tmp_path: Path) -> None:
    dry = "water 5 g, carbohydrate 95 g"
    foods = [
        food("sure", "grain", "ready", dry, allergens=["nuts"], may_contain=["milk"]),
        food("traces", "grain", "ready", dry, allergens=[], may_contain=["nuts"]),
        food("untold", "grain", "ready", dry),
        food("free", "grain", "ready", dry, allergens=[]),
    ]
    names = ("sure", "traces", "untold", "free")
    meals = {"snacks": [{"eat": name, "each": "40 g"} for name in names]}
    trip = day_trip(party=party("nuts", "milk"), days=[day(meals)])
    kit = hand(tmp_path, trip, foods=foods).kit()
    assert kit.party[0].refused == (
        Refused(1, 0, "sure", True, "told"),
        Refused(1, 1, "traces", True, "may-contain"),
        Refused(1, 2, "untold", True, "not-told"),
    )
    assert [(meal.allergens, meal.may_contain, meal.not_told) for meal in kit.days[0].meals] == [
        (("nuts",), ("milk",), ()),
        ((), ("nuts",), ()),
        ((), (), ("untold",)),
        ((), (), ()),
    ]


def substance(kind: FoodKind, allergens: tuple[str, ...] | None, *may: str) -> Substance:
    own = Food("it", "It", kind, "ready", Composition(), allergens=allergens, may_contain=may)
    return Substance("it", "It", kind, Composition(), (own,))


HOW: list[tuple[FoodKind, tuple[str, ...] | None, tuple[str, ...], str, str | None]] = [
    ("grain", ("milk",), (), "milk", "told"),
    ("grain", (), ("milk",), "milk", "may-contain"),
    ("grain", ("milk",), ("milk",), "milk", "told"),
    ("grain", None, (), "milk", "not-told"),
    ("grain", None, ("milk",), "milk", "may-contain"),
    ("grain", (), (), "milk", None),
    ("dairy", None, (), "milk", "told"),
    ("fish", None, (), "fish", "told"),
    ("fish", None, (), "milk", "not-told"),
    # A kind of food is known without a label, and so is a food by its id.
    ("grain", None, (), "nut", None),
    ("grain", None, (), "it", "told"),
    # A diet minds no trace; what is not told is asked only where it could be anything.
    ("grain", (), ("milk",), "vegan", None),
    ("grain", None, (), "vegan", None),
    ("other", None, (), "vegan", "not-told"),
    ("meal", None, (), "vegetarian", "not-told"),
    ("other", (), (), "vegan", "not-told"),  # no allergen tells of beef
    ("other", ("eggs",), (), "vegan", "told"),
    ("other", ("eggs",), (), "vegetarian", "not-told"),
]


@pytest.mark.parametrize(("kind", "allergens", "may", "word", "how"), HOW)
def test_how_something_is_not_for_somebody(
    kind: FoodKind,
    allergens: tuple[str, ...] | None,
    may: tuple[str, ...],
    word: str,
    how: str | None,
) -> None:
    assert avoided_how(substance(kind, allergens, *may), word) == how


def test_one_part_of_a_dish_that_is_not_told_makes_it_so() -> None:
    told, untold = substance("grain", ()), substance("grain", None)
    both = Substance("pot", "Pot", "meal", Composition(), (*told.foods, *untold.foods))
    assert avoided_how(both, "milk") == "not-told"
    sure = Substance(
        "pot", "Pot", "meal", Composition(), (*substance("grain", ("milk",)).foods, *untold.foods)
    )
    assert avoided_how(sure, "milk") == "told"
    assert avoided_how(sure, "nuts") == "not-told"


def test_a_dish_that_holds_something_for_sure_has_no_traces_of_it(tmp_path: Path) -> None:
    dry = "water 5 g, carbohydrate 95 g"
    foods = [
        food("sure", "grain", "ready", dry, allergens=["nuts"]),
        food("traces", "grain", "ready", dry, allergens=[], may_contain=["nuts", "milk"]),
    ]
    lines = uses(sure="40 g", traces="40 g")
    steps = [{"do": "mix", "with": ["sure", "traces"]}]
    mush = {"id": "mush", "serves": 1, "cook_in": "none", "uses": lines, "steps": steps}
    trip = day_trip(days=[day({"dinner": [{"cook": "mush"}]})])
    (meal,) = hand(tmp_path, trip, [mush], foods=foods).kit().days[0].meals
    assert (meal.allergens, meal.may_contain) == (("nuts",), ("milk",))


def test_a_kit_names_the_sources_of_its_allergens(tmp_path: Path) -> None:
    dry = "water 5 g, carbohydrate 95 g"
    told = [food("sure", "grain", "ready", dry, allergens=[], allergen_source="swiss-lab-2002")]
    trip = day_trip(days=[day({"snacks": [{"eat": "sure", "each": "40 g"}]})])
    named = {source.id for source in hand(tmp_path, trip, foods=told).kit().sources}
    assert "swiss-lab-2002" in named
