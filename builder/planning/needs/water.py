"""How much the party drinks, cooks and washes with, carries and treats."""

from __future__ import annotations

from collections.abc import Sequence

from builder.formulas.water import (
    MOST_FROM_FOOD_SHARE,
    adequate_intake_ml,
    drinking_rate_ml_h,
    drunk_away_ml,
    night_water_ml,
    water_need_ml,
    water_to_drink_ml,
    way_water_ml,
)
from builder.model.figure import add, add_over, largest, named, nothing, smallest
from builder.model.kit import Conditions, WaterDay
from builder.model.trip import DEFAULT_BETWEEN_WATER_H, Day, Person, Trip
from builder.planning.cooking import CookingPlaces
from builder.planning.menu import MenuItem
from builder.planning.needs.at_home import home_share
from builder.planning.refusals import told_at
from builder.planning.tracing import work
from builder.record import dataclass

_MOST_FROM_FOOD_SHARE = named(MOST_FROM_FOOD_SHARE, "most_share", "efsa2010")


@dataclass(frozen=True, slots=True)
class PersonWater:
    """One person's water on one day."""

    name: str
    intake_ml: float
    rate_ml_h: float
    travel_hours: float  # one's own
    need_ml: float
    from_food_ml: float
    to_drink_ml: float
    drinks_ml: float  # tea, coffee and the like, which are part of what is to drink


def person_water(
    person: Person, day: Day, conditions: Conditions, menu: Sequence[MenuItem]
) -> PersonWater:
    """Give one person's need, what the food brings, and what is left to drink."""
    with told_at(person.places.record, f"water of {person.name} on day {day.number}"):
        intake_ml = work(
            adequate_intake_ml, person.sex, person.age_years, bool(person.pregnant), person.nursing
        )
        hours = day.hours_of(person.name)
        high_c = day.camp.air_high_c
        rate_ml_h = work(drinking_rate_ml_h, high_c, person.mass_kg)
        need_ml = work(water_need_ml, intake_ml, hours, rate_ml_h, conditions.altitude_m, high_c)
        own = [each.planned for each in menu if person.name in each.planned.eaters]
        drinks_ml = add(each.water_ml / each.heads for each in own if each.meal == "drinks")
        food_ml = add(each.food_water_ml / each.heads for each in own if each.meal != "drinks")
        to_drink_ml = work(water_to_drink_ml, need_ml, food_ml, intake_ml)
        if day.home:
            way_ml = work(way_water_ml, hours, rate_ml_h, intake_ml)
            to_drink_ml = work(drunk_away_ml, to_drink_ml, home_share(day.home), way_ml)
    return PersonWater(
        name=person.name,
        intake_ml=intake_ml,
        rate_ml_h=rate_ml_h,
        travel_hours=hours,
        need_ml=need_ml,
        from_food_ml=smallest(food_ml, _MOST_FROM_FOOD_SHARE * intake_ml),
        to_drink_ml=to_drink_ml,
        drinks_ml=drinks_ml,
    )


def between_water_h(day: Day) -> float:
    """Give the longest stretch without water; where it is not told, a default on days of travel."""
    told = day.camp.water.between_water_h
    if told is not None:
        return told
    default_h = named(DEFAULT_BETWEEN_WATER_H, "between_water_h", "common-practice")
    return smallest(default_h, day.travel_hours)


def _dry_way_ml(day: Day, people: Sequence[PersonWater]) -> float:
    """Give what all drink on the longest stretch without water, each in their own hours."""
    longest_h = between_water_h(day)
    return add_over(
        (each.name, smallest(longest_h, each.travel_hours) * each.rate_ml_h) for each in people
    )


def water_day(
    trip: Trip,
    day: Day,
    drinkers: Sequence[Sequence[PersonWater]],
    menus: Sequence[Sequence[MenuItem]],
    places: CookingPlaces,
) -> WaterDay:
    """Give the party's water on one day; `drinkers` are those of every day."""
    people = drinkers[day.number - 1]
    menu = menus[day.number - 1]
    conditions = places.by_day[day.number - 1]
    cooking_ml = _cooking_ml(menu)
    drinks_ml = add(each.planned.water_ml for each in menu if each.planned.meal == "drinks")
    drinking_ml = add_over(
        (each.name, largest(each.to_drink_ml - each.drinks_ml, 0.0)) for each in people
    )
    washing_ml = _washing_ml(trip, day, menus)
    treat_ml = drinking_ml if conditions.water_source != "tap" else 0.0
    treat_ml += add(
        each.planned.unboiled_water_ml
        for each in menu
        if each.planned.conditions.water_source != "tap"
    )
    # The next day's way up to its first water, which is carried away from this camp.
    onward_ml = (
        _dry_way_ml(trip.days[day.number], drinkers[day.number])
        if day.number < len(trip.days)
        else 0.0
    )
    carry_ml = _dry_way_ml(day, people)
    if day.camp.water.camp == "none" and not day.ends_home:
        breakfast = menus[day.number] if day.number < len(menus) else ()
        carry_ml += (
            _cooking_ml(menu, breakfast=False)
            + _cooking_ml(breakfast, only_breakfast=True)
            + drinks_ml
            + washing_ml
            + add_over((each.name, work(night_water_ml, each.intake_ml)) for each in people)
            + onward_ml
        )
    return WaterDay(
        cooking_ml=cooking_ml,
        drinks_ml=drinks_ml,
        drinking_ml=drinking_ml,
        washing_ml=washing_ml,
        total_ml=cooking_ml + drinks_ml + drinking_ml + washing_ml,
        carry_ml=carry_ml,
        treat_ml=treat_ml,
        boil_ml=_boil_ml(trip, day, menu, conditions, drinking_ml, onward_ml=onward_ml),
    )


def _boil_ml(
    trip: Trip,
    day: Day,
    menu: Sequence[MenuItem],
    conditions: Conditions,
    drinking_ml: float,
    *,
    onward_ml: float,
) -> float:
    """Give what is brought to the boil to make it safe: drunk, mixed or soaked cold, carried on."""
    cold_ml = add(
        each.planned.unboiled_water_ml for each in menu if each.planned.conditions.treat == "boil"
    )
    if conditions.treat != "boil":
        return cold_ml
    next_boils = day.number < len(trip.days) and trip.days[day.number].camp.water.treat == "boil"
    return drinking_ml + cold_ml + (0.0 if next_boils else onward_ml)


def _cooking_ml(
    menu: Sequence[MenuItem], breakfast: bool = True, only_breakfast: bool = False
) -> float:
    """Add up the cooking water of meals other than drinks."""
    return add(
        each.planned.water_ml
        for each in menu
        if each.planned.meal != "drinks"
        and (breakfast or each.planned.meal != "breakfast")
        and (not only_breakfast or each.planned.meal == "breakfast")
    )


def _washing_ml(trip: Trip, day: Day, menus: Sequence[Sequence[MenuItem]]) -> float:
    """Give the washing-up of a camp where something was cooked: this evening or next morning."""
    if day.ends_home:
        return nothing("washing_ml")
    first_at_own_camp = day.number == 1 and trip.start_camp is None
    here = [
        each
        for each in menus[day.number - 1]
        if each.planned.meal != "breakfast" or first_at_own_camp
    ]
    if day.number < len(menus):
        here += [each for each in menus[day.number] if each.planned.meal == "breakfast"]
    return trip.washing_ml if any(each.planned.recipe for each in here) else nothing("washing_ml")
