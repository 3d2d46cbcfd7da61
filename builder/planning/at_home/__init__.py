"""What is done at home, over the year: labels, shopping for all trips, bags to fill, this week."""

from __future__ import annotations

from typing import TYPE_CHECKING

from builder.planning.at_home.bagging import Bag, BaggingMeal, TripBags
from builder.planning.at_home.shares import TripShare, share_of
from builder.planning.doors import loaded_when_asked

if TYPE_CHECKING:
    from builder.planning.at_home.buying import (
        Purchase,
        TakenFromStock,
        purchases,
        taken_from_stock,
    )
    from builder.planning.at_home.experience import Experience, experiences
    from builder.planning.at_home.labels import PackLabel, Soak, labels_of
    from builder.planning.at_home.week import (
        LOOK_AHEAD_DAYS,
        Doing,
        Task,
        TripAhead,
        tasks_of,
        trips_ahead,
    )
else:
    __getattr__ = loaded_when_asked(
        __name__,
        {
            "buying": ("Purchase", "TakenFromStock", "purchases", "taken_from_stock"),
            "experience": ("Experience", "experiences"),
            "labels": ("PackLabel", "Soak", "labels_of"),
            "week": (
                "LOOK_AHEAD_DAYS",
                "Doing",
                "Task",
                "TripAhead",
                "tasks_of",
                "trips_ahead",
            ),
        },
    )

__all__ = [
    "LOOK_AHEAD_DAYS",
    "Bag",
    "BaggingMeal",
    "Doing",
    "Experience",
    "PackLabel",
    "Purchase",
    "Soak",
    "TakenFromStock",
    "Task",
    "TripAhead",
    "TripBags",
    "TripShare",
    "experiences",
    "labels_of",
    "purchases",
    "share_of",
    "taken_from_stock",
    "tasks_of",
    "trips_ahead",
]
