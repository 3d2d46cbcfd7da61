"""Keys that hold one of several things, told apart by their shape, or pairs under free names."""

from __future__ import annotations

from functools import cached_property
from typing import Any, Self, get_args

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from builder.reading.declared.declaring import (
    SHAPE,
    AlreadyNoted,
    Record,
    keys_of,
    record_in,
    title_of,
)
from builder.reading.declared.values import check_is_record, choice_of, has, is_blank, missing
from builder.reading.declared.vocabulary import Choice, Takes
from builder.reading.notes import Amiss, Notes
from builder.reading.text.yaml_door import Node
from builder.record import dataclass

_TEXT, _ITEMS, _KEYS = f"{SHAPE}text", f"{SHAPE}items", f"{SHAPE}keys"


@dataclass(frozen=True)
class ByShape(Takes):
    """What stands there decides how it is read: a text or number, a list, or keys of its own.

    Each is a type as a key would have it, such as `Annotated[float, Quantity("kept_c")]`. What is
    of no shape that is declared is read as the first of them, which says what is wrong.
    """

    text: Any = None
    items: Any = None
    keys: Any = None

    @property
    def _types(self) -> dict[str, Any]:
        types = {_TEXT: self.text, _ITEMS: self.items, _KEYS: self.keys}
        return {shape: each for shape, each in types.items() if each is not None}

    @property
    def stub(self) -> str:
        """Give what a message shows where the key is missing."""
        first = next(iter(self._types.values()))
        return next((str(each.stub) for each in get_args(first) if hasattr(each, "stub")), "{…}")

    def _shape(self, node: object) -> str:
        is_map, is_list = (getattr(node, each, False) for each in ("is_map", "is_list"))
        shape = _KEYS if is_map else _ITEMS if is_list else _TEXT
        return shape if shape in self._types else next(iter(self._types))

    def takes(self) -> str:
        """Say what may be written."""
        return ", or ".join(_takes(each) for each in self._types.values())

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Read each shape as its type."""
        choices = {shape: handler.generate_schema(each) for shape, each in self._types.items()}
        return core_schema.tagged_union_schema(choices, self._shape)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """Say what may be written: any of the shapes."""
        found = handler(schema)
        return {"anyOf": found["oneOf"]} if "oneOf" in found else found


@dataclass(frozen=True)
class NamedOr(ByShape):
    """The name of what is told elsewhere, or keys of its own, as which all else is read."""

    def _shape(self, node: object) -> str:
        return _TEXT if isinstance(node, Node) and node.is_text else _KEYS


@dataclass(frozen=True)
class ByWord(Takes):
    """Records of one title, told apart by the word behind a key that each declares as a choice."""

    key: str
    records: tuple[type[Record], ...]

    @classmethod
    def found_in(cls, annotation: object) -> Self | None:
        """Give what tells the records apart that a key holds in a list; None where nothing does."""
        if isinstance(annotation, cls):
            return annotation
        return next((found for each in get_args(annotation) if (found := cls.found_in(each))), None)

    @cached_property
    def by_word(self) -> dict[str, type[Record]]:
        """Give the record of each word."""
        return {word: each for each in self.records for word in words_of(each, self.key)}

    def takes(self) -> str:
        """Say what may be written."""
        return f"keys of its own, by its `{self.key}`"

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Read the word, then the record that it stands for."""
        choices = {
            f"{SHAPE}{each.__name__}": handler.generate_schema(each) for each in self.records
        }
        union = core_schema.tagged_union_schema(choices, self._tag)
        return core_schema.with_info_before_validator_function(self._checked, union)

    def _checked(self, node: object, info: ValidationInfo[Notes]) -> object:
        assert isinstance(node, Node)
        title, words = title_of(self.records[0]), tuple(self.by_word)
        check_is_record(node, title)
        if not has(node, self.key):
            raise missing(title, self.key, words[0])
        word = node.entries[self.key].node
        try:
            choice_of(word, self.key, words)
        except Amiss as amiss:
            info.context.append(amiss.at(word.place))
            raise AlreadyNoted from None
        return node

    def _tag(self, node: Node) -> str:
        return _tag_of(self.by_word[node.entries[self.key].node.text.strip()])

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """Say which keys go with which word, so that editors complete and underline those."""
        union: Any = schema["schema"]
        by_tag = {tag: handler(each) for tag, each in union["choices"].items()}
        branches = [
            {
                "if": {
                    "properties": {self.key: {"enum": list(words_of(each, self.key))}},
                    "required": [self.key],
                },
                "then": by_tag[_tag_of(each)],
            }
            for each in self.records
        ]
        return {
            "type": "object",
            "properties": {self.key: {"enum": list(self.by_word)}},
            "required": [self.key],
            "allOf": branches,
        }


def _tag_of(record: type[Record]) -> str:
    return f"{SHAPE}{record.__name__}"


def words_of(record: type[Record], name: str) -> tuple[str, ...]:
    """Give the words that a key of a record may hold."""
    found = (each for each in keys_of(record)[name].metadata if isinstance(each, Choice))
    return tuple(next(found).options)


@dataclass(frozen=True)
class ListOr(ByShape):
    """A list, or keys of its own, as which all else is read."""

    def _shape(self, node: object) -> str:
        return _ITEMS if isinstance(node, Node) and node.is_list else _KEYS


def _takes(kind: Any) -> str:
    said = (each.takes() for each in get_args(kind) if isinstance(each, Takes))
    return next(said, "keys of its own" if record_in(kind) else "")


@dataclass(frozen=True)
class Pairs(Takes):
    """Names that are free, each with a value: `Annotated[dict[str, X], Pairs("what")]`."""

    what: str  # what messages call it
    stub = "{…}"

    def takes(self) -> str:
        """Say what may be written."""
        return "`name: value` pairs"

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Open the mapping, then let each value be read as its type."""
        return core_schema.with_info_before_validator_function(self._pairs, handler(source))

    def _pairs(self, node: object, info: ValidationInfo[Notes]) -> object:
        if not isinstance(node, Node):
            return node  # what is taken where the key is left out
        check_is_record(node, self.what)
        return {
            name: entry.node for name, entry in node.entries.items() if not is_blank(entry.node)
        }
