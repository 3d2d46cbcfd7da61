"""A new trip takes the old one's packs where they are left, else others: first-expired first."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.reading.anew.cuttings import content_of_kit
from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from builder.shipped import shipped_root
from builder.site.folder.archive import zip_files
from tests.conftest import tripkit

# Packs of 240 g, none of which reseals, so each meal opens its own.
BATCHES = """\
- {id: first, food: apple-raw, method: dehydrator, done: 2031-03-14, fresh: 3 kg, dried: 480 g,
   packs: {count: 2, in: foil-pouch}, kept_at: 15 degC}
- {id: third, food: apple-raw, method: dehydrator, done: 2031-05-03, fresh: 3 kg, dried: 480 g,
   packs: {count: 2, in: foil-pouch}, kept_at: 15 degC}
- {id: second, food: apple-raw, method: dehydrator, done: 2031-05-02, fresh: 4.5 kg, dried: 720 g,
   packs: {count: 3, in: foil-pouch}, kept_at: 15 degC}
"""
# Four packs of the first batch.
MORE = BATCHES.replace(
    "fresh: 3 kg, dried: 480 g,\n   packs: {count: 2",
    "fresh: 6 kg, dried: 960 g,\n   packs: {count: 4",
    1,
)
OLD = """\
title: Old
start: 2031-04-01
party: [{name: Ash}]
days:
  - camp_altitude: 9 m
    meals:
      lunch: {eat: apple-raw, each: 200 g, from: first}   # the good ones
  - camp_altitude: 9 m
    meals:
      breakfast: open
      lunch: [open, {eat: apple-raw, from: first, each: 200 g}]
"""


@pytest.fixture
def content(in_empty_folder: Path) -> Path:
    """Give the content of a folder with an old trip that ate one batch up."""
    content = in_empty_folder / "content"
    (content / "trips").mkdir(parents=True)
    (content / "batches").mkdir()
    (content / "batches/log.yaml").write_text(BATCHES)
    (content / "trips/old.yaml").write_text(OLD)
    return content


def new(content: Path, *more: str, start: str = "2031-06-01") -> tuple[str, str]:
    """Give what was said, and the new trip from its days on."""
    result = tripkit("new", "trip", "next", "--from", "old", "--start", start, *more)
    assert result.exit_code == 0, result.output
    text = (content / "trips/next.yaml").read_text("utf-8")
    return result.output, text[text.index("days:") :]


def days(first: str, second: str) -> str:
    """Give the days of the old trip with other packs."""
    text = OLD[OLD.index("days:") :]
    return text.replace("from: first", first, 1).replace(
        "from: first,", f"{second}," if second else "", 1
    )


def test_packs_that_are_eaten_are_chosen_anew_and_all_else_stays(content: Path) -> None:
    said, written = new(content)
    assert written == days("from: second", "from: second")
    assert "Chose packs anew for what came from batch first: 0 packs left, 2 needed.\n" in said
    # Line 7 of the old file is 8 below the line for editors; fruit keeps 12 months at 15 degC.
    assert "next.yaml:8:50: this comes from second now, which keeps until 2032-05-" in said
    assert "; it was first\n" in said


def test_a_larger_party_takes_more_packs(content: Path) -> None:
    # 400 g are two packs of 240 g: of the three of the second batch one is left over, too few.
    said, written = new(content, "--party", "Ash", "--party", "Fern")
    assert written == days("from: second", "from: third")
    assert "0 packs left, 4 needed" in said


def test_what_no_batch_covers_is_left_open_and_told(content: Path) -> None:
    # Three times 200 g are three packs for a meal.
    people = [each for name in ("Ash", "Fern", "Moss") for each in ("--party", name)]
    said, written = new(content, *people)
    assert written == days("from: second", "dried_by: dehydrator")
    assert "next.yaml:12:21: no free pack covers this: left open" in said


def test_packs_that_are_left_stay(content: Path) -> None:
    (content / "batches/log.yaml").write_text(MORE)
    said, written = new(content)
    assert written == days("from: first", "from: first")
    assert "packs anew" not in said


def test_another_trip_keeps_what_it_was_promised(content: Path) -> None:
    other = OLD.replace("2031-04-01", "2031-07-01").replace("from: first", "from: second")
    (content / "trips/other.yaml").write_text(other)
    _, written = new(content)
    assert written == days("from: second", "from: third")


@pytest.mark.parametrize(
    ("start", "says"),
    [("2031-03-13", "not dried by then"), ("2032-03-30", "past its date by then")],
)
def test_packs_fit_the_day_they_are_eaten(content: Path, start: str, says: str) -> None:
    (content / "trips/old.yaml").write_text(OLD.replace("start: 2031-04-01\n", ""))
    said, written = new(content, start=start)
    assert says in said
    found = "dried_by: dehydrator" if "not" in says else "from: second"
    assert written == days(found, found)


def test_the_last_day_counts(content: Path) -> None:
    """A batch that is good on the first day and past its date on the second is taken once."""
    (content / "batches/log.yaml").write_text(MORE)
    said, _ = new(content, start="2031-06-01")
    assert "anew" not in said
    dated = tripkit("stock", "--at", "2031-06-01", "--json").output
    until = dated.split('"batch": "first"')[1].split('"best_before": "')[1][:10]
    (content / "trips/next.yaml").unlink()
    said, written = new(content, start=until)
    assert written == days("from: first", "from: second")
    assert "from first now" not in said and "from second now" in said


def test_an_ingredient_of_a_dish_is_chosen_by_itself(content: Path) -> None:
    (content / "recipes").mkdir()
    (content / "recipes/stew.yaml").write_text("""\
id: stew
name: Stew
serves: 1
cook_in: none
uses:
  - {id: apple, food: apple-raw, dried_by: dehydrator, amount: 60 g}
  - {id: more, food: apple-raw, dried_by: dehydrator, amount: 60 g}
  - {id: raisins, food: raisins, amount: 20 g}
steps:
  - {do: soak, with: [apple, more, raisins], water: 300 ml, minutes: 5}
""")
    dinner = "      dinner: {cook: stew, from: {apple: first, more: third}}  # sweet\n"
    (content / "trips/old.yaml").write_text(OLD + dinner)
    _, written = new(content)
    # The second batch has three packs: two lunches, and what the dish takes of it.
    assert "from: {apple: second, more: third}}  # sweet\n" in written


def test_of_a_kit_too_the_stock_of_today_decides(content: Path) -> None:
    layers = [
        Layer(shipped_root() / "content", "shipped", ALWAYS_SHIPPED, vouched=True),
        Layer(content, "content"),
    ]
    files = content_of_kit(read_folder(layers), "old", ())
    zip_files(files, content.parent / "content.zip", 0)
    (content / "trips/old.yaml").unlink()
    arguments = ("new", "trip", "next", "--from", "content.zip", "--start", "2031-06-01")
    assert tripkit(*arguments).exit_code == 0
    next_trip = content / "trips/next.yaml"
    assert "from: first" in next_trip.read_text("utf-8") and "second" not in next_trip.read_text()
    next_trip.unlink()
    # Eaten at home meanwhile: the kit, which knows of two more, is not asked.
    (content / "batches/log.yaml").write_text(BATCHES.replace("kept_at", "used: 2, kept_at", 1))
    result = tripkit(*arguments)
    assert "packs anew for what came from batch first: 0 packs left, 2 needed" in result.output
    text = next_trip.read_text("utf-8")
    assert text[text.index("days:") :] == days("from: second", "from: second")
    assert [each.name for each in (content / "batches").iterdir()] == ["log.yaml"]
