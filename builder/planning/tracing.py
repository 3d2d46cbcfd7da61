"""The one door to formulas: works them out, and keeps what each figure was worked out of."""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from typing import Any, ParamSpec, TypeAlias

from builder.formulas.declaring import ENDS, FORMULAS, FromTable
from builder.model.figure import TRACING, Count, Figure, Found, Named, Traced, Worked
from builder.record import dataclass

Given = ParamSpec("Given")
_Input: TypeAlias = "tuple[str, Traced | tuple[Traced, ...]]"

# What nobody said the origin of. A test lets no kit hold one.
UNTRACED = "not traced"
# How a public kit tells a number that somebody of the party wrote, whose place stays at home.
TOLD_BY_PARTY = "told by the party"


def work(formula: Callable[Given, float], *args: Given.args, **named: Given.kwargs) -> Figure:
    """Work a declared formula out."""
    if not TRACING.on:
        bare = {name: _plain(each) for name, each in named.items()}
        return FORMULAS[formula].function(*map(_plain, args), **bare)  # type: ignore[return-value]
    call = _call_of(formula)
    given: Sequence[Any] = args
    if named or len(args) < len(call.names):
        inputs = {**call.defaults, **dict(zip(call.names, args, strict=False)), **named}
        given = [inputs[name] for name in call.names]
    plain = [float(each) if type(each) is Figure else _plain(each) for each in given]
    if call.by_name:
        value = call.function(
            *plain[: -len(call.by_name)],
            **dict(zip(call.by_name, plain[-len(call.by_name) :], strict=True)),
        )
    else:
        value = call.function(*plain)
    return Figure(value, Worked(call.function, call.inputs(given)))


def count(formula: Callable[Given, float], *args: Given.args, **named: Given.kwargs) -> Count:
    """Work out a declared formula that counts whole things."""
    figure = work(formula, *args, **named)
    return Count(int(float(figure)), figure.origin) if TRACING.on else int(figure)  # type: ignore


def work_range(
    formula: Callable[Given, tuple[float, ...]], *args: Given.args, **named: Given.kwargs
) -> tuple[Figure, ...]:
    """Work out the ends of a range, the least first."""
    return tuple(work(end, *args, **named) for end in ENDS[formula])


def look_up(table: Callable[Given, float], *args: Given.args, **named: Given.kwargs) -> Figure:
    """Give a row of a table that a function of the formulas knows, with the source it cites."""
    if not TRACING.on:
        return float(table(*args, **named))  # type: ignore[return-value]
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
    kind = type(given)
    if kind is float or kind is str:
        return given
    if kind is Figure:
        return float(given)
    if isinstance(given, Mapping):
        return {key: _plain(each) for key, each in given.items()}
    return tuple(map(_plain, given)) if isinstance(given, (tuple, list)) else given


@dataclass(frozen=True, slots=True)
class _Call:
    """How a formula is called and told, looked up once: a plan works out thousands."""

    function: Callable[..., float]
    names: tuple[str, ...]
    by_name: tuple[str, ...]  # the last of them, where the function takes them by name alone
    defaults: Mapping[str, Any]
    # What the names of the expression stand for: a place among the arguments, a table, a constant.
    told: tuple[tuple[str, int | _Table | Figure], ...]

    def inputs(self, given: Sequence[Any]) -> tuple[_Input, ...]:
        """Give what each name of the expression stood for."""
        shown: list[_Input] = []
        for one in self.told:
            name, stands_for = one
            if type(stands_for) is int:
                each = given[stands_for]
                if type(each) is Figure:
                    shown.append((name, each))
                elif isinstance(each, Sequence):
                    shown.append((name, tuple(traced(part, name) for part in each)))
                else:
                    shown.append((name, traced(each, name)))
            elif isinstance(stands_for, _Table):
                shown.append((name, stands_for.row(name, given)))
            else:
                shown.append(one)  # type: ignore[arg-type]
        return tuple(shown)


@dataclass(frozen=True, slots=True)
class _Table:
    """A table of which arguments choose a row, by their places."""

    table: FromTable
    by: tuple[int, ...]

    def row(self, name: str, given: Sequence[Any]) -> Figure:
        """Give the row that was chosen."""
        by = [given[place] for place in self.by]
        words = ", ".join(str(each) for each in by)
        return Figure(self.table.pick(*by), Named(f"{name} ({words})", self.table.source))


@cache
def _call_of(formula: Callable[..., float]) -> _Call:
    declared = FORMULAS[formula]
    names = declared.parameters
    parameters = inspect.signature(formula).parameters
    told: list[tuple[str, int | _Table | Figure]] = []
    for name in declared.names:
        if constant := declared.constants.get(name):
            told.append((name, Figure(constant.value, Named(name, constant.source))))
        elif table := declared.tables.get(name):
            told.append((name, _Table(table, tuple(map(names.index, table.by)))))
        else:
            told.append((name, names.index(name)))
    by_name = tuple(
        each for each in names if parameters[each].kind is inspect.Parameter.KEYWORD_ONLY
    )
    return _Call(declared.function, names, by_name, declared.defaults, tuple(told))
