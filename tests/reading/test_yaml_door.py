"""The one door for YAML: plain values, places, bounds, and each way a file can be no YAML."""

from __future__ import annotations

import json
import time
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from builder.model.place import Place
from builder.reading.files import LARGEST_BYTES
from builder.reading.text import yaml_door
from builder.reading.text.yaml_door import (
    DEEPEST,
    LONGEST_KEY,
    MOST_NODES,
    Node,
    as_json,
    decode,
    quoted,
    read_yaml,
    remembering,
)


@pytest.fixture(autouse=True)
def _nothing_remembered(monkeypatch: pytest.MonkeyPatch) -> None:
    """Read each text anew: here it is the reading that is looked at."""
    monkeypatch.setattr(yaml_door, "_MEMORY", None)


LOADERS = sorted({yaml_door._LOADER, yaml.SafeLoader}, key=lambda loader: loader.__name__)


@pytest.fixture(params=LOADERS, ids=lambda loader: loader.__name__)
def either_loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Read with libyaml and with the parser in Python: both must say the same."""
    monkeypatch.setattr(yaml_door, "_LOADER", request.param)


def value_of(text: str) -> Any:
    node, problems = read_yaml(text, "f.yaml")
    assert problems == []
    assert node is not None
    return as_json(node)


def said(text: str) -> list[str]:
    _, problems = read_yaml(text, "f.yaml")
    return [str(problem) for problem in problems]


# -- values -----------------------------------------------------------------------------------


@pytest.mark.usefixtures("either_loader")
@pytest.mark.parametrize(
    ("written", "value"),
    [
        ("16:30", "16:30"),
        ("no", "no"),
        ("yes", "yes"),
        ("on", "on"),
        ("Off", "Off"),
        ("012", "012"),
        ("0o17", "0o17"),
        ("0x1f", "0x1f"),
        ("1_000", "1_000"),
        ("1,000", "1,000"),
        ("1e3", "1e3"),
        ("1.5e3", "1.5e3"),
        (".5", ".5"),
        ("5.", "5."),
        ("+5", "+5"),
        (".inf", ".inf"),
        ("-.inf", "-.inf"),
        (".nan", ".nan"),
        ("2031-09-04", "2031-09-04"),
        ("=", "="),
        ("<<", "<<"),
        ("1234567890123456", "1234567890123456"),
        ("0", 0),
        ("-7", -7),
        ("123456789012345", 123456789012345),
        ("1.50", 1.5),
        ("-0.25", -0.25),
        ("true", True),
        ("True", True),
        ("FALSE", False),
        ("null", None),
        ("~", None),
        ("", None),
        ('"true"', "true"),
        ("'5'", "5"),
        ('"5 g"', "5 g"),
        ("!!str 5", "5"),
        ("|\n  5", "5"),
        (">-\n  two\n  lines", "two lines"),
        ("½ cup", "½ cup"),
        ("250 g # as carried", "250 g"),
    ],
)
def test_only_plain_numbers_and_three_names_are_more_than_text(written: str, value: object) -> None:
    found = value_of(f"a: {written}")["a"]
    assert found == value
    assert type(found) is type(value)


def test_a_number_keeps_how_it_was_written() -> None:
    node, _ = read_yaml("[1.50, 7, 'x', true, '2.0']", "f.yaml")
    assert node is not None
    assert [item.text for item in node.items] == ["1.50", "7", "x", "True", "2.0"]
    assert value_of("{1.50: a, True: b, no: c}") == {"1.50": "a", "true": "b", "no": "c"}


@pytest.mark.usefixtures("either_loader")
def test_each_value_knows_its_place_and_where_to_cut_it_out() -> None:
    text = "# ½ of it\na: {b: 'é', c: [x, yy]}\nd:\n  - e: 1\n"
    node, problems = read_yaml(text, "f.yaml")
    assert node is not None and problems == []
    assert node.place == Place("f.yaml", 2, 1)
    inner = node.entries["a"].node
    assert inner.flow and not node.flow
    assert text[inner.start : inner.end] == "{b: 'é', c: [x, yy]}"
    c = inner.entries["c"]
    assert (c.place, c.node.place) == (Place("f.yaml", 2, 13), Place("f.yaml", 2, 16))
    assert text[c.node.items[1].start : c.node.items[1].end] == "yy"
    assert node.entries["d"].node.items[0].entries["e"].node.place == Place("f.yaml", 4, 8)


@pytest.mark.usefixtures("either_loader")
def test_aliases_are_written_out() -> None:
    assert value_of("a: &x {b: [1]}\nc: *x\nd: [*x, *x]") == {
        "a": {"b": [1]},
        "c": {"b": [1]},
        "d": [{"b": [1]}, {"b": [1]}],
    }


@pytest.mark.usefixtures("either_loader")
@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("a: &x {b: 1}\nc: {<<: *x, d: 2}", {"a": {"b": 1}, "c": {"b": 1, "d": 2}}),
        ("a: &x {b: 1}\nc: {d: 2, b: 3, <<: *x}", {"a": {"b": 1}, "c": {"d": 2, "b": 3}}),
        ("a: &x {b: 1}\nc: {<<: *x, b: 3}", {"a": {"b": 1}, "c": {"b": 3}}),
        (
            "a: [&x {b: 1, e: 4}, &y {b: 2, f: 5}]\nc: {<<: [*y, *x]}",
            {"a": [{"b": 1, "e": 4}, {"b": 2, "f": 5}], "c": {"b": 2, "f": 5, "e": 4}},
        ),
        ("c:\n  <<: {b: 1}\n  d: 2", {"c": {"d": 2, "b": 1}}),
        (
            "a: &x {b: 1}\nc: &y {<<: *x, d: 2}\ne: {<<: *y}",
            {"a": {"b": 1}, "c": {"b": 1, "d": 2}, "e": {"b": 1, "d": 2}},
        ),
        ('a: {"<<": 1}', {"a": {"<<": 1}}),
        ("c: {<<: [], d: 2}", {"c": {"d": 2}}),
    ],
)
def test_a_merge_puts_in_the_keys_that_a_record_lacks(text: str, value: object) -> None:
    assert value_of(text) == value


def test_what_cannot_be_merged_is_told() -> None:
    assert said("a: {<<: 5}") == [
        "f.yaml:1:5: error: behind `<<` stand `key: value` lines or a list of them, not '5' — "
        "write `<<: *name`, and &name above [merge]"
    ]
    assert said("a: &x {b: 1}\nc: {<<: *x, <<: *x}") == [
        "f.yaml:2:13: error: `<<` stands twice in one record — write `<<: [*one, *other]` "
        "[key-twice]"
    ]


def test_many_merges_of_a_large_record_are_not_written_out() -> None:
    keys = ", ".join(f"k{n}: 1" for n in range(5_000))
    text = f"a: &a {{{keys}}}\nb:\n" + "  - <<: *a\n" * 20_000
    began = time.process_time()
    assert said(text)[-1].endswith("with its aliases written out — split the file [too-large]")
    assert time.process_time() - began < 2.0


@pytest.mark.usefixtures("either_loader")
@pytest.mark.parametrize("text", ["", "\n\n", "# only a comment\n", "---\n", "~", "null\n"])
def test_an_empty_document_is_no_problem_here(text: str) -> None:
    node, problems = read_yaml(text, "f.yaml")
    assert problems == []
    assert node is None or node.value is None


# -- what is no YAML of ours --------------------------------------------------------------------

FIT = (
    "this line does not fit those above it — look for wrong indentation, a missing quote, "
    "bracket or colon here or just above [yaml]"
)
COMMA = (
    "a comma or a closing bracket is missing before this — put a comma between two things, "
    "close each bracket, and quote a text that holds either [yaml]"
)
COLON = (
    "a colon does not belong here — put quotes round a text that holds a colon, or mend the "
    "indentation [yaml]"
)


@pytest.mark.usefixtures("either_loader")
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a: b: c", f"1:5: error: {COLON}"),
        ("title: x\n  start: y", f"2:8: error: {COLON}"),
        ("a:\n\tb: c", "2:1: error: a tab stands here — indent with spaces, not with a tab [yaml]"),
        (
            'a: "never\nb: c\n',
            "1:4: error: a quote is opened here and never closed — close it [yaml]",
        ),
        (
            "a: 'never",
            "1:4: error: a quote is opened here and never closed — close it [yaml]",
        ),
        ("a: {b: c\nd: e", f"2:2: error: {COMMA}"),
        ("- [a, b\n- c: d", f"2:4: error: {COMMA}"),
        (
            "a: @home",
            "1:4: error: a text cannot start with this character — put the text in quotes [yaml]",
        ),
        (
            "a: `b`",
            "1:4: error: a text cannot start with this character — put the text in quotes [yaml]",
        ),
        ("a: 'b' c", f"1:8: error: {FIT}"),
        ("a:\n  - b\n c: d", f"3:2: error: {FIT}"),
        ("- a\nb: c", f"2:1: error: {FIT}"),
        (
            "a: b\n---\nc: d",
            "2:1: error: a second document starts — keep one document in a file, or write a list "
            "[second-document]",
        ),
        (
            "a: 1\n# b\nb:Up here # c: d\nc: 2",
            "3:2: error: no space stands behind this colon — write `key: value`, with a space "
            "[yaml]",
        ),
        (
            "a: Up: here",
            "1:6: error: a colon does not belong here — put quotes round a text that holds a "
            "colon, or mend the indentation [yaml]",
        ),
        (
            "a: {b: 'Oma's pot'}",
            '1:13: error: the text in quotes ends before this — put a text with \' in it in "…" '
            "[yaml]",
        ),
        (
            "- b: 1\n  c: 2\n  b: 3",
            "3:3: error: 'b' stands twice in one record (first on line 1) — keep one of them, or "
            "put `- ` before this one if it begins the next of a list [key-twice]",
        ),
        (
            "a: 1\nb:\n  c: 2\n\u00a0 d: 3\n  e: 4",
            "4:1: error: a no-break space stands in front — indent with plain spaces [yaml]",
        ),
        (
            "a: *b",
            "1:4: error: *b names nothing that stands complete above it — write &b above, "
            "or put a text that begins with * in quotes [alias]",
        ),
        (
            "a: &b [*b]",
            "1:8: error: *b names nothing that stands complete above it — write &b above, "
            "or put a text that begins with * in quotes [alias]",
        ),
        (
            "a: !!python/object/apply:os.system [ls]",
            "1:4: error: the tag 'tag:yaml.org,2002:python/object/apply:os.system' is not read — "
            "delete it; write plain text, numbers and lists [tag]",
        ),
        (
            "a: !!float 5",
            "1:4: error: the tag 'tag:yaml.org,2002:float' is not read — "
            "delete it; write plain text, numbers and lists [tag]",
        ),
        (
            "a: 1\nb: 2\na: 3",
            "3:1: error: 'a' stands twice in one record (first on line 1) — keep one of them "
            "[key-twice]",
        ),
        (
            "{true: 1, 'true': 2}",
            "1:11: error: 'true' stands twice in one record (first on line 1) — keep one of them "
            "[key-twice]",
        ),
        ("~: b", "1:1: error: a key must be a word, not nothing — write `key: value` [key]"),
        ("[a]: b", "1:3: error: a key must be a word, not a list — write `key: value` [key]"),
        (
            "{a: b}: c",
            "1:6: error: a key must be a word, not `key: value` lines — write `key: value` [key]",
        ),
        (
            "? " + "k" * 201 + "\n: b",
            "1:3: error: a key has 201 characters — write `key: value` [key]",
        ),
        (
            r'a: "x\0y"',
            "1:4: error: this text holds a control character (U+0000) — take its \\ escape out "
            "[control-character]",
        ),
        (
            r'"\e[31m": b',
            "1:1: error: this text holds a control character (U+001B) — take its \\ escape out "
            "[control-character]",
        ),
        (
            "- " * 41 + "x",
            "1:81: error: this is nested more than 40 deep — write it flatter [too-deep]",
        ),
    ],
)
def test_each_way_to_be_no_yaml_is_told_in_plain_words(text: str, expected: str) -> None:
    assert said(text) == [f"f.yaml:{expected}"]


@pytest.mark.parametrize("text", ["[" * 100_000, "a: " + "{b: " * 5000, "- " * 100_000])
def test_no_nesting_exhausts_the_stack(text: str) -> None:
    assert [line.split(": error: ")[1] for line in said(text)] == [
        "this is nested more than 40 deep — write it flatter [too-deep]"
    ]


@pytest.mark.usefixtures("either_loader")
@pytest.mark.parametrize("text", [r'a: "\ud800"', r'a: "\U00110000"', r'a: "\xzz"', r'a: "\q"'])
def test_an_escape_that_stands_for_no_character_is_told(text: str) -> None:
    node, problems = read_yaml(text, "f.yaml")
    assert [problem.severity for problem in problems] == ["error"]
    assert node is None or "\ud800" not in str(as_json(node))


def test_as_deep_as_allowed_is_read() -> None:
    text = "[" * DEEPEST + "]" * DEEPEST
    node, problems = read_yaml(text, "f.yaml")
    assert problems == []
    assert node is not None and node.depth == DEEPEST


def test_aliases_count_for_depth() -> None:
    """Each line is flat; written out, each holds the one above."""
    text = "a0: &a0 [x]\n" + "".join(f"a{n}: &a{n} [*a{n - 1}]\n" for n in range(1, 60))
    lines = said(text)
    assert lines == [
        "f.yaml:40:12: error: this is nested more than 40 deep — write it flatter [too-deep]"
    ]
    dropped = "k: &a0 [x]\n" + "".join(f"k: &a{n} [*a{n - 1}]\n" for n in range(1, 60))
    assert said(dropped)[-1].endswith(
        "this is nested more than 40 deep — write it flatter [too-deep]"
    )


def test_an_alias_bomb_is_not_written_out() -> None:
    text = "a: &a [x, x, x, x, x, x, x, x, x, x]\n" + "".join(
        f"{here}: &{here} [{', '.join([f'*{above}'] * 10)}]\n"
        for above, here in zip("abcdefgh", "bcdefghi", strict=True)
    )
    began = time.process_time()
    assert said(text) == [
        "f.yaml:6:4: error: this holds more than 200000 values, with its aliases written out — "
        "split the file [too-large]"
    ]
    assert time.process_time() - began < 2.0


def test_too_many_values_are_not_kept() -> None:
    lines = said("[" + "1," * (MOST_NODES + 10) + "]")
    assert lines == [
        "f.yaml:1:1: error: this holds more than 200000 values, with its aliases written out — "
        "split the file [too-large]"
    ]


@pytest.mark.parametrize(
    ("text", "most"),
    [
        ("[a, b, c]", 4),  # each value and the list
        ("a: b\nc: d", 5),  # keys count while they are read
        ("[[], {}, []]", 4),
        ("a: &a [x, y]\nb: *a", 7),  # seven with the two keys, and the list twice
        ("- &a [x, y]\n- *a\n- *a", 10),
        ("- &a {k: 1}\n- {<<: *a}", 6),
    ],
)
def test_as_many_values_as_allowed_are_read(
    text: str, most: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(yaml_door, "MOST_NODES", most)
    node, problems = read_yaml(text, "f.yaml")
    assert problems == [] and node is not None
    monkeypatch.setattr(yaml_door, "MOST_NODES", most - 1)
    assert [problem.kind for problem in read_yaml(text, "f.yaml")[1]] == ["too-large"]


def test_a_key_is_as_long_as_allowed() -> None:
    assert said(f"{'k' * LONGEST_KEY}: 1") == []
    (line,) = said(f"{'k' * (LONGEST_KEY + 1)}: 1")
    assert "a key has 201 characters" in line


def test_a_key_twice_keeps_the_first_and_the_rest_of_the_file() -> None:
    node, problems = read_yaml("a: 1\na: {b: 2}\nc: 3", "f.yaml")
    assert node is not None and as_json(node) == {"a": 1, "c": 3}
    assert [problem.kind for problem in problems] == ["key-twice"]


def test_control_characters_never_get_in() -> None:
    node, _ = read_yaml(r'a: "x\0\e\x07\x9by\tz"', "f.yaml")
    assert node is not None and as_json(node) == {"a": "xy\tz"}


# -- bytes --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("raw", "text"),
    [
        (b"a: b\n", "a: b\n"),
        (b"\xef\xbb\xbfa: b", "a: b"),
        (b"a: b\r\nc: d\r\n", "a: b\nc: d\n"),
        (b"a: b\rc: d", "a: b\nc: d"),
        ("½ °C 🍲\n".encode(), "½ °C 🍲\n"),
        (b"", ""),
    ],
)
def test_bytes_become_text(raw: bytes, text: str) -> None:
    assert decode(raw, "f.yaml") == (text, [])


@pytest.mark.parametrize(
    ("raw", "expected"),
    [
        (b"a: \xff", "1:4: error: this is no UTF-8 text — save the file as UTF-8 [not-utf8]"),
        (
            "é: b\r\nü: ".encode() + b"\xe4",
            "2:4: error: this is no UTF-8 text — save the file as UTF-8 [not-utf8]",
        ),
        (
            b"\xef\xbb\xbfa\nb\xff",
            "2:2: error: this is no UTF-8 text — save the file as UTF-8 [not-utf8]",
        ),
        (
            "a: b".encode("utf-16"),
            "1:1: error: this is no UTF-8 text — save the file as UTF-8 [not-utf8]",
        ),
        (
            b"\xed\xa0\x80",
            "1:1: error: this is no UTF-8 text — save the file as UTF-8 [not-utf8]",
        ),
        (
            b"a: b\nc: \x00",
            "2:4: error: a control character stands here (U+0000) — delete it [control-character]",
        ),
        (
            b"\x1b[31m",
            "1:1: error: a control character stands here (U+001B) — delete it [control-character]",
        ),
        (
            "a\u009b".encode(),
            "1:2: error: a control character stands here (U+009B) — delete it [control-character]",
        ),
        (
            b"#" * (LARGEST_BYTES + 1),
            "1:1: error: the file has more than 2 MB — split it [file-too-large]",
        ),
    ],
)
def test_bytes_that_are_no_text_of_ours_are_told(raw: bytes, expected: str) -> None:
    text, problems = decode(raw, "f.yaml")
    assert text == ""
    assert [str(problem) for problem in problems] == [f"f.yaml:{expected}"]


def test_what_was_found_is_quoted_on_one_line_and_short() -> None:
    assert quoted("a\nb\x1b") == r"'a\nb\x1b'"
    assert quoted("x" * 60) == repr("x" * 60)
    assert quoted("x" * 61) == repr("x" * 57 + "…")
    assert LONGEST_KEY < LARGEST_BYTES


# -- laws ---------------------------------------------------------------------------------------

words = st.text(st.characters(exclude_categories=["C", "Zl", "Zp"]), max_size=20)
scalars = st.none() | st.booleans() | st.integers(-(10**14), 10**14) | words
trees = st.recursive(
    scalars,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(words, inner, max_size=4),
    max_leaves=12,
)


@given(trees)
def test_what_json_writes_is_read_back(tree: object) -> None:
    """JSON in quotes is YAML: each text stays text, each number a number."""
    node, problems = read_yaml(json.dumps(tree, ensure_ascii=False), "f.yaml")
    assert problems == []
    assert (as_json(node) if node else None) == tree


@given(st.binary(max_size=200))
def test_no_bytes_raise(raw: bytes) -> None:
    text, problems = decode(raw, "f.yaml")
    node, more = read_yaml(text, "f.yaml")
    assert node is None or isinstance(node, Node)
    for problem in [*problems, *more]:
        assert "\n" not in str(problem)
        assert problem.place.line >= 1 and problem.place.column >= 1


@given(st.text(alphabet="ab:-?[]{}&*!|>'\"#%@,\n\t \\xu0~<.½", max_size=60))
def test_no_text_of_yaml_signs_raises_with_either_parser(text: str) -> None:
    read = {}
    for loader in LOADERS:
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(yaml_door, "_LOADER", loader)
            node, problems = read_yaml(text, "f.yaml")
        read[loader] = as_json(node) if node and not problems else "problems"
        for problem in problems:
            assert "\n" not in str(problem)
    assert read


# -- a decimal comma in braces ----------------------------------------------------------------


@pytest.mark.usefixtures("either_loader")
@pytest.mark.parametrize(
    ("text", "told", "value"),
    [
        ("{mass: 1,5 kg}", "f.yaml:1:8: error: 'mass: 1,5 kg' is two entries in { }: a comma parts "
         "them — write `mass: 1.5 kg`, or put the value in quotes: `mass: \"1,5 kg\"` "
         "[decimal-comma]", {"mass": "1.5 kg"}),
        ("{each: 1,000 g}", "f.yaml:1:8: error: 'each: 1,000 g' is two entries in { }: a comma "
         "parts them — write `each: 1 g` or `each: 1000 g` [decimal-comma]", {"each": "1 g"}),
        ("{hours: 3,5, by: x}", "f.yaml:1:9: error: 'hours: 3,5' is two entries in { }: a comma "
         "parts them — write `hours: 3.5`, or put the value in quotes: `hours: \"3,5\"` "
         "[decimal-comma]", {"hours": 3.5, "by": "x"}),
        ("{low: -2,5 degC}", "f.yaml:1:7: error: 'low: -2,5 degC' is two entries in { }: a comma "
         "parts them — write `low: -2.5 degC`, or put the value in quotes: `low: \"-2,5 degC\"` "
         "[decimal-comma]", {"low": "-2.5 degC"}),
    ],
)  # fmt: skip
def test_a_decimal_comma_in_braces_is_told_as_what_it_is(
    text: str, told: str, value: object
) -> None:
    node, problems = read_yaml(text, "f.yaml")
    assert [str(problem) for problem in problems] == [told]
    assert node is not None and as_json(node) == value, "and what was meant is read on with"


@pytest.mark.usefixtures("either_loader")
def test_two_decimal_commas_alike_are_told_each_and_as_no_key_given_twice() -> None:
    assert [each.split(": error: ")[1][:14] for each in said("{a: 1,5 kg, b: 2,5 kg}")] == [
        "'a: 1,5 kg' is",
        "'b: 2,5 kg' is",
    ]


@pytest.mark.usefixtures("either_loader")
@pytest.mark.parametrize(
    ("text", "value"),
    [
        ('{mass: "1,5 kg"}', {"mass": "1,5 kg"}),
        ("mass: 1,5 kg", {"mass": "1,5 kg"}),
        ("{a: 1, 5 kg: x}", {"a": 1, "5 kg": "x"}),
        ("{a: 1, 5 kg}", {"a": 1, "5 kg": None}),  # a space: more likely two things
        ("{a: x,5 kg}", {"a": "x", "5 kg": None}),
        ("{a: 1,b}", {"a": 1, "b": None}),
        ("{a: 1,5: ~}", {"a": 1, "5": None}),
        ("[1,5]", [1, 5]),
    ],
)
def test_other_commas_part_what_they_stand_between(text: str, value: object) -> None:
    assert value_of(text) == value


def test_a_document_is_read_once_while_it_is_remembered() -> None:
    text, other = "a: 1\nb: 2\nb: 3\n", "a: 2\n"
    first, told = read_yaml(text, "x.yaml")
    with remembering() as memory:
        kept, problems = read_yaml(text, "x.yaml")
        assert (kept, problems) == (first, told) and told
        problems.clear()  # as whoever reads may do
        for _ in range(3):
            memory.next_round()
            again, problems = read_yaml(text, "x.yaml")
            assert again is kept and problems == told
        assert read_yaml(other, "x.yaml")[0] == read_yaml(other, "x.yaml")[0] != kept
        assert read_yaml(text, "y.yaml")[1] != told  # a problem tells its file
        memory.next_round()
        memory.next_round()
        assert read_yaml(text, "x.yaml")[0] is not kept
    assert read_yaml(text, "x.yaml")[0] is not read_yaml(text, "x.yaml")[0]
