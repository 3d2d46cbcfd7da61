"""What stands elsewhere in a file survives as a value when a record is cut out or rewritten."""

from __future__ import annotations

import datetime
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from builder.reading.anew.cuttings import cut, cut_files
from builder.reading.anew.rewriting import Changes, rewritten
from builder.reading.record_text import RecordText
from builder.reading.text.spelling import as_yaml, plain, spelt_out, written_anew
from builder.reading.text.yaml_door import Node, read_yaml

TRIP = """\
title: &t Old
mugs: *t
start: 2031-09-04
usual: &usual
  air: {low: 4 degC, high: 16 degC}
  wind: windy      # from the west
party:
  - &ash {name: Ash, avoids: [nuts]}
  - {<<: *ash, name: Rowan}
days:
  - <<: *usual
    title: Up      # steep
    wind: breezy
    meals:
      dinner: &stew
        - {cook: stew, for: [Ash, Rowan]}
  - {<<: *usual, meals: {dinner: *stew}}
"""


def node_of(text: str) -> Node:
    node, problems = read_yaml(text, "f.yaml")
    assert node is not None and not problems, problems
    return node


def test_a_rewritten_trip_keeps_what_stood_elsewhere() -> None:
    node = node_of(TRIP)
    text = rewritten(
        RecordText("trips/f.yaml", TRIP, node, whole_file=True),
        Changes("New", datetime.date(2032, 1, 2), ("Rowan",), {}),
    ).text
    found = yaml.safe_load(text)
    # The old title was named elsewhere too; the new one is the title alone.
    assert (found["title"], found["mugs"]) == ("New", "Old")
    assert found["party"] == [{"name": "Rowan", "avoids": ["nuts"]}]
    assert [day["wind"] for day in found["days"]] == ["breezy", "windy"]
    assert [day["air"]["low"] for day in found["days"]] == ["4 degC", "4 degC"]
    # Who stays at home is taken out of both days, though the second names the first's dinner.
    assert [day["meals"]["dinner"][0]["for"] for day in found["days"]] == [["Rowan"], ["Rowan"]]
    assert "# from the west" in text and "# steep" in text


def test_a_record_cut_out_of_a_list_takes_along_what_it_names() -> None:
    text = """\
- &a
  id: a
  packs: &packs {count: 2}   # two
- <<: *a
  # its own
  id: b                      # not a
- {id: c, packs: *packs}
"""
    node = node_of(text)
    cuts = [cut(RecordText("f.yaml", text, item)) for item in node.items]
    assert cuts[0].startswith("- &a\n  id: a\n")
    assert cuts[1] == "- packs: {count: 2}\n  # its own\n  id: b                      # not a\n"
    assert cuts[2] == "- {id: c, packs: {count: 2}}\n"
    keys = [("batch", "b"), ("batch", "c")]
    texts = {
        key: RecordText("f.yaml", text, item)
        for key, item in zip(keys, node.items[1:], strict=True)
    }
    assert yaml.safe_load(cut_files(keys, texts)["f.yaml"]) == [
        {"id": "b", "packs": {"count": 2}},
        {"id": "c", "packs": {"count": 2}},
    ]


def test_a_file_without_aliases_is_given_back_as_it_is() -> None:
    node = node_of("a: 1  # as it was\n")
    assert spelt_out("a: 1  # as it was\n", node) == ("a: 1  # as it was\n", node)


texts = st.text(
    st.characters(
        codec="utf-8", exclude_categories=["Cc", "Cs"], exclude_characters="\ufffe\uffff"
    ),
    max_size=8,
) | st.sampled_from(["no", "1.50", "~", "- a", "a: b", "# x", "'", '"', "<<", "*a", "16:30", "\n"])
values: st.SearchStrategy[Any] = st.recursive(
    texts | st.integers(-99, 99) | st.none() | st.booleans(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(texts, inner, max_size=3),
    max_leaves=12,
)


def _written(value: Any) -> str:
    text = yaml.safe_dump(value, default_flow_style=True, allow_unicode=False, width=9999)
    return text.rstrip("\n").removesuffix("\n...")


@given(st.lists(values, min_size=1, max_size=4), st.integers(0, 2**16))
def test_whatever_is_shared_is_written_out_the_same(shared: list[Any], pick: int) -> None:
    text = "".join(f"k{n}: &n{n} {_written(each)}\n" for n, each in enumerate(shared))
    maps = [n for n, each in enumerate(shared) if isinstance(each, dict)]
    text += f"last: [*n{pick % len(shared)}, {{a: *n0}}]\n"
    text += "".join(f"m{n}: {{<<: *n{n}, own: 1}}\nb{n}:\n  <<: *n{n}\n  own: 1\n" for n in maps)
    node, problems = read_yaml(text, "f.yaml")
    if node is None or problems:
        return
    found, again = spelt_out(text, node)
    assert plain(again) == plain(node)
    assert "<<:" not in found and plain(node_of(written_anew(node))) == plain(node)


@pytest.mark.parametrize(
    "text", ["a", "a b", "no way", "#a", "a #b", "a: b", "\u2028", "é", "", " "]
)
def test_a_quoted_text_reads_as_itself(text: str) -> None:
    assert node_of(f"[{as_yaml(text)}]").items[0].value == text
    assert node_of(f"k: {as_yaml(text)}").entries["k"].node.value == text


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("[1.50, no, true, ~]", [(1.5, "1.50"), "no", True, None]),
        ("a: 7\nb: {c: [x], d: 2031-05-04}", {"a": (7, "7"), "b": {"c": ["x"], "d": "2031-05-04"}}),
        ("[]", []),
        ("a: {}", {"a": {}}),
    ],
)
def test_two_records_are_the_same_where_their_values_are(text: str, value: Any) -> None:
    """A number is told apart by how it was written, for that is what a kit hands on."""
    assert plain(node_of(text)) == value


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "a: 1.50   # gone\nb:\n  c:\n    - x\n    - {y: 1}\n  d: []\n",
            "- a: 1.50\n  b:\n    c:\n      - x\n      - {y: 1}\n    d: []\n",
        ),
        ("a: {b: {c: {d: 1}}}\n", "- a:\n    b:\n      c: {d: 1}\n"),
        ("- a\n- - b\n  - c: [1]\n", "- - a\n  - - b\n    - c: [1]\n"),
        ("a: {}\nb: [1, 2]\n", "- a: {}\n  b: [1, 2]\n"),
        ("a: {}\n", "- a: {}\n"),
        ("[]\n", "- []\n"),
    ],
)
def test_a_record_is_written_anew_on_few_lines(text: str, expected: str) -> None:
    assert written_anew(node_of(text), "- ") == expected
    assert written_anew(node_of(text)) == "".join(
        line[2:] for line in expected.splitlines(keepends=True)
    )


def test_what_is_merged_takes_the_margin_of_where_it_stood() -> None:
    text = """\
x: &x {a: 1, b: 2}   # shared
y:
    <<: *x
    c: 3
z: {<<: *x, b: 4}
w: *x
v:
  <<: *x
"""
    found, again = spelt_out(text, node_of(text))
    # What is its own stands above what it shares, and is not said twice.
    assert found == (
        "x: &x {a: 1, b: 2}   # shared\ny:\n    a: 1\n    b: 2\n    c: 3\nz: {a: 1, b: 4}\n"
        "w: {a: 1, b: 2}\nv:\n  a: 1\n  b: 2\n"
    )
    assert plain(again) == plain(node_of(text))


def test_a_file_without_aliases_keeps_its_tree() -> None:
    node = node_of("a: 1\n")
    assert spelt_out("a: 1\n", node)[1] is node


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("a", "a"),
        ("a b", "a b"),
        ("no", "no"),
        ("1.50", '"1.50"'),
        ("a, b", '"a, b"'),
        ("a: b", '"a: b"'),
        ("a]", '"a]"'),
        ("a #b", '"a #b"'),
        ("<<", '"<<"'),
        ("~", '"~"'),
        ("", '""'),
        ("\u2028", '"\\u2028"'),
        ("blåbær", "blåbær"),
    ],
)
def test_a_text_is_quoted_only_where_it_must_be(text: str, written: str) -> None:
    assert as_yaml(text) == written
