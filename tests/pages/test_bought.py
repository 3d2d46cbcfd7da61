"""Lists as tables for other programs, which show what people wrote and run none of it."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from builder.model.kit import ShoppingLine
from builder.pages.bought import csv_of, harmless


@pytest.mark.parametrize("words", ["=1+1", "+1", "-1", "@SUM(A1)", "\tx", "\rx"])
def test_what_a_spreadsheet_would_run_is_shown(words: str) -> None:
    assert harmless(words) == f"'{words}"
    assert harmless(f"a{words}") == f"a{words}"


def test_words_with_commas_quotes_and_line_ends_come_back_whole() -> None:
    lines = [
        ShoppingLine(
            "=oat", "Oats, fine", 480.0, None, 0.0, (), buy_g=500.0, packets=1, packet_g=500.0
        ),
        ShoppingLine("salt", "two\nlines", 12.5, None, 0.0, (), buy_g=12.5, shelf='a "good" one'),
    ]
    told = csv_of(lines, {"more": lambda line: f"{line.food}, too"}).decode()
    assert list(csv.reader(io.StringIO(told, newline=""))) == [
        ["shelf", "name", "food", "buy_g", "packets", "packet_g", "more"],
        ["", "Oats, fine", "'=oat", "500", "1", "500", "=oat, too"],
        ['a "good" one', "two\nlines", "salt", "12.5", "", "", "salt, too"],
    ]


def test_every_kit_has_its_list_as_a_table_beside_the_page(demo_kits: Path) -> None:
    kit = demo_kits / "tarrow-tops"
    told = (kit / "shopping.csv").read_bytes().decode()
    rows = list(csv.DictReader(io.StringIO(told, newline="")))
    assert len(rows) > 10 and all(float(each["buy_g"]) > 0 for each in rows)
    assert {each["to_dry"] for each in rows} <= {"yes", "no"}
    assert 'href="shopping.csv"' in (kit / "shopping.html").read_text("utf-8")
