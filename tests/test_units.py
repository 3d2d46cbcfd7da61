# ruff: noqa: E501 - the lines that people read stand whole
"""Text with units → float, float → text, in both systems."""

from __future__ import annotations

import math
import subprocess
import sys
import time
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.units import (
    DIMENSIONS,
    NBSP,
    QuantityError,
    System,
    mugs,
    read_number,
    read_quantity,
    rounded,
    show,
    show_at_least,
    shown_both,
)

LAW = settings(max_examples=150, derandomize=True, deadline=None)

# Exact by definition: NIST Special Publication 811 (2008), appendix B, quoted from memory.
OUNCE_G = 28.349523125
POUND_G = 453.59237
CUP_ML = 236.5882365  # US cup: half a US pint, a sixteenth of 231 cubic inches · 2.54³
MILE_M = 1609.344
CALORIE_J = 4.184


# -- numbers ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("5", 5.0),
        ("1.5", 1.5),
        ("1,5", 1.5),
        ("0,125", 0.125),
        ("1.500", 1.5),
        ("1500", 1500.0),
        ("007", 7.0),
        ("+5", 5.0),
        ("-5", -5.0),
        ("−5", -5.0),
        ("1/2", 0.5),
        ("3/2", 1.5),
        ("1 1/2", 1.5),
        ("½", 0.5),
        ("1½", 1.5),
        ("1 ½", 1.5),
        ("⅓", 1 / 3),
        ("2⅔", 8 / 3),
        ("⅛", 0.125),
        ("⅞", 0.875),
        ("¼", 0.25),
        ("¾", 0.75),
        ("⅜", 0.375),
        ("⅝", 0.625),
        ("999999999999999", 999999999999999.0),
    ],
)
def test_numbers_are_read_as_people_write_them(text: str, number: float) -> None:
    assert read_number(text) == number


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("", "number"),
        ("x", "number"),
        ("1 500", "number"),
        ("1'500", "number"),
        ("1_500", "number"),
        ("1,500,000", "number"),
        ("1,500", "number-unclear"),
        ("12,345", "number-unclear"),
        ("1.2.3", "number"),
        (".5", "number"),
        ("5.", "number"),
        ("1e3", "number"),
        ("nan", "number"),
        ("inf", "number"),
        ("1/0", "number"),
        ("-1/2", "number"),
        ("1/2/3", "number"),
        ("½½", "number"),
        ("1-2", "number"),
        ("٣", "number"),
        ("²", "number"),
        ("9" * 16, "number"),
        ("1" * 5000, "number"),
    ],
)
def test_what_is_no_number_or_could_be_two_is_refused(text: str, kind: str) -> None:
    with pytest.raises(QuantityError) as caught:
        read_number(text)
    assert caught.value.kind == kind
    assert len(str(caught.value)) < 200


# -- quantities ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "quantity", "value"),
    [
        ("250 g", "mass_g", 250),
        ("250g", "mass_g", 250),
        ("250\u00a0g", "mass_g", 250),
        (" 250  g ", "mass_g", 250),
        ("250 G", "mass_g", 250),
        ("1,5 kg", "mass_g", 1500),
        ("1.5 KG", "mass_g", 1500),
        ("9 oz", "mass_g", 9 * OUNCE_G),
        ("2 lb", "mass_g", 2 * POUND_G),
        ("2 lbs", "mass_g", 2 * POUND_G),
        ("500 mg", "mass_g", 0.5),
        ("0.12 g", "sodium_mg", 120),
        ("64 kg", "body_kg", 64),
        ("141 lb", "body_kg", 141 * POUND_G / 1000),
        ("1.5 l", "volume_ml", 1500),
        ("1.5 L", "volume_ml", 1500),
        ("2 dl", "volume_ml", 200),
        ("3 cl", "volume_ml", 30),
        ("1 cup", "volume_ml", CUP_ML),
        ("2 cups", "volume_ml", 2 * CUP_ML),
        ("1½ cups", "volume_ml", 1.5 * CUP_ML),
        ("1 1/2 cups", "volume_ml", 1.5 * CUP_ML),
        ("1 tbsp", "volume_ml", CUP_ML / 16),
        ("1 tsp", "volume_ml", CUP_ML / 48),
        ("1 fl oz", "volume_ml", CUP_ML / 8),
        ("1 pint", "volume_ml", 2 * CUP_ML),
        ("2 pints", "volume_ml", 4 * CUP_ML),
        ("1 qt", "volume_ml", 4 * CUP_ML),
        ("1 gal", "volume_ml", 16 * CUP_ML),
        ("20 degC", "temperature_c", 20),
        ("20 °C", "temperature_c", 20),
        ("20 degc", "temperature_c", 20),
        ("-4 degC", "air_c", -4),
        ("−4 °C", "air_c", -4),
        ("212 degF", "temperature_c", 100),
        ("32 °F", "water_c", 0),
        ("-40 degF", "air_c", -40),
        ("273.15 K", "temperature_c", 0),
        ("13 km", "length_m", 13000),
        ("2100 ft", "altitude_m", 2100 * 0.3048),
        ("-420 m", "altitude_m", -420),
        ("8 mi", "length_m", 8 * MILE_M),
        ("10 yd", "length_m", 9.144),
        ("68 in", "height_cm", 68 * 2.54),
        ("1.83 m", "height_cm", 183),
        ("20 min", "duration_min", 20),
        ("1.5 h", "duration_min", 90),
        ("30 s", "duration_min", 0.5),
        ("90 min", "duration_h", 1.5),
        ("1 day", "duration_h", 24),
        ("2 days", "duration_min", 2880),
        ("15 %", "share", 0.15),
        ("12,5%", "share", 0.125),
        ("100 %", "share", 1),
        ("60 %", "wood_moisture_share", 0.6),
        ("132 kcal", "energy_kcal", 132),
        ("552 kJ", "energy_kcal", 552 / CALORIE_J),
        ("1 MJ", "energy_kcal", 1000 / CALORIE_J),
        ("2.6 kW", "power_w", 2600),
        ("940 hPa", "pressure_hpa", 940),
        ("940 mbar", "pressure_hpa", 940),
        ("94 kPa", "pressure_hpa", 940),
        ("29.92 inHg", "pressure_hpa", 1013.2),
        ("760 mmHg", "pressure_hpa", 1013.25),
        ("45.8 MJ/kg", "energy_mj_kg", 45.8),
        ("45.8 kJ/g", "energy_mj_kg", 45.8),
        ("10950 kcal/kg", "energy_mj_kg", 10.95 * CALORIE_J),
        ("0.72 g/ml", "density_g_ml", 0.72),
        ("0.8 bar", "gauge_kpa", 80.0),
        ("15 psi", "gauge_kpa", 15 * 6.894757293),
        ("140 cm2", "area_cm2", 140.0),
        ("0.46 m2", "area_cm2", 4600.0),
        ("2 in2", "area_cm2", 2 * 2.54**2),
        ("720 kg/m3", "density_g_ml", 0.72),
        ("0,72 kg/l", "density_g_ml", 0.72),
    ],
)
def test_quantities_become_floats_of_one_unit(text: str, quantity: str, value: float) -> None:
    close = 2e-4 if "Hg" in text else 1e-9
    assert read_quantity(text, quantity) == pytest.approx(value, rel=close, abs=1e-9)


G = "250 g, 1.5 kg or 9 oz"
MASSES = "mg, g, kg, oz, lb, lbs"


@pytest.mark.parametrize(
    ("text", "quantity", "kind", "says"),
    [
        (
            "5",
            "mass_g",
            "unit-missing",
            f"'5' has no unit — write one of {MASSES} behind it, such as {G}",
        ),
        (
            "0.15",
            "share",
            "unit-missing",
            "'0.15' has no unit — write one of % behind it, such as 15 %",
        ),
        (
            "1,125",
            "mass_g",
            "unit-missing",
            f"'1,125' has no unit — write one of {MASSES} behind it, such as {G}",
        ),
        (
            "1 pinch",
            "mass_g",
            "unit-unknown",
            f"'pinch' is no unit of mass — known are {MASSES}; write {G}",
        ),
        (
            "2 cups",
            "mass_g",
            "unit-unknown",
            f"'cups' is no unit of mass — known are {MASSES}; write {G}",
        ),
        (
            "20 C",
            "air_c",
            "unit-unknown",
            "'C' is no unit of air temperature — write 20 degC",
        ),
        (
            "15 percent",
            "share",
            "unit-unknown",
            "'percent' is no unit of share — write 15 %",
        ),
        ("", "mass_g", "quantity", f"'' is no mass — write {G}"),
        ("g", "mass_g", "quantity", f"'g' is no mass — write {G}"),
        ("nan g", "mass_g", "quantity", f"'nan g' is no mass — write {G}"),
        (".inf kg", "mass_g", "quantity", f"'.inf kg' is no mass — write {G}"),
        ("about 5 g", "mass_g", "quantity", f"'about 5 g' is no mass — write {G}"),
        ("1e3 g", "mass_g", "quantity", f"'1e3 g' is not one number and one unit — write {G}"),
        (
            "5 ft 8 in",
            "height_cm",
            "quantity",
            "'5 ft 8 in' is not one number and one unit — write 68 in",
        ),
        (
            "1 h 30 min",
            "duration_min",
            "quantity",
            "'1 h 30 min' is not one number and one unit — write 90 min",
        ),
        (
            "6'1\"",
            "height_cm",
            "quantity",
            "'6\\'1\"' is not one number and one unit — write 73 in",
        ),
        (
            "2 lbs 4.5oz",
            "mass_g",
            "quantity",
            "'2 lbs 4.5oz' is not one number and one unit — write 36.5 oz",
        ),
        (
            "1h30",
            "duration_min",
            "quantity",
            "'1h30' is not one number and one unit — write 90 min",
        ),
        # Two that do not go together, or a number that is none: no sum is made of them.
        (
            "2 kg 300 g",
            "mass_g",
            "quantity",
            f"'2 kg 300 g' is not one number and one unit — write {G}",
        ),
        (
            "2 lb 4 ft",
            "mass_g",
            "quantity",
            f"'2 lb 4 ft' is not one number and one unit — write {G}",
        ),
        (
            "2 lb 1,500 oz",
            "mass_g",
            "quantity",
            f"'2 lb 1,500 oz' is not one number and one unit — write {G}",
        ),
        ("12 oz", "volume_ml", "unit-unknown", "'oz' is no unit of volume — write 12 fl oz"),
        ("1½ EL", "volume_ml", "unit-unknown", "'EL' is no unit of volume — write 1 1/2 tbsp"),
        ("1,5 Std.", "duration_h", "unit-unknown", "'Std.' is no unit of time — write 1,5 h"),
        (
            "1,500 pounds",
            "mass_g",
            "unit-unknown",
            f"'pounds' is no unit of mass — known are {MASSES}; write {G}",
        ),
        (
            "5 g\n6 g",
            "mass_g",
            "quantity",
            rf"'5 g\n6 g' is not one number and one unit — write {G}",
        ),
        (
            "2–3 kg",
            "mass_g",
            "number",
            "'2–3' is not one number — write it like 0.5, 1/2 or 1500, thousands not apart",
        ),
        (
            "1 500 g",
            "mass_g",
            "number",
            "'1 500' is not one number — write it like 0.5, 1/2 or 1500, thousands not apart",
        ),
        (
            "1,500 g",
            "mass_g",
            "number-unclear",
            "'1,500' could mean 1500 or 1.500 — write 1500 or 1.5",
        ),
        (
            "1.000 g",
            "mass_g",
            "number-unclear",
            "'1.000 g' could mean 1 or 1000 g — write 1 g or 1000 g",
        ),
        (
            "12.540 ml",
            "volume_ml",
            "number-unclear",
            "'12.540 ml' could mean 12.54 or 12540 ml — write 12.54 ml or 12540 ml",
        ),
        (
            "1.032 m",
            "length_m",
            "number-unclear",
            "'1.032 m' could mean 1.0320 or 1032 m — write 1.0320 m or 1032 m",
        ),
        ("1/0 kg", "mass_g", "number", "'1/0' divides by zero — write a number such as 1/2"),
        (
            "-5 g",
            "mass_g",
            "out-of-range",
            f"'-5 g' is out of range — write 0 g or more, such as {G}",
        ),
        (
            "900 degC",
            "air_c",
            "out-of-range",
            "'900 degC' is out of range — write at most 60 degC, such as 4 degC or 39 degF",
        ),
        (
            "-100 degF",
            "air_c",
            "out-of-range",
            "'-100 degF' is out of range — write −70 degC or more, such as 4 degC or 39 degF",
        ),
        (
            "150 %",
            "share",
            "out-of-range",
            "'150 %' is out of range — write at most 100 %, such as 15 %",
        ),
        (
            "-1 %",
            "share",
            "out-of-range",
            "'-1 %' is out of range — write 0 % or more, such as 15 %",
        ),
        (
            "999999999999999 kg",
            "mass_g",
            "out-of-range",
            f"'999999999999999 kg' is out of range — write at most 10000000 g, such as {G}",
        ),
        (
            "9001 m",
            "altitude_m",
            "out-of-range",
            "'9001 m' is out of range — write at most 9000 m, such as 640 m or 2100 ft",
        ),
        (
            "0 g/ml",
            "density_g_ml",
            "out-of-range",
            "'0 g/ml' is out of range — write 0.01 g/ml or more, such as 0.72 g/ml",
        ),
        (
            "2 kg",
            "body_kg",
            "out-of-range",
            "'2 kg' is out of range — write 3 kg or more, such as 64 kg or 141 lb",
        ),
        ("x" * 100, "mass_g", "quantity", f"'{'x' * 57}…' is no mass — write {G}"),
    ],
)
def test_what_is_no_quantity_is_refused_with_what_would_do(
    text: str, quantity: str, kind: str, says: str
) -> None:
    with pytest.raises(QuantityError) as caught:
        read_quantity(text, quantity)
    assert caught.value.kind == kind
    assert str(caught.value) == says


@pytest.mark.parametrize("quantity", sorted(DIMENSIONS))
def test_every_example_and_every_bound_that_is_shown_can_be_read(quantity: str) -> None:
    dimension = DIMENSIONS[quantity]
    for example in dimension.examples.replace(" or ", ", ").split(", "):
        value = read_quantity(example, quantity)
        assert dimension.lowest <= value <= dimension.highest
    for beyond, bound in ((-math.inf, dimension.lowest), (math.inf, dimension.highest)):
        shown = dimension.bound_shown(beyond).removeprefix("at most ").removesuffix(" or more")
        assert read_quantity(shown, quantity) == pytest.approx(bound, rel=1e-9, abs=1e-12)


@pytest.mark.parametrize("quantity", sorted(DIMENSIONS))
def test_every_listed_unit_is_one_that_can_be_read(quantity: str) -> None:
    dimension = DIMENSIONS[quantity]
    for unit in dimension.units:
        try:
            read_quantity(f"20 {unit}", quantity)
        except QuantityError as error:
            assert error.kind == "out-of-range"


def test_a_unit_that_differs_only_in_case_is_read_where_it_is_plain() -> None:
    for dimension in DIMENSIONS.values():
        lower = [unit.lower() for unit in dimension.units]
        assert len(set(lower)) == len(lower), "else a slip of the shift key changes the meaning"


@pytest.mark.parametrize(
    "text",
    ["1" * 1_000_000, "1\t" * 500_000 + "1", " " * 1_000_000, "1 " * 500_000 + "x", "½" * 300_000],
)
def test_an_endless_text_is_refused_at_once(text: str) -> None:
    began = time.process_time()
    with pytest.raises(QuantityError) as caught:
        read_quantity(text, "mass_g")
    assert time.process_time() - began < 0.5
    assert len(str(caught.value)) < 200


@LAW
@given(st.text(max_size=40) | st.text("0123456789.,/ -+½¼⅓gkml°CF%\n", max_size=20))
def test_no_text_raises_anything_else(text: str) -> None:
    for quantity in ("mass_g", "temperature_c", "share", "volume_ml"):
        try:
            value = read_quantity(text, quantity)
        except QuantityError as error:
            assert error.says and error.mend
            assert "\n" not in str(error)
        else:
            assert DIMENSIONS[quantity].lowest <= value <= DIMENSIONS[quantity].highest


@LAW
@given(st.sampled_from(sorted(DIMENSIONS)), st.floats(0, 1), st.data())
def test_what_is_written_in_any_unit_is_read_back(
    quantity: str, along: float, data: st.DataObject
) -> None:
    """The unit changes nothing: value → text in a unit → the same value."""
    dimension = DIMENSIONS[quantity]
    unit = data.draw(st.sampled_from(sorted(dimension.units)))
    value = dimension.lowest + along * (dimension.highest - dimension.lowest)
    one, zero = read_raw(1, unit, quantity), read_raw(0, unit, quantity)
    number = (value - zero) / (one - zero)
    text = f"{number:.9f}"
    if abs(number) >= 1e14:
        return
    slack = 1e-9 * abs(one - zero) + 1e-9 * max(1.0, abs(value))
    try:
        found = read_quantity(f"{text} {unit}", quantity)
    except QuantityError as error:
        assert error.kind == "out-of-range"
        assert min(abs(value - dimension.lowest), abs(value - dimension.highest)) <= slack
    else:
        assert abs(found - value) <= slack


def read_raw(number: float, unit: str, quantity: str) -> float:
    """Convert without the bounds of the quantity, through the table of factors itself."""
    dimension = DIMENSIONS[quantity]
    written = factors().Quantity(float(number), dimension.units[unit])
    return float(written.to(dimension.canonical).magnitude)


@cache
def factors() -> Any:
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


SHOWN_LIKE = {
    "mass_g": ["g", "kg", "oz", "lb"],
    "volume_ml": ["ml", "l", "tsp", "fl oz", "cups", "gal"],
    "temperature_c": ["°C", "°F"],
    "length_m": ["m", "km", "ft", "mi"],
    "energy_kcal": ["kcal"],
}


@LAW
@given(st.sampled_from(sorted(SHOWN_LIKE)), st.floats(0, 390), st.sampled_from(["metric", "us"]))
def test_what_is_shown_can_be_read_again(quantity: str, value: float, units: System) -> None:
    """Up to the digits shown; a thousand is shown apart and must not be typed so."""
    text = show(value, quantity, units)
    number, unit = text.split(NBSP, 1)
    if "," in number:
        with pytest.raises(QuantityError, match="could mean"):
            read_quantity(text, quantity)
        return
    assert unit in [*SHOWN_LIKE[quantity], "cup"]
    step = read_raw(1, unit, quantity) - read_raw(0, unit, quantity)
    decimals = len(number.partition(".")[2])
    found = read_quantity(text, quantity)
    assert abs(found - value) <= step * max(0.5 * 10**-decimals, 0.05 if decimals else 0.5) + 1e-6


# -- float → text -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "decimals", "expected"),
    [
        (0.5, 0, 1.0),
        (1.5, 0, 2.0),
        (2.5, 0, 3.0),
        (0.49, 0, 0.0),
        (2.675, 2, 2.68),
        (1.005, 2, 1.01),
        (0.285, 2, 0.29),
        (-0.5, 0, 0.0),
        (-2.5, 0, -2.0),
        (-2.51, 0, -3.0),
        (1234.5678, 1, 1234.6),
    ],
)
def test_halves_go_up_as_in_the_page(value: float, decimals: int, expected: float) -> None:
    assert rounded(value, decimals) == expected


@LAW
@given(st.floats(-1e6, 1e6), st.integers(0, 3))
def test_rounding_moves_by_half_a_step_at_most(value: float, decimals: int) -> None:
    assert abs(rounded(value, decimals) - value) <= 0.5 / 10**decimals + 1e-6
    assert rounded(rounded(value, decimals), decimals) == rounded(value, decimals)


@pytest.mark.parametrize(
    ("value", "quantity", "metric", "us"),
    [
        (0, "mass_g", "0 g", "0 oz"),
        (0.04, "mass_g", "0 g", "0 oz"),
        (7.25, "mass_g", "7.3 g", "0.3 oz"),
        (9.96, "mass_g", "10 g", "0.4 oz"),
        (412.4, "mass_g", "412 g", "14.5 oz"),
        (453.59237, "mass_g", "454 g", "1 lb"),
        (999.4, "mass_g", "999 g", "2.2 lb"),
        (999.5, "mass_g", "1 kg", "2.2 lb"),
        (1254, "mass_g", "1.25 kg", "2.76 lb"),
        (4533.5, "mass_g", "4.53 kg", "9.99 lb"),
        (4533.7, "mass_g", "4.53 kg", "10 lb"),
        (9994, "mass_g", "9.99 kg", "22 lb"),
        (9996, "mass_g", "10 kg", "22 lb"),
        (14173, "mass_g", "14.2 kg", "31.2 lb"),
        (1_234_567, "mass_g", "1,234.6 kg", "2,721.8 lb"),
        (5, "volume_ml", "5 ml", "1 tsp"),
        (0.3, "volume_ml", "0 ml", "0 tsp"),
        (0.31, "volume_ml", "0 ml", "⅛ tsp"),
        (0.92, "volume_ml", "1 ml", "⅛ tsp"),
        (0.93, "volume_ml", "1 ml", "¼ tsp"),
        (3.6, "volume_ml", "4 ml", "¾ tsp"),
        (10.9, "volume_ml", "11 ml", "2¼ tsp"),
        (14.6, "volume_ml", "15 ml", "3 tsp"),
        (14.78, "volume_ml", "15 ml", "0.5 fl oz"),
        (150, "volume_ml", "150 ml", "5.1 fl oz"),
        (236.588, "volume_ml", "237 ml", "1 cup"),
        (260, "volume_ml", "260 ml", "1.1 cups"),
        (999.6, "volume_ml", "1 l", "4.2 cups"),
        (3786, "volume_ml", "3.79 l", "1 gal"),
        (20834, "volume_ml", "20.8 l", "5.5 gal"),
        (37840, "volume_ml", "37.8 l", "10 gal"),
        (-0.4, "temperature_c", "0 °C", "31 °F"),
        (-40, "temperature_c", "−40 °C", "−40 °F"),
        (97.85, "temperature_c", "98 °C", "208 °F"),
        (640, "length_m", "640 m", "2,100 ft"),
        (1999, "length_m", "1,999 m", "1.2 mi"),
        (13000, "length_m", "13 km", "8.1 mi"),
        (1480, "altitude_m", "1,480 m", "4,856 ft"),
        (-420, "altitude_m", "−420 m", "−1,378 ft"),
        (2450.6, "energy_kcal", "2,451 kcal", "2,451 kcal"),
        (938.8, "pressure_hpa", "939 hPa", "27.7 inHg"),
        (2600, "power_w", "2,600 W", "2,600 W"),
        (0.15, "share", "15 %", "15 %"),
        (0.005, "share", "1 %", "1 %"),
        (1.0, "share", "100 %", "100 %"),
        (0, "duration_min", "0 min", "0 min"),
        (0.5, "duration_min", "30 s", "30 s"),
        (0.9999, "duration_min", "1 min", "1 min"),
        (8.4, "duration_min", "8 min", "8 min"),
        (59.6, "duration_min", "1 h", "1 h"),
        (70, "duration_min", "1 h 10 min", "1 h 10 min"),
        (120, "duration_min", "2 h", "2 h"),
        (2.5, "hours", "2 h 30 min", "2 h 30 min"),
        (0.25, "hours", "15 min", "15 min"),
    ],
)
def test_quantities_are_shown_as_people_read_them(
    value: float, quantity: str, metric: str, us: str
) -> None:
    assert show(value, quantity).replace(NBSP, " ") == metric
    assert show(value, quantity, "us").replace(NBSP, " ") == us
    first, other = shown_both(value, quantity)
    assert first == show(value, quantity)
    assert other == ("" if metric == us else show(value, quantity, "us"))
    assert shown_both(value, quantity, "us")[0] == show(value, quantity, "us")


def test_a_number_stays_on_the_line_of_its_unit() -> None:
    assert show(412, "mass_g") == "412\u00a0g"
    assert show_at_least(74.0) == "74\u00a0°C"
    assert mugs(300, 300) == "1\u00a0mug"


@pytest.mark.parametrize(
    ("temperature_c", "metric", "us"),
    [
        (74, "74 °C", "166 °F"),
        (71, "71 °C", "160 °F"),
        (63, "63 °C", "146 °F"),
        (71.01, "72 °C", "160 °F"),
    ],
)
def test_a_safe_limit_is_never_rounded_down(temperature_c: float, metric: str, us: str) -> None:
    assert show_at_least(temperature_c).replace(NBSP, " ") == metric
    assert show_at_least(temperature_c, "us").replace(NBSP, " ") == us


@LAW
@given(st.floats(0, 300))
def test_a_safe_limit_as_shown_is_as_hot_as_it_must_be(temperature_c: float) -> None:
    for units in ("metric", "us"):
        shown = show_at_least(temperature_c, "us" if units == "us" else "metric")
        assert read_quantity(shown, "temperature_c") >= temperature_c - 1e-6
        assert read_quantity(shown, "temperature_c") <= temperature_c + 1.0 + 1e-6


@pytest.mark.parametrize(
    ("volume_ml", "mug_ml", "shown"),
    [
        (0, 300, "0 mugs"),
        (1, 300, ""),
        (71.42, 300, ""),  # a quarter is 75 ml: 5.01 % more
        (71.43, 300, "¼ mug"),
        (75, 300, "¼ mug"),
        (78.94, 300, "¼ mug"),
        (78.95, 300, ""),
        (112.4, 300, ""),
        (112.5, 300, ""),
        (150, 300, "½ mug"),
        (225, 300, "¾ mug"),
        (300, 300, "1 mug"),
        (374, 300, "1¼ mugs"),
        (600, 300, "2 mugs"),
        (1000, 300, "3¼ mugs"),
        (2700, 300, "9 mugs"),
        (260, 400, ""),
        (400, 400, "1 mug"),
    ],
)
def test_volumes_are_told_in_mugs_where_a_quarter_comes_within_a_twentieth(
    volume_ml: float, mug_ml: float, shown: str
) -> None:
    assert mugs(volume_ml, mug_ml).replace(NBSP, " ") == shown


def test_pint_is_loaded_only_for_a_unit_that_the_table_lacks() -> None:
    script = (
        "import sys, builder.units as u\n"
        "assert 'pint' not in sys.modules, 'importing units imports pint'\n"
        "u.read_quantity('250 g', 'mass_g'); u.read_quantity('4 °C', 'air_c')\n"
        "u.show(412, 'mass_g'); u.show(70, 'duration_min'); u.show(0.15, 'share'); u.mugs(300, 300)\n"
        "assert 'pint' not in sys.modules, 'our own units import pint'\n"
        "u.read_quantity('9 oz', 'mass_g'); u.show(412, 'mass_g', 'us')\n"
        "assert 'pint' not in sys.modules, 'units of the table import pint'\n"
        "assert u._line('stone', 'gram')[0] > 6350\n"
        "assert 'pint' in sys.modules\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr


@pytest.mark.parametrize(
    ("text", "quantity", "value"),
    [
        # Nobody has a thousand of these, so a point parts decimals in them.
        ("1.000 kg", "mass_g", 1000.0),
        ("1.250 l", "volume_ml", 1250.0),
        ("1.027 g/ml", "density_g_ml", 1.027),
        # Not three digits, or nothing before them.
        ("1.00 g", "mass_g", 1.0),
        ("1.0320 g", "mass_g", 1.032),
        ("0.125 g", "mass_g", 0.125),
        ("1234.567 g", "mass_g", 1234.567),
    ],
)
def test_a_point_that_can_only_part_decimals_is_no_question(
    text: str, quantity: str, value: float
) -> None:
    assert read_quantity(text, quantity) == pytest.approx(value, rel=1e-12)
