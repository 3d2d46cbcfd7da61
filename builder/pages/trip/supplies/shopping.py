"""The page of shopping: what no batch covers."""

from __future__ import annotations

from collections.abc import Mapping

from builder.model.kit import ComingFood, Kit, ShoppingLine
from builder.pages.bought import by_shelf, csv_of
from builder.pages.figures import Figures, figures_of
from builder.pages.pieces import Cell, filled, join, link, text
from builder.pages.trip.cautions import Box
from builder.pages.trip.dishes.cook import CookPage
from builder.pages.trip.placing import boxes_at
from builder.record import dataclass
from builder.speech import later

_TO_DRY_BY = {  # what a planned batch asks for, with its day
    "dehydrator": later("{food}, to dry in the dehydrator by {date}: gives {dried}"),
    "freeze-dryer": later("{food}, to dry in the freeze dryer by {date}: gives {dried}"),
    "oven": later("{food}, to dry in the oven by {date}: gives {dried}"),
    "sun": later("{food}, to dry in the sun by {date}: gives {dried}"),
}
_TO_DRY = {
    "dehydrator": later("{food}, to dry in the dehydrator: gives {dried}"),
    "freeze-dryer": later("{food}, to dry in the freeze dryer: gives {dried}"),
    "oven": later("{food}, to dry in the oven: gives {dried}"),
    "sun": later("{food}, to dry in the sun: gives {dried}"),
}

CSV_NAME = "shopping.csv"


@dataclass(frozen=True, slots=True)
class Purchase:
    """One thing to buy."""

    mass: Cell
    name: str
    used_in: Cell


@dataclass(frozen=True, slots=True)
class ShoppingPage:
    """All that is to be bought, what needs drying first."""

    to_dry: tuple[Purchase, ...]
    shelves: Mapping[str, tuple[Purchase, ...]]  # the rest by title; "" where nobody told any
    coming: tuple[Cell, ...]  # what is not on the list because a load will give it
    boxes: tuple[Box, ...]

    @property
    def things(self) -> tuple[Purchase, ...]:
        """All that is to be bought, in the order of the list."""
        return (*self.to_dry, *(thing for things in self.shelves.values() for thing in things))


def shopping_page(kit: Kit, cook: tuple[CookPage, ...]) -> ShoppingPage:
    """Give the shopping list."""
    figures = figures_of(kit)
    paths = {page.title: page.path for page in cook}
    rest = [each for each in kit.shopping if not each.to_dry]
    untold = figures.say("No shelf given") if any(each.shelf for each in rest) else ""
    return ShoppingPage(
        tuple(_purchase(figures, each, paths) for each in kit.shopping if each.to_dry),
        {
            title: tuple(_purchase(figures, each, paths) for each in lines)
            for title, lines in by_shelf(rest, untold).items()
        },
        tuple(_coming(figures, each) for each in kit.coming),
        boxes_at(kit, "shopping.md"),
    )


def shopping_csv(kit: Kit) -> bytes:
    """Give the list as a table for other programs, without days."""
    return csv_of(kit.shopping, {"to_dry": lambda line: "yes" if line.to_dry else "no"})


def _purchase(figures: Figures, line: ShoppingLine, paths: dict[str, str]) -> Purchase:
    say = figures.say
    name = line.name
    if line.dry_by == "bought":
        name = say("{food}, bought dried", food=line.name)
    elif line.batch and not line.dry_by:
        name = _to_cook(figures, line, line.batch)
    elif line.dry_by:
        name = _to_dry(figures, line, line.dry_by)
    used = [link(title, paths[title]) for title in line.used_in if title in paths]
    dishes = filled(say("for {dishes}"), small=True, dishes=join(used)) if used else ()
    return Purchase(_amount(figures, line), name, dishes)


def _coming(figures: Figures, coming: ComingFood) -> Cell:
    """Say which load gives some of what the trip eats."""
    say = figures.say
    if coming.in_dryer:
        said = say("{mass} {food} of the load {batch}, which is in the dryer")
    elif coming.planned_for:
        said = say("{mass} {food} of the load {batch}, planned for {date}")
    else:
        said = say("{mass} {food} of the load {batch}, still to be dried")
    return filled(
        said,
        mass=figures.both(coming.mass_g, "mass_g"),
        food=text(coming.name),
        batch=text(coming.batch),
        date=text(say.short_date(coming.planned_for) if coming.planned_for else ""),
    )


def _amount(figures: Figures, line: ShoppingLine) -> Cell:
    """Give how much to buy: packets where their size is told."""
    if not line.packets:
        return figures.both(line.buy_g, "mass_g")
    return text(figures.packets(line.packets, line.packet_g))


def _to_cook(figures: Figures, line: ShoppingLine, batch: str) -> str:
    """Say for which meal it is cooked, and by when that is dried."""
    say = figures.say
    if line.dry_on is None:
        return say("{food}, to cook and dry for {batch}", food=line.name, batch=batch)
    date = say.short_date(line.dry_on)
    return say("{food}, to cook for {batch}, dry by {date}", food=line.name, batch=batch, date=date)


def _to_dry(figures: Figures, line: ShoppingLine, method: str) -> str:
    """Say how and by when it is dried, for which batch, and what that gives."""
    say = figures.say
    food = say("{food} ({batch})", food=line.name, batch=line.batch) if line.batch else line.name
    dried = figures.plain(line.dried_g, "mass_g")
    if line.dry_on is None:
        return say(_TO_DRY[method], food=food, dried=dried)
    return say(_TO_DRY_BY[method], food=food, date=say.short_date(line.dry_on), dried=dried)
