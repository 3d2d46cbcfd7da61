"""What everything weighs, how the load falls day by day, and who carries what."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.figure import (
    Figure,
    add,
    counted,
    found,
    guarded,
    largest,
    named,
    nothing,
)
from builder.model.gear import Iron, Pot, Stove
from builder.model.kit import (
    Carried,
    FuelDay,
    KitFuel,
    PersonLoad,
    WaterDay,
    Weights,
)
from builder.model.trip import GROWN_UP_YEARS, DefaultUsed, Person, Trip
from builder.planning.carrying.depots import carried_left_g, depots_of, food_items
from builder.planning.carrying.mornings import by_morning_g, left_g
from builder.planning.carrying.tied import share_out_tied
from builder.planning.cooking import Hearth
from builder.planning.menu import MenuItem
from builder.problems import Problem, ProblemsFound
from builder.speech import Speech, later, speech_of

# Where nobody told what they carry to: a share of body mass. Adults from leaders' guidance
# (read in a copy), children after paediatric advice on backpacks (read in a copy).
UNTOLD_LIMIT_SHARE = named(0.20, "untold_limit_share", "common-practice")
UNTOLD_CHILD_LIMIT_SHARE = named(0.10, "untold_child_limit_share", "common-practice")
LITRE_G = named(1000.0, "litre_g", "common-practice")
# Who carries what is searched for; each one's load hangs on it.
_SHARED_OUT = found(1.0, "shared_out", "the fullest pack as light as can be")


def limit_g(person: Person) -> float:
    """Give what a person carries to, or a share of their mass where it is not told."""
    if person.carries_to_g is not None:
        return person.carries_to_g
    return _untold_share(person) * person.mass_kg * 1000


def _untold_share(person: Person) -> Figure:
    grown_up = person.age_years >= GROWN_UP_YEARS
    return UNTOLD_LIMIT_SHARE if grown_up else UNTOLD_CHILD_LIMIT_SHARE


def defaults_taken(trip: Trip, say: Speech) -> tuple[DefaultUsed, ...]:
    """Say what was taken where the trip does not tell, packs' limits too."""
    limits = tuple(
        DefaultUsed(
            later("what {name} carries to"),
            later("{share} % of body mass"),
            later("the trip does not tell carries_to"),
            (("name", person.name), ("share", f"{_untold_share(person) * 100:.0f}")),
        )
        for person in trip.party
        if person.carries_to_g is None
    )
    return tuple(_said(each, say) for each in (*trip.defaults, *limits))


def _said(default: DefaultUsed, say: Speech) -> DefaultUsed:
    blanks = dict(default.blanks)
    return DefaultUsed(
        say(default.what, **blanks),
        say(default.value, **blanks),
        say(default.why, **blanks),
        default.blanks,
    )


def gear_items(trip: Trip, hearth: Hearth) -> tuple[Carried, ...]:
    """Give stoves, pots, irons and shared gear, each whole."""
    items = [_gear(each.stove, "stove", name=each.name) for each in hearth.stoves]
    items += [_gear(each) for each in hearth.pots]
    items += [_gear(each) for each in hearth.irons]
    items += [
        Carried(gear.name, gear.mass_g, "gear", carried_by=gear.carried_by, known_as=(gear.name,))
        for gear in trip.gear_shared
    ]
    return tuple(items)


def _gear(each: Stove | Pot | Iron, *known_as: str, name: str = "") -> Carried:
    return Carried(name or each.name, each.mass_g, "gear", known_as=(each.id, *known_as))


def fuel_items(fuel: KitFuel, say: Speech) -> tuple[Carried, ...]:
    """Give each full container; fuel without containers of its own is one thing to carry."""
    if fuel.carry_g <= 0:
        return ()
    if not fuel.containers:
        return (Carried(fuel.name, fuel.carry_g, "fuel", known_as=("fuel", fuel.id)),)
    return tuple(
        Carried(
            f"{fuel.name}, {say.number(each.holds_g)} g",
            each.holds_g + each.empty_g,
            "fuel",
            known_as=("fuel", fuel.id),
        )
        for each in fuel.containers
        for _ in range(each.count)
    )


def weights(
    trip: Trip,
    hearth: Hearth,
    menus: Sequence[Sequence[MenuItem]],
    fuels: Sequence[KitFuel],
    fuel_days: Sequence[FuelDay],
    *,
    waters: Sequence[WaterDay],
) -> Weights:
    """Give all weights, and share everything out, each thing whole to one person."""
    gear = gear_items(trip, hearth)
    say = speech_of(trip.language)
    cans = [can for fuel in fuels for can in fuel_items(fuel, say)]
    gear_g = add(each.mass_g for each in gear)
    fuel_g = add(each.mass_g for each in cans)
    water_most_g = largest(*(day.carry_ml for day in waters))
    food_g = add(each.planned.mass_g for menu in menus for each in menu)
    packaging_g = add(each.planned.packaging_g for menu in menus for each in menu)
    food = food_items(menus, say, trip.depots)
    eaten = [each.planned for menu in menus for each in menu]
    food_left_g = carried_left_g(
        left_g(food_g, [add(each.planned.mass_g for each in menu) for menu in menus]),
        food,
        [each.mass_g for each in eaten],
    )
    packets_g = carried_left_g(
        [packaging_g for _ in menus], food, [each.packaging_g for each in eaten]
    )
    fuel_left_g = left_g(fuel_g, [day.fuel_g for day in fuel_days])
    things = [*food, *cans, *gear, *_litres(water_most_g, say)]
    return Weights(
        food_g=food_g,
        packaging_g=packaging_g,
        fuel_g=fuel_g,
        gear_g=gear_g,
        water_most_g=water_most_g,
        people=_people(
            trip, things, by_morning_g(things, menus, fuel_left_g, waters, LITRE_G), menus
        ),
        food_left_g=food_left_g,
        fuel_left_g=fuel_left_g,
        by_day_g=tuple(
            food_g + packet_g + gear_g + fuel + water.carry_ml
            for food_g, packet_g, fuel, water in zip(
                food_left_g, packets_g, fuel_left_g, waters, strict=True
            )
        ),
        depots=depots_of(trip, food),
    )


def _litres(water_g: float, say: Speech) -> list[Carried]:
    whole = counted(int(float(water_g) // float(LITRE_G)), "litres")
    things = [Carried(say("Water, 1 l"), LITRE_G, "water") for _ in range(whole)]
    rest_g = water_g - whole * LITRE_G
    if rest_g > 1e-6:
        things.append(Carried(say("Water, part of a litre"), rest_g, "water"))
    return things


def _food_left_g(
    carries: Sequence[Carried], menus: Sequence[Sequence[MenuItem]]
) -> tuple[float, ...]:
    """Give the food in one pack each morning, the packets of what is eaten with it."""
    food = [each for each in carries if each.meal is not None]
    eaten = [
        add(menu[each.meal[1]].planned.mass_g for each in food if each.meal and each.meal[0] == day)
        for day, menu in enumerate(menus, start=1)
    ]
    left = left_g(guarded(add(each.mass_g for each in food), _SHARED_OUT), eaten)
    return carried_left_g(left, food, [each.mass_g for each in food])


def _people(
    trip: Trip,
    things: Sequence[Carried],
    mornings_g: Sequence[Sequence[float]],
    menus: Sequence[Sequence[MenuItem]],
) -> tuple[PersonLoad, ...]:
    limits = [limit_g(person) for person in trip.party]
    if things and not any(limits):
        raise ProblemsFound(
            [
                Problem(
                    trip.places.of("party"),
                    "nobody-carries",
                    "nobody of this party carries anything",
                    "write `carries_to: 14 kg` for at least one person",
                )
            ]
        )
    say = speech_of(trip.language)
    own = [person.own_gear_g or nothing("own_gear_g") for person in trip.party]
    owners = share_out_tied(
        trip,
        things,
        [tuple(map(float, each)) for each in mornings_g],
        [float(each) for each in own],
        [float(each) for each in limits],
    )
    loads = []
    for number, person in enumerate(trip.party):
        carries = [each for each, owner in zip(things, owners, strict=True) if owner == number]
        if own[number] > 0:
            carries.insert(0, Carried(say("Own gear"), own[number], "own"))
        rest_g = [
            each
            for thing, each, owner in zip(things, mornings_g, owners, strict=True)
            if owner == number and thing.meal is None
        ]
        food_left_g = _food_left_g(carries, menus)
        by_day_g = tuple(
            guarded(add((own[number], food_g, *(each[morning] for each in rest_g))), _SHARED_OUT)
            for morning, food_g in enumerate(food_left_g)
        )
        total_g = largest(*by_day_g)
        limit = limits[number]
        of_limit = total_g / limit if limit > 0 else nothing("of_limit")
        loads.append(
            PersonLoad(person.name, total_g, limit, of_limit, tuple(carries), by_day_g, food_left_g)
        )
    return tuple(loads)
