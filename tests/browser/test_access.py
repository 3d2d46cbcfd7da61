"""The rules of axe hold on every page, in every scheme, small and large."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from tests.site.test_look import contrast

from .looking import offline_page, pages_of, search_for, site_pages_of, wait_until

# What hangs on colours; all other rules find the same in every scheme.
COLOUR_RULES = ("color-contrast", "link-in-text-block")
OF_COLOURS = {"runOnly": {"type": "rule", "values": [*COLOUR_RULES]}}
# Those two take two thirds of the time, on the thousands of texts of a day's figures half a minute.
# They are asked of one trip here, and of the home in test_home.py: contrast is looked at on every
# page by ourselves, and how links stand out is the same style everywhere.
BESIDES_COLOURS = {"rules": {name: {"enabled": False} for name in COLOUR_RULES}}
MANY_TEXTS = "numbers"
ASKED_FOR_COLOURS = ("lake-emmerin", "lake-walk")
# Pages with the theme hear of the system's change a moment later; the others change by themselves.
DARK = "(document.body.dataset.mdColorScheme ?? 'slate') === 'slate'"


# Each text that is seen, with the colours that it really has, whatever is under it.
TEXT_AND_GROUND = """within => [...document.querySelectorAll(within)].flatMap(all =>
  [all, ...all.querySelectorAll('*')]
    .filter(one => [...one.childNodes].some(node => node.nodeType === 3 && node.data.trim()))
    .filter(one => one.checkVisibility({visibilityProperty: true}))
    .filter(one => !one.closest('svg, .md-search'))
    .map(one => {
      let ground = one;
      while (ground && /^rgba.*, 0\\)$/.test(getComputedStyle(ground).backgroundColor)) {
        ground = ground.parentElement;
      }
      const { color, opacity } = getComputedStyle(one);
      return [color, getComputedStyle(ground ?? document.body).backgroundColor, Number(opacity),
        one.textContent.trim().slice(0, 40)];
    }))"""
# Of the theme's pages what is said; of those that are one file, all.
TEXTS = "article, header, footer, body:not(:has(article))"
STEP_RATIO = 7.0
TEXT_RATIO = 4.5  # WCAG 2.2, 1.4.3, for letters of any size


def hexed(colour: str) -> str:
    """Give a colour as the browser computes it in the way that style sheets are written."""
    red, green, blue = (int(part) for part in re.findall(r"\d+", colour)[:3])
    return f"#{red:02x}{green:02x}{blue:02x}"


def low_contrasts(page: Page, within: str, least: float) -> list[tuple[str, ...]]:
    seen = page.evaluate(TEXT_AND_GROUND, within)
    assert len(seen) > 5
    return [
        (words, text, ground)
        for text, ground, opacity, words in seen
        if contrast(hexed(text), hexed(ground)) < least or opacity < 1
    ]


def open_in(page: Page, file: Path, scheme: str) -> None:
    """Open a page of the kit in a scheme, which the pages before may have chosen already."""
    page.goto(file.as_uri())
    if scheme == "night" and page.locator("body").get_attribute("data-md-color-scheme") != scheme:
        for _ in range(3):
            page.locator("form[data-md-component=palette] label:visible").click()
    expect(page.locator("body")).to_have_attribute("data-md-color-scheme", scheme)


SCHEMES = pytest.mark.parametrize("scheme", ["default", "slate", "night"])


@SCHEMES
def test_all_text_stands_out_as_it_is_shown(browser: Browser, demo_kits: Path, scheme: str) -> None:
    light = "dark" if scheme == "slate" else "light"
    faint = {}
    with offline_page(browser, 360, color_scheme=light, reduced_motion="reduce") as (page, _):
        for file in site_pages_of(demo_kits / "lake-emmerin"):
            open_in(page, file, scheme)
            for details in page.locator("article details").all():
                details.evaluate("one => { one.open = true; }")
            if found := low_contrasts(page, "article, header, footer", STEP_RATIO):
                faint[file.name] = found
    assert faint == {}


@SCHEMES
def test_the_text_of_steps_stands_out_as_it_is_shown(
    browser: Browser, demo_kits: Path, scheme: str
) -> None:
    kit = demo_kits / "tarrow-tops"
    light = "dark" if scheme == "slate" else "light"
    with offline_page(browser, 360, color_scheme=light, reduced_motion="reduce") as (page, _):
        open_in(page, kit / "cook" / "coconut-chickpea-curry.html", scheme)
        page.locator(".steps input").first.check()
        assert low_contrasts(page, ".steps", STEP_RATIO) == []
        page.goto((kit / "pocket.html").as_uri())
        if scheme == "night":
            page.get_by_role("button", name="Night colours").click()
        page.locator(".steps input").first.check()
        assert low_contrasts(page, "body", STEP_RATIO) == []


def read_out(page: Page) -> list[tuple[str, str]]:
    """Give what a screen reader comes by, in its order: role and name."""
    session = page.context.new_cdp_session(page)
    nodes = session.send("Accessibility.getFullAXTree")["nodes"]
    known = {node["nodeId"]: node for node in nodes}
    said: list[tuple[str, str]] = []

    def walk(node: Any) -> None:
        role, name = (node.get(key, {}).get("value", "") for key in ("role", "name"))
        if not node.get("ignored") and role not in ("none", "generic", "InlineTextBox"):
            said.append((role, name))
        for child in node.get("childIds", []):
            if child in known:
                walk(known[child])

    walk(nodes[0])
    return said


def test_pages_are_read_out_in_the_order_they_are_needed(browser: Browser, demo_kits: Path) -> None:
    with offline_page(browser, 360) as (page, _):
        page.goto((demo_kits / "graupel-ridge" / "cook" / "chicken-noodle-pot.html").as_uri())
        said = read_out(page)
        roles = [role for role, _ in said]
        texts = [text for _, text in said]
        assert said[roles.index("heading")] == ("heading", "Ginger chicken noodles")
        assert "navigation" not in roles[roles.index("main") : roles.index("article")]
        first_step = roles.index("checkbox")
        second_step = roles.index("checkbox", first_step + 1)
        # A caution is read out with the step at which one must act.
        warned = next(at for at, text in enumerate(texts) if text.startswith("Danger: Cook this"))
        assert first_step < warned < second_step
        # Steps first, verb first; all amounts once more below them, folded away.
        assert "table" not in roles[:second_step]
        assert texts[first_step].startswith("Soak 10\u00a0min.")
        assert "12\u00a0g carrot" in texts[first_step]
        assert "RAW\u00a080\u00a0g chicken breast" in texts[first_step]
        unnamed = [
            role
            for role, text in said
            if role in ("button", "checkbox", "link", "textbox", "radio", "DisclosureTriangle")
            and not text.strip()
        ]
        assert unnamed == []
        page.get_by_text("Who eats? How high?").click()
        opened = read_out(page)
        assert ("group", "Who eats?") in opened
        assert ("checkbox", "Linnea") in opened
        assert ("button", "One person more") in opened
        assert any(role == "textbox" and "Height of the camp" in text for role, text in opened)


def faults(
    axe: Axe, page: Page, options: Mapping[str, object] | None = None
) -> list[tuple[str, list[str]]]:
    # What passes is not told at length: that takes as long as finding it.
    asked = {"resultTypes": ["violations"], **(options or {})}
    return [
        (violation["id"], [node["html"][:160] for node in violation["nodes"]])
        for violation in axe.run(page, options=asked).response["violations"]
    ]


def test_axe_finds_no_violation(browser: Browser, kits: Path) -> None:
    axe = Axe()
    found: list[tuple[str, str, object]] = []
    # Without motion nothing fades in, so that colours are looked at as they stay.
    with offline_page(browser, 360, color_scheme="light", reduced_motion="reduce") as (page, _):
        for file in pages_of(kits):
            name = file.relative_to(kits).as_posix()
            page.set_viewport_size({"width": 360, "height": 800})
            page.emulate_media(color_scheme="light")
            page.goto(file.as_uri())
            asked = name.startswith(ASKED_FOR_COLOURS) and file.parent.name != MANY_TEXTS
            options = None if asked else BESIDES_COLOURS
            found += [(name, "light", fault) for fault in faults(axe, page, options)]
            found += [(name, "light", each) for each in low_contrasts(page, TEXTS, TEXT_RATIO)]
            page.set_viewport_size({"width": 1280, "height": 800})
            page.emulate_media(color_scheme="dark")
            wait_until(page, DARK)
            found += [(name, "dark", each) for each in low_contrasts(page, TEXTS, TEXT_RATIO)]
    assert found == []


def test_axe_finds_no_violation_by_night(browser: Browser, sample_kits: Path) -> None:
    found = []
    with offline_page(browser, width=360, reduced_motion="reduce") as (page, _):
        for number, file in enumerate(site_pages_of(sample_kits / "lake-walk")):
            page.goto(file.as_uri())
            if not number:
                for _ in range(3):
                    page.locator("form[data-md-component=palette] label:visible").click()
            expect(page.locator("body")).to_have_attribute("data-md-color-scheme", "night")
            found += faults(Axe(), page, OF_COLOURS)
    assert found == []


def test_axe_finds_no_violation_with_everything_changed_and_running(
    browser: Browser, recipe: str
) -> None:
    with offline_page(browser, width=360) as (page, _):
        page.goto(recipe)
        page.get_by_text("Who eats? How high?").click()
        page.get_by_label("Bram").uncheck()
        page.get_by_label("Height of the camp").fill("99999")
        page.get_by_role("button", name="One at a time").click()
        page.get_by_role("button", name="Next").click()
        page.locator(".steps button.timer").click()
        page.locator(".kit-settings > summary").click()
        expect(page.locator(".kit-changed")).to_be_visible()
        assert faults(Axe(), page) == []


def test_axe_finds_no_violation_where_all_is_otherwise_at_camp(
    browser: Browser, demo_kits: Path
) -> None:
    with offline_page(browser, width=360) as (page, _):
        page.goto((demo_kits / "tarrow-tops" / "if-it-goes-wrong.html").as_uri())
        for summary in page.locator(".otherwise summary").all():
            summary.click()
        page.get_by_label("Ash").uncheck()
        page.get_by_label("Others besides them").fill("too many")
        page.get_by_label("Others besides them").press("Enter")
        expect(page.locator(".kit-changed")).to_be_visible()
        expect(page.locator(".otherwise .kit-wrong")).not_to_be_empty()
        assert faults(Axe(), page) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_no_violation_in_the_open_menu_and_search(
    browser: Browser, sample_kits: Path, scheme: str
) -> None:
    file = site_pages_of(sample_kits)[-1]
    with offline_page(browser, width=360, color_scheme=scheme) as (page, _):
        page.goto(file.as_uri())
        page.get_by_role("button", name="Menu").click()
        page.wait_for_timeout(400)
        assert page.locator(".md-sidebar--primary a.md-nav__link:visible").count() > 1
        assert faults(Axe(), page) == []
        page.goto(file.as_uri())
        search_for(page, "carbon")
        page.locator(".md-search-result__item a").first.wait_for()
        page.wait_for_timeout(400)
        assert faults(Axe(), page) == []
