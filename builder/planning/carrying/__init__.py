"""What everything weighs and who carries it."""

from __future__ import annotations

from builder.planning.carrying.loads import defaults_taken, weights
from builder.planning.carrying.packs_by_day import with_packs_by_day

__all__ = [
    "defaults_taken",
    "weights",
    "with_packs_by_day",
]
