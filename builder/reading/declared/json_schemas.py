"""JSON Schemas of what may be written, so that editors complete and underline it."""

from __future__ import annotations

import json
from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from builder.reading.declared.declaring import title_of
from builder.reading.kinds import Kind
from builder.reading.text.yaml_door import MERGE

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_MADE = "Made by tripkit of its own declarations; `tripkit new` brings it up to date."


class _Generator(GenerateJsonSchema):
    """Gives keys in the order they are declared, without what only Python needs."""

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        """Leave the default to what is noted of the key: here it was read already."""
        return self.generate_inner(schema["schema"])

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        """Give what may be written: nothing is told by leaving the key out."""
        return self.generate_inner(schema["schema"])

    def field_title_should_be_set(self, schema: Any) -> bool:
        """Leave titles out: the key says what they would."""
        return False

    def sort(self, value: JsonSchemaValue, parent_key: str | None = None) -> JsonSchemaValue:
        """Keep the order."""
        return value


def schema_of(kind: Kind) -> dict[str, Any]:
    """Give the JSON Schema of a kind of file: of one record, or of a list of them."""
    found = kind.record.model_json_schema(schema_generator=_Generator)
    below = found.pop("$defs", {})  # in an order that tells which of them were built first
    records = {title_of(kind.record): found, **dict(sorted(below.items()))}
    names = {name: str(each["title"]).replace(" ", "-") for name, each in records.items()}
    shapes = {names[name]: _readable(each, names) for name, each in records.items()}
    one = {"$ref": f"#/$defs/{names[title_of(kind.record)]}"}
    top: dict[str, Any] = one
    if kind.may_be_list:
        top = {
            "type": ["array", "object"],
            "if": {"type": "array"},
            "then": {"items": one},
            "else": one,
        }
    return {
        "$schema": DIALECT,
        "$id": kind.schema_name,
        "$comment": _MADE,
        "title": title_of(kind.record),
        "description": found["description"],
        **top,
        "$defs": shapes,
    }


def schema_text(kind: Kind) -> str:
    """Give the JSON Schema of a kind of file as the text of a file."""
    return json.dumps(schema_of(kind), ensure_ascii=False, indent=1) + "\n"


def _readable(schema: Any, names: dict[str, str]) -> Any:
    """Call records as people do, and let each take the keys of another by `<<`."""
    if isinstance(schema, list):
        return [_readable(each, names) for each in schema]
    if not isinstance(schema, dict):
        return schema
    found = {key: _readable(each, names) for key, each in schema.items()}
    if isinstance(found.get("$ref"), str):
        found["$ref"] = f"#/$defs/{names[found['$ref'].rpartition('/')[2]]}"
    if found.get("additionalProperties") is False:
        found["patternProperties"] = {f"^{MERGE}$": {}}
    return found
