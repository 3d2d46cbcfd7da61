"""The label of a meal, as the EU prints it, with a portion's calories as the US does."""

from __future__ import annotations

from builder.formulas.labels import (
    energy_density_kcal_g,
    eu_carbohydrate_g,
    eu_energy,
    eu_mass_g,
    eu_salt_g,
    us_calories,
    us_energy_kcal,
    us_sodium_mg,
)
from builder.formulas.nutrition import label_energy_kcal, label_energy_kj
from builder.model.figure import counted, named, smallest
from builder.model.kit import PlannedMeal
from builder.model.looks import MealLabel
from builder.planning.tracing import count, work

KJ_PER_KCAL = named(4.184, "kj_per_kcal", "fao77")
_NO_ALCOHOL_G = named(0.0, "alcohol_g", "eu-1169-2011")


def meal_label(meal: PlannedMeal) -> MealLabel:
    """Give the EU label of 100 g as carried, and the US label of a mean portion."""
    held, portions = meal.nutrition, counted(len(meal.eaters), "eaters")
    to_100g = 100 / meal.mass_g
    # Fibre is part of the carbohydrate: a list that tells more of it is wrong about one of them.
    fibre = smallest(held.fibre_g, held.carbohydrate_g) * to_100g
    protein, fat = held.protein_g * to_100g, held.fat_g * to_100g
    carbohydrate = held.carbohydrate_g * to_100g
    us_kcal: float = (
        work(us_energy_kcal, held.protein_g, held.fat_g, held.carbohydrate_g) / portions
    )
    energy_kj: float = work(label_energy_kj, protein, fat, carbohydrate, fibre, _NO_ALCOHOL_G)
    energy_kcal: float = work(label_energy_kcal, protein, fat, carbohydrate, fibre, _NO_ALCOHOL_G)
    only_energy = held.energy_kcal > 0 and not energy_kcal
    if only_energy:
        us_kcal, energy_kcal = held.energy_kcal / portions, held.energy_kcal * to_100g
        energy_kj = energy_kcal * KJ_PER_KCAL
    return MealLabel(
        portion_g=meal.mass_g / portions,
        energy_kj=count(eu_energy, energy_kj),
        energy_kcal=count(eu_energy, energy_kcal),
        fat_g=work(eu_mass_g, fat),
        carbohydrate_g=work(eu_mass_g, work(eu_carbohydrate_g, carbohydrate, fibre)),
        fibre_g=work(eu_mass_g, fibre),
        protein_g=work(eu_mass_g, protein),
        salt_g=work(eu_salt_g, held.sodium_mg * to_100g),
        us_calories=count(us_calories, us_kcal),
        us_sodium_mg=count(us_sodium_mg, held.sodium_mg / portions),
        density_kcal_g=work(energy_density_kcal_g, held.energy_kcal, meal.mass_g),
        only_energy=only_energy,
    )
