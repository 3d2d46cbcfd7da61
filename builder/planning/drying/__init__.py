"""Drying by the rules of the trade: what to do with each food, what may share a dryer."""

from __future__ import annotations

from builder.planning.drying.guides import NOTES_BY, dryer_load, drying_guides, topics
from builder.planning.drying.rules import (
    CONDITIONING_DAYS,
    FREEZER_HOURS,
    METHOD_NAMES,
    Goes,
    evens_out,
    heated_before,
    hours_in,
    may_share,
    most_load_g,
    suits,
)
from builder.planning.drying.run_checks import run_problems
from builder.planning.drying.undried import undried_problems

__all__ = [
    "CONDITIONING_DAYS",
    "FREEZER_HOURS",
    "METHOD_NAMES",
    "NOTES_BY",
    "Goes",
    "dryer_load",
    "drying_guides",
    "evens_out",
    "heated_before",
    "hours_in",
    "may_share",
    "most_load_g",
    "run_problems",
    "suits",
    "topics",
    "undried_problems",
]
