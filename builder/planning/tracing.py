"""The one door to formulas: it works them out and keeps where each figure came from."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache
from typing import Any, ParamSpec

from builder.formulas.declaring import FORMULAS, Formula
from builder.formulas.totals import as_chosen, total
from builder.model.figure import Count, Figure, Found, Named, Origin, Told, Worked
from builder.model.place import Place

Given = ParamSpec("Given")

# What code reckoned without saying how. A test lets no kit hold one.
UNTRACED = "not traced"


def work(formula: Callable[Given, float], *args: Given.args, **inputs: Given.kwargs) -> Figure:
    """Work a declared formula out; its inputs are given by name."""
    return Figure(formula(*args, **inputs), _worked(formula, inputs))


def count(formula: Callable[Given, float], *args: Given.args, **inputs: Given.kwargs) -> Count:
    """Work out a declared formula that counts whole things; its inputs are given by name."""
    return Count(int(formula(*args, **inputs)), _worked(formula, inputs))


def add(parts: Iterable[float]) -> Figure:
    """Add figures up."""
    return work(total, parts=tuple(parts))


def told(value: float, place: Place) -> Figure:
    """Say that a number was written in a file."""
    return value if isinstance(value, Figure) else Figure(value, Told(place))


def named(value: float, name: str, source: str) -> Figure:
    """Say which default, constant or row of a table a number is, and its source."""
    return Figure(value, Named(name, source))


def found(value: float, method: str, *sources: str) -> Figure:
    """Say by which method a number was found that no printed formula gives."""
    return Figure(value, Found(method, sources))


def guarded(figure: float, *guards: Figure) -> Figure:
    """Put guards beside a figure: each is 1 where the choice that led to it holds."""
    inputs = (("value", figure_of(figure)),)
    return Figure(float(figure), Worked(as_chosen, inputs, guards))


def figure_of(value: float) -> Figure | Count:
    """Give a number as a figure; what nobody said the origin of is told as such."""
    if isinstance(value, (Figure, Count)):
        return value
    return Figure(float(value), Found(UNTRACED))


def _worked(formula: Callable[..., Any], inputs: Mapping[str, Any]) -> Origin:
    declared = FORMULAS[formula]
    fixed = _fixed(declared)
    shown: list[tuple[str, Figure | Count | tuple[Figure | Count, ...]]] = []
    for name in declared.names:
        if name in fixed:
            shown.append((name, fixed[name]))
        elif name in declared.tables:
            table = declared.tables[name]
            picked = table.pick(*(inputs[by] for by in table.by))
            words = ", ".join(str(inputs[by]) for by in table.by)
            shown.append((name, Figure(picked, Named(f"{name}: {words}", table.source))))
        else:
            given = inputs[name]
            listed = isinstance(given, Sequence)
            shown.append(
                (name, tuple(figure_of(each) for each in given) if listed else figure_of(given))
            )
    return Worked(formula, tuple(shown))


@cache
def _fixed(formula: Formula) -> dict[str, Figure]:
    """Give a formula's constants as leaves, once."""
    return {
        name: Figure(each.value, Named(name, each.source))
        for name, each in formula.constants.items()
    }
