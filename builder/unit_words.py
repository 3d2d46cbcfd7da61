"""What people write for a unit, and quantities of two parts: taken apart to say what would do.

Nothing here is ever taken for the quantity itself: whoever wrote it is shown what it would be.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cache

# Our unit → what people write for it, parted by commas, in the languages of the tool.
_WRITTEN: Mapping[str, str] = {
    "degC": "c, celsius, centigrade, deg c, degrees c, degrees celsius, grad, grad celsius, grader",
    "degF": "f, fahrenheit, deg f, degrees f, degrees fahrenheit, grad fahrenheit",
    "mg": "milligram, milligrams, milligramm",
    "g": "gr, gram, grams, gramme, grammes, gramm",
    "kg": "kilo, kilos, kilogram, kilograms, kilogramm",
    "oz": "ounce, ounces, unze, unzen, unse, unser",
    "fl oz": "oz, ounce, ounces, fluid ounce, fluid ounces, floz, fl. oz, fl.oz",
    "lb": "pound, pounds, #",
    "ml": "cc, milliliter, milliliters, millilitre, millilitres",
    "cl": "centiliter, centilitre",
    "dl": "deciliter, decilitre, deziliter, desiliter",
    "l": "liter, liters, litre, litres, ltr",
    "tsp": "t, teaspoon, teaspoons, tl, teelöffel, ts, teskje, teskjeer",
    "tbsp": "tbs, tablespoon, tablespoons, el, esslöffel, ss, spiseskje, spiseskjeer",
    "cup": "c, tasse, kopp",
    "cups": "tassen, kopper",
    "pint": "pt",
    "qt": "quart, quarts",
    "gal": "gallon, gallons",
    "mm": "millimeter, millimeters, millimetre, millimetres",
    "cm": "centimeter, centimeters, centimetre, centimetres, zentimeter",
    "m": "meter, meters, metre, metres, moh, m ü. m., müm",
    "km": "kilometer, kilometers, kilometre, kilometres, kms",
    "in": '", ”, ″, inch, inches, zoll, tommer',
    "ft": "', ’, ′, foot, feet, fuß, fot",
    "yd": "yard, yards",
    "mi": "mile, miles, meile, meilen",
    "s": "sec, secs, second, seconds, sek, sekunden, sekunder",
    "min": "mins, minute, minutes, minuten, minutter, '",
    "h": "hr, hrs, hour, hours, std, stunde, stunden, t, time, timer",
    "days": "d, tag, tage, dag, dager",
    "months": "mo, mos, monat, monate, måned, måneder",
    "weeks": "wk, wks, woche, wochen, uke, uker",
    "years": "y, yr, yrs, jahr, jahre, år",
    "kcal": "cal, cals, calorie, calories, kilocalories, kalorien, kalorier",
    "kJ": "kilojoule, kilojoules",
    "W": "watt, watts",
    "kW": "kilowatt, kilowatts",
    "hPa": "millibars, hectopascal",
    "%": "percent, per cent, prozent, prosent",
}
# A number and its unit, and a second number, of which some leave the unit out: 6'1.
_TWO = re.compile(r"([0-9.,]+)\s*([^0-9\s.,]+)\s*([0-9.,]+)\s*([^0-9\s.,]*)")
_SMALLER = {"ft": "in", "lb": "oz", "lbs": "oz", "h": "min"}


def unit_meant(written: str, known: Iterable[str]) -> str | None:
    """Give the one of some units that somebody may mean by a word, or None."""
    units = list(known)
    word = " ".join(written.casefold().split())
    same = [unit for unit in units if unit.casefold() == word]
    meant = (unit for unit in _meant_by().get(word.removesuffix("."), ()) if unit in units)
    return same[0] if same else next(meant, None)


def two_parts(text: str, known: Iterable[str]) -> tuple[tuple[str, str], tuple[str, str]] | None:
    """Take a quantity of two parts apart, such as `5 ft 6 in`; None where it is not such a one."""
    found = _TWO.fullmatch(text.strip())
    if not found:
        return None
    units = list(known)
    first = unit_meant(found[2], units)
    second = unit_meant(found[4], units) if found[4] else _SMALLER.get(first or "")
    if first is None or second is None or _SMALLER.get(first) != second:
        return None
    return (found[1], first), (found[3], second)


@cache
def _meant_by() -> Mapping[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for written, unit in _pairs():
        found.setdefault(written.removesuffix("."), []).append(unit)
    return {written: tuple(units) for written, units in found.items()}


def _pairs() -> Iterator[tuple[str, str]]:
    for unit, words in _WRITTEN.items():
        yield from ((each.strip().casefold(), unit) for each in words.split(","))
