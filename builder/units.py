"""Text with units → float, and float → text: the only module that knows pint.

People's text never reaches pint: our own small grammar splits number and unit, our own list says
which units there are, and pint serves as the table of factors.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Collection
from fractions import Fraction
from functools import cache, lru_cache
from typing import Any, Literal

from builder.record import dataclass
from builder.unit_factors import FACTORS
from builder.unit_words import two_parts, unit_meant

System = Literal["metric", "us"]

# Our unit word → pint's name. `cup`, `tsp`, `tbsp` and `fl oz` are the US ones.
_MASS = {
    "mg": "milligram", "g": "gram", "kg": "kilogram",
    "oz": "ounce", "lb": "pound", "lbs": "pound",
}  # fmt: skip
_VOLUME = {
    "ml": "milliliter", "cl": "centiliter", "dl": "deciliter", "l": "liter",
    "tsp": "teaspoon", "tbsp": "tablespoon", "cup": "cup", "cups": "cup",
    "fl oz": "fluid_ounce", "pint": "pint", "pints": "pint", "qt": "quart", "gal": "gallon",
}  # fmt: skip
_TEMPERATURE = {
    "degC": "degree_Celsius", "°C": "degree_Celsius",
    "degF": "degree_Fahrenheit", "°F": "degree_Fahrenheit", "K": "kelvin",
}  # fmt: skip
_LENGTH = {
    "mm": "millimeter", "cm": "centimeter", "m": "meter", "km": "kilometer",
    "in": "inch", "ft": "foot", "yd": "yard", "mi": "mile",
}  # fmt: skip
_TIME = {
    "s": "second", "min": "minute", "h": "hour", "day": "day", "days": "day",
}  # fmt: skip
_MONTHS = {
    "month": "month", "months": "month", "week": "week", "weeks": "week",
    "year": "year", "years": "year",
}  # fmt: skip
_ENERGY = {"kcal": "kilocalorie", "kJ": "kilojoule", "MJ": "megajoule"}
_ELECTRICITY = {"kWh": "kilowatt_hour", "Wh": "watt_hour"}
_POWER = {"W": "watt", "kW": "kilowatt"}
_PRESSURE = {
    "hPa": "hectopascal", "mbar": "millibar", "kPa": "kilopascal", "Pa": "pascal",
    "mmHg": "millimeter_Hg", "inHg": "inch_Hg",
}  # fmt: skip
_GAUGE = {
    "kPa": "kilopascal", "bar": "bar", "mbar": "millibar", "hPa": "hectopascal", "psi": "psi",
}  # fmt: skip
_SPECIFIC_ENERGY = {
    "MJ/kg": "megajoule/kilogram", "kJ/g": "kilojoule/gram", "kJ/kg": "kilojoule/kilogram",
    "kcal/g": "kilocalorie/gram", "kcal/kg": "kilocalorie/kilogram",
}  # fmt: skip
_AREA = {"cm2": "centimeter**2", "m2": "meter**2", "in2": "inch**2"}
_DENSITY = {"g/ml": "gram/milliliter", "kg/l": "kilogram/liter", "kg/m3": "kilogram/meter**3"}
_SHARE = {"%": "percent"}
_RUNS = {"runs": "count", "run": "count"}


@dataclass(frozen=True, slots=True)
class Dimension:
    """One kind of quantity: its units and the one we compute in."""

    name: str
    units: dict[str, str]
    canonical: str  # pint's name of the unit that every float of this kind is in
    examples: str
    lowest: float  # below this it is not a quantity of our world
    highest: float

    @property
    def example(self) -> str:
        """Give one quantity of this kind."""
        return self.examples.split(",")[0].split(" or ")[0]

    def bound_shown(self, value: float) -> str:
        """Give the bound that a value breaks, in the unit we compute in; a share in percent."""
        bound = self.lowest if value < self.lowest else self.highest
        if self.canonical == "dimensionless":
            shown = f"{bound * 100:g} %"
        else:
            unit = next(word for word, pints in self.units.items() if pints == self.canonical)
            shown = f"{bound:.9g} {unit}".replace("-", "−")
        return f"{shown} or more" if value < self.lowest else f"at most {shown}"


# The bounds keep out slips of the pen and numbers that would overflow, not unusual trips.
DIMENSIONS: dict[str, Dimension] = {
    "mass_g": Dimension("mass", _MASS, "gram", "250 g, 1.5 kg or 9 oz", 0, 1e7),
    "sodium_mg": Dimension("mass", _MASS, "milligram", "120 mg or 0.12 g", 0, 1e5),
    "caffeine_mg": Dimension("mass", _MASS, "milligram", "12 mg or 0.012 g", 0, 1e5),
    "volume_ml": Dimension("volume", _VOLUME, "milliliter", "300 ml, 1.5 l or 2 cups", 0, 1e7),
    "temperature_c": Dimension(
        "temperature", _TEMPERATURE, "degree_Celsius", "74 degC or 165 degF", -90, 400
    ),
    "air_c": Dimension(
        "air temperature", _TEMPERATURE, "degree_Celsius", "4 degC or 39 degF", -70, 60
    ),
    "kept_c": Dimension(
        "storage temperature", _TEMPERATURE, "degree_Celsius", "15 degC or 59 degF", -40, 40
    ),
    "body_kg": Dimension("body mass", _MASS, "kilogram", "64 kg or 141 lb", 3, 300),
    "water_c": Dimension(
        "water temperature", _TEMPERATURE, "degree_Celsius", "8 degC or 46 degF", 0, 100
    ),
    "length_m": Dimension("length", _LENGTH, "meter", "640 m, 13 km or 2100 ft", 0, 1e7),
    "altitude_m": Dimension("length", _LENGTH, "meter", "640 m or 2100 ft", -500, 9000),
    "height_cm": Dimension("length", _LENGTH, "centimeter", "172 cm or 68 in", 0, 300),
    "length_cm": Dimension("length", _LENGTH, "centimeter", "18 cm or 7 in", 0, 500),
    "length_mm": Dimension("length", _LENGTH, "millimeter", "70 mm or 2.75 in", 0, 2000),
    "duration_min": Dimension("time", _TIME, "minute", "8 min or 1.5 h", 0, 1e6),
    "kept_months": Dimension("keeping time", _MONTHS, "month", "3 months or 2 weeks", 0, 120),
    "duration_h": Dimension("time", _TIME, "hour", "3 h or 90 min", 0, 48),
    "wood_moisture_share": Dimension("wood moisture", _SHARE, "dimensionless", "20 %", 0, 0.6),
    # Listed water of one kind of food varies by a few points; ten are another food.
    "spread_share": Dimension("spread of listed water", _SHARE, "dimensionless", "1.5 %", 0, 0.1),
    "share": Dimension("share", _SHARE, "dimensionless", "15 %", 0, 1),
    "energy_kcal": Dimension("energy", _ENERGY, "kilocalorie", "132 kcal or 552 kJ", 0, 1e6),
    "electricity_kwh": Dimension("electricity", _ELECTRICITY, "kilowatt_hour", "1 kWh", 0, 1e6),
    "power_w": Dimension("power", _POWER, "watt", "2600 W or 2.6 kW", 0, 1e6),
    "pressure_hpa": Dimension("pressure", _PRESSURE, "hectopascal", "940 hPa", 0, 2e3),
    "gauge_kpa": Dimension(
        "pressure of a cooker", _GAUGE, "kilopascal", "0.8 bar, 80 kPa or 12 psi", 0, 150
    ),
    "energy_mj_kg": Dimension(
        "heating value", _SPECIFIC_ENERGY, "megajoule/kilogram", "45.8 MJ/kg", 0, 200
    ),
    "area_cm2": Dimension("area", _AREA, "centimeter**2", "140 cm2 or 0.4 m2", 0, 1e6),
    "life_runs": Dimension("number of runs", _RUNS, "count", "400 runs", 0, 1e5),
    "density_g_ml": Dimension("density", _DENSITY, "gram/milliliter", "0.72 g/ml", 0.01, 25),
}

_FRACTIONS = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3",
    "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
_PLAIN = re.compile(r"(?P<sign>[-+−]?)(?P<whole>[0-9]{1,15})(?:[.,](?P<part>[0-9]{1,15}))?")
_FRACTION = re.compile(r"(?:(?P<whole>[0-9]{1,4}) +)?(?P<over>[0-9]{1,4})/(?P<under>[0-9]{1,4})")
_SPLIT = re.compile(r"(?P<number>[-+−–0-9.,/ '’_]*[0-9])\s*(?P<unit>[^0-9\s].*)?", re.DOTALL)


# In these units people reckon in thousands, and some write them with a point: 1.000 g.
UNITS_OF_THOUSANDS = frozenset({"mg", "g", "ml", "mm", "m", "ft", "kcal", "kJ", "W"})
_THOUSAND_WITH_A_POINT = re.compile(r"[-+−]?[1-9][0-9]{0,2}\.[0-9]{3}")

LONGEST_QUANTITY = 60  # characters; a longer text is no quantity, and slow to take apart


class QuantityError(ValueError):
    """Text that is no quantity of the kind wanted; says what was found and what would do."""

    def __init__(self, kind: str, says: str, mend: str) -> None:
        """Keep the stable kind, what is wrong, and what would do."""
        super().__init__(f"{says} — {mend}")
        self.kind, self.says, self.mend = kind, says, mend


def read_number(text: str) -> float:
    """Read a number as people write it: `1.5`, `1,5`, `1/2`, `1 1/2`, `½`, `1½`; never thousands.

    Raises QuantityError where the text is no number or could mean two.
    """
    if len(text) > LONGEST_QUANTITY:
        raise QuantityError("number", f"{_said(text)} is not one number", "write it like 1.5")
    plain = _without_fraction_signs(text)
    if match := _FRACTION.fullmatch(plain):
        if int(match["under"]) == 0:
            raise QuantityError("number", f"{text!r} divides by zero", "write a number such as 1/2")
        return float(int(match["whole"] or 0) + Fraction(int(match["over"]), int(match["under"])))
    match = _PLAIN.fullmatch(plain)
    if not match:
        raise QuantityError(
            "number",
            f"{text!r} is not one number",
            "write it like 0.5, 1/2 or 1500, thousands not apart",
        )
    if "," in plain and match["part"] and len(match["part"]) == 3 and match["whole"] != "0":
        one, thousand = both_readings(plain)
        raise QuantityError(
            "number-unclear",
            f"{text!r} could mean {thousand} or {plain.replace(',', '.')}",
            f"write {thousand} or {one}",
        )
    value = float(f"{match['whole']}.{match['part'] or '0'}")
    return -value if match["sign"] in ("-", "−") else value


def _said(text: str) -> str:
    """Give what was found, in quotes and on one line, shortened where it is long."""
    return repr(text if len(text) <= LONGEST_QUANTITY else text[: LONGEST_QUANTITY - 3] + "…")


def _without_fraction_signs(text: str) -> str:
    """Write ½ as 1/2 and 1½ as 1 1/2."""
    if text.isascii():
        return text.strip()
    for sign, written in _FRACTIONS.items():
        text = text.replace(sign, f" {written}")
    return text.strip()


@lru_cache(maxsize=4096)  # the same few stand in every file of a large folder
def read_quantity(text: str, quantity: str) -> float:
    """Read a text such as `1.5 l` as a float of the named quantity (a key of DIMENSIONS).

    Raises QuantityError with what was found and what would do.
    """
    dimension = DIMENSIONS[quantity]
    short = len(text) <= LONGEST_QUANTITY
    match = _SPLIT.fullmatch(_without_fraction_signs(text)) if short else None
    if not match:
        raise QuantityError(
            "quantity", f"{_said(text)} is no {dimension.name}", f"write {dimension.examples}"
        )
    unit = match["unit"]
    if not unit:
        says = f"{_said(text)} has no unit"
        known = ", ".join(dimension.units)
        mend = f"write one of {known} behind it, such as {dimension.examples}"
        raise QuantityError("unit-missing", says, mend)
    unit = unit.strip()
    if unit not in dimension.units:
        together = _in_one_unit(text, dimension)
        if together or any(sign.isdecimal() for sign in unit):
            says = f"{_said(text)} is not one number and one unit"
            raise QuantityError("quantity", says, f"write {together or dimension.examples}")
        unit = _forgiven(unit, dimension, match["number"])
    if unit in UNITS_OF_THOUSANDS:
        ask_for_thousand(match["number"], unit)
    value = _to_canonical(read_number(match["number"]), dimension.units[unit], dimension.canonical)
    # 32 degF comes out a hair below 0 degC; a bound is not broken by binary rounding.
    nearest = min(max(value, dimension.lowest), dimension.highest)
    if abs(value - nearest) <= 1e-9:
        value = nearest
    else:
        raise QuantityError(
            "out-of-range",
            f"{_said(text)} is out of range",
            f"write {dimension.bound_shown(value)}, such as {dimension.examples}",
        )
    return value


def bare_number(text: str, units: Collection[str] = ()) -> str | None:
    """Give the number of a text as one writes it bare, where at most one of some units follows."""
    match = (
        _SPLIT.fullmatch(_without_fraction_signs(text)) if len(text) <= LONGEST_QUANTITY else None
    )
    if match is None or (match["unit"] and unit_meant(match["unit"], units) is None):
        return None
    try:
        return _digits(read_number(match["number"]), 2).replace(",", "").replace("−", "-")
    except QuantityError:
        return None


def ask_for_thousand(number: str, unit: str) -> None:
    """Raise QuantityError where 1.000 of a unit could be one or a thousand."""
    number = number.strip()
    if not _THOUSAND_WITH_A_POINT.fullmatch(number):
        return
    one, thousand = both_readings(number)
    raise QuantityError(
        "number-unclear",
        f"'{number} {unit}' could mean {one} or {thousand} {unit}",
        f"write {one} {unit} or {thousand} {unit}",
    )


def both_readings(number: str) -> tuple[str, str]:
    """Give 1.000 or 1,032 as one and as a thousand, in a form that is read without a question."""
    number = number.replace(",", ".")
    # A third digit that counts is kept clear by a fourth: 1.0320.
    one = f"{number}0" if number[-1] != "0" else number.rstrip("0").rstrip(".")
    return one, number.replace(".", "")


def range_like(text: str, quantity: str, low: float, high: float) -> str:
    """Give a range in the unit of a text that was read as this quantity, such as `0.2 to 20 l`."""
    dimension = DIMENSIONS[quantity]
    match = _SPLIT.fullmatch(_without_fraction_signs(text))
    unit = (match["unit"] or "").strip() if match else ""
    if unit not in dimension.units:
        unit = _forgiven(unit, dimension)
    bounds = (
        _from_canonical(bound, dimension.units[unit], dimension.canonical) for bound in (low, high)
    )
    return " to ".join(plain(bound) for bound in bounds) + f" {unit}"


def plain(number: float) -> str:
    """Write a number for a message, to three digits and without thousands."""
    digits = 0 if abs(number) >= 100 else 3 - len(f"{abs(number):.0f}".lstrip("0"))
    # Three digits, whatever their place: 0.000454, 1.25, 12.5, 1250.
    small = f"{number:.3g}" if abs(number) < 1 else f"{number:.{digits}f}"
    text = f"{float(small):f}".rstrip("0").rstrip(".") or "0"
    return text.replace("-", "−")


def _forgiven(unit: str, dimension: Dimension, number: str = "") -> str:
    """Give the known unit that a unit written in other case stands for, where only one can."""
    same = [known for known in dimension.units if known.lower() == unit.lower()]
    if len(same) == 1:
        return same[0]
    says = f"{unit!r} is no unit of {dimension.name}"
    meant = unit_meant(unit, dimension.units)
    if meant and bare_number(number) is not None:
        raise QuantityError("unit-unknown", says, f"write {number.strip()} {meant}")
    known = ", ".join(dimension.units)
    raise QuantityError("unit-unknown", says, f"known are {known}; write {dimension.examples}")


def _in_one_unit(text: str, dimension: Dimension) -> str:
    """Give a quantity told in two units, such as feet and inches, in the smaller; else ""."""
    parts = two_parts(text, dimension.units)
    if parts is None:
        return ""
    try:
        values = [
            _to_canonical(read_number(number), dimension.units[unit], dimension.canonical)
            for number, unit in parts
        ]
    except QuantityError:
        return ""
    unit = parts[1][1]
    total = _from_canonical(sum(values), dimension.units[unit], dimension.canonical)
    return f"{_digits(total, 2).replace(',', '')} {unit}"


@cache
def _registry() -> Any:
    """Give the one pint registry; built when first needed, since it is slow to load."""
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@cache
def _line(unit: str, canonical: str) -> tuple[float, float]:
    """Give factor and offset from a unit to our own: from the table, else from pint."""
    known = FACTORS.get((unit, canonical))
    if known is not None:
        return known
    registry = _registry()
    zero = registry.Quantity(0.0, unit).to(canonical).magnitude
    one = registry.Quantity(1.0, unit).to(canonical).magnitude
    return float(one - zero), float(zero)


def _to_canonical(value: float, unit: str, canonical: str) -> float:
    factor, offset = _line(unit, canonical)
    return value * factor + offset


def _from_canonical(value: float, unit: str, canonical: str) -> float:
    factor, offset = _line(unit, canonical)
    return (value - offset) / factor


# ---------------------------------------------------------------------------------------------
# float → text

NBSP = "\u00a0"  # number and unit stay on one line


def rounded(value: float, decimals: int = 0) -> float:
    """Round half up, as the script in the page rounds.

    The nudge keeps 2.675 and its like, which binary floats hold a hair too low, from going down.
    """
    scale = 10.0**decimals
    return float(math.floor(value * scale + 0.5 + 1e-9) / scale)


def _digits(value: float, decimals: int) -> str:
    """Give a rounded number with thousands apart and no trailing zeros."""
    number = rounded(value, decimals)
    text = f"{number:,.{decimals}f}"
    if decimals:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text.replace("-", "−")


# Each row: below this value (in the unit we compute in), this unit with so many decimals. Three
# digits say all that an estimate knows.
_Row = tuple[float, str, str, int]
_SHOWN: dict[tuple[str, System], tuple[_Row, ...]] = {
    ("mass_g", "metric"): (
        (10, "g", "gram", 1), (999.5, "g", "gram", 0), (9995, "kg", "kilogram", 2),
        (math.inf, "kg", "kilogram", 1),
    ),
    ("mass_g", "us"): (
        (453.592, "oz", "ounce", 1), (4533.6, "lb", "pound", 2), (math.inf, "lb", "pound", 1),
    ),
    ("volume_ml", "metric"): (
        (999.5, "ml", "milliliter", 0), (9995, "l", "liter", 2), (math.inf, "l", "liter", 1),
    ),
    ("volume_ml", "us"): (
        (14.7, "tsp", "teaspoon", 1), (236.5, "fl oz", "fluid_ounce", 1),
        (3785.4, "cups", "cup", 1), (37835, "gal", "gallon", 2),
        (math.inf, "gal", "gallon", 1),
    ),
    ("temperature_c", "metric"): ((math.inf, "°C", "degree_Celsius", 0),),
    ("temperature_c", "us"): ((math.inf, "°F", "degree_Fahrenheit", 0),),
    ("length_m", "metric"): ((2000, "m", "meter", 0), (math.inf, "km", "kilometer", 1)),
    ("length_m", "us"): ((1609.344, "ft", "foot", 0), (math.inf, "mi", "mile", 1)),
    ("altitude_m", "metric"): ((math.inf, "m", "meter", 0),),
    ("altitude_m", "us"): ((math.inf, "ft", "foot", 0),),
    ("energy_kcal", "metric"): ((math.inf, "kcal", "kilocalorie", 0),),
    ("pressure_hpa", "metric"): ((math.inf, "hPa", "hectopascal", 0),),
    ("pressure_hpa", "us"): ((math.inf, "inHg", "inch_Hg", 1),),
    ("power_w", "metric"): ((math.inf, "W", "watt", 0),),
}  # fmt: skip


def show(value: float, quantity: str, units: System = "metric") -> str:
    """Give a quantity as people read it, such as `412 g`, `1.25 kg`, `1 h 10 min` or `15 %`."""
    return _show(float(value), quantity, units)


@lru_cache(maxsize=16_384)  # what people share is shown for each of them
def _show(value: float, quantity: str, units: System) -> str:
    if quantity == "duration_min":
        return _show_minutes(value)
    if quantity == "hours":
        return _show_minutes(value * 60)
    if quantity == "share":
        return f"{_digits(value * 100, 0)}{NBSP}%"
    rows = _SHOWN.get((quantity, units)) or _SHOWN[(quantity, "metric")]
    for below, word, unit, decimals in rows:
        if abs(value) < below:
            number = _from_canonical(value, unit, DIMENSIONS[quantity].canonical)
            text = _spoons(number) if word == "tsp" else _digits(number, decimals)
            if word == "cups" and text == "1":
                word = "cup"
            return f"{text}{NBSP}{word}"
    raise AssertionError(f"no row for {quantity}")  # pragma: no cover - the last row is endless


def _spoons(spoons: float) -> str:
    """Give teaspoons as a set of spoons measures them: in quarters, and one eighth."""
    if rounded(spoons * 8) == 1:
        return "⅛"
    return _in_quarters(int(rounded(spoons * 4)))


def _show_minutes(minutes: float) -> str:
    if 0 < rounded(minutes * 60) < 60:
        return f"{_digits(minutes * 60, 0)}{NBSP}s"
    whole = int(rounded(minutes))
    hours, rest = divmod(whole, 60)
    if not hours:
        return f"{rest}{NBSP}min"
    return f"{hours}{NBSP}h {rest}{NBSP}min" if rest else f"{hours}{NBSP}h"


def other_system(units: System) -> System:
    """Give the other system of units."""
    return "us" if units == "metric" else "metric"


def shown_both(value: float, quantity: str, units: System = "metric") -> tuple[str, str]:
    """Give a quantity in the trip's units and in the other ones; "" where both are the same."""
    first = show(value, quantity, units)
    other = show(value, quantity, other_system(units))
    return first, "" if other == first else other


def show_at_least(temperature_c: float, units: System = "metric") -> str:
    """Give a temperature to reach, rounded up: a safe limit is never rounded down."""
    unit, word = ("degree_Celsius", "°C") if units == "metric" else ("degree_Fahrenheit", "°F")
    number = _from_canonical(temperature_c, unit, "degree_Celsius")
    return f"{math.ceil(number - 1e-9)}{NBSP}{word}"


# In a text: the quantity as one says it in metric units, and as one says it in US ones.
_HALF = "[^{}|]+"
_BOTH = re.compile(rf"\{{(?P<metric>{_HALF})\|(?P<us>{_HALF})\}}")
_BOTH_IN_TEXT = re.compile(rf"(\{{{_HALF}\|{_HALF}\}})")
_IN_BRACES = re.compile(r"\{[^{}]*\|[^{}]*\}|\{\s*[-+−]?\d[\d.,]*\s*[°A-Za-z][^{}]*\}")
_SIGNS = {"degC": "°C", "degF": "°F"}
_SAME_TEMPERATURE_K, _SAME_SHARE = 1.0, 0.05


def in_units(text: str, units: System, worded: Callable[[str], str] = str) -> str:
    """Fill the quantities of a text, written as {74 degC|165 degF}, with those of a system."""
    return _BOTH.sub(lambda both: worded(_filled(both[units])), text)


def in_both(text: str, units: System, worded: Callable[[str], str] = str) -> str:
    """Fill the quantities of a text with those of a system, and the other's in brackets behind."""

    def shown(both: re.Match[str]) -> str:
        own, other = (worded(_filled(both[each])) for each in (units, other_system(units)))
        return own if other == own else f"{own} ({other})"

    return _BOTH.sub(shown, text)


def _filled(told: str) -> str:
    number, unit = _split(told)
    return f"{_digits(read_number(number), 2)}{NBSP}{_SIGNS.get(unit, unit)}"


def parted(text: str) -> list[str]:
    """Part a text: every second part is a quantity, written as {74 degC|165 degF}."""
    return _BOTH_IN_TEXT.split(text)


def uneven(text: str) -> tuple[str, ...]:
    """Give what stands in braces, looks like a quantity and is not told twice alike."""
    return tuple(each for each in _IN_BRACES.findall(text) if not _is_told_twice(each))


def odd_blanks(text: str) -> tuple[str, ...]:
    """Give what stands in braces and is no quantity told twice, in metric units and in US ones."""
    return tuple(each for each in re.findall(r"\{[^{}]*\}|[{}]", text) if not _is_told_twice(each))


def _is_told_twice(blank: str) -> bool:
    both = _BOTH.fullmatch(blank)
    if not both:
        return False
    for quantity in ("temperature_c", "length_m", "mass_g", "volume_ml"):
        try:
            metric, us = (read_quantity(both[system], quantity) for system in ("metric", "us"))
        except QuantityError:
            continue
        if quantity == "temperature_c":
            return abs(metric - us) <= _SAME_TEMPERATURE_K
        return abs(metric - us) <= _SAME_SHARE * metric
    return False


def _split(quantity: str) -> tuple[str, str]:
    """Part a quantity that was read before into its number and its unit."""
    match = _SPLIT.fullmatch(quantity.strip())
    assert match is not None and match["unit"]
    return match["number"], match["unit"].strip()


# Mugs stand beside millilitres only where they pour the same to a twentieth.
_MUGS_OFF_SHARE = 0.05
_SLACK = 1e-9
_QUARTERS = ("", "¼", "½", "¾")


def mugs(volume_ml: float, mug_ml: float) -> str:
    """Give a volume in mugs of the trip's own size, to the quarter; "" where that is off."""
    quarters = int(rounded(volume_ml / mug_ml * 4))
    if abs(quarters * mug_ml / 4 - volume_ml) > _MUGS_OFF_SHARE * volume_ml + _SLACK:
        return ""
    return f"{_in_quarters(quarters)}{NBSP}{'mug' if 0 < quarters <= 4 else 'mugs'}"


def ladles(halves: int) -> str:
    """Give so many half ladles: `1½ ladles`."""
    return f"{_in_quarters(2 * halves)}{NBSP}{'ladle' if 0 < halves <= 2 else 'ladles'}"


def in_halves(halves: int) -> str:
    """Give so many halves without a word: `1½`."""
    return _in_quarters(2 * halves)


def _in_quarters(quarters: int) -> str:
    whole, part = divmod(quarters, 4)
    return f"{whole or ''}{_QUARTERS[part]}" or "0"
