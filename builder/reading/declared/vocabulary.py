"""Keys that hold words, texts, days and lists: each reads a node, and says what may be written."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from builder.reading.declared.declaring import written
from builder.reading.declared.patterns import text_schema
from builder.reading.declared.values import (
    DATE,
    DEVICES,
    ID,
    LONGEST_ID,
    LONGEST_TEXT,
    MOMENT,
    choice_of,
    flag_of,
    id_of,
    items_of,
    line_of,
    text_of,
    time_of,
    without_turns,
)
from builder.reading.notes import Notes
from builder.reading.text.yaml_door import Node
from builder.record import dataclass


class Takes:
    """What says in words what may be written."""

    def takes(self) -> str:
        """Say it in few words."""
        raise NotImplementedError


class Value(Takes):
    """What one node is read as."""

    _stub = "…"

    @property
    def stub(self) -> str:
        """Give what a message shows where the key is missing."""
        return self._stub

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> object:
        """Read a node; raise `Amiss` where it is wrong."""
        raise NotImplementedError

    def taken(self, default: object, key: str) -> object:
        """Give what a default stands for."""
        return default

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        raise NotImplementedError

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Read with `read`, whatever the type is called."""
        return core_schema.with_info_plain_validator_function(self._validated)

    def _validated(self, node: object, info: ValidationInfo[Notes]) -> object:
        key = written(info.field_name or "")
        return self.read(node, key, info) if isinstance(node, Node) else self.taken(node, key)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """Say what may be written."""
        return self.schema()


# Numbers are texts as well: `name: 1.50` is one.
_TEXT: JsonSchemaValue = {"type": ["string", "number"]}


@dataclass(frozen=True)
class Text(Value):
    """A text, of several lines if need be."""

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> str:
        """Read a text."""
        return without_turns(text_of(node, key))

    def takes(self) -> str:
        """Say what may be written."""
        return "a text"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return {**_TEXT, "maxLength": LONGEST_TEXT}


@dataclass(frozen=True)
class Line(Value):
    """A text on one line, such as a name."""

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> str:
        """Read a line."""
        return line_of(node, key)

    def takes(self) -> str:
        """Say what may be written."""
        return "a line of text"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return {**_TEXT, "maxLength": LONGEST_TEXT}


@dataclass(frozen=True)
class Id(Value):
    """An id of this record."""

    _stub = "some-id"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> str:
        """Read an id."""
        return id_of(node, key)

    def takes(self) -> str:
        """Say what may be written."""
        return "an id: lower-case letters, digits, single hyphens"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return {
            **_TEXT,
            "pattern": f"^{ID.pattern}$",
            "maxLength": LONGEST_ID,
            "not": {"enum": sorted(DEVICES)},
            "patternErrorMessage": "write lower-case letters, digits and single hyphens",
        }


@dataclass(frozen=True)
class Choice(Value):
    """One of a few known words."""

    options: Sequence[str]

    @property
    def stub(self) -> str:
        """Show the first of them."""
        return self.options[0]

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> str:
        """Read one of the words."""
        return choice_of(node, key, self.options)

    def takes(self) -> str:
        """Say what may be written."""
        return " | ".join(self.options)

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return {"type": "string", "enum": list(self.options)}


@dataclass(frozen=True)
class Flag(Value):
    """True or false."""

    _stub = "true"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> bool:
        """Read true or false."""
        return flag_of(node, key)

    def takes(self) -> str:
        """Say what may be written."""
        return "true | false"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return {"type": "boolean"}


@dataclass(frozen=True)
class Date(Value):
    """A day of the calendar."""

    _stub = "2031-09-04"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> datetime.date | None:
        """Read a date."""
        found = time_of(node, key, "date")
        return found.date() if found else None

    def takes(self) -> str:
        """Say what may be written."""
        return "a date: year-month-day"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return text_schema(DATE.pattern, f"year-month-day, such as {self._stub}")


@dataclass(frozen=True)
class Moment(Value):
    """A local date and time."""

    _stub = "2031-03-13T18:00"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> datetime.datetime | None:
        """Read a date and time."""
        return time_of(node, key, "time")

    def takes(self) -> str:
        """Say what may be written."""
        return "a date and time"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return text_schema(MOMENT.pattern, f"date and time, as {self._stub}")


@dataclass(frozen=True)
class Words(Takes):
    """A list of words, of known ones where `options` are given; one alone needs no list.

    Left out it is `default`: `()` where that says none, None where it says that nobody told.
    """

    options: Sequence[str] = ()
    repeats: bool = False  # whether one may stand there twice, and counts twice
    stub = "[…]"

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Read the list, then each word, so that each has its own error."""
        word = core_schema.with_info_plain_validator_function(self._word)
        words = core_schema.tuple_schema([word], variadic_item_index=0)
        items = core_schema.with_info_before_validator_function(self._items, words)
        return core_schema.no_info_after_validator_function(self._once, items)

    def _items(self, node: object, info: ValidationInfo[Notes]) -> object:
        return _items(node, info, lone_item=True)

    def _word(self, node: object, info: ValidationInfo[Notes]) -> str:
        assert isinstance(node, Node)
        key = written(info.field_name or "")
        return choice_of(node, key, self.options) if self.options else text_of(node, key)

    def _once(self, words: tuple[str, ...]) -> tuple[str, ...]:
        told = (word for word in words if word)
        return tuple(told if self.repeats else dict.fromkeys(told))

    def takes(self) -> str:
        """Say what may be written."""
        return f"a list of {' | '.join(self.options) or 'words'}"

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """Say what may be written: a list, or one word."""
        word: JsonSchemaValue = (
            {"type": "string", "enum": list(self.options)} if self.options else dict(_TEXT)
        )
        return {"anyOf": [{"type": "array", "items": word}, word]}


@dataclass(frozen=True)
class Items(Takes):
    """A list of what its type names: `Annotated[tuple[Container, ...], Items()]`."""

    lone_item: bool = False  # one thing alone needs no list
    of: str = "records"  # what it says that it lists
    stub = "[…]"

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Open the list, then let each item be read as its type."""
        return core_schema.with_info_before_validator_function(self._items, handler(source))

    def _items(self, node: object, info: ValidationInfo[Notes]) -> object:
        return _items(node, info, self.lone_item)

    def takes(self) -> str:
        """Say what may be written."""
        return f"a list of {self.of}" + (", or one" if self.lone_item else "")

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """Say what may be written: a list, or one thing where that will do."""
        found = handler(schema)
        return {"anyOf": [found, found["items"]]} if self.lone_item else found


def _items(node: object, info: ValidationInfo[Notes], lone_item: bool) -> object:
    if not isinstance(node, Node):
        return node  # what is taken where the key is left out
    return items_of(node, written(info.field_name or ""), lone_item)
