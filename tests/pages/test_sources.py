"""The page of sources: what each checks, how it is known, and links that lead to it."""

from __future__ import annotations

import re

import pytest

from builder.model.source import KNOWN as WAYS_OF_KNOWING
from builder.model.source import Source
from builder.pages.trip.book import Book, write_book
from builder.pages.trip.origins.sources import KNOWN, SUBJECTS, Checked, read_checked, sources_page
from builder.record import replace
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import sample_kit
from tests.pages.seen import seen_in

MOST_BYTES = 34_000

TABLE = Source("table", "A table of boiling", "memory", publisher="A press", year=1950)
PAPER = Source("paper", "A paper on drying", "copy", url="https://example.org/")
CHECKED = (
    Checked(TABLE, {"boiling.boiling_point_c": {"calculated": 1200}}),
    Checked(
        PAPER,
        {
            "drying.residual_share": {"copy": 2},
            "drying.least_residual_share": {"calculated": 1},
            "boiling.boiling_point_c": {"copy": 1},
        },
    ),
)


def test_each_subject_tells_its_sources_with_their_own_figures() -> None:
    page = sources_page(sample_kit(), CHECKED)
    told = {
        subject.title: [(each.title, each.whose, each.checks) for each in subject.sources]
        for subject in page.subjects
    }
    assert told["Drying and soaking"] == [
        (
            "A paper on drying",
            "",
            "3 figures (2 read in a copy, 1 worked out) check water left in dried food.",
        )
    ]
    assert told["Height and boiling"] == [
        (
            "A table of boiling",
            "A press, 1950",
            "1,200 figures (worked out; source: quoted from memory) check boiling point.",
        ),
        ("A paper on drying", "", "1 figure (read in a copy) checks boiling point."),
    ]
    assert (page.figures, page.publications) == ("1,204", "2")


def test_a_source_is_led_to_where_it_is_named_first() -> None:
    page = sources_page(sample_kit(), CHECKED)
    anchors = [each.anchor for subject in page.subjects for each in subject.sources]
    assert anchors == ["checked-paper", "checked-table", ""]


def test_every_way_of_knowing_has_its_words() -> None:
    assert set(KNOWN) == {*WAYS_OF_KNOWING, "calculated"}


def test_the_page_tells_every_shipped_source(book: Book) -> None:
    page = book.markdown["sources.md"]
    checked = read_checked(TEMPLATES)
    assert len(checked) > 80
    assert set(re.findall(r'<li id="checked-([^"]+)"', page)) == {
        each.source.id for each in checked
    }
    assert f"{sum(sum(n.values()) for each in checked for n in each.figures.values()):,}" in page


def test_what_no_one_read_is_not_told_as_read(book: Book) -> None:
    unread = {each.source.title for each in read_checked(TEMPLATES) if each.source.how == "memory"}
    items = re.findall(
        r"<li[^>]*><strong>(.*)</strong>.*<br>(.*)</li>", book.markdown["sources.md"]
    )
    seen = [checks for title, checks in items if title in unread]
    assert len(seen) > 20
    assert not [checks for checks in seen if re.search(r"\bread\b", checks)]


def test_each_formula_has_words_under_one_subject_only() -> None:
    every = [formula for words in SUBJECTS.values() for formula in words]
    assert len(every) == len(set(every))


def test_addresses_are_of_the_web() -> None:
    for each in read_checked(TEMPLATES):
        assert not each.source.url or re.fullmatch(r"https://[A-Za-z0-9./_-]+", each.source.url)


def test_the_page_is_light(book: Book) -> None:
    assert len(book.markdown["sources.md"].encode()) < MOST_BYTES


@pytest.mark.parametrize(("used", "linked"), [("table", False), ("usda-sr28", True)])
def test_numbers_lead_to_what_a_source_checks(used: str, linked: bool) -> None:
    kit = replace(sample_kit(), sources=(replace(TABLE, id=used),))
    numbers = seen_in(write_book(kit, TEMPLATES).markdown["numbers.md"])
    hrefs = [given.get("href") for name, given in numbers.tags if name == "a"]
    assert "sources.md" in hrefs
    assert (f"sources.md#checked-{used}" in hrefs) is linked
