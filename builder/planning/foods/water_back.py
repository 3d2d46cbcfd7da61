"""The water that puts dried food back: what is poured on, and how much of it is taken up."""

from __future__ import annotations

from builder.formulas.drying import rehydration_water_ml
from builder.formulas.rehydration import auto_water_ml, taken_up_ml, takes_up_share
from builder.model.batch import HEAT_METHODS, Method
from builder.model.figure import found, nothing
from builder.model.food import Food
from builder.planning.tracing import look_up, work
from builder.record import dataclass

# What the water is reckoned for, until an amount is known.
PER_GRAM = found(1.0, "amount_g", "for each gram")


@dataclass(frozen=True, slots=True)
class WaterBack:
    """For each gram of dried food; what is poured and not taken up stays as broth."""

    poured_ml: float
    taken_up_ml: float


NO_WATER = WaterBack(nothing("water_ml"), nothing("water_ml"))


def water_back(
    kind: str, told_share: float | None, method: str, water_share: float, residual_share: float
) -> WaterBack:
    """Give the water for a gram; freeze-dried food takes up alike, whatever a food tells."""
    lost_ml = work(rehydration_water_ml, PER_GRAM, water_share, residual_share)
    if told_share is None or method == "freeze-dryer":
        told_share = look_up(takes_up_share, method, kind)
    return WaterBack(
        work(auto_water_ml, lost_ml, told_share), work(taken_up_ml, lost_ml, told_share)
    )


def soaks_as(food: Food | None, dried_by: Method | None) -> str:
    """Give the kind that soaking goes by; nobody tells how bought food was dried."""
    if dried_by == "freeze-dryer":
        return "freeze-dried"
    if food is None or dried_by not in HEAT_METHODS:
        return "unknown"
    return "mushroom" if "mushroom" in (food.dry_as, food.sorption) else food.kind
