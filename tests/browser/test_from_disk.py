"""Every page opens from disk with the network off, at any width, and can be searched."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from .looking import (
    CUT_OFF,
    SCROLLS,
    WIDTH_NEEDED,
    offline_page,
    pages_of,
    search_for,
    site_pages_of,
)

PAPER = """() => [
  getComputedStyle(document.querySelector("h1")).color,
  getComputedStyle(document.body).backgroundColor,
  [...document.querySelectorAll("header.md-header, button")].filter(one => one.checkVisibility())
    .length,
]"""
BLACK_ON_WHITE = ["rgb(0, 0, 0)", "rgb(255, 255, 255)", 0]


def test_every_page_opens_from_disk_fits_any_width_and_prints(
    browser: Browser, kits: Path, sample_kits: Path
) -> None:
    """Each page is opened once for all of it: to open them takes longer than to look at them."""
    found: list[tuple[str, str, object]] = []
    with offline_page(browser, 320, color_scheme="dark", reduced_motion="reduce") as (page, seen):
        for file in pages_of(kits):
            name = file.relative_to(kits).as_posix()
            page.goto(file.as_uri(), wait_until="load")
            # Tables of the made-up kits are wider than any of a trip.
            # Sheets of labels are as large as their paper, or nothing on them fits the labels.
            may_scroll = kits == sample_kits or "/labels-" in name
            found += [(name, *each) for each in faults_of_a_page(page, may_scroll)]
            page.emulate_media(media="print")
            printed = page.evaluate(PAPER)
            found += [] if printed == BLACK_ON_WHITE else [(name, "printed", printed)]
            page.emulate_media(media="screen")
    assert found == []
    assert seen.outside == []
    assert seen.complaints == []
    assert len(seen.requests) > len(pages_of(kits))


def faults_of_a_page(page: Page, may_scroll: bool) -> Iterator[tuple[str, object]]:
    """Look at a page that was opened at a width of 320, then wider, then with larger letters."""
    if (headings := page.locator("h1").count()) != 1:
        yield "headings", headings
    for width in (320, 360, 1280):
        page.set_viewport_size({"width": width, "height": 800})
        if (needed := page.evaluate(WIDTH_NEEDED)) > width:
            yield f"scrolls sideways at {width}", needed
        if width <= 360 and not may_scroll and (boxes := page.evaluate(SCROLLS)):
            yield f"boxes that scroll sideways at {width}", boxes
        if width == 320 and (cut := page.evaluate(CUT_OFF)):
            yield "cut off", cut
    # What a browser's own zoom does: 200 % of 1280 px leaves 640, 400 % leaves 320.
    page.set_viewport_size({"width": 640, "height": 800})
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    if (needed := page.evaluate(WIDTH_NEEDED)) > 640:
        yield "scrolls sideways with larger letters", needed


@pytest.mark.parametrize("width", [360, 1280])
@pytest.mark.parametrize("depth", ["index.html", "cook"])
def test_typing_into_the_search_finds_pages(
    browser: Browser, kits: Path, width: int, depth: str
) -> None:
    kit = sorted(path.parent for path in kits.glob("*/kit.json"))[0]
    start = kit / depth if depth.endswith(".html") else sorted((kit / depth).glob("*.html"))[0]
    with offline_page(browser, width=width) as (page, seen):
        page.goto(start.as_uri())
        title = page.locator("h1").inner_text()
        search_for(page, "carbon")
        result = page.locator(".md-search-result__item a").first
        expect(result).to_be_visible()
        expect(page.locator(".md-search-result__meta")).to_contain_text("Found in")
        result.click()
        expect(page.locator("h1")).to_be_visible()
        assert page.url.startswith(kit.as_uri())
        assert title
    assert seen.outside == []
    assert seen.complaints == []


def test_pages_say_the_same_without_scripts(browser: Browser, kits: Path) -> None:
    with offline_page(browser, java_script_enabled=False) as (page, _):
        for file in pages_of(kits):
            page.goto(file.as_uri())
            assert page.locator("h1").is_visible(), file
            assert page.locator("button.timer:visible").count() == 0, file


def test_the_skip_link_is_first_and_leads_to_the_text(browser: Browser, kits: Path) -> None:
    for file in site_pages_of(kits)[:3]:
        with offline_page(browser) as (page, _):
            page.goto(file.as_uri())
            page.keyboard.press("Tab")
            focused = page.locator(":focus")
            assert "md-skip" in (focused.get_attribute("class") or "")
            target = (focused.get_attribute("href") or "").split("#")[1]
            page.keyboard.press("Enter")
            expect(page).to_have_url(f"{file.as_uri()}#{target}")
            assert page.locator(f"article #{target}").count() == 1


def test_colours_can_be_chosen_under_the_policy_and_are_kept(browser: Browser, kits: Path) -> None:
    file = site_pages_of(kits)[0]
    with offline_page(browser, color_scheme="light") as (page, seen):
        page.goto(file.as_uri())
        body = page.locator("body")
        label = page.locator("form[data-md-component=palette] label:visible")
        expect(body).to_have_attribute("data-md-color-scheme", "default")
        label.click()
        expect(body).to_have_attribute("data-md-color-media", "(prefers-color-scheme: light)")
        label.click()
        expect(body).to_have_attribute("data-md-color-scheme", "slate")
        label.click()
        expect(body).to_have_attribute("data-md-color-scheme", "night")
        page.reload()
        expect(body).to_have_attribute("data-md-color-scheme", "night")
        assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(0, 0, 0)"
        for _ in range(3):
            label.click()
        expect(body).to_have_attribute("data-md-color-scheme", "slate")
        page.reload()
        expect(body).to_have_attribute("data-md-color-scheme", "slate")
        assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(16, 25, 23)"
    assert seen.complaints == []


def test_dark_follows_the_system(browser: Browser, kits: Path) -> None:
    with offline_page(browser, color_scheme="dark") as (page, _):
        page.goto(site_pages_of(kits)[0].as_uri())
        expect(page.locator("body")).to_have_attribute("data-md-color-scheme", "slate")


def test_nothing_moves_for_those_who_ask_for_that(browser: Browser, kits: Path) -> None:
    with offline_page(browser, reduced_motion="reduce") as (page, _):
        page.goto(site_pages_of(kits)[0].as_uri())
        moving = page.evaluate(
            """[...document.querySelectorAll('*')].filter(one => {
                 const style = getComputedStyle(one);
                 return style.transitionDuration.split(',').some(d => parseFloat(d) > 0)
                     && style.transitionProperty !== 'none';
               }).length"""
        )
        assert moving == 0


def test_a_script_in_a_page_is_not_run(browser: Browser, kits: Path, tmp_path: Path) -> None:
    file = site_pages_of(kits)[0]
    html = file.read_text(encoding="utf-8")
    probe = "<script>document.title = 'run'</script><p onclick=''></p>"
    changed = tmp_path / "probe.html"
    changed.write_text(html.replace("</article>", probe + "</article>"), encoding="utf-8")
    with offline_page(browser) as (page, seen):
        page.goto(changed.as_uri())
        assert page.title() != "run"
    assert any("Content Security Policy" in text for text in seen.complaints)


# A screen of 1280 at 200 % has room for 640; one of 360 is the narrowest that a menu folds on.
@pytest.mark.parametrize("width", [360, 640])
def test_the_folded_menu_is_used_by_keys_alone(
    browser: Browser, sample_kits: Path, width: int
) -> None:
    kit = sample_kits / "lake-walk"
    with offline_page(browser, width) as (page, seen):
        page.goto((kit / "index.html").as_uri())
        menu = page.get_by_role("button", name="Menu")
        expect(menu).to_have_attribute("aria-expanded", "false")
        for _ in range(3):
            page.keyboard.press("Tab")
            if menu.evaluate("one => one === document.activeElement"):
                break
        expect(menu).to_be_focused()
        page.keyboard.press("Enter")
        expect(menu).to_have_attribute("aria-expanded", "true")
        expect(page.locator(".md-sidebar--primary :focus")).to_be_in_viewport()
        page.keyboard.press("Escape")
        expect(menu).to_be_focused()
        # Shut, it is stepped over.
        reached = []
        for _ in range(12):
            page.keyboard.press("Tab")
            reached.append(
                page.evaluate("!!document.activeElement.closest('.md-sidebar--primary')")
            )
        assert not any(reached)
        menu.focus()
        page.keyboard.press("Space")
        link = page.locator(".md-sidebar--primary").get_by_role("link", name="Cautions")
        for _ in range(20):
            page.keyboard.press("Tab")
            if link.evaluate("one => one === document.activeElement"):
                break
        page.keyboard.press("Enter")
        expect(page).to_have_url((kit / "cautions.html").as_uri())
    assert seen.complaints == []
