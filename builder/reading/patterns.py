"""What a number or a quantity looks like, for editors: JSON Schema of one value."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from builder.units import DIMENSIONS, UNITS_OF_THOUSANDS

# The grammar of `units.read_number`, in the language of patterns that editors know.
_DECIMAL = "[0-9]{1,15}(?:[.,][0-9]{1,15})?"
_FRACTION = "(?:[0-9]{1,4} +)?[0-9]{1,4}/0*[1-9][0-9]{0,3}|(?:[0-9]{1,4} *)?[¼½¾⅓⅔⅛⅜⅝⅞]"
_THOUSANDS_WITH_A_COMMA = r"[-+−]?0*[1-9][0-9]*,[0-9]{3}(?![0-9])"
_THOUSANDS_WITH_A_POINT = r"[-+−]?[1-9][0-9]{0,2}\.[0-9]{3}"
_NOTHING = r"[-+−]?0+(?:[.,]0+)?"


def quantity_schema(quantity: str, positive: bool) -> dict[str, Any]:
    """Give what a number with a unit looks like; bounds are told when a folder is checked."""
    examples = DIMENSIONS[quantity].examples
    return {
        "type": "string",
        "pattern": rf"^\s*{quantity_pattern(quantity, positive)}\s*$",
        "errorMessage": f"write {examples}",
        "patternErrorMessage": f"write {examples}",
    }


def quantity_pattern(quantity: str, positive: bool = False) -> str:
    """Give a pattern of a number with a unit."""
    dimension = DIMENSIONS[quantity]
    sign = "[-+−]?" if dimension.lowest < 0 else "[+]?"
    units = _any_of(dimension.units)
    never = [_THOUSANDS_WITH_A_COMMA]
    thousands = UNITS_OF_THOUSANDS & set(dimension.units)
    if thousands:
        never.append(rf"{_THOUSANDS_WITH_A_POINT}\s*(?:{_any_of(thousands)})\s*$")
    if positive and dimension.lowest >= 0:
        never.append(rf"{_NOTHING}\s*(?:{units})\s*$")
    return rf"(?!{'|'.join(never)})(?:{sign}{_DECIMAL}|{_FRACTION})\s*(?:{units})"


def amount_schema() -> dict[str, Any]:
    """Give what an amount of food looks like: a mass, a volume or pieces."""
    pieces = rf"(?:[+]?{_DECIMAL}|{_FRACTION})\s*pieces?"
    any_of = "|".join((quantity_pattern("mass_g"), quantity_pattern("volume_ml"), pieces))
    said = "write a mass (250 g), a volume (2 cups) or pieces (2 pieces)"
    return {
        "type": "string",
        "pattern": rf"^\s*(?:{any_of})\s*$",
        "errorMessage": said,
        "patternErrorMessage": said,
    }


def price_schema(quantity: str, example: str) -> dict[str, Any]:
    """Give what money for an amount looks like."""
    money = rf"(?!{_THOUSANDS_WITH_A_COMMA})(?:{_DECIMAL}|{_FRACTION})"
    amount = rf"(?:(?:{_DECIMAL}|{_FRACTION})\s*)?(?:{_any_of(DIMENSIONS[quantity].units)})"
    return {
        "type": "string",
        "pattern": rf"^\s*{money}\s+per\s+{amount}\s*$",
        "errorMessage": f"write {example}",
        "patternErrorMessage": f"write {example}",
    }


def _any_of(units: Iterable[str]) -> str:
    """Give a pattern of some units, in whatever case; the longest first, since `m` begins `mm`."""
    longest_first = sorted(units, key=lambda unit: (-len(unit), unit))
    return "|".join(_in_any_case(unit) for unit in longest_first)


def _in_any_case(unit: str) -> str:
    return "".join(
        f"[{sign.lower()}{sign.upper()}]" if sign.isascii() and sign.isalpha() else re.escape(sign)
        for sign in unit
    )


def number_schema(
    at_least: float, at_most: float, more_than: float | None, whole: bool
) -> dict[str, Any]:
    """Give what a bare number looks like, with its bounds."""
    found: dict[str, Any] = {"type": "integer" if whole else "number"}
    if more_than is None:
        found["minimum"] = _short(at_least)
    else:
        found["exclusiveMinimum"] = _short(more_than)
    return {**found, "maximum": _short(at_most)}


def _short(number: float) -> float:
    """Give 5.0 as 5."""
    return int(number) if number == int(number) else number
