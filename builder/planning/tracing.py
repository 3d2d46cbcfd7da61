"""The one door to formulas: works them out, and keeps what each figure was worked out of."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cache
from typing import Any, ParamSpec

from builder.formulas.declaring import FORMULAS, Formula
from builder.model.figure import Count, Figure, Found, Named, Traced, Worked

Given = ParamSpec("Given")

# What nobody said the origin of. A test lets no kit hold one.
UNTRACED = "not traced"


def work(formula: Callable[Given, float], *args: Given.args, **inputs: Given.kwargs) -> Figure:
    """Work a declared formula out; its inputs are given by name."""
    return Figure(formula(*args, **inputs), _worked(formula, inputs))


def count(formula: Callable[Given, float], *args: Given.args, **inputs: Given.kwargs) -> Count:
    """Work out a declared formula that counts whole things; its inputs are given by name."""
    return Count(int(formula(*args, **inputs)), _worked(formula, inputs))


def traced(value: float, name: str = "") -> Traced:
    """Give a number as a figure; what nobody said the origin of is told as such."""
    if isinstance(value, (Figure, Count)):
        return value
    return Figure(float(value), Found(name, UNTRACED))


def _worked(formula: Callable[..., Any], inputs: Mapping[str, Any]) -> Worked:
    declared = FORMULAS[formula]
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
    return Worked(formula, tuple(shown))


@cache
def _fixed(formula: Formula) -> dict[str, Figure]:
    """Give a formula's constants as leaves, once."""
    return {
        name: Figure(each.value, Named(name, each.source))
        for name, each in formula.constants.items()
    }
