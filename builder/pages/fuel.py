"""The page of fuel and wood: what is likely burnt, what to take, and where it goes."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.kit import Kit, KitFuel
from builder.pages import words
from builder.pages.cautions import Box, boxes_at
from builder.pages.charts import Chart, fuel_chart
from builder.pages.day import day_path
from builder.pages.figures import Figures, figures_of, percent
from builder.pages.pieces import Fact, Table, link, table, text


@dataclass(frozen=True, slots=True)
class FuelPage:
    """All the fuel of the trip."""

    facts: tuple[Fact, ...]
    by_day: Table | None
    chart: Chart | None
    boxes: tuple[Box, ...]
    wood: bool
    reserve: str


def containers(fuel: KitFuel, figures: Figures) -> str:
    """Give the containers to take, with what is in them: `2 × 230 g of propane-butane mix`."""
    return f"{container_sizes(fuel, figures)} of {words.in_a_sentence(fuel.name)}"


def container_sizes(fuel: KitFuel, figures: Figures) -> str:
    """Give the containers to take: `2 × 230 g`."""
    sizes = [f"{each.count} × {figures.plain(each.holds_g, 'mass_g')}" for each in fuel.containers]
    return words.listed(sizes) or figures.plain(fuel.carry_g, "mass_g")


def fuel_page(kit: Kit) -> FuelPage:
    """Give the fuel of the trip."""
    figures = figures_of(kit)
    facts = []
    if kit.fuel:
        fuel = kit.fuel
        facts.append(Fact("Take", text(containers(fuel, figures))))
        facts.append(Fact("For", text(fuel.stove)))
        facts.append(Fact("Likely burnt", figures.both(fuel.likely_g, "mass_g", "fuel.likely_g")))
        facts.append(Fact("With the reserve", figures.both(fuel.carry_g, "mass_g", "fuel.carry_g")))
    if kit.wood_g:
        facts.append(Fact("Dry wood", figures.both(kit.wood_g, "mass_g", "wood.likely_g")))
    burnt = bool(kit.fuel or kit.wood_g)
    return FuelPage(
        tuple(facts),
        _by_day(kit, figures) if burnt else None,
        fuel_chart(kit),
        boxes_at(kit, "fuel.md"),
        bool(kit.wood_g),
        percent(kit.fuel.reserve_share) if kit.fuel else "",
    )


def _by_day(kit: Kit, figures: Figures) -> Table:
    """Give fuel and wood by day, leaving out a column that no day has."""
    heads, right = ["Day"], "l"
    if kit.fuel:
        heads.append("Fuel")
    if kit.wood_g:
        heads.append("Wood")
    heads.append("At the pot")
    right += "r" * (len(heads) - 1)
    rows = []
    for day in kit.days:
        cells = [link(words.day_name(day), day_path(day))]
        at = f"days.{day.day - 1}"
        if kit.fuel:
            cells.append(figures.both(day.fuel.fuel_g, "mass_g", f"{at}.fuel_g"))
        if kit.wood_g:
            cells.append(figures.both(day.fuel.wood_g, "mass_g", f"{at}.wood_g"))
        cells.append(figures.alone(day.minutes, "duration_min", f"{at}.minutes"))
        rows.append(tuple(cells))
    return table(tuple(heads), rows, right)
