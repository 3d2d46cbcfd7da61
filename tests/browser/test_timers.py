"""Timers: kept by their end, seen and heard on every page of the kit, with no leave to ask for."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Browser, expect

from .looking import offline_page, wait_until

MINUTE_MS = 60_000
NOW = "2031-07-11T17:00:00"
COUNT_TONES = (
    "window.rang = 0; AudioContext.prototype.createOscillator = new Proxy("
    "AudioContext.prototype.createOscillator,"
    "{apply(make, self) { window.rang += 1; return Reflect.apply(make, self, []); }});"
)

LOCKS = """Object.defineProperty(navigator, 'wakeLock', {value: {async request() {
  return Object.assign(new EventTarget(), {release: async () => {}});
}}});"""


def test_a_timer_runs_on_through_a_reload_and_on_other_pages(
    browser: Browser, sample_kits: Path, recipe: str
) -> None:
    with offline_page(browser) as (page, seen):
        page.clock.install(time=NOW)
        page.goto(recipe)
        page.locator("button.timer[data-minutes='9']").click()
        starter = page.locator(".steps button.timer")
        expect(starter).to_have_text("9:00 left – stop")
        page.clock.fast_forward(2 * MINUTE_MS)
        expect(starter).to_have_text("7:00 left – stop")
        page.reload()
        page.clock.run_for(1000)
        expect(starter).to_contain_text("6:5")
        page.goto((sample_kits / "lake-walk" / "day-1.html").as_uri())
        shown = page.locator(".kit-timers button", has_text="stop")
        expect(shown).to_contain_text("Smoky bean pot: 6:5")
        page.get_by_role("button", name="Start 10 min").click()
        expect(shown).to_have_count(2)
        page.clock.fast_forward(7 * MINUTE_MS)
        expect(shown.first).to_have_text("Smoky bean pot: Time is up – stop")
        expect(page.get_by_role("alert")).to_contain_text("Smoky bean pot: Time is up")
        assert page.title().startswith("● ")
        shown.first.click()
        expect(shown).to_have_count(1)
        assert not page.title().startswith("● ")
    assert seen.complaints == []


def test_a_finished_timer_rings(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, _):
        page.add_init_script(COUNT_TONES)
        page.clock.install(time=NOW)
        page.goto(recipe)
        page.locator(".steps button.timer").click()
        wait_until(page, "navigator.userActivation.hasBeenActive")
        page.clock.fast_forward(8 * MINUTE_MS)
        assert page.evaluate("rang") == 0
        page.clock.fast_forward(MINUTE_MS + 1000)
        assert page.evaluate("rang") > 0


def test_a_timer_rings_on_another_page_after_any_touch(browser: Browser, sample_kits: Path) -> None:
    kit = sample_kits / "lake-walk"
    with offline_page(browser) as (page, seen):
        page.add_init_script(COUNT_TONES)
        page.clock.install(time=NOW)
        page.goto((kit / "cook" / "bean-pot.html").as_uri())
        page.locator(".steps button.timer").click()
        page.goto((kit / "cautions.html").as_uri())
        page.locator("h1").click()
        page.clock.fast_forward(9 * MINUTE_MS + 1000)
        wait_until(page, "rang > 0")
        expect(page.get_by_role("alert")).to_contain_text("Smoky bean pot: Time is up")
        expect(page.locator(".kit-timers button.rung")).to_be_visible()
    assert seen.complaints == []


def test_a_page_that_may_not_sound_says_so(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, seen):
        page.add_init_script(
            "Object.defineProperty(AudioContext.prototype, 'state', {get: () => 'suspended'});"
        )
        page.goto(recipe)
        page.locator(".steps button.timer").click()
        expect(page.get_by_role("button", name="Sound is off here. Turn it on")).to_be_visible()
    assert seen.complaints == []


def test_a_browser_without_sound_still_shows_the_alarm(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, seen):
        page.add_init_script("delete window.AudioContext;")
        page.clock.install(time=NOW)
        page.goto(recipe)
        page.locator(".steps button.timer").click()
        page.clock.fast_forward(9 * MINUTE_MS)
        expect(page.get_by_role("alert")).to_contain_text("Time is up")
        expect(page.locator(".steps button.timer")).to_have_text("Time is up – stop")
    assert seen.complaints == []


def test_a_phone_that_slept_tells_how_long_ago_it_was(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, _):
        page.clock.install(time=NOW)
        page.goto(recipe)
        page.locator(".steps button.timer").click()
        # Nothing ran in between: the clock jumped, as on a phone that was locked.
        page.clock.set_fixed_time("2031-07-11T17:12:30")
        page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
        expect(page.locator(".steps button.timer")).to_have_text("Time was up 3:30 ago – stop")


def test_timers_of_another_page_are_stopped_from_here(browser: Browser, sample_kits: Path) -> None:
    kit = sample_kits / "lake-walk"
    with offline_page(browser) as (page, _):
        page.goto((kit / "cook" / "bean-pot.html").as_uri())
        page.locator(".steps button.timer").click()
        page.goto((kit / "day-2.html").as_uri())
        # It still runs: a slip of the thumb stops nothing.
        page.locator(".kit-timers button", has_text="Smoky bean pot").click()
        page.locator(".kit-timers button", has_text="Touch again to stop").click()
        expect(page.locator(".kit-timers")).to_be_hidden()
        page.goto((kit / "cook" / "bean-pot.html").as_uri())
        expect(page.locator(".steps button.timer")).to_have_text("Start 9 min")


def test_no_page_asks_for_leave_to_notify(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, _):
        page.add_init_script(
            "window.asked = 0; if (window.Notification) Notification.requestPermission = "
            "() => { window.asked += 1; return Promise.resolve('denied'); };"
        )
        page.goto(recipe)
        page.locator(".steps button.timer").click()
        assert page.evaluate("asked") == 0


def test_a_running_timer_tells_that_a_locked_phone_may_not_ring(
    browser: Browser, recipe: str
) -> None:
    with offline_page(browser, width=320) as (page, seen):
        page.add_init_script(LOCKS)
        page.goto(recipe)
        page.locator(".steps button.timer").click()
        warned = page.locator(".kit-timers").get_by_text("A locked phone may not ring.")
        expect(warned).to_be_visible()
        assert page.evaluate("document.documentElement.scrollWidth") <= 320
        page.locator(".kit-timers").get_by_role("button", name="Keep screen on").click()
        expect(warned).to_be_hidden()
        for button in page.get_by_role("button", name="Keep screen on").all():
            expect(button).to_have_attribute("aria-pressed", "true")
    assert seen.complaints == []


def test_several_timers_run_on_the_pocket_page_and_survive_a_reload(
    browser: Browser, demo_kits: Path
) -> None:
    with offline_page(browser, width=360) as (page, seen):
        page.clock.install(time=NOW)
        page.goto((demo_kits / "tarrow-tops" / "pocket.html").as_uri())
        starters = page.locator(".steps button.timer")
        first, second = starters.nth(0), starters.nth(1)
        minutes = [int(one.get_attribute("data-minutes") or 0) for one in (first, second)]
        first.click()
        second.click()
        shown = page.locator(".kit-timers button", has_text="stop")
        expect(shown).to_have_count(2)
        dish = first.locator("xpath=ancestor::section[1]/h3").inner_text()
        expect(shown.first).to_contain_text(f"{dish}: {minutes[0]}:00 left")
        page.reload()
        page.clock.fast_forward(min(minutes) * MINUTE_MS + 1000)
        expect(shown).to_have_count(2)
        expect(page.get_by_role("alert")).to_contain_text("Time is up")
        expect(page.locator(".kit-timers button.rung")).not_to_have_count(0)
    assert seen.complaints == []
