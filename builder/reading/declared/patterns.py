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


def text_schema(pattern: str, would_do: str) -> dict[str, Any]:
    """Give what a text looks like, and what editors show where it does not."""
    return {
        "type": "string",
        "pattern": rf"^\s*(?:{pattern})\s*$",
        "errorMessage": f"write {would_do}",
        "patternErrorMessage": f"write {would_do}",
    }


def quantity_schema(quantity: str, positive: bool, *words: str) -> dict[str, Any]:
    """Give what a number with a unit looks like, or a few words that may stand for it.

    Bounds are told when a folder is checked.
    """
    pattern = "|".join((*words, quantity_pattern(quantity, positive)))
    return text_schema(pattern, ", ".join((*words, DIMENSIONS[quantity].examples)))


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
    return text_schema(any_of, "a mass (250 g), a volume (2 cups) or pieces (2 pieces)")


def price_schema(quantity: str, example: str) -> dict[str, Any]:
    """Give what money for an amount looks like."""
    money = rf"(?!{_THOUSANDS_WITH_A_COMMA})(?:{_DECIMAL}|{_FRACTION})"
    amount = rf"(?:(?:{_DECIMAL}|{_FRACTION})\s*)?(?:{_any_of(DIMENSIONS[quantity].units)})"
    return text_schema(rf"{money}\s+per\s+{amount}", example)


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
