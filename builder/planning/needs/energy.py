"""What each person's body needs on each day of the trip."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from builder.formulas.effort import (
    LOADED_ABOVE_KG,
    MET,
    basal_kcal,
    day_need_kcal,
    least_travel_kcal,
    met_kcal,
    walk_kcal,
)
from builder.formulas.needs import (
    WALK_OFF_SHARE,
    lcda_knows,
    lcda_walk_kcal,
    nursing_kcal,
    pregnancy_kcal,
    protein_need_g,
)
from builder.model.figure import add, added, counted, largest, named, smallest
from builder.model.trip import GROWN_UP_YEARS, Day, Person, Travel, Trip
from builder.planning.needs.at_home import home_share
from builder.planning.refusals import told_at
from builder.planning.tracing import look_up, work
from builder.record import dataclass

HOURS_A_DAY = 24.0


@dataclass(frozen=True, slots=True)
class PersonEnergy:
    """One person's need on one day."""

    need_kcal: float
    basal_kcal: float
    travel_kcal: float
    travel_low_kcal: float | None
    travel_high_kcal: float | None
    protein_need_g: float
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
    shared_g = own_g + load_share(person, trip.party) * party_load_g
    legs = day.legs_of(person.name)
    loads_g = [shared_g if leg.load_g is None else leg.load_g for leg in legs] or [shared_g]
    with told_at(day.places.of("travel"), f"{person.name} on day {day.number}"):
        basal = work(basal_kcal, person.sex, person.age_years, person.mass_kg)
        parts = [
            _leg_kcal(person, leg, basal, load_g)
            for leg, load_g in zip(legs, loads_g, strict=False)
        ]
        travel = added(kcal for kcal, _, _ in parts)
        need = work(day_need_kcal, basal, day.hours_of(person.name), travel)
        for more in added_kcal(person):
            need += more
        if day.home:
            need *= 1 - home_share(day.home)
        protein_g = work(
            protein_need_g,
            person.sex,
            person.age_years,
            person.mass_kg,
            person.pregnant,
            person.nursing,
        )
    return PersonEnergy(
        need,
        basal,
        travel,
        _added_where_all_told(low for _, low, _ in parts),
        _added_where_all_told(high for _, _, high in parts),
        protein_g,
        largest(*loads_g) if len(set(loads_g)) > 1 else loads_g[0],
    )


def _added_where_all_told(parts: Iterable[float | None]) -> float | None:
    told = tuple(parts)
    known = [each for each in told if each is not None]
    return added(known) if len(known) == len(told) else None


def added_kcal(person: Person) -> Iterator[float]:
    """Give what a pregnancy and nursing add to the need of a day."""
    if person.pregnant:
        yield look_up(pregnancy_kcal, person.pregnant)
    if person.nursing:
        yield look_up(nursing_kcal)


def _leg_kcal(
    person: Person, way: Travel, basal: float, load_g: float
) -> tuple[float, float | None, float | None]:
    """Give the energy of a leg, and the range that a second equation leaves open on foot."""
    hours = way.hours_of_work
    if hours <= 0:
        return 0.0, 0.0, 0.0
    least = work(least_travel_kcal, basal, hours)
    if way.by == "walking" and way.distance_m is not None:
        on_foot = (person.mass_kg, load_g / 1000, hours, way.distance_m)
        climbed = {"ascent_m": way.ascent_m, "descent_m": way.descent_m}
        kcal = _at_own_age(person, basal, work(walk_kcal, *on_foot, **climbed, ground=way.ground))
        kcal = largest(kcal, least)
        if not lcda_knows(hours, way.distance_m, way.ascent_m, way.descent_m):
            return kcal, None, None
        other = _at_own_age(person, basal, work(lcda_walk_kcal, *on_foot, **climbed))
        other = largest(other, least)
        off = named(WALK_OFF_SHARE, "walk_off_share", "looney2019")
        return kcal, smallest(kcal, other) * (1 - off), largest(kcal, other) * (1 + off)
    body = person.mass_kg if person.age_years >= GROWN_UP_YEARS else basal / HOURS_A_DAY
    kcal = largest(work(met_kcal, _met(way, load_g), body, hours), least)
    return kcal, None, None


def _at_own_age(person: Person, basal: float, kcal: float) -> float:
    """A child's body works at a higher rate for each kilogram than the equations' grown-ups."""
    if person.age_years >= GROWN_UP_YEARS:
        return kcal
    return kcal * (basal / HOURS_A_DAY / person.mass_kg)


def _met(way: Travel, load_g: float) -> float:
    """Give the intensity of a way of travel."""
    loaded = way.by == "walking" and load_g / 1000 > LOADED_ABOVE_KG
    key = "walking-loaded" if loaded else way.by
    return named(MET[key], f"met ({key})", "compendium2011")
