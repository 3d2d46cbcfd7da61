"""The rules of axe hold on every page, in every scheme, small and large."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from .looking import offline_page, pages_of, search_for, site_pages_of, wait_until

# What hangs on colours; all other rules find the same in every scheme.
OF_COLOURS = {"runOnly": {"type": "rule", "values": ["color-contrast", "link-in-text-block"]}}
# Pages with the theme hear of the system's change a moment later; the others change by themselves.
DARK = "(document.body.dataset.mdColorScheme ?? 'slate') === 'slate'"


def faults(axe: Axe, page: Page, options: object = None) -> list[tuple[str, list[str]]]:
    return [
        (violation["id"], [node["html"][:160] for node in violation["nodes"]])
        for violation in axe.run(page, options=options).response["violations"]
    ]


def test_axe_finds_no_violation(browser: Browser, kits: Path) -> None:
    axe = Axe()
    found = []
    # Without motion nothing fades in, so that colours are looked at as they stay.
    with offline_page(browser, 360, color_scheme="light", reduced_motion="reduce") as (page, _):
        for file in pages_of(kits):
            name = file.relative_to(kits).as_posix()
            page.set_viewport_size({"width": 360, "height": 800})
            page.emulate_media(color_scheme="light")
            page.goto(file.as_uri())
            found += [(name, "light", fault) for fault in faults(axe, page)]
            page.set_viewport_size({"width": 1280, "height": 800})
            page.emulate_media(color_scheme="dark")
            wait_until(page, DARK)
            found += [(name, "dark", fault) for fault in faults(axe, page, OF_COLOURS)]
    assert found == []


def test_axe_finds_no_violation_by_night(browser: Browser, sample_kits: Path) -> None:
    found = []
    with offline_page(browser, width=360, reduced_motion="reduce") as (page, _):
        for number, file in enumerate(site_pages_of(sample_kits / "lake-walk")):
            page.goto(file.as_uri())
            if not number:
                for _ in range(3):
                    page.locator("form[data-md-component=palette] label:visible").click()
            expect(page.locator("body")).to_have_attribute("data-md-color-scheme", "night")
            found += faults(Axe(), page, OF_COLOURS)
    assert found == []


def test_axe_finds_no_violation_with_everything_changed_and_running(
    browser: Browser, recipe: str
) -> None:
    with offline_page(browser, width=360) as (page, _):
        page.goto(recipe)
        page.get_by_text("Who eats? How high?").click()
        page.get_by_label("Bram").uncheck()
        page.get_by_label("Height of the camp").fill("99999")
        page.get_by_role("button", name="One at a time").click()
        page.get_by_role("button", name="Next").click()
        page.locator(".steps button.timer").click()
        page.locator(".kit-settings > summary").click()
        expect(page.locator(".kit-changed")).to_be_visible()
        assert faults(Axe(), page) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_no_violation_in_the_open_menu_and_search(
    browser: Browser, sample_kits: Path, scheme: str
) -> None:
    file = site_pages_of(sample_kits)[-1]
    with offline_page(browser, width=360, color_scheme=scheme) as (page, _):
        page.goto(file.as_uri())
        page.locator("header label[for=__drawer]").click()
        page.wait_for_timeout(400)
        assert page.locator(".md-sidebar--primary a.md-nav__link:visible").count() > 1
        assert faults(Axe(), page) == []
        page.goto(file.as_uri())
        search_for(page, "carbon")
        page.locator(".md-search-result__item a").first.wait_for()
        page.wait_for_timeout(400)
        assert faults(Axe(), page) == []
