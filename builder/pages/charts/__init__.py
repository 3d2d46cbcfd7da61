"""Charts: bars and lines told apart by words and hatching, in any colour scheme and on paper."""

from __future__ import annotations

from builder.pages.charts.bars import Row, draw
from builder.pages.charts.drawing import (
    WIDTH,
    Bar,
    Chart,
    Dot,
    Level,
    Mark,
    Words,
    in_lines,
    words_wide,
)
from builder.pages.charts.drying_run import half_hours, run_chart
from builder.pages.charts.of_kit import (
    energy_chart,
    fuel_chart,
    kinds_chart,
    packs_chart,
    water_chart,
)
from builder.pages.charts.profile import profile_chart
from builder.pages.charts.way import way_chart

__all__ = [
    "WIDTH",
    "Bar",
    "Chart",
    "Dot",
    "Level",
    "Mark",
    "Row",
    "Words",
    "draw",
    "energy_chart",
    "fuel_chart",
    "half_hours",
    "in_lines",
    "kinds_chart",
    "packs_chart",
    "profile_chart",
    "run_chart",
    "water_chart",
    "way_chart",
    "words_wide",
]
