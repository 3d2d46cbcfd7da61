"""Every page opens from disk with the network off, at any width, and can be searched."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from .looking import CUT_OFF, SCROLLS, offline_page, pages_of, search_for, site_pages_of, too_wide


def test_no_page_asks_for_anything_but_files_or_complains(browser: Browser, kits: Path) -> None:
    with offline_page(browser) as (page, seen):
        for file in pages_of(kits):
            page.goto(file.as_uri(), wait_until="load")
            page.wait_for_timeout(100)
            assert page.locator("h1").count() == 1, file
    assert seen.outside == []
    assert seen.complaints == []
    assert len(seen.requests) > len(pages_of(kits))


def test_no_page_scrolls_sideways(browser: Browser, kits: Path) -> None:
    with offline_page(browser) as (page, _):
        assert too_wide(page, kits) == {}


def test_no_words_are_cut_off_on_a_narrow_screen(browser: Browser, demo_kits: Path) -> None:
    found = {}
    with offline_page(browser, width=320) as (page, _):
        for file in pages_of(demo_kits):
            page.goto(file.as_uri())
            if cut := page.evaluate(CUT_OFF):
                found[file.relative_to(demo_kits).as_posix()] = cut
    assert found == {}


def scrolling_sideways(browser: Browser, kits: Path) -> dict[tuple[int, str], list[str]]:
    found = {}
    for width in (320, 360):
        with offline_page(browser, width=width) as (page, _):
            for file in pages_of(kits):
                page.goto(file.as_uri())
                if boxes := page.evaluate(SCROLLS):
                    found[width, file.relative_to(kits).as_posix()] = boxes
    return found


def test_no_table_and_nothing_else_scrolls_sideways_on_a_phone(
    browser: Browser, demo_kits: Path
) -> None:
    found = scrolling_sideways(browser, demo_kits)
    # Sheets of labels are as large as their paper, or nothing on them fits the labels.
    assert {each for each in found if "/labels-" not in each[1]} == set()


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


def test_paper_is_black_on_white_without_anything_to_press(browser: Browser, kits: Path) -> None:
    with offline_page(browser, color_scheme="dark") as (page, _):
        for file in pages_of(kits):
            page.goto(file.as_uri())
            page.emulate_media(media="print")
            assert page.locator("header.md-header:visible, button:visible").count() == 0, file
            ink, ground = page.evaluate(
                """() => { const style = getComputedStyle(document.querySelector('h1'));
                     return [style.color, getComputedStyle(document.body).backgroundColor]; }"""
            )
            assert ink == "rgb(0, 0, 0)", file
            assert ground == "rgb(255, 255, 255)", file


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


# What a browser's own zoom does: 200 % of 1280 px leaves 640, 400 % leaves 320.
def test_nothing_scrolls_sideways_with_larger_letters(browser: Browser, kits: Path) -> None:
    wide = {}
    with offline_page(browser, 640) as (page, _):
        for file in pages_of(kits):
            page.goto(file.as_uri())
            page.evaluate("document.documentElement.style.fontSize = '200%'")
            needed = page.evaluate("document.documentElement.scrollWidth")
            if needed > 640:
                wide[file.name] = needed
    assert wide == {}
