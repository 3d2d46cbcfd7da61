"""What each person's body needs on each day of the trip."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.formulas.effort import (
    LOADED_ABOVE_KG,
    MET,
    basal_kcal,
    day_need_kcal,
    least_travel_kcal,
    met_kcal,
    walk_kcal,
)
from builder.model.figure import add, counted, largest, named
from builder.model.trip import Day, Person, Travel, Trip
from builder.planning.refusals import told_at
from builder.planning.tracing import work

GROWN_UP_YEARS = 18.0
HOURS_A_DAY = 24.0


@dataclass(frozen=True, slots=True)
class PersonEnergy:
    """One person's need on one day."""

    need_kcal: float
    basal_kcal: float
    travel_kcal: float
    load_g: float


def load_share(person: Person, party: Sequence[Person]) -> float:
    """Give a person's share of the common load: by limits, or equal where a limit is not told."""
    limits = [each.carries_to_g for each in party]
    if any(limit is None for limit in limits):
        carriers = [each for each in party if each.carries_to_g != 0]
        return 1 / counted(len(carriers), "carriers") if person in carriers else 0.0
    total_g = add(limit or 0.0 for limit in limits)
    return (person.carries_to_g or 0.0) / total_g if total_g > 0 else 0.0


def person_energy(trip: Trip, day: Day, person: Person, party_load_g: float) -> PersonEnergy:
    """Give a person's need on a day, with the party's load of that morning."""
    own_g = person.own_gear_g or 0.0
    load_g = own_g + load_share(person, trip.party) * party_load_g
    if day.travel and day.travel.load_g is not None:
        load_g = day.travel.load_g
    with told_at(day.places.of("travel"), f"{person.name} on day {day.number}"):
        basal = work(basal_kcal, person.sex, person.age_years, person.mass_kg)
        travel = _travel_kcal(person, day, basal, load_g)
        need = work(day_need_kcal, basal, day.travel_hours, travel) * (1 - day.home_share)
    return PersonEnergy(need, basal, travel, load_g)


def _travel_kcal(person: Person, day: Day, basal: float, load_g: float) -> float:
    way, hours = day.travel, day.travel_hours
    if way is None or hours <= 0:
        return 0.0
    per_hour = basal / HOURS_A_DAY
    grown_up = person.age_years >= GROWN_UP_YEARS
    if way.by == "walking" and way.distance_m is not None:
        kcal = work(
            walk_kcal,
            person.mass_kg,
            load_g / 1000,
            hours,
            way.distance_m,
            way.ascent_m,
            way.descent_m,
            way.ground,
        )
        # A child's body works at a higher rate for each kilogram than the formula's grown-ups.
        if not grown_up:
            kcal *= per_hour / person.mass_kg
    else:
        body = person.mass_kg if grown_up else per_hour
        kcal = work(met_kcal, _met(way, load_g), body, hours)
    return largest(kcal, work(least_travel_kcal, basal, hours))


def _met(way: Travel, load_g: float) -> float:
    """Give the intensity of a way of travel."""
    loaded = way.by == "walking" and load_g / 1000 > LOADED_ABOVE_KG
    key = "walking-loaded" if loaded else way.by
    return named(MET[key], f"met ({key})", "compendium2011")
