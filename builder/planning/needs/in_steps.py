"""What a party needs and drinks where nobody's own need may be told: in steps, shared evenly."""

from __future__ import annotations

import math
from collections.abc import Sequence

from builder.model.figure import found as found_by
from builder.model.public import ENERGY_STEP_KCAL, WATER_STEP_ML, PartyNeeds
from builder.planning.needs.energy import PersonEnergy
from builder.planning.needs.water import PersonWater
from builder.record import replace

_SLACK = 1e-9


# What is told of them is of all, in steps.
IN_STEPS = "of all, in steps"


def stepped_up(value: float, step: float) -> float:
    """Give the next full step, which knows nothing of the value; what is on a step stays."""
    return math.ceil(float(value) / step - _SLACK) * step


def energies_in_steps(
    days: Sequence[Sequence[PersonEnergy]], needs: PartyNeeds
) -> list[list[PersonEnergy]]:
    """Give each day's need in steps, as the days of usual bodies lie to one another.

    One number of the party is told, and not one for each day: many would narrow a body down.
    """
    usual_kcal = sum(each.need_kcal for day in days for each in day) / len(days)
    times = needs.energy_kcal / usual_kcal if usual_kcal > 0 else 1.0
    found = []
    for day in days:
        likely_kcal = times * sum(each.need_kcal for each in day)
        all_kcal = max(round(likely_kcal / ENERGY_STEP_KCAL), likely_kcal > 0) * ENERGY_STEP_KCAL
        told_kcal = found_by(all_kcal, "need_kcal", IN_STEPS) / len(day)
        found.append([replace(each, need_kcal=told_kcal) for each in day])
    return found


def drinking_in_steps(
    days: Sequence[Sequence[PersonWater]], needs: PartyNeeds
) -> list[list[PersonWater]]:
    """Give what is drunk on each day, its hot drinks apart, in steps and never less than likely."""
    usual_ml = sum(each.to_drink_ml for day in days for each in day) / len(days)
    times = needs.to_drink_ml / usual_ml if usual_ml > 0 else 1.0
    found = []
    for day in days:
        drinks_ml = sum(each.drinks_ml for each in day)
        likely_ml = times * sum(each.to_drink_ml for each in day) - drinks_ml
        all_ml = stepped_up(max(likely_ml, 0.0), WATER_STEP_ML)
        each_ml = found_by(all_ml, "drinking_ml", IN_STEPS) / len(day)
        found.append(
            [
                replace(
                    each,
                    intake_ml=each.intake_ml * max(times, 1.0),
                    to_drink_ml=each.drinks_ml + each_ml,
                )
                for each in day
            ]
        )
    return found
