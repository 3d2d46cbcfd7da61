"""A page for each person: what I must not eat, what I carry, what I bring, what I eat and drink."""

from __future__ import annotations

import re
import unicodedata

from builder.model.kit import (
    HOWS,
    Carried,
    How,
    Kit,
    KitDay,
    KitPerson,
    LeftOut,
    PersonLoad,
    PlannedMeal,
    Refused,
)
from builder.model.recipe import MEALS
from builder.pages import words
from builder.pages.figures import Figures, figures_of
from builder.pages.pieces import Cell, Fact, Piece, Table, filled, join, link, table, text
from builder.pages.trip.addresses import at_day, at_person, day_path
from builder.pages.trip.cautions import Box
from builder.pages.trip.day import leg_said
from builder.pages.trip.dishes.cook import Anchors
from builder.pages.trip.dishes.plates import are_uneven
from builder.pages.trip.menu_grid import day_cell, meal_cell, menu_grid
from builder.pages.trip.placing import boxes_of_person, pack_line
from builder.pages.trip.supplies.depots import waits_said
from builder.pages.trip.supplies.food import grams
from builder.pages.trip.untold import untold_of_person
from builder.planning.menu import avoided_said, plate_share
from builder.record import dataclass, replace
from builder.speech import Speech, later, with_capital
from builder.units import rounded

_NOT_IN_A_SLUG = re.compile(r"[^a-z0-9]+")
_LONGEST_SLUG = 40
_CARRY_ORDER = ("own", "gear", "fuel", "food")
_MEAL_OF = {
    "breakfast": later("Day\u00a0{n} breakfast"),
    "lunch": later("Day\u00a0{n} lunch"),
    "dinner": later("Day\u00a0{n} dinner"),
    "snacks": later("Day\u00a0{n} snacks"),
    "drinks": later("Day\u00a0{n} hot drinks"),
}


@dataclass(frozen=True, slots=True)
class CarriedLine:
    """One thing in the pack, to tick off."""

    mass: Cell
    what: Cell
    see_to: Cell = ()


@dataclass(frozen=True, slots=True)
class PersonPage:
    """All that is one person's own."""

    path: str
    name: str
    pack: Cell
    boxes: tuple[Box, ...]
    avoids: str
    on_plate: tuple[Cell, ...]  # what the menu gives them all the same
    traces: tuple[Cell, ...]  # on their plate, and may hold it
    untold: tuple[Cell, ...]  # on their plate, and nobody told its allergens
    with_others: tuple[Cell, ...]
    carries: tuple[CarriedLine, ...]
    brings: tuple[Cell, ...]
    by_day: Table
    ways: tuple[Fact, ...]  # how long, with what load, and what it takes
    eats: Table  # a row a day, a column a meal
    left_out: tuple[str, ...]
    not_told: str  # of them, with what is taken instead


def person_paths(kit: Kit) -> tuple[str, ...]:
    """Give the path of each one's page, in the order of the party; none in a public kit."""
    if kit.public:
        return ()
    taken: set[str] = set()
    paths = []
    for place, person in enumerate(kit.party, start=1):
        plain = slug(person.name) or str(place)
        wanted, again = plain, 1
        while wanted in taken:
            again += 1
            wanted = f"{plain}-{again}"
        taken.add(wanted)
        paths.append(f"person-{wanted}.md")
    return tuple(paths)


def slug(name: str) -> str:
    """Give a name as a file may be called everywhere: a to z, 0 to 9 and hyphens, or nothing."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return _NOT_IN_A_SLUG.sub("-", plain)[:_LONGEST_SLUG].strip("-")


def person_pages(kit: Kit, anchors: Anchors) -> tuple[PersonPage, ...]:
    """Give a page for each of the party."""
    figures = figures_of(kit)
    loads = {load.name: load for load in kit.weights.people}
    return tuple(
        _page(kit, figures, path, person, loads.get(person.name), anchors=anchors)
        for path, person in zip(person_paths(kit), kit.party, strict=False)
    )


def _page(
    kit: Kit,
    figures: Figures,
    path: str,
    person: KitPerson,
    load: PersonLoad | None,
    *,
    anchors: Anchors,
) -> PersonPage:
    return PersonPage(
        path,
        person.name,
        pack(kit, figures, load) if load and load.total_g else (),
        boxes_of_person(kit, person.name),
        _avoids(figures.say, person),
        _on_plate(kit, figures.say, person, anchors),
        _packets(kit, figures.say, person, "may-contain", anchors),
        _packets(kit, figures.say, person, "not-told", anchors),
        _with_others(kit, figures.say, person, anchors),
        _carries(kit, figures, load, anchors) if load else (),
        _brings(kit, figures, load),
        _by_day(kit, figures, person.name),
        _ways(kit, figures, person.name),
        _eats(kit, figures, person.name, anchors),
        tuple(_left_out_said(figures, each) for each in person.left_out),
        untold_of_person(kit, person.name),
    )


def _avoids(say: Speech, person: KitPerson) -> str:
    """Say what somebody must not eat, with the capital that begins a line in every language."""
    said = say.listed(dict.fromkeys(avoided_said(say, word) for word in person.avoids))
    return with_capital(said)


def pack(kit: Kit, figures: Figures, load: PersonLoad) -> Cell:
    """Say what a pack weighs, and how much of the limit that is."""
    at = at_person("weights", kit.weights.people, load.name)
    total = figures.both(load.total_g, "mass_g", f"{at}.total_g")
    if load.limit_g <= 0:
        return total
    return filled(
        figures.say("{pack} of {limit} at most, {share} of the limit"),
        pack=total,
        limit=text(figures.plain(load.limit_g, "mass_g")),
        share=text(figures.percent(load.of_limit)),
    )


_PERHAPS: dict[How, str] = {
    "may-contain": later("{food} (may contain it)"),
    "not-told": later("{food} (contents not given)"),
}


def _on_plate(kit: Kit, say: Speech, person: KitPerson, anchors: Anchors) -> tuple[Cell, ...]:
    """Give what they eat that is told not to be for them, meal by meal."""
    return tuple(
        dict.fromkeys(
            _refused_said(kit, say, each, anchors)
            for each in person.refused
            if each.eats and each.how == "told"
        )
    )


def _packets(
    kit: Kit, say: Speech, person: KitPerson, how: How, anchors: Anchors
) -> tuple[Cell, ...]:
    """Give what they eat whose packet is to be read, food by food, with its meals."""
    meals: dict[str, dict[Cell, None]] = {}
    for each in person.refused:
        if each.eats and each.how == how:
            found = meals.setdefault(each.what, {})
            found[_meal_linked(kit, say, each, anchors)] = None
    return tuple(
        (*text(food), Piece(": "), *join(tuple(found), "; ")) for food, found in meals.items()
    )


def _meal_linked(kit: Kit, say: Speech, each: Refused, anchors: Anchors) -> Cell:
    """Name a meal, leading to its steps or else to its day."""
    day = kit.days[each.day - 1]
    name = say(_MEAL_OF[day.meals[each.place].meal], n=each.day)
    return link(name, _steps_of(day, each.place, anchors))


def _with_others(kit: Kit, say: Speech, person: KitPerson, anchors: Anchors) -> tuple[Cell, ...]:
    """Give what others eat beside them, the gravest first."""
    return tuple(
        dict.fromkeys(
            _perhaps(say, how, _refused_said(kit, say, each, anchors))
            for how in HOWS
            for each in person.refused
            if not each.eats and each.how == how
        )
    )


def _perhaps(say: Speech, how: How, food: Cell) -> Cell:
    return filled(say(_PERHAPS[how]), food=food) if how in _PERHAPS else food


def _refused_said(kit: Kit, say: Speech, each: Refused, anchors: Anchors) -> Cell:
    day = kit.days[each.day - 1]
    meal = day.meals[each.place]
    when = link(say(_MEAL_OF[meal.meal], n=day.day), f"{day_path(day)}#{meal.meal}")
    dish = link(meal.title, anchors.get((day.day, each.place), ""))
    if not meal.recipe:
        return (*when, Piece(": "), *dish)
    line = say("{meal}: {food} in {dish}")
    return filled(line, meal=when, food=text(each.what), dish=dish)


def _left_out_said(figures: Figures, each: LeftOut) -> str:
    """Say that a meal passes somebody by, or that a day feeds them too little."""
    say = figures.say
    if each.meal is None:
        share = figures.percent(each.energy_share)
        return say(
            "Day {n}: your food gives {share} of what the day takes from you. "
            "The party as a whole has enough.",
            n=each.day,
            share=share,
        )
    when = say(_MEAL_OF[each.meal], n=each.day)
    if each.meant:
        return say("{meal}: nothing for you, as intended.", meal=when)
    return say("{meal}: the others eat, and nothing is planned for you.", meal=when)


def _carries(
    kit: Kit, figures: Figures, load: PersonLoad, anchors: Anchors
) -> tuple[CarriedLine, ...]:
    """Give the pack's things; water together, since nobody weighs it litre by litre."""
    say = figures.say
    lines = [
        CarriedLine(
            figures.both(thing.mass_g, "mass_g"),
            link(thing.what, anchors.get(thing.meal, "") if thing.meal else ""),
            (*waits_said(say, thing), *pack_line(kit, thing)),
        )
        for thing in in_order(load)
    ]
    if water := water_g(load):
        most = text(say("Water, where the most is carried"))
        lines.append(CarriedLine(figures.both(water, "volume_ml"), most))
    return tuple(lines)


def in_order(load: PersonLoad) -> list[Carried]:
    """Give the things of a pack but its water, what is one's own first."""
    things = (thing for thing in load.carries if thing.kind != "water")
    return sorted(things, key=lambda thing: _CARRY_ORDER.index(thing.kind))


def water_g(load: PersonLoad | None) -> float:
    """Give the water of a pack, all together."""
    things = load.carries if load else ()
    return sum(thing.mass_g for thing in things if thing.kind == "water")


def _brings(kit: Kit, figures: Figures, load: PersonLoad | None) -> tuple[Cell, ...]:
    """Say what each one brings from home besides the shared things."""
    say = figures.say
    things: list[Cell] = []
    own_g = sum(thing.mass_g for thing in (load.carries if load else ()) if thing.kind == "own")
    if own_g:
        mass = figures.both(own_g, "mass_g")
        things.append(filled(say("Your own gear, packed: {mass} at most"), mass=mass))
    else:
        things.append(text(say("Your own gear: no weight is counted for it here")))
    mug = figures.both(kit.mug_ml, "volume_ml")
    things.append(filled(say("A mug of {volume}: all amounts in mugs mean this one"), volume=mug))
    if water := water_g(load):
        room = figures.both(water, "volume_ml")
        things.append(filled(say("Bottles or bags for {volume} water"), volume=room))
    return tuple(things)


def _by_day(kit: Kit, figures: Figures, name: str) -> Table:
    say = figures.say
    rows: list[tuple[Cell, ...]] = []
    for day in kit.days:
        own = next((each for each in day.people if each.name == name), None)
        if own is None:
            continue
        at = at_person(at_day(day), day.people, name)
        protein_g = rounded(own.food_protein_g)
        need_g = Piece(grams(say, rounded(own.protein_need_g)), figures.how(f"{at}.protein_need_g"))
        rows.append(
            (
                link(words.day_name(say, day), day_path(day)),
                figures.alone(own.to_drink_ml, "volume_ml", f"{at}.to_drink_ml"),
                _of_need(
                    say,
                    figures.alone(own.food_kcal, "energy_kcal", f"{at}.food_kcal")[0],
                    figures.alone(own.energy_need_kcal, "energy_kcal", f"{at}.energy_need_kcal")[0],
                ),
                _of_need(
                    say,
                    Piece(grams(say, protein_g), figures.how(f"{at}.food_protein_g")),
                    need_g,
                ),
            )
        )
    return table((say("Day"), say("Drink"), say("Food"), say("Protein")), rows, "lrrr")


def _of_need(say: Speech, has: Piece, needs: Piece) -> Cell:
    """Give what is on the plates, and under it what the body asks for."""
    return (
        has,
        Piece(" "),
        replace(needs, text=say("need {energy}", energy=needs.text), small=True),
    )


def _ways(kit: Kit, figures: Figures, name: str) -> tuple[Fact, ...]:
    """Give somebody's way of each day: hours, load, and what it takes."""
    say = figures.say
    found = []
    for day in kit.days:
        own = next((each for each in day.people if each.name == name), None)
        legs = [leg for leg in day.legs if not leg.goers or name in leg.goers]
        if own is None or not any(leg.hours_on_way for leg in legs):
            continue
        told = join([leg_said(figures, leg, name_goers=False) for leg in legs], "; ")
        if not own.travel_hours:
            found.append(Fact(words.day_name(say, day), told))
            continue
        at = at_person(at_day(day), day.people, name)
        if len(day.legs) == 1:  # its page tells it
            told = text(figures.plain(own.travel_hours, "hours"))
        said = later("{time} with {load}: {energy}")
        if not own.load_g:
            said = later("{time} without a load: {energy}")
        told = filled(
            say(said),
            time=told,
            load=figures.both(own.load_g, "mass_g", f"{at}.load_g"),
            energy=figures.alone(own.travel_kcal, "energy_kcal", f"{at}.travel_kcal"),
        )
        if own.travel_low_kcal is not None and own.travel_high_kcal is not None:
            span = figures.span(own.travel_low_kcal, own.travel_high_kcal, "energy_kcal")
            likely = Piece(span, figures.how(f"{at}.travel_high_kcal"))
            told = (*told, *filled(say(", likely {range}"), range=(likely,)))
        found.append(Fact(words.day_name(say, day), told))
    return tuple(found)


def _eats(kit: Kit, figures: Figures, name: str, anchors: Anchors) -> Table:
    """Give what somebody eats, a row for each day and a column for each meal."""
    say = figures.say
    eaten = {
        (day.day, when): join(
            [
                _dish(figures, meal, name, _steps_of(day, place, anchors))
                for place, meal in enumerate(day.meals)
                if meal.meal == when and name in meal.eaters
            ]
        )
        for day in kit.days
        for when in MEALS
    }
    meals = [when for when in MEALS if any(eaten[day.day, when] for day in kit.days)]
    rows = [
        (
            day_cell(say, day),
            *(meal_cell(say, when, eaten[day.day, when]) for when in meals),
        )
        for day in kit.days
        if any(eaten[day.day, when] for when in meals)
    ]
    return menu_grid(say, meals, rows)


def _steps_of(day: KitDay, place: int, anchors: Anchors) -> str:
    """Give where a dish is cooked, or else where its day tells of the meal."""
    return anchors.get((day.day, place), "") or f"{day_path(day)}#{day.meals[place].meal}"


def _dish(figures: Figures, meal: PlannedMeal, name: str, href: str) -> Cell:
    share = plate_share(meal, name)
    dish = (Piece(meal.title, href=href),)
    if not meal.recipe:
        return (*dish, Piece(f" {figures.plain(meal.mass_g * share, 'mass_g')}"))
    if are_uneven(figures, meal):
        part = text(figures.percent(share))
        return filled(figures.say("{dish} ({share} of it)"), dish=dish, share=part)
    return dish
