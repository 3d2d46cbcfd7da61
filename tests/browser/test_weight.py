"""A kit is light, and nothing on a page jumps while it loads."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from .hosting import Halting, Host, Packing

MOST_FIRST_PAGE_BYTES = 40_000  # what the search looks through comes with its first touch
MOST_ZIP_BYTES = 500_000
NOTE_SHIFTS = """window.shifts = [];
new PerformanceObserver(list => {
  for (const entry of list.getEntries()) window.shifts.push([entry.value,
    ...entry.sources.map(source => source.node?.outerHTML?.slice(0, 80) ?? String(source.node))]);
}).observe({type: 'layout-shift', buffered: true});"""


@pytest.fixture(scope="module")
def host(demo_kits: Path) -> Iterator[Host]:
    started = Host(demo_kits, Packing)
    yield started
    started.stop()


@pytest.fixture
def weak_host(demo_kits: Path) -> Iterator[Host]:
    started = Host(demo_kits, Halting)
    yield started
    started.stop()


def test_a_zip_is_small(demo_kits: Path) -> None:
    sizes = {zipped.name: zipped.stat().st_size for zipped in demo_kits.glob("*.zip")}
    assert len(sizes) == 5  # four trips and the home
    assert {name: size for name, size in sizes.items() if size > MOST_ZIP_BYTES} == {}


@pytest.mark.parametrize("trip", ["graupel-ridge", "lake-emmerin", "tarrow-tops"])
def test_the_first_page_is_light_over_the_wire(browser: Browser, host: Host, trip: str) -> None:
    # The whole kit is fetched later, by the service worker, when the page stands.
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    network = context.new_cdp_session(page)
    network.send("Network.enable")
    sent: list[float] = []
    network.on("Network.loadingFinished", lambda event: sent.append(event["encodedDataLength"]))
    page.goto(f"{host.address}/{trip}/index.html", wait_until="networkidle")
    context.close()
    assert len(sent) > 4
    assert sum(sent) < MOST_FIRST_PAGE_BYTES


def slow_scripts(page: Page) -> None:
    """Let the kit's script come well after the first paint, as on a bad network."""

    def later(route: Route) -> None:
        page.wait_for_timeout(400)
        route.continue_()

    page.route("**/assets/kit.js", later)


@contextmanager
def noting_page(browser: Browser, width: int) -> Iterator[Page]:
    """Open an empty page that notes what jumps on it."""
    context = browser.new_context(viewport={"width": width, "height": 740}, service_workers="block")
    try:
        page = context.new_page()
        page.add_init_script(NOTE_SHIFTS)
        yield page
    finally:
        context.close()


def jumps(page: Page) -> list[object]:
    """Give what has jumped until a moment from now."""
    page.wait_for_timeout(300)
    return list(page.evaluate("shifts"))


@pytest.mark.parametrize("width", [320, 360, 1280])
@pytest.mark.parametrize(
    "name",
    ["index.html", "day-2.html", "cook/coconut-chickpea-curry.html", "shopping.html", "water.html"],
)
def test_nothing_jumps_while_a_page_loads(
    browser: Browser, host: Host, name: str, width: int
) -> None:
    with noting_page(browser, width) as page:
        slow_scripts(page)
        page.goto(f"{host.address}/tarrow-tops/{name}", wait_until="networkidle")
        expect(page.locator("html.kit-ready")).to_be_attached()
        assert jumps(page) == []


@pytest.mark.parametrize("width", [320, 1280])
def test_nothing_jumps_where_the_rest_of_a_page_comes_late(
    browser: Browser, weak_host: Host, width: int
) -> None:
    with noting_page(browser, width) as page:
        page.goto(f"{weak_host.address}/tarrow-tops/index.html")
        expect(page.locator("html.kit-ready")).to_be_attached()
        assert jumps(page) == []


@pytest.mark.parametrize("width", [360, 1280])
def test_nothing_jumps_on_a_day_of_the_trip(browser: Browser, host: Host, width: int) -> None:
    with noting_page(browser, width) as page:
        page.clock.set_fixed_time("2031-09-05T17:30")
        slow_scripts(page)
        page.goto(f"{host.address}/tarrow-tops/index.html", wait_until="networkidle")
        expect(page.locator(".now")).to_be_visible()
        assert jumps(page) == []
