"""Writes expressions.json: what builder.formulas.expression gives, for the evaluator in the page.

Run it from the root of the project with `python -m tests.vectors.make_expressions` after a change
that is meant to alter it, and read the difference.
"""

from __future__ import annotations

import inspect
import json
import math
import random
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from builder.formulas.declaring import Formula
from builder.formulas.expression import ExpressionError, evaluate
from tests.formulas.test_declaring import (
    DECLARED,
    KINDS,
    LIMITS,
    WORDS,
    choices,
    limits,
    told_as,
    values_of,
)
from tests.formulas.test_documented_ranges import EXAMPLES, blocks

TABLE = Path(__file__).with_name("expressions.json")
OF_EACH_FORMULA = 4
TRIES = 4000

GIVEN: dict[str, Any] = {"a": 2.0, "b": 3.0, "xs": [1.0, 2.0, 4.0], "ys": [10.0, 20.0, 40.0]}
LANGUAGE = (
    "7", ".5", "2.", "1e3", "2.5E-1", "1 + 2 * 3", "(1 + 2) * 3", "2 - 3 - 4", "12 / 3 / 2",
    "2 ^ 3 ^ 2", "(2 ^ 3) ^ 2", "-2 ^ 2", "2 ^ -1", "2 * -3", "- -a", "-a + b", "-a * b", "a-b",
    "  a*b +a ", "min(a, b, 1)", "max(a, b)", "min(a)", "max(xs)", "min(xs)", "sum(xs)", "sum(a)",
    "sum(a, b)", "sum(xs, ys)", "min(xs, 2)", "max(xs, ys, 3)", "ceil(a / b)", "ceil(0 - a / b)",
    "floor(b / a)", "floor(0 - b / a)", "exp(1)", "ln(b)", "log10(1000)", "sqrt(b)", "abs(0 - b)",
    "abs(b)", "sin(b)", "atan(b)", "a < b", "b < a", "a <= 2", "a > b", "b >= 3", "a = 2", "a = b",
    "1 < 2 < 3", "a + 1 < b * 2", "if(a < b, 10, 20)", "if(a >= b, 10, 20)", "if(a = 2, 10, 20)",
    "if(a < b, 1, 1 / 0)", "if(0, 1, 2)", "if(xs > 1, ys, 0)", "sum(if(xs > 1, ys, 0))",
    "xs * 2 + ys", "-xs", "xs ^ 2", "2 ^ xs", "sqrt(xs)", "xs < 3", "sum(xs * ys) / sum(ys)",
    "sum(big)", "sum(none)", "none * 2", "0 ^ 0", "(0 - 8) ^ 3", "a1_b + 1",
)  # fmt: skip
ERRORS = (
    "", " ", "1 +", "1 2", "2a", "(1", "1)", "()", "f(1)", "f", "a.b", "a!", "__import__", "'x'",
    "1 ** 2", "if(1 < 2, 3", "if(1, 2)", "if(1, 2, 3, 4)", "A", "min()", "exp(1, 2)", "ln()", "c",
    "sum", "if", "constructor", "toString(1)", "1,2", "*1", "1 + * 2", "a = = b", "1 / 0",
    "a / (b - 3)",
    "xs / 0", "ln(0)", "ln(0 - 1)", "log10(0)", "sqrt(0 - 1)", "0 ^ -1", "(0 - 8) ^ .5",
    "exp(1000)",
    "10 ^ 400", "xs + zs", "min(none)", "max(none)", "if(xs < 2, ys, zs)", "ceil(1e400)",
    "sin(1e400)",
)  # fmt: skip
MORE = {"zs": [1.0, 2.0], "big": [1e16, 1.0, -1e16], "none": [], "a1_b": 5.0}


def make() -> dict[str, Any]:
    """Give the whole table: for each expression the values of its names, and what it comes to."""
    given = {**GIVEN, **MORE}
    return {
        "given": given,
        "language": [[expression, _worth(expression, given)] for expression in LANGUAGE],
        "errors": [[expression, _worth(expression, given)] for expression in ERRORS],
        "formulas": [
            {"id": each.id, "expression": each.expression, "cases": list(_cases(each))}
            for each in DECLARED
        ],
    }


def _worth(expression: str, given: Mapping[str, Any]) -> Any:
    """Give a number or a list; None for what is refused."""
    values = {name: tuple(v) if isinstance(v, list) else v for name, v in given.items()}
    try:
        return evaluate(expression, values)
    except ExpressionError:
        return None


def _cases(formula: Formula) -> Iterator[list[Any]]:
    """Give values over the documented ranges, which the formula takes, the same in every run."""
    chance = random.Random(formula.id)
    found = 0
    for _ in range(TRIES):
        call = dict(_call(formula, chance))
        try:
            formula.function(**call)
        except ValueError:
            continue
        given = values_of(formula, call)
        # No JSON tells what has no end.
        if not all(math.isfinite(each) for each in given.values() if isinstance(each, float)):
            continue
        yield [given, _worth(formula.expression, given)]
        found += 1
        if found == OF_EACH_FORMULA:
            return


def _call(formula: Formula, chance: random.Random) -> Iterator[tuple[str, Any]]:
    texts = dict(blocks(inspect.getdoc(formula.function) or "", KINDS))
    for name, parameter in inspect.signature(formula.function).parameters.items():
        kind = str(parameter.annotation)
        if kind == "Sequence[float]":
            ends = limits(texts.get(name, ""))
            yield name, [_number(chance, *ends) for _ in range(3)]
        elif kind in ("float", "int") and name not in WORDS:
            yield (
                name,
                _number(chance, *(LIMITS.get((formula.id, name)) or limits(texts.get(name, "")))),
            )
        else:
            example = EXAMPLES.get(told_as(formula), {}).get(name, parameter.default)
            yield name, chance.choice(choices(formula, name, example))


def _number(chance: random.Random, least: float, most: float) -> float:
    """Give a number of few digits: an end of the range, near the lower one, or anywhere."""
    where = chance.random()
    width = (most - least) * (1.0 if where > 0.5 else 10 ** -chance.uniform(1, 4))
    number = float(f"{least + width * chance.random():.7g}")
    return min(max(number, least), most)


def main() -> None:
    """Write the table, a line for each entry."""
    made = make()
    parts = [f'"given": {json.dumps(made.pop("given"))}']
    for name, entries in made.items():
        listed = ",\n".join(json.dumps(entry) for entry in entries)
        parts.append(f"{json.dumps(name)}: [\n{listed}\n]")
    TABLE.write_text("{\n" + ",\n".join(parts) + "\n}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
