"""What is read and checked, and what this version cannot plan: it says so, and what would do."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationInfo
from pydantic.json_schema import JsonSchemaValue

from builder.reading.declaring import Check, Here
from builder.reading.notes import Notes, refuse
from builder.reading.values import check_is_record
from builder.reading.vocabulary import Value
from builder.reading.yaml_door import Node

OPEN = "open"


def cannot_be(amiss: Callable[[Any], bool], says: str, mend: str) -> Check:
    """Refuse what this version cannot plan, rather than make a kit that is wrong."""

    def look(here: Here) -> None:
        if amiss(here.value):
            refuse("not-yet", f"this version cannot plan {says}", mend)

    return Check(look)


@dataclass(frozen=True)
class Open(Value):
    """A meal that is left to be filled."""

    _stub = OPEN

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> None:
        """Refuse it: an open meal would be a hungry one."""
        if node.text.strip() != OPEN:
            check_is_record(node, "meal")  # says so
        mend = f"write what is eaten, or leave `{key}` out"
        refuse("not-yet", "this version cannot plan a meal that is left open", mend)

    def takes(self) -> str:
        """Say what may be written."""
        return OPEN

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return {"const": OPEN}
