"""A number together with where it came from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeAlias

from builder.model.place import Place


@dataclass(frozen=True, slots=True)
class Told:
    """Somebody wrote it in a file."""

    place: Place


@dataclass(frozen=True, slots=True)
class Named:
    """A default, a constant or a row of a table, with its source."""

    name: str
    source: str


@dataclass(frozen=True, slots=True)
class Found:
    """A fit, a solver's answer, a date or a count of things, with its method."""

    method: str
    sources: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Worked:
    """A formula gave it, out of other figures."""

    formula: Callable[..., Any]
    inputs: tuple[tuple[str, Figure | Count | tuple[Figure | Count, ...]], ...]
    guards: tuple[Figure, ...] = ()  # each 1 where the choice that led here holds


Origin: TypeAlias = "Told | Named | Found | Worked"


class Figure(float):
    """A number that knows its origin, and else behaves as a number."""

    __slots__ = ("origin",)
    origin: Origin

    def __new__(cls, value: float, origin: Origin) -> Figure:
        """Bind a number to its origin."""
        figure = super().__new__(cls, value)
        figure.origin = origin
        return figure

    def __reduce__(self) -> tuple[Any, ...]:
        """Keep the origin when a worker gets it."""
        return (Figure, (float(self), self.origin))


class Count(int):
    """A whole number that knows its origin: potfuls, packs, presses."""

    origin: Origin

    def __new__(cls, value: int, origin: Origin) -> Count:
        """Bind a whole number to its origin."""
        count = super().__new__(cls, value)
        count.origin = origin
        return count

    def __reduce__(self) -> tuple[Any, ...]:
        """Keep the origin when a worker gets it."""
        return (Count, (int(self), self.origin))
