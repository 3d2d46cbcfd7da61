"""Plans one trip from checked records: the one place that knows the order of the computing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from builder.model.content import Content
from builder.model.figure import add
from builder.model.kit import (
    FuelDay,
    Kit,
    KitCaution,
    KitDay,
    KitPerson,
    NutritionTotals,
    PersonDay,
    PlannedMeal,
    WaterDay,
)
from builder.model.looks import Looks
from builder.model.public import PartyNeeds
from builder.model.source import CautionText, Source
from builder.model.trip import Day, Trip
from builder.planning.carrying import defaults_taken, weights
from builder.planning.cautions import STANDING, Facts, cautions_of
from builder.planning.cooking import (
    CookingPlaces,
    Hearth,
    cooking_places,
    hearth_of,
    orders_of_work,
)
from builder.planning.graph import sources_of
from builder.planning.looks import look_again, look_sources
from builder.planning.menu import (
    MenuItem,
    eaten,
    eaten_kcal,
    left_out,
    plan_menu,
    refused_by,
    shopping,
)
from builder.planning.needs import (
    PersonEnergy,
    PersonWater,
    between_water_h,
    drinking_in_steps,
    energies_in_steps,
    fuel_day,
    kit_fuel,
    person_energy,
    person_water,
    water_day,
)
from builder.planning.stock import Stock, kit_batches
from builder.speech import Speech, speech_of


def plan_trip(
    trip: Trip, content: Content, stock: Stock, in_steps: PartyNeeds | None = None
) -> Kit:
    """Compute a trip's kit; raises ProblemsFound where a formula refuses one of its figures.

    `in_steps` takes the place of what bodies need, where those may not be told.
    """
    say = speech_of(trip.language)
    places = cooking_places(trip)
    hearth = hearth_of(trip, content)
    menus = plan_menu(trip, content, stock.judged, places, hearth)
    drinkers = [
        [person_water(person, day, places.by_day[day.number - 1], menus[day.number - 1])
         for person in trip.party]
        for day in trip.days
    ]  # fmt: skip
    if in_steps is not None:
        drinkers = drinking_in_steps(drinkers, in_steps)
    waters = [water_day(trip, day, drinkers, menus, places) for day in trip.days]
    fuel_days = [
        fuel_day(day, places, menus[day.number - 1], water, hearth)
        for day, water in zip(trip.days, waters, strict=True)
    ]
    fuel = kit_fuel(trip, hearth, fuel_days)
    load = weights(trip, hearth, menus, fuel, fuel_days, waters)
    energies = [
        [person_energy(trip, day, person, load.by_day_g[day.number - 1]) for person in trip.party]
        for day in trip.days
    ]
    if in_steps is not None:
        energies = energies_in_steps(energies, in_steps)
    party = _party(trip, energies, menus)
    shares = {person.name: person.energy_share for person in party}
    days = tuple(
        _kit_day(
            trip, day, places, menus[day.number - 1], energy, drinking, water, fuel_one, shares,
            hearth,
        )
        for day, energy, drinking, water, fuel_one in zip(
            trip.days, energies, drinkers, waters, fuel_days, strict=True
        )
    )  # fmt: skip
    batches = kit_batches(trip, _batches_named(menus), stock)
    facts = Facts(
        trip=trip,
        days=days,
        menus=menus,
        batches=tuple(stock.judged[batch.id] for batch in batches),
        weights=load,
        fuel=fuel,
        hearth=hearth,
        content=content,
        judged=stock.judged,
    )
    cautions = cautions_of(facts, content.cautions)
    lines, proposals = shopping(trip, content, menus, stock)
    members = tuple(replace(person, left_out=left_out(trip, days, person.name)) for person in party)
    looks = look_again(trip, content, days, facts.batches, hearth, lines)
    told = (members, days, fuel, batches, load, lines, proposals, looks)
    return Kit(
        id=trip.id,
        title=trip.title,
        start=trip.start,
        units=trip.units,
        language=trip.language,
        mug_ml=trip.mug_ml,
        shelter=trip.shelter,
        notes=trip.notes,
        party=members,
        days=days,
        nutrition=_sum([day.nutrition for day in days]),
        energy_need_kcal=add(day.energy_need_kcal for day in days),
        fuel=fuel,
        wood_g=add(day.fuel.wood_g for day in days),
        wood_low_g=add(day.fuel.wood_low_g for day in days),
        wood_high_g=add(day.fuel.wood_high_g for day in days),
        irons=tuple(iron.name for iron in hearth.irons),
        pots=tuple((pot.id, pot.name, pot.room_ml) for pot in hearth.pots),
        batches=batches,
        weights=load,
        cautions=cautions,
        standing=content.cautions.get(STANDING) or _no_standing(say),
        shopping=lines,
        proposals=proposals,
        sources=_sources(told, cautions, looks, content, menus),
        defaults=defaults_taken(trip, say),
        folders=content.folders,
        looks=looks,
    )


# Reading ships this text; a folder that lost it still gets the sentence's heart.
def _no_standing(say: Speech) -> CautionText:
    text = say("Local rules and official advice come first.")
    return CautionText(STANDING, "care", "", text)


def _batches_named(menus: Sequence[Sequence[MenuItem]]) -> Iterable[str]:
    """Give the ids of the batches that meals name, in the order they are first eaten."""
    return dict.fromkeys(
        portion.planned.batch
        for menu in menus
        for each in menu
        for portion in each.portions
        if portion.planned.batch
    )


def _party(
    trip: Trip,
    energies: Sequence[Sequence[PersonEnergy]],
    menus: Sequence[Sequence[MenuItem]],
) -> tuple[KitPerson, ...]:
    """Give each one's need over the trip, their share of a common pot, what they must not eat."""
    needs = [add(day[number].need_kcal for day in energies) for number in range(len(trip.party))]
    mean = add(needs) / len(needs)
    return tuple(
        KitPerson(
            person.name,
            need / mean if mean > 0 else 1.0,
            need,
            person.avoids,
            refused_by(person, menus),
        )
        for person, need in zip(trip.party, needs, strict=True)
    )


def _kit_day(
    trip: Trip,
    day: Day,
    places: CookingPlaces,
    menu: Sequence[MenuItem],
    energies: Sequence[PersonEnergy],
    drinking: Sequence[PersonWater],
    water: WaterDay,
    fuel: FuelDay,
    shares: dict[str, float],
    hearth: Hearth,
) -> KitDay:
    travel = day.travel
    meals = tuple(_with_plates(each.planned, shares) for each in menu)
    return KitDay(
        day=day.number,
        date=trip.date_of(day.number),
        title=day.title,
        conditions=places.by_day[day.number - 1],
        ends_home=day.ends_home,
        home=day.home,
        travel_by=travel.by if travel else None,
        travel_hours=day.travel_hours,
        distance_m=travel.distance_m if travel else None,
        ascent_m=travel.ascent_m if travel else 0.0,
        descent_m=travel.descent_m if travel else 0.0,
        between_water_h=between_water_h(day),
        meals=meals,
        people=tuple(
            PersonDay(
                name=person.name,
                energy_need_kcal=energy.need_kcal,
                basal_kcal=energy.basal_kcal,
                travel_kcal=energy.travel_kcal,
                travel_low_kcal=energy.travel_low_kcal,
                travel_high_kcal=energy.travel_high_kcal,
                travel_hours=own.travel_hours,
                protein_need_g=energy.protein_need_g,
                load_g=energy.load_g,
                food_g=eaten(meals, person.name, lambda meal: meal.mass_g),
                food_kcal=eaten_kcal(meals, person.name),
                food_protein_g=eaten(meals, person.name, lambda meal: meal.nutrition.protein_g),
                intake_ml=own.intake_ml,
                rate_ml_h=own.rate_ml_h,
                water_need_ml=own.need_ml,
                water_from_food_ml=own.from_food_ml,
                to_drink_ml=own.to_drink_ml,
            )
            for person, energy, own in zip(trip.party, energies, drinking, strict=True)
        ),
        nutrition=_sum([each.planned.nutrition for each in menu]),
        energy_need_kcal=add(energy.need_kcal for energy in energies),
        water=water,
        fuel=fuel,
        minutes=add(each.planned.minutes for each in menu) + fuel.water_minutes,
        notes=day.notes,
        orders=orders_of_work(meals, hearth, fuel),
    )


def _with_plates(meal: PlannedMeal, shares: dict[str, float]) -> PlannedMeal:
    """Split what is cooked in one pot by need; what is handed out goes in equal parts."""
    if not meal.recipe:
        return meal
    own = [shares[name] for name in meal.eaters]
    whole = add(own)
    return replace(meal, plate_shares=tuple(share / whole for share in own))


def _sum(parts: Sequence[NutritionTotals]) -> NutritionTotals:
    return NutritionTotals(
        energy_kcal=add(part.energy_kcal for part in parts),
        protein_g=add(part.protein_g for part in parts),
        fat_g=add(part.fat_g for part in parts),
        carbohydrate_g=add(part.carbohydrate_g for part in parts),
        fibre_g=add(part.fibre_g for part in parts),
        sodium_mg=add(part.sodium_mg for part in parts),
    )


def _sources(
    told: tuple[object, ...],
    cautions: Sequence[KitCaution],
    looks: Looks,
    content: Content,
    menus: Sequence[Sequence[MenuItem]],
) -> tuple[Source, ...]:
    """Give every source that a number, a food or a caution of a kit rests on."""
    named = sources_of(told)
    named |= {source for each in cautions for source in each.sources}
    named |= look_sources(looks)
    named |= {
        source
        for menu in menus
        for meal in menu
        for portion in meal.portions
        for food in portion.substance.foods
        for source in (food.source, *food.allergen_source)
        if source
    }
    known = [content.sources[name] for name in named if name in content.sources]
    return tuple(sorted(known, key=lambda source: source.id))
