"""The sheet for afterwards: kept on the phone, given as a file, printed on one page."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from builder.reading.text.spelling import plain
from builder.reading.text.yaml_door import read_yaml

from .printed import read_pdf


def address(kits: Path) -> str:
    return (kits / "tarrow-tops" / "review.html").as_uri()


def test_what_one_types_is_kept_and_given_as_a_file(browser: Browser, demo_kits: Path) -> None:
    context = browser.new_context(offline=True, viewport={"width": 360, "height": 700})
    page = context.new_page()
    page.goto(address(demo_kits))
    page.locator("[name=fuel_used]").fill("310")
    page.locator("[name=water][data-of='2']").fill("9,5")
    page.locator("[name=took]").first.fill("34")
    page.locator("[name=left-share]").first.fill("20")
    page.locator("[name=left-mass]").first.fill("1.5 oz")
    page.locator("[name=marks]").first.fill("4")
    page.locator("[name=notes]").fill('Too salty: "never" again\n# really')
    page.reload()
    expect(page.locator("[name=fuel_used]")).to_have_value("310")
    with page.expect_download() as given:
        page.get_by_role("button", name="Save as a file").click()
    assert given.value.suggested_filename == "tarrow-tops-review.yaml"
    text = Path(given.value.path()).read_text("utf-8")
    node, problems = read_yaml(text, "review.yaml")
    assert node is not None and not problems
    told = plain(node)
    assert told["trip"] == "tarrow-tops"
    assert told["review"]["fuel_used"] == "310 g"
    assert told["review"]["water"] == [{"day": (2, "2"), "used": "9,5 l"}]
    assert [each["share"] for each in told["review"]["left"] if "share" in each] == ["20 %"]
    assert [each["mass"] for each in told["review"]["left"] if "mass" in each] == ["1.5 oz"]
    assert told["review"]["notes"] == 'Too salty: "never" again\n# really'
    context.close()


def test_without_scripts_it_is_a_form_to_print(browser: Browser, demo_kits: Path) -> None:
    context = browser.new_context(offline=True, java_script_enabled=False)
    page = context.new_page()
    page.goto(address(demo_kits))
    expect(page.locator("form.review input").first).to_be_visible()
    expect(page.get_by_role("button", name="Save as a file")).to_be_hidden()
    context.close()


@pytest.mark.parametrize("trip", ["tarrow-tops", "graupel-ridge", "lake-emmerin"])
def test_it_prints_on_one_page(browser: Browser, demo_kits: Path, trip: str) -> None:
    page = browser.new_page()
    page.goto((demo_kits / trip / "review.html").as_uri())
    assert len(read_pdf(page.pdf(format="A4", tagged=True)).sizes) == 1
    page.close()
