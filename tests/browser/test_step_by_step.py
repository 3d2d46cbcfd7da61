"""A meal step by step: one step to a screen, large touches, timers that nobody stops by mistake."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from .looking import offline_page

MEAL = "tarrow-tops/meals/day-2-dinner.html"
LARGE_PX = 48


# What a cook cannot read of any step of a page: lines that lie under what stays at the foot of the
# screen wherever one scrolls to, and ends that lie there at first look with no mark that tells it.
UNREAD = """async () => {
  const found = [];
  const [, next] = document.querySelectorAll(".kit-moves button");
  const box = one => one.getBoundingClientRect();
  for (const step of document.querySelectorAll(".work > li")) {
    await new Promise(done => requestAnimationFrame(() => setTimeout(done)));
    const over = [...document.querySelectorAll(".kit-moves, .kit-timers, .md-header, .work .timer")]
      .filter(one => one.checkVisibility());
    const texts = document.createTreeWalker(step, NodeFilter.SHOW_TEXT);
    const lines = [];
    while (texts.nextNode()) {
      const { parentElement, data } = texts.currentNode;
      if (!data.trim() || !parentElement.checkVisibility() || parentElement.closest("button, svg"))
        continue;
      const range = document.createRange();
      range.selectNodeContents(texts.currentNode);
      for (let line = 0; line < range.getClientRects().length; line += 1) {
        lines.push([`${data.trim().slice(0, 30)} (${line})`, () => range.getClientRects()[line]]);
      }
    }
    const hidden = ([, place]) => {
      const { top, bottom } = place();
      return bottom > innerHeight + 1 || top < -1
        || over.some(one => bottom > box(one).top + 2 && top < box(one).bottom - 2);
    };
    if (!lines.length) found.push("no step is shown");
    if (lines.some(hidden) && !document.querySelector(".kit-more")) {
      found.push(`nothing tells of more: ${step.textContent.slice(0, 60)}`);
    }
    const first = scrollY;
    let unread = lines;
    for (let at = first; unread.length && at < first + box(step).height + 200; at += 40) {
      scrollTo({ top: at, behavior: "instant" });
      unread = unread.filter(hidden);
    }
    found.push(...unread.map(([words]) => words));
    scrollTo({ top: first, behavior: "instant" });
    next.click();
  }
  return found;
}"""


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


def test_the_line_of_moves_stays_where_the_thumb_is(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser, width=360, height=740, reduced_motion="reduce") as (page, _):
        page.goto((demo_kits / MEAL).as_uri())
        foot = "document.querySelector('.kit-moves').getBoundingClientRect().bottom"
        for _ in range(page.locator(".work > li").count()):
            assert abs(page.evaluate(foot) - 740) <= 8
            press(page, "Next")


def test_a_timer_says_what_it_is_for_and_takes_two_touches_to_stop(
    browser: Browser, demo_kits: Path
) -> None:
    with offline_page(browser, width=360) as (page, seen):
        page.clock.install(time="2031-09-05T17:00:00")
        page.goto((demo_kits / MEAL).as_uri())
        page.get_by_role("button", name="Start 20 min: Coconut chickpea curry, soaking").click()
        running = page.locator(".kit-timers button", has_text="Coconut chickpea curry, soaking")
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


def unread(browser: Browser, kits: Path, width: int, height: int) -> dict[str, list[str]]:
    found = {}
    with offline_page(browser, width, height, reduced_motion="reduce") as (page, _):
        files = sorted(kits.glob("*/meals/*.html"))
        assert len(files) > 20
        for file in files:
            page.goto(file.as_uri())
            if lines := page.evaluate(UNREAD):
                found[file.relative_to(kits).as_posix()] = lines
    return found


SMALL_PHONES = pytest.mark.parametrize(("width", "height"), [(360, 640), (320, 568)])


@SMALL_PHONES
def test_every_line_of_every_step_can_be_read_on_a_small_phone(
    browser: Browser, demo_kits: Path, width: int, height: int
) -> None:
    assert unread(browser, demo_kits, width, height) == {}


@SMALL_PHONES
def test_so_can_longer_words(browser: Browser, translated: Path, width: int, height: int) -> None:
    assert unread(browser, translated, width, height) == {}
