"""The pocket page: the whole kit in one file, from the same views as the pages."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.kit import Kit, KitDay
from builder.model.recipe import MEALS
from builder.pages import words
from builder.pages.carry import CarryPage
from builder.pages.cautions import Box, CautionsPage, boxes_at
from builder.pages.cook import Cooking, cooking
from builder.pages.day import DayPage
from builder.pages.fuel import FuelPage
from builder.pages.glance import GlancePage
from builder.pages.order import OrderView
from builder.pages.shopping import ShoppingPage
from builder.pages.water import WaterPage
from builder.speech import speech_of


@dataclass(frozen=True, slots=True)
class PocketMeal:
    """A cooked meal in its place in the day."""

    title: str
    note: str
    dangers: tuple[Box, ...]
    cooking: Cooking


@dataclass(frozen=True, slots=True)
class PocketDay:
    """A day with the steps of its meals."""

    anchor: str
    page: DayPage
    orders: tuple[OrderView, ...]
    meals: tuple[PocketMeal, ...]


@dataclass(frozen=True, slots=True)
class PocketPage:
    """Everything, in the order it is needed."""

    language: str
    glance: GlancePage
    days: tuple[PocketDay, ...]
    carry: CarryPage
    water: WaterPage
    fuel: FuelPage
    cautions: CautionsPage
    shopping: ShoppingPage


def pocket_days(kit: Kit, days: tuple[DayPage, ...]) -> tuple[PocketDay, ...]:
    """Put the steps of each day's meals behind its menu."""
    return tuple(
        PocketDay(f"day-{day.day}", page, _orders(day, page), _meals(kit, day))
        for day, page in zip(kit.days, days, strict=True)
    )


def _orders(day: KitDay, page: DayPage) -> tuple[OrderView, ...]:
    """Keep the orders of work that the steps of one dish do not tell by themselves."""
    manifold = {order.meal for order in day.orders if len({step.place for step in order.steps}) > 1}
    return tuple(order for order in page.orders if order.meal in manifold)


def _meals(kit: Kit, day: KitDay) -> tuple[PocketMeal, ...]:
    say = speech_of(kit.language)
    return tuple(
        PocketMeal(
            f"{say(words.MEALS[meal.meal])}: {meal.title}",
            meal.note,
            tuple(box for box in boxes_at(kit, f"cook/{meal.recipe}.md") if box.level == "danger"),
            cooking(kit, meal, day.day),
        )
        for name in MEALS
        for meal in day.meals
        if meal.meal == name and meal.recipe
    )
