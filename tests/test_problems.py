"""How a mistake is told, ordered, and answered with the nearest known word."""

from __future__ import annotations

import random
from typing import get_args

import pytest

from builder.model.food import ALLERGENS, KINDS
from builder.model.place import Place
from builder.model.recipe import Do
from builder.model.trip import TRAVEL_BY
from builder.problems import (
    Problem,
    ProblemsFound,
    did_you_mean,
    errors,
    food_meant,
    in_order,
    listed,
    nearest,
    record_meant,
)

A9 = Place("a.yaml", 9, 1)
A10 = Place("a.yaml", 10, 1)
B1 = Place("b.yaml", 1, 5)


def test_a_problem_is_one_clickable_line() -> None:
    problem = Problem(B1, "unit-missing", "'5' has no unit", "write 5 g")
    assert str(problem) == "b.yaml:1:5: error: '5' has no unit — write 5 g [unit-missing]"
    assert str(Problem(B1, "odd", "this is odd", severity="warning")) == (
        "b.yaml:1:5: warning: this is odd [odd]"
    )


def test_problems_come_once_by_file_line_and_column() -> None:
    ordered = (
        Problem(A9, "x", "s"),
        Problem(A10, "w", "s"),
        Problem(A10, "x", "s"),
        Problem(Place("a.yaml", 10, 2), "a", "a"),
        Problem(Place("a.yaml", 10, 11), "a", "a"),
        Problem(B1, "x", "s", severity="error"),
        Problem(B1, "a", "s", severity="warning"),
    )
    for seed in range(20):
        shuffled = [*ordered, *ordered]
        random.Random(seed).shuffle(shuffled)
        assert in_order(shuffled) == ordered


def test_only_errors_stop_the_work() -> None:
    error, warning = Problem(A9, "x", "s"), Problem(A9, "x", "s", severity="warning")
    assert errors([warning, error]) == (error,)
    assert errors([warning]) == ()


def test_problems_found_carries_all_in_order() -> None:
    found = ProblemsFound([Problem(B1, "x", "two"), Problem(A9, "x", "one")])
    assert [problem.says for problem in found.problems] == ["one", "two"]
    assert str(found) == "a.yaml:9:1: error: one [x]\nb.yaml:1:5: error: two [x]"


@pytest.mark.parametrize(
    ("word", "known", "near"),
    [
        ("hieght", ["height", "weight", "name"], "height"),
        ("black-bean", ["black-beans", "beans"], "black-beans"),
        ("zzz", ["height", "name"], None),
        ("heat", ["at", "name"], None),  # it holds all letters of `at`, and is no slip of it
        ("sea", ["lake", "stream"], None),
        ("cereals", ["celery", "cereals-gluten"], "cereals-gluten"),
        ("min", ["minutes"], "minutes"),
        ("idd", ["id"], "id"),
        ("minut", ["minutes"], "minutes"),
        ("", ["a"], None),
        ("a", [], None),
        ("tie", ["tie-b", "tie-a"], "tie-b"),
    ],
)
def test_the_nearest_known_word_is_found(word: str, known: list[str], near: str | None) -> None:
    assert nearest(word, known) == near
    assert nearest(word, reversed(known)) == near, "the order of the known words does not matter"


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("kayaking", "paddling"),
        ("canoe", "paddling"),
        ("Hiking", "walking"),
        ("ski touring", "skiing"),
        ("ski-touring", "skiing"),
        ("rest", "resting"),
        ("bike", "cycling"),
        ("Ruhetag", "resting"),
        ("fottur", "walking"),
        ("Paddeln", "paddling"),
        ("snowshoin", "snowshoeing"),  # a slip of the pen is still found by its spelling
    ],
)
def test_a_word_is_known_by_what_it_means_before_how_it_is_spelt(written: str, meant: str) -> None:
    assert did_you_mean(written, TRAVEL_BY) == f"did you mean {meant}?"


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("rehydrate", "soak"),
        ("stir", "mix"),  # not simmer, which is spelt more like it
        ("cook", "boil or simmer"),
        ("Anbraten", "fry"),
        ("simmr", "simmer"),
    ],
)
def test_what_cooks_call_a_step_is_known(written: str, meant: str) -> None:
    assert did_you_mean(written, get_args(Do)) == f"did you mean {meant}?"


def test_what_is_meant_may_be_more_than_one_word() -> None:
    assert did_you_mean("shellfish", (*ALLERGENS, *KINDS)) == (
        "did you mean crustaceans or molluscs?"
    )
    assert did_you_mean("weight", ["height", "mass"]) == "did you mean mass?"
    assert did_you_mean("weight", ["height", "age"]) == "did you mean height?", "mass is not known"


@pytest.mark.parametrize(
    ("words", "sentence"),
    [([], ""), (["a"], "a"), (["a", "b"], "a or b"), (["a", "b", "c"], "a, b or c")],
)
def test_words_are_listed_as_a_sentence_has_them(words: list[str], sentence: str) -> None:
    assert listed(words, "or") == sentence


@pytest.mark.parametrize(
    ("word", "known", "hint"),
    [
        ("metrik", ["metric", "us"], "did you mean metric?"),
        ("zzz", ["us", "metric"], "known are: metric, us"),
        ("zzz", [], "there is none yet"),
        ("zzz", [f"food-{n}" for n in range(24)], "known are: food-0, food-1, food-10, "),
        ("zzz", [f"food-{n}" for n in range(25)], "see `tripkit find` for those that exist"),
    ],
)
def test_an_unknown_word_is_answered_with_what_would_do(
    word: str, known: list[str], hint: str
) -> None:
    assert did_you_mean(word, known).startswith(hint)


def test_a_name_instead_of_an_id_and_a_food_that_nobody_wrote_are_told_so() -> None:
    recipes = {"plum-iron": "Plum and cheese bread", "pot": "Pot"}
    assert record_meant("plum and cheese bread", recipes) == "write its id, plum-iron"
    assert record_meant("plum-iro", recipes) == "did you mean plum-iron?"
    start = "Or start one of your own: `tripkit new food`"
    foods = ("bulgur-dry", "rye-crackers")
    assert food_meant("freekeh-cracked", foods).endswith(start)
    assert food_meant("bulgur", foods) == "did you mean bulgur-dry?"
