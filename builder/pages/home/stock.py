"""The page of the stock: by best-before, by place on the shelf, by kind."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import TypeAlias

from builder.pages.figures import Figures
from builder.pages.home.showing import asking, figures_of_home, titles_of_trips, why_waste
from builder.pages.pictures import Shown, shown
from builder.pages.pieces import Cell, Piece, Table, table, text
from builder.pages.words import MEALS
from builder.planning.home import HomePlan
from builder.planning.stock import StockLine
from builder.record import dataclass
from builder.speech import later

_KINDS = {
    "fruit": later("Fruit"),
    "vegetable": later("Vegetables"),
    "legume": later("Pulses"),
    "grain": later("Grain"),
    "nut": later("Nuts"),
    "meat": later("Meat"),
    "poultry": later("Poultry"),
    "fish": later("Fish"),
    "egg": later("Egg"),
    "dairy": later("Dairy"),
    "herb": later("Herbs"),
    "meal": later("Whole meals"),
}


# Batches under the headings that they stand under.
Shelves: TypeAlias = Mapping[str, list[Cell]]


@dataclass(frozen=True, slots=True)
class Acts:
    """Batches to see to; what several ask for is said once, before them."""

    says: str
    lines: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Batch:
    """A batch of which there is a picture."""

    name: str
    picture: Shown


@dataclass(frozen=True, slots=True)
class StockPage:
    """What is left, in three orders; what is still to be dried stands apart."""

    day: str
    acts: tuple[Acts, ...]
    by_date: Table | None
    by_place: Shelves
    by_kind: Shelves
    planned: tuple[Cell, ...]
    pictured: tuple[Batch, ...]


def stock_page(plan: HomePlan) -> StockPage:
    """Give the page of the stock."""
    figures = figures_of_home(plan.home)
    say = figures.say
    titles = titles_of_trips(plan)
    made = [line for line in plan.stock if not line.is_ahead(plan.day)]
    return StockPage(
        day=say.date(plan.day),
        acts=tuple(_acts(figures, made)),
        by_date=_by_date(figures, made, titles) if made else None,
        by_place=_by_place(figures, made),
        by_kind=_shelves(figures, made, lambda line: say(_KINDS.get(line.kind, "Other"))),
        planned=tuple(
            _short(figures, line, is_ahead=True) for line in plan.stock if line.is_ahead(plan.day)
        ),
        pictured=tuple(
            Batch(line.name, picture) for line in plan.stock if (picture := shown(line.picture))
        ),
    )


def _acts(figures: Figures, lines: Iterable[StockLine]) -> Iterator[Acts]:
    """Give first what several batches ask for, then each that asks for something of its own."""
    asked: dict[str, list[StockLine]] = {}
    for line in lines:
        if says := _says(line):
            asked.setdefault(says, []).append(line)
    for says, each in asked.items():
        if len(each) > 1:
            yield Acts(says, tuple(_dated(figures, line) for line in each))
    own = [(says, each[0]) for says, each in asked.items() if len(each) == 1]
    if own:
        yield Acts("", tuple(asking(figures.say, line.name, says, line.why) for says, line in own))


def _says(line: StockLine) -> str:
    """Give what is to be done, and what else is to be known of what may still be eaten."""
    remark = f"{line.remark}." if line.remark and not (line.act and line.is_waste) else ""
    return " ".join(part for part in (line.act, remark) if part)


def _dated(figures: Figures, line: StockLine) -> Cell:
    """Name a batch by its date, since there may be another one of the same food."""
    name, why = Piece(line.name, strong=True), why_waste(figures.say, line.why)
    if line.best_before is None:
        return (name, *why)
    said = figures.say("best before {date}", date=_until(figures, line))
    return (name, Piece(f", {said}"), *why)


def _by_date(figures: Figures, lines: Iterable[StockLine], titles: Mapping[str, str]) -> Table:
    say = figures.say
    heads = (say("Best before"), say("Food"), say("Packs left"), say("Free"))
    rows = [
        (
            text(_until(figures, line)),
            _food(figures, line, titles),
            text(say.number(line.packs_left)),
            (Piece(say.number(line.packs_free), strong=True),),
        )
        for line in lines
    ]
    return table(heads, rows, "llrr")


def _until(figures: Figures, line: StockLine) -> str:
    """Give until when a batch keeps."""
    if line.best_before is None:
        return figures.say("none")
    return figures.until(figures.say.short_date(line.best_before), line.kept_at_told)


def _food(figures: Figures, line: StockLine, titles: Mapping[str, str]) -> Cell:
    """Name the food, a pack's weight, where it lies, and which meals it is promised to."""
    say = figures.say
    mass = figures.plain(line.pack_g, "mass_g")
    said = say("{mass} a pack", mass=mass)
    pieces = [
        Piece(line.name, strong=True),
        Piece(f", {said}, {line.shelf}" if line.shelf else f", {said}"),
    ]
    for each in line.promised_to:
        promised = say(
            "{trip}, day {n}, {meal}: {packs}",
            trip=titles.get(each.trip, each.trip),
            n=each.day,
            meal=say.inside(say(MEALS[each.meal])),
            packs=say.count("{n} pack", "{n} packs", each.packs),
        )
        pieces.append(Piece("; " + say("promised: {to}", to=promised)))
    return tuple(pieces)


def _by_place(figures: Figures, lines: list[StockLine]) -> Shelves:
    if not any(line.shelf for line in lines):
        return {}
    return _shelves(figures, lines, lambda line: line.shelf or figures.say("No place given"))


def _shelves(
    figures: Figures, lines: Iterable[StockLine], place: Callable[[StockLine], str]
) -> Shelves:
    found: dict[str, list[Cell]] = {}
    for line in lines:
        found.setdefault(place(line), []).append(_short(figures, line))
    return dict(sorted(found.items()))


def _short(figures: Figures, line: StockLine, is_ahead: bool = False) -> Cell:
    """Give a batch in a line: packs, weight, food, date; what is to be done stands above all."""
    say = figures.say
    packs = say.count(
        "{n} pack of {mass}",
        "{n} packs of {mass}",
        line.packs_left,
        mass=figures.plain(line.pack_g, "mass_g"),
    )
    if line.is_planned and line.made_on:
        until = f", {say('to be dried by {date}', date=say.short_date(line.made_on))}"
    elif line.best_before and not line.is_planned:
        until = f", {say('best before {date}', date=_until(figures, line))}"
    elif is_ahead and line.act:  # a sentence of its own
        until = f". {line.act}"
    else:
        until = f", {(is_ahead and line.remark) or say('no date')}"
    return (Piece(line.name, strong=True), Piece(f": {packs}{until}"))
