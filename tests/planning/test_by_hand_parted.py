"""One pot divided before the meat goes in, worked on paper: amounts, water, heat, minutes."""

from __future__ import annotations

import itertools
import json
from pathlib import Path
from typing import Any

import pytest

from builder.model.kit import Kit, PlannedMeal
from builder.pages.trip.dishes.cook import cook_pages
from builder.pages.trip.dishes.parted import for_all_in_pot
from builder.pages.trip.origins.kit_json import kit_data
from builder.planning.foods import substance_named
from builder.planning.graph import graph_of
from builder.planning.kit import plan_trip
from builder.planning.menu import avoided_how
from builder.planning.public import public_kit
from builder.problems import ProblemsFound
from tests.planning.folders import Hand, Record, day, day_trip, food, hand

LENTIL = food(
    "lentil",
    "legume",
    "dried",
    "water 10 g, energy 350 kcal, protein 24 g, carbohydrate 60 g",
    allergens=[],
)
STEW = food(
    "stew", "meat", "cooked", "water 10 g, energy 500 kcal, protein 70 g, fat 20 g", allergens=[]
)
CHEESE = food(
    "cheese",
    "dairy",
    "ready",
    "water 10 g, energy 500 kcal, protein 40 g, fat 50 g",
    allergens=["milk"],
)
SALT = food("salt", "other", "ready", "water 0 g", allergens=[], contains=[])
UNTOLD = food("paste", "vegetable", "ready", "water 50 g, energy 100 kcal, carbohydrate 25 g")
FOODS = [LENTIL, STEW, CHEESE, SALT, UNTOLD]

# For one: 100 g lentils in 300 ml, 10 min; then 50 g meat in 60 ml more, 5 min; then salt.
CHILI: Record = {
    "id": "chili", "name": "Chili", "serves": 1, "cook_in": "pot",
    "uses": [
        {"food": "lentil", "amount": "100 g"},
        {"food": "stew", "amount": "50 g"},
        {"food": "salt", "amount": "2 g"},
    ],
    "steps": [
        {"do": "boil", "with": ["lentil"], "water": "300 ml"},
        {"do": "simmer", "minutes": 10},
        {"do": "part"},
        {"do": "boil", "with": ["stew"], "water": "60 ml", "say": "Stir <stew> in."},
        {"do": "simmer", "minutes": 5},
        {"do": "serve", "with": ["salt"]},
    ],
}  # fmt: skip


def party(*avoids: list[str]) -> list[Record]:
    """Give people who avoid that, one after the other."""
    return [
        {"name": f"P{number}", "age": 40, "mass": "70 kg", "height": "175 cm",
         "carries_to": "15 kg", "own_gear": "5 kg", "avoids": words}
        for number, words in enumerate(avoids)
    ]  # fmt: skip


def trip(*avoids: list[str], pots: tuple[str, ...] = ("small", "large"), **more: Any) -> Record:
    return day_trip(
        days=[day({"dinner": [{"cook": "chili"}]})],
        party=party(*avoids),
        stove={"use": "burner", "pots": list(pots)},
        **more,
    )


def read(folder: Path, told: Record, recipe: Record = CHILI) -> Hand:
    return hand(folder, told, [recipe], foods=FOODS)


def two_pots(folder: Path) -> tuple[Kit, PlannedMeal, PlannedMeal]:
    """Give the dinner of three, of whom one avoids meat."""
    kit = read(folder, trip([], [], ["vegetarian"])).kit()
    main, other = kit.days[0].meals
    return kit, main, other


def grams(meal: PlannedMeal) -> dict[str, float]:
    return {each.id: float(each.amount_g) for each in meal.ingredients}


def test_portions_go_by_head_and_the_meat_to_who_eats_it(tmp_path: Path) -> None:
    kit, main, other = two_pots(tmp_path)
    assert (main.eaters, other.eaters) == (("P0", "P1"), ("P2",))
    assert grams(main) == pytest.approx({"lentil": 200, "stew": 100, "salt": 4})
    assert grams(other) == pytest.approx({"lentil": 100, "salt": 2})
    # Water: 300 ml a head, and 60 ml that go in with the meat for each pot's own eaters.
    assert (main.water_ml, other.water_ml) == pytest.approx((720, 360))
    assert main.nutrition.energy_kcal == pytest.approx(200 * 3.5 + 100 * 5)
    assert other.nutrition.energy_kcal == pytest.approx(350)
    # All of it is carried once, and drunk once.
    assert kit.days[0].water.cooking_ml == pytest.approx(3 * 360)
    assert kit.weights.food_g == pytest.approx(406)
    assert (main.title, other.title) == ("Chili", "Chili without stew")


def test_a_public_kit_parts_the_pot_and_does_not_tell_for_whom(tmp_path: Path) -> None:
    public = []
    for number, avoids in enumerate(itertools.permutations(([], [], ["vegetarian"]))):
        told = read(tmp_path / str(number), trip(*map(list, avoids)))
        own, kit = told.kit(), public_kit(told.kit(), told.content)
        for mine, everybodys in zip(own.days[0].meals, kit.days[0].meals, strict=True):
            assert grams(mine) == grams(everybodys)
            assert float(mine.water_ml) == pytest.approx(float(everybodys.water_ml))
            assert len(mine.eaters) == len(everybodys.eaters)
        assert [len(meal.eaters) for meal in kit.days[0].meals] == [2, 1]
        assert "vegetarian" not in json.dumps(kit_data(kit))
        public.append(json.dumps(kit_data(kit)))
    assert len(set(public)) == 1, "whoever it is, the kit is the same"


def test_until_the_part_all_is_cooked_in_one_pot(tmp_path: Path) -> None:
    _, main, other = two_pots(tmp_path)
    first, simmer, boil, simmer_on, serve = main.steps
    assert [step.together for step in main.steps] == [True, True, False, False, False]
    assert first.water_ml == pytest.approx(900)
    assert first.ingredients[0].amount_g == pytest.approx(300)
    assert boil.water_ml == pytest.approx(120)
    assert boil.ingredients[0].amount_g == pytest.approx(100)
    # 900 ml and 300 g of lentils fill 900 + 210 = 1110 ml: the large pot, of 2 l.
    assert main.pot == "large"
    assert main.most_ml == pytest.approx(1110)
    # A portion is a third: 100 g and 300 ml, in the small pot of 0.8 l.
    assert main.parting
    assert main.parting.taken_g == pytest.approx(400)
    assert main.parting.before_step == 2
    assert other.pot == "small"
    assert other.most_ml == pytest.approx(360 + 70)
    assert other.begins_in == "Chili"
    assert [step.do for step in other.steps] == ["boil", "simmer", "boil", "simmer", "serve"]
    assert other.steps[2].say == ""
    assert "<stew>" in boil.say
    assert for_all_in_pot(main, first).ingredients[0].amount_g == pytest.approx(300)
    assert simmer.minutes == pytest.approx(10 * main.conditions.time_factor)
    assert simmer_on.minutes == pytest.approx(5 * main.conditions.time_factor)
    assert serve.ingredients[0].amount_g == pytest.approx(4)


def test_what_was_taken_out_hot_stands_hot(tmp_path: Path) -> None:
    rest: Record = {"do": "rest", "minutes": 6}
    boil, simmer, part, _, *_, serve = CHILI["steps"]
    stewed: Record = {"do": "mix", "with": ["stew"]}
    hot = {**CHILI, "steps": [boil, simmer, part, stewed, rest, serve]}
    kit = read(tmp_path, trip([], [], ["vegetarian"]), hot).kit()
    for meal in kit.days[0].meals:
        (stands,) = [step for step in meal.steps if step.do == "rest"]
        assert stands.minutes == pytest.approx(6 * meal.conditions.time_factor)


def test_heat_and_minutes_of_each_pot(tmp_path: Path) -> None:
    _, main, other = two_pots(tmp_path)
    boil_c, factor = main.conditions.boiling_point_c, main.conditions.time_factor
    up_k = boil_c - 10
    # The pot that stays boils 900 ml with 300 g lentils, then 120 ml with 100 g meat: 0.4 of it
    # counts as water. It is of steel, 400 g, and heated once.
    main_kj = 4.186 * up_k * (0.9 + 0.12 + 0.4 * 0.4) + 0.4 * 0.50 * up_k
    assert main.heat_kj == pytest.approx(main_kj)
    # What is taken out boils 60 ml more, in a pot of aluminium, 200 g.
    other_kj = 4.186 * up_k * 0.06 + 0.2 * 0.897 * up_k
    assert other.heat_kj == pytest.approx(other_kj)
    # 2000 W at 50 %; simmers of 10 and 5 minutes, the second in both pots.
    assert main.minutes == pytest.approx(main_kj / 60 + 15 * factor)
    assert other.minutes == pytest.approx(other_kj / 60 + 5 * factor)
    # A simmer takes what the pot loses, 240 W and 90 W, through 50 %, at least the burner's 400 W.
    assert main.fuel_heat_kj == pytest.approx(main_kj / 0.5 + 480 * 15 * factor * 60 / 1000)
    assert other.fuel_heat_kj == pytest.approx(other_kj / 0.5 + 400 * 5 * factor * 60 / 1000)


def test_the_order_of_work_takes_out_before_the_meat_goes_in(tmp_path: Path) -> None:
    kit, _, _ = two_pots(tmp_path)
    (order,) = kit.days[0].orders
    told = [(step.do, step.place) for step in order.steps if step.do != "keep"]
    assert told.index(("part", 0)) == told.index(("simmer", 0)) + 1
    assert told[told.index(("part", 0)) + 1] == ("boil", 0)
    # On one burner the other pot is cooked after it, from there on.
    assert [do for do, place in told if place == 1] == ["boil", "simmer", "serve"]
    assert told.index(("boil", 1)) > told.index(("boil", 0))
    data = json.loads(json.dumps(kit_data(kit)))
    (said,) = [
        each["what"]
        for each in data["days"][0]["order_of_work"][0]["entries"]
        if each["do"] == "part"
    ]
    assert said == (
        "Take out 1 portion, about 400\u00a0g, into Small pot. It goes on as Chili without stew."
    )


def test_on_a_fire_both_pots_stand_side_by_side(tmp_path: Path) -> None:
    told = trip([], [], ["vegetarian"])
    del told["stove"]
    kit = read(tmp_path, {**told, "fire": {"pots": ["small", "large"]}}).kit()
    (order,) = kit.days[0].orders
    before = {
        (step.do, step.place): float(step.before_min)
        for step in order.steps
        if step.place is not None and step.do != "keep"
    }
    (first,) = (float(s.before_min) for s in order.steps if (s.do, s.place) == ("boil", 1))
    # It stands beside from when it is taken out, or later; both are ready when all eat.
    assert first <= before["part", 0]
    ends = max(float(s.before_min - s.minutes) for s in order.steps if s.place == 1)
    main = [s for s in order.steps if s.place == 0 and s.do == "simmer"][-1]
    assert float(main.before_min) > 0
    assert ends <= first
    assert first > float(main.before_min - main.minutes)


def test_kit_json_tells_each_pot(tmp_path: Path) -> None:
    kit, main, other = two_pots(tmp_path)
    told, beside = json.loads(json.dumps(kit_data(kit)))["days"][0]["meals"]
    assert told["pots"] == [
        {"eaters": 2, "mass_g": 304.0, "water_ml": pytest.approx(720), "minutes": main.minutes},
        {"eaters": 1, "mass_g": 102.0, "water_ml": pytest.approx(360), "minutes": other.minutes},
    ]
    assert beside["begins_in"] == "Chili"
    assert "pots" not in beside
    assert told["eaters"] + beside["eaters"] == 3


def test_nobody_else_is_parted(tmp_path: Path) -> None:
    kit = read(tmp_path / "none", trip([], ["milk"])).kit()
    (meal,) = kit.days[0].meals
    assert meal.parting is None
    assert not any(step.together for step in meal.steps)
    assert grams(meal) == pytest.approx({"lentil": 200, "stew": 100, "salt": 4})
    kit = read(tmp_path / "all", trip(["meat"], ["vegan"])).kit()
    (meal,) = kit.days[0].meals
    assert meal.parting is None
    assert grams(meal) == pytest.approx({"lentil": 200, "salt": 4})
    assert meal.title == "Chili without stew"


WORDS = ("vegetarian", "vegan", "milk", "meat", "legume", "nuts")


@pytest.mark.parametrize("later", ["stew", "cheese", "paste"])
def test_every_small_party_gets_what_it_may_eat_by_foods(later: str, tmp_path: Path) -> None:
    """Each pair of people with each word, against the foods themselves; not told counts too."""
    recipe = json.loads(json.dumps(CHILI).replace("stew", later))
    for number, (one, other) in enumerate(itertools.product([None, *WORDS], repeat=2)):
        avoids = [[one] if one else [], [other] if other else []]
        found = read(tmp_path / str(number), trip(*avoids), recipe)
        kit = found.kit()
        substance = substance_named(later, found.content)
        eaten = {
            name: {each.id for each in meal.ingredients}
            for meal in kit.days[0].meals
            for name in meal.eaters
        }
        for person, words in zip(("P0", "P1"), avoids, strict=True):
            may = not any(avoided_how(substance, word) for word in words)
            assert (later in eaten[person]) is may
            (told,) = (each for each in kit.party if each.name == person)
            assert later not in [each.what for each in told.refused if each.eats]
        assert sum(meal.heads for meal in kit.days[0].meals) == 2


def test_without_another_pot_that_holds_it_there_is_an_error(tmp_path: Path) -> None:
    found = read(tmp_path, trip([], ["meat"], pots=("large",)))
    with pytest.raises(ProblemsFound) as stop:
        plan_trip(found.content.trips["hand"], found.content, found.stock)
    (problem,) = stop.value.problems
    assert problem.kind == "no-other-pot"
    # Of three portions of 430 ml each, two fit into 800 ml, not two of 2 l in the small one.
    kit = read(tmp_path / "two", trip([], ["meat"], [])).kit()
    assert kit.days[0].meals[1].pot == "small"
    five = trip([], *[["meat"]] * 4)
    many = read(tmp_path / "many", five)
    with pytest.raises(ProblemsFound):
        plan_trip(many.content.trips["hand"], many.content, many.stock)


@pytest.mark.parametrize(
    ("place", "kind"), [(0, "part"), (6, "part"), (3, "")],
)  # fmt: skip
def test_a_part_stands_between_two_steps(place: int, kind: str, tmp_path: Path) -> None:
    steps = [each for each in CHILI["steps"] if each["do"] != "part"]
    steps.insert(place, {"do": "part"})
    found = read(tmp_path, trip([], []), {**CHILI, "steps": steps})
    assert {each.kind for each in found.problems if each.severity == "error"} == (
        {kind} if kind else set()
    )


def test_packs_are_opened_once_for_both_pots(tmp_path: Path) -> None:
    recipe = json.loads(json.dumps(CHILI))
    recipe["uses"][0] = {
        "id": "lentil",
        "food": "pulse",
        "amount": "100 g",
        "dried_by": "dehydrator",
    }
    batch = {
        "id": "packs", "food": "pulse", "method": "dehydrator", "done": "2031-05-01",
        "fresh": "2000 g", "dried": "900 g", "packs": {"count": 3},
    }  # fmt: skip
    told = trip([], [], ["meat"])
    told["days"][0]["meals"]["dinner"][0]["from"] = {"lentil": "packs"}
    kit = hand(tmp_path, told, [recipe], [batch], foods=FOODS).kit()
    # 300 g are one pack of 300 g, not one for each pot.
    assert sum(meal.ingredients[0].packs for meal in kit.days[0].meals) == 1
    assert kit.batches[0].packs_used == 1


def test_the_page_tells_what_goes_in_for_all_and_when_it_is_taken_out(tmp_path: Path) -> None:
    kit, _, _ = two_pots(tmp_path)
    (page,) = cook_pages(kit)
    main, other = page.cookings
    said = ["".join(piece.text for piece in each.do) for each in main.steps]
    assert said[2].startswith("Take out 1 portion")
    (lentils, *_) = main.steps[0].amounts
    assert lentils[0].text == "300\u00a0g"
    assert lentils[0].scale
    # It follows who eats: the page carries the figure, and it rests on both pots' eaters.
    figure = "days.0.meals.0.steps.0.in_pot.0.amount_g"
    assert lentils[0].scale.figure == figure
    assert graph_of(kit_data(kit)).nodes[figure].value == pytest.approx(300)
    first, *rest = ["".join(piece.text for piece in each.do) for each in other.steps]
    assert first == (
        "Its first steps are cooked in the pot of Chili, together. Go on here when it is taken "
        "out of that."
    )
    assert rest[0] == "Bring to the boil."
    # Each pot's eaters are changed by themselves.
    assert main.controls.eaters != other.controls.eaters
