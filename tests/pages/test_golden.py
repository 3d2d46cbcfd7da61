"""Whole pages as text, so that a change of wording is read by someone.

They are those of a kit that is planned from a folder, as a person's are.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.pages.trip.book import Book, write_book
from builder.planning.kit import plan_trip
from builder.planning.stock import check
from builder.problems import errors
from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder

GOLDEN = Path(__file__).parent / "golden"
FOLDER = Path(__file__).parent / "golden_kit"
PAGES = (
    "index.md",
    "day-1.md",
    "meals/day-1-dinner.md",
    "meals/day-2-dinner.md",
    "cook/egg-toasties.md",
    "cook/bean-pot.md",
    "water.md",
    "fuel.md",
    "shopping.md",
    "food.md",
    "drying.md",
    "cautions.md",
)


@pytest.fixture(scope="module")
def built(templates: Path) -> Book:
    """Give the pages of the trip in the folder, over what is shipped."""
    layers = [Layer(templates.parent / "content", "shipped", ALWAYS_SHIPPED, vouched=True)]
    folder = read_folder([*layers, Layer(FOLDER, "content")])
    assert not errors(folder.problems)
    stock, _ = check(folder.content)
    return write_book(
        plan_trip(folder.content.trips["sample-hill"], folder.content, stock), templates
    )


@pytest.mark.parametrize("path", PAGES)
def test_page_reads_as_it_was_approved(built: Book, path: str, rewrite_golden: bool) -> None:
    golden = GOLDEN / path.replace("/", "-")
    if rewrite_golden:
        golden.write_text(built.markdown[path], encoding="utf-8", newline="\n")
    assert built.markdown[path] == golden.read_text(encoding="utf-8")


def test_no_golden_page_is_left_of_one_that_is_gone() -> None:
    assert {path.name for path in GOLDEN.iterdir()} == {path.replace("/", "-") for path in PAGES}
