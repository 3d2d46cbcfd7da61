"""How hot a boiled pot still is after a rest."""

from __future__ import annotations

from builder.formulas.cooling import (
    HOT_HOLDING_C,
    cooled_c,
    loss_range_w_k,
    minutes_above,
    siebel_kj_kg_k,
    time_constant_min,
)
from builder.model.figure import largest, named, smallest
from builder.model.kit import PlannedMeal, PlannedStep
from builder.model.looks import KeepsHot
from builder.planning.tracing import work, work_range

STANDS_FROM_MIN = 5.0  # a shorter rest cools nothing
_HOT_HOLDING_C = named(HOT_HOLDING_C, "hot_holding_c", "fsis-two-hours")


def _is_boiled_pot(meal: PlannedMeal, place: int) -> bool:
    boiled = any(step.do in ("boil", "simmer") for step in meal.steps[:place])
    return boiled and meal.cook_in == "pot" and meal.potfuls > 0


def keeps_hot(meal: PlannedMeal, place: int) -> KeepsHot | None:
    """Say how hot a boiled pot still is after a long rest, standing free or in a cosy."""
    step = meal.steps[place]
    if step.do != "rest" or step.minutes < STANDS_FROM_MIN or not _is_boiled_pot(meal, place):
        return None
    mass_g = (meal.mass_g + meal.water_ml - meal.drain_ml) / meal.potfuls
    water_g = largest(meal.food_water_ml, 0.0) / meal.potfuls
    specific = work(siebel_kj_kg_k, smallest(water_g / mass_g, 1.0))
    bare, bare_min = _cooled("pot-lid" if step.lid else "pot-open", meal, step, mass_g, specific)
    cosy, cosy_min = _cooled("pot-lid-cosy", meal, step, mass_g, specific)
    return KeepsHot(
        bare_c=bare,
        cosy_c=cosy,
        bare_above_60_min=bare_min,
        cosy_above_60_min=cosy_min,
    )


def _cooled(
    vessel: str, meal: PlannedMeal, step: PlannedStep, mass_g: float, specific: float
) -> tuple[tuple[float, float, float], float]:
    """Give least, likely and most, and the likely minutes above 60 °C; at the camp's lowest air."""
    at = meal.conditions
    losses = work_range(loss_range_w_k, vessel, mass_g, at.wind)
    constants = [work(time_constant_min, mass_g, specific, loss) for loss in losses]
    hottest, likely, coldest = (
        work(cooled_c, at.boiling_point_c, at.air_low_c, step.minutes, constant)
        for constant in constants
    )
    above_min = work(minutes_above, at.boiling_point_c, at.air_low_c, constants[1], _HOT_HOLDING_C)
    return (coldest, likely, hottest), above_min
