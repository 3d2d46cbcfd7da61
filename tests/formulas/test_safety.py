"""Safety limits: each kind, errors."""

from __future__ import annotations

import math

import pytest

from builder.formulas.safety import (
    HEATED_AFTER_DRYING_C,
    HEATED_AFTER_DRYING_MIN,
    POULTRY_CENTRE_C,
    WHOLE_CUT_REST_MIN,
    centre_temperature_c,
    heated_before_drying_c,
    home_canned_boil_min,
    hours_out_of_cold,
)


def _celsius(fahrenheit: float) -> float:
    """Give a limit of the charts, which are in degrees F."""
    return (fahrenheit - 32.0) / 1.8


@pytest.mark.parametrize(
    ("kind", "minced", "game", "centre_f"),
    [
        ("poultry", False, False, 165.0),
        ("poultry", True, True, 165.0),
        ("meat", False, True, 165.0),
        ("meat", True, True, 165.0),
        ("meat", True, False, 160.0),
        ("meat", False, False, 145.0),
        ("egg", False, False, 160.0),
        ("fish", False, False, 145.0),
        ("fish", True, False, 145.0),
    ],
)
def test_centre_temperatures(kind: str, minced: bool, game: bool, centre_f: float) -> None:
    assert centre_temperature_c(kind, minced, game) == _celsius(centre_f)


@pytest.mark.parametrize("kind", ["poultry", "meat", "egg", "fish"])
def test_mincing_and_game_never_lower_the_limit(kind: str) -> None:
    plain = centre_temperature_c(kind, False, False)
    assert centre_temperature_c(kind, True, False) >= plain
    assert centre_temperature_c(kind, False, True) >= plain
    assert plain <= POULTRY_CENTRE_C, "what left-over food of any kind is heated to"


@pytest.mark.parametrize("kind", ["fruit", "dairy", ""])
def test_kinds_without_a_centre_temperature_are_refused(kind: str) -> None:
    with pytest.raises(ValueError, match="known are poultry, meat, egg, fish"):
        centre_temperature_c(kind, False, False)


@pytest.mark.parametrize(
    ("kind", "game", "heated_f"),
    [
        ("meat", False, 160.0),
        ("fish", False, 160.0),
        ("poultry", False, 165.0),
        ("meat", True, 165.0),
    ],
)
def test_heat_before_drying(kind: str, game: bool, heated_f: float) -> None:
    assert heated_before_drying_c(kind, game) == _celsius(heated_f)


def test_egg_has_no_heat_that_makes_drying_it_safe() -> None:
    with pytest.raises(ValueError, match="food kind 'egg' is not known"):
        heated_before_drying_c("egg", False)
    with pytest.raises(ValueError, match=r"^food kind 'nut' is not known; known are poultry"):
        centre_temperature_c("nut", False, False)


@pytest.mark.parametrize(
    ("air_c", "hours"), [(-20.0, 2.0), (20.0, 2.0), (32.2, 2.0), (32.21, 1.0), (45.0, 1.0)]
)
def test_hours_out_of_the_cold(air_c: float, hours: float) -> None:
    assert hours_out_of_cold(air_c) == hours


@pytest.mark.parametrize("air_c", [-91.0, 61.0, math.nan])
def test_air_nobody_camps_in_is_refused(air_c: float) -> None:
    with pytest.raises(ValueError, match="air temperature is"):
        hours_out_of_cold(air_c)


def test_whole_cuts_rest() -> None:
    assert WHOLE_CUT_REST_MIN == 3.0


@pytest.mark.parametrize(
    ("altitude_m", "minutes"),
    [(-400.0, 10), (304.8, 10), (304.9, 11), (609.6, 11), (609.7, 12), (9000.0, 39)],
)
def test_each_further_thousand_feet_take_a_minute(altitude_m: float, minutes: float) -> None:
    assert home_canned_boil_min(altitude_m) == minutes


@pytest.mark.parametrize("altitude_m", [-500.1, 9000.1])
def test_heights_that_no_camp_has_are_refused(altitude_m: float) -> None:
    with pytest.raises(ValueError, match="height"):
        home_canned_boil_min(altitude_m)


def test_ten_minutes_in_an_oven_of_275_degrees_fahrenheit_come_after_drying() -> None:
    """University of Minnesota Extension, homemade jerky (read in a copy)."""
    assert pytest.approx((275.0 - 32.0) / 1.8) == HEATED_AFTER_DRYING_C
    assert HEATED_AFTER_DRYING_MIN == 10.0
