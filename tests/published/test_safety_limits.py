"""Safe temperatures and times against the published charts."""

from __future__ import annotations

import pytest

from builder.formulas.safety import (
    WHOLE_CUT_REST_MIN,
    centre_temperature_c,
    heated_before_drying_c,
    home_canned_boil_min,
    hours_out_of_cold,
)
from tests.schemas import shipped_content

from .published import Published, check, published


def _celsius(fahrenheit: float) -> float:
    """Degrees C of a chart in degrees F."""
    return (fahrenheit - 32.0) / 1.8


# The chart is in degrees F: whoever writes what it prints has reached it.
@published(
    *(
        Published(args, _celsius(f), 1e-9, "°C", "fsis-temperatures", f"{what}, {f:.0f} °F", "copy")
        for what, args, f in (
            ("poultry", ("poultry", False, False), 165.0),
            ("minced poultry", ("poultry", True, False), 165.0),
            ("minced meat", ("meat", True, False), 160.0),
            ("whole cuts", ("meat", False, False), 145.0),
            ("fish", ("fish", False, False), 145.0),
            ("egg dishes", ("egg", False, False), 160.0),
            ("game from the field", ("meat", False, True), 165.0),
        )
    )
)
def test_centre_temperatures_are_those_of_the_chart(row: Published) -> None:
    check(row, centre_temperature_c)


def test_leftovers_and_rest() -> None:
    """165 degF, and 3 minutes for whole cuts (the same chart, read in a copy)."""
    told = shipped_content().cautions["leftovers"].text
    assert "heated to {74 degC|165 degF} all through" in told
    assert WHOLE_CUT_REST_MIN == 3.0


# 71 is what FSIS itself prints for 160 degF (71.1): half a degree.
@published(
    Published(("meat", False), 71.1, 0.5, "°C", "fsis-jerky", "meat, 160 °F", "copy"),
    Published(("fish", False), 71.1, 0.5, "°C", "fsis-jerky", "fish as meat, 160 °F", "copy"),
    Published(("poultry", False), 73.9, 0.5, "°C", "fsis-jerky", "poultry, 165 °F", "copy"),
    Published(("meat", True), 73.9, 0.5, "°C", "fsis-jerky", "game as poultry, 165 °F", "copy"),
)
def test_heat_before_drying(row: Published) -> None:
    check(row, heated_before_drying_c)


@published(
    Published((20.0,), 2.0, 1e-9, "h", "fsis-two-hours", "20 °C", "copy"),
    Published((32.2,), 2.0, 1e-9, "h", "fsis-two-hours", "90 °F itself", "copy"),
    Published((32.3,), 1.0, 1e-9, "h", "fsis-two-hours", "just above 90 °F", "copy"),
    Published((35.0,), 1.0, 1e-9, "h", "fsis-two-hours", "35 °C", "copy"),
)
def test_hours_out_of_the_cold(row: Published) -> None:
    check(row, hours_out_of_cold)


def test_the_limit_is_ninety_degrees_fahrenheit() -> None:
    assert _celsius(90.0) == pytest.approx(32.2, abs=0.05)


# 10 min below 1000 ft, one more for each further 1000 ft: worked out in feet.
@published(
    Published((0.0,), 10.0, 1e-9, "min", "usda-canning", "sea level", "copy"),
    Published((304.8,), 10.0, 1e-9, "min", "usda-canning", "1000 ft", "copy"),
    Published((1000.0,), 13.0, 1e-9, "min", "usda-canning", "3281 ft", "calculated"),
    Published((2000.0,), 16.0, 1e-9, "min", "usda-canning", "6562 ft", "calculated"),
    Published((3000.0,), 19.0, 1e-9, "min", "usda-canning", "9843 ft", "calculated"),
)
def test_home_canned_food_boils_longer_up_high(row: Published) -> None:
    check(row, home_canned_boil_min)
