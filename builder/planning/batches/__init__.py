"""Batches judged from their weighings: how dry, what they hold, until when they keep."""

from __future__ import annotations

from builder.planning.batches.doubts import batch_problems
from builder.planning.batches.drying_run import FIT, drying_run, look_next
from builder.planning.batches.dryness import VERDICTS, Asked, dryness, forecast_said, look_next_said
from builder.planning.batches.judging import Judged, judge
from builder.planning.batches.learned import (
    Learned,
    OwnBatches,
    learned_of,
    own_batches,
    table_ratio,
)
from builder.planning.batches.names import name_as_dried, name_now
from builder.planning.batches.verdict import ACTS, Act, Cause, act_of, rule, spread_of

__all__ = [
    "ACTS",
    "FIT",
    "VERDICTS",
    "Act",
    "Asked",
    "Cause",
    "Judged",
    "Learned",
    "OwnBatches",
    "act_of",
    "batch_problems",
    "drying_run",
    "dryness",
    "forecast_said",
    "judge",
    "learned_of",
    "look_next",
    "look_next_said",
    "name_as_dried",
    "name_now",
    "own_batches",
    "rule",
    "spread_of",
    "table_ratio",
]
