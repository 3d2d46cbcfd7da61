"""What may be changed on the page of ways: each number with its unit, as somebody would type it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.pages.figures import Figures
from builder.pages.pieces import Cell, Mark, Piece, join
from builder.planning.ways import Input
from builder.record import dataclass
from builder.speech import Speech, later
from builder.units import read_quantity

_G_PER_KG = 1000.0
_MOST_MONEY = 1_000_000.0


@dataclass(frozen=True, slots=True)
class _How:
    """How a number is called, shown and typed: its unit holds so many of the figure's own."""

    name: str
    quantity: str  # as the page shows it; "" for money and plain numbers
    least: float
    most: float
    unit: str = ""
    factor: float = 1.0
    is_money: bool = False


_HOW = {
    "mass": _How(later("Into the dryer, peeled and cored"), "mass_g", 1.0, 1e6, "kg", _G_PER_KG),
    "portion": _How(later("A portion, dried"), "mass_g", 1.0, 10_000.0, "g"),
    "electricity": _How(later("Electricity, a kWh"), "", 0.0, _MOST_MONEY, is_money=True),
    "bag": _How(later("A bag"), "", 0.0, _MOST_MONEY, is_money=True),
    "price": _How(later("price"), "", 0.0, _MOST_MONEY, is_money=True),
    "lasts": _How(later("runs it lasts"), "", 1.0, 1e6),
    "runs-a-year": _How(later("runs a year"), "", 0.1, 1000.0),
    "power": _How(later("power"), "", 1.0, 100_000.0, "W"),
    "food-price": _How(later("A kilogram as bought"), "", 0.0, _MOST_MONEY, is_money=True),
    "refuse": _How(later("peel, cores and stones"), "share", 0.0, 0.95, "%", 0.01),
    "dried-price": _How(later("a kilogram bought dried"), "", 0.0, _MOST_MONEY, is_money=True),
}
_US = {"mass": "lb", "portion": "oz"}
_OF_HOME = ("mass", "portion", "electricity", "bag")


def of_home(figures: Figures, inputs: Iterable[Input], currency: str) -> tuple[Cell, ...]:
    """Give what holds for all foods, a line each."""
    return tuple(_told(figures, each, currency, "") for each in inputs if each.what in _OF_HOME)


def of_dryers(
    figures: Figures, inputs: Iterable[Input], currency: str, names: Mapping[str, str]
) -> tuple[Cell, ...]:
    """Give what holds for each dryer, a line each."""
    lines: dict[str, list[Cell]] = {}
    for each in inputs:
        if each.of in names:
            told = _told(figures, each, currency, names[each.of])
            lines.setdefault(each.of, []).append(told)
    return tuple(
        (Piece(f"{names[dryer]}: ", strong=True), *join(cells, "; "))
        for dryer, cells in lines.items()
    )


def of_food(figures: Figures, inputs: Iterable[Input], currency: str, food: str) -> Cell:
    """Give what holds for one food, in a line; none for a whole meal."""
    own = [each for each in inputs if each.of == food]
    return join([_told(figures, each, currency, "") for each in own], "; ")


def _told(figures: Figures, each: Input, currency: str, of: str) -> Cell:
    say, how = figures.say, _HOW[each.what]
    name = say(how.name)
    us = _US.get(each.what, "") if figures.units == "us" else ""
    unit = us or (currency if how.is_money else how.unit)
    factor = read_quantity(f"1 {us}", "mass_g") if us else how.factor
    data = (
        ("change", each.key),
        ("value", "" if each.value is None else repr(float(each.value))),
        ("factor", repr(factor)),
        ("unit", unit),
        ("least", repr(how.least)),
        ("most", repr(how.most)),
        ("label", f"{of}, {name}" if of else name),
    )
    return (Piece(f"{name}: "), Piece(_shown(figures, each, how, unit), mark=Mark("asked", data)))


def _shown(figures: Figures, each: Input, how: _How, unit: str) -> str:
    if each.value is None:
        return figures.say("not given")
    if how.quantity:
        return figures.plain(each.value, how.quantity)
    return with_unit(figures.say, each.value, unit)


def with_unit(say: Speech, value: float, unit: str) -> str:
    """Give a plain number as it was written, with what it is of."""
    number = say.signs(f"{float(value):g}")
    return f"{number}\u00a0{unit}" if unit else number
