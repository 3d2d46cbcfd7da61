"""All that the site of the home shows: pages, navigation, and files beside them."""

from __future__ import annotations

import datetime
import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path

from builder.pages import ink
from builder.pages.home.bagging import BaggingPage, bagging_pages
from builder.pages.home.following import follow_page
from builder.pages.home.front import front_page
from builder.pages.home.label_sheet import labels_file
from builder.pages.home.labels import file_of, labels_page, sheets_to_print
from builder.pages.home.learned import learned_page
from builder.pages.home.run_calendar import run_calendar
from builder.pages.home.runs import ICS_NAME, runs_page
from builder.pages.home.shopping import (
    CSV_NAME,
    lists_of_trips,
    path_of,
    shopping_csv,
    shopping_page,
    trip_page,
)
from builder.pages.home.showing import figures_of_home
from builder.pages.home.stock import stock_page
from builder.pages.home.ways import WaysPage, ways_pages
from builder.pages.navigation import NavItem, part
from builder.planning.home import HomePlan, TripShopping
from builder.record import dataclass
from builder.speech import Speech, speech_of

DATA_NAME = "home.json"


@dataclass(frozen=True, slots=True)
class HomeBook:
    """The pages of the home, before any site is made of them."""

    title: str
    markdown: Mapping[str, str]  # by path, in reading order
    nav: tuple[NavItem, ...]
    files: Mapping[str, bytes]
    late_from: str  # all that the late pages follow from
    late_pages: Callable[[], Mapping[str, str]]  # take their time, so they are made when needed


def write_home_book(plan: HomePlan, templates: Path) -> HomeBook:
    """Write all pages of the home."""
    say = speech_of(plan.home.language)
    bagging, own_lists = bagging_pages(plan), lists_of_trips(plan)
    ways = ways_pages(plan)
    paths = {page.trip: page.path for page in bagging}
    pages: dict[str, tuple[str, object]] = {
        "index.md": ("index", front_page(plan, paths)),
        "follow.md": ("follow", follow_page(plan)),
        "stock.md": ("stock", stock_page(plan)),
        "runs.md": ("runs", runs_page(plan)),
        **{page.path: ("ways", page) for page in ways},
        "labels.md": ("labels", labels_page(plan)),
        "shopping.md": ("shopping", shopping_page(plan)),
        "learned.md": ("learned", learned_page(plan)),
        **{f"{path_of(each)}.md": ("shopping", trip_page(plan, each)) for each in own_lists},
        **{page.path: ("bagging", page) for page in bagging},
    }
    markdown = {
        path: ink.write(templates, f"pages/home/{name}.md.j2", "../" * path.count("/"), view, say)
        for path, (name, view) in pages.items()
    }
    figures, sheets = figures_of_home(plan.home), sheets_to_print(plan)

    def late_pages() -> dict[str, str]:
        return {
            file_of(sheet): labels_file(plan.labels, sheet, figures, templates) for sheet in sheets
        }

    files = {CSV_NAME: shopping_csv(plan.shopping), DATA_NAME: _data(plan)}
    files |= {f"{path_of(each)}.csv": shopping_csv(each.shopping) for each in own_lists}
    if plan.drying.runs:
        files[ICS_NAME] = run_calendar(plan.drying.runs, _made_at(plan))
    return HomeBook(
        title=say.of("page", "At home"),
        markdown=markdown,
        nav=_nav(say, ways, own_lists, bagging),
        files=files,
        late_from=repr((plan.labels, sheets, figures.units, figures.mug_ml)),
        late_pages=late_pages,
    )


def _nav(
    say: Speech,
    ways: Sequence[WaysPage],
    own_lists: Iterable[TripShopping],
    bagging: Iterable[BaggingPage],
) -> tuple[NavItem, ...]:
    """Give the navigation in reading order."""
    to_dry = say.of("page", "Ways to dry")
    lists = ((each.title, f"{path_of(each)}.md") for each in own_lists)
    return (
        (say.of("page", "At home"), "index.md"),
        (say.of("page", "Follow a run"), "follow.md"),
        (say.of("page", "Stock"), "stock.md"),
        (say.of("page", "Runs"), "runs.md"),
        *(
            ((to_dry, ways[0].path),)
            if len(ways) == 1
            else part(to_dry, ((each.title, each.path) for each in ways))
        ),
        (say.of("page", "Labels"), "labels.md"),
        (say.of("page", "Shopping"), "shopping.md"),
        (say.of("page", "Learned"), "learned.md"),
        *part(say("Shopping for one trip"), lists),
        *part(say.of("page", "Bags to fill"), ((each.title, each.path) for each in bagging)),
    )


def _made_at(plan: HomePlan) -> datetime.datetime:
    """Give the moment that a calendar file bears: the same on the same day."""
    return datetime.datetime.combine(plan.day, datetime.time(), datetime.UTC)


def _data(plan: HomePlan) -> bytes:
    """Give the stock and the rest for a script."""
    data = {
        "format": "trip-kit-home",
        "version": 1,
        "day": plan.day.isoformat(),
        "stock": [line.data() for line in plan.stock],
        "shopping": [
            {
                "food": each.food,
                "needed_g": float(each.needed_g),
                "buy_g": float(each.buy_g),
                "packets": int(each.packets),
                "needed_on": each.needed_on.isoformat() if each.needed_on else None,
                "trips": list(each.trips),
            }
            for each in plan.shopping
        ],
        **plan.drying.data(),
        "trips": [
            {"trip": each.trip, "to_dry": each.to_dry, "to_buy": each.to_buy} for each in plan.trips
        ],
    }
    return (json.dumps(data, ensure_ascii=False, separators=(",", ":")) + "\n").encode()
