"""A meal step by step: one step to a screen, large touches, timers that nobody stops by mistake."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from .looking import offline_page

MEAL = "tarrow-tops/meals/day-2-dinner.html"
LARGE_PX = 48


def shown(page: Page) -> Locator:
    return page.locator(".work > li:visible")


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


def test_one_step_fills_the_screen_and_leads_on_and_back(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser, width=360) as (page, seen):
        page.goto((demo_kits / MEAL).as_uri())
        steps = page.locator(".work > li").count()
        expect(shown(page)).to_have_count(1)
        expect(shown(page)).to_contain_text("Soak 200 g chickpeas and 70 g sweet potato")
        then = page.locator(".kit-then")
        expect(then).to_contain_text(f"Step 1 of {steps} Then: Add 680 ml water")
        press(page, "Next")
        expect(shown(page)).to_contain_text("Add 680 ml water")
        press(page, "Back")
        expect(shown(page)).to_contain_text("Soak 200 g chickpeas")
        page.reload()  # Back looks; what is done stays done
        expect(shown(page)).to_contain_text("Add 680 ml water")
        press(page, "Undo")
        expect(shown(page)).to_contain_text("Soak 200 g chickpeas")
        expect(page.get_by_role("button", name="Undo", exact=True)).to_be_disabled()
        for _ in range(steps):
            press(page, "Next")
        expect(then).to_contain_text("All steps done")
    assert seen.complaints == []


def test_a_touch_on_the_words_ticks_nothing_off(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser, width=360) as (page, _):
        page.goto((demo_kits / MEAL).as_uri())
        page.locator(".work > li:visible .do:visible").click(force=True)
        expect(page.locator(".kit-then")).to_contain_text("Step 1 of")


def test_all_steps_stand_in_a_list_where_one_asks_for_it(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser) as (page, _):
        page.goto((demo_kits / MEAL).as_uri())
        steps = page.locator(".work > li").count()
        press(page, "One at a time")
        expect(shown(page)).to_have_count(steps)
        page.reload()
        expect(shown(page)).to_have_count(steps)
        press(page, "One at a time")
        expect(shown(page)).to_have_count(1)


def test_without_scripts_all_steps_are_there(browser: Browser, demo_kits: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((demo_kits / MEAL).as_uri())
    expect(shown(page)).to_have_count(page.locator(".work > li").count())
    assert page.locator(".timer:visible").count() == 0
    context.close()


@pytest.mark.parametrize("width", [320, 360])
def test_what_is_pressed_is_large_and_nothing_is_cut(
    browser: Browser, demo_kits: Path, width: int
) -> None:
    with offline_page(browser, width=width) as (page, _):
        page.goto((demo_kits / MEAL).as_uri())
        page.locator(".work .timer:visible").click()
        for name in ("Back", "Next", "Undo"):
            box = page.get_by_role("button", name=name, exact=True).bounding_box()
            assert box is not None and min(box["width"], box["height"]) >= LARGE_PX
        timer = page.locator(".work .timer:visible").bounding_box()
        assert timer is not None and timer["height"] >= LARGE_PX
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        # The bar of timers hides no button under it.
        bar = page.locator(".kit-timers").bounding_box()
        moves = page.locator(".kit-moves").bounding_box()
        assert bar is not None and moves is not None
        assert moves["y"] + moves["height"] <= bar["y"] + 1


def test_a_timer_says_what_it_is_for_and_takes_two_touches_to_stop(
    browser: Browser, demo_kits: Path
) -> None:
    with offline_page(browser, width=360) as (page, seen):
        page.clock.install(time="2031-09-05T17:00:00")
        page.goto((demo_kits / MEAL).as_uri())
        page.get_by_role("button", name="Start 20 min: Coconut chickpea curry soaks").click()
        running = page.locator(".kit-timers button", has_text="Coconut chickpea curry soaks")
        expect(running).to_contain_text("20:00 left – stop")
        running.click()
        expect(running).to_contain_text("Touch again to stop")
        page.clock.fast_forward(5000)  # a slip is forgotten
        expect(running).to_contain_text("left – stop")
        running.click()
        running.click()
        expect(running).to_have_count(0)
    assert seen.complaints == []


def test_steps_are_told_by_the_clock(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser, width=360) as (page, _):
        page.goto((demo_kits / MEAL).as_uri())
        expect(shown(page)).to_contain_text("50 min before eating")
        page.get_by_label("We eat at").fill("18:30")
        expect(shown(page).locator(".before")).to_have_text("17:40 50 min before")
        for _ in range(page.locator(".work > li").count() - 1):
            press(page, "Next")
        expect(shown(page).locator(".before")).to_have_text("18:30")


def test_it_is_worked_by_keys(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser) as (page, _):
        page.goto((demo_kits / MEAL).as_uri())
        page.get_by_role("button", name="Next", exact=True).focus()
        page.keyboard.press("Enter")
        page.keyboard.press("Enter")
        expect(page.locator(".kit-then")).to_contain_text("Step 3 of")
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        expect(page.locator(".kit-then")).to_contain_text("Step 2 of")
