"""The page of shopping: what no batch covers."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.kit import Kit, ShoppingLine
from builder.pages.figures import Figures, figures_of
from builder.pages.pieces import Cell, filled, join, link
from builder.pages.trip.cautions import Box, boxes_at
from builder.pages.trip.cook import CookPage
from builder.speech import later

_TO_DRY = {
    "dehydrator": later("{food}, to dry in the dehydrator: gives {dried}"),
    "freeze-dryer": later("{food}, to dry in the freeze dryer: gives {dried}"),
    "oven": later("{food}, to dry in the oven: gives {dried}"),
    "sun": later("{food}, to dry in the sun: gives {dried}"),
}


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
    to_take: tuple[Purchase, ...]
    boxes: tuple[Box, ...]


def shopping_page(kit: Kit, cook: tuple[CookPage, ...]) -> ShoppingPage:
    """Give the shopping list."""
    figures = figures_of(kit)
    paths = {page.title: page.path for page in cook}
    wet = [each for each in kit.shopping if each.dry_by and each.dry_by != "bought"]
    rest = [each for each in kit.shopping if each not in wet]
    return ShoppingPage(
        tuple(_purchase(figures, each, paths) for each in wet),
        tuple(_purchase(figures, each, paths) for each in rest),
        boxes_at(kit, "shopping.md"),
    )


def _purchase(figures: Figures, line: ShoppingLine, paths: dict[str, str]) -> Purchase:
    say = figures.say
    name = line.name
    if line.dry_by == "bought":
        name = say("{food}, bought dried", food=line.name)
    elif line.dry_by:
        dried = figures.plain(line.dried_g, "mass_g")
        name = say(_TO_DRY[line.dry_by], food=line.name, dried=dried)
    used = [link(title, paths.get(title, "")) for title in line.used_in if title != line.name]
    dishes = filled(say("for {dishes}"), small=True, dishes=join(used)) if used else ()
    return Purchase(figures.both(line.mass_g, "mass_g"), name, dishes)
