"""One value read from one node, and what is said where it is wrong."""

from __future__ import annotations

import datetime

import pytest

from builder.reading.declared.values import (
    DEVICES,
    LONGEST_LINE,
    LONGEST_TEXT,
    id_of,
    is_blank,
    items_of,
    line_of,
    number_of,
    text_of,
    time_of,
)
from builder.reading.notes import Amiss
from builder.reading.text.yaml_door import Node, read_yaml


def value_of(text: str) -> Node:
    """Give the node behind `a`."""
    node, problems = read_yaml(text, "f.yaml")
    assert node is not None and problems == []
    return node.entries["a"].node


@pytest.mark.parametrize("blank", ["a:", "a: ~", 'a: ""', "a: '  '", r'a: "\n"'])
def test_a_value_with_nothing_in_it_is_blank(blank: str) -> None:
    assert is_blank(value_of(blank))


@pytest.mark.parametrize("told", ["a: 0", "a: false", "a: []", "a: {}", "a: x"])
def test_a_value_that_says_nothing_much_is_not_blank(told: str) -> None:
    assert not is_blank(value_of(told))


@pytest.mark.parametrize(
    ("written", "text", "line"),
    [
        ("a: Bean pot", "Bean pot", "Bean pot"),
        ("a: 1.50", "1.50", "1.50"),
        ("a: 7", "7", "7"),
        (r'a: "Bean\u202epot"', "Bean\u202epot", "Beanpot"),
        ('a: "  Bean \\n\\n pot "', "Bean \n\n pot", "Bean pot"),
        ("a: |\n  Bean\n  pot\n", "Bean\npot", "Bean pot"),
        ("a: >-\n  Bean\n  pot", "Bean pot", "Bean pot"),
        ('a: "Bean\u2028pot"', "Bean\u2028pot", "Bean pot"),
    ],
)
def test_a_text_keeps_its_lines_and_a_line_does_not(written: str, text: str, line: str) -> None:
    node = value_of(written)
    assert (text_of(node, "a"), line_of(node, "a")) == (text, line)


def test_a_text_and_a_line_may_be_so_long_and_no_longer() -> None:
    for most, read in ((LONGEST_TEXT, text_of), (LONGEST_LINE, line_of)):
        assert len(read(value_of("a: " + "x" * most), "a")) == most
        with pytest.raises(Amiss, match=f"a has {most + 1} characters"):
            read(value_of("a: " + "x" * (most + 1)), "a")


@pytest.mark.parametrize(
    ("written", "value"),
    [("2", 2.0), ("2.5", 2.5), ("0", None), ("-1", None), ("10.1", None), ("'2'", None)],
)
def test_a_number_keeps_its_bounds(written: str, value: float | None) -> None:
    node = value_of(f"a: {written}")
    if value is not None:
        assert number_of(node, "a", more_than=0, at_most=10) == value
        return
    with pytest.raises(Amiss):
        number_of(node, "a", more_than=0, at_most=10)


@pytest.mark.parametrize(
    ("written", "date"),
    [
        ("2031-09-04", datetime.date(2031, 9, 4)),
        ("'2031-09-04'", datetime.date(2031, 9, 4)),
        ("2032-02-29", datetime.date(2032, 2, 29)),
        ("2031-02-29", None),
        ("2031-9-4", None),
        ("20310904", None),
        ("2031-W36-4", None),
        ("２０３１-09-04", None),
        ("1899-12-31", None),
        ("2201-01-01", None),
        ("tomorrow", None),
    ],
)
def test_a_date_is_a_day_of_the_calendar(written: str, date: datetime.date | None) -> None:
    node = value_of(f"a: {written}")
    if date is not None:
        found = time_of(node, "a", "date")
        assert found is not None and found.date() == date
        return
    with pytest.raises(Amiss) as amiss:
        time_of(node, "a", "date")
    assert amiss.value.kind == "date"


def test_a_name_of_a_whole_page_is_refused() -> None:
    node = value_of("a: " + "b " * 101)
    assert text_of(node, "a") == ("b " * 101).strip()
    with pytest.raises(Amiss, match="a has 201 characters — keep it under 200"):
        line_of(node, "a")


@pytest.mark.parametrize(
    ("written", "mend"),
    [
        ("x", "write `a: [x]`"),
        ("1.50", "write `a: [1.50]`"),
        ("true", "write `a: […]`"),
        ("{b: c}", "write `a: […]`"),
        ("x" * 61, "write `a: […]`"),
        (r'"x\u202ey"', "write `a: […]`"),
    ],
)
def test_an_example_repeats_only_what_is_short_and_plain(written: str, mend: str) -> None:
    with pytest.raises(Amiss) as amiss:
        items_of(value_of(f"a: {written}"), "a")
    assert amiss.value.mend == mend


@pytest.mark.parametrize("name", sorted(DEVICES))
def test_no_id_is_a_device_of_windows(name: str) -> None:
    with pytest.raises(Amiss) as amiss:
        id_of(value_of(f"a: {name}"), "a")
    assert str(amiss.value) == (
        f"'{name}' is no id: Windows can have no file of that name "
        f"— write {name}-1, or another word"
    )


@pytest.mark.parametrize("name", ["con-1", "cone", "common", "com", "com10", "lpt", "nulled"])
def test_what_only_begins_like_a_device_is_an_id(name: str) -> None:
    assert id_of(value_of(f"a: {name}"), "a") == name
