"""After a trip: what was against what was planned, and what later trips learn of it."""

from __future__ import annotations

from builder.planning.after.applying import (
    drinking_learned,
    fuel_learned,
)
from builder.planning.after.checks import review_problems
from builder.planning.after.lessons import Lesson, habits_of, learned_before, lesson_of
from builder.planning.after.reviewed import reviewed

__all__ = [
    "Lesson",
    "drinking_learned",
    "fuel_learned",
    "habits_of",
    "learned_before",
    "lesson_of",
    "review_problems",
    "reviewed",
]
