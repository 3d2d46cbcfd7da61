"""Whether a generated table is what its maker makes now."""

from __future__ import annotations

from typing import Any

import pytest


def same(one: Any, other: Any) -> bool:
    """Tell whether two tables are the same, but for the last digits of a number."""
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(same, one, other))
    if isinstance(one, float) and isinstance(other, (float, int)):
        return one == pytest.approx(other, rel=1e-9, abs=0)
    return bool(one == other)
