"""Writes YAML: single values, whole records anew, and what `*name` and `<<` stand for."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from builder.reading.text.yaml_door import MERGE, Node, read_yaml
from builder.record import dataclass

# Line breaks of YAML that JSON writes as they are, and a byte order mark.
_ESCAPED = {sign: f"\\u{ord(sign):04x}" for sign in "\u0085\u2028\u2029\ufeff"}


@dataclass(frozen=True, slots=True)
class Edit:
    """A piece of a text, by its offsets, and what takes its place."""

    start: int
    end: int
    text: str


@dataclass(frozen=True, slots=True)
class Left:
    """Something that an edit could not carry over, with where in the text that is."""

    offset: int
    says: str


def edited(text: str, edits: Iterable[Edit], start: int = 0, end: int | None = None) -> str:
    """Give a text, or a part of it, with edits made that do not overlap.

    What several put in at one place stands there in their order.
    """
    end = len(text) if end is None else end
    for edit in sorted(reversed([*edits]), key=lambda each: -each.start):
        text = text[: edit.start] + edit.text + text[edit.end :]
        end += len(edit.text) - (edit.end - edit.start)
    return text[start:end]


def plain(node: Node) -> Any:
    """Give a node as plain Python values; a number keeps how it was written."""
    if node.is_map:
        return {key: plain(entry.node) for key, entry in node.entries.items()}
    if node.is_list:
        return [plain(item) for item in node.items]
    return (node.value, node.written) if node.written else node.value


def read_plain(text: str) -> object:
    """Give what a text says as plain Python values; None where it cannot be read."""
    node, problems = read_yaml(text, "")
    return None if node is None or problems else plain(node)


def as_yaml(text: str) -> str:
    """Give a text as YAML that reads as just this text, in a list or mapping of any form."""
    found, problems = read_yaml(f"[{text}]", "")
    if found is not None and not problems and len(found.items) == 1:
        item = found.items[0]
        if item.value == text and "#" not in text and text != MERGE:
            return text
    return "".join(_ESCAPED.get(sign, sign) for sign in json.dumps(text, ensure_ascii=False))


# A value to be written: words and numbers, and lists and mappings of them.
Words = str | int | float | Sequence["Words"] | Mapping[str, "Words"]


def words_in_flow(value: Words) -> str:
    """Give a value that stands in no file yet on one line."""
    if isinstance(value, str):
        return as_yaml(value)
    if isinstance(value, (int, float)):  # true and false among them
        return json.dumps(value)
    if isinstance(value, Mapping):
        pairs = (f"{as_yaml(key)}: {words_in_flow(each)}" for key, each in value.items())
        return f"{{{', '.join(pairs)}}}"
    return f"[{', '.join(words_in_flow(each) for each in value)}]"


def in_flow(node: Node) -> str:
    """Give a value on one line, nothing in it standing elsewhere."""
    if node.is_map:
        pairs = (f"{as_yaml(key)}: {in_flow(each.node)}" for key, each in node.entries.items())
        return f"{{{', '.join(pairs)}}}"
    if node.is_list:
        return f"[{', '.join(in_flow(item) for item in node.items)}]"
    if isinstance(node.value, str):
        return as_yaml(node.value)
    return node.written or json.dumps(node.value)


def spelling_out(text: str, node: Node) -> list[Edit]:
    """Give the edits that write out what stands elsewhere: each `*name`, each `<<`."""
    return list(_spelling_out(text, node))


def _spelling_out(text: str, node: Node) -> Iterator[Edit]:
    if node.alias:
        yield Edit(node.start, node.end, in_flow(node))
        return
    if node.merge is not None:
        start, end = node.merge
        between = ", " if node.flow else "\n" + " " * (start - text.rfind("\n", 0, start) - 1)
        put_in = (
            f"{as_yaml(key)}: {in_flow(each.node)}"
            for key, each in node.entries.items()
            if each.merged
        )
        yield Edit(start, end, between.join(put_in))
    for entry in node.entries.values():
        if not entry.merged:
            yield from _spelling_out(text, entry.node)
    for item in node.items:
        yield from _spelling_out(text, item)


def spelt_out(text: str, node: Node) -> tuple[str, Node]:
    """Give a whole file in which nothing stands elsewhere, and its tree."""
    edits = spelling_out(text, node)
    if not edits:
        return text, node
    for found in (edited(text, edits), written_anew(node)):
        again, problems = read_yaml(found, node.place.file)
        if again is not None and not problems and plain(again) == plain(node):
            return found, again
    raise AssertionError(f"{node.place.file} cannot be written out")


def written_anew(node: Node, before: str = "") -> str:
    """Give a record without its comments, `before` at its margin."""
    lines = _lines(node)
    return "".join(f"{' ' * len(before) if n else before}{line}\n" for n, line in enumerate(lines))


def _lines(node: Node) -> Iterator[str]:
    """Give lists and mappings on lines of their own, down to those that hold no others."""
    if node.depth < 2 or not (node.entries or node.items):
        yield in_flow(node)
        return
    for key, entry in node.entries.items():
        if entry.node.depth < 2:
            yield f"{as_yaml(key)}: {in_flow(entry.node)}"
        else:
            yield f"{as_yaml(key)}:"
            yield from (f"  {line}" for line in _lines(entry.node))
    for item in node.items:
        yield from (f"{'  ' if n else '- '}{line}" for n, line in enumerate(_lines(item)))
