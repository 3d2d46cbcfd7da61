"""The page of fuel and wood: what is likely burnt, what to take, and where it goes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.model.kit import Kit, KitDay, KitFuel
from builder.model.looks import SnowWork
from builder.pages import words
from builder.pages.cautions import Box, boxes_at
from builder.pages.charts import Chart, fuel_chart
from builder.pages.day import day_path
from builder.pages.figures import Figures, figures_of, percent
from builder.pages.pieces import Cell, Fact, Piece, Table, link, table, text
from builder.units import rounded


@dataclass(frozen=True, slots=True)
class FuelPage:
    """All the fuel of the trip."""

    facts: tuple[Fact, ...]
    by_day: Table | None
    chart: Chart | None
    boxes: tuple[Box, ...]
    wood: bool
    reserve: str
    lids: str
    snow: Table | None


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
        facts.append(Fact("Likely burnt", _likely(fuel, figures)))
        facts.append(Fact("With the reserve", figures.both(fuel.carry_g, "mass_g", "fuel.carry_g")))
        if fuel.efficiency_share:
            facts.append(Fact("Stove efficiency", _efficiency(fuel, figures)))
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
        _lids(kit.fuel, figures) if kit.fuel and kit.fuel.likely_g else "",
        _snow(kit, figures) if kit.looks.snow else None,
    )


def _likely(fuel: KitFuel, figures: Figures) -> Cell:
    """Give the fuel likely burnt, with the range that stoves of the kind leave open."""
    likely = figures.both(fuel.likely_g, "mass_g", "fuel.likely_g")
    low, high = figures.plain(fuel.low_g, "mass_g"), figures.plain(fuel.high_g, "mass_g")
    return (*likely, *_small(f"between {low}", f"and {high}")) if low != high else likely


def _small(*parts: str) -> Cell:
    """Give parts of which each stays on one line."""
    return tuple(piece for part in parts for piece in (Piece(" "), Piece(part, small=True)))


def _efficiency(fuel: KitFuel, figures: Figures) -> Cell:
    """Give the stove's efficiency and where it is from."""
    share = Piece(percent(fuel.efficiency_share), href=figures.how("fuel.efficiency_share"))
    test = fuel.test
    if test is None:
        return (share, *_small("as listed for it"))
    boiled = figures.plain(test.boiled_ml, "volume_ml")
    cold = figures.plain(test.from_c, "temperature_c")
    burnt = figures.plain(test.fuel_g, "mass_g")
    return (share, *_small("your own test:", f"{boiled} from {cold}", f"with {burnt}"))


def _lids(fuel: KitFuel, figures: Figures) -> str:
    return figures.span(fuel.no_lid_low_g, fuel.no_lid_high_g, "mass_g")


def _snow(kit: Kit, figures: Figures) -> Table:
    """Give how much snow the water of a day takes, from firm to fluffy, and in potfuls."""
    rows = []
    for day, each in _melted(kit):
        firm_ml, fluffy_ml = (rounded(litres) * 1000 for litres in (each.firm_l, each.fluffy_l))
        potfuls = f"{each.potfuls_firm} to {each.potfuls_fluffy}" if each.potfuls_firm else "–"
        water = figures.plain(each.water_ml, "volume_ml")
        rows.append(
            (
                (*link(words.day_name(day), day_path(day)), *_small(f"{water} water")),
                text(figures.span(firm_ml, fluffy_ml, "volume_ml")),
                text(potfuls),
            )
        )
    return table(("Day", "Snow for it", "Potfuls"), rows, "lrr")


def _melted(kit: Kit) -> Iterator[tuple[KitDay, SnowWork]]:
    by_day = {each.day: each for each in kit.looks.snow}
    for day in kit.days:
        if each := by_day.get(day.day):
            yield day, each


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
