"""One of several shapes behind a key, and pairs under free names."""

from __future__ import annotations

import datetime
from typing import Annotated, Any

import pytest
from jsonschema import Draft202012Validator

from builder.reading.declared.declaring import Record, key, keys_of, read_as, stub_of
from builder.reading.declared.measures import Quantity
from builder.reading.declared.shapes import ByShape, Pairs
from builder.reading.declared.vocabulary import Date, Items, Line, Moment, Takes
from builder.reading.notes import Notes
from tests.reading.test_overlays import node_of


class Stay(Record, title="place"):
    """A place in turn."""

    at: Annotated[float, Quantity("kept_c")] = key("How warm.", required=True)
    until: Annotated[datetime.date | None, Date()] = key("Until when.")


WARMTH = Annotated[float, Quantity("kept_c")]
STAYS = Annotated[tuple[Stay, ...], Items()]


class Kept(Record, title="batch"):
    """A batch."""

    kept_at: Annotated[float | tuple[Stay, ...], ByShape(text=WARMTH, items=STAYS)] = key(
        "Where it lies.", required=True
    )
    begun: Annotated[datetime.datetime | None, Moment()] = key("When it began.")
    found: Annotated[dict[str, Stay], Pairs("shelf")] = key("By name.", default={})
    lines: Annotated[dict[str, Annotated[str, Line()]], Pairs("list of lines")] = key(
        "By name.", default={}
    )
    both: Annotated[str | Stay | None, ByShape(text=Annotated[str, Line()], keys=Stay)] = key(
        "Either."
    )


def kept(text: str) -> tuple[Kept | None, list[str]]:
    notes = Notes()
    found = read_as(Kept, node_of(text), notes)
    return found, [str(each).removeprefix("f.yaml:") for each in notes]


def test_what_stands_there_decides_how_it_is_read() -> None:
    one, told = kept("{kept_at: 15 degC, begun: 2031-03-13T18:00, both: x}")
    assert one is not None and told == []
    assert one.kept_at == 15.0 and one.both == "x"
    assert one.begun == datetime.datetime(2031, 3, 13, 18)
    turns, told = kept("{kept_at: [{at: 22 degC, until: 2031-06-01}], both: {at: 1 degC}}")
    assert turns is not None and told == []
    assert isinstance(turns.kept_at, tuple) and isinstance(turns.both, Stay)
    assert (turns.kept_at[0].at, turns.kept_at[0].until) == (22, datetime.date(2031, 6, 1))


def test_free_names_hold_values_and_records() -> None:
    found, told = kept("{kept_at: 1 degC, found: {a: {at: 2 degC}, b: }, lines: {c: x  y}}")
    assert found is not None and told == []
    assert found.found.keys() == {"a"} and found.lines == {"c": "x y"}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("{}", "1:1: error: this batch has no `kept_at` — write `kept_at: 15 degC`"),
        ("kept_at: warm", "1:10: error: kept_at: 'warm' is no storage temperature"),
        ("kept_at: {at: 1 degC}", "1:10: error: kept_at must be a storage temperature, found"),
        ("kept_at: [{until: 2031-06-01}]", "1:11: error: this place has no `at`"),
        ("kept_at: [{at: 3}]", "1:16: error: at: '3' has no unit"),
        ("kept_at: [{at: 1 degC, til: x}]", "1:24: error: a place has no field 'til'"),
        ("{kept_at: 1 degC, both: {at: 3}}", "1:30: error: at: '3' has no unit"),
        ("{kept_at: 1 degC, found: x}", "1:26: error: a shelf is written as"),
        ("{kept_at: 1 degC, found: {a: {}}}", "1:30: error: this place has no `at`"),
        ("{kept_at: 1 degC, found: {a: {x: 1, at: 1 degC}}}", "1:31: error: a place has no field"),
        ("{kept_at: 1 degC, lines: {a: [x]}}", "1:30: error: lines must be a text, found a list"),
        ("{kept_at: 1 degC, begun: 2031-03-13}", "1:26: error: begun: '2031-03-13' is no time"),
    ],
)
def test_each_mistake_is_told_at_its_place(text: str, expected: str) -> None:
    found, told = kept(text)
    assert found is None
    assert [line.startswith(expected) for line in told] == [True], told


@pytest.mark.parametrize(
    ("told", "good"),
    [
        ({"kept_at": "15 degC"}, True),
        ({"kept_at": [{"at": "15 degC", "until": "2031-06-01"}]}, True),
        ({"kept_at": [{"at": 15}]}, False),
        ({"kept_at": {"at": "15 degC"}}, False),
        ({"kept_at": "1 degC", "found": {"a": {"at": "1 degC"}}}, True),
        ({"kept_at": "1 degC", "found": {"a": {"at": 1}}}, False),
        ({"kept_at": "1 degC", "begun": "2031-03-13T18:00"}, True),
        ({"kept_at": "1 degC", "begun": "2031-03-13"}, False),
    ],
)
def test_the_schema_says_the_same(told: Any, good: bool) -> None:
    assert Draft202012Validator(Kept.model_json_schema()).is_valid(told) == good


def test_each_says_in_words_what_it_takes() -> None:
    field = keys_of(Kept)["kept_at"]
    (shapes,) = (each for each in field.metadata if isinstance(each, Takes))
    assert shapes.takes() == "storage temperature in degC, °C, degF, °F, K, or a list of records"
    assert stub_of(field) == "15 degC"
