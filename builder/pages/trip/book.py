"""All that a kit shows: pages, navigation, data files, and the pocket page."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import TypeAlias

import msgspec

from builder.model.figure import Count
from builder.model.kit import Kit
from builder.pages import ink
from builder.pages.trip.afterwards.review import REVIEW, review_page
from builder.pages.trip.afterwards.wrong import WRONG, wrong_page
from builder.pages.trip.afterwards.wrong_in_short import wrong_in_short
from builder.pages.trip.cautions import cautions_page
from builder.pages.trip.day import DayPage, day_pages
from builder.pages.trip.dishes.cook import CookPage, cook_pages, step_anchors
from builder.pages.trip.dishes.meals import MealPage, meal_pages
from builder.pages.trip.glance import glance_page
from builder.pages.trip.origins.graph_json import graph_data, number
from builder.pages.trip.origins.kit_json import kit_data
from builder.pages.trip.origins.numbers import NumbersPage, has_line, numbers_pages
from builder.pages.trip.origins.sources import read_checked, sources_page
from builder.pages.trip.people import PersonPage, person_pages
from builder.pages.trip.placing import ALOUD, aloud_page
from builder.pages.trip.pocket import PocketPage, is_long, pocket_cautions, pocket_days
from builder.pages.trip.supplies.bags import BAGS, bags_page
from builder.pages.trip.supplies.carry import carry_page, is_crowd
from builder.pages.trip.supplies.drying import drying_page
from builder.pages.trip.supplies.food import food_page
from builder.pages.trip.supplies.fuel import fuel_page
from builder.pages.trip.supplies.shopping import CSV_NAME, shopping_csv, shopping_page
from builder.pages.trip.supplies.water import water_page
from builder.planning.graph import graph_of
from builder.record import dataclass, replace
from builder.speech import speech_of

NavItem: TypeAlias = "tuple[str, str | tuple[NavItem, ...]]"

SCHEMA_NAME = "kit.schema.json"


@dataclass(frozen=True, slots=True)
class Book:
    """The pages of a kit, before any site is made of them."""

    markdown: Mapping[str, str]  # by path, in reading order
    nav: tuple[NavItem, ...]  # titles are plain text, not yet made harmless
    files: Mapping[str, bytes]
    pocket_html: str


def write_book(kit: Kit, templates: Path) -> Book:
    """Write all pages of a kit."""
    say = speech_of(kit.language)
    data = kit_data(kit)
    graph = graph_of(data)
    kit = replace(kit, figures=frozenset(name for name in graph.nodes if has_line(name)))
    cook = cook_pages(kit)
    anchors = step_anchors(cook)
    days = day_pages(kit, anchors)
    meals = meal_pages(kit, anchors)
    glance = glance_page(kit, anchors)
    people = person_pages(kit, anchors)
    water, fuel, carry = water_page(kit), fuel_page(kit), carry_page(kit, is_crowd(kit))
    shopping, cautions = shopping_page(kit, cook), cautions_page(kit)
    aloud, review = aloud_page(kit), review_page(kit)
    checked = read_checked(templates)
    pages: dict[str, tuple[str, object]] = {
        "index.md": ("index", glance),
        **{day.path: ("day", day) for day in days},
        **{meal.path: ("meal", meal) for meal in meals},
        **{each.path: ("cook", each) for each in cook},
        "water.md": ("water", water),
        "fuel.md": ("fuel", fuel),
        "carry.md": ("carry", carry),
        **({BAGS: ("bags", bags_page(kit, is_crowd(kit)))} if kit.weights.people else {}),
        **{person.path: ("person", person) for person in people},
        "shopping.md": ("shopping", shopping),
        "food.md": ("food", food_page(kit)),
        "drying.md": ("drying", drying_page(kit)),
        ALOUD: ("aloud", aloud),
        "cautions.md": ("cautions", cautions),
        WRONG: ("wrong", wrong_page(kit)),
        **({REVIEW: ("review", review)} if review else {}),
        "sources.md": ("sources", sources_page(kit, checked)),
    }
    pocket = PocketPage(
        kit.language,
        glance,
        pocket_days(kit, days, cook),
        # Of a long trip of many the site tells what is in each pack, and what burns and what each
        # one drinks on each day.
        carry if is_long(kit) else carry_page(kit),
        replace(water, people=None) if is_long(kit) else water,
        replace(fuel, by_day=None) if is_long(kit) else fuel,
        aloud,
        wrong_in_short(kit),
        pocket_cautions(kit, cautions),
        shopping,
        is_long(kit),
    )

    def written(path: str, name: str, view: object) -> str:
        return ink.write(templates, f"pages/{name}.md.j2", "../" * path.count("/"), view, say)

    markdown = {path: written(path, *page) for path, page in pages.items()}
    numbers = numbers_pages(kit, graph, checked, markdown.values())
    sources = {"sources.md": markdown.pop("sources.md")}
    markdown |= {page.path: written(page.path, "numbers", page) for page in numbers}
    return Book(
        markdown | sources,
        _nav(kit, days, meals, cook, people, numbers=numbers),
        {
            # The graph tells its numbers as they are written; those of the plan are figures.
            "kit.json": _json({**_plain(data), **graph_data(kit, graph)}),
            CSV_NAME: shopping_csv(kit),
            SCHEMA_NAME: _schema(templates),
        },
        ink.write(templates, "pocket.html.j2", "", pocket, say),
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


def _nav(
    kit: Kit,
    days: tuple[DayPage, ...],
    meals: tuple[MealPage, ...],
    cook: tuple[CookPage, ...],
    people: tuple[PersonPage, ...],
    *,
    numbers: tuple[NumbersPage, ...],
) -> tuple[NavItem, ...]:
    """Give the navigation in reading order."""
    say = speech_of(kit.language)
    after = () if kit.public else ((say.of("page", "After the trip"), REVIEW),)
    recipes: tuple[NavItem, ...] = tuple((page.title, page.path) for page in cook)
    cooking: tuple[NavItem, ...] = ((say.of("page", "Cook"), recipes),) if recipes else ()
    by_step: tuple[NavItem, ...] = tuple((page.title, page.path) for page in meals)
    working: tuple[NavItem, ...] = ((say.of("page", "Step by step"), by_step),) if meals else ()
    packing: tuple[NavItem, ...] = ()
    if kit.weights.people:  # a public kit tells no packs
        packing = ((say.of("page", "Pack the bags"), BAGS),)
    persons: tuple[NavItem, ...] = tuple((person.name, person.path) for person in people)
    own: tuple[NavItem, ...] = ((say.of("page", "Each of you"), persons),) if persons else ()
    return (
        (say.of("page", "At a glance"), "index.md"),
        (say.of("page", "Days"), tuple((day.title, day.path) for day in days)),
        *working,
        *cooking,
        (say.of("page", "Water"), "water.md"),
        (say.of("page", "Fuel"), "fuel.md"),
        (say.of("page", "Carry"), "carry.md"),
        *packing,
        *own,
        (say.of("page", "Shopping"), "shopping.md"),
        (say.of("page", "Food value"), "food.md"),
        (say.of("page", "Drying"), "drying.md"),
        (say.of("page", "Read aloud"), ALOUD),
        (say.of("page", "Cautions"), "cautions.md"),
        (say.of("page", "If it goes wrong"), WRONG),
        *after,
        (say.of("page", "Numbers"), tuple((page.title, page.path) for page in numbers)),
        (say.of("page", "Sources"), "sources.md"),
    )
