"""What everything weighs and who carries it."""

from __future__ import annotations

from builder.planning.carrying.loads import defaults_taken, weights

__all__ = [
    "defaults_taken",
    "weights",
]
