"""Pages of a trip that tells when one eats, and of one that does not."""

from __future__ import annotations

import pytest

from builder.model.kit import Kit
from builder.model.meal_times import MealTimes
from builder.pages.trip.book import Book, write_book
from builder.pages.trip.strip import day_strip
from builder.record import replace
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import sample_kit

DINNER = "meals/day-1-dinner.md"


def kit_with(times: MealTimes | None) -> Kit:
    return replace(sample_kit(), times=times)


@pytest.fixture(scope="module")
def told() -> Book:
    return write_book(kit_with(MealTimes(420, 720, 1050)), TEMPLATES)


@pytest.fixture(scope="module")
def untold() -> Book:
    return write_book(kit_with(None), TEMPLATES)


def test_steps_know_when_one_eats(told: Book, untold: Book) -> None:
    assert 'data-meal="dinner" data-eat="17:30"' in told.markdown[DINNER]
    assert "Planned: you eat at 17:30." in told.markdown[DINNER]
    assert "data-eat" not in untold.markdown[DINNER]
    assert "Planned" not in untold.markdown[DINNER]


def test_the_first_page_knows_when_what_is_next_is_over(told: Book, untold: Book) -> None:
    for time in ("07:00", "17:30"):
        assert f'data-eat="{time}"' in told.markdown["index.md"]
    assert "data-eat" not in untold.markdown["index.md"]


def test_the_booklet_knows_it_too(told: Book, untold: Book) -> None:
    assert told.pocket_html.count('data-eat="17:30"') >= 2
    assert "data-eat" not in untold.pocket_html


def test_the_strip_of_a_day_stands_by_the_times() -> None:
    early, late = (
        day_strip(kit, kit.days[0])
        for kit in (kit_with(MealTimes(390, 720, 1050)), kit_with(MealTimes(510, 780, 1200)))
    )
    assert early and late
    for before, after in zip(early.dots, late.dots, strict=True):
        assert float(before.x) < float(after.x)
    usual = day_strip(kit_with(None), sample_kit().days[0])
    assert usual and "as an example" in usual.title
    assert "as an example" not in early.title
