"""What the companions have been told by an older kit, as far as changes of it are told."""

from __future__ import annotations

from typing import Literal

from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class OldMeal:
    """A dish of the older kit."""

    day: int
    meal: str
    title: str
    mass_g: float


@dataclass(frozen=True, slots=True)
class OldKit:
    """An older kit, read from a file of which nothing is trusted."""

    trip: str
    start: str  # "" where it told no date
    meals: tuple[OldMeal, ...]
    carried: tuple[tuple[str, str], ...]  # who carries what
    cautions: tuple[tuple[str, str], ...]  # id and title
    fuels: tuple[tuple[str, float], ...]  # name, and how much was to be taken


ChangeKind = Literal[
    "start", "dish-new", "dish-gone", "amount", "carries", "carries-no-more", "caution-new",
    "caution-gone", "fuel",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that the new kit tells otherwise."""

    kind: ChangeKind
    what: str
    day: int = 0
    who: str = ""
    before: float | None = None
    now: float | None = None
