"""Cooked food that nobody called dried, in a home that dries it: told, and never taken for dry."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.planning.drying import undried_problems
from tests.planning.folders import Record, day, day_trip, hand

BEANS = {"id": "beans", "food": "pulse", "amount": "80 g"}
LOGGED = {"id": "pulse-spring", "food": "pulse", "method": "dehydrator", "done": "2031-05-14",
          "fresh": "500 g", "dried": "222 g", "packs": {"count": 2}}  # fmt: skip


def told(folder: Path, uses: Record, batches: list[Record]) -> list[str]:
    pot = {
        "id": "pot",
        "meal": ["dinner"],
        "serves": 2,
        "cook_in": "pot",
        "uses": [uses],
        "steps": [{"do": "boil", "with": [uses["id"]], "water": "400 ml"}],
    }
    trip = day_trip(days=[day({"dinner": [{"cook": "pot"}]})])
    read = hand(folder, trip, recipes=[pot], batches=batches)
    return [each.says for each in undried_problems(read.content)]


def test_a_cooked_food_that_the_log_dries_is_asked_for_its_way(tmp_path: Path) -> None:
    assert told(tmp_path, BEANS, [LOGGED]) == [
        "recipe pot uses pulse as it is listed, wet, and your log dries it"
    ]


@pytest.mark.parametrize(
    ("uses", "batches"),
    [
        ({**BEANS, "dried_by": "dehydrator"}, [LOGGED]),
        (BEANS, []),  # nobody dries it here
        (
            {"id": "leaf", "food": "leaf", "amount": "80 g"},
            [{**LOGGED, "id": "leaf-spring", "food": "leaf", "dried": "56 g"}],
        ),  # may be fresh
    ],
    ids=["told", "not-logged", "raw"],
)
def test_nothing_is_asked_where_it_is_told_or_may_well_be_fresh(
    tmp_path: Path, uses: Record, batches: list[Record]
) -> None:
    assert told(tmp_path, uses, batches) == []
