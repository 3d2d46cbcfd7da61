"""The small arithmetic language in which a formula is printed, and its evaluator.

`+ - * / ^`, `min max ceil floor exp ln log10 sqrt abs sin atan sum`, `if(a < b, x, y)`, names and
numbers. A name may stand for a list: arithmetic goes element by element, and `sum`, `min` and
`max` of one list run over it. `assets/kit/evaluate.js` reads the same language.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import TypeAlias

Value: TypeAlias = "float | tuple[float, ...]"
# A number, a name, or an operator or function with its operands.
Tree: TypeAlias = "tuple[str, float] | tuple[str, str] | tuple[str, str, tuple[Tree, ...]]"

_TOKEN = re.compile(
    r"\s*(?:(?P<number>\d+\.?\d*(?:[eE][+-]?\d+)?|\.\d+)|(?P<name>[a-z][a-z0-9_]*)"
    r"|(?P<sign><=|>=|[-+*/^(),<>=]))"
)
_BINDS = {"<": 1, "<=": 1, ">": 1, ">=": 1, "=": 1, "+": 2, "-": 2, "*": 3, "/": 3, "^": 5}
_MINUS_BINDS = 4
_COMPARES: dict[str, Callable[[float, float], bool]] = {
    "<": lambda a, b: a < b,
    "<=": lambda a, b: a <= b,
    ">": lambda a, b: a > b,
    ">=": lambda a, b: a >= b,
    "=": lambda a, b: a == b,
}
_OF_TWO: dict[str, Callable[[float, float], float]] = {
    "+": lambda a, b: a + b,
    "-": lambda a, b: a - b,
    "*": lambda a, b: a * b,
    "/": lambda a, b: a / b,
    "^": math.pow,
    **{sign: lambda a, b, holds=holds: float(holds(a, b)) for sign, holds in _COMPARES.items()},  # type: ignore[misc]
}
_OF_ONE: dict[str, Callable[[float], float]] = {
    "-": lambda a: -a,
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
_OVER_LISTS: dict[str, Callable[[Sequence[float]], float]] = {
    "sum": math.fsum,
    "min": min,
    "max": max,
}
FUNCTIONS = frozenset({*_OF_ONE, *_OVER_LISTS, "if"}) - {"-"}


class ExpressionError(ValueError):
    """An expression that cannot be read, or not be worked out with these values."""


def parse(expression: str) -> Tree:
    """Read an expression into a tree.

    Parameters
    ----------
    expression : str
        What is printed beside a figure.

    Returns
    -------
    tuple
        The tree: a number, a name, or a function with its operands. [-]

    Raises
    ------
    ExpressionError
        If it is not of the language.

    Notes
    -----
    Signs bind as usual: comparison, + and -, * and /, a minus before a term, and ^ from the right.
    """
    return _parsed(expression)


@lru_cache(maxsize=4096)
def _parsed(expression: str) -> Tree:
    reader = _Reader(expression)
    tree = reader.term(0)
    if reader.kind != "end":
        raise ExpressionError(f"{reader.text!r} is one too many in {expression!r}")
    return tree


class _Reader:
    """Goes through the words of an expression, one ahead."""

    def __init__(self, expression: str) -> None:
        self.expression, self.at = expression, 0
        self.kind, self.text = "", ""
        self.step()

    def step(self) -> None:
        rest = self.expression[self.at :]
        if not rest.strip():
            self.kind, self.text = "end", ""
            return
        found = _TOKEN.match(self.expression, self.at)
        if found is None:
            raise ExpressionError(f"{rest.strip()[0]!r} is no sign of the language")
        self.at = found.end()
        self.kind = found.lastgroup or ""
        self.text = found[self.kind]

    def expect(self, sign: str) -> None:
        if self.text != sign:
            raise ExpressionError(f"{sign!r} is missing in {self.expression!r}")
        self.step()

    def term(self, floor: int) -> Tree:
        left = self.first()
        while self.kind == "sign" and _BINDS.get(self.text, 0) > floor:
            sign = self.text
            self.step()
            # A power binds from the right: 2^3^2 is 2^9.
            right = self.term(_BINDS[sign] - 1 if sign == "^" else _BINDS[sign])
            left = ("do", sign, (left, right))
        return left

    def first(self) -> Tree:
        kind, text = self.kind, self.text
        self.step()
        if kind == "number":
            return ("number", float(text))
        if text == "-":
            return ("do", "-", (self.term(_MINUS_BINDS),))
        if text == "(":
            inner = self.term(0)
            self.expect(")")
            return inner
        if kind != "name":
            raise ExpressionError(f"a number or a name is missing in {self.expression!r}")
        if self.text != "(":
            return ("name", text)
        if text not in FUNCTIONS:
            raise ExpressionError(f"{text!r} is no function of the language")
        self.step()
        operands = [self.term(0)]
        while self.text == ",":
            self.step()
            operands.append(self.term(0))
        self.expect(")")
        return ("do", text, tuple(operands))


def names_in(expression: str) -> tuple[str, ...]:
    """Names that an expression needs values for, in the order they first stand there.

    Parameters
    ----------
    expression : str
        What is printed beside a figure.

    Returns
    -------
    tuple of str
        The names, each once. [-]

    Raises
    ------
    ExpressionError
        If it is not of the language.

    Notes
    -----
    Functions of the language are no names.
    """
    return tuple(dict.fromkeys(_names(_parsed(expression))))


def _names(tree: Tree) -> Iterator[str]:
    if tree[0] == "name":
        yield str(tree[1])
    elif len(tree) == 3:
        for each in tree[2]:
            yield from _names(each)


def evaluate(expression: str, values: Mapping[str, Value]) -> Value:
    """Value of an expression for given values of its names.

    Parameters
    ----------
    expression : str
        What is printed beside a figure.
    values : mapping of str to float or tuple of float
        A number or a list of numbers for each name.

    Returns
    -------
    float or tuple of float
        What it comes to. [unit of the figure]

    Raises
    ------
    ExpressionError
        If it is not of the language, a name has no value, lists differ in length, or the
        arithmetic has no answer.

    Notes
    -----
    `if` works out only the branch that it takes.
    """
    try:
        return _worth(_parsed(expression), values)
    except ExpressionError:
        raise
    except (ArithmeticError, ValueError) as error:
        raise ExpressionError(f"{expression!r} has no value here ({error})") from error


def _worth(tree: Tree, values: Mapping[str, Value]) -> Value:
    if len(tree) == 2:
        if tree[0] == "number":
            return float(tree[1])
        if tree[1] not in values:
            raise ExpressionError(f"{tree[1]!r} has no value")
        return values[str(tree[1])]
    _, do, operands = tree
    if do == "if":
        if len(operands) != 3:
            raise ExpressionError("if takes a comparison and two values")
        asked = _worth(operands[0], values)
        if isinstance(asked, tuple):
            return _each(lambda a, x, y: x if a else y, asked, *_all(operands[1:], values))
        return _worth(operands[1] if asked else operands[2], values)
    parts = _all(operands, values)
    if do in _OVER_LISTS:
        (first,) = parts if len(parts) == 1 else (None,)
        if first is not None:
            return _OVER_LISTS[do](first if isinstance(first, tuple) else (first,))
        return _each(lambda *each: _OVER_LISTS[do](each), *parts)
    if len(parts) == 2 and do in _OF_TWO:
        return _each(_OF_TWO[do], *parts)
    if len(parts) == 1 and do in _OF_ONE:
        return _each(_OF_ONE[do], *parts)
    raise ExpressionError(f"{do} does not take {len(parts)} values")


def _all(trees: Sequence[Tree], values: Mapping[str, Value]) -> list[Value]:
    return [_worth(each, values) for each in trees]


def _each(function: Callable[..., float], *parts: Value) -> Value:
    """Work element by element; a number beside a list goes with each of its elements."""
    lengths = {len(part) for part in parts if isinstance(part, tuple)}
    if not lengths:
        return function(*parts)
    if len(lengths) > 1:
        raise ExpressionError(f"lists of {sorted(lengths)} elements do not go together")
    (length,) = lengths
    rows = [part if isinstance(part, tuple) else (part,) * length for part in parts]
    return tuple(function(*row) for row in zip(*rows, strict=True))
