"""One mapping read field by field."""

from __future__ import annotations

import datetime

import pytest

from builder.model.place import Place
from builder.problems import Problem
from builder.reading.fields import DEVICES, Fields, overlaid
from builder.reading.yaml_door import Node, read_yaml
from tests.reading.test_yaml_door import plain


def node_of(text: str) -> Node:
    node, problems = read_yaml(text, "f.yaml")
    assert node is not None and problems == []
    return node


def fields_of(text: str, what: str = "thing") -> tuple[Fields, list[Problem]]:
    problems: list[Problem] = []
    return Fields(node_of(text), problems, what), problems


@pytest.mark.parametrize("blank", ["a:", "a: ~", 'a: ""', "a: '  '", r'a: "\n"', "b: 1"])
def test_a_field_with_nothing_in_it_is_not_there(blank: str) -> None:
    fields, problems = fields_of(blank)
    assert not fields.has("a")
    assert (fields.text("a", default="x"), fields.id("a", required=False)) == ("x", "")
    assert (fields.number("a", default=3), fields.quantity("a", "mass_g", default=4)) == (3, 4)
    assert fields.maybe_quantity("a", "mass_g") is None
    assert (fields.flag("a", default=True), fields.date("a"), fields.list("a")) == (True, None, ())
    assert (fields.words("a"), fields.record("a", "part")) == ((), None)
    assert problems == []
    fields.text("a", required=True)
    assert [str(problem) for problem in problems] == [
        "f.yaml:1:1: error: this thing has no `a` — write `a: …` [missing]"
    ]


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
    fields, problems = fields_of(written)
    assert (fields.text("a"), fields.line("a")) == (text, line)
    assert problems == []


def test_words_come_once_each_and_one_needs_no_list() -> None:
    fields, problems = fields_of("{a: [x, y, x, '', 2.50], b: x, c: [x, z]}")
    assert fields.words("a") == ("x", "y", "2.50")
    assert fields.words("b") == ("x",)
    assert problems == []
    assert fields.words("c", ("x", "y")) == ("x",)
    assert [problem.kind for problem in problems] == ["word-unknown"]
    assert fields.places_of_words("c", "d") == {
        "d/x": Place("f.yaml", 1, 36),
        "d/z": Place("f.yaml", 1, 39),
    }


@pytest.mark.parametrize(
    ("written", "value"),
    [("2", 2.0), ("2.5", 2.5), ("0", None), ("-1", None), ("10.1", None), ("'2'", None)],
)
def test_a_number_keeps_its_bounds(written: str, value: float | None) -> None:
    fields, problems = fields_of(f"a: {written}")
    assert fields.number("a", default=9.0, more_than=0, at_most=10) == (value or 9.0)
    assert len(problems) == (value is None)


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
    fields, problems = fields_of(f"a: {written}")
    assert fields.date("a") == date
    assert [problem.kind for problem in problems] == ([] if date else ["date"])


def test_a_record_is_free_of_errors_only_when_its_own_and_inner_fields_are() -> None:
    fields, problems = fields_of("{a: 1, b: {c: 2}}")
    fields.number("a")
    inner = fields.record("b", "part")
    assert inner is not None
    assert not inner.done(), "nobody asked for c"
    assert not fields.done(), "what is wrong inside is wrong outside"
    assert [problem.kind for problem in problems] == ["key-unknown"]


def test_a_warning_does_not_spoil_a_record() -> None:
    fields, problems = fields_of("a: 1")
    fields.number("a")
    fields.warn(fields.place("a"), "odd", "this is odd", "look again")
    assert fields.done()
    assert str(problems[0]) == "f.yaml:1:4: warning: this is odd — look again [odd]"


def test_the_place_of_a_missing_field_is_that_of_its_record() -> None:
    fields, _ = fields_of("- {a: 1}")
    item = Fields(fields.node.items[0], [], "thing")
    assert (item.place("a"), item.place("b")) == (Place("f.yaml", 1, 7), Place("f.yaml", 1, 3))
    assert item.places({"a/x": Place("f.yaml", 9, 9)}).of("a/x") == Place("f.yaml", 9, 9)


@pytest.mark.parametrize(
    ("under", "over", "together"),
    [
        ("{a: 1, b: 2}", "{b: 3, c: 4}", {"a": 1, "b": 3, "c": 4}),
        ("{a: {x: 1, y: 2}}", "{a: {y: 3}}", {"a": {"x": 1, "y": 3}}),
        ("{a: {x: 1}}", "{a: text}", {"a": "text"}),
        ("{a: text}", "{a: {x: 1}}", {"a": {"x": 1}}),
        ("{a: {x: 1}}", "{a: }", {"a": None}),
        ("{a: [1, 2]}", "{a: [3]}", {"a": [3]}),
        ("{a: {x: {p: 1, q: 2}}}", "{a: {x: {q: 3}}}", {"a": {"x": {"p": 1, "q": 3}}}),
        ("{a: 1}", "[1]", [1]),
        ("[1]", "{a: 1}", {"a": 1}),
    ],
)
def test_one_mapping_lies_over_another_field_by_field(
    under: str, over: str, together: object
) -> None:
    merged = overlaid(node_of(under), node_of(over))
    assert merged is not None and plain(merged) == together


def test_laying_over_nothing_changes_nothing() -> None:
    node = node_of("a: 1")
    assert overlaid(None, None) is None
    assert overlaid(node, None) is node
    assert overlaid(None, node) is node


def test_an_overlaid_field_keeps_the_place_where_it_was_written() -> None:
    merged = overlaid(node_of("{a: 1, b: 2}"), node_of("\n\n{b: 3}"))
    assert merged is not None
    assert merged.entries["a"].node.place.line == 1
    assert merged.entries["b"].node.place.line == 3


def test_a_name_of_a_whole_page_is_refused() -> None:
    fields, problems = fields_of("a: " + "b " * 101)
    assert fields.text("a") == ("b " * 101).strip()
    assert fields.line("a") == ""
    assert [str(problem) for problem in problems] == [
        "f.yaml:1:4: error: a has 201 characters — keep it under 200 [text-too-long]"
    ]


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
    fields, problems = fields_of(f"a: {written}")
    assert fields.list("a") == ()
    assert [problem.mend for problem in problems] == [mend]


@pytest.mark.parametrize("name", sorted(DEVICES))
def test_no_id_is_a_device_of_windows(name: str) -> None:
    fields, problems = fields_of(f"id: {name}")
    assert fields.id() == ""
    assert [str(problem) for problem in problems] == [
        f"f.yaml:1:5: error: '{name}' is no id: Windows can have no file of that name "
        f"— write {name}-1, or another word [id]"
    ]


@pytest.mark.parametrize("name", ["con-1", "cone", "common", "com", "com10", "lpt", "nulled"])
def test_what_only_begins_like_a_device_is_an_id(name: str) -> None:
    fields, problems = fields_of(f"id: {name}")
    assert (fields.id(), problems) == (name, [])
