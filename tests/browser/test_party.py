"""Other eaters, another height: the page works everything out as the Python does."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from builder import units
from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import boiling_point_c, time_factor
from builder.site.finishing.script_words import words_of_parts
from builder.site.finishing.scripts import PARTS_FOLDER
from builder.speech import speech_of
from tests.site.sample import ASSETS, EATERS, recipe_figures
from tests.vectors.make_scaling import TABLE

from .looking import offline_page

ALL_AT_ONCE = """texts => texts.map(([kind, how, value, text]) => {
  const said = {
    celsius: () => temperature(value, how),
    mugs: () => mugs(value, how),
    minutes: () => duration(value),
    count: () => shownAs(value, {kind, step: String(how)}),
  };
  return (said[kind] ?? (() => quantity(value, kind, how)))();
})"""


@pytest.fixture(scope="module")
def table() -> Any:
    return json.loads(TABLE.read_text(encoding="utf-8"))


def in_script(browser: Browser, function: str, table: Any, language: str = "en") -> Any:
    """Run a function beside the script's own ones."""
    with offline_page(browser) as (page, seen):
        parts = ("words", "minutes", "quantities")
        words = json.dumps(words_of_parts(speech_of(language), parts))
        page.add_script_tag(content=f"const SAID = {words};")
        for part in parts:
            page.add_script_tag(path=ASSETS / "assets" / PARTS_FOLDER / f"{part}.js")
        answer = page.evaluate(function, table)
        assert seen.complaints == []
    return answer


def test_the_script_tells_no_pinch_as_nothing(browser: Browser) -> None:
    """What a build leaves out beside the grams, other eaters leave out as well."""
    how = {"kind": "ml", "units": "us", "before": "(", "after": ")"}
    function = "([values, how]) => values.map(value => shownAs(value, how))"
    assert in_script(browser, function, [[0.25, 0.5, 6], how]) == [
        "",
        "(⅛\u00a0tsp)",
        "(1¼\u00a0tsp)",
    ]


def test_the_script_shows_amounts_as_the_build_does(browser: Browser, table: Any) -> None:
    shown = in_script(browser, ALL_AT_ONCE, table["texts"])
    odd = [
        (entry, text) for entry, text in zip(table["texts"], shown, strict=True) if entry[3] != text
    ]
    assert odd == []
    assert len(shown) > 200


@pytest.mark.parametrize("language", ["de", "nb"])
def test_the_script_writes_numbers_as_the_language_does(
    browser: Browser, table: Any, language: str
) -> None:
    texts = table[f"texts {language}"]
    shown = in_script(browser, ALL_AT_ONCE, texts, language)
    assert shown == [entry[3] for entry in texts]


def opened(page: Page, recipe: str) -> Page:
    page.goto(recipe)
    page.get_by_text("Who eats? How high?").click()
    return page


def amount(page: Page, kind: str) -> str:
    return page.locator(f"li .scales[data-kind={kind}]").first.inner_text().replace("\u00a0", " ")


def test_ticking_who_eats_changes_all_amounts(browser: Browser, recipe: str) -> None:
    with offline_page(browser, width=360) as (page, seen):
        opened(page, recipe)
        expect(page.get_by_role("group", name="Who eats?").get_by_role("checkbox")).to_have_count(4)
        page.get_by_label("Bram").uncheck()
        assert (amount(page, "g"), amount(page, "ml")) == ("120 g", "390 ml")
        told = page.locator(".kit-changed")
        expect(told).to_contain_text("Changed: for Ash, Rowan and Juniper.")
        page.reload()
        assert amount(page, "g") == "120 g"
        page.get_by_text("Who eats? How high?").click()
        expect(page.get_by_label("Bram")).not_to_be_checked()
        page.get_by_role("button", name="One person more").click()
        page.get_by_role("button", name="One person more").click()
        expect(told).to_contain_text("for Ash, Rowan, Juniper and 2 guests.")
        assert amount(page, "g") == "200 g"
        page.get_by_role("button", name="As planned").click()
        assert (amount(page, "g"), amount(page, "ml")) == ("160 g", "520 ml")
        expect(told).to_be_hidden()
        expect(page.get_by_label("Bram")).to_be_checked()
    assert seen.complaints == []


def test_what_holds_for_the_planned_eaters_only_is_hidden_with_others(
    browser: Browser, recipe: str
) -> None:
    with offline_page(browser) as (page, _):
        page.goto(recipe)
        cools, soaks = page.get_by_text("Then still about 85"), page.get_by_text("Keep them cold.")
        expect(cools).to_be_visible()
        page.get_by_text("Who eats? How high?").click()
        page.get_by_label("Bram").uncheck()
        expect(cools).to_be_hidden()
        expect(soaks).to_be_visible()
        page.get_by_role("button", name="As planned").click()
        expect(cools).to_be_visible()
        page.get_by_label("Height of the camp").fill("2500")
        page.keyboard.press("Enter")
        expect(cools).to_be_hidden()
        expect(soaks).to_be_visible()


def test_one_for_another_keeps_amounts_and_says_who(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, _):
        opened(page, recipe).get_by_label("Ash").uncheck()
        page.get_by_role("button", name="One person more").click()
        assert amount(page, "g") == "160 g"
        expect(page.locator(".kit-changed")).to_contain_text("Rowan, Juniper, Bram and 1 guest.")


def test_nobody_left_is_said_and_changes_nothing(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, _):
        opened(page, recipe)
        for name in EATERS:
            page.get_by_label(name).uncheck()
        expect(page.locator(".kit-changed")).to_contain_text("Somebody must eat.")
        assert amount(page, "g") == "160 g"
        page.get_by_role("button", name="One person fewer").click()
        expect(page.locator(".kit-row output")).to_have_text("0")


def test_another_height_changes_minutes_timers_and_boiling_point(
    browser: Browser, recipe: str
) -> None:
    boils_c = boiling_point_c(pressure_hpa(3000))
    minutes = units.show(8 * time_factor(boils_c), "duration_min")
    with offline_page(browser) as (page, seen):
        opened(page, recipe)
        before = page.locator(".takes").inner_text()
        page.get_by_label("Height of the camp").fill("3 000")
        page.keyboard.press("Enter")
        expect(page.locator(".lasts").last).to_have_text(minutes)
        expect(page.locator(".boils-at").first).to_have_text(units.show(boils_c, "temperature_c"))
        expect(page.locator(".boils-at").last).to_have_text(
            units.show(boils_c, "temperature_c", "us")
        )
        expect(page.locator(".height").last).to_have_text(units.show(3000, "altitude_m", "us"))
        expect(page.locator(".steps button.timer")).to_have_text(f"Start {minutes}")
        assert page.locator(".takes").inner_text() != before
        expect(page.locator(".kit-changed")).to_contain_text(f"at {units.show(3000, 'altitude_m')}")
        page.locator(".steps button.timer").click()
        expect(page.locator(".steps button.timer")).to_contain_text("left")
        page.reload()
        expect(page.locator(".lasts").last).to_have_text(minutes)
        expect(page.locator(".steps button.timer")).to_contain_text("left")
        page.locator(".steps button.timer").click()
        page.locator(".steps button.timer").click()  # one touch alone stops nothing that runs
        page.get_by_role("button", name="As planned").click()
        expect(page.locator(".lasts").last).to_have_text("9 min")
        expect(page.locator(".takes")).to_have_text(before)
        expect(page.locator(".steps button.timer")).to_have_text("Start 9 min")
    assert seen.complaints == []


@pytest.mark.parametrize("wrong", ["twelve", "9001", "-501"])
def test_a_height_that_cannot_be_is_told(browser: Browser, recipe: str, wrong: str) -> None:
    with offline_page(browser) as (page, _):
        opened(page, recipe)
        field = page.get_by_label("Height of the camp")
        field.fill(wrong)
        page.keyboard.press("Enter")
        expect(field).to_have_attribute("aria-invalid", "true")
        expect(page.locator(".kit-wrong")).to_contain_text("Write a height from")
        expect(page.locator(".lasts").last).to_have_text("9 min")
        field.fill("")
        page.keyboard.press("Enter")
        expect(page.locator(".kit-wrong")).to_have_text("")


# Another height or a guest may bring up cautions that the page does not show.
NOT_FOLLOWING = (
    "Cautions, fuel, water and shopping are as planned. Ask guests what they must not eat."
)


def one_person_more(page: Page, times: int) -> None:
    for _ in range(times):
        page.get_by_role("button", name="One person more").click()


def takes(page: Page) -> str:
    return page.locator(".takes").inner_text()


def test_more_eaters_make_more_potfuls(browser: Browser, recipe: str) -> None:
    planned = units.show(recipe_figures(4, 640)["minutes"], "duration_min")
    ten = units.show(recipe_figures(10, 640)["minutes"], "duration_min")
    assert planned != ten
    with offline_page(browser) as (page, _):
        opened(page, recipe)
        assert takes(page) == planned
        one_person_more(page, 6)
        expect(page.locator("[data-figure=potfuls]")).to_have_text(f"2{units.NBSP}potfuls")
        assert takes(page) == ten


def test_what_another_pot_would_change_is_no_number(browser: Browser, recipe: str) -> None:
    """For 19 the other pot makes 2 potfuls, this one 3."""
    with offline_page(browser) as (page, seen):
        opened(page, recipe)
        told, potfuls = page.locator(".kit-changed"), page.locator("[data-figure=potfuls]")
        one_person_more(page, 14)
        expect(told).not_to_contain_text("Another pot")
        expect(told).to_contain_text(NOT_FOLLOWING)
        one_person_more(page, 1)
        expect(potfuls).to_have_text("needs a new build")
        assert takes(page) == "needs a new build"
        expect(told).to_contain_text("Another pot fits better now: what hangs on it needs")
        expect(told).to_contain_text(NOT_FOLLOWING)
        expect(told).not_to_contain_text("potfuls, presses and minutes on this page follow")
        # What does not hang on the pot follows all the same.
        assert amount(page, "g") == "760 g"
        expect(page.locator(".lasts").last).to_have_text("9 min")
        page.get_by_role("button", name="As planned").click()
        expect(potfuls).to_have_text("1 potful")
    assert seen.complaints == []


def test_controls_and_outputs_name_what_they_change_and_tell(browser: Browser, recipe: str) -> None:
    with offline_page(browser) as (page, _):
        opened(page, recipe)
        eaters = page.get_by_role("group", name="Who eats?")
        expect(eaters).to_have_attribute("data-change", "trips/walk.yaml:9:5")
        height = page.get_by_label("Height of the camp")
        expect(height).to_have_attribute("data-change", "trips/walk.yaml:7:5")
        for figure in recipe_figures(4, 640):
            assert page.locator(f"[data-figure={figure}]").count() > 0


def test_a_page_without_names_and_height_counts_people(
    browser: Browser, tmp_path: Path, recipe: str
) -> None:
    kit = Path(recipe.removeprefix("file://")).parents[1]
    html = (kit / "cook" / "bean-pot.html").read_text(encoding="utf-8")
    html, without = re.subn(r' data-(names|height)="[^"]*"', "", html)
    assert without == 2
    nameless = kit / "cook" / "nameless.html"
    nameless.write_text(html, encoding="utf-8")
    try:
        with offline_page(browser) as (page, seen):
            opened(page, nameless.as_uri())
            expect(page.get_by_label("Height of the camp")).to_have_count(0)
            for _ in range(6):
                page.get_by_role("button", name="One person fewer").click()
            expect(page.locator(".kit-row output")).to_have_text("1")
            assert amount(page, "g") == "40 g"
            expect(page.locator(".kit-changed")).to_contain_text("Changed: for 1 person.")
        assert seen.complaints == []
    finally:
        nameless.unlink()
