"""Works out every figure of a kit.json from its leaves, written from kit.schema.json alone.

It shares no line with the project's own evaluator: expressions become Python's syntax tree.
"""

from __future__ import annotations

import ast
import json
import math
import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

CLOSE = 1e-9


def read(path: Path) -> dict[str, Any]:
    """Give the data of a kit."""
    data: dict[str, Any] = json.loads(path.read_text("utf-8"))
    return told_out(data)


def told_out(data: dict[str, Any]) -> dict[str, Any]:
    """Tell out the figures that are told once for many, so that all stand by their ids."""
    for many in data.pop("alike"):
        rows = list(zip(*map(numbers, many["for"]), strict=True))
        for place, row in enumerate(rows):
            at = {str(number): str(each) for number, each in enumerate(row, start=1)}
            figure = {key: _put(each, at) for key, each in many.items()}
            del figure["for"]
            name = figure.pop("id")
            if "values" in figure:
                figure["value"] = figure.pop("values")[place]
            elif not name.startswith("#"):
                figure["value"] = at_address(data, name)
            assert name not in data["figures"]
            data["figures"][name] = figure
    for figure in data["figures"].values():
        for given in figure.get("inputs", {}).values():
            if "figures" in given:
                given["figures"] = [name for each in given["figures"] for name in _names(each)]
    return data


def numbers(column: str) -> list[int]:
    """Give the numbers of a column told in runs."""
    told: list[int] = []
    for run in column.split(","):
        run, _, times = run.partition("*")
        run, _, often = run.partition("x")
        first, _, last = run.partition("-")
        up = range(int(first), int(last or first) + 1)
        told += [number for number in up for _ in range(int(often or 1))] * int(times or 1)
    return told


def _put(told: Any, at: Mapping[str, str]) -> Any:
    """Put numbers where their columns are named."""
    if isinstance(told, str):
        return re.sub(r"\$(\d+|[a-z])", lambda named: at.get(named[1], named[0]), told)
    if isinstance(told, list):
        return [_put(each, at) for each in told]
    if isinstance(told, dict):
        return {key: _put(each, at) for key, each in told.items()}
    return told


def _names(each: Any) -> list[str]:
    if isinstance(each, str):
        return [each]
    letters = "abcdefghijklmnopqrstuvwxyz"
    rows = zip(*map(numbers, each["for"]), strict=True)
    return [_put(each["id"], dict(zip(letters, map(str, row), strict=False))) for row in rows]


class Reader:
    """Works figures out, each once, going down to the leaves."""

    def __init__(self, data: Mapping[str, Any]) -> None:
        self.figures, self.formulas = data["figures"], data["formulas"]
        self.worth: dict[str, float] = {}
        self.lacking: list[str] = []
        self._trees: dict[str, ast.expr] = {}

    def differing(self) -> dict[str, tuple[float, float]]:
        """Give the figures that come out otherwise than they are told: what comes, what is told."""
        return {
            name: (self.value(name), figure["value"])
            for name, figure in self.figures.items()
            if "value" in figure
            and not math.isclose(self.value(name), figure["value"], rel_tol=CLOSE, abs_tol=1e-12)
        }

    def value(self, name: str) -> float:
        """Give what a figure comes to."""
        if name not in self.worth:
            self.worth[name] = self._value(self.figures[name])
        return self.worth[name]

    def _value(self, figure: Mapping[str, Any]) -> float:
        if "formula" not in figure:
            return float(figure["value"])
        names = {symbol: self._given(given) for symbol, given in figure["inputs"].items()}
        found = self._work(self._tree(figure["formula"]), names)
        assert isinstance(found, float)
        return found

    def _given(self, given: Mapping[str, Any]) -> Any:
        if "figure" in given:
            return self.value(given["figure"])
        if "figures" in given:
            return [self.value(each) for each in given["figures"]]
        return float(given["value"])

    def _tree(self, formula: str) -> ast.expr:
        if formula not in self._trees:
            text = self.formulas[formula]["expression"].replace("^", "**").replace("if(", "when(")
            for old, new in ((" = ", " == "),):
                text = text.replace(old, new)
            self._trees[formula] = ast.parse(text, mode="eval").body
        return self._trees[formula]

    def _work(self, tree: ast.expr, names: Mapping[str, Any]) -> Any:
        if isinstance(tree, ast.Constant):
            return float(tree.value)  # type: ignore[arg-type]
        if isinstance(tree, ast.Name):
            return names[tree.id]
        if isinstance(tree, ast.UnaryOp):
            return _each(lambda a: -a, self._work(tree.operand, names))
        if isinstance(tree, ast.BinOp):
            left, right = self._work(tree.left, names), self._work(tree.right, names)
            return _each(_BINARY[type(tree.op)], left, right)
        if isinstance(tree, ast.Compare):
            left, right = self._work(tree.left, names), self._work(tree.comparators[0], names)
            return _each(_COMPARE[type(tree.ops[0])], left, right)
        assert isinstance(tree, ast.Call) and isinstance(tree.func, ast.Name)
        if tree.func.id == "when":
            asked = self._work(tree.args[0], names)
            if isinstance(asked, list):
                then, other = (self._work(each, names) for each in tree.args[1:])
                return _each(lambda a, x, y: x if a else y, asked, then, other)
            return self._work(tree.args[1 if asked else 2], names)
        given = [self._work(each, names) for each in tree.args]
        if tree.func.id in _OVER:
            if len(given) == 1:
                return float(_OVER[tree.func.id](given[0] if isinstance(given[0], list) else given))
            return _each(lambda *each: _OVER[tree.func.id](each), *given)
        return _each(_ONE[tree.func.id], *given)


_BINARY: dict[type, Any] = {
    ast.Add: lambda a, b: a + b,
    ast.Sub: lambda a, b: a - b,
    ast.Mult: lambda a, b: a * b,
    ast.Div: lambda a, b: a / b,
    ast.Pow: lambda a, b: a**b,
}
_COMPARE: dict[type, Any] = {
    ast.Lt: lambda a, b: float(a < b),
    ast.LtE: lambda a, b: float(a <= b),
    ast.Gt: lambda a, b: float(a > b),
    ast.GtE: lambda a, b: float(a >= b),
    ast.Eq: lambda a, b: float(a == b),
}
_ONE: dict[str, Any] = {
    "ceil": lambda a: float(math.ceil(a)),
    "floor": lambda a: float(math.floor(a)),
    "exp": math.exp,
    "ln": math.log,
    "log10": math.log10,
    "sqrt": math.sqrt,
    "abs": abs,
    "sin": math.sin,
    "atan": math.atan,
}
_OVER: dict[str, Any] = {"sum": sum, "min": min, "max": max}


def _each(do: Any, *parts: Any) -> Any:
    lengths = {len(part) for part in parts if isinstance(part, list)}
    if not lengths:
        return do(*parts)
    (length,) = lengths
    return [
        do(*(part[place] if isinstance(part, list) else part for part in parts))
        for place in range(length)
    ]


def at_address(data: Any, address: str) -> Any:
    """Give what stands at an address of the data."""
    for part in address.split("."):
        data = data[int(part)] if isinstance(data, Sequence) else data[part]
    return data
