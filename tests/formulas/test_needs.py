"""Additions to needs and second opinions: edges, errors, laws."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.needs import (
    PREGNANCY_KCAL,
    active_protein_range_g,
    activity_level,
    activity_of,
    altitude_range_kcal,
    cold_range_kcal,
    held_level,
    lcda_knows,
    lcda_power_w,
    lcda_walk_kcal,
    nursing_kcal,
    pregnancy_kcal,
    protein_need_g,
    spread_share,
)

speeds = st.floats(0.5, 1.8)
bodies = st.floats(40.0, 120.0)
loads = st.floats(0.0, 30.0)


@pytest.mark.parametrize("published_by", PREGNANCY_KCAL)
def test_later_thirds_add_more_and_an_untold_one_counts_as_the_last(published_by: str) -> None:
    first, second, third = (pregnancy_kcal(n, published_by) for n in (1, 2, 3))
    assert 0.0 <= first < second < third
    assert pregnancy_kcal(None, published_by) == third
    assert nursing_kcal(published_by) > 300.0


def test_the_european_figures_are_taken_where_no_publication_is_named() -> None:
    """EFSA 2013: 70, 260 and 500 kcal in the thirds of a pregnancy, 500 for nursing."""
    assert [pregnancy_kcal(third) for third in (1, 2, 3)] == [70.0, 260.0, 500.0]
    assert nursing_kcal() == 500.0


def test_protein_adds_up() -> None:
    assert protein_need_g("female", 30.0, 60.0) == pytest.approx(49.8)
    assert protein_need_g("female", 30.0, 60.0, 1) == pytest.approx(50.8)
    assert protein_need_g("female", 30.0, 60.0, 3) == pytest.approx(77.8)
    assert protein_need_g("female", 30.0, 60.0, nursing=True) == pytest.approx(68.8)


@pytest.mark.parametrize(
    ("age", "girl", "boy"),
    [
        (1.0, 1.14, 1.14), (1.49, 1.14, 1.14), (1.5, 1.03, 1.03), (2.0, 0.97, 0.97),
        (3.0, 0.90, 0.90), (4.0, 0.86, 0.86), (5.0, 0.85, 0.85), (6.0, 0.89, 0.89),
        (7.0, 0.91, 0.91), (8.0, 0.92, 0.92), (9.0, 0.91, 0.91), (10.9, 0.91, 0.91),
        (11.0, 0.90, 0.91), (12.0, 0.89, 0.90), (13.0, 0.88, 0.90), (14.0, 0.87, 0.89),
        (15.0, 0.85, 0.88), (16.0, 0.84, 0.87), (17.0, 0.83, 0.86), (17.9, 0.83, 0.86),
        (18.0, 0.83, 0.83), (90.0, 0.83, 0.83),
    ],
)  # fmt: skip
def test_protein_goes_by_age_and_from_eleven_by_sex(age: float, girl: float, boy: float) -> None:
    assert protein_need_g("female", age, 40.0) == pytest.approx(40.0 * girl)
    assert protein_need_g("male", age, 40.0) == pytest.approx(40.0 * boy)
    assert protein_need_g(None, age, 40.0) == pytest.approx(20.0 * (girl + boy))


def test_a_way_up_and_down_is_the_mean_of_both_slopes() -> None:
    """An hour on 4 km, 200 m up and 200 down: half of it at +10 %, half at -10 %."""
    speed = 4000.0 / 3600.0
    power_w = (lcda_power_w(70.0, 10.0, speed, 10.0) + lcda_power_w(70.0, 10.0, speed, -10.0)) / 2
    found = lcda_walk_kcal(70.0, 10.0, 1.0, 4000.0, 200.0, descent_m=200.0)
    assert found == pytest.approx(power_w * 3600.0 / 4184.0)
    level = lcda_walk_kcal(70.0, 10.0, 2.0, 8000.0, 0.0, descent_m=0.0)
    assert level == pytest.approx(2.0 * lcda_power_w(70.0, 10.0, speed, 0.0) * 3600.0 / 4184.0)


@pytest.mark.parametrize(
    ("hours", "distance", "ascent", "descent", "knows"),
    [
        (1.0, 7200.0, 0.0, 0.0, True),
        (1.0, 7201.0, 0.0, 0.0, False),
        (5.0, 5000.0, 1500.0, 500.0, True),
        (5.0, 5000.0, 1500.0, 501.0, False),
    ],
)
def test_how_fast_and_steep_the_second_equation_goes(
    hours: float, distance: float, ascent: float, descent: float, knows: bool
) -> None:
    assert lcda_knows(hours, distance, ascent, descent) is knows
    if knows:
        lcda_walk_kcal(70.0, 10.0, hours, distance, ascent, descent_m=descent)
    else:
        with pytest.raises(ValueError, match="it must be"):
            lcda_walk_kcal(70.0, 10.0, hours, distance, ascent, descent_m=descent)


def test_hard_days_ask_for_more_protein_than_quiet_ones() -> None:
    least, most = active_protein_range_g(70.0)
    assert (least, most) == pytest.approx((84.0, 140.0))
    assert protein_need_g("male", 30.0, 70.0) < least


@pytest.mark.parametrize(
    ("air", "span"), [(0.01, (0.0, 0.0)), (0.0, (150.0, 630.0)), (-30.0, (150.0, 630.0))]
)
def test_cold(air: float, span: tuple[float, float]) -> None:
    assert cold_range_kcal(3000.0, air) == pytest.approx(span)


@pytest.mark.parametrize(
    ("height", "span"),
    [
        (3499.0, (0.0, 0.0)),
        (3500.0, (90.0, 150.0)),
        (4299.0, (90.0, 150.0)),
        (4300.0, (90.0, 420.0)),
    ],
)
def test_height(height: float, span: tuple[float, float]) -> None:
    assert altitude_range_kcal(1500.0, height) == pytest.approx(span)


@pytest.mark.parametrize(
    ("age", "limits"),
    [
        (3.0, (1.31, 1.44, 1.59)),
        (8.9, (1.31, 1.44, 1.59)),
        (9.0, (1.44, 1.59, 1.77)),
        (14.0, (1.56, 1.73, 1.92)),
        (19.0, (1.53, 1.68, 1.85)),
        (80.0, (1.53, 1.68, 1.85)),
    ],
)
def test_bands_of_activity(age: float, limits: tuple[float, float, float]) -> None:
    words = ("inactive", "low-active", "active", "very-active")
    for word, limit in zip(words, limits, strict=False):
        assert activity_of(limit - 0.001, age) == word
    for word, limit in zip(words[1:], limits, strict=True):
        assert activity_of(limit, age) == word


def test_level() -> None:
    assert activity_level(3000.0, 1500.0) == 2.0


@pytest.mark.parametrize(
    ("need", "level"), [(1000.0, 1.0), (1500.0, 1.0), (3000.0, 2.0), (3750.0, 2.5), (9000.0, 2.5)]
)
def test_a_level_lies_within_what_bodies_hold_out(need: float, level: float) -> None:
    assert held_level(need, 1500.0) == level


def test_spread() -> None:
    assert spread_share([2000.0]) == 0.0
    assert spread_share((1800.0, 2000.0, 2200.0)) == pytest.approx(0.2)


@given(bodies, loads, speeds)
def test_walking_never_costs_less_than_standing(body: float, load: float, speed: float) -> None:
    assert lcda_power_w(body, load, speed, 0.0) > lcda_power_w(body, load, 0.0, 0.0)
    assert lcda_power_w(body, load, 0.0, 0.0) == pytest.approx(1.44 * (body + load))


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: pregnancy_kcal(4), "third of the pregnancy is 4; it must"),
        (lambda: pregnancy_kcal(0), "third of the pregnancy is 0"),
        (lambda: pregnancy_kcal(1, "who"), "publication 'who' is not known"),
        (lambda: nursing_kcal("who"), "publication 'who' is not known"),
        (lambda: protein_need_g("male", 30.0, 2.0), "body mass is 2 kg"),
        (lambda: protein_need_g(None, 30.0, 60.0, 5), "third of the pregnancy is 5"),
        (lambda: active_protein_range_g(301.0), "body mass is 301 kg"),
        (lambda: cold_range_kcal(-1.0, 0.0), "need of the day is -1 kcal"),
        (lambda: cold_range_kcal(1.0, 61.0), "lowest air temperature is 61 °C"),
        (lambda: altitude_range_kcal(-1.0, 0.0), "basal energy is -1 kcal"),
        (lambda: altitude_range_kcal(1.0, 12000.0), "altitude is 12000 m"),
        (lambda: activity_level(-1.0, 1.0), "need of the day is -1 kcal"),
        (lambda: activity_level(1.0, 0.0), "basal energy is 0 kcal"),
        (lambda: activity_of(0.9, 30.0), "physical activity level is 0.9"),
        (lambda: activity_of(1.5, 2.0), "age is 2 years"),
        (lambda: spread_share([]), "^there is no value to compare; give at least one$"),
        (lambda: spread_share([1.0, 0.0]), "value to compare is 0; it must"),
        (lambda: lcda_power_w(2.0, 0.0, 1.0, 0.0), "body mass is 2 kg"),
        (lambda: lcda_power_w(70.0, -1.0, 1.0, 0.0), "load is -1 kg"),
        (lambda: lcda_power_w(70.0, 0.0, 2.1, 0.0), "walking speed is 2.1 m/s"),
        (lambda: lcda_power_w(70.0, 0.0, 1.0, 46.0), "grade is 46 %"),
        (lambda: lcda_power_w(70.0, 0.0, 1.0, -41.0), "grade is -41 %"),
        (lambda: lcda_power_w(70.0, 0.0, math.nan, 0.0), "walking speed is nan"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
