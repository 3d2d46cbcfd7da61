"""One's own test of a stove, such as `boiled: 1 l from 9 degC with 14 g at 640 m`."""

from __future__ import annotations

import re

from pydantic import ValidationInfo
from pydantic.json_schema import JsonSchemaValue

from builder.model.figure import nothing
from builder.model.gear import StoveTest
from builder.reading.checks.usual import USUAL
from builder.reading.declared.declaring import hold
from builder.reading.declared.patterns import quantity_pattern, text_schema
from builder.reading.declared.values import text_of, told, told_name
from builder.reading.declared.vocabulary import Value
from builder.reading.notes import Amiss, Judge, Notes, refuse
from builder.reading.text.yaml_door import Node, quoted
from builder.record import dataclass
from builder.units import QuantityError, range_like, read_quantity

_TEST = re.compile(r"(?P<water>.+?) from (?P<cold>.+?) with (?P<fuel>.+?)(?: at (?P<height>.+?))?")
_PARTS = {"water": "volume_ml", "cold": "water_c", "fuel": "mass_g", "height": "altitude_m"}


def stove_test_of(node: Node, judge: Judge) -> StoveTest:
    """Read a test part by part, each held against what is usual."""
    match = _TEST.fullmatch(text_of(node, "boiled"))
    if match is None:
        refuse(
            "stove-test",
            f"boiled: {node.described()} tells no test",
            "write `boiled: 1 l from 9 degC with 14 g`, and the height where it was: `at 640 m`",
        )
    read: dict[str, float] = {}
    for part, quantity in _PARTS.items():
        text, name = match[part], told_name(part, quantity)
        if not text:  # where no height is told
            read[part] = nothing(name, "not told")
            continue
        try:
            read[part] = told(read_quantity(text, quantity), node, name)
        except QuantityError as error:
            raise Amiss(error.kind, f"boiled: {error.says}", error.mend) from error
        among = USUAL["stove test", part]
        shown = range_like(text, quantity, *among.usual)
        judge(among, read[part], f"boiled: {quoted(text)}", shown)
    return StoveTest(read["water"], read["cold"], read["fuel"], read["height"])


@dataclass(frozen=True)
class BoilingTest(Value):
    """What one's own stove took to bring water to the boil."""

    _stub = "1 l from 9 degC with 14 g"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> StoveTest:
        """Read a test."""
        return stove_test_of(
            node,
            lambda among, value, found, usual: hold(
                info.context, among, value, node.place, (found, usual)
            ),
        )

    def takes(self) -> str:
        """Say what may be written."""
        return "water from a temperature with fuel, and at a height where you know it"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        water, cold, fuel, height = (quantity_pattern(each) for each in _PARTS.values())
        pattern = f"{water} from {cold} with {fuel}(?: at {height})?"
        return text_schema(pattern, f"{self._stub} at 640 m")
