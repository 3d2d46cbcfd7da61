"""A number together with where it came from.

A figure behaves as the number it is. Arithmetic with figures gives figures, so what planning
reckons keeps its origin without anybody writing it down a second time.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from itertools import chain
from typing import Any, Literal, TypeAlias, TypeVar

from builder.model.place import Place
from builder.record import dataclass, replace


@dataclass(frozen=True, slots=True)
class Told:
    """Somebody wrote it in a file; the name is its key there, with the unit at the end."""

    place: Place
    name: str


@dataclass(frozen=True, slots=True)
class Named:
    """A default, a constant or a row of a table, with its source."""

    name: str
    source: str
    chosen_at: Place | None = None  # the word in a file that chose this row; None for no word


@dataclass(frozen=True, slots=True)
class Found:
    """A fit, a solver's answer, a date or a count of things, with its method."""

    name: str
    method: str
    sources: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Worked:
    """A declared formula gave it, out of other figures."""

    formula: Callable[..., Any]
    inputs: tuple[tuple[str, Traced | tuple[Traced, ...]], ...]


@dataclass(frozen=True, slots=True)
class Reckoned:
    """Plain arithmetic gave it: a sign or a function of the small language, and its operands."""

    do: str
    parts: tuple[float, ...]  # figures, or numbers that change a unit
    guards: tuple[Figure, ...] = ()  # each 1 where the choice that led here holds
    whose: tuple[str, ...] = ()  # of a sum over people: whose each part is


Origin: TypeAlias = "Told | Named | Found | Worked | Reckoned"


class _Tracing:
    """Whether numbers keep their origins."""

    __slots__ = ("on",)

    def __init__(self) -> None:
        """Begin as a kit needs it."""
        self.on = True


TRACING = _Tracing()


@contextmanager
def untraced() -> Iterator[None]:
    """Reckon with bare numbers, which is several times as fast, where no origin is ever told.

    All that gives a figure gives the number alone, the same number by the same arithmetic. Records
    that others may ask for later are made `with_origins` all the same.
    """
    with _traced(False):
        yield


@contextmanager
def _traced(on: bool) -> Iterator[None]:
    before, TRACING.on = TRACING.on, on
    try:
        yield
    finally:
        TRACING.on = before


@contextmanager
def with_origins() -> Iterator[None]:
    """Keep origins of what outlives a plan, also where the plan itself goes without."""
    with _traced(True):
        yield


_new_float = float.__new__


class Figure(float):
    """A number that knows its origin."""

    __slots__ = ("origin",)
    origin: Origin

    def __new__(cls, value: float, origin: Origin) -> Figure:
        """Bind a number to its origin, where origins are kept."""
        if not TRACING.on:
            return float(value)  # type: ignore[return-value]
        figure = float.__new__(cls, value)
        figure.origin = origin
        return figure

    def __reduce__(self) -> tuple[Any, ...]:
        """Keep the origin when a worker gets it."""
        return (Figure, (float(self), self.origin))

    def __deepcopy__(self, memo: object) -> Figure:
        """Stay the same figure: nothing in it changes."""
        return self

    def __add__(self, other: float) -> Figure:
        """Add."""
        return _reckoned(float.__add__(self, other), "+", (self, other))

    def __radd__(self, other: float) -> Figure:
        """Add to a number; `sum` begins with nothing."""
        if not other and not isinstance(other, (Figure, Count)):
            return self
        return _reckoned(float.__radd__(self, other), "+", (other, self))

    def __sub__(self, other: float) -> Figure:
        """Subtract."""
        return _reckoned(float.__sub__(self, other), "-", (self, other))

    def __rsub__(self, other: float) -> Figure:
        """Subtract from a number."""
        return _reckoned(float.__rsub__(self, other), "-", (other, self))

    def __mul__(self, other: float) -> Figure:
        """Multiply."""
        return _reckoned(float.__mul__(self, other), "*", (self, other))

    def __rmul__(self, other: float) -> Figure:
        """Multiply a number."""
        return _reckoned(float.__rmul__(self, other), "*", (other, self))

    def __truediv__(self, other: float) -> Figure:
        """Divide."""
        return _reckoned(float.__truediv__(self, other), "/", (self, other))

    def __rtruediv__(self, other: float) -> Figure:
        """Divide a number."""
        return _reckoned(float.__rtruediv__(self, other), "/", (other, self))


# `float(a) * b` would ask a figure b first, and make a second figure only to drop it.
def _reckoned(value: float, do: str, parts: tuple[float, ...]) -> Figure:
    """Give what plain arithmetic gave, without the ways round that `Figure` takes."""
    if not TRACING.on:
        return value  # type: ignore[return-value]
    figure = _new_float(Figure, value)
    figure.origin = Reckoned(do, parts)
    return figure


class Count(int):
    """A whole number that knows its origin: potfuls, packs, presses."""

    origin: Origin

    def __new__(cls, value: int, origin: Origin) -> Count:
        """Bind a whole number to its origin, where origins are kept."""
        if not TRACING.on:
            return int(value)  # type: ignore[return-value]
        count = super().__new__(cls, value)
        count.origin = origin
        return count

    def __reduce__(self) -> tuple[Any, ...]:
        """Keep the origin when a worker gets it."""
        return (Count, (int(self), self.origin))

    def __deepcopy__(self, memo: object) -> Count:
        """Stay the same count: nothing in it changes."""
        return self

    def __add__(self, other: int) -> Count:
        """Add a whole number."""
        return Count(int(self) + int(other), Reckoned("+", (self, other)))

    def __radd__(self, other: int) -> Count:
        """Add to a whole number; `sum` begins with nothing."""
        return self if not other else Count(int(other) + int(self), Reckoned("+", (other, self)))

    def __sub__(self, other: int) -> Count:
        """Subtract a whole number."""
        return Count(int(self) - int(other), Reckoned("-", (self, other)))


Traced: TypeAlias = "Figure | Count"
Number = TypeVar("Number", Figure, Count)
_COMPARES = {"<": operator.lt, "<=": operator.le}


def add(parts: Iterable[float]) -> Figure:
    """Add figures up; what there is nothing of is left out, and a sum of none is nothing."""
    if not TRACING.on:
        return sum(map(float, parts), 0.0)  # type: ignore[return-value]
    each = tuple(part for part in parts if part or _was_worked(part))
    if not each:
        return nothing("parts")
    return Figure(sum(float(part) for part in each), Reckoned("sum", each))


def add_over(people: Iterable[tuple[str, float]]) -> Figure:
    """Add up what each of some people has, and keep whose each part is."""
    each = tuple((name, part) for name, part in people if part or _was_worked(part))
    total = add(part for _, part in each)
    if not each or not TRACING.on or not isinstance(total.origin, Reckoned):
        return total
    return Figure(total, replace(total.origin, whose=tuple(name for name, _ in each)))


def _was_worked(zero: float) -> bool:
    """Tell whether a zero came out of figures, so that it might be more another time."""
    return isinstance(zero, (Figure, Count)) and isinstance(zero.origin, (Worked, Reckoned))


def added(parts: Iterable[float]) -> float:
    """Add up what is mostly one figure, which stays as it is."""
    first, *others = tuple(parts) or (0.0,)
    return add((first, *others)) if others else first


def add_counts(parts: Iterable[int]) -> Count:
    """Add whole things up: packs over meals."""
    each = tuple(parts)
    return Count(sum(map(int, each)), Reckoned("sum", each)) if each else none("parts")


def largest(*parts: float) -> Figure:
    """Give the largest of some figures."""
    return _reckoned(float(max(parts)), "max", parts)


def smallest(*parts: float) -> Figure:
    """Give the smallest of some figures."""
    return _reckoned(float(min(parts)), "min", parts)


def fewest(*parts: int) -> Count:
    """Give the smallest of some whole numbers."""
    return Count(min(parts), Reckoned("min", parts))


def named(value: float, name: str, source: str) -> Figure:
    """Say which default, constant or row of a table a number is, and its source."""
    return Figure(value, Named(name, source)) if TRACING.on else float(value)  # type: ignore[return-value]


def found(value: float, name: str, method: str, *sources: str) -> Figure:
    """Say by which method a number was found that no printed formula gives."""
    if not TRACING.on:
        return float(value)  # type: ignore[return-value]
    return Figure(value, Found(name, method, sources))


def nothing(name: str, why: str = "nothing of it here") -> Figure:
    """Give the zero of what there is none of, the one way to tell a zero that nothing gave."""
    return Figure(0.0, Found(name, why)) if TRACING.on else 0.0  # type: ignore[return-value]


def none(name: str, why: str = "nothing of it here") -> Count:
    """Give the zero of whole things of which there are none."""
    return Count(0, Found(name, why)) if TRACING.on else 0  # type: ignore[return-value]


def behind(origin: Origin) -> tuple[float, ...]:
    """Give what a number was made of, its guards last; nothing where it came from outside."""
    if isinstance(origin, Worked):
        given = (each if isinstance(each, tuple) else (each,) for _, each in origin.inputs)
        return tuple(chain.from_iterable(given))
    if isinstance(origin, Reckoned):
        return (*origin.parts, *origin.guards)
    return ()


def holds(left: float, sign: Literal["<", "<="], right: float) -> Figure:
    """Give 1 where a comparison holds, else 0."""
    return Figure(float(_COMPARES[sign](left, right)), Reckoned(sign, (left, right)))


def guarded(figure: Number, *guards: Figure) -> Number:
    """Put guards beside a figure: each is 1 where the choice that led to it holds."""
    if not guards or not TRACING.on:
        return figure
    origin = Reckoned("", (figure,), guards)
    return type(figure)(figure, origin)


def counted(number: int, name: str) -> Count:
    """Say what a whole number counts: eaters, carriers, packs."""
    if not TRACING.on:
        return number  # type: ignore[return-value]
    return Count(number, Found(name, "counted"))


def whole(figure: float) -> int:
    """Give a figure that counts as the whole number that it is."""
    return Count(int(figure), figure.origin) if isinstance(figure, Figure) else int(figure)
