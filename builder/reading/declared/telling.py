"""Tells the keys of a kind in words: for `tripkit fields`, and for the tables of the guide."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from pydantic.fields import FieldInfo

from builder.reading.checks.usual import usual_of
from builder.reading.declared.declaring import Record, keys_of, notes_of, record_in, title_of
from builder.reading.declared.measures import Measure
from builder.reading.declared.shapes import ByWord, words_of
from builder.reading.declared.vocabulary import Takes
from builder.reading.gear.gear_files import GearFile
from builder.reading.kinds import KINDS
from builder.record import dataclass, replace


@dataclass(frozen=True, slots=True)
class KeySaid:
    """One key, in words; "" for what there is nothing to say of."""

    key: str
    takes: str
    usual: str
    possible: str
    left_out: str  # what is taken then; "required" where it must be told
    example: str
    says: str
    not_used_yet: bool
    inside: tuple[KeySaid, ...]  # the keys of the record that it holds

    def data(self) -> dict[str, Any]:
        """Give it for a script."""
        told = {
            "key": self.key,
            "takes": self.takes,
            "usual": self.usual,
            "possible": self.possible,
            "required": self.left_out == REQUIRED,
            "default": "" if self.left_out == REQUIRED else self.left_out,
            "example": self.example,
            "says": self.says,
            "not_used_yet": self.not_used_yet,
        }
        return {**told, "keys": [each.data() for each in self.inside]}

    def lines(self, indent: str = "") -> Iterator[str]:
        """Give it as people read it on a terminal, what it holds indented below."""
        yield f"{indent}{self.key}: {self.takes}"
        for what, said in (
            ("", self.says + (" Not used yet." if self.not_used_yet else "")),
            ("usual: ", self.usual),
            ("possible: ", self.possible),
            ("left out: ", self.left_out),
            ("example: ", self.example and f"{self.key.rpartition('.')[2]}: {self.example}"),
        ):
            if said:
                yield f"{indent}    {what}{said}"
        for each in self.inside:
            yield from each.lines(indent + "  ")


REQUIRED = "required"


def keys_said(record: type[Record]) -> tuple[KeySaid, ...]:
    """Tell the keys of a record in the order they are declared."""
    return tuple(_told(record, "", {}))


def paths_of(keys: Iterable[KeySaid], above: str = "") -> Iterator[str]:
    """Give each key as its path, such as `days.travel.by`."""
    for each in keys:
        yield f"{above}{each.key}"
        yield from paths_of(each.inside, f"{above}{each.key}.")


def named(keys: Iterable[KeySaid], name: str, above: str = "") -> tuple[KeySaid, ...]:
    """Give the keys of a name or a path, wherever they stand, each called by its path."""
    found: list[KeySaid] = []
    for each in keys:
        path = f"{above}{each.key}"
        if name in (each.key, path):
            found.append(replace(each, key=path))
        else:
            found += named(each.inside, name, f"{path}.")
    return tuple(found)


def _told(record: type[Record], above: str, first: dict[type[Record], str]) -> Iterator[KeySaid]:
    """Tell each key; the keys of a record inside once, where the record first stands."""
    for name, field in keys_of(record).items():
        inside, path = record_in(field.annotation), f"{above}{name}"
        if by_word := ByWord.found_in(field.annotation):
            yield _said(record, name, field, _told_by_word(by_word))
        elif inside is None:
            yield _said(record, name, field)
        elif inside in first:
            yield _said(record, name, field, as_in=first[inside])
        else:
            first[inside] = path
            yield _said(record, name, field, tuple(_told(inside, f"{path}.", first)))


def _told_by_word(by_word: ByWord) -> tuple[KeySaid, ...]:
    """Tell the keys of records that a word tells apart, each key once."""
    said: dict[str, dict[type[Record], KeySaid]] = {}
    for record in by_word.records:
        for each in keys_said(record):
            said.setdefault(each.key, {})[record] = each
    return tuple(_in_common(each, by_word) for each in said.values())


def _in_common(said: Mapping[type[Record], KeySaid], by_word: ByWord) -> KeySaid:
    """Tell one key of several records: what it takes in any of them, and which of them have it."""
    first, *_ = alike = tuple(said.values())
    says = list(dict.fromkeys(each.says for each in alike))
    if len(said) < len(by_word.records):
        words = [word for record in said for word in words_of(record, by_word.key)]
        says.append(f"Goes with {', '.join(words)}.")
    left_out = {each.left_out for each in alike}
    return replace(
        first,
        takes=" | ".join(dict.fromkeys(each.takes for each in alike)),
        says=" ".join(says),
        left_out=first.left_out if len(left_out) == 1 else "",
    )


def _said(
    record: type[Record],
    name: str,
    field: FieldInfo,
    inside: tuple[KeySaid, ...] = (),
    as_in: str = "",
) -> KeySaid:
    notes = notes_of(field)
    value = next((each for each in field.metadata if isinstance(each, Takes)), None)
    takes = value.takes() if value else _ONE_RECORD
    usual = possible = ""
    if isinstance(value, Measure):
        among = usual_of(title_of(record), name)
        example = notes.example or value.stub
        usual = value.range_said(among.usual, example) if among else ""
        possible = value.range_said(value.possible(among), example)
    return KeySaid(
        key=name,
        takes=f"{takes}, as `{as_in}`" if as_in else takes,
        usual=usual,
        possible=possible,
        left_out=REQUIRED if field.is_required() else _default_said(notes_of(field).default),
        example=notes.example,
        says=field.description or "",
        not_used_yet=notes.not_used_yet,
        inside=inside,
    )


_ONE_RECORD = "keys of its own"


def _default_said(default: object) -> str:
    if isinstance(default, bool):
        return str(default).lower()
    return "" if default in (None, "", ()) else str(default)


def tables() -> Iterator[tuple[str, str]]:
    """Give a table for each kind of record, by its name."""
    for kind in KINDS.values():
        if kind.record is not GearFile:
            yield kind.name, table(kind.record)
    for section, field in keys_of(GearFile).items():
        record = record_in(field.annotation)
        assert record is not None
        yield section, table(record)


def table(record: type[Record], above: str = "") -> str:
    """Tell the keys as a Markdown table, those inside others as `other.key`."""
    head = "" if above else "| key | takes | usual | left out | |\n|---|---|---|---|---|\n"
    return head + "".join(_rows(keys_said(record), above))


def _rows(keys: tuple[KeySaid, ...], above: str = "") -> Iterator[str]:
    for each in keys:
        example = f" Such as `{each.example}`." if each.example else ""
        later = " Not used yet." if each.not_used_yet else ""
        cells = (f"`{above}{each.key}`", each.takes, each.usual, each.left_out)
        yield f"| {' | '.join(map(_cell, cells))} | {_cell(each.says + later + example)} |\n"
        yield from _rows(each.inside, f"{above}{each.key}.")


def _cell(text: str) -> str:
    return text.replace("|", "\\|")
