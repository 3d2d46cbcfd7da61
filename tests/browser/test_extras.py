"""Ticks, timers, screen and party size: extras that keep their state and never get in the way."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from builder import units
from tests.site.sample import ASSETS

from .looking import offline_page, wait_until

MINUTE_MS = 60_000


@pytest.fixture
def recipe(sample_kits: Path) -> str:
    return (sample_kits / "lake-walk" / "cook" / "bean-pot.html").as_uri()


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
        expect(page.locator(".kit-timers button")).to_contain_text("Smoky bean pot: ")
        page.get_by_role("button", name="One person more").click()
        expect(page.locator(".scales").first).to_have_text(f"200{units.NBSP}g")
        assert boxes(page) == [False, False, True]
        page.goto((kit / "pocket.html").as_uri())
        page.get_by_label("Soak the beans.").check()
        assert boxes(page) == [True]


def test_a_timer_runs_on_through_a_reload_and_on_other_pages(
    browser: Browser, sample_kits: Path, recipe: str
) -> None:
    with offline_page(browser) as (page, seen):
        page.clock.install(time=1_900_000_000)
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
        shown = page.locator(".kit-timers button")
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
        page.add_init_script(
            "window.rang = 0; AudioContext.prototype.createOscillator = new Proxy("
            "AudioContext.prototype.createOscillator,"
            "{apply(make, self) { window.rang += 1; return Reflect.apply(make, self, []); }});"
        )
        page.clock.install(time=1_900_000_000)
        page.goto(recipe)
        page.locator(".steps button.timer").click()
        wait_until(page, "navigator.userActivation.hasBeenActive")
        page.clock.fast_forward(8 * MINUTE_MS)
        assert page.evaluate("rang") == 0
        page.clock.fast_forward(MINUTE_MS + 1000)
        assert page.evaluate("rang") > 0


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
        button = page.get_by_role("button", name="Keep the screen on")
        expect(button).to_have_attribute("aria-pressed", "false")
        button.click()
        expect(button).to_have_attribute("aria-pressed", "true")
        page.evaluate("lastLock.dispatchEvent(new Event('release'))")
        page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
        wait_until(page, "asked === 2")
        button.click()
        expect(button).to_have_attribute("aria-pressed", "false")
        wait_until(page, "freed === 1")


def test_a_browser_without_the_means_offers_no_screen_button(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, seen):
        page.add_init_script("Object.defineProperty(navigator, 'wakeLock', {value: undefined});")
        page.goto(recipe)
        expect(page.get_by_role("button", name="Untick all")).to_be_visible()
        expect(page.get_by_role("button", name="Keep the screen on")).to_have_count(0)
    assert seen.complaints == []


def test_amounts_follow_the_party_and_come_back(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, seen):
        page.goto(recipe)
        amounts = page.locator(".scales")
        expect(amounts).to_have_text(["160 g", "520 ml"])
        page.get_by_role("button", name="One person fewer").click()
        expect(amounts).to_have_text([f"120{units.NBSP}g", f"390{units.NBSP}ml"])
        expect(page.locator(".party output")).to_have_text("3")
        page.reload()
        expect(page.locator(".party output")).to_have_text("3")
        page.get_by_role("button", name="As planned: 4").click()
        expect(amounts).to_have_text(["160 g", "520 ml"])
    assert seen.complaints == []


def test_the_party_has_at_least_one_and_at_most_forty(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, _):
        page.goto(recipe)
        for _ in range(6):
            page.get_by_role("button", name="One person fewer").click()
        expect(page.locator(".party output")).to_have_text("1")
        expect(page.locator(".party")).to_contain_text("person")


PLANNED, WANTED = 4, 5
MUG_ML = 300
VALUES = [
    0.04, 0.25, 0.36, 0.44, 1, 1.04, 1.96, 7.96, 8, 8.04, 9.9, 10, 11.2, 12.5, 37, 79.6, 80.4,
    160, 188.9, 235, 236.6, 340, 362.87, 399.6, 400, 799.5, 799.6, 800, 801.2, 999, 1000, 1234.5,
    2140, 2675, 3028, 3029, 9876.54, 45359, 987654.321,
]  # fmt: skip


def expected_texts() -> list[str]:
    """Work out every text with the build's own rounding."""
    texts = []
    for value in VALUES:
        now = value * WANTED / PLANNED
        texts += [units.show(now, "mass_g", "metric"), units.show(now, "mass_g", "us")]
        texts += [units.show(now, "volume_ml", "metric"), units.show(now, "volume_ml", "us")]
        texts += [units.mugs(now, MUG_ML)]
    return texts


def test_the_script_rounds_as_the_build_does(browser: Browser, tmp_path: Path) -> None:
    spans = [
        f'<span class="scales" data-value="{value}" data-party="{PLANNED}" {kind}>x</span>'
        for value in VALUES
        for kind in (
            'data-kind="g" data-units="metric"',
            'data-kind="g" data-units="us"',
            'data-kind="ml" data-units="metric"',
            'data-kind="ml" data-units="us"',
            f'data-kind="mugs" data-mug="{MUG_ML}"',
        )
    ]
    (tmp_path / "assets").mkdir()
    script = (ASSETS / "assets" / "kit.js").read_text(encoding="utf-8")
    (tmp_path / "assets" / "kit.js").write_text(script, encoding="utf-8")
    (tmp_path / "page.html").write_text(
        '<!doctype html><html lang="en"><meta charset="utf-8"><title>t</title>'
        f'<h1>t</h1><div class="party" data-party="{PLANNED}"></div>'
        f'<p>{"".join(spans)}</p><script src="assets/kit.js"></script></html>',
        encoding="utf-8",
    )
    with offline_page(browser) as (page, seen):
        page.goto((tmp_path / "page.html").as_uri())
        page.get_by_role("button", name="One person more").click()
        shown = page.evaluate("[...document.querySelectorAll('.scales')].map(s => s.textContent)")
    assert seen.complaints == []
    pairs = dict(zip(expected_texts(), shown, strict=False))
    assert len(shown) == len(VALUES) * 5
    assert shown == expected_texts(), json.dumps(
        {a: b for a, b in pairs.items() if a != b}, ensure_ascii=False
    )


@pytest.mark.parametrize(
    ("attributes", "text"),
    [
        ('data-value="1.6" data-kind="potfuls"', "2 potfuls"),
        ('data-value="0.8" data-kind="potfuls"', "1 potful"),
        ('data-value="0.81" data-kind="potfuls"', "2 potfuls"),
        ('data-value="8" data-kind="count" data-step="1"', "10"),
        ('data-value="1" data-kind="count" data-step="0.5"', "1.5"),
    ],
)
def test_counts_and_potfuls_are_whole(
    browser: Browser, tmp_path: Path, attributes: str, text: str
) -> None:
    (tmp_path / "assets").mkdir()
    script = (ASSETS / "assets" / "kit.js").read_text(encoding="utf-8")
    (tmp_path / "assets" / "kit.js").write_text(script, encoding="utf-8")
    (tmp_path / "page.html").write_text(
        '<!doctype html><html lang="en"><meta charset="utf-8"><title>t</title><h1>t</h1>'
        f'<p><span class="scales" data-party="4" {attributes}>x</span></p>'
        '<script src="assets/kit.js"></script></html>',
        encoding="utf-8",
    )
    with offline_page(browser) as (page, _):
        page.goto((tmp_path / "page.html").as_uri())
        page.get_by_role("button", name="One person more").click()
        assert page.locator(".scales").inner_text().replace(units.NBSP, " ") == text


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
