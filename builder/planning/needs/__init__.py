"""What people and meals need: energy, water, fuel."""

from __future__ import annotations

from builder.planning.needs.at_home import home_share
from builder.planning.needs.energy import PersonEnergy, person_energy
from builder.planning.needs.fuel import fuel_day, kit_fuels
from builder.planning.needs.in_steps import drinking_in_steps, energies_in_steps, stepped_up
from builder.planning.needs.water import PersonWater, between_water_h, person_water, water_day
from builder.planning.needs.whole_day import whole_day_kcal

__all__ = [
    "PersonEnergy",
    "PersonWater",
    "between_water_h",
    "drinking_in_steps",
    "energies_in_steps",
    "fuel_day",
    "home_share",
    "kit_fuels",
    "person_energy",
    "person_water",
    "stepped_up",
    "water_day",
    "whole_day_kcal",
]
