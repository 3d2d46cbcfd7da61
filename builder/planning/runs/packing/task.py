"""A household's drying in bare numbers: what is to be packed into runs, and a plan of it.

Times are hours since the first midnight, days are counted from the first one, 0; masses are
kilograms.
"""

from __future__ import annotations

from builder.record import dataclass

# What is dry may wait in the dryer for so long.
MOST_WAIT_H = 12.0


@dataclass(frozen=True, slots=True)
class Thing:
    """Something to dry; days are counted from the first one, 0."""

    fresh_kg: float
    water_share: float  # what the dryer takes out of each kilogram
    hours: tuple[float | None, ...]  # in each dryer; None where that does not dry it
    first_day: int
    last_day: int
    spare_day: int  # emptied later, there is no whole free day left


@dataclass(frozen=True, slots=True)
class Place:
    """A dryer, what it takes, and when it is taken already."""

    load_kg: float
    ice_kg: float | None = None
    from_h: float = 0.0  # before, nothing may start: what is freeze-dried is frozen first
    busy_h: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Free:
    """Free hours of one day; `extra` ones would have to be made free."""

    day: int
    from_h: float
    to_h: float
    extra: bool = False


@dataclass(frozen=True, slots=True)
class Task:
    """All that a plan has to mind."""

    things: tuple[Thing, ...]
    apart: frozenset[tuple[int, int]]  # pairs that may not share a run
    places: tuple[Place, ...]
    free: tuple[Free, ...]


@dataclass(frozen=True, slots=True)
class Filling:
    """A run of a plan: in which dryer, when, and what."""

    place: int
    start_h: float
    hours: float
    fresh_kg: tuple[tuple[int, float], ...]  # by the number of the thing


@dataclass(frozen=True, slots=True)
class Packed:
    """What was found."""

    fillings: tuple[Filling, ...]
    left_out_kg: tuple[float, ...]  # of each thing
    tight: int  # runs without a whole free day to spare
