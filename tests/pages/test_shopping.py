"""The page of shopping: what loads that no meal names take off the list is said."""

from __future__ import annotations

import datetime

import pytest

from builder.model.kit import ComingFood
from builder.pages.trip.book import write_book
from builder.record import replace
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import sample_kit

LOAD = ComingFood("carrot", "Carrot, dried", "carrots-may", 120.0, True, None)


@pytest.mark.parametrize(
    ("load", "says"),
    [
        (LOAD, "Carrot, dried of the load carrots-may, which is in the dryer"),
        (
            replace(LOAD, in_dryer=False, planned_for=datetime.date(2031, 5, 12)),
            "Carrot, dried of the load carrots-may, planned for 12\u00a0May 2031",
        ),
        (replace(LOAD, in_dryer=False), "of the load carrots-may, still to be dried"),
    ],
)
def test_what_comes_out_of_the_dryer_is_said(load: ComingFood, says: str) -> None:
    book = write_book(replace(sample_kit(), coming=(load,)), TEMPLATES)
    for page in (book.markdown["shopping.md"], book.pocket_html):
        assert "Not on the list: it comes out of the dryer" in page
        assert says in page and "120\u00a0g" in page


def test_where_nothing_comes_nothing_is_said() -> None:
    book = write_book(sample_kit(), TEMPLATES)
    assert "comes out of the dryer" not in book.markdown["shopping.md"]
