"""The pocket page is complete without scripts, and better with them."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from .looking import offline_page


@pytest.fixture
def pocket(demo_kits: Path) -> str:
    return (demo_kits / "tarrow-tops" / "pocket.html").as_uri()


def test_without_scripts_there_is_all_to_cook_from_and_nothing_to_press(
    browser: Browser, pocket: str
) -> None:
    with offline_page(browser, width=360, java_script_enabled=False) as (page, _):
        page.goto(pocket)
        assert page.locator(".steps > li:visible").count() > 40
        assert page.locator("button:visible, input[type=time]:visible").count() == 0
        dinner = page.locator(".days li").nth(1).get_by_role("link", name="Coconut chickpea curry")
        dinner.click()
        expect(
            page.get_by_role("heading", name="Dinner: Coconut chickpea curry")
        ).to_be_in_viewport()


def test_tonights_dinner_is_one_tap_away(browser: Browser, pocket: str) -> None:
    with offline_page(browser, width=360) as (page, seen):
        page.clock.install(time="2031-09-05T18:00")
        page.goto(pocket)
        page.get_by_role("region", name="Today").get_by_role(
            "link", name="Coconut chickpea curry"
        ).click()
        expect(
            page.get_by_role("heading", name="Dinner: Coconut chickpea curry")
        ).to_be_in_viewport()
    assert seen.complaints == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_dim_red_colours_for_the_tent_are_kept(browser: Browser, pocket: str, scheme: str) -> None:
    ground = "getComputedStyle(document.body).backgroundColor"
    with offline_page(browser, width=360, color_scheme=scheme) as (page, seen):
        page.goto(pocket)
        before = page.evaluate(ground)
        night = page.get_by_role("button", name="Night colours")
        night.click()
        assert page.evaluate(ground) == "rgb(0, 0, 0)"
        page.reload()
        assert page.evaluate(ground) == "rgb(0, 0, 0)"
        expect(night).to_have_attribute("aria-pressed", "true")
        night.click()
        assert page.evaluate(ground) == before
    assert seen.complaints == []
