"""The page of ways in a browser: what is typed there gives what the Python gives for the same."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from builder.cli.places import place_of, read_place
from builder.clock import today
from builder.model.content import Content
from builder.pages.home.showing import figures_of_home, money
from builder.planning.stock import check
from builder.planning.ways import Ways, ways_to_dry
from builder.record import replace

from .looking import offline_page
from .test_access import faults

TYPED = {
    "mass": "2.7", "portion": "60", "electricity": "0,30", "bag": ".25",
    "shelf-dryer price": "150", "shelf-dryer lasts": "200", "shelf-dryer runs-a-year": "20",
    "home-freeze-dryer price": "3000", "home-freeze-dryer lasts": "400",
    "apple-raw food-price": "2.4", "apple-raw dried-price": "36.11",
}  # fmt: skip


@pytest.fixture
def page(browser: Browser, demo_kits: Path) -> Iterator[Page]:
    with offline_page(browser, 360) as (page, seen):
        page.goto((demo_kits / "at-home" / "ways.html").as_uri())
        yield page
        assert seen.complaints == [] and seen.outside == []


def typed(page: Page, key: str, text: str) -> None:
    blank = page.locator(f'input[data-change="{key}"]')
    blank.fill(text)
    blank.press("Tab")


def row(page: Page, name: str) -> list[str]:
    """Give the cells of a way of apples, without the names of their columns that a phone shows."""
    heading = page.get_by_role("heading", name=re.compile("^Apple"))
    table = heading.locator("xpath=following::table[1]")
    heads = [head.strip() for head in table.locator("thead th").all_text_contents()]
    cells = table.locator("tr", has_text=name).locator("th, td").all_inner_texts()
    told = [" ".join(cell.split()) for cell in cells]
    return [cell.removeprefix(head).strip() for cell, head in zip(told, heads, strict=True)]


def with_typed(known: Content) -> Content:
    """Give the demo's content as if all that was typed stood in its files."""
    gear, foods = known.gear, dict(known.foods)
    dryers, packaging = dict(gear.dryers), dict(gear.packaging)
    dryers["shelf-dryer"] = replace(
        dryers["shelf-dryer"], price=150.0, lasts_runs=200.0, runs_a_year=20.0
    )
    dryers["home-freeze-dryer"] = replace(
        dryers["home-freeze-dryer"], price=3000.0, lasts_runs=400.0
    )
    packaging["zip-bag"] = replace(packaging["zip-bag"], price=0.25)
    foods["apple-raw"] = replace(foods["apple-raw"], price_per_kg=2.4, dried_price_per_kg=36.11)
    return replace(
        known,
        foods=foods,
        gear=replace(gear, dryers=dryers, packaging=packaging),
        home=replace(known.home, portion_g=60.0, electricity_per_kwh=0.3),
    )


@pytest.fixture(scope="module")
def wanted() -> tuple[Content, Ways]:
    known = with_typed(read_place(place_of(None)).content)
    return known, ways_to_dry("apple-raw", 2700.0, known, check(known)[0], today())


def test_what_is_typed_gives_what_the_python_gives(
    page: Page, wanted: tuple[Content, Ways]
) -> None:
    for key, text in TYPED.items():
        typed(page, key, text)
    known, ways = wanted
    figures = figures_of_home(known.home)
    for way in ways.ways:
        if way.dryer not in ("shelf-dryer", "home-freeze-dryer"):
            continue
        cells = row(page, way.dryer_name)
        assert way.portion_cost is not None and way.water_back_ml is not None
        assert cells[1] == money(figures.say, way.portion_cost, "EUR").replace("\u00a0", " ")
        assert cells[2].startswith(figures.plain(way.dried_g, "mass_g").replace("\u00a0", " "))
        assert cells[3].startswith(f"{way.runs} × ")
        back = figures.plain(way.water_back_ml, "volume_ml")
        assert cells[4].startswith(back.replace("\u00a0", " "))
    runs = {(each.dryer, each.against): each.runs for each in ways.pays}
    lines = page.get_by_role("listitem").all_inner_texts()
    told = next(each for each in lines if each.startswith("Five-tray dehydrator against buying"))
    assert f"pays for itself after {runs['shelf-dryer', 'bought']} runs" in told
    assert any("against Five-tray dehydrator: never pays for itself" in each for each in lines)


def test_the_picture_follows_and_says_the_same_in_words(page: Page) -> None:
    picture = page.locator("figure.pays").first
    expect(picture).to_be_hidden()
    for key, text in TYPED.items():
        typed(page, key, text)
    expect(picture).to_be_visible()
    words = picture.locator("desc").text_content() or ""
    assert "Five-tray dehydrator: pays for itself after" in words
    assert "Small home freeze dryer" in words
    before = picture.locator("polyline").first.get_attribute("points")
    typed(page, "shelf-dryer price", "300")
    assert picture.locator("polyline").first.get_attribute("points") != before


def test_what_nobody_told_stays_not_told(page: Page) -> None:
    assert row(page, "Five-tray dehydrator")[1] == "not given"
    typed(page, "apple-raw food-price", "2.4")
    assert row(page, "Five-tray dehydrator")[1] == "not given"  # the dryer's price is wanting
    for key, text in TYPED.items():
        typed(page, key, text)
    assert row(page, "Five-tray dehydrator")[1] != "not given"
    typed(page, "bag", "")
    assert row(page, "Five-tray dehydrator")[1] == "not given"


def test_what_cannot_be_is_not_taken_and_the_files_are_one_touch_away(page: Page) -> None:
    mass = page.locator('input[data-change="mass"]')
    before = row(page, "Five-tray dehydrator")
    for wrong in ("none", "-3", "1.000,5", "0"):
        typed(page, "mass", wrong)
        expect(mass).to_have_attribute("aria-invalid", "true")
        assert row(page, "Five-tray dehydrator") == before
    expect(page.locator(".ways-inputs [role=status]")).to_contain_text("Write a number from")
    typed(page, "mass", "3")
    assert row(page, "Five-tray dehydrator") != before
    page.reload()
    expect(mass).to_have_value("3")  # it stays on this device
    page.get_by_role("button", name="As in your files").click()
    expect(mass).to_have_value("1")
    assert row(page, "Five-tray dehydrator") == before


def test_axe_finds_nothing_where_the_picture_is_seen(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser, 360) as (page, _):
        page.goto((demo_kits / "at-home" / "ways.html").as_uri())
        for key, text in TYPED.items():
            typed(page, key, text)
        assert faults(Axe(), page) == []


def test_it_reads_as_a_page_with_scripts_off(browser: Browser, demo_kits: Path) -> None:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto((demo_kits / "at-home" / "ways.html").as_uri())
    text = page.locator("article").inner_text()
    assert (
        "Electricity, a kWh: 0.31\u00a0EUR" in text
        and "Into the dryer, peeled and cored: 1" in text
    )
    assert page.locator("article input").count() == 0
    context.close()
