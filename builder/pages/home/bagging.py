"""The sheet for the kitchen table before a trip: which bags to fill, meal by meal, to tick off."""

from __future__ import annotations

import datetime

from builder.pages.figures import Figures
from builder.pages.home.showing import figures_of_home
from builder.pages.pieces import Cell, Piece
from builder.pages.words import MEALS, number_and_date
from builder.planning.at_home import Bag, BaggingMeal, TripBags
from builder.planning.home import HomePlan
from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class MealBags:
    """A meal and what goes with it."""

    title: str
    lines: tuple[tuple[bool, Cell], ...]  # whether it is raw, and the line


@dataclass(frozen=True, slots=True)
class DayBags:
    """A day of the trip."""

    title: str
    meals: tuple[MealBags, ...]


@dataclass(frozen=True, slots=True)
class BaggingPage:
    """All bags of one trip."""

    trip: str
    path: str
    title: str
    days: tuple[DayBags, ...]


def bagging_path(trip: str) -> str:
    """Give the page of a trip's bags."""
    return f"bagging/{trip}.md"


def bagging_pages(plan: HomePlan) -> tuple[BaggingPage, ...]:
    """Give a page for each trip ahead."""
    figures = figures_of_home(plan.home)
    return tuple(_page(figures, bags) for bags in plan.bagging if bags.meals)


def _page(figures: Figures, bags: TripBags) -> BaggingPage:
    days: dict[tuple[int, datetime.date | None], list[MealBags]] = {}
    for meal in bags.meals:
        days.setdefault((meal.day, meal.date), []).append(_meal(figures, meal))
    return BaggingPage(
        bags.trip,
        bagging_path(bags.trip),
        bags.title,
        tuple(
            DayBags(number_and_date(figures.say, number, date), tuple(meals))
            for (number, date), meals in days.items()
        ),
    )


def _meal(figures: Figures, meal: BaggingMeal) -> MealBags:
    say = figures.say
    title = say(
        "{meal}: {dish}, for {people}",
        meal=say(MEALS[meal.meal]),
        dish=meal.title,
        people=say.number(meal.heads),
    )
    return MealBags(title, tuple((bag.is_raw, _line(figures, bag)) for bag in meal.bags))


def _line(figures: Figures, bag: Bag) -> Cell:
    say = figures.say
    first, *others = figures.both(bag.mass_g, "mass_g")
    pieces = (Piece(first.text, strong=True), *others, Piece(" "), Piece(bag.name))
    if not bag.batch:
        return pieces
    if bag.packs:
        packs = say.count("{n} pack of {batch}", "{n} packs of {batch}", bag.packs, batch=bag.batch)
    else:
        packs = say("from the open pack of {batch}", batch=bag.batch)
    return (*pieces, Piece(f" ({packs})"))
