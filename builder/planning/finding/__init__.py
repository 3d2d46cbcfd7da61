"""Finds foods and other records by the words that people know them under."""

from __future__ import annotations

from builder.planning.finding.finding import Found, Search, find
from builder.planning.finding.food_facts import FILE
from builder.planning.finding.known_as import Known, known_as

__all__ = [
    "FILE",
    "Found",
    "Known",
    "Search",
    "find",
    "known_as",
]
