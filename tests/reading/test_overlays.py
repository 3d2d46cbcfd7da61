"""One mapping laid over another."""

from __future__ import annotations

import pytest

from builder.reading.text.yaml_door import Node, as_json, read_yaml
from builder.reading.way.overlays import overlaid


def node_of(text: str) -> Node:
    node, problems = read_yaml(text, "f.yaml")
    assert node is not None and problems == []
    return node


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
    assert merged is not None and as_json(merged) == together


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
