"""The water activity of a dried food, where its isotherm is known."""

from __future__ import annotations

from builder.formulas.sorption import water_activity_of
from builder.planning.foods.substance import Substance
from builder.planning.tracing import solve


def water_activity_at(substance: Substance, residual_share: float) -> float | None:
    """Give the water activity of a food whose isotherm is known and reaches so far."""
    if substance.sorption is None:
        return None
    try:
        return solve("from its isotherm", water_activity_of, substance.sorption, residual_share)
    except ValueError:
        return None  # wetter than the isotherm tells
