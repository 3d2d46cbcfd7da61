"""What the phone's clock tells: today's meals, and clock times for an order of work."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from .looking import offline_page


def at(page: Page, kits: Path, when: str) -> Page:
    page.clock.install(time=when)
    page.goto((kits / "lake-walk" / "index.html").as_uri())
    return page


@pytest.mark.parametrize(
    ("when", "lines"),
    [
        ("2031-07-11T07:00", ["Lunch", "Dinner tonight: Smoky bean pot"]),
        ("2031-07-11T12:30", ["Lunch", "Dinner tonight: Smoky bean pot"]),
        ("2031-07-11T18:00", ["Dinner: Smoky bean pot"]),
        ("2031-07-11T22:00", ["Dinner: Smoky bean pot", "Breakfast tomorrow: Oats"]),
        ("2031-07-12T08:00", ["Breakfast: Oats"]),
        ("2031-07-12T22:00", ["No more meals today."]),
    ],
)
def test_today_is_at_the_top_with_the_meal_of_the_hour(
    browser: Browser, sample_kits: Path, when: str, lines: list[str]
) -> None:
    with offline_page(browser, width=360) as (page, seen):
        at(page, sample_kits, when)
        box = page.get_by_role("region", name="Today")
        day = 1 if "-11T" in when else 2
        expect(box.get_by_role("heading")).to_have_text(f"Today: Day {day}")
        expect(box.locator("p")).to_have_text(lines)
        expect(page.locator("li.today")).to_have_attribute("data-day", str(day))
        if box.locator("p a").count():
            box.locator("p a").first.click()
            expect(page.locator("h1")).to_be_visible()
    assert seen.complaints == []


def first_page(page: Page, kits: Path, when: str) -> None:
    page.clock.install(time=when)
    page.goto((kits / "tarrow-tops" / "index.html").as_uri())


def test_the_next_meal_says_when_and_with_what_to_begin_and_leads_into_it(
    browser: Browser, demo_kits: Path
) -> None:
    with offline_page(browser, width=360) as (page, seen):
        first_page(page, demo_kits, "2031-09-05T16:30:00")
        box = page.get_by_role("region", name="Today")
        expect(box).to_contain_text("50 min before you eat: Soak chickpeas")
        go = box.get_by_role("link", name="Cook dinner step by step")
        touched = go.bounding_box()
        assert touched is not None and touched["height"] >= 48
        assert touched["y"] + touched["height"] <= 740  # seen without scrolling
        go.click()
        expect(page.locator("h1")).to_have_text("Day 2 dinner")
        page.get_by_label("We eat at").fill("18:30")
        page.get_by_role("button", name="Next", exact=True).click()
        first_page(page, demo_kits, "2031-09-05T17:50:00")
        expect(box).to_contain_text("1 of 6 steps are done.")
        expect(box.get_by_role("link", name="Go on cooking")).to_be_visible()
        # The next day's dinner goes by the same clock; what is cooked whole is no longer next.
        first_page(page, demo_kits, "2031-09-06T15:00:00")
        expect(box).to_contain_text(re.compile(r"\d\d:\d\d: "))
    assert seen.complaints == []


def test_what_is_cooked_whole_or_long_eaten_is_not_next(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser, width=360) as (page, _):
        page.clock.install(time="2031-09-05T16:30:00")
        page.goto((demo_kits / "tarrow-tops/meals/day-2-dinner.html").as_uri())
        for _step in range(page.locator(".work > li").count()):
            page.get_by_role("button", name="Next", exact=True).click()
        first_page(page, demo_kits, "2031-09-05T17:00:00")
        box = page.get_by_role("region", name="Today")
        expect(box).to_contain_text("Breakfast tomorrow")
        expect(box.get_by_role("link", name="Cook dinner step by step")).to_have_count(0)


def test_before_the_start_what_is_to_do_at_home_comes_first(
    browser: Browser, demo_kits: Path
) -> None:
    with offline_page(browser, width=360) as (page, _):
        page.goto((demo_kits / "tarrow-tops/shopping.html").as_uri())
        page.locator(".steps input").first.check()
        first_page(page, demo_kits, "2031-09-01T12:00:00")
        first = page.locator("article h2").first
        expect(first).to_have_text("Before you go in 3 days")
        expect(page.locator("#next + .next")).to_contain_text("(1 ticked off)")
        first_page(page, demo_kits, "2031-09-04T12:00:00")
        expect(page.locator("#next")).to_be_hidden()
        first_page(page, demo_kits, "2031-09-09T12:00:00")
        expect(page.get_by_role("region", name="Today")).to_contain_text("This trip is over.")


def test_dinner_is_one_tap_away_in_the_evening(browser: Browser, sample_kits: Path) -> None:
    with offline_page(browser, width=360) as (page, _):
        at(page, sample_kits, "2031-07-11T18:00").locator(".now p a").click()
        expect(page.locator("h1")).to_have_text("Smoky bean pot")


@pytest.mark.parametrize("when", ["2031-07-10T23:59", "2026-01-01T12:00"])
def test_on_other_days_there_is_the_plain_list(
    browser: Browser, sample_kits: Path, when: str
) -> None:
    with offline_page(browser) as (page, _):
        at(page, sample_kits, when)
        expect(page.locator(".now")).to_be_hidden()
        expect(page.locator("li.day")).to_have_count(2)
        expect(page.locator("li.today")).to_have_count(0)


def test_the_phones_own_day_counts(browser: Browser, sample_kits: Path) -> None:
    with offline_page(browser, timezone_id="Pacific/Auckland") as (page, _):
        # Still the 11th in Greenwich; here the 12th has begun.
        at(page, sample_kits, "2031-07-11T20:30:00Z")
        expect(page.get_by_role("heading", name="Today: Day 2")).to_be_visible()


def test_today_follows_when_the_day_changes(browser: Browser, sample_kits: Path) -> None:
    with offline_page(browser) as (page, _):
        at(page, sample_kits, "2031-07-11T23:58:00")
        expect(page.get_by_role("heading", name="Today: Day 1")).to_be_visible()
        page.clock.run_for(5 * 60_000)
        expect(page.get_by_role("heading", name="Today: Day 2")).to_be_visible()


@pytest.mark.parametrize("place", ["day-1.html", "pocket.html"])
def test_the_order_of_work_is_said_in_clock_times(
    browser: Browser, sample_kits: Path, place: str
) -> None:
    with offline_page(browser, width=320) as (page, seen):
        page.goto((sample_kits / "lake-walk" / place).as_uri())
        first = page.locator(".before").first
        expect(first).to_have_text("50 min")
        page.get_by_label("We eat at").fill("18:30")
        expect(first).to_have_text("17:40 50 min before")
        expect(page.locator(".order th").first).to_have_text("At")
        page.reload()
        expect(first).to_have_text("17:40 50 min before")
        page.get_by_label("We eat at").fill("00:20")
        expect(first).to_have_text("23:30 50 min before, the day before")
        page.get_by_label("We eat at").fill("")
        expect(first).to_have_text("50 min")
        expect(page.locator(".order th").first).to_have_text("Before eating")
        assert page.evaluate("document.documentElement.scrollWidth") <= 320
    assert seen.complaints == []


def test_whoever_says_who_they_are_sees_in_the_menu_what_is_not_for_them(
    browser: Browser, demo_kits: Path
) -> None:
    with offline_page(browser, width=320) as (page, seen):
        page.goto((demo_kits / "tarrow-tops" / "index.html").as_uri())
        lines = page.locator(".menu .not-mine")
        expect(lines).to_have_count(0)
        page.get_by_label("Who are you?").select_option("Rowan")
        expect(lines.filter(has_text="Not for you: Almonds, whole")).to_have_count(1)
        expect(lines.filter(has_text="Read the packet first: Caramel fudge")).to_have_count(1)
        page.reload()
        expect(page.get_by_label("Who are you?")).to_have_value("Rowan")
        expect(lines.filter(has_text="Almonds")).to_have_count(1)
        assert page.evaluate("document.documentElement.scrollWidth") <= 320
        page.get_by_label("Who are you?").select_option("")
        expect(lines).to_have_count(0)
    assert seen.complaints == []
