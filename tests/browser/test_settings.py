"""Units to choose, and forgetting: at the end of every page."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from .looking import offline_page, search_for, site_pages_of

SIZES = """() => Object.fromEntries([...document.querySelectorAll('article .scales[data-kind=g]')]
  .map(one => [one.dataset.units, parseFloat(getComputedStyle(one).fontSize)]))"""


def settings(page: Page) -> Page:
    page.locator(".kit-settings > summary").click()
    return page


def in_units(page: Page, units: str) -> None:
    """Choose units by keys, as a screen reader has them: a group of two buttons."""
    choice = page.get_by_role("group", name="Units").get_by_role("button", name=units)
    choice.focus()
    page.keyboard.press("Enter")
    expect(choice).to_have_attribute("aria-pressed", "true")
    expect(choice).to_be_focused()


def test_step_by_step_is_told_in_one_system_at_a_time(browser: Browser, demo_kits: Path) -> None:
    meal = demo_kits / "tarrow-tops" / "meals" / "day-1-dinner.html"
    with offline_page(browser, width=360) as (page, seen):
        page.goto(meal.as_uri())
        step = page.locator(".work li").first
        expect(step).to_contain_text(re.compile("Soak in 1.02\u00a0l"), use_inner_text=True)
        expect(step).not_to_contain_text("cups", use_inner_text=True)
        in_units(page, "oz, cups")
        expect(step).to_contain_text(re.compile("Soak in [0-9.]+\u00a0cups"), use_inner_text=True)
        expect(step).not_to_contain_text("1.02", use_inner_text=True)
        page.reload()
        expect(step).to_contain_text("cups", use_inner_text=True)
    assert seen.complaints == []


@pytest.mark.parametrize(
    ("trip", "units", "unwanted"),
    [
        # Grains of an ounce stay one or two grams.
        ("graupel-ridge", "oz, cups", r"\d\u00a0(?:kg|ml|l|°C|cm)\b|\d\d\u00a0g\b"),
        ("lake-emmerin", "g, ml", r"\d\u00a0(?:oz|lb|fl\u00a0oz|cups?|gal|°F|in)\b"),
    ],
)
def test_no_step_and_no_caution_at_it_keeps_the_trips_own_units(
    browser: Browser, demo_kits: Path, trip: str, units: str, unwanted: str
) -> None:
    with offline_page(browser, width=360) as (page, _):
        meals = sorted((demo_kits / trip / "meals").glob("*.html"))
        page.goto(meals[0].as_uri())
        in_units(page, units)
        cautions = ""
        for meal in meals:
            page.goto(meal.as_uri())
            page.get_by_role("button", name="One at a time").click()
            assert not re.search(unwanted, page.locator(".work").inner_text()), meal.name
            cautions += " ".join(page.locator(".work .caution").all_inner_texts())
    # Where a caution stands at a step, it tells its temperature in the units that were chosen.
    assert trip != "graupel-ridge" or "165\u00a0°F" in cautions


def test_the_other_units_can_be_the_large_ones(browser: Browser, recipe: str) -> None:
    with offline_page(browser, width=360) as (page, seen):
        page.goto(recipe)
        sizes = page.evaluate(SIZES)
        assert sizes["metric"] > sizes["us"]
        in_units(page, "oz, cups")
        sizes = page.evaluate(SIZES)
        assert sizes["us"] > sizes["metric"]
        # Also where the first one is plain text, or words stand between the two.
        expect(page.get_by_text("41\u00a0g", exact=True)).to_have_class(re.compile(r"\bsmall\b"))
        page.get_by_text("Who eats? How high?").click()
        expect(page.locator("label", has_text="Height of the camp")).to_contain_text("ft")
        page.get_by_label("Height of the camp").fill("10000")
        page.keyboard.press("Enter")
        expect(page.locator(".height").first).to_have_text("3,048\u00a0m")
        in_units(page, "g, ml")
    assert seen.complaints == []


def test_the_choice_of_units_holds_on_every_page(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser) as (page, _):
        pages = site_pages_of(demo_kits / "tarrow-tops")
        page.goto(pages[0].as_uri())
        in_units(page, "oz, cups")
        for file in pages:
            page.goto(file.as_uri())
            left = page.evaluate(
                """() => [...document.querySelectorAll('article td.num .small')]
                  .map(one => one.textContent)
                  .filter(text => /^[\\d.,]+\\u00a0(oz|lb|cups?|fl oz|gal)$/.test(text))"""
            )
            # A teaspoon beside grams has no partner of its own; nothing else may stay small.
            assert left == [], file.name


def test_everything_can_be_forgotten(browser: Browser, sample_kits: Path, recipe: str) -> None:
    with offline_page(browser) as (page, seen):
        page.goto((sample_kits / "other-walk" / "cook" / "bean-pot.html").as_uri())
        page.get_by_label("Serve.").check()
        page.goto(recipe)
        page.get_by_label("Serve.").check()
        page.locator(".steps button.timer").click()
        page.get_by_text("Who eats? How high?").click()
        page.get_by_label("Bram").uncheck()
        settings(page).get_by_role("button", name="Forget ticks, timers and changes").click()
        expect(page.get_by_label("Serve.")).to_be_checked()
        page.get_by_role("button", name="Press again to forget them all").click()
        expect(page.get_by_label("Serve.")).not_to_be_checked()
        expect(page.locator(".kit-timers")).to_be_hidden()
        expect(page.locator(".kit-changed")).to_be_hidden()
        assert (
            page.evaluate("Object.keys(localStorage).filter(n => /^trip-kit lake/.test(n))") == []
        )
        page.goto((sample_kits / "other-walk" / "cook" / "bean-pot.html").as_uri())
        expect(page.get_by_label("Serve.")).to_be_checked()
    assert seen.complaints == []


def test_settings_and_changes_are_reached_by_keys_in_reading_order(
    browser: Browser, recipe: str
) -> None:
    with offline_page(browser) as (page, _):
        page.goto(recipe)
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        order = []
        for _ in range(60):
            page.keyboard.press("Tab")
            order.append(
                page.evaluate(
                    "(document.activeElement.closest('article') && (document.activeElement.id"
                    " || document.activeElement.textContent || document.activeElement.type)) || ''"
                )
            )
        told = [text for text in order if text]
        wanted = [
            "Who eats? How high?",
            "oz, cups",
            "Untick all",
            "One at a time",
            "Start 9 min",
            "Offline, forget",
        ]
        places = [told.index(text) for text in wanted]
        assert places == sorted(places)
        style = page.evaluate(
            "() => { document.querySelector('.kit-change summary').focus();"
            " return getComputedStyle(document.activeElement).outlineStyle; }"
        )
        assert style == "solid"


REFUSED = (
    """Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('no'); }});"""
)


def test_where_nothing_is_kept_the_reader_is_told_and_the_kit_still_works(
    browser: Browser, recipe: str
) -> None:
    with offline_page(browser, width=360) as (page, seen):
        page.add_init_script(REFUSED)
        page.goto(recipe)
        expect(page.get_by_text("they last until you close the page")).to_be_visible()
        page.locator(".steps input").first.check()
        expect(page.locator(".steps li").first).to_have_class("done")
        page.locator("form[data-md-component=palette] label:visible").click()
        search_for(page, "carbon")
        expect(page.locator(".md-search-result__item a").first).to_be_visible()
    assert seen.complaints == []


def test_where_all_is_kept_nothing_of_it_is_said(browser: Browser, recipe: str) -> None:
    with offline_page(browser, width=360) as (page, _):
        page.goto(recipe)
        expect(page.get_by_text("they last until you close the page")).to_have_count(0)
