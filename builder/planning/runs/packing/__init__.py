"""Packs what is to be dried into the runs of dryers: bare numbers in, bare numbers out."""

from __future__ import annotations

from builder.planning.runs.packing.search import Answer, exactly, pack
from builder.planning.runs.packing.shortfall import what_would_do
from builder.planning.runs.packing.task import (
    MOST_WAIT_H,
    Filling,
    Free,
    Packed,
    Place,
    Task,
    Thing,
)

__all__ = [
    "MOST_WAIT_H",
    "Answer",
    "Filling",
    "Free",
    "Packed",
    "Place",
    "Task",
    "Thing",
    "exactly",
    "pack",
    "what_would_do",
]
