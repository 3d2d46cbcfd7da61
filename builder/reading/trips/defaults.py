"""What is noted where a trip does not tell something and the tool takes what is usual."""

from __future__ import annotations

from builder.model.trip import DefaultUsed
from builder.speech import later

UNTOLD = later("the trip does not tell it")


def default_used(what: str, value: str, why: str = UNTOLD, **blanks: object) -> DefaultUsed:
    """Note what was taken for something that was not told; `blanks` fill its texts."""
    return DefaultUsed(what, value, why, tuple((name, str(each)) for name, each in blanks.items()))
