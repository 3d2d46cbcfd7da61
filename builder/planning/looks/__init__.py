"""Second looks: what other published methods say of the plan; they change no figure of it."""

from __future__ import annotations

from builder.planning.looks.batches import look_at_batch
from builder.planning.looks.camp_heat import cold_gas, given_in_the_cold_g, wood_range_g
from builder.planning.looks.light import light_of
from builder.planning.looks.meals import look_at_meal
from builder.planning.looks.needs_more import needs_more
from builder.planning.looks.offered import offered
from builder.planning.looks.people import energy_by_method, person_food, sweating
from builder.planning.looks.sources import look_sources
from builder.planning.looks.trip import bags_swell_times, density_kcal_g
from builder.planning.looks.water import BLEACH_SHARE, snow_work, treating

__all__ = [
    "BLEACH_SHARE",
    "bags_swell_times",
    "cold_gas",
    "density_kcal_g",
    "energy_by_method",
    "given_in_the_cold_g",
    "light_of",
    "look_at_batch",
    "look_at_meal",
    "look_sources",
    "needs_more",
    "offered",
    "person_food",
    "snow_work",
    "sweating",
    "treating",
    "wood_range_g",
]
