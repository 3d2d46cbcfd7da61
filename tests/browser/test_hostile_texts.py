"""Hostile texts in a browser: nothing runs, and what is printed or sent is the words alone."""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.conftest import tripkit
from tests.hostile import TEXTS, write
from tests.test_hostile import DAY, UNWANTED

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


def words_of(pdf: bytes) -> str:
    """Read what stands in a PDF of Chromium's, letter by letter, as a reader of PDFs finds it."""
    objects = {
        int(number): body
        for number, body in re.findall(rb"(?:^|\n)(\d+) 0 obj\n(.*?)\nendobj", pdf, re.DOTALL)
    }

    def stream(number: int) -> bytes:
        found = re.search(rb"stream\r?\n(.*?)\r?\nendstream", objects[number], re.DOTALL)
        assert found is not None
        raw = found[1]
        return zlib.decompress(raw) if b"/FlateDecode" in objects[number] else raw

    letters: dict[int, dict[int, str]] = {}  # of each font, by its glyphs
    for number, body in objects.items():
        if told := re.search(rb"/ToUnicode (\d+) 0 R", body):
            table = letters.setdefault(number, {})
            text = stream(int(told[1])).decode("latin-1")
            for block in re.findall(r"beginbfchar\n(.*?)endbfchar", text, re.DOTALL):
                for glyph, sign in re.findall(r"<(\w+)> <(\w+)>", block):
                    table[int(glyph, 16)] = bytes.fromhex(sign).decode("utf-16-be")
            for block in re.findall(r"beginbfrange\n(.*?)endbfrange", text, re.DOTALL):
                for first, last, sign in re.findall(r"<(\w+)> <(\w+)> <(\w+)>", block):
                    for step in range(int(last, 16) - int(first, 16) + 1):
                        table[int(first, 16) + step] = chr(int(sign, 16) + step)
    found = []
    for number, body in objects.items():
        if b"stream" not in body or b"/Length" not in body or b"/Type /XObject" in body:
            continue
        text = stream(number).decode("latin-1")
        fonts = {
            name: int(font)
            for each in objects.values()
            for name, font in re.findall(rb"/(F\d+) (\d+) 0 R", each)
        }
        font = 0
        for name, glyphs in re.findall(r"/(F\d+) [\d.]+ Tf|<([0-9A-F]+)>", text):
            if name:
                font = fonts.get(name.encode(), 0)
                found.append(" ")
            else:
                table = letters.get(font, {})
                cut = [glyphs[at : at + 4] for at in range(0, len(glyphs), 4)]
                found.append("".join(table.get(int(each, 16), "") for each in cut))
    return "".join(found)


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
    sheets = [len(re.findall(rb"/Type /Page\b", pdf)) for pdf in (own, plain)]
    assert sheets[0] == sheets[1]
