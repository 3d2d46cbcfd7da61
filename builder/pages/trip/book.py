"""All that a kit shows: pages, navigation, data files, and the pocket page."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path

import msgspec

from builder.model.figure import Count
from builder.model.kit import Kit
from builder.pages import ink
from builder.pages.navigation import NavItem, part
from builder.pages.trip.afterwards.review import REVIEW, review_page
from builder.pages.trip.afterwards.wrong import WRONG, wrong_page
from builder.pages.trip.afterwards.wrong_in_short import wrong_in_short
from builder.pages.trip.cautions import CautionsPage, cautions_page
from builder.pages.trip.day import DayPage, day_pages
from builder.pages.trip.dishes.cook import CookPage, cook_pages, step_anchors
from builder.pages.trip.dishes.meals import MealPage, meal_pages
from builder.pages.trip.glance import GlancePage, glance_page
from builder.pages.trip.origins.graph_json import graph_data, number
from builder.pages.trip.origins.kit_json import kit_data
from builder.pages.trip.origins.numbers import NumbersPage, has_line, numbers_pages
from builder.pages.trip.origins.sources import read_checked, sources_page
from builder.pages.trip.people import PersonPage, person_pages
from builder.pages.trip.placing import ALOUD, AloudPage, aloud_page
from builder.pages.trip.pocket import PocketPage, is_long, pocket_cautions, pocket_days
from builder.pages.trip.supplies.bags import BAGS, bags_page
from builder.pages.trip.supplies.carry import CarryPage, carry_page, is_crowd
from builder.pages.trip.supplies.drying import drying_page
from builder.pages.trip.supplies.food import food_page
from builder.pages.trip.supplies.fuel import FuelPage, fuel_page
from builder.pages.trip.supplies.shopping import CSV_NAME, ShoppingPage, shopping_csv, shopping_page
from builder.pages.trip.supplies.water import WaterPage, water_page
from builder.planning.graph import graph_of
from builder.record import dataclass, replace
from builder.speech import speech_of

SCHEMA_NAME = "kit.schema.json"


@dataclass(frozen=True, slots=True)
class Book:
    """The pages of a kit, before any site is made of them."""

    markdown: Mapping[str, str]  # by path, in reading order
    nav: tuple[NavItem, ...]
    files: Mapping[str, bytes]
    pocket_html: str


@dataclass(frozen=True, slots=True)
class _Views:
    """What both the pages and the pocket page show."""

    cook: tuple[CookPage, ...]
    days: tuple[DayPage, ...]
    meals: tuple[MealPage, ...]
    people: tuple[PersonPage, ...]
    glance: GlancePage
    water: WaterPage
    fuel: FuelPage
    carry: CarryPage
    shopping: ShoppingPage
    aloud: AloudPage
    cautions: CautionsPage


def write_book(kit: Kit, templates: Path) -> Book:
    """Write all pages of a kit."""
    say = speech_of(kit.language)
    data = kit_data(kit)
    graph = graph_of(data)
    kit = replace(kit, figures=frozenset(name for name in graph.nodes if has_line(name)))
    views = _views(kit)
    checked = read_checked(templates)

    def written(path: str, name: str, view: object) -> str:
        return ink.write(templates, f"pages/{name}.md.j2", "../" * path.count("/"), view, say)

    markdown = {path: written(path, *page) for path, page in _pages(kit, views).items()}
    sources = {"sources.md": written("sources.md", "sources", sources_page(kit, checked))}
    numbers = numbers_pages(kit, graph, checked, [*markdown.values(), *sources.values()])
    markdown |= {page.path: written(page.path, "numbers", page) for page in numbers}
    return Book(
        markdown | sources,
        _nav(kit, views, numbers),
        {
            # The graph tells its numbers as they are written; those of the plan are figures.
            "kit.json": _json({**_plain(data), **graph_data(kit, graph)}),
            CSV_NAME: shopping_csv(kit),
            SCHEMA_NAME: _schema(templates),
        },
        ink.write(templates, "pocket.html.j2", "", _pocket(kit, views), say),
    )


def _views(kit: Kit) -> _Views:
    cook = cook_pages(kit)
    anchors = step_anchors(cook)
    return _Views(
        cook,
        day_pages(kit, anchors),
        meal_pages(kit, anchors),
        person_pages(kit, anchors),
        glance_page(kit, anchors),
        water_page(kit),
        fuel_page(kit),
        carry_page(kit, is_crowd(kit)),
        shopping_page(kit, cook),
        aloud_page(kit),
        cautions_page(kit),
    )


def _pages(kit: Kit, views: _Views) -> dict[str, tuple[str, object]]:
    """Give the template and the view of each page before the numbers, in reading order."""
    review = review_page(kit)
    return {
        "index.md": ("index", views.glance),
        **{day.path: ("day", day) for day in views.days},
        **{meal.path: ("meal", meal) for meal in views.meals},
        **{each.path: ("cook", each) for each in views.cook},
        "water.md": ("water", views.water),
        "fuel.md": ("fuel", views.fuel),
        "carry.md": ("carry", views.carry),
        **({BAGS: ("bags", bags_page(kit, is_crowd(kit)))} if kit.weights.people else {}),
        **{person.path: ("person", person) for person in views.people},
        "shopping.md": ("shopping", views.shopping),
        "food.md": ("food", food_page(kit)),
        "drying.md": ("drying", drying_page(kit)),
        ALOUD: ("aloud", views.aloud),
        "cautions.md": ("cautions", views.cautions),
        WRONG: ("wrong", wrong_page(kit)),
        **({REVIEW: ("review", review)} if review else {}),
    }


def _pocket(kit: Kit, views: _Views) -> PocketPage:
    """Give the pocket page, shorter where many are away for long.

    Then the site alone tells what is in each pack, what burns and what each one drinks on each day.
    """
    shorter = is_long(kit)
    return PocketPage(
        kit.language,
        views.glance,
        pocket_days(kit, views.days, views.cook),
        views.carry if shorter else carry_page(kit),
        replace(views.water, people=None) if shorter else views.water,
        replace(views.fuel, by_day=None) if shorter else views.fuel,
        views.aloud,
        wrong_in_short(kit),
        pocket_cautions(kit, views.cautions),
        views.shopping,
        shorter,
    )


@cache
def _schema(templates: Path) -> bytes:
    """Give the schema of kit.json, the same in all kits."""
    return _json(_plain(json.loads((templates / SCHEMA_NAME).read_text("utf-8"))))


def _json(data: Mapping[str, object]) -> bytes:
    """Give data as JSON, without room for nothing; `number` saw to it that none is without end."""
    # The standard library takes thirteen times as long, a thirtieth of a kit.
    return msgspec.json.encode(data) + b"\n"


def _plain(data: Mapping[str, object]) -> dict[str, object]:
    """Give data with each number as it is written."""
    return {key: _plain_value(each) for key, each in data.items()}


def _plain_value(data: object) -> object:
    kind = type(data)
    if kind is str or kind is int:  # most of it, and as they are
        return data
    if isinstance(data, (float, Count)):
        return number(data)
    if isinstance(data, Mapping):
        return _plain(data)
    return [_plain_value(each) for each in data] if isinstance(data, (list, tuple)) else data


def _nav(kit: Kit, views: _Views, numbers: Iterable[NumbersPage]) -> tuple[NavItem, ...]:
    """Give the navigation in reading order; a public kit tells no packs and no afterwards."""
    say = speech_of(kit.language)
    packing: tuple[NavItem, ...] = ((say.of("page", "Pack the bags"), BAGS),)
    after: tuple[NavItem, ...] = ((say.of("page", "After the trip"), REVIEW),)
    return (
        (say.of("page", "At a glance"), "index.md"),
        *part(say.of("page", "Days"), ((each.title, each.path) for each in views.days)),
        *part(say.of("page", "Step by step"), ((each.title, each.path) for each in views.meals)),
        *part(say.of("page", "Cook"), ((each.title, each.path) for each in views.cook)),
        (say.of("page", "Water"), "water.md"),
        (say.of("page", "Fuel"), "fuel.md"),
        (say.of("page", "Carry"), "carry.md"),
        *(packing if kit.weights.people else ()),
        *part(say.of("page", "Each of you"), ((each.name, each.path) for each in views.people)),
        (say.of("page", "Shopping"), "shopping.md"),
        (say.of("page", "Food value"), "food.md"),
        (say.of("page", "Drying"), "drying.md"),
        (say.of("page", "Read aloud"), ALOUD),
        (say.of("page", "Cautions"), "cautions.md"),
        (say.of("page", "If it goes wrong"), WRONG),
        *(() if kit.public else after),
        *part(say.of("page", "Numbers"), ((each.title, each.path) for each in numbers)),
        (say.of("page", "Sources"), "sources.md"),
    )
