"""Figures that are told once for many: told out again, they are what they were."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as some

from builder.model.figure import Count, Named
from builder.pages.trip.origins.alike import (
    LEAST_ALIKE,
    Ids,
    Leaf,
    Reasoned,
    folded,
    in_short,
    numbers_told,
)
from builder.pages.trip.origins.graph_json import number
from tests.kit_json.reader import numbers, told_out

LEAF = Named("packs", "a-source")


@pytest.mark.parametrize(
    ("column", "told"),
    [
        ([7], "7"),
        ([0, 1, 2, 3], "0-3"),
        ([4, 4, 4], "4x3"),
        ([0, 0, 1, 1], "0-1x2"),
        ([0, 1, 0, 1], "0-1*2"),
        ([4, 0, 0, 1, 1, 0, 0, 1, 1], "4,0-1x2*2"),
        ([3, 2, 1], "3,2,1"),
    ],
)
def test_numbers_are_told_in_runs(column: list[int], told: str) -> None:
    assert numbers_told(column) == told
    assert numbers(told) == column


@given(some.lists(some.integers(0, 9), min_size=1))
def test_numbers_told_in_runs_are_read_back(column: list[int]) -> None:
    assert numbers(numbers_told(column)) == column


@given(some.lists(some.tuples(some.sampled_from("ab"), some.integers(0, 3), some.integers(0, 3))))
def test_a_list_told_in_short_is_read_back(parts: list[tuple[str, int, int]]) -> None:
    names = [f"{letter}.{first}.{second}" for letter, first, second in parts]
    figures = {name: Leaf(1.0, "trips/a.yaml:1:2") for name in names}
    figure = Reasoned(0.0, "f", (("parts", tuple(names)),))
    assert _told_out({**figures, "c": figure})["c"].get("inputs", {}) == {
        "parts": {"figures": names}
    }


def _told_out(figures: dict[str, Leaf | Reasoned]) -> dict[str, Any]:
    single, alike = folded(figures)
    data: dict[str, Any] = {"figures": single, "alike": alike}
    for name, figure in figures.items():
        _put(data, name.split("."), figure.value)
    figures_told: dict[str, Any] = told_out(data)["figures"]
    return figures_told


def _put(data: dict[str, Any], path: list[str], value: float) -> None:
    """Put a value at an address."""
    *before, last = path
    for part in before:
        data = data.setdefault(part, {})
    data[last] = value


def _people(days: int, people: int) -> dict[str, Leaf | Reasoned]:
    figures: dict[str, Leaf | Reasoned] = {}
    for day in range(days):
        figures[f"days.{day}.hours"] = Leaf(day + 0.5, f"trips/a.yaml:{9 + day}:4")
        for person in range(people):
            body = Leaf(50.0 + person, f"trips/a.yaml:{person + 3}:7")
            hours = f"days.{day}.hours"
            figures[f"days.{day}.people.{person}.need_kcal"] = Reasoned(
                body.value * (day + 0.5), "need", (("body_kg", body), ("hours", hours))
            )
    return figures


def test_each_person_of_each_day_is_told_once_for_all() -> None:
    figures = _people(6, 5)
    single, alike = folded(figures)
    assert single == {}
    need, hours, bodies = (
        next(each for each in alike if each["id"] == name)
        for name in ("days.$1.people.$2.need_kcal", "days.$1.hours", "#body_kg.$1")
    )
    assert need["for"] == ["0-5x5", "0-4*6"]
    assert need["inputs"] == {
        "body_kg": {"figure": "#body_kg.$2"},
        "hours": {"figure": "days.$1.hours"},
    }
    assert hours["place"] == "trips/a.yaml:$2:4"
    assert bodies["values"] == [50, 51, 52, 53, 54]
    told = _told_out(figures)
    for name, figure in figures.items():
        assert told[name]["value"] == figure.value


def test_few_are_told_each_by_itself() -> None:
    figures = _people(1, LEAST_ALIKE - 1)
    single, alike = folded(figures)
    assert alike == []
    assert single == {name: figure.data() for name, figure in figures.items()}


def test_the_same_id_again_and_again_is_told_by_how_often() -> None:
    (many,) = in_short(["a.1.b"] * 5, Ids())
    assert not isinstance(many, str)
    assert (many.id, many.columns) == ("a.1.b", ("0x5",))


@pytest.mark.parametrize(("value", "told"), [(3.0, 3), (Count(3, LEAF), 3), (0.25, 0.25)])
def test_a_number_is_told_plainly(value: float, told: float) -> None:
    assert repr(number(value)) == repr(told)


@pytest.mark.parametrize("value", [float("inf"), float("-inf"), float("nan")])
def test_no_number_without_end_gets_into_a_kit(value: float) -> None:
    with pytest.raises(ValueError, match="without end"):
        number(value)
