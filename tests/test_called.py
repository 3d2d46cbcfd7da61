"""What foods are called by others."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder import called
from builder.problems import did_you_mean
from builder.reading.folder import Layer, read_folder

ROOT = Path(__file__).resolve().parent.parent
FOODS = read_folder([Layer(ROOT / "content", "content")]).content.foods
MINCE = "beef-mince-10-cooked, beef-mince-10-raw, beef-mince-20-cooked or beef-mince-20-raw"


def test_no_start_stands_in_two_rows() -> None:
    starts = [start for row in called._CALLED for start in row.split()]
    assert len(starts) == len(set(starts))


@pytest.mark.parametrize("start", sorted(called._rows()))
def test_each_row_is_of_a_food_that_there_is(start: str) -> None:
    assert any(start in called._starts_of(food) for food in FOODS)


@pytest.mark.parametrize(("start", "others"), called._rows().items())
def test_no_row_tells_a_name_twice_or_one_that_the_ids_tell(
    start: str, others: tuple[str, ...]
) -> None:
    plain = [called._plainly(each) for each in others]
    assert len(plain) == len(set(plain))
    ids = {called._plainly(food) for food in FOODS if start in called._starts_of(food)}
    assert not ids & set(plain)


@pytest.mark.parametrize(
    ("food", "other"),
    [
        ("beef-mince-10-raw", "ground beef"),
        ("red-pepper-raw", "bell pepper"),
        ("red-pepper-freeze-dried", "capsicum"),
        ("wheat-flour-whole", "plain flour"),  # a row holds for all that begin so
    ],
)
def test_a_food_is_called_by_all_rows_that_its_id_begins_with(food: str, other: str) -> None:
    assert other in called.called_by_others(food)


@pytest.mark.parametrize("food", ["beef-minced", "beef", "peppermint-raw", "black-pepper"])
def test_an_id_begins_word_by_word(food: str) -> None:
    assert not {"ground beef", "bell pepper"} & {*called.called_by_others(food)}


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("eggplant", "aubergine-boiled or aubergine-raw"),
        ("Ground-Beef", MINCE),
        ("ground_beef", MINCE),
        ("scallions", "spring-onion-raw"),
        ("jalapeño", "chilli-green-raw or chilli-red-raw"),
        # not black-pepper, which is spelt more like it
        (
            "bell-pepper",
            "green-pepper-boiled, green-pepper-freeze-dried, green-pepper-raw or red-pepper-boiled",
        ),
        ("aubergine-rwa", "aubergine-raw"),  # what is almost right is meant, whatever others say
    ],
)
def test_who_writes_anothers_name_for_an_id_is_told_what_is_meant(written: str, meant: str) -> None:
    assert did_you_mean(written, FOODS) == f"did you mean {meant}?"


def test_what_nobody_calls_so_is_no_food() -> None:
    assert called.foods_called("bell", FOODS) == called.foods_called("", FOODS) == []
    assert called.foods_called("eggplant", []) == []
