"""A meal of three dishes, cooked step by step with counted touches: by thumb, and by keys.

In each language: where words are longer, a button may lie lower or be covered.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from .looking import offline_page

MEALS = ("lake-emmerin/meals/day-3-breakfast.html", "graupel-ridge/meals/day-1-dinner.html")
# What a thumb would hit in the middle of an element, without scrolling first.
HIT = """one => {
  const { left, top, width, height } = one.getBoundingClientRect();
  const hit = document.elementFromPoint(left + width / 2, top + height / 2);
  return top >= 0 && top + height <= innerHeight + 1 && one.contains(hit);
}"""
FOCUSED = "one => one === document.activeElement"
# How much of the step's words is seen above what stands at the foot of the screen.
FIRST_WORDS = """() => {
  const { left, top } = document.querySelector(".work > li:not(.kit-away) .do:not([hidden] *)")
    .getBoundingClientRect();
  // The words themselves take no touch.
  const hit = document.elementFromPoint(left + 5, top + 12);
  return top >= 0 && Boolean(hit?.closest(".work")) && !hit.closest(".timer");
}"""


def minutes_before(page: Page) -> list[int]:
    """Give how long before eating each step begins."""
    told = page.locator(".work .before[data-before]").all()
    return [int(each.get_attribute("data-before") or 0) for each in told]


def waits(page: Page) -> Iterator[tuple[int, int]]:
    """Go through the steps, each with the seconds until the next one begins."""
    before = minutes_before(page)
    for number, (one, other) in enumerate(pairwise([*before, 0])):
        yield number, max(one - other, 0) * 60


def next_of(page: Page) -> Locator:
    """Give the button that goes on, whatever it is called."""
    return page.locator(".kit-moves button").nth(1)


def touched(browser: Browser, kits: Path, meal: str) -> None:
    """Cook it by thumb: each step takes one touch, and each timer one more."""
    touches, more = 0, 0
    with offline_page(browser, width=360, height=640, has_touch=True) as (page, seen):
        page.clock.install(time="2031-07-13T07:00:00")
        page.goto((kits / meal).as_uri())
        steps = page.locator(".work > li").count()
        timed = page.locator(".work .timer").count()
        assert steps > 10 and timed > 4
        step_on = next_of(page)
        for number, seconds in waits(page):
            for each in (*page.locator(".work .timer:visible").all(), step_on):
                assert each.evaluate(HIT), (number, each.inner_text())
                each.tap()
                touches += 1
                page.clock.run_for(1000)
                if each is not step_on:
                    assert page.evaluate(FIRST_WORDS), number
                    page.clock.fast_forward(seconds * 1000)
                    page.clock.run_for(2000)
            # What was started at another step, and rings now.
            while page.locator(".kit-timers .rung").count():
                page.locator(".kit-timers .rung").first.tap()
                more += 1
        expect(step_on).to_be_disabled()
    assert touches == steps + timed
    assert more <= timed / 2
    assert seen.complaints == []


def typed(browser: Browser, kits: Path, meal: str) -> None:
    """Cook it by keys alone."""
    with offline_page(browser, width=360, height=640) as (page, seen):
        page.goto((kits / meal).as_uri())
        steps = page.locator(".work > li").count()
        timed = page.locator(".work .timer").count()
        step_on = next_of(page)
        step_on.focus()
        presses = 0

        def key(name: str) -> None:
            nonlocal presses
            page.keyboard.press(name)
            presses += 1

        for _ in range(steps):
            timer = page.locator(".work .timer:visible")
            if timer.count():
                key("Shift+Tab")  # past Back, where there is one to go back to
                if not timer.evaluate(FOCUSED):
                    key("Shift+Tab")
                key("Enter")
                expect(timer).to_contain_class("running")
                while not step_on.evaluate(FOCUSED):
                    key("Tab")
            expect(step_on).to_be_focused()
            key("Enter")
        expect(step_on).to_be_disabled()
    assert presses <= steps + 5 * timed
    assert seen.complaints == []


def listed(browser: Browser, kits: Path, meal: str) -> None:
    """Cook it without scripts: a list with boxes in its order."""
    with offline_page(browser, width=360, height=640, java_script_enabled=False) as (page, _):
        page.goto((kits / meal).as_uri())
        boxes = page.locator(".work > li input")
        assert boxes.count() > 10
        for box in boxes.all():
            box.check()
        # How long to wait is told in words, where no timer can be started.
        for step in page.locator(".work > li:has(.timer) label").all():
            assert re.search(r"\d\u00a0(?:min|h)|\d min", step.inner_text()), step.inner_text()


WAYS = pytest.mark.parametrize("way", [touched, typed, listed])


@WAYS
@pytest.mark.parametrize("meal", MEALS)
def test_a_dinner_takes_a_touch_for_each_step_and_one_for_each_timer(
    browser: Browser, demo_kits: Path, meal: str, way: Callable[[Browser, Path, str], None]
) -> None:
    way(browser, demo_kits, meal)


@WAYS
@pytest.mark.parametrize("meal", MEALS)
def test_it_takes_no_more_in_longer_words(
    browser: Browser, translated: Path, meal: str, way: Callable[[Browser, Path, str], None]
) -> None:
    way(browser, translated, meal)
