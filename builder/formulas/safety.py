"""Limits that keep food from making people ill."""

from __future__ import annotations

import math

from builder.formulas.ranges import require, require_known

# foodsafety.gov chart: 165, 160 and 145 degF, here as exact degrees C, so that who writes what the
# chart prints has reached it. Pages round up in either scale, never down: 74, 72 and 63 degC.
_165_F, _160_F, _145_F = ((each - 32.0) / 1.8 for each in (165.0, 160.0, 145.0))
POULTRY_CENTRE_C = _165_F
MINCED_CENTRE_C = _160_F
WHOLE_CUT_CENTRE_C = _145_F
FISH_CENTRE_C = _145_F
EGG_CENTRE_C = _160_F
WHOLE_CUT_REST_MIN = 3.0

# USDA FSIS, Jerky and food safety: 160 degF, poultry 165 degF, before drying; pages round it up.
HEATED_BEFORE_DRYING_C = _160_F
POULTRY_HEATED_BEFORE_DRYING_C = _165_F
# University of Minnesota Extension: ten minutes in an oven of 275 degF, after drying (in a copy).
HEATED_AFTER_DRYING_C = 135.0
HEATED_AFTER_DRYING_MIN = 10.0

# USDA FSIS: two hours out of the cold, one above 90 degF.
HOURS_OUT_OF_COLD = 2.0
HOURS_OUT_OF_COLD_HOT = 1.0
HOT_ABOVE_C = 32.2

# USDA, Complete Guide to Home Canning: 10 minutes, one more for each further 1000 ft.
CANNED_BOIL_MIN = 10.0
CANNED_STEP_M = 304.8

# FDA, Bad Bug Book: raw beans soak 5 h; the poison is gone after 10 minutes at 100 degC, and the
# FDA asks for 30. No time is published for water that boils cooler.
BEANS_SOAK_MIN = 300.0
BEANS_BOIL_MIN = 10.0
BEANS_UP_TO_M = 2000.0

_CENTRE_KINDS = ("poultry", "meat", "egg", "fish")
_HEATED_KINDS = ("poultry", "meat", "fish")


def centre_temperature_c(food_kind: str, minced: bool, game: bool) -> float:
    """Temperature that the middle of an animal food must reach.

    Parameters
    ----------
    food_kind : str
        poultry, meat, egg or fish.
    minced : bool
        Whether meat is minced; pieces of dried meat lie like minced meat and count as such.
    game : bool
        Whether the animal was game.

    Returns
    -------
    float
        Least temperature in the middle. [degC]

    Raises
    ------
    ValueError
        If the food kind is none of those above.

    Notes
    -----
    Poultry and game 165 degF (73.9), minced meat and egg 160 (71.1), whole cuts 145 (62.8) with
    3 minutes of rest, fish 145.

    References
    ----------
    .. [fsis-temperatures] USDA FSIS, 2020, safe minimum internal temperatures (read in a copy).
    """
    require_known("food kind", food_kind, _CENTRE_KINDS)
    if food_kind == "poultry" or game:
        return POULTRY_CENTRE_C
    if food_kind == "egg":
        return EGG_CENTRE_C
    if food_kind == "fish":
        return FISH_CENTRE_C
    return MINCED_CENTRE_C if minced else WHOLE_CUT_CENTRE_C


def heated_before_drying_c(food_kind: str, game: bool) -> float:
    """Temperature that raw meat or fish must reach before it is dried warm.

    Parameters
    ----------
    food_kind : str
        poultry, meat or fish.
    game : bool
        Whether the animal was game.

    Returns
    -------
    float
        Least temperature in the middle before drying. [degC]

    Raises
    ------
    ValueError
        If the food kind is none of those above.

    Notes
    -----
    Meat and fish 160 degF (71.1), poultry and game 165 (73.9): in dry heat germs harden before
    they die.

    References
    ----------
    .. [fsis-jerky] USDA FSIS, 2016, Jerky and food safety (read in a copy).
    """
    require_known("food kind", food_kind, _HEATED_KINDS)
    if food_kind == "poultry" or game:
        return POULTRY_HEATED_BEFORE_DRYING_C
    return HEATED_BEFORE_DRYING_C


def hours_out_of_cold(air_c: float) -> float:
    """How long food that spoils may lie out of the cold.

    Parameters
    ----------
    air_c : float
        Temperature of the air. [degC], -90 to 60

    Returns
    -------
    float
        Hours: 2, above 32.2 degC 1. [h]

    Raises
    ------
    ValueError
        If the temperature is outside the range above.

    References
    ----------
    .. [fsis-two-hours] USDA FSIS, 2016, food out of refrigeration (read in a copy).
    """
    require("air temperature", air_c, "°C", -90.0, 60.0)
    return HOURS_OUT_OF_COLD_HOT if air_c > HOT_ABOVE_C else HOURS_OUT_OF_COLD


def home_canned_boil_min(altitude_m: float) -> float:
    """Minutes that home-canned food with little acid is boiled before anybody tastes it.

    Parameters
    ----------
    altitude_m : float
        Height above the sea. [m], -500 to 9000

    Returns
    -------
    float
        Minutes of hard boil. [min]

    Raises
    ------
    ValueError
        If the height is outside the range above.

    Notes
    -----
    10 minutes below 305 m (1000 ft), and one more for each further 305 m or part of it.

    References
    ----------
    .. [usda-canning] USDA, Complete Guide to Home Canning: boiling before tasting (read in a copy).
    """
    require("height", altitude_m, "m", -500.0, 9000.0)
    further = max(0.0, altitude_m - CANNED_STEP_M) / CANNED_STEP_M
    return CANNED_BOIL_MIN + math.ceil(further - 1e-9)
