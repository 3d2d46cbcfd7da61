"""The table that the page's evaluator is held to is what the Python's gives now."""

from __future__ import annotations

import json
from typing import Any

import pytest

from builder.formulas.expression import FUNCTIONS
from tests.formulas.test_declaring import DECLARED
from tests.vectors.make_expressions import OF_EACH_FORMULA, TABLE, make
from tests.vectors.same import same


@pytest.fixture(scope="module")
def made() -> Any:
    return json.loads(json.dumps(make()))


@pytest.fixture(scope="module")
def table() -> Any:
    return json.loads(TABLE.read_text(encoding="utf-8"))


@pytest.mark.parametrize("part", ["given", "language", "errors"])
def test_the_table_is_what_python_gives(made: Any, table: Any, part: str) -> None:
    assert same(made[part], table[part]), "run python -m tests.vectors.make_expressions"


def test_the_table_holds_every_declared_formula_as_it_is(made: Any, table: Any) -> None:
    odd = [new["id"] for new in made["formulas"] if new not in table["formulas"]]
    close = {each["id"]: each for each in table["formulas"]}
    odd = [name for name in odd if not same(_of(made, name), close.get(name))]
    assert odd == [], "run python -m tests.vectors.make_expressions and read the difference"
    assert list(close) == [each.id for each in DECLARED]
    assert [each["id"] for each in table["formulas"] if len(each["cases"]) < OF_EACH_FORMULA] == []


def _of(made: Any, name: str) -> Any:
    return next(each for each in made["formulas"] if each["id"] == name)


def test_the_table_holds_every_construct_and_tells_errors_apart(table: Any) -> None:
    told = " ".join(expression for expression, _ in table["language"])
    assert [each for each in FUNCTIONS if f"{each}(" not in told] == []
    assert [each for each in "+-*/^<>=" if each not in told] == []
    assert "<=" in told and ">=" in told
    assert all(worth is not None for _, worth in table["language"])
    assert all(worth is None for _, worth in table["errors"])
