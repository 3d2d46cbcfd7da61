"""Steps, pots, heats, and the order of work."""

from __future__ import annotations

from builder.planning.cooking.camp_heat import cold_gas, iron_heats, wood_range_g
from builder.planning.cooking.conditions import (
    CookingPlaces,
    barometer_problems,
    cooking_places,
)
from builder.planning.cooking.cooking import ON_EMBERS, Cooked, Ready, boil_heat_kj, cook
from builder.planning.cooking.hearth import Hearth, hearth_of, stove_test
from builder.planning.cooking.order_of_work import orders_of_work
from builder.planning.cooking.soaking import soakings, soaks_as
from builder.planning.cooking.standing import (
    HEATS,
    Wait,
    animal_food_in,
    measured_after,
    plant_that_spoils,
    poured_off_after,
    stands_at_most_min,
    waits,
)
from builder.planning.cooking.under_pressure import under_pressure

__all__ = [
    "HEATS",
    "ON_EMBERS",
    "Cooked",
    "CookingPlaces",
    "Hearth",
    "Ready",
    "Wait",
    "animal_food_in",
    "barometer_problems",
    "boil_heat_kj",
    "cold_gas",
    "cook",
    "cooking_places",
    "hearth_of",
    "iron_heats",
    "measured_after",
    "orders_of_work",
    "plant_that_spoils",
    "poured_off_after",
    "soakings",
    "soaks_as",
    "stands_at_most_min",
    "stove_test",
    "under_pressure",
    "waits",
    "wood_range_g",
]
