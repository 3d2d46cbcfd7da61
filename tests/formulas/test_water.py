"""Drinking: edges, errors, laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.water import (
    adequate_intake_ml,
    drinking_rate_ml_h,
    drunk_away_ml,
    night_water_ml,
    water_need_ml,
    water_to_drink_ml,
    way_water_ml,
)

intakes = st.floats(1000.0, 3500.0)


@pytest.mark.parametrize(
    ("age", "female", "male"),
    [
        (1.0, 1150.0, 1150.0),
        (1.9, 1150.0, 1150.0),
        (2.0, 1300.0, 1300.0),
        (3.9, 1300.0, 1300.0),
        (4.0, 1600.0, 1600.0),
        (8.9, 1600.0, 1600.0),
        (9.0, 1900.0, 2100.0),
        (13.9, 1900.0, 2100.0),
        (14.0, 2000.0, 2500.0),
        (90.0, 2000.0, 2500.0),
    ],
)
def test_intake_by_age(age: float, female: float, male: float) -> None:
    assert adequate_intake_ml("female", age) == female
    assert adequate_intake_ml("male", age) == male
    assert adequate_intake_ml(None, age) == (female + male) / 2.0


def test_pregnant_and_nursing_add_up() -> None:
    assert adequate_intake_ml("female", 30.0, pregnant=True, nursing=True) == 3000.0
    assert adequate_intake_ml(None, 30.0, pregnant=True) == 2550.0


@pytest.mark.parametrize("age", [0.0, 0.99, 121.0, math.nan])
def test_ages_nobody_travels_at_are_refused(age: float) -> None:
    with pytest.raises(ValueError, match=r"age is .* it must be 1 to 120 years"):
        adequate_intake_ml("female", age)


def test_an_unknown_sex_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^sex 'f' is not known; known are female, male"):
        adequate_intake_ml("f", 5.0)


@pytest.mark.parametrize(
    ("air_high", "mass", "rate"),
    [
        (25.0, 70.0, 500.0),
        (25.1, 70.0, 750.0),
        (30.0, 70.0, 750.0),
        (30.1, 70.0, 1000.0),
        (-20.0, 60.0, 500.0),
        (10.0, 30.0, 250.0),
        (35.0, 45.0, 750.0),
    ],
)
def test_drinking_rate(air_high: float, mass: float, rate: float) -> None:
    assert drinking_rate_ml_h(air_high, mass) == rate


@pytest.mark.parametrize(("air_high", "mass"), [(61.0, 70.0), (20.0, 0.0), (math.nan, 70.0)])
def test_bodies_and_weather_that_cannot_be_are_refused(air_high: float, mass: float) -> None:
    with pytest.raises(ValueError, match="must be"):
        drinking_rate_ml_h(air_high, mass)


@given(intakes, st.floats(200.0, 1000.0), st.floats(-500.0, 9000.0))
def test_a_day_of_rest_needs_the_intake_and_what_the_height_asks(
    intake: float, rate: float, altitude: float
) -> None:
    extra = 500.0 if altitude > 2500.0 else 0.0
    assert water_need_ml(intake, 0.0, rate, altitude, 25.0) == intake + extra


@given(intakes, st.floats(0.0, 6.0), st.floats(200.0, 1000.0))
def test_hours_on_the_way_take_the_place_of_quiet_ones(
    intake: float, hours: float, rate: float
) -> None:
    """One hour more costs its rate less what was drunk in a quiet hour anyway."""
    step = way_water_ml(hours + 1.0, rate, intake) - way_water_ml(hours, rate, intake)
    assert step == pytest.approx(rate - night_water_ml(intake) / 10.0, abs=1e-6)
    need = water_need_ml(intake, hours + 1.0, rate, 0.0, 20.0)
    assert need - water_need_ml(intake, hours, rate, 0.0, 20.0) == pytest.approx(step, abs=1e-6)


def test_the_height_counts_above_2500_m() -> None:
    assert water_need_ml(2000.0, 0.0, 500.0, 2500.0, 20.0) == 2000.0
    assert water_need_ml(2000.0, 0.0, 500.0, 2501.0, 20.0) == 2500.0


def test_heat_counts_above_25_degrees_and_less_on_the_way_which_counts_it_itself() -> None:
    assert water_need_ml(2000.0, 0.0, 500.0, 0.0, 25.0) == 2000.0
    assert water_need_ml(2000.0, 0.0, 500.0, 0.0, 26.0) == pytest.approx(2120.0)
    # Half the waking day on the way leaves half the addition; sixteen hours leave none.
    assert water_need_ml(2000.0, 8.0, 100.0, 0.0, 26.0) == pytest.approx(2060.0)
    assert water_need_ml(2000.0, 16.0, 100.0, 0.0, 60.0) == pytest.approx(2000.0)


def test_the_need_of_a_day_ends_where_drinking_more_does_harm() -> None:
    # 2500 + 9.5 · 875 + 500 = 11,312.5 and 10 · 875 = 11,750 ml, at 25 degC.
    assert water_need_ml(2500.0, 9.5, 1000.0, 3000.0, 25.0) == pytest.approx(11312.5)
    assert water_need_ml(2500.0, 10.0, 1000.0, 3000.0, 25.0) == 11400.0


@pytest.mark.parametrize(
    ("intake", "hours", "rate", "altitude", "high"),
    [
        (-1.0, 5.0, 500.0, 0.0, 20.0),
        (2000.0, 16.1, 500.0, 0.0, 20.0),
        (2000.0, 5.0, -1.0, 0.0, 20.0),
        (2000.0, -1.0, 500.0, 0.0, 20.0),
        (2000.0, 5.0, 500.0, 12000.0, 20.0),
        (2000.0, 5.0, 500.0, 0.0, 61.0),
    ],
)
def test_days_that_cannot_be_are_refused(
    intake: float, hours: float, rate: float, altitude: float, high: float
) -> None:
    with pytest.raises(ValueError, match="it must be"):
        water_need_ml(intake, hours, rate, altitude, high)


@pytest.mark.parametrize(
    ("to_drink", "share", "way", "left"),
    [
        (4000.0, 0.0, 1500.0, 4000.0),
        (4000.0, 0.35, 1500.0, 3125.0),  # 0.65 · 2500 and all of the way
        (4000.0, 1.0, 1500.0, 1500.0),
        (4000.0, 0.5, 4500.0, 4000.0),  # all of it is the way's
        (1000.0, 1.0, -200.0, 0.0),  # a small body drinks less on the way than in a quiet hour
    ],
)
def test_meals_at_home_leave_the_water_of_the_way(
    to_drink: float, share: float, way: float, left: float
) -> None:
    assert drunk_away_ml(to_drink, share, way) == pytest.approx(left)


def test_shares_of_a_day_beyond_the_whole_are_refused() -> None:
    with pytest.raises(ValueError, match=r"share of meals at home is 1\.1; it must be"):
        drunk_away_ml(1000.0, 1.1, 0.0)
    with pytest.raises(ValueError, match="water to drink is -1 ml"):
        drunk_away_ml(-1.0, 0.5, 0.0)
    with pytest.raises(ValueError, match="time on the way is 17 h"):
        way_water_ml(17.0, 500.0, 2000.0)


@given(st.floats(0.0, 12000.0), st.floats(0.0, 12000.0), intakes)
def test_food_takes_off_some_and_never_all(need: float, food: float, intake: float) -> None:
    drink = water_to_drink_ml(need, food, intake)
    assert drink >= 1000.0
    assert need - 0.3 * intake - 1e-6 <= drink <= max(need, 1000.0)


@given(st.floats(0.0, 12000.0), st.floats(0.0, 6000.0), st.floats(0.0, 6000.0), intakes)
def test_wetter_food_never_means_more_to_drink(
    need: float, one: float, other: float, intake: float
) -> None:
    drier, wetter = sorted((one, other))
    assert water_to_drink_ml(need, wetter, intake) <= water_to_drink_ml(need, drier, intake)


def test_the_night_is_ten_quiet_hours() -> None:
    assert night_water_ml(2000.0) == pytest.approx(1000.0)
    assert night_water_ml(0.0) == 0.0


def test_negative_water_is_refused() -> None:
    with pytest.raises(ValueError, match="adequate intake is -1 ml"):
        night_water_ml(-1.0)
    with pytest.raises(ValueError, match="water in the food is -1 ml"):
        water_to_drink_ml(2000.0, -1.0, 2000.0)
    with pytest.raises(ValueError, match="water need is -1 ml"):
        water_to_drink_ml(-1.0, 0.0, 2000.0)
