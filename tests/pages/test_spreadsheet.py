"""Lists as tables for other programs, which show what people wrote and run none of it."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from builder.pages.spreadsheet import harmless, written_csv


@pytest.mark.parametrize("words", ["=1+1", "+1", "-1", "@SUM(A1)", "\tx", "\rx"])
def test_what_a_spreadsheet_would_run_is_shown(words: str) -> None:
    assert harmless(words) == f"'{words}"


def test_words_with_commas_quotes_and_line_ends_come_back_whole() -> None:
    rows: list[list[object]] = [["Oats, fine", 'a "good" one', 500], ["two\nlines", "ø", ""]]
    read = list(csv.reader(io.StringIO(written_csv(("a", "b", "c"), rows).decode(), newline="")))
    assert read == [["a", "b", "c"], ["Oats, fine", 'a "good" one', "500"], ["two\nlines", "ø", ""]]


def test_every_kit_has_its_list_as_a_table_beside_the_page(demo_kits: Path) -> None:
    kit = demo_kits / "tarrow-tops"
    told = (kit / "shopping.csv").read_bytes().decode()
    rows = list(csv.DictReader(io.StringIO(told, newline="")))
    assert len(rows) > 10 and all(float(each["buy_g"]) > 0 for each in rows)
    assert {each["to_dry"] for each in rows} <= {"yes", "no"}
    assert 'href="shopping.csv"' in (kit / "shopping.html").read_text("utf-8")
