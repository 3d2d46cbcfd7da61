"""One thing of a file is changed, in whatever layout it is written, and nothing else is."""

from __future__ import annotations

import random
import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.reading.text.layout import (
    dash_of,
    first_key,
    last_offset,
    with_items,
    with_keys,
    with_value,
    without_items,
    without_key,
)
from builder.reading.text.spelling import Edit, edited, plain
from builder.reading.text.yaml_door import Entry, Node, read_yaml


class Writer:
    """Writes values as somebody with a new habit on every line would."""

    def __init__(self, seed: int) -> None:
        """Begin with a seed; comments are numbered so that each can be found again."""
        self.random = random.Random(seed)
        self.comments = 0

    def comment(self, before: str = " ") -> str:
        """Give a comment for the end of a line, or none."""
        if self.random.random() < 0.6:
            return ""
        self.comments += 1
        return f"{before}# c{self.comments}: [x, {{y"

    def key(self, name: str) -> str:
        return self.random.choice([name, name, f'"{name}"', f"'{name}'"])

    def flow(self, value: Any, margin: int) -> str:
        """Give a value in brackets, on one line or on several."""
        if isinstance(value, str):
            return self.random.choice([value, value, f'"{value}"', f"'{value}'"])
        parts = (
            [f"{self.key(name)}: {self.flow(each, margin + 2)}" for name, each in value.items()]
            if isinstance(value, dict)
            else [self.flow(each, margin + 2) for each in value]
        )
        opening, closing = "{}" if isinstance(value, dict) else "[]"
        if not parts:
            return opening + closing
        comma = self.random.choice(["", ","])
        if self.random.random() < 0.6:
            between = self.random.choice([", ", ","])
            return f"{opening}{between.join(parts)}{comma}{closing}"
        lead = "\n" + " " * margin
        said = opening + self.comment()
        for number, part in enumerate(parts):
            is_last = number == len(parts) - 1
            said += f"{lead}  {part}{comma if is_last else ','}{self.comment()}"
        return f"{said}{lead}{closing}"

    def block(self, value: Any, margin: int) -> str:
        """Give a list or mapping on lines of its own, from the margin on."""
        lead, said = " " * margin, ""
        pairs = value.items() if isinstance(value, dict) else enumerate(value)
        for name, each in pairs:
            if said and self.random.random() < 0.3:
                said += f"{lead}{self.comment('')}\n"
            head = f"{lead}{self.key(str(name))}:" if isinstance(value, dict) else f"{lead}-"
            if isinstance(each, str) or not each or self.random.random() < 0.4:
                said += f"{head} {self.flow(each, margin + 2)}{self.comment()}\n"
            elif isinstance(value, list) and self.random.random() < 0.7:
                inner = self.block(each, margin + 2)
                said += f"{head} {inner[margin + 2 :]}"
            else:
                said += f"{head}{self.comment()}\n{self.block(each, margin + 2)}"
        return said


WORDS = st.sampled_from(["a", "ash", "1,5 kg", "x y", "9 g"]).filter(lambda word: "," not in word)
KEYS = st.sampled_from(["a", "b", "c", "from", "x-y"])
VALUES = st.recursive(
    WORDS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=3),
    max_leaves=8,
)


def node_of(text: str) -> Node:
    node, problems = read_yaml(text, "")
    assert node is not None and not problems, (text, problems)
    return node


def checked(
    text: str, edits: list[Edit], expected: Any, gone: tuple[int, int] | None = None
) -> None:
    """Check what the changed text says, and that comments of all else are still there."""
    found = edited(text, edits)
    again = node_of(found)
    assert plain(again) == expected, found
    lost = set(re.findall(r"# c\d+:", text)) - set(re.findall(r"# c\d+:", found))
    if gone is None:
        assert not lost, found
        return
    # Its own, those of its lines, and those right above it that belong to it.
    start = text.rfind("\n", 0, gone[0]) + 1
    while start and text[text.rfind("\n", 0, start - 1) + 1 : start].lstrip().startswith("#"):
        start = text.rfind("\n", 0, start - 1) + 1
    end = text.find("\n", gone[1])
    around = text[start : end if end >= 0 else None]
    assert all(each in around for each in lost), (lost, text, found)


def span(entry: Entry) -> tuple[int, int]:
    """Give where a key and its value stand."""
    return entry.start, last_offset(entry.node)


def documents(value: Any, seed: int) -> tuple[str, Node]:
    """Write a value below the key `top`, another key behind it."""
    text = Writer(seed).block({"top": value, "end": "x"}, 0)
    node = node_of(text)
    assert plain(node) == {"top": value, "end": "x"}, text
    return text, node.entries["top"].node


MAPS = st.dictionaries(KEYS, VALUES, min_size=1, max_size=4)
LISTS = st.lists(VALUES, min_size=1, max_size=4)
SEEDS = st.integers(0, 10_000)


@given(MAPS, SEEDS)
def test_a_key_is_taken_out(value: dict[str, Any], seed: int) -> None:
    text, node = documents(value, seed)
    for key in value if len(value) > 1 or node.flow else ():
        left = {name: each for name, each in value.items() if name != key}
        edit = without_key(text, node, key)
        checked(text, [edit], {"top": left, "end": "x"}, span(node.entries[key]))


@given(MAPS, SEEDS, KEYS)
def test_keys_are_put_in(value: dict[str, Any], seed: int, behind: str) -> None:
    text, node = documents(value, seed)
    new = {"n1": "y", "n2": "z"}
    checked(text, [with_keys(text, node, new, behind)], {"top": {**value, **new}, "end": "x"})
    checked(text, [first_key(text, node, "n1", "y")], {"top": {"n1": "y", **value}, "end": "x"})


@given(MAPS, SEEDS)
def test_a_value_is_put_in_the_place_of_another(value: dict[str, Any], seed: int) -> None:
    text, node = documents(value, seed)
    for key, entry in node.entries.items():
        expected = {"top": {**value, key: "new"}, "end": "x"}
        checked(text, [with_value(text, entry, "new")], expected, span(entry))


@given(LISTS, SEEDS, st.sets(st.integers(0, 3)), st.sampled_from([[], ["y"], ["y", "z"]]))
def test_items_are_taken_out_and_put_in(
    value: list[Any], seed: int, out: set[int], new: list[str]
) -> None:
    text, node = documents(value, seed)
    gone = {number for number in out if number < len(value)}
    left = [each for number, each in enumerate(value) if number not in gone]
    if not left:
        return
    edits = [*without_items(text, node, gone), *with_items(text, node, new)]
    found = edited(text, edits)
    assert plain(node_of(found)) == {"top": [*left, *new], "end": "x"}, found
    for number in sorted(gone):
        (edit,) = without_items(text, node, {number}) if len(value) > 1 else [None]
        if edit is not None:
            rest = [each for at, each in enumerate(value) if at != number]
            lines = (dash_of(text, node, number), last_offset(node.items[number]))
            item = node.items[number]
            where = (item.start, item.end) if node.flow else lines
            checked(text, [edit], {"top": rest, "end": "x"}, where)


@given(LISTS, SEEDS)
def test_items_are_put_in_and_every_comment_stays(value: list[Any], seed: int) -> None:
    text, node = documents(value, seed)
    expected = {"top": [*value, "y", "z"], "end": "x"}
    checked(text, list(with_items(text, node, ["y", "z"])), expected)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a: &n 1\nb: *n", "a: &n 2\nb: *n"),
        ("a:\n  - x", "a: 2"),
        ("a: # why: b\n  c: d # e\nf: g\n", "a: 2 # e\nf: g\n"),
        ('"a b": {c: d} # e', '"a b": 2 # e'),
        ("a:", "a: 2"),
        ("a:   # e\n", "a: 2   # e\n"),
        ("{a: }", "{a: 2}"),
        ("a: |\n  x\n\nb: c\n", "a: 2\nb: c\n"),
    ],
)
def test_a_value_goes_where_the_old_one_stood(text: str, expected: str) -> None:
    entry = next(iter(node_of(text).entries.values()))
    assert edited(text, [with_value(text, entry, "2")]) == expected
