"""Who has nothing where others eat, and who gets too little of a day although there is enough."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from builder.model.kit import LeftOut
from builder.planning.menu import menu_problems
from builder.problems import Problem

from .folders import Hand, Record, day, day_trip, food, hand

FOODS = [
    food("mystery", "grain", "ready", "water 5 g, carbohydrate 95 g"),
    food("known", "grain", "ready", "water 5 g, carbohydrate 95 g", allergens=[]),
    food("packet", "other", "ready", "water 5 g, carbohydrate 95 g", allergens=[]),
    food("read", "other", "ready", "water 5 g, carbohydrate 95 g", contains=["grain"]),
]
# At rest she needs 1844.2 kcal and he (11.472 · 80 + 873.1) · 33.2 / 24 = 2477.3: 4321.5 both.
EA_KCAL = 1844.2


def ration(kcal: float, *names: str, **more: Any) -> Record:
    """Give a packet that holds so much energy for each of those who eat it."""
    energy = f"{kcal / 5} kcal"
    item = {"eat": "Ration", "each": "500 g", "energy": energy, "allergens": [], **more}
    return {**item, "for": [*names]} if names else item


def trip_of(*days: Record, **changes: Any) -> Record:
    return day_trip(days=[*days], **changes)


def told(folder: Hand) -> list[Problem]:
    trip = folder.content.trips["hand"]
    return [*menu_problems(trip, folder.kit(), folder.content)]


def kinds(folder: Hand) -> list[str]:
    return [problem.kind for problem in told(folder)]


# -- a meal that passes somebody by ---------------------------------------------------------------

LUNCH = {"lunch": [ration(900, "Bo")], "dinner": [ration(850), ration(850)]}


def test_who_has_nothing_in_a_meal_of_others_is_told_with_its_line(tmp_path: Path) -> None:
    folder = hand(tmp_path, trip_of(day(LUNCH)))
    ea, bo = folder.kit().party
    assert [(each.day, each.meal, each.meant) for each in ea.left_out] == [(1, "lunch", False)]
    assert bo.left_out == ()
    (problem,) = told(folder)
    assert problem.severity == "warning"
    assert problem.place.file == "content/trips/hand.yaml"
    line = (tmp_path / "trips/hand.yaml").read_text().splitlines()[problem.place.line - 1]
    assert line.strip() == "{"
    assert problem.says == "Ea gets nothing at lunch on day 1, and others do"
    assert problem.mend == "add them to a `for`, or say it is meant: `without: {lunch: [Ea]}`"


def test_without_says_that_it_is_meant(tmp_path: Path) -> None:
    folder = hand(tmp_path, trip_of(day(LUNCH, without={"lunch": ["Ea"]})))
    assert told(folder) == []
    (left,) = folder.kit().party[0].left_out
    assert (left.meal, left.meant) == ("lunch", True)


def test_without_another_meal_does_not_say_so(tmp_path: Path) -> None:
    meals = {**LUNCH, "breakfast": [ration(100, "Bo")]}
    folder = hand(tmp_path, trip_of(day(meals, without={"breakfast": ["Ea"]})))
    assert [problem.says for problem in told(folder)] == [
        "Ea gets nothing at lunch on day 1, and others do"
    ]


@pytest.mark.parametrize("meal", ["breakfast", "lunch", "dinner", "snacks"])
def test_every_meal_counts(tmp_path: Path, meal: str) -> None:
    meals = {meal: [ration(900, "Bo")], "drinks": [ration(850), ration(850)]}
    assert kinds(hand(tmp_path, trip_of(day(meals)))) == ["no-meal"]


def test_hot_drinks_are_no_meal_and_nobody_misses_what_nobody_has(tmp_path: Path) -> None:
    meals = {"drinks": [ration(900, "Bo")], "dinner": [ration(850), ration(850)]}
    assert told(hand(tmp_path, trip_of(day(meals)))) == []


def test_another_dish_at_the_same_meal_feeds_them(tmp_path: Path) -> None:
    meals = {"lunch": [ration(2000, "Bo"), ration(2000, "Ea")]}
    assert told(hand(tmp_path, trip_of(day(meals)))) == []


def test_two_who_miss_one_meal_are_told_together(tmp_path: Path) -> None:
    party = [{"name": name, "carries_to": "20 kg", "own_gear": "1 kg"} for name in "ABC"]
    meals = {"lunch": [ration(400, "C")], "dinner": [ration(2500)]}
    (problem,) = told(hand(tmp_path, trip_of(day(meals), party=party)))
    assert problem.says == "A, B get nothing at lunch on day 1, and others do"


def test_who_is_fed_nowhere_is_told_once_for_all(tmp_path: Path) -> None:
    meals = {"lunch": [ration(2000, "Bo")], "dinner": [ration(2300, "Bo")]}
    folder = hand(tmp_path, trip_of(day(meals)))
    assert folder.kinds().count("not-fed") == 1
    assert told(folder) == []


# -- too little of a day --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("hers", "his", "short"),
    [
        (1382.0, 2477.0, True),  # 74.94 % of hers
        (1384.0, 2477.0, False),  # 75.05 %
        (1382.0, 1860.0, True),  # 3242 of 4321.5 kcal: 75.02 % for both together
        (1382.0, 1858.0, False),  # 74.97 %: then all go short, which another caution says
    ],
)
def test_less_than_three_quarters_is_too_little_where_the_party_has_enough(
    tmp_path: Path, hers: float, his: float, short: bool
) -> None:
    meals = {"snacks": [ration(hers, "Ea"), ration(his, "Bo")]}
    folder = hand(tmp_path, trip_of(day(meals)))
    ea, bo = folder.kit().party
    assert bo.left_out == ()
    if not short:
        assert ea.left_out == ()
        assert told(folder) == []
        return
    (left,) = ea.left_out
    assert left == LeftOut(1, None, left.energy_share, False)
    assert left.energy_share == pytest.approx(hers / EA_KCAL, rel=1e-4)
    (problem,) = told(folder)
    assert problem.kind == "too-little"
    assert problem.says == "Ea gets 75% of what day 1 takes, and the party as a whole has enough"


def test_too_little_is_meant_where_the_day_says_so(tmp_path: Path) -> None:
    meals = {"lunch": [ration(2000, "Bo")], "snacks": [ration(1000, "Ea"), ration(1500, "Bo")]}
    day_one = day(meals, without={"lunch": ["Ea"]})
    folder = hand(tmp_path, trip_of(day_one))
    assert [(each.meal, each.meant) for each in folder.kit().party[0].left_out] == [
        ("lunch", True),
        (None, True),
    ]
    assert told(folder) == []


def test_what_another_goes_without_does_not_make_it_meant(tmp_path: Path) -> None:
    meals = {"lunch": [ration(500, "Ea")], "snacks": [ration(800, "Ea"), ration(2477, "Bo")]}
    folder = hand(tmp_path, trip_of(day(meals, without={"lunch": ["Bo"]})))
    assert kinds(folder) == ["too-little"]


# -- what `without` may say -----------------------------------------------------------------------


def test_a_meal_with_a_mistake_of_its_own_is_not_called_missing(tmp_path: Path) -> None:
    meals = {"lunch": [{"eat": "nonsense", "each": "9 g", "for": "Bo"}], "dinner": [ration(850)]}
    folder = hand(tmp_path, trip_of(day(meals, without={"lunch": ["Ea"]})))
    assert folder.kinds() == ["food-unknown"]


@pytest.mark.parametrize(
    ("without", "kind"),
    [
        ({"lunch": ["Cy"]}, "person-unknown"),
        ({"breakfast": ["Ea"]}, "without"),
        ({"dinner": ["Ea"]}, "without"),
        ({"lunhc": ["Ea"]}, "key-unknown"),
        (["Ea"], "not-a-mapping"),
    ],
)
def test_what_without_cannot_say_is_told(tmp_path: Path, without: object, kind: str) -> None:
    folder = hand(tmp_path, trip_of(day(LUNCH, without=without)))
    assert folder.kinds() == [kind]


# -- allergens that nobody told -------------------------------------------------------------------


def eats(name: str, *avoids: str) -> Record:
    trip = trip_of(day({"snacks": [{"eat": name, "each": "500 g"}]}))
    trip["party"][0]["avoids"] = [*avoids]
    return trip


@pytest.mark.parametrize(
    ("name", "avoids", "warned"),
    [
        ("mystery", ("nuts",), True),
        ("mystery", ("vegan",), False),
        ("mystery", ("nut",), False),
        ("mystery", (), False),
        ("known", ("nuts",), False),
    ],
)
def test_a_food_without_allergens_is_warned_of_where_somebody_avoids_one(
    tmp_path: Path, name: str, avoids: tuple[str, ...], warned: bool
) -> None:
    folder = hand(tmp_path, eats(name, *avoids), foods=FOODS)
    assert ("allergens-not-told" in kinds(folder)) == warned


@pytest.mark.parametrize(
    ("name", "avoids", "warned"),
    [
        ("packet", ("vegetarian",), True),
        ("packet", ("meat",), True),
        ("packet", ("nuts",), False),
        ("packet", ("fish",), False),  # an allergen, and those are told
        ("packet", ("mystery",), False),
        ("read", ("vegetarian", "meat"), False),
        ("mystery", ("vegetarian", "meat"), False),
    ],
)
def test_a_packet_that_tells_no_kinds_is_warned_of_where_somebody_avoids_one(
    tmp_path: Path, name: str, avoids: tuple[str, ...], warned: bool
) -> None:
    folder = hand(tmp_path, eats(name, *avoids), foods=FOODS)
    assert ("kinds-not-told" in kinds(folder)) == warned


def test_a_label_tells_what_is_in_the_packet(tmp_path: Path) -> None:
    trip = eats("Chilli", "vegetarian")
    packet = trip["days"][0]["meals"]["snacks"][0]
    packet |= {"energy": "400 kcal", "allergens": []}
    assert "kinds-not-told" in kinds(hand(tmp_path / "none", trip, foods=FOODS))
    packet["contains"] = ["meat", "legume"]
    folder = hand(tmp_path / "told", trip, foods=FOODS)
    assert "kinds-not-told" not in kinds(folder)
    assert "not-to-be-eaten" in {each.id for each in folder.kit().cautions}


def test_the_warning_stands_at_the_food_and_once_for_all_trips(tmp_path: Path) -> None:
    trip = eats("mystery", "nuts")
    trip["days"] = [trip["days"][0], trip["days"][0]]
    folder = hand(tmp_path, trip, more_trips={"other": trip}, foods=FOODS)
    both = {
        problem
        for name in ("hand", "other")
        for problem in menu_problems(folder.content.trips[name], folder.kit(name), folder.content)
    }
    (problem,) = both
    assert problem.place.file == "content/foods/hand.yaml"
    assert problem.says.startswith("mystery tells no allergens")


def test_a_packet_is_warned_of_at_its_line_and_a_dish_at_its_food(tmp_path: Path) -> None:
    trip = eats("known", "milk")
    packet = {"eat": "Fudge", "each": "400 g", "energy": "400 kcal"}
    trip["days"][0]["meals"] = {"snacks": [packet], "dinner": [{"cook": "mush"}]}
    mush: Record = {
        "id": "mush",
        "serves": 1,
        "cook_in": "none",
        "uses": [{"food": "mystery", "amount": "300 g"}],
        "steps": [{"do": "mix", "with": ["mystery"]}],
    }
    folder = hand(tmp_path, trip, [mush], foods=FOODS)
    assert [
        (each.kind, each.place.file, each.says.split(" tells")[0]) for each in told(folder)
    ] == [
        ("allergens-not-told", "content/trips/hand.yaml", "Fudge"),
        ("allergens-not-told", "content/foods/hand.yaml", "mystery"),
    ]
