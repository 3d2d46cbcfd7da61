"""Pages printed alone: few sheets, nothing of the screen on them, letters one can read."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from .looking import offline_page, pages_of
from .printed import LINES_LOST, SMALLEST_POINTS, read_pdf

# Sheets of A4; what is ticked off in a shop, a kitchen or a camp is no pile of paper.
MOST_SHEETS = {
    "tarrow-tops/index.html": 2,
    "tarrow-tops/day-2.html": 2,
    "tarrow-tops/meals/day-1-dinner.html": 2,
    "tarrow-tops/cook/coconut-chickpea-curry.html": 2,
    "tarrow-tops/shopping.html": 2,
    "tarrow-tops/bags.html": 3,
    "tarrow-tops/person-rowan.html": 2,
    "tarrow-tops/carry.html": 4,
    "lake-emmerin/cook/shepherds-pockets.html": 2,
    "at-home/index.html": 2,
    "at-home/stock.html": 4,
    "at-home/shopping.html": 2,
    "at-home/bagging/tarrow-tops.html": 4,
}
# Letters in CSS pixels, of which three are four points.
SIZES = """() => [...document.querySelectorAll("article *")]
  .filter(one => one.checkVisibility() && !one.closest("svg, .review, .kit-unseen")
    && [...one.childNodes].some(node => node.nodeType === Node.TEXT_NODE && node.data.trim()))
  .map(one => [parseFloat(getComputedStyle(one).fontSize) * .75, one.outerHTML.slice(0, 80)])"""
OF_THE_SCREEN = """() => [...document.querySelectorAll("button, select, nav, dialog")]
  .filter(one => one.checkVisibility()).map(one => one.outerHTML.slice(0, 80))"""
UNDERLINED = """() => [...document.querySelectorAll("article :is(a, summary)")]
  .filter(one => one.checkVisibility() && getComputedStyle(one).textDecorationLine !== "none")
  .map(one => one.outerHTML.slice(0, 80))"""
# A box to tick that is not there, or that lies over the words beside it.
BOXES_AMISS = """() => [...document.querySelectorAll(".steps > li > label")].filter(label => {
  const box = label.querySelector("input").getBoundingClientRect();
  const words = document.createRange();
  words.selectNodeContents(label.querySelector("span"));
  return !box.width || [...words.getClientRects()].some(
    line => line.width && line.left < box.right && line.top < box.bottom && line.bottom > box.top);
}).map(label => label.textContent.slice(0, 60))"""


@pytest.mark.parametrize("name", MOST_SHEETS)
def test_a_print_takes_few_sheets_and_leaves_none_empty(
    browser: Browser, demo_kits: Path, name: str
) -> None:
    with offline_page(browser) as (page, _):
        page.goto((demo_kits / name).as_uri())
        printed = read_pdf(page.pdf(prefer_css_page_size=True, tagged=True, format="A4"))
    assert len(printed.sizes) <= MOST_SHEETS[name]
    assert set(printed.document.sheets) == set(range(len(printed.sizes)))


def test_longer_words_take_no_more_sheets(browser: Browser, translated: Path) -> None:
    with offline_page(browser) as (page, _):
        for name in ("tarrow-tops/shopping.html", "tarrow-tops/bags.html"):
            page.goto((translated / name).as_uri())
            printed = read_pdf(page.pdf(prefer_css_page_size=True, tagged=True, format="A4"))
            assert len(printed.sizes) <= MOST_SHEETS[name], name


@pytest.mark.parametrize("kit", ["tarrow-tops", "lake-emmerin", "at-home"])
def test_nothing_of_the_screen_is_on_paper(browser: Browser, demo_kits: Path, kit: str) -> None:
    with offline_page(browser) as (page, _):
        page.emulate_media(media="print")
        for file in pages_of(demo_kits / kit):
            if file.name.startswith(("pocket", "labels-")):
                continue
            page.goto(file.as_uri())
            seen = [page.evaluate(each) for each in (OF_THE_SCREEN, UNDERLINED, LINES_LOST)]
            assert seen == [[], [], []], file
            small = [each for each in page.evaluate(SIZES) if each[0] < SMALLEST_POINTS - 0.01]
            assert small == [], file


@pytest.mark.parametrize(
    "name",
    [
        "lake-emmerin/meals/day-1-dinner.html",
        "lake-emmerin/cook/shepherds-pockets.html",
        "tarrow-tops/bags.html",
        "at-home/index.html",
    ],
)
def test_each_step_has_a_box_beside_its_words(browser: Browser, demo_kits: Path, name: str) -> None:
    with offline_page(browser) as (page, _):
        page.goto((demo_kits / name).as_uri())
        page.emulate_media(media="print")
        assert page.locator(".steps > li:visible").count() > 3
        assert page.evaluate(BOXES_AMISS) == []


def test_what_is_folded_on_a_recipe_is_told_on_paper(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser) as (page, _):
        page.goto((demo_kits / "tarrow-tops" / "cook" / "coconut-chickpea-curry.html").as_uri())
        told = page.get_by_text("Contains: cereals with gluten")
        assert not told.is_visible()
        page.emulate_media(media="print")
        assert told.bounding_box()["height"] > 0  # type: ignore[index]
