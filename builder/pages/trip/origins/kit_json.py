"""The kit as data: all that was computed, unrounded, under names that stay."""

from __future__ import annotations

import math
from collections.abc import Iterable

from builder.model.as_data import picked
from builder.model.figure import nothing, whole
from builder.model.kit import (
    Kit,
    KitBatch,
    KitDay,
    KitFuel,
    KitPerson,
    OrderOfWork,
    PersonDay,
    PersonLoad,
    PlannedMeal,
    PlannedStep,
    Refused,
    Spot,
    WorkStep,
)
from builder.model.learned import Reviewed
from builder.model.mishaps import Mishap
from builder.pages.citing import citation
from builder.pages.trip.dishes.work_said import what
from builder.record import asdict, names_of
from builder.speech import speech_of

FORMAT = "trip-kit"
VERSION = 2

Data = dict[str, object]

_INGREDIENT = "id name food recipe amount_g dried_by batch packs chosen"
_BAKING = "baking_c ember_pieces ember_pieces_below palm_s"
_BATCH = """
    id name fresh_name method food recipe fresh_g dried_g water_share water_removed_g water_back_ml
    taken_up_ml residual_moisture dry_limit dry_enough target_g to_go_g verdict act tests in_dryer
    dried_on planned planned_for best_before kept_at_told months reasons packs_used packs_left
    pack_g notes residual_low residual_high water_activity water_activity_low water_activity_high
    loaded_at_c sublimation_kwh
"""


def kit_data(kit: Kit) -> Data:
    """Give all that was computed, as `kit.schema.json` describes it.

    Names and identifiers are the same in all languages; texts are in the language of the trip.
    """
    say = speech_of(kit.language)
    return {
        "format": FORMAT,
        "version": VERSION,
        "trip": _trip(kit),
        "days": [_day(kit, day) for day in kit.days],
        "nutrition": asdict(kit.nutrition),
        "energy_need_kcal": kit.energy_need_kcal,
        "fuel": _fuel(kit),
        **_without_empty({"other_fuels": [_one_fuel(kit, each) for each in kit.fuels[1:]]}),
        **_utensils(kit),
        "wood": {
            "likely_g": kit.wood_g,
            "low_g": kit.wood_low_g,
            "high_g": kit.wood_high_g,
            "by_species_g": kit.wood_by_species_g,
        },
        "batches": [_batch(batch) for batch in kit.batches],
        "weights": _weights(kit),
        "cautions": [
            picked(each, "id level title text because where at aloud sources")
            | {"at": _spot(each.at)}
            for each in kit.cautions
        ],
        "standing": kit.standing.text,
        "shopping": [
            picked(line, "food name mass_g buy_g shelf dry_by dried_g used_in batch dry_on")
            for line in kit.shopping
        ],
        "proposals": [
            picked(each, "food name batch mass_g packs best_before kept_at_told")
            for each in kit.proposals
        ],
        "coming": [
            picked(each, "food name batch mass_g in_dryer planned_for") for each in kit.coming
        ],
        "defaults": [picked(each, "what value why") for each in kit.defaults],
        "sources": [
            {"id": source.id, "citation": citation(say, source), "how": source.how}
            for source in kit.sources
        ],
        "density_kcal_g": kit.density_kcal_g,
        "bags_swell_times": kit.bags_swell_times,
        "guides": [asdict(each) for each in kit.guides],
        "learned": {
            name: asdict(factor) if (factor := getattr(kit.learned, name)) else None
            for name in names_of(type(kit.learned))
        },
        "review": _review(kit.review) if kit.review else None,
        "mishaps": [_mishap(each) for each in kit.mishaps],
    }


def _mishap(each: Mishap) -> Data:
    """Give what goes wrong, dishes by their day and their place in it."""

    def dishes(places: Iterable[tuple[int, int]]) -> list[Data]:
        return [{"day": day, "place": place} for day, place in places]

    told = {
        **asdict(each),
        "cold": dishes(each.cold),
        "uneaten": dishes(each.uneaten),
        "still": [picked(person, "name kcal") for person in each.still],
    }
    return {key: value for key, value in told.items() if value not in (None, "", [], (), 0)}


def _review(was: Reviewed) -> Data:
    """Give what was, each amount under the unit it is in."""
    units = {"fuel": "g", "wood": "g", "water": "ml", "food": "kcal"}
    return {
        **{
            name: {
                f"used_{unit}": against.used,
                f"planned_{unit}": against.planned,
                "ratio": against.ratio,
            }
            if (against := getattr(was, name))
            else None
            for name, unit in units.items()
        },
        "water_days": [asdict(each) for each in was.water_days],
        "left": [asdict(each) for each in was.left],
        "took": [asdict(each) for each in was.took],
        "marks": [asdict(each) for each in was.marks],
        "notes": was.notes,
    }


def _without_empty(data: Data) -> Data:
    """Leave out what the schema tells a default for: nothing, none, no words and no list.

    There are thousands of such records in a large kit, each with much that it has nothing of.
    """
    return {key: each for key, each in data.items() if each not in (None, "", [], 0)}


def _which(**places: int | None) -> Data:
    """Give places in lists: the first is at 0, which is not nothing."""
    return {name: place for name, place in places.items() if place is not None}


def _spot(at: Spot) -> Data:
    day, place = at.meal or (0, 0)
    where = {**asdict(at), "meal": {"day": day, "place": place} if at.meal else None}
    return _without_empty(where) | _which(step=at.step)


def _trip(kit: Kit) -> Data:
    return {
        **picked(kit, "id title start units language mug_ml shelter notes"),
        "party": [
            {
                "name": person.name,
                "energy_share": None if kit.public else person.energy_share,
                "energy_need_kcal": None if kit.public else person.energy_need_kcal,
                "refused": [_refused(kit, each) for each in person.refused],
                "left_out": [asdict(each) for each in person.left_out],
                **_looked_at_person(person),
            }
            for person in kit.party
        ],
    }


def _looked_at_person(person: KitPerson) -> Data:
    """Give the second looks at a person, the methods of the energy need by their source."""
    methods = person.energy_by_method
    return _without_empty(
        {
            "food": asdict(person.food) if person.food else None,
            "energy_by_method": {
                "kcal_by_source": dict(methods.kcal_by_source),
                "spread_share": methods.spread_share,
            }
            if methods
            else None,
            "needs_more": [asdict(each) for each in person.needs_more],
        }
    )


def _looks(record: PlannedStep | PlannedMeal | KitDay | KitBatch, *names: str) -> Data:
    """Give the second looks at something; where there is none, its name is left out."""
    looks = {name: getattr(record, name) for name in names}
    return {name: asdict(look) for name, look in looks.items() if look is not None}


def _refused(kit: Kit, each: Refused) -> Data:
    """Give a food that is not, or may not be, for somebody, with the meal's place in its day."""
    meal = kit.days[each.day - 1].meals[each.place]
    return {"day": each.day, "meal": meal.meal, **picked(each, "place what eats how")}


def _day(kit: Kit, day: KitDay) -> Data:
    here = day.conditions
    return {
        **picked(day, "day date title"),
        "camp_altitude_m": here.altitude_m,
        **picked(here, "pressure_hpa boiling_point_c time_factor air_low_c air_high_c wind"),
        **picked(here, "water_source treat water_c"),
        "ends_home": day.ends_home,
        "travel": {
            "by": day.travel_by,
            "hours": day.travel_hours,
            **picked(day, "distance_m ascent_m descent_m between_water_h"),
            "legs": [
                {
                    "by": leg.by,
                    "hours": leg.hours_on_way,
                    **picked(leg, "distance_m ascent_m descent_m"),
                    "goers": [] if kit.public else list(leg.goers),
                }
                for leg in (day.legs if len(day.legs) > 1 else ())
            ],
        },
        "meals": [_meal(kit, meal) for meal in day.meals],
        "order_of_work": [_order(kit, day, order) for order in day.orders],
        "people": [_person_day(person) for person in day.people],
        "energy_kcal": day.nutrition.energy_kcal,
        "energy_need_kcal": day.energy_need_kcal,
        "nutrition": asdict(day.nutrition),
        "water": {**asdict(day.water), "minutes": day.fuel.water_minutes},
        "fuel_g": day.fuel.fuel_g,
        "fuel_low_g": day.fuel.low_g,
        "fuel_high_g": day.fuel.high_g,
        "wood_g": day.fuel.wood_g,
        "wood_low_g": day.fuel.wood_low_g,
        "wood_high_g": day.fuel.wood_high_g,
        "heat": picked(day.fuel, "meals_kj melting_kj boiling_water_kj"),
        "minutes": day.minutes,
        "notes": day.notes,
        **_looks(day, "treating", "snow", "light"),
        **_cold_gases(day),
        **_without_empty(
            {"stoves": [asdict(each) for each in day.fuel.stoves] if kit.stove_names else []}
        ),
    }


def _utensils(kit: Kit) -> Data:
    """Give what dishes are cooked in and with, and what is not told; none in a public kit."""
    if kit.public:
        return {}
    all_of_them = [
        {"what": each.name, "dishes": list(each.dishes), "carried_by": each.carried_by}
        for each in kit.utensils.all
    ]
    not_told = list(kit.utensils.not_told)
    return _without_empty({"utensils": all_of_them, "utensils_not_told": not_told})


def _cold_gases(day: KitDay) -> Data:
    """Give what cold leaves of the gas, under the name that a trip with one stove has, first."""
    looks = [asdict(each) for each in day.cold_gases]
    return {"cold_gas": looks[0], **_without_empty({"other_cold_gas": looks[1:]})} if looks else {}


def _person_day(person: PersonDay) -> Data:
    told = asdict(person)
    if person.sweat is None:
        del told["sweat"]
    return told


def _meal(kit: Kit, meal: PlannedMeal) -> Data:
    return {
        **picked(meal, "meal title recipe food"),
        "eaters": whole(meal.heads),
        "names": [] if kit.public else list(meal.eaters),
        "plate_shares": list(meal.plate_shares) if meal.recipe and not kit.public else [],
        **picked(meal, "allergens may_contain not_told mass_g packaging_g"),
        "energy_kcal": meal.nutrition.energy_kcal,
        "nutrition": asdict(meal.nutrition),
        **picked(meal, "water_ml soak_water_ml food_water_ml potfuls presses heat_kj fuel_heat_kj"),
        **picked(meal, "wood_g minutes"),
        **_without_empty(
            {
                **picked(meal, "drain_ml embers_min reach_c pot"),
                "stove": meal.stove if kit.stove_names else None,
                "begins_in": meal.begins_in,
                "ladles": asdict(meal.ladles) if meal.ladles and not kit.public else None,
                "pots": _pots(meal),
            }
        ),
        **_looks(meal, "label", "irons"),
        "ingredients": [_without_empty(picked(each, _INGREDIENT)) for each in meal.ingredients],
        "steps": [_without_empty(_step(step)) for step in meal.steps],
    }


def _pots(meal: PlannedMeal) -> list[Data]:
    """Give each pot of a dish that is parted: its own, and what is taken out of it."""
    other = meal.parting
    if other is None:
        return []
    both = (
        (meal.heads, meal.mass_g, meal.water_ml, meal.minutes),
        (other.heads, other.mass_g, other.water_ml, other.minutes),
    )
    return [
        {"eaters": whole(heads), "mass_g": mass_g, "water_ml": water_ml, "minutes": minutes}
        for heads, mass_g, water_ml, minutes in both
    ]


def _order(kit: Kit, day: KitDay, order: OrderOfWork) -> Data:
    return {
        "meal": order.meal,
        "start_min": order.start_min,
        "entries": [
            {**_work(kit, day, step), "what": what(kit, day, order, step)} for step in order.steps
        ],
    }


def _work(kit: Kit, day: KitDay, step: WorkStep) -> Data:
    meal = day.meals[step.place] if step.place is not None else None
    told: Data = {
        **picked(step, "before_min minutes do"),
        "recipe": meal.recipe if meal is not None else None,
        "with": list(step.ingredients),
        "water_ml": step.water_ml,
        "potful": step.potful,
        "potfuls": step.potfuls if step.potfuls > 1 else None,
        "presses": step.presses,
        "occupies": step.on,
        "stove": step.stove if kit.stove_names else None,
        "pot": step.pot,
    }
    return _without_empty(told) | _which(place=step.place, step=step.step)


def _step(step: PlannedStep) -> Data:
    return {
        "do": step.do,
        "with": [each.id for each in step.ingredients],
        **picked(step, "water_ml taken_up_ml broth_ml together"),
        "in_pot": [{"amount_g": each.amount_g} for each in step.ingredients if step.together],
        **picked(step, "minutes minutes_at_sea_level each_side_min presses pieces"),
        **(picked(step, _BAKING) if step.do == "bake" else {}),
        "say": step.say,
        **_looks(step, "keeps_hot", "soaking", "under_pressure"),
    }


def _fuel(kit: Kit) -> Data:
    """Give the fuel; a trip without a stove has none of it, under the same names."""
    if kit.fuel is None:
        none_g = nothing("fuel_g", "no stove")
        return {"id": None, "likely_g": none_g, "carry_g": none_g, "containers": []}
    return _one_fuel(kit, kit.fuel)


def _one_fuel(kit: Kit, fuel: KitFuel) -> Data:
    return {
        **picked(fuel, "id name stove energy_mj_kg likely_g reserve_share carry_g"),
        "containers": [picked(each, "holds_g empty_g count") for each in fuel.containers],
        **picked(fuel, "efficiency_share low_g high_g no_lid_low_g no_lid_high_g"),
        "test": asdict(fuel.test) if fuel.test else None,
        **_without_empty(
            {"stoves": [asdict(each) for each in fuel.stoves] if kit.stove_names else []}
        ),
    }


def _batch(batch: KitBatch) -> Data:
    return {
        **picked(batch, _BATCH),
        "run": asdict(batch.run) if batch.run else None,
        **_looks(batch, "oxygen", "load"),
    }


def _weights(kit: Kit) -> Data:
    weights = kit.weights
    return {
        **picked(weights, "food_g packaging_g fuel_g gear_g water_most_g"),
        "people": [_load(each) for each in weights.people],
        **picked(weights, "food_left_g fuel_left_g by_day_g"),
        "depots": [picked(each, "camp holds mass_g") for each in weights.depots],
    }


def _load(each: PersonLoad) -> Data:
    return {
        **picked(each, "name total_g limit_g"),
        "of_limit": each.of_limit if math.isfinite(each.of_limit) else None,
        "carries": [picked(thing, "what mass_g kind") for thing in each.carries],
        **picked(each, "by_day_g food_left_g"),
    }
