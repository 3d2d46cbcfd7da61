"""What a page shows for others at another height is what a kit planned for them shows."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from builder.model.content import Content
from builder.model.figure import Figure, Found
from builder.model.kit import Kit
from builder.model.trip import Camp, Trip
from builder.pages.trip.book import write_book
from builder.planning.kit import plan_trip
from builder.planning.stock import Stock, check
from builder.reading.folder import Layer, read_folder
from builder.record import replace
from tests.site.sample import ASSETS, ROOT

from .looking import offline_page

HEIGHT_M = 2500.0
FOOT_M = 0.3048
SPAN = re.compile(r'<span class="[^"]*" data-figure="([^"]+)" data-kind="(\w+)"([^>]*)>([^<]*)<')
TOLD = """() => [...document.querySelectorAll('[data-figure]')].map(
  one => [one.dataset.figure, one.dataset.kind, one.dataset.units ?? '', one.textContent])"""

# One figure may stand twice, once alone and once with a comma before it.
Shown = dict[tuple[str, str, str], set[str]]


@pytest.fixture(scope="module")
def planned() -> tuple[Content, Stock]:
    folder = read_folder([Layer(ROOT / "content", "content")])
    stock, _ = check(folder.content)
    return folder.content, stock


def without_the_last(trip: Trip) -> Trip:
    """Give the trip with one eater fewer at each meal, all camps at the new height."""
    height_m = Figure(HEIGHT_M, Found("altitude_m", "as asked"))

    def camp(of: Camp) -> Camp:
        return replace(of, altitude_m=height_m)

    days = tuple(
        replace(
            day,
            camp=camp(day.camp),
            meals=tuple(
                replace(
                    meal,
                    items=tuple(
                        replace(item, eaters=item.eaters[:-1] or item.eaters) for item in meal.items
                    ),
                )
                for meal in day.meals
            ),
        )
        for day in trip.days
    )
    start = camp(trip.start_camp) if trip.start_camp else None
    return replace(trip, days=days, start_camp=start)


def shown_by(kit: Kit) -> dict[str, Shown]:
    """Give all figures of the recipe pages of a kit, as their text."""
    pages = write_book(kit, ASSETS).markdown
    shown: dict[str, Shown] = {}
    for path in pages:
        if path.startswith("cook/"):
            told = shown.setdefault(path.removesuffix(".md"), {})
            for figure, kind, more, text in SPAN.findall(pages[path]):
                key = (html.unescape(figure), kind, _units(more))
                told.setdefault(key, set()).add(html.unescape(text))
    return shown


def _units(more: str) -> str:
    found = re.search(r'data-units="(\w+)"', more)
    return found[1] if found else ""


def change_all(page: Page) -> None:
    """Let the last eater of each meal stay away, and the camps lie higher."""
    for summary in page.locator(".kit-change > summary").all():
        summary.click()
    for who in page.locator(".kit-change fieldset").all():
        ticks = who.get_by_role("checkbox").all()
        if len(ticks) > 1:
            ticks[-1].uncheck()
    for line in page.locator("label.kit-row").all():
        unit = FOOT_M if line.inner_text().strip().endswith("ft") else 1.0
        line.locator("input").fill(f"{HEIGHT_M / unit:.6f}")
        line.locator("input").press("Enter")


@pytest.mark.parametrize("name", ["graupel-ridge", "lake-emmerin", "tarrow-tops"])
def test_the_page_shows_what_a_kit_for_them_shows(
    browser: Browser, demo_kits: Path, planned: tuple[Content, Stock], name: str
) -> None:
    content, stock = planned
    trip = content.trips[name]
    before = plan_trip(trip, content, stock)
    after = plan_trip(without_the_last(trip), content, stock)
    old, new = shown_by(before), shown_by(after)
    compared = changed = 0
    with offline_page(browser, width=360) as (page, seen):
        for path, figures in new.items():
            page.goto((demo_kits / name / f"{path}.html").as_uri())
            change_all(page)
            odd = {}
            for figure, kind, units, text in page.evaluate(TOLD):
                key = (figure, kind, units)
                # Times that read the same before may differ now, and the other way round.
                if key not in figures:
                    continue
                compared += 1
                changed += figures[key] != old[path].get(key)
                if text not in figures[key] and not anew(before, after, figure, text):
                    odd[key] = (text, figures[key])
            assert odd == {}, path
            page.evaluate("localStorage.clear()")
        assert seen.complaints == []
    assert compared > 200
    assert changed > 100


def anew(before: Kit, after: Kit, figure: str, text: str) -> bool:
    """Tell whether a figure waits for a new build, and rightly: another pot was chosen."""
    _, day, _, place = figure.split(".")[:4]
    pots = [kit.days[int(day)].meals[int(place)].pot for kit in (before, after)]
    return text == "needs a new build" and pots[0] != pots[1]
