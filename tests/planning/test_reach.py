"""Raw animal food in recipes: how hot its middle gets, how it rests, what heats it once wet."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.planning.stock.checks import without_broken

from .folders import Record, day, day_trip, hand

BOIL = {"do": "boil", "with": ["raw"], "water": "200 ml"}
REST_3 = {"do": "rest", "minutes": 3}


def kinds(
    folder: Path,
    what: str,
    reach: str | None,
    steps: list[Record] | None = None,
    dried_by: str | None = None,
    foods: list[Record] | None = None,
    **more: object,
) -> list[str]:
    """Give the kinds of problems of a recipe with one food, called raw."""
    line: Record = {"id": "raw", "food": what, "amount": "100 g", "dried_by": dried_by}
    recipe = {
        "id": "dish",
        "serves": 1,
        "cook_in": "pot",
        "uses": [line],
        "steps": steps or [BOIL, REST_3],
        "reach": reach,
        **more,
    }
    return hand(folder, recipes=[recipe], foods=foods).kinds()


@pytest.mark.parametrize(
    ("what", "dried_by", "least_c", "least_f"),
    [
        ("hen-raw", None, 74, 165),
        ("hen-raw", "dehydrator", 74, 165),
        ("deer-raw", None, 74, 165),
        ("deer-raw", "freeze-dryer", 74, 165),
        ("mince-raw", None, 72, 160),
        ("mince-raw", "freeze-dryer", 72, 160),
        ("egg-raw", None, 72, 160),
        ("egg-raw", "freeze-dryer", 72, 160),
        ("steak-raw", None, 63, 145),
        ("steak-raw", "freeze-dryer", 72, 160),  # dried pieces lie like minced meat
        ("steak-raw", "bought", 72, 160),
        ("trout-raw", None, 63, 145),
    ],
)
def test_the_least_each_must_reach(
    tmp_path: Path, what: str, dried_by: str | None, least_c: int, least_f: int
) -> None:
    assert kinds(tmp_path / "a", what, None, dried_by=dried_by) == ["reach-missing"]
    below = f"{least_f - 0.1:.1f} degF"
    assert kinds(tmp_path / "b", what, below, dried_by=dried_by) == ["reach-too-low"]
    one_less = f"{least_c - 1} degC"
    assert kinds(tmp_path / "c", what, one_less, dried_by=dried_by) == ["reach-too-low"]
    assert kinds(tmp_path / "d", what, f"{least_c} degC", dried_by=dried_by) == []
    assert kinds(tmp_path / "e", what, f"{least_f} degF", dried_by=dried_by) == []


@pytest.mark.parametrize(
    ("name", "least_c"),
    [
        ("Ground beef", 72),
        ("Sausage", 72),
        ("Rinderhack, roh", 72),
        ("Kjøttdeig", 72),
        ("Bear meat", 74),
        ("Rehrücken, roh", 74),
        ("Elgkjøtt", 74),
        ("Rump steak", 63),
    ],
)
def test_meat_whose_cut_is_not_told_goes_by_its_name(
    tmp_path: Path, name: str, least_c: int
) -> None:
    foods = [
        {
            "id": "some-meat",
            "name": name,
            "kind": "meat",
            "state": "raw",
            "per_100g": {"water": "74 g", "protein": "24 g"},
        }
    ]
    found = kinds(tmp_path / "a", "some-meat", f"{least_c - 1} degC", foods=foods)
    assert found == ["reach-too-low"]
    assert kinds(tmp_path / "b", "some-meat", f"{least_c} degC", foods=foods) == []


@pytest.mark.parametrize(
    "what",
    ["stew-meat", "trout-cooked", "egg-cooked", "curd", "leaf", "pulse"],
)
def test_what_is_not_raw_animal_food_needs_no_reach(tmp_path: Path, what: str) -> None:
    assert kinds(tmp_path, what, None) == []


@pytest.mark.parametrize(
    ("what", "reach", "steps", "found"),
    [
        # A whole cut at 63 °C rests 3 min after the last heat.
        ("steak-raw", "63 degC", [BOIL], ["rest-missing"]),
        ("steak-raw", "63 degC", [BOIL, {"do": "rest", "minutes": 2}], ["rest-missing"]),
        ("steak-raw", "63 degC", [BOIL, REST_3], []),
        ("steak-raw", "63 degC", [{**REST_3, "with": ["raw"]}, {"do": "boil"}], ["rest-missing"]),
        ("steak-raw", "63 degC", [BOIL, REST_3, {"do": "simmer", "minutes": 1}],
         ["rest-missing"]),
        ("steak-raw", "72 degC", [BOIL], []),  # hot enough to need none
        ("trout-raw", "63 degC", [BOIL], []),  # fish needs none
    ],
)  # fmt: skip
def test_a_whole_cut_rests(
    tmp_path: Path, what: str, reach: str, steps: list[Record], found: list[str]
) -> None:
    assert kinds(tmp_path, what, reach, steps) == found


SOAK = {"do": "soak", "with": ["raw"], "water": "100 ml", "minutes": 10}
MIX = {"do": "mix", "with": ["raw"], "water": "50 ml"}


@pytest.mark.parametrize(
    ("steps", "heated"),
    [
        ([SOAK, {"do": "boil"}], True),
        ([SOAK, {"do": "boil"}, {"do": "simmer", "minutes": 5}], True),
        ([SOAK, {"do": "simmer", "minutes": 5}], True),
        ([SOAK, {"do": "fry", "with": ["raw"], "minutes": 5}], True),
        ([BOIL], True),
        (
            [{"do": "boil", "water": "100 ml"}, {"do": "simmer", "with": ["raw"], "minutes": 9}],
            True,
        ),
        ([SOAK], False),
        ([{**SOAK, "hot": True}], False),  # boiled water alone cooks nothing through
        ([SOAK, {"do": "rest", "minutes": 30}], False),
        ([{"do": "boil", "water": "100 ml"}, SOAK], False),  # wetted after the heat
        ([{"do": "boil", "water": "100 ml"}, MIX, {"do": "rest", "minutes": 5}], False),
        ([{"do": "fry", "with": ["raw"], "minutes": 5}, MIX], False),
        ([{"do": "fry", "with": ["raw"], "minutes": 5}, MIX, {"do": "boil"}], True),
    ],
)
def test_heat_comes_after_the_wetting(tmp_path: Path, steps: list[Record], heated: bool) -> None:
    found = kinds(tmp_path, "egg-raw", "74 degC", steps, dried_by="freeze-dryer")
    assert found == ([] if heated else ["not-heated"])


def test_a_press_heats_too(tmp_path: Path) -> None:
    steps: list[Record] = [SOAK, {"do": "press", "with": ["raw"], "each_side": "5 min"}]
    found = kinds(tmp_path, "egg-raw", "72 degC", steps, cook_in="iron")
    assert found == []


def test_food_that_only_a_sentence_names_is_not_heated(tmp_path: Path) -> None:
    steps: list[Record] = [
        {"do": "boil", "water": "100 ml"},
        {"do": "serve", "say": "Put the <raw> in."},
    ]
    assert kinds(tmp_path, "egg-raw", "74 degC", steps) == ["not-heated"]


def test_problems_of_food_stand_in_their_file(tmp_path: Path) -> None:
    line = {"food": "hen-raw", "amount": "100 g"}
    recipe = {"id": "dish", "serves": 1, "cook_in": "pot", "uses": [line], "reach": "70 degC",
              "steps": [{"do": "boil", "with": ["hen-raw"], "water": "200 ml"}]}  # fmt: skip
    (problem,) = hand(tmp_path, recipes=[recipe]).problems
    assert problem.place.file == "content/recipes/dish.yaml"
    assert problem.severity == "error"
    assert "70 °C" in problem.says
    assert "74 degC" in problem.mend


def test_a_folder_that_overdraws_or_breaks_still_plans_what_is_whole(tmp_path: Path) -> None:
    odd = {"id": "odd", "food": "berry", "method": "oven", "done": "2031-01-01",
           "fresh": "400 g", "dried": "400 g"}  # fmt: skip
    eat = {"snacks": [{"eat": "berry", "from": "odd", "each": "10 g"}]}
    read = hand(
        tmp_path, day_trip(days=[day(eat)]), batches=[odd], more_trips={"whole": day_trip()}
    )
    assert read.kinds() == ["no-loss"]
    left = without_broken(read.content, read.stock.judged)
    assert list(left.trips) == ["whole"]
