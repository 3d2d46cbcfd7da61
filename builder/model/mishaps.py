"""What is still eaten and drunk where something goes wrong, and the least that would mend it."""

from __future__ import annotations

from typing import Literal, get_args

from builder.model.source import Level
from builder.record import dataclass

MishapKind = Literal["bag", "day-more", "no-fuel", "no-fire", "dry"]
MendedBy = Literal["food", "fuel", "wood", "water"]


@dataclass(frozen=True, slots=True)
class StillEaten:
    """What one person still eats, each day; all of them together where nobody is named."""

    name: str
    need_kcal: tuple[float, ...]
    kcal: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Mishap:
    """One thing that goes wrong."""

    kind: MishapKind
    who: str = ""  # whose bag
    day: int = 0  # of a spring that is dry
    lost: tuple[str, ...] = ()  # gear and fuel that is gone
    fuel_left_g: float | None = None  # where some of it is gone, and not all
    cold: tuple[tuple[int, int], ...] = ()  # dishes to soak cold: day, place in it
    uneaten: tuple[tuple[int, int], ...] = ()  # dishes that nobody can eat
    # Nothing where all is eaten as planned; of a crowd all together, and who has the least.
    still: tuple[StillEaten, ...] = ()
    no_water_days: tuple[int, ...] = ()  # on which snow is the only water, and nothing melts it
    unsafe_days: tuple[int, ...] = ()  # on which water was to be boiled to make it safe
    drink_ml: float | None = None  # each one's share of what is still drunk at a dry spring
    missing_kcal: float | None = None  # of all, over the trip
    mend_g: float | None = None
    mended_by: MendedBy = "food"


# What may be otherwise at a camp: how high it lies, its coldest and its warmest air, its wind.
Otherwise = Literal["height", "coldest", "warmest", "wind"]
OTHERWISE: tuple[Otherwise, ...] = get_args(Otherwise)


@dataclass(frozen=True, slots=True)
class Turn:
    """A caution that the plan has not, and that camps which are otherwise would bring."""

    caution: str
    level: Level
    title: str  # what to do
    kind: Otherwise
    limit: float  # up to here it is not needed; of wind what it leaves of a burner's heat
    days: tuple[int, ...]
