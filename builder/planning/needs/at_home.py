"""Which part of a day's need is met at home."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.figure import add, named
from builder.model.trip import HOME_SHARE


def home_share(meals: Iterable[str]) -> float:
    """Give the share of a day that the meals eaten at home stand for."""
    return add(
        named(HOME_SHARE[meal], f"home_share ({meal})", "common-practice")
        for meal in meals
        if meal in HOME_SHARE
    )
