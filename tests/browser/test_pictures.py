"""A picture has its room before it is there: nothing that is read moves when it comes."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from .looking import offline_page

HEIGHT = "document.documentElement.scrollHeight"


@pytest.mark.parametrize("width", [320, 1280])
@pytest.mark.parametrize(
    "name",
    ["at-home/stock.html", "lake-emmerin/cook/ember-soda-bread.html", "rindle-fen/day-1.html"],
)
def test_nothing_moves_when_a_picture_comes(
    browser: Browser, demo_kits: Path, name: str, width: int
) -> None:
    with offline_page(browser, width, 400) as (page, _):
        page.goto((demo_kits / name).as_uri())
        page.locator("html.kit-ready").wait_for()
        picture = page.locator(".picture img").last
        before = page.evaluate(HEIGHT), picture.bounding_box()
        picture.scroll_into_view_if_needed()
        page.wait_for_function(
            "one => one.complete && one.naturalWidth", arg=picture.element_handle()
        )
        page.evaluate("scrollTo({ top: 0, behavior: 'instant' })")
        assert (page.evaluate(HEIGHT), picture.bounding_box()) == before
