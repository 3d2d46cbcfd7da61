"""Drying at home: guides for each food, runs of the dryers, ways to dry a food."""

from __future__ import annotations

from typing import TYPE_CHECKING

from builder.planning.doors import loaded_when_asked
from builder.planning.drying.guides import NOTES_BY, dryer_load, drying_guides, topics
from builder.planning.drying.rules import CONDITIONING_DAYS, evens_out
from builder.planning.drying.run_checks import run_problems
from builder.planning.drying.undried import undried_problems

if TYPE_CHECKING:
    from builder.planning.drying.packing import Answer, Task, pack
    from builder.planning.drying.plan import Doing, DryingPlan, Meal, Part, Run, Step
    from builder.planning.drying.runs import Search, plan_runs
    from builder.planning.drying.ways import (
        AFTER_RUNS,
        BOUGHT,
        Changeable,
        Input,
        Pays,
        PaysTerms,
        VitaminC,
        Way,
        Ways,
        leaf,
        ways_to_change,
        ways_to_dry,
    )
else:
    __getattr__ = loaded_when_asked(
        __name__,
        {
            "packing": ("Answer", "Task", "pack"),
            "plan": ("Doing", "DryingPlan", "Meal", "Part", "Run", "Step"),
            "runs": ("Search", "plan_runs"),
            "ways": (
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
            ),
        },
    )

__all__ = [
    "AFTER_RUNS",
    "BOUGHT",
    "CONDITIONING_DAYS",
    "NOTES_BY",
    "Answer",
    "Changeable",
    "Doing",
    "DryingPlan",
    "Input",
    "Meal",
    "Part",
    "Pays",
    "PaysTerms",
    "Run",
    "Search",
    "Step",
    "Task",
    "VitaminC",
    "Way",
    "Ways",
    "dryer_load",
    "drying_guides",
    "evens_out",
    "leaf",
    "pack",
    "plan_runs",
    "run_problems",
    "topics",
    "undried_problems",
    "ways_to_change",
    "ways_to_dry",
]
