"""Drying at home: guides for each food, runs of the dryers, ways to dry a food."""

from __future__ import annotations

from builder.planning.drying.guides import NOTES_BY, dryer_load, drying_guides, topics
from builder.planning.drying.plan import (
    BOUGHT,
    Doing,
    DryingPlan,
    Meal,
    Part,
    Pays,
    Run,
    Step,
    VitaminC,
    Way,
    Ways,
)
from builder.planning.drying.rules import CONDITIONING_DAYS, evens_out
from builder.planning.drying.run_checks import run_problems
from builder.planning.drying.runs import plan_runs
from builder.planning.drying.ways import ways_to_dry

__all__ = [
    "BOUGHT",
    "CONDITIONING_DAYS",
    "NOTES_BY",
    "Doing",
    "DryingPlan",
    "Meal",
    "Part",
    "Pays",
    "Run",
    "Step",
    "VitaminC",
    "Way",
    "Ways",
    "dryer_load",
    "drying_guides",
    "evens_out",
    "plan_runs",
    "run_problems",
    "topics",
    "ways_to_dry",
]
