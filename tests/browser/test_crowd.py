"""A kit for twelve people and two weeks, with names of all kinds, can be read like any other."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from tests.conftest import tripkit
from tests.site.crowd import NAMES, TRIP, write_crowd

from .looking import offline_page, pages_of, too_wide

MOST_POCKET_BYTES = 150_000
# One of each kind; the others are made from the same templates.
KINDS = (
    "index.html",
    "day-2.html",
    "cook/coconut-chickpea-curry.html",
    "water.html",
    "fuel.html",
    "carry.html",
    "person-3.html",
    "shopping.html",
    "food.html",
    "drying.html",
    "cautions.html",
    "pocket.html",
)
# Where the words of two names begin, from the left of the screen or, on later lines, after that.
PLACES = """names => {
  const walker = document.createTreeWalker(document.querySelector('article'), NodeFilter.SHOW_TEXT);
  const found = {};
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    for (const name of names) {
      const at = node.data.indexOf(name);
      if (at < 0 || found[name] || !node.parentElement.closest('.party')) continue;
      const range = document.createRange();
      range.setStart(node, at);
      range.setEnd(node, at + name.length);
      const box = range.getBoundingClientRect();
      found[name] = [box.top, box.left];
    }
  }
  return names.map(name => found[name]);
}"""


@pytest.fixture(scope="module")
def crowd_kits(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("crowd")
    result = tripkit(
        "build", "--content", str(write_crowd(folder)), "--out", str(folder / "kits"), "--jobs", "1"
    )
    assert result.exit_code == 0, result.output
    return folder / "kits"


@pytest.fixture(scope="module")
def page(browser: Browser) -> Iterator[Page]:
    with offline_page(browser, 360, color_scheme="light", reduced_motion="reduce") as (page, _):
        yield page


def test_no_page_scrolls_sideways(page: Page, crowd_kits: Path) -> None:
    # Of the days' figures one has the lines of all.
    pages = [
        each
        for each in pages_of(crowd_kits)
        if each.parent.name != "numbers" or each.name == "day-2.html"
    ]
    assert len(pages) > 50
    assert too_wide(page, crowd_kits, files=pages) == {}


def test_axe_finds_no_violation(page: Page, crowd_kits: Path) -> None:
    page.set_viewport_size({"width": 360, "height": 800})
    axe, found = Axe(), []
    for name in KINDS:
        page.goto((crowd_kits / TRIP / name).as_uri())
        for violation in axe.run(page).response["violations"]:
            found.append((name, violation["id"], violation["nodes"][0]["html"][:160]))
    assert found == []


def test_the_pocket_page_stays_small_and_tells_each_dish_of_each_day(crowd_kits: Path) -> None:
    kit = crowd_kits / TRIP
    pocket = (kit / "pocket.html").read_bytes()
    assert len(pocket) < MOST_POCKET_BYTES
    html = pocket.decode("utf-8")
    for day in range(1, 15):
        listed = re.findall(rf"<section class=meal id=day-{day}-", html)
        asked = re.findall(rf'href="?#day-{day}-[a-z]+-\d', html)
        assert listed
        assert len(listed) >= len(set(asked))


def test_each_dish_says_who_must_not_eat_what_before_its_steps(
    browser: Browser, crowd_kits: Path
) -> None:
    with offline_page(browser, 360) as (page, _):
        page.goto((crowd_kits / TRIP / "pocket.html").as_uri())
        oats = page.locator("#day-2-breakfast-1")
        danger = oats.locator(".caution.danger")
        expect(danger).to_have_count(1)
        for name in NAMES[1::4]:
            expect(danger).to_contain_text(name)
        expect(danger).to_contain_text("whole milk powder")
        assert danger.evaluate(
            "one => one.compareDocumentPosition(one.parentElement.querySelector('.steps')) === 4"
        )
        danger.get_by_role("link", name="Cautions").click()
        expect(page.locator("#not-to-be-eaten")).to_be_in_viewport()


def test_names_from_right_to_left_keep_their_place_in_a_list(
    browser: Browser, crowd_kits: Path
) -> None:
    one, other = NAMES[2], NAMES[3]
    with offline_page(browser, 1280) as (page, _):
        page.goto((crowd_kits / TRIP / "cook" / "coconut-chickpea-curry.html").as_uri())
        first, second = page.evaluate(PLACES, [one, other])
    assert first < second
