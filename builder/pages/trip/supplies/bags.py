"""The page to pack by: each bag as a list to tick off, what is used last going in first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.kit import Carried, Kit, PersonLoad, Utensil
from builder.pages.figures import Figures, figures_of
from builder.pages.pieces import Cell, Piece, filled, link, text
from builder.pages.trip.addresses import at_person
from builder.pages.trip.people import CarriedLine, person_paths, water_g
from builder.pages.trip.placing import pack_line
from builder.pages.trip.supplies.depots import depot_said, waits_said
from builder.record import dataclass
from builder.speech import later, with_capital

BAGS = "bags.md"
# When in its day something is eaten: what is nibbled or drunk on the way goes with lunch.
_IN_ITS_DAY = {"breakfast": 0, "lunch": 1, "snacks": 1, "drinks": 1, "dinner": 2}
_AT_CAMP = (1, _IN_ITS_DAY["dinner"])  # when the first camp's things come out
_DEEPEST_FIRST = ("own", "food", "fuel", "gear")  # of what is used at the same time
_MOST_NAMED = 3  # dishes; of more nobody reads the names
_UNTIL = {
    "breakfast": later("Stays cold until breakfast on day {n}."),
    "lunch": later("Stays cold until lunch on day {n}."),
    "dinner": later("Stays cold until dinner on day {n}."),
    "snacks": later("Stays cold until the snacks on day {n}."),
    "drinks": later("Stays cold until the hot drinks on day {n}."),
}


@dataclass(frozen=True, slots=True)
class Bag:
    """What goes into one bag, in the order in which it is packed."""

    anchor: str
    name: str
    href: str  # of its owner's page
    weighs: tuple[Cell, ...]
    lines: tuple[CarriedLine, ...]


@dataclass(frozen=True, slots=True)
class BagsPage:
    """All bags."""

    bags: tuple[Bag, ...]
    whole: tuple[CarriedLine, ...]  # of a crowd: a bag a line, what is in it on its owner's page
    cold: tuple[CarriedLine, ...]
    cold_until: str
    depots: tuple[Bag, ...]
    utensils: tuple[Cell, ...]
    not_told: str


def bags_page(kit: Kit, crowd: bool = False) -> BagsPage:
    """Give each bag to pack; of a crowd each one's mass alone."""
    figures = figures_of(kit)
    people = kit.weights.people
    paths = person_paths(kit) or tuple("" for _ in people)
    until = kit.chilled_until
    whole = zip(people, paths, strict=True) if crowd else ()
    return BagsPage(
        ()
        if crowd
        else tuple(
            _bag(kit, figures, each, number, href)
            for number, (each, href) in enumerate(zip(people, paths, strict=True), start=1)
            if each.carries
        ),
        tuple(
            CarriedLine(figures.both(packed_g(each), "mass_g"), link(each.name, href))
            for each, href in whole
        ),
        tuple(_line(kit, figures, thing, of) for of, thing in _in_the_cool_bag(kit)),
        figures.say(_UNTIL[until[1]], n=until[0]) if until else "",
        tuple(_depots(kit, figures)),
        tuple(_utensil(figures, each) for each in kit.utensils.all),
        figures.say.listed(kit.utensils.not_told),
    )


def packed_g(load: PersonLoad) -> float:
    """Give what a bag weighs as it is packed at home: without water, and what waits at a camp."""
    return sum(each.mass_g for each in _packed(load))


def _packed(load: PersonLoad) -> list[Carried]:
    return [each for each in load.carries if each.kind != "water" and each.from_camp is None]


def in_packing_order(kit: Kit, things: Sequence[Carried]) -> list[Carried]:
    """Give things so that what is used last comes first: it goes in first and lies deepest."""

    meals = {(day.day, place): meal for day in kit.days for place, meal in enumerate(day.meals)}
    cooked = ((day, _IN_ITS_DAY[meal.meal]) for (day, _), meal in meals.items() if meal.cooked_on)
    first_cooked = min(cooked, default=_AT_CAMP)

    def first_used(thing: Carried) -> tuple[int, int]:
        if thing.meal in meals:
            return thing.meal[0], _IN_ITS_DAY[meals[thing.meal].meal]
        return _AT_CAMP if thing.kind == "own" else first_cooked

    def key(thing: Carried) -> tuple[int, int, int]:
        day, when = first_used(thing)
        return (-day, -when, _DEEPEST_FIRST.index(thing.kind))

    return sorted(things, key=key)


def _bag(kit: Kit, figures: Figures, load: PersonLoad, number: int, href: str) -> Bag:
    say = figures.say
    cold = frozenset(kit.chilled)
    packed = [each for each in _packed(load) if each.meal not in cold]
    lines = [_line(kit, figures, each) for each in in_packing_order(kit, packed)]
    if water := water_g(load):
        bottles = text(say("Bottles on top: fill them in the morning"))
        lines.append(CarriedLine(figures.both(water, "volume_ml"), bottles))
    at = at_person("weights", kit.weights.people, load.name)
    weighs: list[Cell] = [
        filled(
            say("Packed at home, without water: {mass}."),
            mass=figures.both(packed_g(load), "mass_g"),
        )
    ]
    if load.by_day_g:
        weighs.append(
            filled(
                say("On the first morning, with that day's water: {mass}."),
                mass=figures.both(load.by_day_g[0], "mass_g", f"{at}.by_day_g.0"),
            )
        )
    taken = [each for each in load.carries if each.from_camp is not None]
    weighs += [
        (*text(say("From a depot: {what}", what=each.what)), *waits_said(say, each))
        for each in taken
    ]
    return Bag(f"bag-{number}", load.name, href, tuple(weighs), tuple(lines))


def _line(kit: Kit, figures: Figures, thing: Carried, whose: str = "") -> CarriedLine:
    name = figures.say("{what} ({name})", what=thing.what, name=whose) if whose else thing.what
    return CarriedLine(figures.both(thing.mass_g, "mass_g"), text(name), pack_line(kit, thing))


def _in_the_cool_bag(kit: Kit) -> Iterator[tuple[str, Carried]]:
    """Give what is kept cold, and who carries it."""
    cold = frozenset(kit.chilled)
    for load in kit.weights.people:
        kept = [each for each in _packed(load) if each.meal in cold]
        yield from ((load.name, thing) for thing in in_packing_order(kit, kept))


def _depots(kit: Kit, figures: Figures) -> Iterator[Bag]:
    """Give what is left at each camp before the trip, and who carries it on from there."""
    say = figures.say
    for number, depot in enumerate(kit.weights.depots):
        there = [
            (load.name, thing)
            for load in kit.weights.people
            for thing in load.carries
            if thing.from_camp == depot.camp
        ]
        yield Bag(
            f"depot-{number + 1}",
            say("Depot at the camp of day {n}", n=depot.camp),
            "",
            (depot_said(figures, depot, f"weights.depots.{number}.mass_g"),),
            tuple(_line(kit, figures, thing, name) for name, thing in there),
        )


def _utensil(figures: Figures, each: Utensil) -> Cell:
    """Name a thing that dishes need, in whose bag it is, and the dishes."""
    say = figures.say
    told = later("{thing}: not on the trip's list of gear. Who brings it?")
    if each.carried_by:
        told = later("{thing}: {name} has it.")
    said = say(told, thing=with_capital(each.name), name=each.carried_by or "")
    dishes = say("For {dishes}.", dishes=say.listed(each.dishes))
    if len(each.dishes) > _MOST_NAMED:
        dishes = say.count("For {n} dish.", "For {n} dishes.", len(each.dishes))
    return (Piece(said, strong=not each.carried_by), Piece(" "), Piece(dishes))
