"""A home over the year: this week, labels, shopping for all trips, what its batches taught."""

from __future__ import annotations

from builder.planning.year.buying import Purchase, TakenFromStock, purchases, taken_from_stock
from builder.planning.year.experience import Experience, experiences
from builder.planning.year.labels import PackLabel, Soak, labels_of
from builder.planning.year.week import (
    LOOK_AHEAD_DAYS,
    Doing,
    Task,
    TripAhead,
    tasks_of,
    trips_ahead,
)

__all__ = [
    "LOOK_AHEAD_DAYS",
    "Doing",
    "Experience",
    "PackLabel",
    "Purchase",
    "Soak",
    "TakenFromStock",
    "Task",
    "TripAhead",
    "experiences",
    "labels_of",
    "purchases",
    "taken_from_stock",
    "tasks_of",
    "trips_ahead",
]
