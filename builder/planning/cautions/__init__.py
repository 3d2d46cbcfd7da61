"""Which cautions a trip shows, by subject."""

from __future__ import annotations

from builder.planning.cautions.facts import Facts
from builder.planning.cautions.food.fresh import kept_cold
from builder.planning.cautions.table import STANDING, cautions_of
from builder.planning.cautions.turning import turns_of

__all__ = [
    "STANDING",
    "Facts",
    "cautions_of",
    "kept_cold",
    "turns_of",
]
