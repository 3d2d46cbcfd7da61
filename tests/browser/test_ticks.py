"""Tick-offs, one step at a time, and a screen that stays on: kept, and never in the way."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from builder import units

from .looking import offline_page, wait_until


def boxes(page: Page) -> list[bool]:
    return [box.is_checked() for box in page.locator(".steps input").all()]


def test_ticks_are_kept_and_can_be_taken_off(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, seen):
        page.goto(recipe)
        page.get_by_label("Soak the beans 10 min.").check()
        page.get_by_label("Serve.").check()
        page.reload()
        assert boxes(page) == [True, False, True]
        expect(page.locator(".steps li").first).to_have_class("done")
        page.get_by_role("button", name="Untick all").click()
        page.reload()
        assert boxes(page) == [False, False, False]
    assert seen.complaints == []


def test_ticks_can_be_set_by_key_and_by_touching_the_line(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, _):
        page.goto(recipe)
        page.locator(".steps input").first.focus()
        page.keyboard.press("Space")
        page.locator(".steps label").nth(1).click()
        assert boxes(page) == [True, True, False]


def test_lines_to_tick_are_large_enough_for_wet_hands(browser: Browser, recipe: str) -> None:
    with offline_page(browser, width=320) as (page, _):
        page.goto(recipe)
        for line in page.locator(".steps label, article button:visible").all():
            box = line.bounding_box()
            assert box is not None
            assert box["height"] >= 44


def test_ticks_of_two_kits_do_not_meet(browser: Browser, sample_kits: Path) -> None:
    with offline_page(browser) as (page, _):
        page.goto((sample_kits / "lake-walk" / "cook" / "bean-pot.html").as_uri())
        page.get_by_label("Serve.").check()
        page.goto((sample_kits / "other-walk" / "cook" / "bean-pot.html").as_uri())
        assert boxes(page) == [False, False, False]


def test_the_pocket_page_keeps_ticks_too(browser: Browser, sample_kits: Path) -> None:
    with offline_page(browser) as (page, seen):
        page.goto((sample_kits / "lake-walk" / "pocket.html").as_uri())
        page.get_by_label("Soak the beans.").check()
        page.reload()
        assert boxes(page) == [True]
    assert seen.complaints == []


@pytest.mark.parametrize("name", ["localStorage", "sessionStorage"])
def test_a_viewer_that_refuses_storage_breaks_nothing(
    browser: Browser, sample_kits: Path, name: str
) -> None:
    refuse = (
        f"Object.defineProperty(window, '{name}', "
        "{get() { throw new DOMException('no', 'SecurityError'); }});"
    )
    kit = sample_kits / "lake-walk"
    with offline_page(browser) as (page, _):
        page.add_init_script(refuse)
        page.goto((kit / "cook" / "bean-pot.html").as_uri())
        page.get_by_label("Serve.").check()
        page.get_by_role("button", name="Start 9 min").click()
        expect(page.locator(".kit-timers button").last).to_contain_text("Smoky bean pot: ")
        page.get_by_text("Who eats? How high?").click()
        page.get_by_role("button", name="One person more").click()
        expect(page.locator(".scales[data-kind=g]").first).to_have_text(f"200{units.NBSP}g")
        assert boxes(page) == [False, False, True]
        page.goto((kit / "pocket.html").as_uri())
        page.get_by_label("Soak the beans.").check()
        assert boxes(page) == [True]


def test_one_step_at_a_time_shows_the_first_open_step(browser: Browser, recipe: str) -> None:
    with offline_page(browser, width=320) as (page, seen):
        page.goto(recipe)
        toggle = page.get_by_role("button", name="One at a time")
        expect(toggle).to_have_attribute("aria-pressed", "false")
        toggle.click()
        lines = page.locator(".steps > li:visible")
        expect(lines).to_have_count(1)
        expect(lines).to_contain_text("Soak the beans")
        expect(page.locator(".kit-moves output")).to_have_text("Step 1 of 3")
        page.get_by_role("button", name="Next").click()
        expect(lines).to_contain_text("Bring to the boil")
        assert boxes(page) == [True, False, False]
        page.get_by_role("button", name="Back", exact=True).click()
        expect(lines).to_contain_text("Soak the beans")
        page.reload()
        expect(lines).to_contain_text("Bring to the boil")
        lines.locator("label").click()
        expect(lines).to_contain_text("Serve")
        page.get_by_role("button", name="Next").click()
        expect(page.locator(".kit-moves output")).to_have_text("All steps done")
        expect(lines).to_have_count(0)
        toggle.click()
        expect(lines).to_have_count(3)
    assert seen.complaints == []


def test_the_screen_is_kept_on_while_wanted(browser: Browser, recipe: str) -> None:
    stub = """
      window.asked = 0; window.freed = 0;
      Object.defineProperty(navigator, 'wakeLock', {value: {async request() {
        window.asked += 1;
        const lock = new EventTarget();
        lock.release = async () => { window.freed += 1; lock.dispatchEvent(new Event('release')); };
        window.lastLock = lock;
        return lock;
      }}});
    """
    with offline_page(browser) as (page, _):
        page.add_init_script(stub)
        page.goto(recipe)
        button = page.get_by_role("button", name="Keep screen on")
        expect(button).to_have_attribute("aria-pressed", "false")
        button.click()
        expect(button).to_have_attribute("aria-pressed", "true")
        page.evaluate("lastLock.dispatchEvent(new Event('release'))")
        page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
        wait_until(page, "asked === 2")
        button.click()
        expect(button).to_have_attribute("aria-pressed", "false")
        wait_until(page, "freed === 1")


NO_LOCK = "Object.defineProperty(navigator, 'wakeLock', {value: undefined});"
REFUSED = """Object.defineProperty(navigator, 'wakeLock', {value: {
  request: () => Promise.reject(new DOMException('low battery', 'NotAllowedError'))}});"""


@pytest.mark.parametrize("means", [NO_LOCK, REFUSED], ids=["without the means", "refused"])
def test_where_the_screen_cannot_be_kept_on_the_reader_hears_what_to_do(
    browser: Browser, recipe: str, means: str
) -> None:
    with offline_page(browser) as (page, seen):
        page.add_init_script(means)
        page.goto(recipe)
        told = page.get_by_role("status").filter(has_text="in its own settings")
        expect(told).to_have_count(0)
        page.get_by_role("button", name="Keep screen on").click()
        expect(told).to_be_visible()
        expect(page.get_by_role("button", name="Keep screen on")).to_have_attribute(
            "aria-pressed", "false"
        )
    assert seen.complaints == []


def test_a_wide_table_can_be_scrolled_by_keyboard(browser: Browser, sample_kits: Path) -> None:
    with offline_page(browser, width=320) as (page, _):
        page.goto((sample_kits / "lake-walk" / "day-1.html").as_uri())
        box = page.locator(".wide").first
        expect(box).to_have_attribute("tabindex", "0")
        expect(box).to_have_attribute("role", "group")
        box.focus()
        page.keyboard.press("ArrowRight")
        wait_until(page, "document.querySelector('.wide').scrollLeft > 0")
        page.set_viewport_size({"width": 1280, "height": 800})
        expect(box).not_to_have_attribute("tabindex", "0")


def open_shopping(page: Page, kits: Path) -> None:
    page.goto((kits / "tarrow-tops/shopping.html").as_uri())


def test_all_ticks_taken_off_by_mistake_are_set_again(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser, width=360) as (page, seen):
        open_shopping(page, demo_kits)
        for number in (0, 3):
            page.locator(".steps input").nth(number).check()
            page.wait_for_timeout(900)
        page.get_by_role("button", name="Untick all").click()
        assert sum(boxes(page)) == 0
        page.get_by_role("button", name="Undo: tick 2 again").click()
        assert sum(boxes(page)) == 2
        page.get_by_role("button", name="Untick all").click()
        page.locator(".steps input").first.check()  # from here on, there is nothing to undo
        expect(page.get_by_role("button", name="Untick all")).to_be_visible()
    assert seen.complaints == []


def test_what_is_left_stands_on_top(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser, width=360) as (page, _):
        open_shopping(page, demo_kits)
        lists = page.locator("ul.steps", has=page.locator("li:nth-child(3)")).first
        words = lists.locator("li").all_text_contents()
        lists.locator("input").first.focus()
        page.keyboard.press("Space")
        expect(lists.locator("li").last).to_have_text(words[0])
        expect(lists.locator("li").last.locator("input")).to_be_focused()
        page.reload()
        expect(lists.locator("li").last).to_have_text(words[0])
        lists.locator("input").last.uncheck()
        expect(lists.locator("li").first).to_have_text(words[0])


def test_the_steps_of_a_recipe_stay_in_their_order(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, _):
        page.goto(recipe)
        page.locator(".steps input").first.check()
        page.wait_for_timeout(900)
        assert boxes(page) == [True, False, False]
