"""Runs of the dryers at home: what is dried when, in which of them, and every touch of a hand."""

from __future__ import annotations

from builder.planning.runs.household import dryers_at_home
from builder.planning.runs.packing import Answer, Task, pack
from builder.planning.runs.plan import Doing, DryingPlan, Meal, Part, Run, Step
from builder.planning.runs.runs import Search, plan_runs
from builder.planning.runs.wanted import as_batch

__all__ = [
    "Answer",
    "Doing",
    "DryingPlan",
    "Meal",
    "Part",
    "Run",
    "Search",
    "Step",
    "Task",
    "as_batch",
    "dryers_at_home",
    "pack",
    "plan_runs",
]
