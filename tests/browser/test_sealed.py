"""A sealed kit opens from disk with its passphrase, and with nothing else."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from click.testing import CliRunner
from playwright.sync_api import Browser, Page, expect

from builder.cli import main

from .driven import NotHere
from .looking import CUT_OFF, offline_page
from .printed import read_pdf
from .test_other_browsers import STARTS

TRIP = "tarrow-tops"
WORDS = "öre Möwen trinken kein Öl"
WRONG = "That passphrase does not open it, or the file is damaged."


@pytest.fixture(scope="module")
def sealed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Seal a trip of the demo."""
    out = tmp_path_factory.mktemp("sealed") / "kits"
    command = ["build", TRIP, "--sealed", "--out", str(out)]
    said = CliRunner().invoke(main, command, input=f"{WORDS}\n")
    assert said.exit_code == 0, said.output
    return out / f"{TRIP}-sealed.html"


def type_in(page: Page, words: str) -> None:
    page.get_by_label("Passphrase").fill(words)
    page.get_by_role("button", name="Open").click()


def open_it(page: Page, sealed: Path) -> None:
    page.goto(sealed.as_uri())
    type_in(page, WORDS)
    expect(page.get_by_role("heading", name="Tarrow Tops", level=1)).to_be_visible()


@pytest.mark.parametrize(
    "typed",
    [WORDS, f" {WORDS} ", WORDS.replace("ö", "o\u0308").replace("Ö", "O\u0308")],
    ids=["as told", "with room", "with signs of two parts"],
)
def test_it_opens_from_disk_and_shows_the_whole_plan(
    typed: str, browser: Browser, sealed: Path, demo_kits: Path
) -> None:
    with offline_page(browser, width=360) as (page, seen):
        page.goto(sealed.as_uri())
        expect(page.get_by_label("Passphrase")).to_be_focused()
        expect(page).to_have_title("Sealed kit")
        type_in(page, typed)
        heading = page.get_by_role("heading", name="Tarrow Tops", level=1)
        expect(heading).to_be_focused()
        expect(page).to_have_title("Sealed kit")  # else the browser's history would tell
        page.locator("nav").get_by_role("link", name="Water").click()
        expect(page.locator("#water")).to_be_in_viewport()
        shown = page.locator("main:has(#water)").inner_text()
        page.goto((demo_kits / TRIP / "pocket.html").as_uri())
        assert page.locator("main").inner_text() == shown
    assert seen.complaints == []
    assert seen.outside == []


def test_the_whole_kit_can_be_saved(browser: Browser, sealed: Path, demo_kits: Path) -> None:
    with offline_page(browser, width=360) as (page, seen):
        open_it(page, sealed)
        page.locator("nav").get_by_role("link", name="Whole kit").click()
        with page.expect_download() as waiting:
            page.get_by_role("link", name=f"Save {TRIP}.zip").click()
        assert waiting.value.suggested_filename == f"{TRIP}.zip"
        assert waiting.value.path().read_bytes() == (demo_kits / f"{TRIP}.zip").read_bytes()
    assert seen.complaints == []


def test_another_passphrase_opens_nothing_and_one_may_try_again(
    browser: Browser, sealed: Path
) -> None:
    with offline_page(browser, width=360) as (page, seen):
        page.goto(sealed.as_uri())
        alert = page.get_by_role("alert")
        page.get_by_role("button", name="Open").click()
        expect(alert).to_have_text("Type the passphrase first.")
        type_in(page, WORDS.upper())
        expect(alert).to_have_text(WRONG)
        field = page.get_by_label("Passphrase")
        expect(field).to_be_focused()
        expect(field).to_have_attribute("aria-invalid", "true")
        assert "Tarrow" not in page.content()
        type_in(page, WORDS)
        expect(page.get_by_role("heading", name="Tarrow Tops", level=1)).to_be_visible()
    assert seen.complaints == []


def damaged(html: str, how: str) -> str:
    at = html.index('"content": "') + 100
    if how == "a sign of what is sealed":
        return other_sign(html, at)
    if how == "a sign that is none":
        return f"{html[:at]}!{html[at + 1 :]}"
    if how == "the salt":
        return other_sign(html, html.index('"salt": "') + len('"salt": "'))
    if how == "the purpose":
        return html.replace('"purpose": "trip kit, sealed, 1"', '"purpose": "trip kit"')
    if how == "fewer rounds":
        return html.replace('"rounds": 600000', '"rounds": 1')
    return html[: at + 5000]


def other_sign(html: str, at: int) -> str:
    return html[:at] + ("A" if html[at] != "A" else "B") + html[at + 1 :]


@pytest.mark.parametrize(
    "how",
    [
        *("a sign of what is sealed", "a sign that is none", "the salt", "the purpose"),
        *("fewer rounds", "cut off"),
    ],
)
def test_a_damaged_file_is_refused(how: str, browser: Browser, sealed: Path) -> None:
    html = sealed.read_text("utf-8")
    spoiled = sealed.with_name("damaged.html")
    spoiled.write_text(damaged(html, how), "utf-8")
    assert spoiled.read_text("utf-8") != html
    with offline_page(browser, width=360) as (page, seen):
        page.goto(spoiled.as_uri())
        type_in(page, WORDS)
        expect(page.get_by_role("alert")).to_have_text(WRONG)
        assert "Tarrow" not in page.content()
    assert seen.complaints == []


def test_a_damaged_script_does_not_run_and_that_is_told(browser: Browser, sealed: Path) -> None:
    spoiled = sealed.with_name("damaged.html")
    spoiled.write_text(sealed.read_text("utf-8").replace("startSealed([", "startSealed( ["))
    with offline_page(browser, width=360) as (page, seen):
        page.goto(spoiled.as_uri())
        expect(page.get_by_text("or the file is damaged: fetch it again")).to_be_visible()
        expect(page.get_by_label("Passphrase")).to_be_hidden()
    assert "Content Security Policy" in " ".join(seen.complaints)


def test_without_scripts_it_is_told_what_is_needed(browser: Browser, sealed: Path) -> None:
    with offline_page(browser, width=360, java_script_enabled=False) as (page, _):
        page.goto(sealed.as_uri())
        # To what the driver turns off, the part for browsers without scripts does not belong.
        expect(page.get_by_text("Then scripts are off here")).to_be_visible()
        expect(page.get_by_label("Passphrase")).to_be_hidden()


def test_where_a_browser_lends_no_cryptography_that_is_told(browser: Browser, sealed: Path) -> None:
    with offline_page(browser, width=360) as (page, _):
        page.route("http://sealed.invalid/", lambda route: route.fulfill(path=sealed))
        page.goto("http://sealed.invalid/")
        expect(page.get_by_role("alert")).to_contain_text("begins with https")
        expect(page.get_by_label("Passphrase")).to_be_hidden()


def test_what_is_typed_can_be_seen_where_one_wants_it(browser: Browser, sealed: Path) -> None:
    with offline_page(browser, width=360) as (page, _):
        page.goto(sealed.as_uri())
        field = page.get_by_label("Passphrase")
        expect(field).to_have_attribute("type", "password")
        page.get_by_label("Show what I type").check()
        expect(field).to_have_attribute("type", "text")


def test_ticks_stay_and_lie_sealed_on_the_phone(browser: Browser, sealed: Path) -> None:
    kept = "JSON.stringify([Object.entries(localStorage), Object.entries(sessionStorage)])"
    with offline_page(browser, width=360) as (page, seen):
        open_it(page, sealed)
        box = page.locator("#shopping ~ * input[type=checkbox], #shopping ~ ul input").first
        words = str(box.evaluate("one => one.closest('label').textContent.trim()"))
        box.check()
        page.get_by_role("button", name="Night colours").click()
        # What is kept is encrypted first, which takes a moment.
        page.wait_for_timeout(500)
        told = str(page.evaluate(kept))
        assert len(json.loads(told)[0]) == 1 and json.loads(told)[1] == []
        assert not re.search(rf"{re.escape(words[:12])}|tick|night|{TRIP}", told)
        page.reload()
        assert "Tarrow" not in page.content()
        type_in(page, WORDS)
        line = page.locator("label", has_text=words).first
        expect(line.locator("input")).to_be_checked()
        expect(page.get_by_role("button", name="Night colours")).to_have_attribute(
            "aria-pressed", "true"
        )
    assert seen.complaints == []


def test_it_is_printed_as_the_pocket_page_is(
    browser: Browser, sealed: Path, demo_kits: Path
) -> None:
    sheets = "[...document.querySelectorAll('nav a[data-sheet]')].map(one => one.dataset.sheet)"
    found = []
    with offline_page(browser, width=360) as (page, _):
        open_it(page, sealed)
        for _ in ("sealed", "plain"):
            booklet = read_pdf(page.pdf(prefer_css_page_size=True, tagged=True))
            found.append((booklet.sizes, page.evaluate(sheets)[:8]))
            page.goto((demo_kits / TRIP / "pocket.html").as_uri())
    assert found[0] == found[1]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_rules_of_access_hold_before_and_after(
    scheme: str, browser: Browser, sealed: Path
) -> None:
    with offline_page(browser, width=320, color_scheme=scheme) as (page, _):
        page.goto(sealed.as_uri())
        type_in(page, "not this one")
        expect(page.get_by_role("alert")).to_have_text(WRONG)
        for _ in ("the door", "the plan"):
            found = Axe().run(page).response["violations"]
            assert [(each["id"], each["nodes"][0]["html"][:200]) for each in found] == []
            assert page.evaluate("document.documentElement.scrollWidth") <= 320
            assert page.evaluate(CUT_OFF) == []
            if page.get_by_label("Passphrase").count():
                type_in(page, WORDS)
                expect(page.get_by_role("heading", name="Tarrow Tops", level=1)).to_be_visible()


@pytest.mark.parametrize("name", STARTS)
def test_other_browsers_open_it_too(name: str, sealed: Path, tmp_path: Path) -> None:
    try:
        with STARTS[name](tmp_path) as driven:
            driven.open(sealed.as_uri())
            driven.type("#passphrase", "not this one")
            driven.click("#unseal button")
            alert = "return document.getElementById('wrong')?.textContent"
            assert driven.wait_for(alert) == WRONG
            assert driven.run("return document.activeElement.id") == "passphrase"
            driven.run("document.getElementById('passphrase').value = ''")
            driven.type("#passphrase", WORDS)
            driven.click("#unseal button")
            heading = "return document.querySelector('body > header h1')?.textContent.trim()"
            assert driven.wait_for(heading) == "Tarrow Tops"
            save = "return document.getElementById('kit-zip').href.startsWith('blob:')"
            assert driven.run(save)
    except NotHere as missing:
        pytest.skip(str(missing))
