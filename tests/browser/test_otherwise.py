"""What the page shows for a trip that is otherwise is what a kit planned of such a trip shows."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from builder.model.kit import Kit
from builder.pages.trip.book import write_book
from builder.planning.kit import plan_trip
from builder.planning.stock import check
from builder.reading.folder import Layer, read_folder
from builder.speech import speech_of
from tests.site.sample import ASSETS, ROOT

from .looking import offline_page

PAGE = "if-it-goes-wrong"
SPAN = re.compile(r'<span class="[^"]*" data-figure="([^"]+)"[^>]*>([^<]*)<')
TOLD = """() => Object.fromEntries([...document.querySelectorAll('[data-figure]')].map(
  one => [one.dataset.figure, one.textContent]))"""
REBUILD = "needs a new build"

Words = tuple[tuple[str, str], ...]


def planned(name: str, *changed: tuple[str, str]) -> Kit:
    """Plan a demo trip after changing words in its file."""
    path = f"trips/{name}.yaml"
    text = (ROOT / "content" / path).read_text("utf-8")
    for before, after in changed:
        assert before in text, before
        text = text.replace(before, after)
    folder = read_folder([Layer(ROOT / "content", "content", unwritten={path: text.encode()})])
    stock, _ = check(folder.content)
    return plan_trip(folder.content.trips[name], folder.content, stock)


def shown_by(kit: Kit) -> dict[str, str]:
    """Give the figures of the page of a kit, as their text."""
    markdown = write_book(kit, ASSETS).markdown[f"{PAGE}.md"]
    return {html.unescape(name): html.unescape(text) for name, text in SPAN.findall(markdown)}


def at(page: Page, group: str, label: str) -> Locator:
    """Give what one changes in a group, by its label; the group is opened."""
    box = page.locator("details", has=page.locator("summary", has_text=group)).last
    if box.get_attribute("open") is None:
        box.locator("summary").click()
    # A unit may stand behind it.
    return box.get_by_label(re.compile(rf"^ *{label}( |$)".replace(" ", r"\s")))


def away(page: Page) -> None:
    at(page, "Who comes", "Ash").uncheck()


def linnea_away(page: Page) -> None:
    at(page, "Who comes", "Linnea").uncheck()


def higher(page: Page) -> None:
    typed(at(page, "How high the camps lie", "Day 2"), "2400")


def warmer(page: Page) -> None:
    typed(at(page, "The warmest air", "Days 1 and 3"), "31")


def colder(page: Page) -> None:
    typed(at(page, "The coldest air", "Day 1"), "-30")


def windier(page: Page) -> None:
    at(page, "The wind", "Day 1").select_option(label="windy")


def typed(blank: Locator, text: str) -> None:
    blank.fill(text)
    blank.press("Enter")
    blank.blur()


ASH: Words = (
    (
        "  - {name: Ash, sex: female, age: 34, mass: 64 kg, height: 168 cm, carries_to: 15 kg, "
        "own_gear: 6.2 kg, avoids: []}\n",
        "",
    ),
    ("for: [Ash, Juniper, Bram]", "for: [Juniper, Bram]"),
)
HIGH: Words = (("camp_altitude: 1480 m", "camp_altitude: 2400 m"),)
WARM: Words = (("air: {low: 4 degC, high: 16 degC}", "air: {low: 4 degC, high: 31 degC}"),)
WIND: Words = (("640 m\n    wind: sheltered", "640 m\n    wind: windy"),)
LINNEA: Words = (
    (
        "  - {name: Linnea, sex: female, age: 29, mass: 62 kg, height: 170 cm, carries_to: 17 kg, "
        "own_gear: 9 kg, avoids: []}\n",
        "",
    ),
)
COLD: Words = (("air: {low: -14 degC", "air: {low: -30 degC"),)


@pytest.mark.parametrize(
    ("name", "change", "words", "least"),
    [
        ("tarrow-tops", (away,), ASH, 60),
        ("tarrow-tops", (higher,), HIGH, 3),
        ("tarrow-tops", (warmer,), WARM, 5),
        ("tarrow-tops", (windier,), WIND, 3),
        ("graupel-ridge", (colder,), COLD, 3),
        ("graupel-ridge", (linnea_away,), LINNEA, 40),
        ("tarrow-tops", (away, higher, warmer, windier), ASH + HIGH + WARM + WIND, 60),
    ],
)
def test_the_page_shows_what_a_trip_changed_in_its_file_shows(
    browser: Browser,
    demo_kits: Path,
    name: str,
    change: tuple[Callable[[Page], None], ...],
    words: Words,
    least: int,
) -> None:
    before, after = planned(name), planned(name, *words)
    old, new = shown_by(before), shown_by(after)
    with offline_page(browser, width=360) as (page, seen):
        page.goto((demo_kits / name / f"{PAGE}.html").as_uri())
        assert page.evaluate(TOLD) == old
        for each in change:
            each(page)
        told = page.evaluate(TOLD)
        assert seen.complaints == []
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert odd(before, after, told, new) == {}
    assert sum(1 for each in told if told[each] != old[each]) >= least


def odd(
    before: Kit, after: Kit, told: Mapping[str, str], new: Mapping[str, str]
) -> dict[str, tuple[str, str | None]]:
    """Give the figures that the page tells wrongly, or does not tell for no reason."""
    found = {}
    for figure, text in told.items():
        # What is left of the fuel is left of cans that another plan may not take.
        if figure.startswith("left."):
            continue
        waits = text == REBUILD and other_pots(before, after, figure)
        is_right = waits or text == new.get(figure)
        if not is_right:
            found[figure] = (text, new.get(figure))
    return found


def other_pots(before: Kit, after: Kit, figure: str) -> bool:
    """Tell whether a figure rests on a pot that was chosen otherwise."""
    parts = figure.split(".")
    pots = []
    for kit in (before, after):
        day = kit.days[int(parts[1])]
        meals = day.meals if parts[2] != "meals" else day.meals[int(parts[3]) :][:1]
        pots.append([meal.pot for meal in meals] + [day.fuel.melting.pot, day.fuel.boiling.pot])
    return pots[0] != pots[1]


def test_a_wrong_figure_is_seen() -> None:
    before = planned("tarrow-tops")
    told = shown_by(before)
    assert odd(before, before, told, told) == {}
    figure = "days.1.water.total_ml"
    for wrong in ("1 ml", REBUILD):
        assert odd(before, before, {**told, figure: wrong}, told) == {figure: (wrong, told[figure])}


def test_fuel_that_is_left_lasts_until_what_comes_has_burnt_it(
    browser: Browser, demo_kits: Path
) -> None:
    kit = planned("tarrow-tops")
    burnt_g = [float(day.fuel.fuel_g) for day in kit.days]
    left_g = burnt_g[1] + burnt_g[2] / 2  # from day 2 on: enough for it, and not for day 3
    with offline_page(browser, width=360) as (page, _):
        page.goto((demo_kits / "tarrow-tops" / f"{PAGE}.html").as_uri())
        at(page, "The fuel that is left", "From").select_option(label="Day\u00a02")
        typed(at(page, "The fuel that is left", "Fuel left"), f"{left_g:.6f}")
        say = speech_of("en")
        for day in (1, 2):
            rest_g = left_g - sum(burnt_g[1 : day + 1])
            shown = page.locator(f"[data-figure='left.{day}']")
            expect(shown).to_have_text(say.show(rest_g, "mass_g"))
        expect(page.locator("#otherwise-1")).to_be_hidden()
        expect(page.get_by_text("The fuel does not last day 3")).to_be_visible()
        # What comes after is short too, and is not told a second time.
        expect(page.get_by_text("The fuel does not last day 4")).to_be_hidden()


def test_what_cannot_follow_is_said_and_one_touch_takes_all_back(
    browser: Browser, demo_kits: Path
) -> None:
    with offline_page(browser, width=360) as (page, seen):
        page.goto((demo_kits / "tarrow-tops" / f"{PAGE}.html").as_uri())
        old = page.evaluate(TOLD)
        note = page.locator(".kit-changed")
        expect(note).to_be_hidden()
        typed(at(page, "Who comes", "Others besides them"), "2")
        # Their meals follow; what they drink nobody told.
        expect(page.locator("[data-figure='days.0.water.drinking_ml']")).to_have_text(REBUILD)
        meal = page.locator("[data-figure='days.0.meals.0.mass_g']")
        assert meal.inner_text() not in (REBUILD, old["days.0.meals.0.mass_g"])
        expect(note.get_by_role("status")).to_contain_text("need a new build")
        expect(note.get_by_text("What the others must not eat")).to_be_visible()
        filters = note.get_by_text(re.compile(r"Sleep with the filter \(Day\s2\)"))
        expect(filters).to_be_hidden()
        typed(at(page, "The coldest air", "Day 2"), "0")
        expect(filters).to_be_visible()
        # It stays as it was typed, also for who comes back to the page.
        page.reload()
        expect(filters).to_be_visible()
        expect(at(page, "Who comes", "Others besides them")).to_have_value("2")
        typed(at(page, "The coldest air", "Day 2"), "very cold")
        expect(page.get_by_role("alert").filter(has_text="does not fit")).to_be_visible()
        note.get_by_role("button", name="As planned").click()
        expect(note).to_be_hidden()
        assert page.evaluate(TOLD) == old
        page.reload()
        assert page.evaluate(TOLD) == old
        assert seen.complaints == [] and seen.outside == []


def test_without_scripts_it_is_read_as_planned(browser: Browser, demo_kits: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((demo_kits / "tarrow-tops" / f"{PAGE}.html").as_uri())
    expect(page.locator("div.otherwise")).to_be_hidden()
    expect(page.locator("#otherwise-2")).to_be_visible()
    expect(page.locator("[data-figure='days.1.fuel_g']")).to_be_visible()
    context.close()
