"""What one person eats on a mean day, their need by other methods, and how much they sweat."""

from __future__ import annotations

from collections.abc import Sequence

from builder.formulas.effort import EER_FROM_YEARS
from builder.formulas.needs import active_protein_range_g, spread_share
from builder.formulas.nutrition import salt_g
from builder.formulas.sweat import (
    USUAL_CLO,
    USUAL_PERMEABILITY,
    body_surface_m2,
    most_evaporation_w_m2,
    osec_g_m2_h,
    required_evaporation_w_m2,
    sweat_ml_h,
)
from builder.model.figure import add, counted, named
from builder.model.kit import KitDay
from builder.model.looks import EnergyLook, PersonFood, Sweating
from builder.model.trip import Person
from builder.planning.looks.labels import KJ_PER_KCAL
from builder.planning.menu import eaten, eaten_kcal
from builder.planning.needs import home_share, whole_day_kcal
from builder.planning.tracing import work, work_range

DRY_AIR_SHARE = named(0.3, "dry_air_share", "common-practice")
DAMP_AIR_SHARE = named(0.8, "damp_air_share", "common-practice")
_USUAL_CLO = named(USUAL_CLO, "clothes_clo", "givoni-goldman1972")
_USUAL_PERMEABILITY = named(USUAL_PERMEABILITY, "clothes_permeability", "givoni-goldman1972")
_NO_SUN_W_M2 = named(0.0, "sun_w_m2", "givoni-goldman1972")


def person_food(person: Person, days: Sequence[KitDay]) -> PersonFood:
    """Give what a person eats on a mean day away from home, against what bodies need."""
    meals = [meal for day in days for meal in day.meals]
    energy = eaten_kcal(meals, person.name)
    protein = eaten(meals, person.name, lambda meal: meal.nutrition.protein_g)
    sodium = eaten(meals, person.name, lambda meal: meal.nutrition.sodium_mg)
    least_g, most_g = work_range(active_protein_range_g, person.mass_kg)
    # Meals at home count as days not eaten from the bag.
    parts = add(1 - home_share(day.home) for day in days) or counted(1, "days")
    return PersonFood(
        energy_kcal=energy / parts,
        protein_g=protein / parts,
        protein_need_g=days[0].person(person.name).protein_need_g,
        protein_active_g=(least_g, most_g),
        salt_g=work(salt_g, sodium) / parts,
    )


def energy_by_method(person: Person, days: Sequence[KitDay]) -> EnergyLook | None:
    """Give a person's need on a mean day by each method; None for those too young for them."""
    if person.age_years < EER_FROM_YEARS:
        return None
    found = [
        whole_day_kcal(person, own.travel_hours, own.travel_kcal)
        for own in (day.person(person.name) for day in days)
    ]
    number = counted(len(days), "days")
    means = {source: add(each[source] for each in found) / number for source in found[0]}
    spread = work(spread_share, tuple(means.values()))
    return EnergyLook(tuple(means.items()), spread)


def sweating(
    person: Person, travel_kcal: float, travel_hours: float, air_c: float
) -> Sweating | None:
    """Give the sweat of the way; refused where day or work lie outside the equation."""
    if travel_hours <= 0:
        return None
    power_w = travel_kcal / travel_hours * KJ_PER_KCAL * 1000 / 3600
    surface_m2 = work(body_surface_m2, person.mass_kg, person.height_cm)
    required = work(required_evaporation_w_m2, power_w, surface_m2, air_c, _USUAL_CLO, _NO_SUN_W_M2)
    dry, damp = (
        work(sweat_ml_h, work(osec_g_m2_h, required, most), surface_m2)
        for most in (
            work(most_evaporation_w_m2, air_c, humidity, _USUAL_PERMEABILITY)
            for humidity in (DRY_AIR_SHARE, DAMP_AIR_SHARE)
        )
    )
    return Sweating(dry, damp)
