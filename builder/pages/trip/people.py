"""A page for each person: what I must not eat, what I carry, what I bring, what I eat and drink."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass, replace

from builder.model.kit import Kit, KitDay, KitPerson, PersonLoad, PlannedMeal
from builder.model.recipe import MEALS
from builder.pages import words
from builder.pages.figures import Figures, figures_of
from builder.pages.pieces import Cell, Fact, Piece, Table, filled, join, link, table, text
from builder.pages.trip.cautions import Box
from builder.pages.trip.cook import Anchors
from builder.pages.trip.placing import boxes_of_person, pack_line
from builder.planning.menu import avoided_said
from builder.speech import Speech, later

_NOT_IN_A_SLUG = re.compile(r"[^a-z0-9]+")
_LONGEST_SLUG = 40
_CARRY_ORDER = ("own", "gear", "fuel", "food", "water")
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
    with_others: tuple[Cell, ...]
    carries: tuple[CarriedLine, ...]
    brings: tuple[Cell, ...]
    by_day: Table
    eats: tuple[Fact, ...]


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
        _page(kit, figures, path, person, loads.get(person.name), anchors)
        for path, person in zip(person_paths(kit), kit.party, strict=False)
    )


def _page(
    kit: Kit,
    figures: Figures,
    path: str,
    person: KitPerson,
    load: PersonLoad | None,
    anchors: Anchors,
) -> PersonPage:
    return PersonPage(
        path,
        person.name,
        pack(figures, load) if load and load.total_g else (),
        boxes_of_person(kit, person.name),
        _avoids(figures.say, person),
        _refused(kit, figures.say, person, True, anchors),
        _refused(kit, figures.say, person, False, anchors),
        _carries(kit, figures, load, anchors) if load else (),
        _brings(kit, figures, load),
        _by_day(kit, figures, person.name),
        tuple(
            Fact(words.day_and_date(figures.say, day), eaten)
            for day in kit.days
            if (eaten := _eats(figures, day, person.name, anchors))
        ),
    )


def _avoids(say: Speech, person: KitPerson) -> str:
    """Say what somebody must not eat, with the capital that begins a line in every language."""
    said = say.listed(dict.fromkeys(avoided_said(say, word) for word in person.avoids))
    return f"{said[:1].upper()}{said[1:]}"


def pack(figures: Figures, load: PersonLoad) -> Cell:
    """Say what a pack weighs, and how much of the limit that is."""
    total = figures.both(load.total_g, "mass_g", f"weights.people.{load.name}.total_g")
    if load.limit_g <= 0:
        return total
    return filled(
        figures.say("{pack} of {limit} at most, {share} of the limit"),
        pack=total,
        limit=text(figures.plain(load.limit_g, "mass_g")),
        share=text(figures.percent(load.of_limit)),
    )


def _refused(
    kit: Kit, say: Speech, person: KitPerson, eats: bool, anchors: Anchors
) -> tuple[Cell, ...]:
    found: list[Cell] = []
    for each in person.refused:
        if each.eats != eats:
            continue
        day = kit.days[each.day - 1]
        meal = day.meals[each.place]
        when = link(say(_MEAL_OF[meal.meal], n=day.day), f"day-{day.day}.md#{meal.meal}")
        dish = link(meal.title, anchors.get((day.day, each.place), ""))
        if meal.recipe:
            line = say("{meal}: {food} in {dish}")
            found.append(filled(line, meal=when, food=text(each.what), dish=dish))
        else:
            found.append((*when, Piece(": "), *dish))
    return tuple(dict.fromkeys(found))


def _carries(
    kit: Kit, figures: Figures, load: PersonLoad, anchors: Anchors
) -> tuple[CarriedLine, ...]:
    """Give the pack's things; water together, since nobody weighs it litre by litre."""
    say = figures.say
    things = sorted(load.carries, key=lambda thing: _CARRY_ORDER.index(thing.kind))
    lines = [
        CarriedLine(
            figures.both(thing.mass_g, "mass_g"),
            link(thing.what, anchors.get(thing.meal, "") if thing.meal else ""),
            pack_line(kit, thing),
        )
        for thing in things
        if thing.kind != "water"
    ]
    if water_g := _water_g(load):
        most = text(say("Water, where the most is carried"))
        lines.append(CarriedLine(figures.both(water_g, "volume_ml"), most))
    return tuple(lines)


def _water_g(load: PersonLoad | None) -> float:
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
    if water_g := _water_g(load):
        room = figures.both(water_g, "volume_ml")
        things.append(filled(say("Bottles or bags for {volume} water"), volume=room))
    return tuple(things)


def _by_day(kit: Kit, figures: Figures, name: str) -> Table:
    say = figures.say
    rows: list[tuple[Cell, ...]] = []
    for number, day in enumerate(kit.days):
        at = f"days.{number}.people.{name}"
        own = next((each for each in day.people if each.name == name), None)
        if own is None:
            continue
        (needs,) = figures.alone(own.energy_need_kcal, "energy_kcal", f"{at}.energy_need_kcal")
        rows.append(
            (
                link(words.day_name(say, day), f"day-{day.day}.md"),
                figures.alone(own.to_drink_ml, "volume_ml", f"{at}.to_drink_ml"),
                (
                    Piece(figures.plain(eaten_kcal(day.meals, name), "energy_kcal")),
                    Piece(" "),
                    replace(needs, text=say("need {energy}", energy=needs.text), small=True),
                ),
            )
        )
    return table((say("Day"), say("Drink"), say("Food")), rows, "lrr")


def eaten_kcal(meals: Sequence[PlannedMeal], name: str) -> float:
    """Give the food energy of what one person gets of some meals."""
    return sum(meal.nutrition.energy_kcal * _share(meal, name) for meal in meals)


def _share(meal: PlannedMeal, name: str) -> float:
    return dict(zip(meal.eaters, meal.plate_shares, strict=True)).get(name, 0.0)


def _eats(figures: Figures, day: KitDay, name: str, anchors: Anchors) -> Cell:
    """Give what somebody eats on a day, meal by meal."""
    meals: list[Cell] = []
    for when in MEALS:
        dishes = [
            _dish(figures, meal, name, anchors.get((day.day, place), ""))
            for place, meal in enumerate(day.meals)
            if meal.meal == when and name in meal.eaters
        ]
        if dishes:
            meals.append((Piece(f"{figures.say(words.MEALS[when])}: "), *join(dishes), Piece(".")))
    return join(meals, " ")


def _dish(figures: Figures, meal: PlannedMeal, name: str, href: str) -> Cell:
    share = _share(meal, name)
    dish = (Piece(meal.title, href=href),)
    if not meal.recipe:
        return (*dish, Piece(f" {figures.plain(meal.mass_g * share, 'mass_g')}"))
    uneven = len({figures.percent(each) for each in meal.plate_shares}) > 1
    if uneven and meal.cook_in != "mug":
        part = text(figures.percent(share))
        return filled(figures.say("{dish} ({share} of it)"), dish=dish, share=part)
    return dish
