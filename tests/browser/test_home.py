"""The site of the home in a browser: read by all, printed true to size, its codes read back."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
import zxingcpp
from axe_playwright_python.sync_playwright import Axe
from PIL import Image
from playwright.sync_api import Browser, Page, expect

from builder.pages.home.label_sheet import labels_file
from builder.record import replace
from builder.site.labels_page import labels_page
from tests.pages.conftest import TEMPLATES
from tests.pages.test_labels import BEANS, FIGURES, SHEETS

from .looking import offline_page, pages_of
from .printed import read_pdf
from .test_access import faults

PRINTED_DPI = 300
MM_PER_INCH = 25.4
CSS_DPI = 96


@pytest.fixture(scope="module")
def home(demo_kits: Path) -> Path:
    return demo_kits / "at-home"


# -- all pages; that each opens, fits and prints is looked at in test_from_disk.py -----------------


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_no_violation_at_home(browser: Browser, home: Path, scheme: str) -> None:
    axe = Axe()
    with offline_page(browser, 360, color_scheme=scheme, reduced_motion="reduce") as (page, _):
        found = []
        for file in pages_of(home):
            page.goto(file.as_uri())
            found += [(file.name, fault) for fault in faults(axe, page)]
        assert found == []


# -- shopping -------------------------------------------------------------------------------------

COPIES = """Object.defineProperty(navigator, "share", {value: undefined});
window.copied = [];
Object.defineProperty(navigator, "clipboard",
  {value: {writeText: async text => { window.copied.push(text); }}});"""
SHARES = """window.shared = [];
Object.defineProperty(navigator, "share", {value: async what => { window.shared.push(what); }});"""
REFUSES = """Object.defineProperty(navigator, "share", {value: undefined});
Object.defineProperty(navigator, "clipboard", {value: undefined});"""


def open_shopping(page: Page, home: Path, script: str) -> None:
    page.add_init_script(script)
    page.goto((home / "shopping.html").as_uri())
    page.get_by_role("button", name="Send the list as text").click()


def test_the_list_is_shared_where_the_browser_can(browser: Browser, home: Path) -> None:
    with offline_page(browser, 360) as (page, _):
        open_shopping(page, home, SHARES)
        (shared,) = page.evaluate("shared")
        assert "Rolled oats" in shared["text"]


def test_else_the_list_is_copied_without_what_is_ticked(browser: Browser, home: Path) -> None:
    with offline_page(browser, 360) as (page, _):
        page.add_init_script(COPIES)
        page.goto((home / "shopping.html").as_uri())
        page.get_by_label("Rolled oats").check()
        page.get_by_role("button", name="Send the list as text").click()
        (copied,) = page.evaluate("copied")
        assert "Raisins" in copied
        assert "Rolled oats" not in copied
        assert copied.splitlines()[0] == "First, to dry at home"
        expect(page.get_by_text("Copied: paste it where you want it.")).to_be_visible()


def test_where_nothing_can_be_copied_the_reader_is_told(browser: Browser, home: Path) -> None:
    with offline_page(browser, 360) as (page, _):
        open_shopping(page, home, REFUSES)
        expect(page.get_by_text("Mark the list and copy it.")).to_be_visible()


def test_one_row_of_buttons_serves_all_lists(browser: Browser, home: Path) -> None:
    with offline_page(browser, 360) as (page, seen):
        page.goto((home / "shopping.html").as_uri())
        for name in ("Send the list as text", "Untick all", "Keep screen on"):
            expect(page.get_by_role("button", name=name)).to_have_count(1)
        page.get_by_label("Raisins").check()
        page.get_by_label("Rolled oats").check()
        page.get_by_role("button", name="Untick all").click()
        assert page.locator("ul.send input:checked").count() == 0
        page.reload()
        assert page.locator("ul.send input:checked").count() == 0
        assert seen.complaints == []


def test_ticks_stay(browser: Browser, home: Path) -> None:
    with offline_page(browser, 360) as (page, _):
        page.goto((home / "shopping.html").as_uri())
        page.get_by_label("Raisins").check()
        page.reload()
        expect(page.get_by_label("Raisins")).to_be_checked()


@pytest.mark.parametrize("site", ["at-home", "tarrow-tops"])
def test_the_list_has_two_columns_on_paper(browser: Browser, demo_kits: Path, site: str) -> None:
    with offline_page(browser) as (page, _):
        page.goto((demo_kits / site / "shopping.html").as_uri())
        # Of the list itself, or of all lists of the page, one after the other.
        columns = """(list => [list, list.parentElement]
          .map(one => getComputedStyle(one).columnCount))(
          [...document.querySelectorAll('.columns')].at(-1))"""
        assert page.evaluate(columns) == ["auto", "auto"]
        page.emulate_media(media="print")
        assert sorted(page.evaluate(columns)) == ["2", "auto"]


# -- labels ---------------------------------------------------------------------------------------

CUT_OFF = """[...document.querySelectorAll(".label, .words, .words p")].filter(one =>
  one.scrollHeight > one.clientHeight + 1 || one.scrollWidth > one.clientWidth + 1)
  .map(one => one.textContent)"""
OUT_OF_THE_LABEL = """[...document.querySelectorAll(".label[data-batch]")].filter(label => {
  const box = label.getBoundingClientRect();
  return [...label.querySelectorAll("p, svg")].some(one => {
    const own = one.getBoundingClientRect();
    return own.top < box.top - .5 || own.bottom > box.bottom + .5 || own.right > box.right + .5;
  });
}).map(label => label.textContent)"""


def written(folder: Path, name: str) -> Path:
    """Write a file of labels for beans on a sheet of the gear."""
    file = folder / f"{name}.html"
    file.write_text(labels_page(labels_file([BEANS], SHEETS[name], FIGURES, TEMPLATES)), "utf-8")
    return file


@pytest.mark.parametrize("font", ["Liberation Sans", "DejaVu Sans"])
def test_no_word_of_a_label_is_cut(browser: Browser, home: Path, tmp_path: Path, font: str) -> None:
    """In the narrow and in the widest of the usual fonts."""
    files = [*home.glob("labels-*.html"), *(written(tmp_path, name) for name in SHEETS)]
    with offline_page(browser, bypass_csp=True) as (page, _):
        for file in files:
            page.goto(file.as_uri())
            page.emulate_media(media="print")
            page.add_style_tag(content=f"body {{ font-family: '{font}' !important; }}")
            assert page.evaluate(CUT_OFF) == [], (file.name, font)
            assert page.evaluate(OUT_OF_THE_LABEL) == [], (file.name, font)


NEAREST_THE_EDGE = """[...document.querySelectorAll(".sheet")].flatMap(sheet => {
  const paper = sheet.getBoundingClientRect();
  const away = box => Math.min(box.left - paper.left, box.top - paper.top,
    paper.right - box.right, paper.bottom - box.bottom);
  const words = [...sheet.querySelectorAll(".words p")].map(line => {
    const range = document.createRange();
    range.selectNodeContents(line);
    return away(range.getBoundingClientRect());
  });
  const codes = [...sheet.querySelectorAll(".code")].map(code => {
    const drawing = document.querySelector(code.firstChild.getAttribute("href"));
    const quiet = code.clientWidth * 4 / drawing.viewBox.baseVal.width;
    return away(code.getBoundingClientRect()) + quiet;
  });
  return [...words, ...codes];
}).reduce((least, one) => Math.min(least, one), Infinity)"""


@pytest.mark.parametrize("name", sorted(SHEETS))
def test_a_printer_reaches_all_that_stands_on_a_label(
    browser: Browser, tmp_path: Path, name: str
) -> None:
    """Where labels lie at the paper's edge, too: common printers leave 5 mm of it blank."""
    file = tmp_path / f"{name}.html"
    full = replace(BEANS, packs=SHEETS[name].columns * SHEETS[name].rows)
    file.write_text(labels_page(labels_file([full], SHEETS[name], FIGURES, TEMPLATES)), "utf-8")
    with offline_page(browser) as (page, _):
        page.goto(file.as_uri())
        page.emulate_media(media="print")
        assert page.evaluate(NEAREST_THE_EDGE) * MM_PER_INCH / CSS_DPI > 5 - 0.1


@pytest.mark.parametrize("name", sorted(SHEETS))
def test_labels_lie_where_the_sheet_is_cut(browser: Browser, tmp_path: Path, name: str) -> None:
    sheet = SHEETS[name]
    with offline_page(browser) as (page, _):
        page.goto(written(tmp_path, name).as_uri())
        page.emulate_media(media="print")
        paper, first, second = page.evaluate(
            """[".sheet", ".label", ".label + .label"].map(each => {
              const {x, y, width, height} = document.querySelector(each).getBoundingClientRect();
              return {x, y, width, height};
            })"""
        )
        to_px = CSS_DPI / MM_PER_INCH
        assert first["width"] == pytest.approx(sheet.width_mm * to_px, abs=0.2)
        assert first["height"] == pytest.approx(sheet.height_mm * to_px, abs=0.2)
        assert first["x"] - paper["x"] == pytest.approx(sheet.left_mm * to_px, abs=0.2)
        assert first["y"] - paper["y"] == pytest.approx(sheet.top_mm * to_px, abs=0.2)
        pitch_mm = sheet.width_mm + sheet.across_mm
        assert second["x"] - first["x"] == pytest.approx(pitch_mm * to_px, abs=0.2)


def test_a_printed_file_has_one_page_for_each_sheet(browser: Browser, home: Path) -> None:
    with offline_page(browser) as (page, _):
        page.goto((home / "labels-a4-3x8.html").as_uri())
        sheets = page.locator(".sheet").count()
        printed = page.pdf(prefer_css_page_size=True)
        assert len(read_pdf(printed).sizes) == sheets


def codes_at_printed_size(page: Page) -> list[tuple[str, str]]:
    """Give what a reader finds in each label at 300 dpi, with the words that stand beside it."""
    found = []
    for label in page.locator(".label:has(.code)").all():
        picture = Image.open(BytesIO(label.screenshot())).convert("L")
        (code,) = zxingcpp.read_barcodes(picture) or (None,)
        words = "\n".join(label.locator("p").all_text_contents())
        found.append((code.text if code else "", words))
    return found


@pytest.mark.parametrize("name", ["a4-3x8", "a4-2x7", "a4-2x4"])
def test_a_code_reads_as_the_words_beside_it_at_printed_size(
    browser: Browser, home: Path, tmp_path: Path, name: str
) -> None:
    scale = PRINTED_DPI / CSS_DPI
    with offline_page(browser, device_scale_factor=scale) as (page, _):
        page.goto(written(tmp_path, name).as_uri())
        page.emulate_media(media="print")
        (first, second) = codes_at_printed_size(page)
        assert first == second
        assert first[0] == first[1]
        assert "best before 14\u00a0Mar 2032" in first[0]


def test_every_code_of_the_stock_reads_back(browser: Browser, home: Path) -> None:
    with offline_page(browser, device_scale_factor=PRINTED_DPI / CSS_DPI) as (page, _):
        page.goto((home / "labels-plain.html").as_uri())
        # One label of each batch will do.
        page.evaluate(
            """{
              const seen = new Set();
              for (const one of document.querySelectorAll(".label")) {
                if (seen.has(one.dataset.batch)) one.remove();
                seen.add(one.dataset.batch);
              }
            }"""
        )
        page.emulate_media(media="print")
        found = codes_at_printed_size(page)
        assert len(found) > 15
        assert [words for code, words in found if code != words] == []


def test_labels_are_chosen_and_begin_at_the_first_free_one(browser: Browser, home: Path) -> None:
    with offline_page(browser) as (page, seen):
        page.goto((home / "labels-a4-3x8.html").as_uri())
        page.get_by_role("button", name="None").click()
        assert page.locator(".label").count() == 0
        page.get_by_label("Chicken breast").check()
        page.get_by_label("First free label").fill("24")
        assert page.locator(".sheet").count() == 2
        assert page.locator(".label.blank").count() == 23
        assert page.locator(".label[data-batch=chicken-january]").count() == 2
        page.get_by_label("First free label").fill("99")  # no sheet has as many
        assert page.locator(".label.blank").count() == 23
        assert seen.complaints == []
