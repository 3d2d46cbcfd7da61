"""The shared table of amounts, heights and meals is what the Python gives now."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tests.vectors.make_scaling import TABLE, make
from tests.vectors.same import same


@pytest.fixture(scope="module")
def made() -> Any:
    return json.loads(json.dumps(make()))


@pytest.fixture(scope="module")
def table() -> Any:
    return json.loads(TABLE.read_text(encoding="utf-8"))


@pytest.mark.parametrize("part", ["texts", "heights", "meals"])
def test_the_table_is_what_python_gives(made: Any, table: Any, part: str) -> None:
    assert len(made[part]) == len(table[part])
    odd = [
        (new, old) for new, old in zip(made[part], table[part], strict=True) if not same(new, old)
    ]
    assert odd == [], "run python -m tests.vectors.make_scaling and read the difference"


@pytest.mark.parametrize("language", ["de", "nb"])
def test_the_table_is_what_python_says_in_other_languages(
    made: Any, table: Any, language: str
) -> None:
    assert made[f"texts {language}"] == table[f"texts {language}"]


def test_the_table_holds_every_kind_of_cooking(table: Any) -> None:
    data = [meal["data"] for meal in table["meals"]]
    cases = [case for meal in table["meals"] for case in meal["cases"]]
    assert any(one["mug"] for one in data)
    assert any(one["snow_c"] is not None for one in data)
    assert any(one["presses"] for one in data)
    assert any(one["fire"] and one["most_ml"] > 1000 for one in data)
    assert any(one["kj_min"] is None or not one["boils"] for one in data)
    assert any(by_height for one in data for _, by_height, _ in one["steps"])
    assert any(case["potfuls"] > 2 for case in cases)
    assert any(count > 2 for case in cases for count in case["presses"])


def test_a_meal_as_planned_is_the_planned_meal(table: Any) -> None:
    for meal in table["meals"]:
        first = meal["cases"][0]
        assert first["eaters"] == meal["planned"] == len(meal["data"]["eaters"])
        assert first["altitude_m"] == meal["data"]["altitude_m"]
