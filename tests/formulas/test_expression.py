"""The small language: how it reads, what it gives, what it refuses."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.expression import ExpressionError, Value, evaluate, names_in, parse

A: dict[str, Value] = {"a": 2.0, "b": 3.0, "xs": (1.0, 2.0, 4.0), "ys": (10.0, 20.0, 40.0)}


@pytest.mark.parametrize(
    ("expression", "is_so"),
    [
        ("1 + 2 * 3", 7.0),
        ("(1 + 2) * 3", 9.0),
        ("2 - 3 - 4", -5.0),
        ("12 / 3 / 2", 2.0),
        ("2 ^ 3 ^ 2", 512.0),
        ("-2 ^ 2", -4.0),
        ("2 * -3", -6.0),
        ("2 ^ -1", 0.5),
        (".5 + 1e3 + 2.5e-1", 1000.75),
        ("a * b + a", 8.0),
        ("min(a, b, 1)", 1.0),
        ("max(a, b)", 3.0),
        ("ceil(a / b) + floor(b / a)", 2.0),
        ("exp(ln(a)) + log10(1000) + sqrt(9) + abs(-1)", 9.0),
        ("sin(atan(1)) ^ 2", 0.5),
        ("if(a < b, 10, 20)", 10.0),
        ("if(a >= b, 10, 20)", 20.0),
        ("if(a = 2, 10, 20)", 10.0),
        ("if(a < b, 1, 1 / 0)", 1.0),
        ("sum(xs)", 7.0),
        ("min(xs) + max(xs)", 5.0),
        ("sum(xs * ys) / sum(ys)", 3.0),
        ("sum(if(xs > 1, ys, 0))", 60.0),
        ("sum(min(xs, 2))", 5.0),
        ("sum(a)", 2.0),
    ],
)
def test_an_expression_comes_to(expression: str, is_so: float) -> None:
    worth = evaluate(expression, A)
    assert isinstance(worth, float)
    assert math.isclose(worth, is_so, rel_tol=1e-12)


def test_lists_go_element_by_element() -> None:
    assert evaluate("xs * 2 + ys", A) == (12.0, 24.0, 48.0)


@pytest.mark.parametrize(
    "expression",
    [
        "",
        "1 +",
        "1 2",
        "(1",
        "1)",
        "f(1)",
        "a.b",
        "__import__",
        "'x'",
        "1 ** 2",
        "if(1 < 2, 3",
        "A",
    ],
)
def test_what_is_not_of_the_language_is_refused(expression: str) -> None:
    with pytest.raises(ExpressionError):
        parse(expression)


@pytest.mark.parametrize(
    "expression", ["c", "1 / 0", "ln(0)", "sqrt(0 - 1)", "xs + zs", "if(1, 2)", "exp(1, 2)"]
)
def test_what_has_no_value_is_refused(expression: str) -> None:
    with pytest.raises(ExpressionError):
        evaluate(expression, {**A, "zs": (1.0, 2.0)})


def test_names_are_told_once_in_their_order() -> None:
    assert names_in("b + a * b / min(c, 2)") == ("b", "a", "c")


@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6), st.floats(1e-3, 1e6))
def test_arithmetic_is_that_of_floats(a: float, b: float, c: float) -> None:
    assert evaluate("a - b * c / (c + 1)", {"a": a, "b": b, "c": c}) == a - b * c / (c + 1)
