"""Plans one trip from checked records: the one place that knows the order of the computing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from builder.model.content import Content
from builder.model.figure import add, added
from builder.model.kit import (
    Conditions,
    FuelDay,
    Kit,
    KitDay,
    KitPerson,
    NutritionTotals,
    PersonDay,
    PlannedMeal,
    WaterDay,
    Weights,
)
from builder.model.learned import NOTHING_LEARNED, Learned
from builder.model.looks import ColdGas
from builder.model.public import PartyNeeds
from builder.model.recipe import MealName
from builder.model.source import CautionText, Source
from builder.model.trip import Day, TravelBy, Trip
from builder.planning.after import drinking_learned, fuel_learned, reviewed
from builder.planning.carrying import defaults_taken, utensils_of, weights
from builder.planning.cautions import STANDING, Facts, cautions_of, kept_cold, turns_of
from builder.planning.cooking import (
    CookingPlaces,
    Hearth,
    cooking_places,
    hearth_of,
    orders_of_work,
)
from builder.planning.drying import drying_guides
from builder.planning.graph import sources_of
from builder.planning.looks import (
    bags_swell_times,
    cold_gas,
    density_kcal_g,
    energy_by_method,
    light_of,
    look_at_batch,
    look_at_meal,
    look_sources,
    needs_more,
    offered,
    person_food,
    snow_work,
    sweating,
    treating,
    wood_range_g,
)
from builder.planning.menu import (
    MenuItem,
    by_need,
    eaten,
    eaten_kcal,
    in_ladles,
    left_out,
    plan_menu,
    refused_by,
    shares_by_need,
    shopping,
)
from builder.planning.mishaps import mishaps
from builder.planning.needs import (
    PersonEnergy,
    PersonWater,
    between_water_h,
    drinking_in_steps,
    energies_in_steps,
    fuel_day,
    kit_fuels,
    person_energy,
    person_water,
    water_day,
)
from builder.planning.stock import Stock, kit_batches
from builder.record import names_of, replace
from builder.speech import Speech


def plan_trip(
    trip: Trip,
    content: Content,
    stock: Stock,
    in_steps: PartyNeeds | None = None,
    learned: Learned = NOTHING_LEARNED,
    *,
    to_check: bool = False,
) -> Kit:
    """Compute a trip's kit; raises ProblemsFound where a formula refuses one of its figures.

    `in_steps` takes the place of what bodies need, where those may not be told. A kit `to_check`
    holds what problems and cautions hang on, and nothing that only pages tell.
    """
    places = cooking_places(trip)
    hearth = hearth_of(trip, content)
    menus = plan_menu(trip, content, stock.judged, places, hearth)
    drinkers = drinking_learned(_drinkers(trip, places, menus, in_steps), learned)
    waters = [water_day(trip, day, drinkers, menus, places) for day in trip.days]
    fuel_days = [
        fuel_day(day, places, menu, water, hearth)
        for day, menu, water in zip(trip.days, menus, waters, strict=True)
    ]
    unlearned = fuel_days if learned.fuel else ()
    fuel_days = fuel_learned(fuel_days, learned)
    fuels = kit_fuels(trip, hearth, fuel_days, unlearned)
    load = weights(trip, hearth, menus, fuels, fuel_days, waters=waters)
    energies = _energies(trip, load, in_steps)
    needs_kcal = {
        person.name: add(day[number].need_kcal for day in energies)
        for number, person in enumerate(trip.party)
    }
    shares = shares_by_need(needs_kcal)
    days = tuple(
        _kit_day(trip, _OfDay(*of_day), shares, hearth, content, to_check=to_check)
        for of_day in zip(
            trip.days, places.by_day, menus, energies, drinkers, waters, fuel_days, strict=True
        )
    )
    party = tuple(
        KitPerson(
            name=person.name,
            energy_share=shares[person.name],
            energy_need_kcal=needs_kcal[person.name],
            avoids=person.avoids,
            refused=refused_by(person, menus),
            left_out=left_out(trip, days, person.name),
            food=None if to_check else offered(person_food, person, days),
            energy_by_method=None if to_check else offered(energy_by_method, person, days),
            needs_more=() if to_check else tuple(needs_more(person, days)),
        )
        for person in trip.party
    )
    batches = kit_batches(trip, _batches_named(menus), stock)
    if not to_check:
        batches = tuple(look_at_batch(each, stock.judged[each.id], content) for each in batches)
    facts = Facts(
        trip=trip,
        days=days,
        menus=menus,
        batches=tuple(stock.judged[batch.id] for batch in batches),
        weights=load,
        fuels=fuels,
        hearth=hearth,
        content=content,
        judged=stock.judged,
    )
    cautions = cautions_of(facts, content.cautions)
    wood_g = add(day.fuel.wood_g for day in days)
    kit = Kit(
        id=trip.id,
        title=trip.title,
        start=trip.start,
        units=trip.units,
        language=trip.language,
        mug_ml=trip.mug_ml,
        shelter=trip.shelter,
        notes=trip.notes,
        picture=trip.picture,
        party=party,
        days=days,
        nutrition=_sum([day.nutrition for day in days]),
        energy_need_kcal=add(day.energy_need_kcal for day in days),
        fuels=fuels,
        wood_g=wood_g,
        irons=tuple(iron.name for iron in hearth.irons),
        pots=tuple((pot.id, pot.name, pot.room_ml) for pot in hearth.pots),
        batches=batches,
        weights=load,
        cautions=cautions,
        standing=content.cautions.get(STANDING) or _no_standing(facts.say),
        shopping=(),
        proposals=(),
        sources=(),
        defaults=(),
        review=reviewed(trip.review, days, fuels, wood_g),
        learned=learned,
        times=trip.times,
        chilled_until=_chilled_until(trip),
        folders=content.folders,
    )
    return kit if to_check else _told_whole(kit, trip, facts, stock)


def _told_whole(kit: Kit, trip: Trip, facts: Facts, stock: Stock) -> Kit:
    """Give a kit with all that its pages tell besides, on which no problem and no caution hangs."""
    days, hearth, content, menus = kit.days, facts.hearth, facts.content, facts.menus
    lines, proposals, coming = shopping(trip, content, menus, stock)
    guides = drying_guides(lines, facts.batches, content)
    wood_by_species_g = wood_range_g(trip, days, hearth)
    of_all_food, swell_times = density_kcal_g(days), bags_swell_times(days)
    told = (
        kit.party,
        days,
        kit.fuels,
        kit.batches,
        kit.weights,
        lines,
        proposals,
        coming,
        guides,
        wood_by_species_g,
        of_all_food,
        swell_times,
        kit.learned,
    )
    return replace(
        kit,
        wood_low_g=add(day.fuel.wood_low_g for day in days),
        wood_high_g=add(day.fuel.wood_high_g for day in days),
        wood_by_species_g=wood_by_species_g,
        shopping=lines,
        proposals=proposals,
        coming=coming,
        sources=_known(
            {
                *sources_of(told),
                *look_sources(kit.party, days, kit.batches, guides),
                *(source for each in kit.cautions for source in each.sources),
                *_food_sources(menus),
            },
            content,
        ),
        defaults=defaults_taken(trip, facts.say),
        density_kcal_g=of_all_food,
        bags_swell_times=swell_times,
        guides=guides,
        utensils=utensils_of(trip, days, hearth, content, kit.weights.people),
        chilled=kept_cold(trip, menus),
        mishaps=mishaps(days, kit.weights, kit.fuels, hearth, content),
        turns=turns_of(facts, content.cautions, {each.id for each in kit.cautions}),
    )


def _drinkers(
    trip: Trip,
    places: CookingPlaces,
    menus: Sequence[Sequence[MenuItem]],
    in_steps: PartyNeeds | None,
) -> list[list[PersonWater]]:
    """Give what each one drinks on each day."""
    by_day = [
        [person_water(person, day, here, menu) for person in trip.party]
        for day, here, menu in zip(trip.days, places.by_day, menus, strict=True)
    ]
    return by_day if in_steps is None else drinking_in_steps(by_day, in_steps)


def _energies(trip: Trip, load: Weights, in_steps: PartyNeeds | None) -> list[list[PersonEnergy]]:
    """Give what each one needs on each day, with what is carried there."""
    by_day = [
        [person_energy(trip, day, person, load_g) for person in trip.party]
        for day, load_g in zip(trip.days, load.by_day_g, strict=True)
    ]
    return by_day if in_steps is None else energies_in_steps(by_day, in_steps)


def _no_standing(say: Speech) -> CautionText:
    """Give the heart of the standing sentence, where a folder lost the one that ships."""
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


class _OfDay(NamedTuple):
    """What was planned for one day, before it is put together."""

    day: Day
    conditions: Conditions
    menu: Sequence[MenuItem]
    energies: Sequence[PersonEnergy]
    drinking: Sequence[PersonWater]
    water: WaterDay
    fuel: FuelDay


def _kit_day(
    trip: Trip,
    of_day: _OfDay,
    shares: Mapping[str, float],
    hearth: Hearth,
    content: Content,
    *,
    to_check: bool,
) -> KitDay:
    day, here, water, fuel = of_day.day, of_day.conditions, of_day.water, of_day.fuel
    meals = tuple(by_need(each.planned, shares) for each in of_day.menu)
    if not to_check:
        meals = tuple(
            look_at_meal(
                in_ladles(meal, trip.ladle_ml),
                day.travel_hours,
                hearth,
                content,
                content.dish(each.item) if each.item.recipe else None,
            )
            for meal, each in zip(meals, of_day.menu, strict=True)
        )
    kit_day = KitDay(
        day=day.number,
        date=trip.date_of(day.number),
        title=day.title,
        conditions=here,
        ends_home=day.ends_home,
        home=day.home,
        legs=day.travel,
        travel_by=_mostly_by(day),
        travel_hours=day.travel_hours,
        distance_m=_distance_m(day),
        ascent_m=added(leg.ascent_m for leg in day.longest_way),
        descent_m=added(leg.descent_m for leg in day.longest_way),
        between_water_h=between_water_h(day),
        meals=meals,
        people=_people_of(trip, of_day, meals, to_check=to_check),
        nutrition=_sum([meal.nutrition for meal in meals]),
        energy_need_kcal=add(energy.need_kcal for energy in of_day.energies),
        water=water,
        fuel=fuel,
        minutes=add(meal.minutes for meal in meals) + fuel.water_minutes,
        notes=day.notes,
        picture=day.picture,
        cold_gases=() if day.ends_home else _cold_gases(here, hearth),
        profile=trip.tracks[day.number - 1].profile if trip.tracks else (),
    )
    if to_check:
        return kit_day
    return replace(
        kit_day,
        orders=orders_of_work(meals, hearth, fuel),
        treating=offered(treating, here, water),
        snow=offered(snow_work, here, water, hearth),
        light=light_of(trip, day),
    )


def _people_of(
    trip: Trip, of_day: _OfDay, meals: Sequence[PlannedMeal], *, to_check: bool
) -> tuple[PersonDay, ...]:
    """Give what each one needs, eats, drinks and carries on a day."""
    warmest_c = of_day.conditions.air_high_c
    return tuple(
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
            sweat=None
            if to_check
            else offered(sweating, person, energy.travel_kcal, own.travel_hours, warmest_c),
        )
        for person, energy, own in zip(trip.party, of_day.energies, of_day.drinking, strict=True)
    )


def _chilled_until(trip: Trip) -> tuple[int, MealName] | None:
    until = trip.chilled_until
    return (until.day, until.meal) if until else None


def _cold_gases(here: Conditions, hearth: Hearth) -> tuple[ColdGas, ...]:
    """Say what the cold of a camp leaves in the cans, once for stoves that are alike in it."""
    looks = (offered(cold_gas, here, each) for each in hearth.stoves)
    return tuple(dict.fromkeys(look for look in looks if look is not None))


def _mostly_by(day: Day) -> TravelBy | None:
    """Give how who is longest on the way goes for most of it."""
    return max(day.longest_way, key=lambda leg: leg.hours_on_way).by if day.longest_way else None


def _distance_m(day: Day) -> float | None:
    """Give how far who is longest on the way goes, where each leg tells it."""
    told = [leg.distance_m for leg in day.longest_way if leg.distance_m is not None]
    return added(told) if told and len(told) == len(day.longest_way) else None


def _sum(parts: Sequence[NutritionTotals]) -> NutritionTotals:
    names = names_of(NutritionTotals)
    return NutritionTotals(*(add(getattr(part, name) for part in parts) for name in names))


def _food_sources(menus: Sequence[Sequence[MenuItem]]) -> Iterator[str]:
    """Give the sources of what is eaten: of its figures, and of what is told to be in it."""
    for menu in menus:
        for meal in menu:
            for portion in meal.portions:
                for food in portion.substance.foods:
                    yield from food.allergen_source
                    if food.source:
                        yield food.source


def _known(named: Iterable[str], content: Content) -> tuple[Source, ...]:
    """Give the sources with these ids, those that the content tells."""
    known = [content.sources[name] for name in named if name in content.sources]
    return tuple(sorted(known, key=lambda source: source.id))
