"""The shared table of amounts, heights and times as text is what the Python gives now."""

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


def test_the_table_is_what_python_gives(made: Any, table: Any) -> None:
    new, old = made["texts"], table["texts"]
    assert len(new) == len(old)
    odd = [pair for pair in zip(new, old, strict=True) if not same(*pair)]
    assert odd == [], "run python -m tests.vectors.make_scaling and read the difference"


@pytest.mark.parametrize("language", ["de", "nb"])
def test_the_table_is_what_python_says_in_other_languages(
    made: Any, table: Any, language: str
) -> None:
    assert made[f"texts {language}"] == table[f"texts {language}"]
