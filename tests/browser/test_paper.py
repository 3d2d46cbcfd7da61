"""Printed: nothing is cut that belongs together, and there are boxes to tick and room to write."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from .looking import offline_page, pages_of
from .printed import LINES_LOST, SMALLEST_POINTS, Element, Printed, read_pdf

A5_POINTS = (419.5, 595.3)
A6_POINTS = (297.6, 419.5)
A4_POINTS = (595.3, 841.9)
SIZES = {"A6": A6_POINTS, "A5": A5_POINTS, "A4": A4_POINTS}
MOST_SHEETS = 16  # of the booklet of four days, as A5: four sheets of A4, folded
WITHIN_MARGINS_PX = {"A6": 343, "A5": 498, "A4": 672}
# What is wider than the box it stands in, or reaches beyond the sheet.
STICKING_OUT = """() => [...document.querySelectorAll("body *")]
  .filter(one => one.checkVisibility() && one.textContent.trim() && !one.matches(".kit-unseen"))
  .filter(one => one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).display !== "inline"
    || one.getBoundingClientRect().right > innerWidth + 1)
  .map(one => one.outerHTML.slice(0, 120))"""
# Letters in points, four thirds of a CSS pixel each: of all words, and of the words of steps.
PRINTED_LETTERS = """() => {
  const points = one => parseFloat(getComputedStyle(one).fontSize) * .75;
  const words = [...document.querySelectorAll("body *")].filter(
    one => one.checkVisibility() && !one.closest(".kit-unseen, script")
      && [...one.childNodes].some(node => node.nodeType === Node.TEXT_NODE && node.data.trim()));
  const steps = [...document.querySelectorAll(".steps label")];
  return { all: words.map(points), steps: steps.map(points) };
}"""
MOST_ROWS = 20  # longer tables may go over two sheets, between rows
PAGES = (
    "index.html",
    "day-2.html",
    "cook/coconut-chickpea-curry.html",
    "shopping.html",
    "carry.html",
    "pocket.html",
)


def printed(page: Page, file: Path) -> Printed:
    page.goto(file.as_uri())
    return read_pdf(page.pdf(prefer_css_page_size=True, tagged=True))


@pytest.mark.parametrize("name", PAGES)
def test_rows_steps_and_short_tables_are_not_cut(
    browser: Browser, demo_kits: Path, name: str
) -> None:
    with offline_page(browser) as (page, _):
        document = printed(page, demo_kits / "tarrow-tops" / name).document
    rows = list(document.all("TR"))
    assert rows or list(document.all("LI"))
    for kind in ("TR", "LI"):
        # A list in a list is as long as it is; its single lines are looked at.
        for each in document.all(kind):
            if not list(each.all("L")):
                assert len(set(each.sheets)) <= 1, (kind, each.sheets)
    for table in document.all("Table"):
        if len(list(table.all("TR"))) < MOST_ROWS:
            assert len(set(table.sheets)) == 1


@pytest.mark.parametrize(
    "name", [*(f"tarrow-tops/{name}" for name in PAGES), "lake-emmerin/pocket.html"]
)
def test_no_heading_stands_alone_at_the_foot_of_a_sheet(
    browser: Browser, demo_kits: Path, name: str
) -> None:
    with offline_page(browser) as (page, _):
        document = printed(page, demo_kits / name).document
    headings = 0
    for heading, after in _with_next(document):
        if heading.kind in ("H1", "H2", "H3") and after.sheets:
            headings += 1
            assert max(heading.sheets) == min(after.sheets), (heading.kind, heading.sheets)
    assert headings > 0


def _with_next(element: Element) -> list[tuple[Element, Element]]:
    pairs = list(zip(element.inside, element.inside[1:], strict=False))
    for each in element.inside:
        pairs += _with_next(each)
    return pairs


def test_the_pocket_page_is_a_booklet_with_each_day_lying_open(
    browser: Browser, demo_kits: Path
) -> None:
    with offline_page(browser) as (page, _):
        booklet = printed(page, demo_kits / "tarrow-tops" / "pocket.html")
        days = page.locator("h2").evaluate_all(
            "all => all.map(h2 => h2.parentElement.className === 'day')"
        )
    for size in booklet.sizes:
        assert size == pytest.approx(A5_POINTS, abs=1.0)
    _is_of_four_days_lying_open(booklet, days)


def test_it_is_one_in_languages_of_longer_words(browser: Browser, translated: Path) -> None:
    with offline_page(browser) as (page, _):
        booklet = printed(page, translated / "tarrow-tops" / "pocket.html")
        days = page.locator("h2").evaluate_all(
            "all => all.map(h2 => h2.parentElement.className === 'day')"
        )
    _is_of_four_days_lying_open(booklet, days)


def _is_of_four_days_lying_open(booklet: Printed, days: list[bool]) -> None:
    assert len(booklet.sizes) <= MOST_SHEETS
    # The first sheet lies right; a day begins on the left one, and ends on the other.
    headings = [heading.sheets[0] + 1 for heading in booklet.document.all("H2")]
    begins = [sheet for sheet, is_day in zip(headings, days, strict=True) if is_day]
    assert begins == [2, 4, 6, 8]


@pytest.mark.parametrize("size", SIZES)
def test_the_booklet_is_read_at_arms_length(browser: Browser, demo_kits: Path, size: str) -> None:
    with offline_page(browser) as (page, _):
        page.goto((demo_kits / "lake-emmerin" / "pocket.html").as_uri())
        page.evaluate(f"document.documentElement.classList.add('{size.lower()}')")
        page.get_by_role("button", name="One at a time").first.click()
        page.emulate_media(media="print")
        found = page.evaluate(PRINTED_LETTERS)
        assert page.evaluate(LINES_LOST) == []
        assert page.locator("button:visible, .kit-moves :visible").count() == 0
    assert min(found["all"]) >= SMALLEST_POINTS - 0.01
    assert min(found["steps"]) > min(found["all"])


@pytest.mark.parametrize("size", SIZES)
def test_the_contents_tell_on_which_sheet_each_thing_begins(
    browser: Browser, demo_kits: Path, size: str
) -> None:
    with offline_page(browser) as (page, seen):
        page.goto((demo_kits / "tarrow-tops" / "pocket.html").as_uri())
        page.evaluate(f"document.documentElement.classList.add('{size.lower()}')")
        booklet = read_pdf(page.pdf(prefer_css_page_size=True, tagged=True))
        headings = page.locator("h2").evaluate_all("all => all.map(h2 => h2.id)")
        told = page.locator("a[data-sheet]").evaluate_all(
            "all => all.map(a => [a.getAttribute('href').slice(1), Number(a.dataset.sheet)])"
        )
        assert page.evaluate("document.adoptedStyleSheets.length") == 0
    begins = [heading.sheets[0] + 1 for heading in booklet.document.all("H2")]
    assert len(told) > 8
    assert dict(told).items() <= dict(zip(headings, begins, strict=True)).items()
    assert seen.complaints == []


@pytest.mark.parametrize("size", SIZES)
def test_nothing_of_the_booklet_is_clipped(browser: Browser, demo_kits: Path, size: str) -> None:
    with offline_page(browser, WITHIN_MARGINS_PX[size]) as (page, _):
        page.goto((demo_kits / "tarrow-tops" / "pocket.html").as_uri())
        page.evaluate(f"document.documentElement.classList.add('{size.lower()}')")
        page.emulate_media(media="print")
        assert page.evaluate(STICKING_OUT) == []


def test_the_booklet_comes_in_a6_a5_and_a4(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser) as (page, seen):
        page.add_init_script("window.print = () => { window.asked = (window.asked ?? 0) + 1; };")
        page.goto((demo_kits / "lake-emmerin" / "pocket.html").as_uri())
        for times, (size, points) in enumerate(SIZES.items(), start=1):
            page.get_by_role("button", name=f"Print as {size}").click()
            assert page.evaluate("asked") == times
            booklet = read_pdf(page.pdf(prefer_css_page_size=True, tagged=True))
            assert all(each == pytest.approx(points, abs=1.0) for each in booklet.sizes), size
            for row in booklet.document.all("TR"):
                assert len(set(row.sheets)) <= 1
    assert seen.complaints == []


def test_lines_to_write_on_follow_the_steps_of_a_recipe(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, _):
        page.goto(recipe)
        after = """one => { const style = getComputedStyle(one, '::after');
          return [style.display, parseFloat(style.height), style.backgroundImage]; }"""
        assert page.locator("ol.steps").evaluate(after)[0] == "inline"
        page.emulate_media(media="print")
        display, height, lines = page.locator("ol.steps").evaluate(after)
    assert (display, height > 60, "gradient" in lines) == ("block", True, True)


def test_boxes_are_drawn_and_lines_are_left_to_write_on(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser) as (page, _):
        page.goto((demo_kits / "tarrow-tops" / "pocket.html").as_uri())
        page.locator(".steps input").first.check()
        page.emulate_media(media="print")
        box = page.locator(".steps input").first.evaluate(
            "one => { const style = getComputedStyle(one);"
            " return [style.borderTopWidth, style.borderTopColor, style.backgroundColor]; }"
        )
        line = page.locator(".notes").evaluate(
            "one => { const style = getComputedStyle(one, '::after');"
            " return [style.display, parseFloat(style.height), style.backgroundImage]; }"
        )
        struck = page.locator(".steps li.done label").first.evaluate(
            "one => getComputedStyle(one).textDecorationLine"
        )
    assert float(box[0].removesuffix("px")) >= 1
    assert box[1:] == ["rgb(0, 0, 0)", "rgba(0, 0, 0, 0)"]
    assert line[0] == "block"
    assert line[1] > 40
    assert "gradient" in line[2]
    assert struck == "none"


def test_steps_shown_one_at_a_time_are_all_on_paper(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, _):
        page.goto(recipe)
        page.get_by_role("button", name="One at a time").click()
        assert page.locator(".steps > li:visible").count() == 1
        page.emulate_media(media="print")
        assert page.locator(".steps > li:visible").count() == 3
        assert page.locator(".kit-change:visible, .kit-end:visible").count() == 0


def test_every_page_prints(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser) as (page, _):
        for file in pages_of(demo_kits / "lake-emmerin"):
            assert printed(page, file).sizes, file
