"""The one door to formulas: works them out, and keeps what each figure was worked out of."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from typing import Any, ParamSpec

from builder.formulas.declaring import ENDS, FORMULAS, Formula
from builder.model.figure import Count, Figure, Found, Named, Traced, Worked

Given = ParamSpec("Given")

# What nobody said the origin of. A test lets no kit hold one.
UNTRACED = "not traced"
# How a public kit tells a number that somebody of the party wrote, whose place stays at home.
TOLD_BY_PARTY = "told by the party"


def work(formula: Callable[Given, float], *args: Given.args, **named: Given.kwargs) -> Figure:
    """Work a declared formula out."""
    declared = FORMULAS[formula]
    inputs = {**declared.defaults, **dict(zip(declared.parameters, args, strict=False)), **named}
    plain = {name: _plain(given) for name, given in inputs.items()}
    return Figure(declared.function(**plain), _worked(declared, inputs))


def count(formula: Callable[Given, float], *args: Given.args, **named: Given.kwargs) -> Count:
    """Work out a declared formula that counts whole things."""
    figure = work(formula, *args, **named)
    return Count(int(float(figure)), figure.origin)


def work_range(
    formula: Callable[Given, tuple[float, ...]], *args: Given.args, **named: Given.kwargs
) -> tuple[Figure, ...]:
    """Work out the ends of a range, the least first."""
    return tuple(work(end, *args, **named) for end in ENDS[formula])


def look_up(table: Callable[Given, float], *args: Given.args, **named: Given.kwargs) -> Figure:
    """Give a row of a table that a function of the formulas knows, with the source it cites."""
    words = ", ".join(str(each) for each in (*args, *named.values()))
    return Figure(table(*args, **named), Named(f"{table.__name__} ({words})", _cited(table)))


def solve(
    method: str, function: Callable[Given, float], *args: Given.args, **named: Given.kwargs
) -> Figure:
    """Give what a search, a fit or a library found, which no printed formula gives."""
    plain = [_plain(each) for each in args]
    value = function(*plain, **{name: _plain(each) for name, each in named.items()})
    return Figure(value, Found(function.__name__, method, (_cited(function),)))


@cache
def _cited(table: Callable[..., Any]) -> str:
    """Give the first source that a function's docstring cites."""
    cited = re.search(r"^\s*\.\. \[([a-z0-9-]+)\]", table.__doc__ or "", re.M)
    assert cited, f"{table.__name__} cites no source"
    return cited[1]


def traced(value: float, name: str = "") -> Traced:
    """Give a number as a figure; what nobody said the origin of is told as such."""
    if isinstance(value, (Figure, Count)):
        return value
    return Figure(float(value), Found(name, UNTRACED))


def _plain(given: Any) -> Any:
    """Give plain floats: what happens inside a formula is told by its expression."""
    if isinstance(given, Figure):
        return float(given)
    if isinstance(given, Mapping):
        return {key: _plain(each) for key, each in given.items()}
    return tuple(map(_plain, given)) if isinstance(given, (tuple, list)) else given


def _worked(declared: Formula, inputs: Mapping[str, Any]) -> Worked:
    fixed = _fixed(declared)
    shown: list[tuple[str, Traced | tuple[Traced, ...]]] = []
    for name in declared.names:
        if name in fixed:
            shown.append((name, fixed[name]))
        elif name in declared.tables:
            table = declared.tables[name]
            words = ", ".join(str(inputs[by]) for by in table.by)
            picked = table.pick(*(inputs[by] for by in table.by))
            shown.append((name, Figure(picked, Named(f"{name} ({words})", table.source))))
        elif isinstance(inputs[name], Sequence):
            shown.append((name, tuple(traced(each, name) for each in inputs[name])))
        else:
            shown.append((name, traced(inputs[name], name)))
    return Worked(declared.function, tuple(shown))


@cache
def _fixed(formula: Formula) -> dict[str, Figure]:
    """Give a formula's constants as leaves, once."""
    return {
        name: Figure(each.value, Named(name, each.source))
        for name, each in formula.constants.items()
    }
