"""The rules of axe hold on every page, in both schemes, small and large."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from .looking import offline_page, pages_of, search_for, site_pages_of


def faults(axe: Axe, page: Page) -> list[tuple[str, list[str]]]:
    return [
        (violation["id"], [node["html"][:160] for node in violation["nodes"]])
        for violation in axe.run(page).response["violations"]
    ]


@pytest.mark.parametrize(("scheme", "width"), [("light", 360), ("dark", 1280)])
def test_axe_finds_no_violation(browser: Browser, kits: Path, scheme: str, width: int) -> None:
    axe = Axe()
    found = []
    with offline_page(browser, width=width, color_scheme=scheme) as (page, _):
        for file in pages_of(kits):
            page.goto(file.as_uri())
            page.wait_for_timeout(50)
            found += [(file.relative_to(kits).as_posix(), fault) for fault in faults(axe, page)]
    assert found == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_no_violation_in_the_open_menu_and_search(
    browser: Browser, kits: Path, scheme: str
) -> None:
    file = site_pages_of(kits)[-1]
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
