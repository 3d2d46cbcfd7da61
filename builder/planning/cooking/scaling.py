"""A cooked meal for another party or height, as plain data for the script in the page."""

from __future__ import annotations

from builder.model.kit import PlannedMeal
from builder.planning.cooking.cooking import IN_TURN

ScalingData = dict[str, object]


def scaling_data(meal: PlannedMeal) -> ScalingData | None:
    """Give what potfuls, presses and minutes of a meal hang on; None for what is not cooked.

    All amounts are for those who eat as planned; they grow and shrink with the number of eaters.
    """
    heating = meal.heating
    if heating is None:
        return None
    here = meal.conditions
    return {
        "eaters": list(meal.eaters),
        "altitude_m": here.altitude_m,
        "water_c": here.water_c,
        "snow_c": min(here.air_low_c, 0.0) if here.water_source == "snow" else None,
        "kj_min": heating.kj_per_min,
        "fire": heating.on_fire,
        "boiled_ml": heating.boiled_ml,
        "boiled_food_g": heating.boiled_food_g,
        "most_ml": heating.most_ml,
        "boils": heating.boils,
        "mug": meal.cook_in == "mug",
        "pots": [
            {"room_ml": pot.room_ml, "mass_g": pot.mass_g, "kj_k": pot.heat_kj_k}
            for pot in heating.pots
        ],
        "steps": [
            [step.minutes_at_sea_level, int(by_height), int(step.do in IN_TURN)]
            for step, by_height in zip(meal.steps, heating.by_height, strict=True)
        ],
        "presses": [[step.pieces, step.each_side_min] for step in meal.steps if step.do == "press"],
        "at_once": max(heating.presses_at_once, 1),
    }
