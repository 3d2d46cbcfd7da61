"""What foods are made of and watched for, and the water that puts them back."""

from __future__ import annotations

from builder.planning.foods.activity import water_activity_at
from builder.planning.foods.hazards import called, hazards_of, is_game, is_minced, is_pungent
from builder.planning.foods.substance import (
    Substance,
    as_usually_dried,
    concentrated,
    cooked_g,
    energy_per_100g_kcal,
    substance_named,
    substance_of_ingredient,
    substance_of_label,
    substance_of_recipe,
)
from builder.planning.foods.water_back import NO_WATER, WaterBack, soaks_as, water_back

__all__ = [
    "NO_WATER",
    "Substance",
    "WaterBack",
    "as_usually_dried",
    "called",
    "concentrated",
    "cooked_g",
    "energy_per_100g_kcal",
    "hazards_of",
    "is_game",
    "is_minced",
    "is_pungent",
    "soaks_as",
    "substance_named",
    "substance_of_ingredient",
    "substance_of_label",
    "substance_of_recipe",
    "water_activity_at",
    "water_back",
]
