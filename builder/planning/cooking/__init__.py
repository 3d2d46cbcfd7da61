"""Steps, pots, heats, and the order of work."""

from __future__ import annotations

from builder.planning.cooking.conditions import (
    CookingPlaces,
    barometer_problems,
    cooking_places,
    start_altitude_m,
)
from builder.planning.cooking.cooked import NOT_COOKED, Cooked
from builder.planning.cooking.cooking import cook
from builder.planning.cooking.hearth import Hearth, OneStove, hearth_of
from builder.planning.cooking.heating import ON_EMBERS, boil_heat_kj
from builder.planning.cooking.order_of_work import orders_of_work
from builder.planning.cooking.parting import Parted, cook_parted
from builder.planning.cooking.standing import (
    Wait,
    animal_food_in,
    may_stand_overnight,
    measured_after,
    plant_that_spoils,
    poured_off_after,
    stands_at_most_min,
    stands_min,
    waits,
)
from builder.planning.cooking.tasks import Dish, dish_of
from builder.planning.cooking.walking import Ready, Share

__all__ = [
    "NOT_COOKED",
    "ON_EMBERS",
    "Cooked",
    "CookingPlaces",
    "Dish",
    "Hearth",
    "OneStove",
    "Parted",
    "Ready",
    "Share",
    "Wait",
    "animal_food_in",
    "barometer_problems",
    "boil_heat_kj",
    "cook",
    "cook_parted",
    "cooking_places",
    "dish_of",
    "hearth_of",
    "may_stand_overnight",
    "measured_after",
    "orders_of_work",
    "plant_that_spoils",
    "poured_off_after",
    "stands_at_most_min",
    "stands_min",
    "start_altitude_m",
    "waits",
]
