"""How long a cool bag holds, as a trip tells it."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.trip import Chilled

from .folder_builder import GOOD, TRIP, read
from .test_trips import trip_of


@pytest.mark.parametrize(
    ("told", "chilled"),
    [
        ("", None),
        ("chilled: {until: {day: 1, meal: dinner}}\n", Chilled(1, "dinner")),
    ],
)
def test_a_cool_bag_holds_until_a_meal(told: str, chilled: Chilled | None, tmp_path: Path) -> None:
    assert trip_of(tmp_path, TRIP + told).chilled_until == chilled


@pytest.mark.parametrize(
    ("told", "kinds"),
    [
        ("{until: {day: 9, meal: dinner}}", ["day-unknown"]),
        ("{until: {day: 0, meal: dinner}}", ["out-of-range"]),
        ("{until: {day: 1}}", ["missing"]),
        ("{until: {day: 1, meal: supper}}", ["word-unknown"]),
        ("{until: dinner}", ["not-a-mapping"]),
        ("{}", ["missing"]),
        ("{until: {day: 1, meal: dinner}, ice: 1 kg}", ["key-unknown"]),
    ],
)
def test_what_a_cool_bag_cannot_do_is_told(told: str, kinds: list[str], tmp_path: Path) -> None:
    found = read(tmp_path, {**GOOD, "trips/tarrow.yaml": f"{TRIP}chilled: {told}\n"})
    assert [problem.kind for problem in found.problems if problem.severity == "error"] == kinds
