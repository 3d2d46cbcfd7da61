"""The first page: what to do next, then the trip at a glance."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.model.kit import Kit, KitDay
from builder.model.recipe import MealName
from builder.pages import words
from builder.pages.charts import Chart, energy_chart, profile_chart
from builder.pages.figures import Figures, figures_of
from builder.pages.pieces import Cell, Fact, Table, filled, join, link, text
from builder.pages.trip.addresses import at_person, day_path
from builder.pages.trip.day import energy_share
from builder.pages.trip.dishes.cook import Anchors, cook_link
from builder.pages.trip.placing import Front, front
from builder.pages.trip.supplies.carry import short_carry
from builder.pages.trip.supplies.fuel import container_sizes, containers, likely_fuel, likely_wood
from builder.speech import Speech

_ON_THE_CLOCK: tuple[MealName, ...] = ("breakfast", "lunch", "dinner")


@dataclass(frozen=True, slots=True)
class DayLine:
    """A day in one line."""

    day: Cell
    date: str
    iso: str
    where: Cell
    dinner: Cell
    number: str
    meals: tuple[tuple[MealName, Cell], ...]  # each leading to what is eaten then


@dataclass(frozen=True, slots=True)
class GlancePage:
    """The trip at a glance."""

    title: str
    when: str
    before_you_go: tuple[Cell, ...]
    days: tuple[DayLine, ...]
    facts: tuple[Fact, ...]
    front: Front
    carry: Table | None  # None in a public kit
    energy_chart: Chart
    profile_chart: Chart | None
    notes: str
    standing: str
    has_content: bool  # whether the kit carries the files to start the next trip from


def glance_page(kit: Kit, anchors: Anchors) -> GlancePage:
    """Give the first page."""
    figures = figures_of(kit)
    return GlancePage(
        kit.title,
        trip_dates(figures.say, kit),
        tuple(_at_home(kit, figures)),
        tuple(day_line(kit, day, anchors) for day in kit.days),
        _facts(kit, figures),
        front(kit),
        short_carry(kit, figures),
        energy_chart(kit),
        profile_chart(kit),
        kit.notes,
        kit.standing.text,
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
    if kit.fuel and kit.fuel.containers:
        taken = link(containers(kit.fuel, figures), "fuel.md")
        things.append(filled(say("Take fuel: {containers}"), containers=taken))
    if kit.weights.people:  # a public kit tells no packs
        packs = link(say.of("share out", "packs"), "carry.md")
        things.append(filled(say("Share out the {packs}"), packs=packs))
    return things


def day_line(kit: Kit, day: KitDay, anchors: Anchors) -> DayLine:
    """Give one day: date, camp and dinner."""
    figures = figures_of(kit)
    say = figures.say
    dinners = [
        cook_link(meal, anchors.get((day.day, number), ""))
        for number, meal in enumerate(day.meals)
        if meal.meal == "dinner"
    ]
    return DayLine(
        link(words.day_name(say, day), day_path(day)),
        say.date(day.date) if day.date else "",
        day.date.isoformat() if day.date else "",
        _where(figures, day),
        join(dinners),
        str(day.day),
        tuple(_meals(say, day, join(dinners))),
    )


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


def _meals(say: Speech, day: KitDay, dinners: Cell) -> Iterator[tuple[MealName, Cell]]:
    """Lead to each meal of the day: to the dinner's own steps, to the others on the day's page."""
    eaten = {meal.meal for meal in day.meals}
    for name in _ON_THE_CLOCK:
        if name == "dinner" and dinners:
            yield name, filled(say("Dinner: {dishes}"), dishes=dinners)
        elif name in eaten:
            yield name, link(say(words.MEALS[name]), f"{day_path(day)}#{name}")


def _facts(kit: Kit, figures: Figures) -> tuple[Fact, ...]:
    say = figures.say
    weights = kit.weights
    facts = [Fact(say("Who goes"), text(say.listed(each.name for each in kit.party)))]
    facts = facts if kit.public else []
    facts += [
        Fact(say("Food"), figures.both(weights.food_g, "mass_g", "weights.food_g")),
        Fact(
            say("Food energy"),
            energy_share(
                figures,
                (kit.nutrition.energy_kcal, "nutrition.energy_kcal"),
                (kit.energy_need_kcal, "energy_need_kcal"),
            ),
        ),
        Fact(
            say("Most water carried"),
            figures.both(weights.water_most_g, "volume_ml", "weights.water_most_g"),
        ),
    ]
    if kit.fuel:
        facts.append(Fact(say("Fuel likely burnt"), likely_fuel(kit.fuel, figures)))
        sizes = link(container_sizes(kit.fuel, figures), "fuel.md")
        facts.append(Fact(say("Fuel to take"), sizes))
    if kit.wood_g:
        facts.append(Fact(say("Dry wood"), likely_wood(kit, figures)))
    if weights.people:
        heaviest = max(weights.people, key=lambda each: each.total_g)
        at = at_person("weights", weights.people, heaviest.name)
        mass = figures.both(heaviest.total_g, "mass_g", f"{at}.total_g")
        facts.append(Fact(say("Heaviest pack, {name}", name=heaviest.name), mass))
    return tuple(facts)
