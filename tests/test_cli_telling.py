"""What is told often is told once, with its places and a count."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from builder.cli.telling import MOST_ALIKE, MOST_OF_A_SORT, MOST_PLACES, told
from builder.model.place import Place
from builder.problems import Problem
from tests.conftest import tripkit


def at(line: int, says: str = "it is odd", kind: str = "odd") -> Problem:
    return Problem(Place("a.yaml", line, 1), kind, says, "mend it")


def test_a_few_in_the_same_words_are_told_each() -> None:
    problems = [at(line) for line in range(1, MOST_ALIKE + 1)]
    assert list(told(problems)) == [str(problem) for problem in problems]
    assert list(told([])) == []


def test_more_in_the_same_words_are_told_once_with_their_places() -> None:
    problems = [at(line) for line in range(1, MOST_ALIKE + 2)]
    assert list(told(problems)) == [
        "a.yaml:1:1: error: it is odd — mend it [odd]",
        "  and 3 more like it: a.yaml:2:1, a.yaml:3:1, a.yaml:4:1",
    ]


def test_a_warning_and_an_error_in_the_same_words_are_two_sorts() -> None:
    problems = [
        at(1),
        *(
            Problem(at(n).place, "odd", "it is odd", "mend it", "warning")
            for n in range(2, MOST_ALIKE + 2)
        ),
    ]
    assert list(told(problems)) == [str(problem) for problem in problems]


def test_of_very_many_places_the_first_are_told_and_the_rest_counted() -> None:
    lines = list(told([at(line) for line in range(1, MOST_PLACES + 3)]))
    assert lines[1].endswith("a.yaml:9:1, and 1 more place")
    lines = list(told([at(line) for line in range(1, MOST_PLACES + 2)]))
    assert lines[1].endswith("a.yaml:9:1")


def test_of_one_sort_in_many_words_the_first_are_told_and_the_rest_by_their_places() -> None:
    problems = [at(line, f"{line} is odd") for line in range(1, MOST_OF_A_SORT + 1)]
    assert list(told(problems)) == [str(problem) for problem in problems]
    more = [*problems, at(7, "7 is odd"), at(8, "another sort", "other")]
    assert list(told(more)) == [
        *(str(problem) for problem in problems[:-1]),
        str(more[-1]),
        "2 more errors of this sort [odd]: a.yaml:6:1, a.yaml:7:1; "
        "`tripkit check --json` tells all",
    ]


@pytest.mark.parametrize("as_json", [False, True])
def test_check_tells_once_what_every_meal_has_wrong_and_data_tells_each(
    as_json: bool, in_empty_folder: Path
) -> None:
    assert tripkit("new", "folder", "mine").exit_code == 0
    trip = Path("mine/content/trips/first-trip.yaml")
    text = trip.read_text("utf-8")
    days = "".join(
        f"  - {{camp_altitude: 7 m, meals: {{lunch: [{{eat: crispbredd, each: {n} g}}]}}}}\n"
        for n in range(50, 62)
    )
    trip.write_text(text.replace("days:\n", f"days:\n{days}"), "utf-8")
    result = tripkit("check", "--content", "mine/content", *(["--json"] if as_json else []))
    assert result.exit_code == 1
    if as_json:
        problems = json.loads(result.stdout)["problems"]
        assert [each["kind"] for each in problems].count("food-unknown") == 12
        return
    assert result.stderr.count("there is no food 'crispbredd'") == 1
    assert "did you mean crispbread?" in result.stderr
    assert "  and 11 more like it: mine/content/trips/first-trip.yaml:" in result.stderr
    assert "12 errors, 0 warnings" in result.stderr
