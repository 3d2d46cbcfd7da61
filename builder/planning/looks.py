"""Takes a second look at the plan with other published methods; changes no figure of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import partial
from typing import TypeVar

from builder.formulas.air import SEA_LEVEL_PRESSURE_HPA
from builder.formulas.boiling import boil_hold_min
from builder.formulas.cookware import snow_l, snow_potfuls
from builder.formulas.cooling import (
    HOT_HOLDING_C,
    cooled_c,
    loss_range_w_k,
    minutes_above,
    siebel_kj_kg_k,
    time_constant_min,
)
from builder.formulas.effort import EER_FROM_YEARS
from builder.formulas.keeping import bag_swelling
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
from builder.formulas.needs import active_protein_range_g, spread_share
from builder.formulas.nutrition import label_energy_kcal, label_energy_kj, salt_g
from builder.formulas.packing import absorber_size_ml, pack_oxygen_ml, solid_volume_ml
from builder.formulas.sweat import (
    USUAL_CLO,
    USUAL_PERMEABILITY,
    body_surface_m2,
    most_evaporation_w_m2,
    osec_g_m2_h,
    required_evaporation_w_m2,
    sweat_ml_h,
)
from builder.formulas.treatment import bleach_drops, contact_min, strict_boil_min
from builder.model.content import Content
from builder.model.figure import add, counted, largest, named, none, smallest
from builder.model.kit import KitDay, PersonDay, PlannedMeal, PlannedStep, ShoppingLine
from builder.model.looks import (
    EnergyLook,
    Looks,
    MealLabel,
    PackOxygen,
    PersonFood,
    SnowWork,
    Standing,
    Sweating,
    Treating,
)
from builder.model.trip import Person, Trip
from builder.planning.cooking import (
    Hearth,
    cold_gas,
    iron_heats,
    soakings,
    under_pressure,
    wood_range_g,
)
from builder.planning.drying import NOTES_BY, dryer_loads, drying_guides, topics
from builder.planning.menu import eaten, eaten_kcal
from builder.planning.needs import home_share, needs_more, whole_day_kcal
from builder.planning.stock import Judged
from builder.planning.tracing import count, work, work_range

STANDS_FROM_MIN = 5.0  # a shorter rest cools nothing
KJ_PER_KCAL = named(4.184, "kj_per_kcal", "fao77")
DRY_AIR_SHARE = named(0.3, "dry_air_share", "common-practice")
DAMP_AIR_SHARE = named(0.8, "damp_air_share", "common-practice")
# Plain household bleach, 5 to 6 % (read in a copy: EPA gives the same drops for both).
BLEACH_SHARE = named(0.06, "bleach_share", "epa-emergency-disinfection")
COLD_WATER_C = 10.0
WARMEST_WATER_C = named(50.0, "warmest_water_c", "epa-emergency-disinfection")
# Settled and new snow (kg/m3): wind-packed 350 and fresh 70 are the ends one meets.
FIRM_SNOW_KG_M3 = named(350.0, "firm_snow_kg_m3", "paterson")
FLUFFY_SNOW_KG_M3 = named(70.0, "fluffy_snow_kg_m3", "ams-glossary")
_SEA_LEVEL_HPA = named(SEA_LEVEL_PRESSURE_HPA, "sea_level_pressure_hpa", "iso2533")
# Where pots are closed: nobody tells it, so at the sea's level, where air holds most oxygen.
_CLOSED_AT_M = named(0.0, "closed_at_m", "common-practice")
_USUAL_CLO = named(USUAL_CLO, "clothes_clo", "givoni-goldman1972")
_USUAL_PERMEABILITY = named(USUAL_PERMEABILITY, "clothes_permeability", "givoni-goldman1972")
_NO_ALCOHOL_G = named(0.0, "alcohol_g", "eu-1169-2011")
_A_LITRE_ML = named(1000.0, "a_litre_ml", "epa-emergency-disinfection")
_NO_SUN_W_M2 = named(0.0, "sun_w_m2", "givoni-goldman1972")
_HOT_HOLDING_C = named(HOT_HOLDING_C, "hot_holding_c", "fsis-two-hours")


def look_again(
    trip: Trip,
    content: Content,
    days: Sequence[KitDay],
    batches: Sequence[Judged],
    hearth: Hearth,
    lines: Sequence[ShoppingLine],
) -> Looks:
    """Give all second looks of a trip."""
    return Looks(
        labels=_offered(partial(_label, day, meal) for day in days for meal in day.meals),
        people=_offered(partial(_person_food, person, days) for person in trip.party),
        energy=_offered(
            partial(_energy, person, days)
            for person in trip.party
            if person.age_years >= EER_FROM_YEARS
        ),
        standing=_offered(
            partial(_standing, day, meal, step)
            for day in days
            for meal in day.meals
            if _is_boiled_pot(meal)
            for step in meal.steps
            if step.do == "rest" and step.minutes >= STANDS_FROM_MIN
        ),
        treating=_offered(
            partial(_treating, day)
            for day in days
            if day.is_treated("chemical") or day.is_treated("boil")
        ),
        sweating=_offered(
            partial(_sweating, trip.person(own.name), day, own)
            for day in days
            if day.travel_hours > 0
            for own in day.people
        ),
        snow=_offered(
            partial(_snow, day, hearth) for day in days if day.conditions.water_source == "snow"
        ),
        oxygen=_offered(
            partial(_oxygen, judged, room_ml)
            for judged in batches
            if (room_ml := _room_for_oxygen_ml(judged, content)) is not None
        ),
        guides=drying_guides(lines, batches, content),
        loads=tuple(dryer_loads(batches, content)),
        soaking=tuple(soakings(days, content)),
        cold_gas=tuple(
            each for each in _offered(partial(cold_gas, day, hearth) for day in days) if each
        ),
        irons=tuple(iron_heats(days, hearth.irons)),
        pressure=tuple(under_pressure(days, hearth.pots, content)),
        needs_more=tuple(each for person in trip.party for each in needs_more(person, days)),
        wood_g=wood_range_g(trip, days, hearth),
        density_kcal_g=_density_kcal_g(days),
        bags_swell_times=largest(
            *(work(bag_swelling, _SEA_LEVEL_HPA, day.conditions.pressure_hpa) for day in days)
        ),
    )


def look_sources(looks: Looks) -> set[str]:
    """Give the sources that the second looks of a kit rest on."""
    named = {source for each in looks.energy for source, _ in each.kcal_by_source}
    named |= {source for guide in looks.guides for source in guide.sources}
    named |= {source for topic in topics(looks.guides) for source in NOTES_BY[topic]}
    named |= {source for each in looks.needs_more for source in each.sources}
    resting = (
        (looks.labels, ("eu-1169-2011", "eu-tolerances-2012", "cfr-101-9")),
        (looks.people, ("efsa-protein-2012", "acsm-nutrition-2016", "who-salt-2012")),
        (looks.treating, ("epa-emergency-disinfection", "cdc-backcountry-water")),
        (looks.sweating, ("gonzalez2009", "tb-med-507", "wms-eah")),
        (looks.loads, ("freeze-drying-chapter", "murphy-koop2005", "siebel1892")),
        (looks.soaking, ("extension-rehydration", "msu-preserving", "fsis-two-hours")),
        (looks.cold_gas, ("reid1987", "common-practice")),
        (looks.pressure, ("iapws-if97", "iso2533", "mansfield1962", "potato-cooking-rate")),
        (looks.wood_g, ("wood-species", "iso18125")),
        (looks.irons, ("crc-handbook", "hand-test", "common-practice")),
    )
    return named.union(*(sources for each, sources in resting if each))


Look = TypeVar("Look")


def _offered(looks: Iterable[Callable[[], Look]]) -> tuple[Look, ...]:
    """Give those looks that the formulas allow: a second look stops no plan."""
    found: list[Look] = []
    for look in looks:
        try:
            found.append(look())
        except ValueError:
            continue
    return tuple(found)


# -- food -----------------------------------------------------------------------------------------


def _label(day: KitDay, meal: PlannedMeal) -> MealLabel:
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
        day=day.day,
        meal=meal.meal,
        title=meal.title,
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


def _density_kcal_g(days: Sequence[KitDay]) -> float:
    mass_g = add(meal.mass_g for day in days for meal in day.meals)
    energy_kcal = add(meal.nutrition.energy_kcal for day in days for meal in day.meals)
    # Without food there is none in a gram of it either.
    return work(energy_density_kcal_g, energy_kcal, mass_g) if mass_g else energy_kcal


def _person_food(person: Person, days: Sequence[KitDay]) -> PersonFood:
    meals = [meal for day in days for meal in day.meals]
    energy = eaten_kcal(meals, person.name)
    protein = eaten(meals, person.name, lambda meal: meal.nutrition.protein_g)
    sodium = eaten(meals, person.name, lambda meal: meal.nutrition.sodium_mg)
    least_g, most_g = work_range(active_protein_range_g, person.mass_kg)
    # Meals at home count as days not eaten from the bag.
    parts = add(1 - home_share(day.home) for day in days) or counted(1, "days")
    return PersonFood(
        name=person.name,
        energy_kcal=energy / parts,
        protein_g=protein / parts,
        protein_need_g=days[0].person(person.name).protein_need_g,
        protein_active_g=(least_g, most_g),
        salt_g=work(salt_g, sodium) / parts,
    )


def _energy(person: Person, days: Sequence[KitDay]) -> EnergyLook:
    found = [
        whole_day_kcal(person, day.travel_hours, day.person(person.name).travel_kcal)
        for day in days
    ]
    number = counted(len(days), "days")
    means = {source: add(each[source] for each in found) / number for source in found[0]}
    spread = work(spread_share, tuple(means.values()))
    return EnergyLook(person.name, tuple(means.items()), spread)


# -- standing food --------------------------------------------------------------------------------


def _is_boiled_pot(meal: PlannedMeal) -> bool:
    boiled = any(step.do in ("boil", "simmer") for step in meal.steps)
    return boiled and meal.cook_in == "pot" and meal.potfuls > 0


def _standing(day: KitDay, meal: PlannedMeal, step: PlannedStep) -> Standing:
    """Say how hot a boiled pot still is after a long rest, standing free or in a cosy."""
    mass_g = (meal.mass_g + meal.water_ml - meal.drain_ml) / meal.potfuls
    water_g = largest(meal.food_water_ml, 0.0) / meal.potfuls
    specific = work(siebel_kj_kg_k, smallest(water_g / mass_g, 1.0))
    bare, bare_min = _cooled("pot-lid" if step.lid else "pot-open", meal, step, mass_g, specific)
    cosy, cosy_min = _cooled("pot-lid-cosy", meal, step, mass_g, specific)
    return Standing(
        day=day.day,
        meal=meal.meal,
        title=meal.title,
        minutes=step.minutes,
        lid=step.lid,
        bare_c=bare,
        cosy_c=cosy,
        bare_above_60_min=bare_min,
        cosy_above_60_min=cosy_min,
    )


def _cooled(
    vessel: str, meal: PlannedMeal, step: PlannedStep, mass_g: float, specific: float
) -> tuple[tuple[float, float, float], float]:
    """Give least, likely and most, and the likely minutes above 60 °C; at the camp's lowest air."""
    at = meal.conditions
    losses = work_range(loss_range_w_k, vessel, mass_g, at.wind)
    constants = [work(time_constant_min, mass_g, specific, loss) for loss in losses]
    hottest, likely, coldest = (
        work(cooled_c, at.boiling_point_c, at.air_low_c, step.minutes, constant)
        for constant in constants
    )
    above_min = work(minutes_above, at.boiling_point_c, at.air_low_c, constants[1], _HOT_HOLDING_C)
    return (coldest, likely, hottest), above_min


# -- water ----------------------------------------------------------------------------------------


def _treating(day: KitDay) -> Treating:
    at = day.conditions
    cold = at.water_c < COLD_WATER_C
    return Treating(
        day=day.day,
        how=at.treat,
        volume_ml=day.water.treat_ml,
        drops_per_litre=count(bleach_drops, _A_LITRE_ML, BLEACH_SHARE, cold),
        cold=cold,
        contact_min=work(contact_min, "chlorine", smallest(at.water_c, WARMEST_WATER_C)),
        boil_min=work(boil_hold_min, at.altitude_m),
        strict_boil_min=work(strict_boil_min, at.altitude_m),
    )


def _sweating(person: Person, day: KitDay, own: PersonDay) -> Sweating:
    """Compare planned drinking with sweat; refused where day or work lie outside the equation."""
    power_w = own.travel_kcal / day.travel_hours * KJ_PER_KCAL * 1000 / 3600
    air_c = day.conditions.air_high_c
    surface_m2 = work(body_surface_m2, person.mass_kg, person.height_cm)
    required = work(required_evaporation_w_m2, power_w, surface_m2, air_c, _USUAL_CLO, _NO_SUN_W_M2)
    dry, damp = (
        work(sweat_ml_h, work(osec_g_m2_h, required, most), surface_m2)
        for most in (
            work(most_evaporation_w_m2, air_c, humidity, _USUAL_PERMEABILITY)
            for humidity in (DRY_AIR_SHARE, DAMP_AIR_SHARE)
        )
    )
    return Sweating(day.day, own.name, own.rate_ml_h, dry, damp)


def _snow(day: KitDay, hearth: Hearth) -> SnowWork:
    water_ml = day.water.total_ml
    rooms = [pot.room_ml for pot in hearth.pots if pot.room_ml]
    firm, fluffy = (
        count(snow_potfuls, water_ml, density, largest(*rooms)) if rooms else none("potfuls")
        for density in (FIRM_SNOW_KG_M3, FLUFFY_SNOW_KG_M3)
    )
    return SnowWork(
        day=day.day,
        water_ml=water_ml,
        firm_l=work(snow_l, water_ml, FIRM_SNOW_KG_M3),
        fluffy_l=work(snow_l, water_ml, FLUFFY_SNOW_KG_M3),
        potfuls_firm=firm,
        potfuls_fluffy=fluffy,
    )


# -- packs ----------------------------------------------------------------------------------------


def _room_for_oxygen_ml(judged: Judged, content: Content) -> float | None:
    """Give the room of a batch's pack, where an absorber is in it and the packing tells it."""
    packs = judged.batch.packs
    if packs is None or not packs.absorber or packs.packaging is None:
        return None
    return content.gear.packaging[packs.packaging].holds_ml


def _oxygen(judged: Judged, room_ml: float) -> PackOxygen:
    """Give the oxygen in the void of one pack, and the absorber for it."""
    solid_ml = work(solid_volume_ml, judged.pack_g, judged.residual_share)
    oxygen_ml = work(pack_oxygen_ml, room_ml, solid_ml, _CLOSED_AT_M)
    return PackOxygen(judged.batch.id, oxygen_ml, work(absorber_size_ml, oxygen_ml))
