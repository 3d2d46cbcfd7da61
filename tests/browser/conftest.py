"""The browser and the kits it looks at."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, sync_playwright

from builder.site.assemble import build_site
from builder.site.folder.index_page import write_index
from tests.conftest import demo_in
from tests.site.sample import ASSETS, BASE_CONFIG, sample_site

BROWSER_NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
QUIET = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
)


def find_browser() -> str | None:
    """Give the browser of the system, never one that would have to be fetched."""
    return next((path for name in BROWSER_NAMES if (path := shutil.which(name))), None)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Start the system's Chromium once."""
    path = find_browser()
    if path is None:
        if os.environ.get("CI"):
            pytest.fail("no Chromium found; these tests must run here")
        pytest.skip("no Chromium found")
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=path, args=list(QUIET))
        yield started
        started.close()


@pytest.fixture(scope="session")
def sample_kits(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build two small made-up kits and their list."""
    out = tmp_path_factory.mktemp("host") / "some" / "where"
    for site in (sample_site(), sample_site("other-walk", "Other walk", "2030-02-01")):
        build_site(site, out, ASSETS, BASE_CONFIG)
    write_index(out)
    return out


@pytest.fixture(scope="session", params=["de", "nb"])
def translated(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give the folder with the demo kits in a language of longer words."""
    return demo_in(request.param, tmp_path_factory.mktemp(request.param))


@pytest.fixture(scope="session", params=["sample", "demo"])
def kits(request: pytest.FixtureRequest) -> Path:
    """Give a folder of kits that every page test looks at: the made-up ones, then the demo."""
    folder: Path = request.getfixturevalue(f"{request.param}_kits")
    return folder


@pytest.fixture
def recipe(sample_kits: Path) -> str:
    """Give the address of a recipe page that has everything a recipe page may have."""
    return (sample_kits / "lake-walk" / "cook" / "bean-pot.html").as_uri()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """Give a phone that has seen no kit yet."""
    opened = browser.new_context(viewport={"width": 360, "height": 740})
    opened.set_default_timeout(10_000)
    yield opened
    opened.close()
