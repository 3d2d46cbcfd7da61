"""Keys that hold one of several things, told apart by their shape, or pairs under free names."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, get_args

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from builder.reading.declaring import SHAPE, record_in
from builder.reading.notes import Notes
from builder.reading.values import check_is_record, is_blank
from builder.reading.vocabulary import Takes
from builder.reading.yaml_door import Node

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
