"""The pocket page: everything in one file, of use without scripts."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

from builder.pages.pieces import text
from builder.pages.trip.book import Book, write_book
from builder.pages.trip.dishes.recipe_steps import StepLine
from builder.pages.trip.pocket import as_changed
from tests.pages.conftest import TEMPLATES
from tests.pages.seen import seen_in_html
from tests.planning.folders import Record, day, day_trip, hand, uses


def test_it_is_whole_well_formed_html(book: Book) -> None:
    assert book.pocket_html.startswith("<!doctype html>\n")
    seen = seen_in_html(book.pocket_html)
    assert not seen.unclosed and not seen.astray
    assert len(seen.ids) == len(set(seen.ids))
    assert [name for name, _ in seen.tags].count("h1") == 1
    assert next(given for name, given in seen.tags if name == "html")["lang"] == "en"


def test_it_asks_for_nothing_but_its_own_style_and_script(book: Book) -> None:
    seen = seen_in_html(book.pocket_html)
    asked = [
        str(given.get("href") or given.get("src"))
        for _, given in seen.tags
        if given.get("href") or given.get("src")
    ]
    inside = {f"#{anchor}" for anchor in seen.ids}
    assert set(asked) - inside == {"assets/pocket.css", "assets/pocket.js"}


def test_it_holds_the_trip_in_the_order_it_is_needed(book: Book) -> None:
    words = seen_in_html(book.pocket_html).words
    order = [
        "At a glance Day 1",
        "Day 1: Road end",
        "Dinner: Smoky bean pot",
        "Soak 10",
        "Day 2: Up to the snow",
        "Raw animal food",
        "Fill the irons",
        "Own gear",
        "To drink" if "To drink" in words else "Make safe",
        "Propane-butane" if "Propane-butane" in words else "propane-butane mix",
        "Because: the night is −2 °C",
        "Rice, instant",
    ]
    text = words.replace("\u00a0", " ")
    at = -1
    for part in order:
        found = text.find(part, at + 1)
        assert found > at, part
        at = found


def test_headings_do_not_skip_a_level(book: Book) -> None:
    levels = [int(level) for level in re.findall(r"<h([1-6])", book.pocket_html)]
    assert all(after - before <= 1 for before, after in pairwise(levels))


def test_every_table_has_heads(book: Book) -> None:
    tables = re.findall(r"<table>.*?</table>", book.pocket_html, re.S)
    assert tables
    assert all('<th scope="col"' in table for table in tables)


def test_it_says_how_water_is_made_safe_and_how_long_food_stays_hot(book: Book) -> None:
    told = seen_in_html(book.pocket_html).words.replace("\u00a0", " ")
    assert (
        "4 drops of bleach for each litre (the dose for cold water). Stir, then wait 1 h." in told
    )
    assert "Wrap the pot, or eat sooner. Then still about 65 °C hot" in told


def test_a_changed_step_tells_the_time_at_sea_level_only_where_the_other_one_does_not() -> None:
    def step(minutes: int, sea_level: str) -> StepLine:
        return StepLine(text(f"Boil {minutes} min."), sea_level=sea_level, timer=str(minutes))

    high = step(7, "5 min at sea level")
    assert as_changed(high, step(6, "5 min at sea level")).sea_level == ""
    assert as_changed(high, step(5, "")).sea_level == ""  # which is the time at sea level
    assert as_changed(high, step(6, "4 min at sea level")) == high


def test_an_order_of_work_at_another_height_is_told_to_have_other_minutes(tmp_path: Path) -> None:
    def heated(name: str) -> Record:
        boil = {"do": "boil", "with": ["kernel"], "water": "500 ml"}
        steps = [boil, {"do": "simmer", "minutes": 20}]
        return {"id": name, "name": name, "serves": 2, "cook_in": "pot",
                "uses": uses(kernel="100 g"), "steps": steps}  # fmt: skip

    def said(height: str) -> str:
        dinner = {"dinner": [{"cook": "one"}, {"cook": "two"}]}
        days = [day(dinner), day(dinner, camp_altitude=height)]
        kit = hand(tmp_path / height, day_trip(days=days), [heated("one"), heated("two")]).kit()
        html = write_book(kit, TEMPLATES).pocket_html
        return seen_in_html(html).words.replace("\u00a0", " ")

    assert "Then do all as on Day 1." in said("1000 m")
    high = said("2600 m")
    assert "Order as on Day 1, with the minutes below." in high
    assert "do all as on Day 1" not in high
    assert "All as on Day 1, but here: Step 2: Simmer 37 min" in high
