"""What people write for units, and quantities of two parts."""

from __future__ import annotations

import pytest

from builder import unit_words
from builder.unit_words import two_parts, unit_meant
from builder.units import DIMENSIONS, bare_number

KNOWN = {unit for each in DIMENSIONS.values() for unit in each.units}


def test_each_row_is_of_a_unit_of_ours_and_tells_a_word_once() -> None:
    assert set(unit_words._WRITTEN) <= KNOWN
    for unit, words in unit_words._WRITTEN.items():
        each = [word.strip() for word in words.split(",")]
        assert len(each) == len(set(each)) and all(each), unit


@pytest.mark.parametrize("name", DIMENSIONS)
def test_no_word_stands_for_two_units_of_one_kind(name: str) -> None:
    """`t` is a teaspoon or an hour, and never in the same place."""
    units = DIMENSIONS[name].units
    own = {unit.casefold() for unit in units}
    for word, meant in unit_words._meant_by().items():
        here = {units[unit] for unit in meant if unit in units}
        assert len(here) <= 1, word
        assert not here or word not in own, word


@pytest.mark.parametrize(
    ("written", "quantity", "meant"),
    [
        ("Miles", "length_m", "mi"),
        ("Grad  Celsius", "air_c", "degC"),
        ("lbs", "mass_g", "lbs"),
        ("Std.", "duration_h", "h"),
        ("t", "volume_ml", "tsp"),
        ("t", "duration_h", "h"),
        ("oz", "mass_g", "oz"),
        ("oz", "volume_ml", "fl oz"),
        ("miles", "mass_g", None),
        ("", "mass_g", None),
        (".", "mass_g", None),
    ],
)
def test_a_unit_is_known_by_what_people_write(
    written: str, quantity: str, meant: str | None
) -> None:
    assert unit_meant(written, DIMENSIONS[quantity].units) == meant


@pytest.mark.parametrize(
    ("text", "quantity", "parts"),
    [
        ("5 ft 6 in", "height_cm", (("5", "ft"), ("6", "in"))),
        ("6'1", "height_cm", (("6", "ft"), ("1", "in"))),
        ("2 pounds 4 ounces", "mass_g", (("2", "lb"), ("4", "oz"))),
        ("1 Std 30 Minuten", "duration_min", (("1", "h"), ("30", "min"))),
        ("6 in 5 ft", "height_cm", None),  # the smaller first is a slip
        ("5 ft 6 cm", "height_cm", None),
        ("5 ft", "height_cm", None),
        ("5 ft 6 in 1 in", "height_cm", None),
        ("5 ft 6 in", "mass_g", None),
    ],
)
def test_two_parts_are_taken_apart_where_they_go_together(
    text: str, quantity: str, parts: tuple[tuple[str, str], tuple[str, str]] | None
) -> None:
    assert two_parts(text, DIMENSIONS[quantity].units) == parts


@pytest.mark.parametrize(
    ("text", "units", "number"),
    [
        ("8", (), "8"),
        ("1,5", (), "1.5"),
        ("-3 Stunden", ("h",), "-3"),
        ("34 Jahre", ("years",), "34"),
        ("90 min", ("h",), None),  # not 90 hours
        ("1,000", (), None),  # one or a thousand
        ("many", (), None),
        ("8" * 61, (), None),
    ],
)
def test_a_bare_number_is_found_where_nothing_else_can_be_meant(
    text: str, units: tuple[str, ...], number: str | None
) -> None:
    assert bare_number(text, units) == number
