"""What is told of the trip as a whole besides the plan."""

from __future__ import annotations

from collections.abc import Sequence

from builder.formulas.air import SEA_LEVEL_PRESSURE_HPA
from builder.formulas.keeping import bag_swelling
from builder.formulas.labels import energy_density_kcal_g
from builder.model.figure import add, largest, named
from builder.model.kit import KitDay
from builder.planning.tracing import work

_SEA_LEVEL_HPA = named(SEA_LEVEL_PRESSURE_HPA, "sea_level_pressure_hpa", "iso2533")


def density_kcal_g(days: Sequence[KitDay]) -> float:
    """Give the energy in a gram of the food of a trip, as carried."""
    mass_g = add(meal.mass_g for day in days for meal in day.meals)
    energy_kcal = add(meal.nutrition.energy_kcal for day in days for meal in day.meals)
    # Without food there is none in a gram of it either.
    return work(energy_density_kcal_g, energy_kcal, mass_g) if mass_g else energy_kcal


def bags_swell_times(days: Sequence[KitDay]) -> float:
    """Give how many times its room the air in a bag takes at the highest camp."""
    return largest(
        *(work(bag_swelling, _SEA_LEVEL_HPA, day.conditions.pressure_hpa) for day in days)
    )
