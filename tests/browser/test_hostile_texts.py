"""Hostile texts in a browser: nothing runs, and what is printed or sent is the words alone."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.conftest import tripkit
from tests.hostile import TEXTS, write
from tests.test_hostile import DAY, UNWANTED

from .printed import read_pdf, words_of

# Those that do something in a browser, on paper or in what is sent; the first tells what is usual.
TRIED = ("plain", "script", "attribute", "link", "svg", "markdown", "calendar", "breaks", "turned")
# What is shown of each, wherever it is shown.
MARK = re.compile(r"zq\d+")


@pytest.fixture(scope="module")
def made_of(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Build the kit, the home and the labels of each."""
    made = {}
    for name in TRIED:
        with pytest.MonkeyPatch.context() as patch:
            folder = made[name] = tmp_path_factory.mktemp("hostile")
            patch.chdir(folder)
            patch.setenv("SOURCE_DATE_EPOCH", DAY)
            write(folder / "content", TEXTS[name])
            for command in (("build",), ("labels",)):
                result = tripkit(*command)
                assert result.exit_code == 0, result.output
    return made


@pytest.fixture(params=TRIED)
def hostile(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """Give a page that tells when something of it runs, and keeps what it sends."""
    context = browser.new_context()
    context.add_init_script(
        "window.ran = []; window.alert = (told) => window.ran.push(told);"
        "navigator.share = async (told) => { window.sent = told; };"
    )
    page = context.new_page()
    yield page
    context.close()


def test_no_page_runs_it(hostile: str, made_of: dict[str, Path], page: Page) -> None:
    folder, asked = made_of[hostile], []
    page.on("request", lambda request: asked.append(request.url))
    pages = [*sorted((folder / "kits").rglob("*.html")), folder / "labels.html"]
    assert len(pages) > 20
    for path in pages:
        page.goto(path.as_uri())
        assert page.evaluate("window.ran") == [], path
    assert [url for url in asked if not url.startswith(("file:", "data:", "blob:"))] == []


def test_a_list_that_is_sent_holds_a_line_for_each_thing(
    hostile: str, made_of: dict[str, Path], page: Page
) -> None:
    def sent(name: str) -> str:
        page.goto((made_of[name] / "kits/hand/shopping.html").as_uri())
        page.locator(".kit-tools button").first.click()
        page.wait_for_function("window.sent")
        told = page.evaluate("window.sent")
        assert "zq" in told["title"]
        return str(told["text"])

    own, plain = sent(hostile), sent("plain")
    # By name, so that the order may be another one.
    assert sorted(MARK.findall(own)) == sorted(MARK.findall(plain)) != []
    assert len(own.split("\n")) == len(plain.split("\n"))
    assert not UNWANTED.search(own) and "\r" not in own


def test_labels_printed_to_a_file_hold_the_words_and_lead_nowhere(
    hostile: str, made_of: dict[str, Path], page: Page
) -> None:
    def printed(name: str) -> bytes:
        page.goto((made_of[name] / "labels.html").as_uri())
        assert page.evaluate("window.ran") == []
        return page.pdf(prefer_css_page_size=True)

    own, plain = printed(hostile), printed("plain")
    for pdf in (own, plain):
        assert not re.search(rb"/(?:URI|JS|JavaScript|Launch|OpenAction|AA|EmbeddedFile)\b", pdf)
    words = words_of(own)
    assert MARK.search(words_of(plain)) and "Allergens" in words_of(plain)
    assert set(MARK.findall(words)) == set(MARK.findall(words_of(plain)))
    assert not UNWANTED.search(words)
    assert read_pdf(own).sizes == read_pdf(plain).sizes != ()
