"""Where on the globe a camp lies, and when in the day one eats."""

from __future__ import annotations

import re
from contextlib import suppress
from typing import Annotated

from pydantic import ValidationInfo
from pydantic.json_schema import JsonSchemaValue

from builder.model.figure import Figure
from builder.model.meal_times import MealTimes
from builder.reading.declared.declaring import Record, key
from builder.reading.declared.patterns import text_schema
from builder.reading.declared.values import number_of, text_of, told
from builder.reading.declared.vocabulary import Value
from builder.reading.notes import Notes, refuse
from builder.reading.text.yaml_door import Node, quoted
from builder.record import dataclass
from builder.units import QuantityError, read_number

_CLOCK = re.compile(r"([01]?[0-9]|2[0-3]):([0-5][0-9])")
WESTMOST_H, EASTMOST_H = -12, 14
_MOST_DEG = (90.0, 180.0)


@dataclass(frozen=True)
class Position(Value):
    """Latitude and longitude in degrees; south and west are below zero."""

    _stub = "[57.0, 2.5]"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> tuple[float, float]:
        """Read both."""
        if len(node.items) != len(_MOST_DEG):
            says = f"{key} must be latitude and longitude, found {node.described()}"
            refuse("position", says, f"write it as `{key}: {self._stub}`")
        north, east = (
            number_of(each, key, -most, most)
            for each, most in zip(node.items, _MOST_DEG, strict=True)
        )
        return north, east

    def takes(self) -> str:
        """Say what may be written."""
        return "latitude and longitude in degrees"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        parts = [{"type": "number", "minimum": -most, "maximum": most} for most in _MOST_DEG]
        return {"type": "array", "prefixItems": parts, "minItems": 2, "maxItems": 2}


@dataclass(frozen=True)
class Clock(Value):
    """A time of the day, in minutes."""

    _stub = '"18:30"'

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> int:
        """Read a time of the day."""
        text = text_of(node, key)
        found = _CLOCK.fullmatch(text)
        if found is None:
            says = f"{key}: {quoted(text)} is no time of the day"
            refuse("clock", says, f"write it in quotes, as `{key}: {self._stub}`")
        return int(found[1]) * 60 + int(found[2])

    def taken(self, default: object, key: str) -> int:
        """Give the default."""
        found = _CLOCK.fullmatch(str(default))
        assert found
        return int(found[1]) * 60 + int(found[2])

    def takes(self) -> str:
        """Say what may be written."""
        return 'a time of the day, as "18:30"'

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return text_schema(_CLOCK.pattern, self._stub)


def hours_ahead(node: Node | None) -> float | None:
    """Give the offset of the local time as it stands there; None for what is none."""
    with suppress(QuantityError):
        hours = read_number(node.text) if node is not None and node.is_text else None
        if hours is not None and WESTMOST_H <= hours <= EASTMOST_H:
            return hours
    return None


@dataclass(frozen=True)
class HoursAhead(Value):
    """Hours of the local time ahead of UTC; west of it below zero."""

    _stub = "+2"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> Figure:
        """Read the hours, with their sign or without."""
        hours = hours_ahead(node)
        if hours is None:
            says = f"{key}: {node.described()} is no offset of the local time"
            refuse("utc", says, f"write hours from {WESTMOST_H} to +{EASTMOST_H}, as `{key}: +2`")
        return told(hours, node, f"{key}_h")

    def takes(self) -> str:
        """Say what may be written."""
        return f"hours from {WESTMOST_H} to +{EASTMOST_H}"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return {
            "type": ["number", "string"],
            "minimum": WESTMOST_H,
            "maximum": EASTMOST_H,
            "pattern": r"^\s*[-+]?[0-9]{1,2}(?:\.[0-9]+)?\s*$",
            "patternErrorMessage": f"write {self.takes()}, such as {self._stub}",
        }


class WrittenTimes(Record, title="times"):
    """When one eats."""

    breakfast: Annotated[int, Clock()] = key("Breakfast.", default="07:30", example='"07:00"')
    lunch: Annotated[int, Clock()] = key("Lunch.", default="12:30", example='"13:00"')
    dinner: Annotated[int, Clock()] = key("Dinner.", default="18:30", example='"19:00"')

    def times(self) -> MealTimes:
        """Give what planning reckons with."""
        return MealTimes(self.breakfast, self.lunch, self.dinner)
