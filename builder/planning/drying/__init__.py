"""How food is dried: guides for each food."""

from __future__ import annotations

from builder.planning.drying.guides import NOTES_BY, dryer_loads, drying_guides, topics

__all__ = [
    "NOTES_BY",
    "dryer_loads",
    "drying_guides",
    "topics",
]
