"""The first page: what to do next, then the trip at a glance."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.model.kit import Kit, KitDay
from builder.model.recipe import MealName
from builder.pages import words
from builder.pages.carry import short_carry
from builder.pages.cautions import grave
from builder.pages.charts import Chart, energy_chart, profile_chart
from builder.pages.cook import Anchors, cook_link
from builder.pages.day import day_path, energy_share
from builder.pages.figures import Figures, figures_of
from builder.pages.fuel import container_sizes, containers
from builder.pages.pieces import Cell, Fact, Piece, Table, join, link, text

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
    cautions: tuple[tuple[str, Cell], ...]
    carry: Table
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
        trip_dates(kit),
        tuple(_at_home(kit, figures)),
        tuple(day_line(kit, day, anchors) for day in kit.days),
        _facts(kit, figures),
        grave(kit),
        short_carry(kit, figures),
        energy_chart(kit),
        profile_chart(kit),
        kit.notes,
        kit.standing.text,
        not kit.public,
    )


def trip_dates(kit: Kit) -> str:
    """Give first and last date, how many days, how many people."""
    many = f"{words.counted(len(kit.days), 'day')}, {len(kit.party)} people"
    if len(kit.party) == 1:
        many = f"{words.counted(len(kit.days), 'day')}, 1 person"
    first, last = kit.days[0].date, kit.days[-1].date
    if not first or not last:
        return many
    if first == last:
        return f"{words.date(first)}. {many}"
    return f"{words.date(first)} to {words.date(last)}. {many}"


def _at_home(kit: Kit, figures: Figures) -> list[Cell]:
    """Say what is to be done at home first."""
    things: list[Cell] = []
    wet = sum(not each.dry_enough and not each.planned for each in kit.batches)
    to_dry = sum(each.planned for each in kit.batches) + sum(
        each.dry_by is not None and each.dry_by != "bought" for each in kit.shopping
    )
    if wet:
        batches = words.counted(wet, "batch", "batches")
        things.append((Piece("Dry further: "), Piece(batches, href="drying.md")))
    if to_dry:
        foods = words.counted(to_dry, "food")
        things.append((Piece("Still to dry: "), Piece(foods, href="drying.md")))
    if kit.shopping:
        lines = words.counted(len(kit.shopping), "thing")
        things.append((Piece("Buy: "), Piece(lines, href="shopping.md")))
    if kit.fuel and kit.fuel.containers:
        things.append((Piece("Take fuel: "), Piece(containers(kit.fuel, figures), href="fuel.md")))
    things.append((Piece("Share out the "), Piece("packs", href="carry.md")))
    return things


def day_line(kit: Kit, day: KitDay, anchors: Anchors) -> DayLine:
    """Give one day: date, camp and dinner."""
    figures = figures_of(kit)
    dinners = [
        cook_link(meal, anchors.get((day.day, number), ""))
        for number, meal in enumerate(day.meals)
        if meal.meal == "dinner"
    ]
    camp = (
        text("home")
        if day.ends_home
        else (Piece("camp at "), *figures.both(day.conditions.altitude_m, "altitude_m"))
    )
    title = (Piece(f"{day.title}, "), *camp) if day.title else camp
    return DayLine(
        link(words.day_name(day), day_path(day)),
        words.date(day.date) if day.date else "",
        day.date.isoformat() if day.date else "",
        title,
        join(dinners),
        str(day.day),
        tuple(_meals(day, join(dinners))),
    )


def _meals(day: KitDay, dinners: Cell) -> Iterator[tuple[MealName, Cell]]:
    """Lead to each meal of the day: to the dinner's own steps, to the others on the day's page."""
    eaten = {meal.meal for meal in day.meals}
    for name in _ON_THE_CLOCK:
        if name == "dinner" and dinners:
            yield name, (Piece("Dinner: "), *dinners)
        elif name in eaten:
            yield name, link(words.MEALS[name], f"{day_path(day)}#{name}")


def _facts(kit: Kit, figures: Figures) -> tuple[Fact, ...]:
    weights = kit.weights
    facts = [
        Fact("Food", figures.both(weights.food_g, "mass_g", "weights.food_g")),
        Fact(
            "Food energy",
            energy_share(
                figures,
                (kit.nutrition.energy_kcal, "nutrition.energy_kcal"),
                (kit.energy_need_kcal, "energy_need_kcal"),
            ),
        ),
        Fact(
            "Most water carried",
            figures.both(weights.water_most_g, "volume_ml", "weights.water_most_g"),
        ),
    ]
    if kit.fuel:
        likely = figures.both(kit.fuel.likely_g, "mass_g", "fuel.likely_g")
        facts.append(Fact("Fuel likely burnt", likely))
        facts.append(Fact("Fuel to take", link(container_sizes(kit.fuel, figures), "fuel.md")))
    if kit.wood_g:
        facts.append(Fact("Dry wood", figures.both(kit.wood_g, "mass_g", "wood.likely_g")))
    if weights.people:
        heaviest = max(weights.people, key=lambda each: each.total_g)
        mass = figures.both(heaviest.total_g, "mass_g", f"weights.people.{heaviest.name}.total_g")
        facts.append(Fact(f"Heaviest pack, {heaviest.name}", mass))
    return tuple(facts)
