"""The ways to dry a food, side by side: what each gives, costs and cannot do, and what pays."""

from __future__ import annotations

from builder.planning.ways.inputs import AFTER_RUNS, Changeable, Input, leaf
from builder.planning.ways.records import BOUGHT, Pays, PaysTerms, VitaminC, Way, Ways
from builder.planning.ways.side_by_side import ways_to_change, ways_to_dry

__all__ = [
    "AFTER_RUNS",
    "BOUGHT",
    "Changeable",
    "Input",
    "Pays",
    "PaysTerms",
    "VitaminC",
    "Way",
    "Ways",
    "leaf",
    "ways_to_change",
    "ways_to_dry",
]
