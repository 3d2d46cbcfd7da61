"""What people write for the tool's own words."""

from __future__ import annotations

import re
from pathlib import Path

from builder import meant
from builder.model import batch, food, trip

ROOT = Path(__file__).resolve().parent.parent
CHOICES = {
    *trip.TRAVEL_BY,
    *trip.WATER_SOURCES,
    *trip.TREATMENTS,
    *trip.GROUNDS,
    *trip.SEXES,
    *trip.DIETS,
    *food.ALLERGENS,
    *food.KINDS,
    *food.STATES,
    *batch.METHODS,
}


def test_each_word_that_is_proposed_is_one_of_the_tools() -> None:
    guide = (ROOT / "content/README.md").read_text("utf-8")
    for ours in meant._MEANT:
        assert ours in CHOICES or re.search(rf"[`{{ ]{ours}\b", guide), ours


def test_every_allergen_and_way_of_travel_is_found_by_other_words() -> None:
    assert set(trip.TRAVEL_BY) <= meant._MEANT.keys()
    assert {*food.ALLERGENS} - {"fish"} <= meant._MEANT.keys()


def test_case_hyphens_and_lines_below_do_not_matter() -> None:
    assert meant.meant_by("Ski-Touring") == meant.meant_by("ski_touring") == ("skiing",)
    assert meant.meant_by("  on   foot ") == ("walking",)
    assert meant.meant_by("walking") == meant.meant_by("") == ()


def test_no_word_stands_twice_for_one_of_ours() -> None:
    for ours, written in meant._MEANT.items():
        words = [meant._normal(each) for each in written.split(",")]
        assert len(words) == len(set(words)), ours
        assert meant._normal(ours) not in words, ours
