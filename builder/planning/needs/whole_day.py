"""The need of a day by published methods; all of them lean on the first for the way."""

from __future__ import annotations

from builder.formulas.effort import (
    ADULT_FROM_YEARS,
    basal_kcal,
    day_need_kcal,
    eer_2023_kcal,
    mifflin_kcal,
)
from builder.formulas.needs import activity_of, held_level
from builder.model.figure import Figure, add
from builder.model.trip import Person
from builder.planning.needs.energy import added_kcal
from builder.planning.tracing import work


def whole_day_kcal(person: Person, travel_hours: float, travel_kcal: float) -> dict[str, Figure]:
    """Give a person's need by the source of each method; the last is for adults.

    The activity level of the first, at most 2.5, is that of the two others; their highest band
    ends where long days on the way begin, so they lie lower.
    """
    body = (person.sex, person.age_years, person.height_cm, person.mass_kg)
    basal = work(basal_kcal, person.sex, person.age_years, person.mass_kg)
    by_hours = work(day_need_kcal, basal, travel_hours, travel_kcal)
    level = work(held_level, by_hours, basal)
    activity = activity_of(float(level), person.age_years)
    needs = {"schofield1985": by_hours, "nasem2023": work(eer_2023_kcal, *body, activity)}
    if person.age_years >= ADULT_FROM_YEARS:
        needs["mifflin1990"] = work(mifflin_kcal, *body) * level
    more = tuple(added_kcal(person))
    return {source: add((need, *more)) for source, need in needs.items()} if more else needs
