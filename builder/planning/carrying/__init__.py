"""What everything weighs and who carries it."""

from __future__ import annotations

from builder.planning.carrying.depots import waits_at
from builder.planning.carrying.loads import defaults_taken, weights
from builder.planning.carrying.utensils import utensils_of

__all__ = [
    "defaults_taken",
    "utensils_of",
    "waits_at",
    "weights",
]
