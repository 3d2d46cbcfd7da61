"""What share of its need a day is to give: more or less where earlier trips taught an appetite."""

from __future__ import annotations

from typing import Self

from builder.model.content import Content
from builder.model.learned import Factor
from builder.model.trip import Trip
from builder.planning.after import learned_before
from builder.planning.lessons import lessons_of
from builder.planning.menu import LEAST_OF_DAY_SHARE
from builder.planning.stock import Stock
from builder.record import dataclass

LEAST_SHARE, MOST_SHARE = 0.90, 1.15


@dataclass(frozen=True, slots=True)
class Aim:
    """The bounds of a day's energy, as shares of its need."""

    least_share: float = LEAST_SHARE
    most_share: float = MOST_SHARE
    appetite: Factor | None = None  # None where nothing was learned, or none of it counts

    @classmethod
    def of(cls, trip: Trip, content: Content, stock: Stock) -> Self:
        """Give what a trip aims at; never so little that somebody would be told to go hungry."""
        appetite = learned_before(trip, lessons_of(content, stock)).food
        return cls() if appetite is None else cls.with_appetite(appetite)

    @classmethod
    def with_appetite(cls, appetite: Factor) -> Self:
        """Give the bounds where so much of what was planned is eaten."""
        times = float(appetite.factor)
        least = max(LEAST_SHARE * times, LEAST_OF_DAY_SHARE)
        return cls(least, max(MOST_SHARE * times, least), appetite)
