"""The page of water: by day, what it is for, and for each person."""

from __future__ import annotations

from dataclasses import dataclass, replace

from builder.model.kit import Kit, KitDay
from builder.pages import words
from builder.pages.cautions import Box, boxes_at
from builder.pages.charts import Chart, water_chart
from builder.pages.day import day_path
from builder.pages.figures import Figures, figures_of
from builder.pages.pieces import Cell, Piece, Table, link, table, text


@dataclass(frozen=True, slots=True)
class WaterPage:
    """All the water of the trip."""

    by_day: Table
    carry: Table
    people: Table
    chart: Chart
    boxes: tuple[Box, ...]
    melts: bool
    boils: bool


def water_page(kit: Kit) -> WaterPage:
    """Give the water of the trip."""
    figures = figures_of(kit)
    places = [day.conditions for day in kit.days if not day.ends_home]
    return WaterPage(
        _by_day(kit, figures),
        _carry(kit, figures),
        _people(kit, figures),
        water_chart(kit),
        boxes_at(kit, "water.md"),
        any(here.water_source == "snow" for here in places),
        any(here.treat == "boil" for here in places),
    )


def _by_day(kit: Kit, figures: Figures) -> Table:
    rows = []
    for day in kit.days:
        water = day.water
        rows.append(
            (
                link(words.day_name(day), day_path(day)),
                _drink(figures, day),
                _alone(figures, day, "cooking_ml", water.cooking_ml),
                _alone(figures, day, "washing_ml", water.washing_ml),
                _of(figures, day, "total_ml", water.total_ml),
            )
        )
    return table(("Day", "Drink", "Cook", "Wash", "All"), rows, "lrrrr")


def _drink(figures: Figures, day: KitDay) -> Cell:
    """Give what is drunk cold, and under it the hot drinks."""
    cold = _alone(figures, day, "drinking_ml", day.water.drinking_ml)
    if not day.water.drinks_ml:
        return cold
    (hot,) = _alone(figures, day, "drinks_ml", day.water.drinks_ml)
    return (*cold, Piece(" "), replace(hot, text=f"+ {hot.text} hot", small=True))


def _alone(figures: Figures, day: KitDay, field: str, volume_ml: float) -> Cell:
    return figures.alone(volume_ml, "volume_ml", f"days.{day.day - 1}.water.{field}")


def _of(figures: Figures, day: KitDay, field: str, volume_ml: float) -> Cell:
    return figures.both(volume_ml, "volume_ml", f"days.{day.day - 1}.water.{field}")


def _carry(kit: Kit, figures: Figures) -> Table:
    rows = [
        (
            link(words.day_name(day), day_path(day)),
            text("home" if day.ends_home else words.water_at(day.conditions)),
            _alone(figures, day, "carry_ml", day.water.carry_ml),
            _alone(figures, day, "treat_ml", day.water.treat_ml),
        )
        for day in kit.days
    ]
    return table(("Day", "At camp", "Carry at most", "Make safe"), rows, "llrr")


def _people(kit: Kit, figures: Figures) -> Table:
    rows = []
    for day in kit.days:
        drunk = {person.name: person.to_drink_ml for person in day.people}
        at = f"days.{day.day - 1}.people"
        rows.append(
            (
                link(words.day_name(day), day_path(day)),
                *(
                    figures.alone(
                        drunk.get(person.name, 0.0), "volume_ml", f"{at}.{person.name}.to_drink_ml"
                    )
                    for person in kit.party
                ),
            )
        )
    names = tuple(person.name for person in kit.party)
    return table(("Day", *names), rows, "l" + "r" * len(names))
