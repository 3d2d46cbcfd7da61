"""The first page: what is eaten when by name, each leading to where it is cooked, and lines."""

from __future__ import annotations

import re

from builder.pages.trip.book import write_book
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import sample_kit


def index() -> str:
    return write_book(sample_kit(), TEMPLATES).markdown["index.md"].replace("\u00a0", " ")


def menu_rows(page: str) -> list[str]:
    table = page.partition("## Menu")[2].partition("\n##")[0]
    return [line for line in table.splitlines() if line.startswith("| [Day")]


def test_the_menu_has_a_row_for_each_day_and_names_the_foods() -> None:
    kit = sample_kit()
    page = index()
    rows = menu_rows(page)
    assert len(rows) == len(kit.days)
    for day, row in zip(kit.days, rows, strict=True):
        for meal in day.meals:
            assert meal.title in row


def test_what_is_cooked_leads_to_its_steps_and_tells_when_it_begins() -> None:
    (row,) = (row for row in menu_rows(index()) if "day-1.md" in row)
    cooked = re.search(
        r'<span class="which" data-meal="dinner" data-start="(\d+)" data-steps="(\d+)" '
        r'data-first="([^"]+)">Dinner</span> \[[^]]+\]\(meals/day-1-dinner.md\)',
        row,
    )
    assert cooked
    assert int(cooked[1]) > 0 and int(cooked[2]) > 1 and cooked[3]


def test_what_is_eaten_as_it_is_leads_to_its_day_and_begins_at_no_time() -> None:
    snacks = [row for row in menu_rows(index()) if 'data-meal="snacks"' in row]
    assert snacks
    assert all('data-meal="snacks">' in row for row in snacks)


def test_figures_are_lines_that_lead_to_their_pages() -> None:
    lines = index().partition("## The trip in numbers")[2].partition("\n##")[0].splitlines()
    told = [line for line in lines if line.startswith("- ")]
    assert len(told) >= 4
    assert all(re.match(r"- \[[A-Z][^]]+\]\(\w+\.md\)&#58; .", line) for line in told)


def test_nothing_stands_twice_on_the_first_page() -> None:
    page = index()
    for words in ("Who carries what", "Food energy", "Most water carried", "Take fuel"):
        assert page.count(words) == 1, words
