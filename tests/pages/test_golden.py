"""Whole pages as text, so that a change of wording is read by someone."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.pages.trip.book import Book

GOLDEN = Path(__file__).parent / "golden"
PAGES = (
    "index.md",
    "day-1.md",
    "meals/day-1-dinner.md",
    "meals/day-2-dinner.md",
    "cook/egg-toasties.md",
    "cook/smoky-bean-pot.md",
    "water.md",
    "fuel.md",
    "shopping.md",
    "food.md",
    "drying.md",
    "cautions.md",
    "numbers.md",
)


@pytest.mark.parametrize("path", PAGES)
def test_page_reads_as_it_was_approved(book: Book, path: str, rewrite_golden: bool) -> None:
    golden = GOLDEN / path.replace("/", "-")
    if rewrite_golden:
        golden.write_text(book.markdown[path], encoding="utf-8", newline="\n")
    assert book.markdown[path] == golden.read_text(encoding="utf-8")
