"""What a simmer takes in a pressure cooker; the plan keeps to open boiling, which is enough."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builder.formulas.boiling import boiling_point_c
from builder.formulas.pressure_cooking import Z_K, time_factor_of, time_factor_range
from builder.model.content import Content
from builder.model.figure import largest, smallest
from builder.model.gear import Pot
from builder.model.kit import PlannedMeal, PlannedStep
from builder.model.looks import UnderPressure
from builder.planning.tracing import work, work_range


def under_pressure(
    meal: PlannedMeal, number: int, pots: Sequence[Pot], content: Content
) -> UnderPressure | None:
    """Look at a simmer with the lid on in a pressure cooker, plants only.

    Egg, meat and fish go by the temperature in the middle, and no time is promised for them.
    """
    step = meal.steps[number]
    gauge_kpa = next((pot.gauge_kpa for pot in pots if pot.id == meal.pot), None)
    if not gauge_kpa or meal.cook_in != "pot" or step.do != "simmer" or not step.lid:
        return None
    kinds = _kinds(meal, number, content)
    return _look(meal, step, gauge_kpa, kinds) if kinds else None


def _kinds(meal: PlannedMeal, number: int, content: Content) -> frozenset[str]:
    """Give the kinds of plants that are in the pot by then."""
    inside: Mapping[str, str | None] = {
        each.id: each.food for step in meal.steps[: number + 1] for each in step.ingredients
    }
    found = set()
    for name in inside.values():
        food = content.foods.get(name or "")
        if food is not None:
            starchy = food.sorption == "starchy" or food.dry_as == "potato"
            found.add("starchy-root" if starchy else food.kind)
    return frozenset(found & set(Z_K))


def _look(
    meal: PlannedMeal, step: PlannedStep, gauge_kpa: float, kinds: frozenset[str]
) -> UnderPressure:
    inside_hpa = meal.conditions.pressure_hpa + gauge_kpa * 10  # hPa in each kPa
    boils_c = work(boiling_point_c, inside_hpa)
    sea_min = step.minutes_at_sea_level
    # What takes longest decides.
    factors = [work(time_factor_of, kind, boils_c) for kind in sorted(kinds)]
    minutes = sea_min * largest(*factors)
    least, most = (sea_min * factor for factor in work_range(time_factor_range, boils_c))
    return UnderPressure(
        boils_c=boils_c,
        minutes=minutes,
        likely_min=(smallest(least, minutes), largest(most, minutes)),
    )
