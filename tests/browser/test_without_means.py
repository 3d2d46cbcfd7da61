"""Where a phone keeps nothing, a kit is still read, ticked and searched, and says what is lost."""

from __future__ import annotations

import mimetypes
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, Route, expect

from .hosting import Host
from .looking import search_for

REFUSES = """for (const name of ['localStorage', 'sessionStorage']) {
  Object.defineProperty(window, name, {get() { throw new DOMException('no', 'SecurityError'); }});
}"""
IS_FULL = """const setItem = Storage.prototype.setItem;
Storage.prototype.setItem = function (...told) {
  if (this === window.localStorage) throw new DOMException('full', 'QuotaExceededError');
  setItem.apply(this, told);
};"""
UNKEPT = "keeps no ticks and timers here: they last until you close the page"
HALF = "could not be fetched whole"
NO_WORKER = "keeps no pages: without a network, open the zip"
PLAIN = "http://kits.example"  # no safe address to a browser


@pytest.fixture
def host(sample_kits: Path) -> Iterator[Host]:
    started = Host(sample_kits)
    yield started
    started.stop()


def used(page: Page, address: str, *, over_pages: bool) -> None:
    """Read, tick, time and search a kit, as one does at camp."""
    page.goto(f"{address}/cook/bean-pot.html")
    expect(page.locator("h1")).to_be_visible()
    page.get_by_label("Serve.").check()
    page.get_by_role("button", name="Start 9 min").click()
    running = page.locator(".kit-timers button").last
    expect(running).to_contain_text(":5")  # it runs on
    expect(page.get_by_label("Serve.")).to_be_checked()
    if over_pages:
        page.goto(f"{address}/index.html")
        expect(running).to_contain_text("Smoky bean pot: ")
        page.goto(f"{address}/cook/bean-pot.html")
        expect(page.get_by_label("Serve.")).to_be_checked()
    search_for(page, "carbon")
    expect(page.locator(".md-search-result__item a").first).to_be_visible()


def told(page: Page) -> str:
    return " ".join(page.locator(".kit-offline").all_inner_texts())


def test_a_browser_that_refuses_storage(context: BrowserContext, host: Host) -> None:
    context.add_init_script(REFUSES)
    page = context.new_page()
    used(page, f"{host.address}/lake-walk", over_pages=False)
    assert UNKEPT in told(page)


def test_a_phone_that_is_full(context: BrowserContext, host: Host) -> None:
    context.add_init_script(IS_FULL)
    page = context.new_page()
    session = context.new_cdp_session(page)
    room = {"origin": host.address, "quotaSize": 20_000}
    session.send("Storage.overrideQuotaForOrigin", room)
    page.goto(f"{host.address}/lake-walk/index.html")
    expect(page.locator(".kit-offline").first).to_contain_text(HALF)
    used(page, f"{host.address}/lake-walk", over_pages=True)
    assert UNKEPT in told(page)


def test_a_host_without_a_safe_address(context: BrowserContext, sample_kits: Path) -> None:
    def from_disk(route: Route) -> None:
        path = sample_kits / route.request.url.removeprefix(f"{PLAIN}/").split("?")[0]
        kind = mimetypes.guess_type(path.name)[0] or "text/plain"
        route.fulfill(body=path.read_bytes(), content_type=kind)

    context.route(f"{PLAIN}/**", from_disk)
    page = context.new_page()
    used(page, f"{PLAIN}/lake-walk", over_pages=True)
    assert page.evaluate("isSecureContext") is False
    assert NO_WORKER in told(page)
