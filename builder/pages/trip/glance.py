"""The first page: what to do next, the menu, what to watch out for, figures as lines."""

from __future__ import annotations

import json
from collections.abc import Iterator

from builder.model.kit import Kit, KitDay
from builder.model.recipe import MEALS, MealName
from builder.pages import words
from builder.pages.charts import Chart, profile_chart, way_chart
from builder.pages.figures import Figures, figures_of, number
from builder.pages.pictures import Shown, shown
from builder.pages.pieces import Cell, Fact, Mark, Piece, Table, filled, join, link, text
from builder.pages.trip.addresses import at_person, day_path
from builder.pages.trip.afterwards.since import Since, since_of
from builder.pages.trip.day import energy_share, has_page, meal_path
from builder.pages.trip.dishes.cook import Anchors
from builder.pages.trip.dishes.meals import screens
from builder.pages.trip.dishes.work_said import what
from builder.pages.trip.light import eaten_at
from builder.pages.trip.menu_grid import day_cell, meal_cell, menu_grid
from builder.pages.trip.people import person_paths
from builder.pages.trip.placing import Front, front
from builder.pages.trip.supplies.bags import BAGS
from builder.pages.trip.supplies.carry import short_carry
from builder.pages.trip.supplies.fuel import container_sizes, containers, likely_fuels, likely_wood
from builder.pages.trip.untold import people_not_told
from builder.record import dataclass, replace
from builder.speech import Speech
from builder.units import rounded

_FOODS_PARTED_BY = "; "  # since names of foods hold commas


@dataclass(frozen=True, slots=True)
class DayLine:
    """A day in one line."""

    day: Cell
    date: str
    iso: str
    where: Cell
    number: str


@dataclass(frozen=True, slots=True)
class GlancePage:
    """The trip at a glance."""

    title: str
    when: str
    who: str  # where no page tells what each of them carries
    before_you_go: tuple[Cell, ...]
    days: tuple[DayLine, ...]
    menu: Table  # a row for each day, a column for each mealtime
    facts: tuple[Fact, ...]
    figures: tuple[Cell, ...]  # each leading to its page
    front: Front
    carry: Table | None  # None in a public kit
    profile_chart: Chart | None
    notes: str
    picture: Shown | None
    standing: str
    since: Since | None  # what changed since the kit that the companions have
    has_content: bool  # whether the kit carries the files to start the next trip from


def glance_page(kit: Kit, anchors: Anchors) -> GlancePage:
    """Give the first page."""
    figures = figures_of(kit)
    return GlancePage(
        kit.title,
        trip_dates(figures.say, kit),
        figures.say.listed(each.name for each in kit.party) if kit.public else "",
        tuple(_at_home(kit, figures)),
        tuple(_day_line(figures, day) for day in kit.days),
        _menu(kit, figures, anchors),
        _facts(kit, figures),
        tuple(_lines(kit, figures)),
        front(kit),
        short_carry(kit, figures),
        way_chart(kit) or profile_chart(kit),
        kit.notes,
        shown(kit.picture),
        kit.standing.text,
        since_of(kit, figures),
        not kit.public,
    )


def trip_dates(say: Speech, kit: Kit) -> str:
    """Give first and last date, how many days, how many people."""
    days = say.count("{n} day", "{n} days", len(kit.days))
    people = say.count("{n} person", "{n} people", len(kit.party))
    first, last = kit.days[0].date, kit.days[-1].date
    if not first or not last:
        return say("{days}, {people}", days=days, people=people)
    if first == last:
        return say("{date}. {days}, {people}", date=say.date(first), days=days, people=people)
    return say(
        "{first} to {last}. {days}, {people}",
        first=say.date(first),
        last=say.date(last),
        days=days,
        people=people,
    )


def _at_home(kit: Kit, figures: Figures) -> list[Cell]:
    """Say what is to be done at home first."""
    say = figures.say
    things: list[Cell] = []
    if asked := people_not_told(kit, "avoids"):
        pages = dict(zip((each.name for each in kit.party), person_paths(kit), strict=True))
        names = join([link(name, pages[name]) for name in asked])
        things.append(
            filled(say("Ask what they must not eat, it is not given: {names}"), names=names)
        )
    unproven = sum(each.verdict == "undecided" for each in kit.batches)
    failed = sum(each.failed for each in kit.batches)
    # What planned batches ask for stands on the shopping list with all else.
    to_dry = sum(each.dry_by is not None and each.dry_by != "bought" for each in kit.shopping)
    if failed:
        batches = link(say.count("{n} batch", "{n} batches", failed), "drying.md")
        things.append(filled(say("Not fit to eat, see what to do: {batches}"), batches=batches))
    if unproven:
        batches = link(say.count("{n} batch", "{n} batches", unproven), "drying.md")
        things.append(filled(say("Test whether it is dry: {batches}"), batches=batches))
    if to_dry:
        foods = link(say.count("{n} food", "{n} foods", to_dry), "drying.md")
        things.append(filled(say("Still to dry: {foods}"), foods=foods))
    if kit.shopping:
        lines = link(say.count("{n} thing", "{n} things", len(kit.shopping)), "shopping.md")
        things.append(filled(say("Buy: {things}"), things=lines))
    if any(each.containers for each in kit.fuels):
        taken = link(containers(kit.fuels, figures), "fuel.md")
        things.append(filled(say("Take fuel: {containers}"), containers=taken))
    if kit.weights.people:  # a public kit tells no packs
        packs = link(say.of("share out", "packs"), "carry.md")
        things.append(filled(say("Share out the {packs}"), packs=packs))
        packed = sum(bool(each.carries) for each in kit.weights.people)
        bags = link(say.count("{n} bag", "{n} bags", packed), BAGS)
        things.append(filled(say("Pack, and tick off: {bags}"), bags=bags))
    return things


def _day_line(figures: Figures, day: KitDay) -> DayLine:
    """Give one day: date, way and camp."""
    say = figures.say
    return DayLine(
        link(words.day_name(say, day), day_path(day)),
        say.date(day.date) if day.date else "",
        day.date.isoformat() if day.date else "",
        _where(figures, day),
        str(day.day),
    )


def _menu(kit: Kit, figures: Figures, anchors: Anchors) -> Table:
    """Give what is eaten when, the foods by name."""
    say = figures.say
    names = [
        name for name in MEALS if any(meal.meal == name for day in kit.days for meal in day.meals)
    ]
    rows = [
        (
            (*day_cell(say, day, _on_day(day)), *_where_small(figures, day)),
            *(_eaten(kit, say, day, name, anchors) for name in names),
        )
        for day in kit.days
    ]
    return menu_grid(say, names, rows)


def _on_day(day: KitDay) -> Mark | None:
    """Tell the date of a day to the script of the page."""
    if not day.date:
        return None
    return Mark("on-day", (("date", day.date.isoformat()), ("day", str(day.day))))


def _where_small(figures: Figures, day: KitDay) -> Cell:
    """Say in small, in one unit, which way the day goes, and where it ends."""
    told = "".join(piece.text for piece in _where(figures, day) if not piece.small)
    return (Piece(" "), Piece(told.strip(), small=True))


def _eaten(kit: Kit, say: Speech, day: KitDay, name: MealName, anchors: Anchors) -> Cell:
    """Give what is eaten at one time, leading to its steps, or to where they are told."""
    dishes = [(place, meal) for place, meal in enumerate(day.meals) if meal.meal == name]
    if not dishes:
        return meal_cell(say, name, ())
    foods = _FOODS_PARTED_BY.join(dict.fromkeys(meal.title for _, meal in dishes))
    order = next((each for each in day.orders if each.meal == name and has_page(each)), None)
    told: tuple[tuple[str, str], ...] = (("meal", name),)
    if eat := eaten_at(kit, name):
        told += (("eat", eat),)
    href = f"{day_path(day)}#{name}"
    if order:
        href = meal_path(day, name)
        lines = tuple(screens(day, order))
        told += (
            ("start", number(rounded(order.start_min))),
            ("steps", str(len(lines))),
            ("first", " ".join(what(kit, day, order, step) for step in lines[0])),
        )
    elif len(dishes) == 1:
        href = anchors.get((day.day, dishes[0][0]), href)
    if refused := _refused(kit, day, {place for place, _ in dishes}):
        told += (("refused", json.dumps(refused, ensure_ascii=False)),)
    return meal_cell(say, name, link(foods, href), told)


def _refused(kit: Kit, day: KitDay, places: set[int]) -> dict[str, list[list[str]]]:
    """Give what each must not eat at one time, and that of which the packet is to be read first.

    A public kit tells of nobody what they must not eat.
    """
    found: dict[str, list[list[str]]] = {}
    for person in () if kit.public else kit.party:
        here = [each for each in person.refused if each.day == day.day and each.place in places]
        told = dict.fromkeys(each.what for each in here if each.how == "told")
        unsure = dict.fromkeys(each.what for each in here if each.eats and each.how != "told")
        if told or unsure:
            found[person.name] = [list(told), [what for what in unsure if what not in told]]
    return found


def _where(figures: Figures, day: KitDay) -> Cell:
    """Say which way the day goes, and where it ends."""
    say = figures.say
    way = text(day.title)
    if day.ends_home:
        return filled(say("{way}, home"), way=way) if day.title else text(say("home"))
    height = figures.both(day.conditions.altitude_m, "altitude_m")
    if day.title:
        return filled(say("{way}, camp at {height}"), way=way, height=height)
    return filled(say("camp at {height}"), height=height)


def _lines(kit: Kit, figures: Figures) -> Iterator[Cell]:
    """Give the figures of the trip as lines, each leading to the page that tells more."""
    say = figures.say
    for page, fact in _figures_by_page(kit, figures):
        yield filled(
            say("{what}: {figure}"),
            what=link(fact.name, page),
            figure=tuple(replace(piece, href="") for piece in fact.value),
        )


def _figures_by_page(kit: Kit, figures: Figures) -> Iterator[tuple[str, Fact]]:
    """Go through the figures that no table of the first page tells."""
    say = figures.say
    yield from _food_and_water(kit, figures)
    if kit.fuels:
        yield "fuel.md", Fact(say("Fuel likely burnt"), likely_fuels(kit.fuels, figures))
    if kit.wood_g:
        yield "fuel.md", Fact(say("Dry wood"), likely_wood(kit, figures))


def _food_and_water(kit: Kit, figures: Figures) -> Iterator[tuple[str, Fact]]:
    say = figures.say
    weights = kit.weights
    food = figures.both(weights.food_g, "mass_g", "weights.food_g")
    yield "carry.md", Fact(say("Food"), food)
    share = energy_share(
        figures,
        (kit.nutrition.energy_kcal, "nutrition.energy_kcal"),
        (kit.energy_need_kcal, "energy_need_kcal"),
    )
    yield "food.md", Fact(say("Food energy"), share)
    most = figures.both(weights.water_most_g, "volume_ml", "weights.water_most_g")
    yield "water.md", Fact(say("Most water carried"), most)


def _facts(kit: Kit, figures: Figures) -> tuple[Fact, ...]:
    say = figures.say
    weights = kit.weights
    facts: list[Fact] = []
    if kit.public:
        facts.append(Fact(say("Who goes"), text(say.listed(each.name for each in kit.party))))
    facts += [fact for _, fact in _food_and_water(kit, figures)]
    if kit.fuels:
        facts.append(Fact(say("Fuel likely burnt"), likely_fuels(kit.fuels, figures)))
        sizes = link(container_sizes(kit.fuels, figures), "fuel.md")
        facts.append(Fact(say("Fuel to take"), sizes))
    if kit.wood_g:
        facts.append(Fact(say("Dry wood"), likely_wood(kit, figures)))
    if weights.people:
        heaviest = max(weights.people, key=lambda each: each.total_g)
        at = at_person("weights", weights.people, heaviest.name)
        mass = figures.both(heaviest.total_g, "mass_g", f"{at}.total_g")
        facts.append(Fact(say("Heaviest pack, {name}", name=heaviest.name), mass))
    return tuple(facts)
