"""Charts: horizontal bars told apart by words and hatching, in any colour scheme and on paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from builder.model.kit import Kit
from builder.pages import words
from builder.pages.figures import Figures, figures_of

WIDTH = 320  # the narrowest screen, so that letters are never smaller than they were drawn
_BAR_WIDTH = 316.0
_LEFT = 2.0
_ROW = 38.0
_WORDS_AT = 12.0
_BAR_AT = 17.0
_BAR = 13.0
_LEGEND = 18.0

Fill = Literal["solid", "lines", "dots", "open"]


@dataclass(frozen=True, slots=True)
class Bar:
    """A rectangle of one hatching."""

    x: str
    y: str
    width: str
    height: str
    fill: str


@dataclass(frozen=True, slots=True)
class Mark:
    """An upright line across a bar."""

    x: str
    top: str
    bottom: str


@dataclass(frozen=True, slots=True)
class Words:
    """Words beside or over a bar."""

    x: str
    y: str
    anchor: str
    text: str


@dataclass(frozen=True, slots=True)
class Chart:
    """A drawing with its own words; the same numbers stand in a table on the page."""

    id: str
    title: str
    text: str
    width: str
    height: str
    bars: tuple[Bar, ...]
    marks: tuple[Mark, ...]
    words: tuple[Words, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One day's bar: parts from the left, and perhaps a mark."""

    name: str
    says: str
    parts: tuple[tuple[float, Fill], ...]
    mark: float | None = None


def draw(
    chart_id: str,
    title: str,
    rows: list[Row],
    legend: tuple[tuple[Fill, str], ...] = (),
    mark: str = "",
) -> Chart:
    """Lay out bars to one scale, with their words above them and what the hatchings mean below."""
    ends = [sum(size for size, _ in row.parts) for row in rows]
    longest = max([*ends, *(row.mark or 0 for row in rows)], default=0) or 1
    bars: list[Bar] = []
    marks: list[Mark] = []
    said: list[Words] = []
    for number, row in enumerate(rows):
        top = number * _ROW
        said.append(Words(_n(_LEFT), _n(top + _WORDS_AT), "start", row.name))
        said.append(Words(_n(WIDTH - _LEFT), _n(top + _WORDS_AT), "end", row.says))
        x = _LEFT
        for size, fill in row.parts:
            wide = _BAR_WIDTH * max(size, 0) / longest
            if wide > 0:
                bars.append(Bar(_n(x), _n(top + _BAR_AT), _n(wide), _n(_BAR), fill))
            x += wide
        if row.mark is not None:
            marks.append(_mark(_LEFT + _BAR_WIDTH * row.mark / longest, top + _BAR_AT))
    y = len(rows) * _ROW + 4
    for fill, means in legend:
        bars.append(Bar(_n(_LEFT), _n(y), "22", _n(_BAR), fill))
        said.append(Words(_n(_LEFT + 30), _n(y + 11), "start", means))
        y += _LEGEND
    if mark:
        marks.append(_mark(_LEFT + 11, y))
        said.append(Words(_n(_LEFT + 30), _n(y + 11), "start", mark))
        y += _LEGEND
    told = ". ".join(f"{row.name}: {row.says}" for row in rows)
    return Chart(
        chart_id,
        title,
        f"{told}.",
        str(WIDTH),
        _n(y + 2),
        tuple(bars),
        tuple(marks),
        tuple(said),
    )


def _mark(x: float, bar_top: float) -> Mark:
    return Mark(_n(x), _n(bar_top - 3), _n(bar_top + _BAR + 3))


def _n(value: float) -> str:
    """Give a coordinate, to a tenth."""
    return f"{value:.1f}".removesuffix(".0")


def energy_chart(kit: Kit) -> Chart:
    """Draw the food energy of each day against what the day asks for."""
    figures = figures_of(kit)
    rows = [
        Row(
            words.day_name(day),
            f"{figures.plain(day.nutrition.energy_kcal, 'energy_kcal')} eaten, "
            f"{figures.plain(day.energy_need_kcal, 'energy_kcal')} needed",
            ((day.nutrition.energy_kcal, "lines"),),
            day.energy_need_kcal,
        )
        for day in kit.days
    ]
    return draw("energy-chart", "Food energy by day", rows, (("lines", "in the food"),), "needed")


def weight_chart(kit: Kit) -> Chart:
    """Draw the party's load on each morning."""
    figures = figures_of(kit)
    rows = [
        Row(words.day_name(day), figures.plain(mass, "mass_g"), ((mass, "lines"),))
        for day, mass in zip(kit.days, kit.weights.by_day_g, strict=False)
    ]
    return draw("weight-chart", "What the party carries, each morning", rows)


def water_chart(kit: Kit) -> Chart:
    """Draw what the water of each day is for, and the most that is carried at once."""
    figures = figures_of(kit)
    rows = [
        Row(
            words.day_name(day),
            f"{_litres(figures, day.water.total_ml)}; carry {_litres(figures, day.water.carry_ml)}",
            (
                (day.water.drinking_ml, "open"),
                (day.water.drinks_ml, "dots"),
                (day.water.cooking_ml, "lines"),
                (day.water.washing_ml, "solid"),
            ),
            day.water.carry_ml,
        )
        for day in kit.days
    ]
    legend: tuple[tuple[Fill, str], ...] = (
        ("open", "to drink"),
        ("dots", "hot drinks"),
        ("lines", "to cook with"),
        ("solid", "to wash with"),
    )
    return draw("water-chart", "Water by day", rows, legend, "the most carried at once")


def _litres(figures: Figures, volume_ml: float) -> str:
    return figures.plain(volume_ml, "volume_ml")


def fuel_chart(kit: Kit) -> Chart | None:
    """Draw the fuel that is left at the end of each day, of what is carried."""
    if not kit.fuel or not kit.fuel.likely_g:
        return None
    figures = figures_of(kit)
    taken = sum(each.holds_g * each.count for each in kit.fuel.containers) or kit.fuel.carry_g
    left = taken
    rows = [Row("Start", figures.plain(taken, "mass_g"), ((taken, "lines"),))]
    for day in kit.days:
        left -= day.fuel.fuel_g
        rows.append(
            Row(
                f"After day {day.day}",
                f"{figures.plain(max(left, 0), 'mass_g')} left",
                ((max(left, 0), "lines"),),
            )
        )
    return draw("fuel-chart", "Fuel left at the end of each day", rows)
