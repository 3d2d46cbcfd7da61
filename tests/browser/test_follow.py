"""A run is followed on the phone: typed, judged, kept, saved, and taken over into the log."""

from __future__ import annotations

import datetime
import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Locator, Page, expect

from builder.pages.home.following import formulas
from builder.planning.batches import FIT
from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from builder.site.finishing.scripts import PARTS_FOLDER
from tests.conftest import tripkit
from tests.site.sample import ASSETS, ROOT
from tests.vectors.make_drying_runs import TABLE

from .looking import Seen, offline_page
from .test_access import faults

BATCH = "green-beans-august"
# The beans went in at 17:30 on a Friday, and were weighed after two and four hours.
EVENING = datetime.datetime(2031, 8, 22, 22, 30)
EPOCH_OF_NEXT_DAY = "1945252800"  # 2031-08-23, noon
# At the rates of two weighings; the page takes its slopes by differences.
CLOSE_MIN = 0.5
FORECASTS = """([data, loads]) => {
  const { forecast } = startFit(data);
  return loads.map(({ fresh, water, limit, spread, weighings }) => {
    const found = forecast({ fresh, water, limit, spread, weighings });
    return found && { ...found, curve: found.curve(weighings[0][0]) };
  });
}"""


@pytest.fixture(scope="module")
def follow(demo_kits: Path) -> str:
    return (demo_kits / "at-home" / "follow.html").as_uri()


@contextmanager
def following(browser: Browser, address: str, width: int = 360) -> Iterator[tuple[Page, Seen]]:
    with offline_page(browser, width, timezone_id="Europe/Oslo", locale="en-GB") as (page, seen):
        page.clock.set_fixed_time(
            EVENING.replace(tzinfo=datetime.timezone(datetime.timedelta(hours=2)))
        )
        page.goto(address)
        yield page, seen


def run_of(page: Page, name: str = "Green beans") -> Locator:
    return page.locator(".kit-run", has=page.get_by_role("heading", name=name, exact=True))


def weigh(run: Locator, grams: str, hours: str | None = None) -> None:
    run.get_by_label("Weight now").fill(grams)
    if hours is not None:
        run.get_by_label("Hours since it went in").fill(hours)
    run.get_by_role("button", name="Add this weight").click()


def saved(page: Page, into: Path) -> Path:
    with page.expect_download() as download:
        page.get_by_role("button", name="Save as a file").click()
    file = into / download.value.suggested_filename
    download.value.save_as(file)
    return file


# -- the arithmetic -------------------------------------------------------------------------------


def test_the_fit_in_the_page_gives_what_the_python_gives(browser: Browser) -> None:
    table = json.loads(TABLE.read_text(encoding="utf-8"))
    data = {
        "formulas": formulas(),
        "fit": {**FIT, "spreads": 2.0, "most_water_share": 0.98, "longest_min": 40320.0},
    }
    with offline_page(browser) as (page, seen):
        for part in ("evaluate", "fit"):
            page.add_script_tag(path=ASSETS / "assets" / PARTS_FOLDER / f"{part}.js")
        found = page.evaluate(FORECASTS, [data, table])
        assert seen.complaints == []
    odd = [
        (number, each["found"], mine)
        for number, (each, mine) in enumerate(zip(table, found, strict=True))
        if not alike(each["found"], mine)
    ]
    assert odd == []
    assert {each["found"]["model"] for each in table if each["found"]} == {"lewis", "page"}


def alike(theirs: dict[str, Any] | None, mine: dict[str, Any] | None) -> bool:
    if theirs is None or mine is None:
        return theirs is mine
    return theirs["model"] == mine["model"] and all(
        mine[key] == pytest.approx(theirs[key], abs=CLOSE_MIN, rel=1e-3)
        for key in ("dryAfter", "earliest", "latest", "look")
    )


# -- on the phone ---------------------------------------------------------------------------------


def test_what_stands_in_the_log_is_told_by_the_script_as_by_the_build(
    browser: Browser, follow: str
) -> None:
    with offline_page(browser, 360, java_script_enabled=False) as (page, _):
        page.goto(follow)
        plain = page.locator("article").inner_text()
    with following(browser, follow) as (page, seen):
        told = run_of(page).inner_text()
        assert seen.complaints == []
        assert seen.outside == []
    # 1.4 kg of beans with 90.3 % water hold 136 g solids: dry at 10 % they weigh 150 g.
    for words in ("150 g", "222 g", "NOT DRY. Keep drying, 222 g to go."):
        assert words in plain.replace("\xa0", " ")
        assert words in told.replace("\xa0", " ")


def test_without_scripts_the_page_names_the_command(browser: Browser, follow: str) -> None:
    with offline_page(browser, 360, java_script_enabled=False) as (page, _):
        page.goto(follow)
        expect(page.get_by_text(f"tripkit log --batch {BATCH}")).to_be_visible()


def test_a_weight_is_judged_at_once_and_stays(browser: Browser, follow: str) -> None:
    with following(browser, follow) as (page, seen):
        run = run_of(page)
        expect(run.get_by_label("Hours since it went in")).to_have_value("5")  # by the clock
        weigh(run, "300")
        expect(run.get_by_text("Keep drying, 150")).to_be_visible()
        page.reload()
        expect(run_of(page).get_by_text("Keep drying, 150")).to_be_visible()
        expect(run_of(page).locator(".kit-weights li")).to_have_count(3)
        run_of(page).get_by_role("button", name="Remove 5").click()
        expect(run_of(page).get_by_text("Keep drying, 222")).to_be_visible()
        page.reload()
        expect(run_of(page).locator(".kit-weights li")).to_have_count(2)
        assert seen.complaints == []


@pytest.mark.parametrize(
    ("grams", "hours", "says"),
    [
        ("373", "5", "not above 372"),
        ("", "5", "above 0"),
        ("0", "5", "above 0"),
        ("250", "4", "more than 4"),
        ("250", "", "more than 4"),
        ("20", "5", "lighter than this load can get"),
    ],
)
def test_a_weight_that_cannot_be_is_refused_where_it_stands(
    browser: Browser, follow: str, grams: str, hours: str, says: str
) -> None:
    with following(browser, follow) as (page, _):
        run = run_of(page)
        weigh(run, grams, hours)
        expect(run.get_by_role("alert")).to_contain_text(says)
        expect(run.locator(".kit-weights li")).to_have_count(2)
        expect(run.locator('[aria-invalid="true"]')).to_be_focused()


def test_what_the_weight_leaves_open_is_settled_by_a_test(browser: Browser, follow: str) -> None:
    # At 150 g the likely moisture is 10 %; the table leaves far more open.
    with following(browser, follow) as (page, _):
        run = run_of(page)
        weigh(run, "150", "14")
        expect(run.get_by_text("undecided by weight. Test it")).to_be_visible()
        run.get_by_label("A cold piece snaps").check()
        expect(run.get_by_text("dry. Dry: take it out and pack it.")).to_be_visible()


def test_it_is_worked_by_keys(browser: Browser, follow: str) -> None:
    with following(browser, follow) as (page, _):
        run = run_of(page)
        run.get_by_label("Weight now").focus()
        page.keyboard.type("300")
        page.keyboard.press("Enter")
        expect(run.get_by_text("Keep drying, 150")).to_be_visible()
        expect(run.get_by_label("Weight now")).to_be_focused()
        expect(run.get_by_label("Weight now")).to_have_value("")


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_nothing_sticks_out_and_axe_finds_no_violation(
    browser: Browser, follow: str, width: int
) -> None:
    with following(browser, follow, width) as (page, _):
        weigh(run_of(page), "300")
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert faults(Axe(), page) == []


def test_who_refuses_to_keep_is_told(browser: Browser, follow: str) -> None:
    with offline_page(browser, 360) as (page, _):
        page.add_init_script(
            "Storage.prototype.setItem = () => { throw new DOMException('no', 'QuotaExceeded'); };"
        )
        page.goto(follow)
        expect(page.get_by_text("This browser keeps nothing here")).to_be_visible()


def test_nothing_typed_makes_no_file(browser: Browser, follow: str) -> None:
    with following(browser, follow) as (page, _):
        page.get_by_role("button", name="Save as a file").click()
        expect(page.get_by_text("Nothing was typed here yet.")).to_be_visible()


def test_a_food_that_would_be_thrown_out_is_not_begun(browser: Browser, follow: str) -> None:
    with following(browser, follow) as (page, _):
        begin(page, "Chicken breast, raw", "Five-tray dehydrator")
        expect(page.get_by_text("Do not dry it this way")).to_be_visible()
        begin(page, "Unicorn", "Five-tray dehydrator")
        expect(page.get_by_text("Choose one from the list")).to_be_visible()
        expect(page.locator(".kit-run")).to_have_count(2)  # the beans, and the new one's form


def begin(page: Page, food: str, how: str) -> None:
    page.get_by_label("What goes in").fill(food)
    page.get_by_label("Dried in, or how").select_option(how)
    page.get_by_label("Fresh weight").fill("1000")
    page.get_by_role("button", name="Follow it").click()


# -- into the log ---------------------------------------------------------------------------------


@pytest.fixture
def content(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Give a folder whose log holds the beans, a comment above them."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", EPOCH_OF_NEXT_DAY)
    room = tmp_path / "content" / "batches"
    room.mkdir(parents=True)
    text = (ROOT / "content/batches/vegetables.yaml").read_text(encoding="utf-8")
    start = text.index("# In the dryer now")
    (room / "log.yaml").write_text(text[start : text.index("# Failed")], encoding="utf-8")
    return tmp_path / "content"


def test_what_was_typed_is_taken_over_by_the_log(
    browser: Browser, follow: str, content: Path, tmp_path: Path
) -> None:
    with following(browser, follow) as (page, _):
        weigh(run_of(page), "300")
        begin(page, "Carrot", "Five-tray dehydrator")
        new = run_of(page, "Carrot")
        expect(new.get_by_role("heading")).to_be_focused()
        file = saved(page, tmp_path)
    result = tripkit("log", "--from", str(file), "--content", str(content))
    assert result.exit_code == 0, result.output
    assert f"Logged {BATCH}" in result.output and "Look next:" in result.output
    text = (content / "batches" / "log.yaml").read_text(encoding="utf-8")
    assert text.startswith("# In the dryer now")
    batches = batches_of(content)
    assert [each.mass_g for each in batches[BATCH].weighings] == [690, 372, 300]
    carrots = batches["carrot-raw-2031-08-22"]
    assert (carrots.in_dryer, carrots.fresh_g, carrots.dryer) == (True, 1000, "shelf-dryer")


def test_an_ended_run_is_done_in_the_log(
    browser: Browser, follow: str, content: Path, tmp_path: Path
) -> None:
    with following(browser, follow) as (page, _):
        run = run_of(page)
        weigh(run, "145", "14")
        run.get_by_label("A cold piece snaps").check()
        run.get_by_label("It is out of the dryer").check()
        run.get_by_label("Packs made").fill("3")
        run.get_by_label("Taken out on").fill("2031-08-23")
        file = saved(page, tmp_path)
        page.reload()
        expect(run_of(page).get_by_label("It is out of the dryer")).to_be_checked()
        expect(run_of(page).get_by_label("Packs made")).to_have_value("3")
    assert tripkit("log", "--from", str(file), "--content", str(content)).exit_code == 0
    beans = batches_of(content)[BATCH]
    assert (beans.dried_g, beans.pack_count) == (145, 3)
    assert beans.done == datetime.date(2031, 8, 23)
    assert beans.tests == {"snap"}
    again = tripkit("log", "--from", str(file), "--content", str(content))
    assert again.exit_code == 0 and "stands in the log already" in again.output


def batches_of(content: Path) -> Any:
    shipped = Layer(ROOT / "content", "shipped", ALWAYS_SHIPPED, vouched=True)
    return read_folder([shipped, Layer(content, "content")]).content.batches
