"""A bag that is packed stays ticked, and the order of work goes by the time the trip tells."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Browser, Page, expect


def opened(browser: Browser, kits: Path, path: str) -> Page:
    page = browser.new_context(offline=True, viewport={"width": 360, "height": 700}).new_page()
    page.goto((kits / "graupel-ridge" / path).as_uri())
    return page


def test_what_is_packed_stays_ticked_and_sinks(browser: Browser, demo_kits: Path) -> None:
    page = opened(browser, demo_kits, "bags.html")
    first = page.locator("ul.send li").first
    words = first.inner_text()
    first.locator("input").check()
    page.reload()
    ticked = page.locator("ul.send li").filter(has=page.locator("input:checked"))
    expect(ticked).to_have_count(1)
    assert ticked.inner_text() == words
    assert page.locator("ul.send").first.locator("li").last.inner_text() == words
    expect(page.get_by_role("button", name="Send the list as text")).to_have_count(1)
    page.goto((demo_kits / "graupel-ridge" / "index.html").as_uri())
    expect(page.get_by_role("link", name="2 bags")).to_be_visible()


def test_steps_go_by_the_time_that_the_trip_tells_until_a_phone_is_told_another(
    browser: Browser, demo_kits: Path
) -> None:
    page = opened(browser, demo_kits, "meals/day-1-dinner.html")
    eat = page.locator(".eat-at input")
    expect(eat).to_have_value("17:30")
    planned = page.locator(".before").first.inner_text()
    eat.fill("18:30")
    assert page.locator(".before").first.inner_text() != planned
    page.reload()
    expect(page.locator(".eat-at input")).to_have_value("18:30")
    page.locator(".eat-at input").fill("17:30")
    assert page.locator(".before").first.inner_text() == planned
    assert page.evaluate("Object.keys(localStorage).filter((key) => key.includes('eat'))") == []
