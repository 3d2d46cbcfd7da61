"""Effort: edges, errors, laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.effort import (
    GROUND,
    LOADED_ABOVE_KG,
    MET,
    basal_kcal,
    day_need_kcal,
    downhill_power_w,
    eer_2023_kcal,
    least_travel_kcal,
    met_kcal,
    walk_kcal,
    walking_power_w,
)

bodies = st.floats(30.0, 150.0)
loads = st.floats(0.0, 40.0)
speeds = st.floats(0.1, 2.0)
grounds = st.sampled_from(sorted(GROUND))


@pytest.mark.parametrize(
    ("age", "male", "female"),
    [
        (2.9, 59.512 * 50 - 30.4, 58.317 * 50 - 31.1),
        (3.0, 22.706 * 50 + 504.3, 20.315 * 50 + 485.9),
        (10.0, 17.686 * 50 + 658.2, 13.384 * 50 + 692.6),
        (18.0, 15.057 * 50 + 692.2, 14.818 * 50 + 486.6),
        (30.0, 11.472 * 50 + 873.1, 8.126 * 50 + 845.6),
        (60.0, 11.711 * 50 + 587.7, 9.082 * 50 + 658.5),
        (100.0, 11.711 * 50 + 587.7, 9.082 * 50 + 658.5),
    ],
)
def test_basal_energy_by_age(age: float, male: float, female: float) -> None:
    assert basal_kcal("male", age, 50.0) == pytest.approx(male)
    assert basal_kcal("female", age, 50.0) == pytest.approx(female)
    assert basal_kcal(None, age, 50.0) == pytest.approx((male + female) / 2.0)


@given(st.sampled_from(["male", "female", None]), st.floats(1.0, 120.0), bodies)
def test_a_heavier_body_uses_more(sex: str | None, age: float, mass: float) -> None:
    assert 0.0 < basal_kcal(sex, age, mass) < basal_kcal(sex, age, mass + 1.0)


@pytest.mark.parametrize(
    ("sex", "age", "mass", "says"),
    [
        ("male", 0.5, 8.0, "age is 0.5 years"),
        ("male", 30.0, 2.0, "body mass is 2 kg"),
        ("male", 30.0, math.nan, "body mass is nan kg"),
        ("man", 30.0, 70.0, "sex 'man' is not known; known are female, male"),
    ],
)
def test_bodies_that_cannot_be_are_refused(sex: str, age: float, mass: float, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        basal_kcal(sex, age, mass)


def test_a_day_of_rest() -> None:
    assert day_need_kcal(2400.0, 0.0, 0.0) == pytest.approx(100.0 * (8 * 0.95 + 16 * 1.6))


@given(st.floats(0.0, 3000.0), st.floats(0.0, 16.0))
def test_the_least_travel_makes_no_day_smaller_than_one_of_rest(basal: float, hours: float) -> None:
    travel = least_travel_kcal(basal, hours)
    rest = day_need_kcal(basal, 0.0, 0.0)
    assert day_need_kcal(basal, hours, travel) == pytest.approx(rest, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize(
    ("basal", "hours", "travel"), [(-1.0, 1.0, 1.0), (1500.0, 16.1, 1.0), (1500.0, 1.0, -1.0)]
)
def test_days_that_cannot_be_are_refused(basal: float, hours: float, travel: float) -> None:
    with pytest.raises(ValueError, match="it must be"):
        day_need_kcal(basal, hours, travel)


def test_standing_without_a_load_is_half_as_much_again_as_the_body_mass() -> None:
    assert walking_power_w(70.0, 0.0, 0.0, 0.0, "road") == 105.0


@given(bodies, loads, speeds, st.floats(0.0, 24.0), grounds)
def test_more_load_speed_and_grade_take_more_power(
    body: float, load: float, speed: float, grade: float, ground: str
) -> None:
    power = walking_power_w(body, load, speed, grade, ground)
    assert walking_power_w(body, load + 1.0, speed, grade, ground) > power
    assert walking_power_w(body, load, speed + 0.1, grade, ground) > power
    assert walking_power_w(body, load, speed, grade + 1.0, ground) > power
    assert power >= walking_power_w(body, load, speed, grade, "road")


@given(bodies, loads, speeds, st.floats(0.0, 45.0), grounds)
def test_downhill_takes_less_than_the_level_but_something(
    body: float, load: float, speed: float, slope: float, ground: str
) -> None:
    level = walking_power_w(body, load, speed, 0.0, ground)
    assert 0.0 < downhill_power_w(body, load, speed, slope, ground) <= level


@pytest.mark.parametrize(
    ("body", "load", "fits"),
    [
        (3.0, 0.0, True),
        (2.99, 0.0, False),
        (300.0, 300.0, True),
        (300.1, 0.0, False),
        (70.0, 300.1, False),
    ],
)
def test_bodies_and_loads_fit_up_to_the_limit(body: float, load: float, fits: bool) -> None:
    if fits:
        assert walking_power_w(body, load, 1.0, 0.0, "road") > 0.0
    else:
        with pytest.raises(ValueError, match="it must be"):
            walking_power_w(body, load, 1.0, 0.0, "road")


def test_downhill_starts_at_the_level() -> None:
    level = walking_power_w(70.0, 10.0, 1.2, 0.0, "path")
    assert downhill_power_w(70.0, 10.0, 1.2, 0.0, "path") == level


@pytest.mark.parametrize(
    ("args", "says"),
    [
        ((70.0, -1.0, 1.0, 0.0, "road"), "load is -1 kg"),
        ((70.0, 0.0, 3.1, 0.0, "road"), "walking speed is 3.1 m/s; it must be 0 to 3 m/s"),
        ((70.0, 0.0, 1.0, -1.0, "road"), "grade is -1 %"),
        ((70.0, 0.0, 1.0, 101.0, "road"), "grade is 101 %"),
        ((0.0, 0.0, 1.0, 0.0, "road"), "body mass is 0 kg"),
        ((70.0, 0.0, 1.0, 0.0, "ice"), "ground 'ice' is not known; known are road, path"),
    ],
)
def test_walks_that_cannot_be_are_refused(
    args: tuple[float, float, float, float, str], says: str
) -> None:
    with pytest.raises(ValueError, match=says):
        walking_power_w(*args)


@pytest.mark.parametrize("slope", [-1.0, 91.0])
def test_slopes_that_cannot_be_are_refused(slope: float) -> None:
    with pytest.raises(ValueError, match="slope is"):
        downhill_power_w(70.0, 0.0, 1.0, slope, "road")


def _kcal(power_w: float, hours: float) -> float:
    """Energy of a power held for hours."""
    return power_w * hours * 3600.0 / 4184.0


@given(bodies, loads, st.floats(1.0, 10.0), speeds, grounds)
def test_a_level_walk_is_its_power_for_its_time(
    body: float, load: float, hours: float, speed: float, ground: str
) -> None:
    found = walk_kcal(body, load, hours, speed * hours * 3600.0, 0.0, descent_m=0.0, ground=ground)
    assert found == pytest.approx(
        _kcal(walking_power_w(body, load, speed, 0.0, ground), hours), rel=1e-9
    )


def test_only_up_is_uphill_all_the_way() -> None:
    found = walk_kcal(70.0, 10.0, 2.0, 7200.0, 720.0, descent_m=0.0, ground="path")
    assert found == pytest.approx(_kcal(walking_power_w(70.0, 10.0, 1.0, 10.0, "path"), 2.0))


def test_only_down_is_downhill_all_the_way() -> None:
    found = walk_kcal(70.0, 10.0, 2.0, 7200.0, 0.0, descent_m=720.0, ground="path")
    slope_deg = math.degrees(math.atan(0.1))
    assert found == pytest.approx(_kcal(downhill_power_w(70.0, 10.0, 1.0, slope_deg, "path"), 2.0))


def test_up_and_down_the_same_is_the_mean_of_both() -> None:
    both = walk_kcal(70.0, 10.0, 2.0, 7200.0, 360.0, descent_m=360.0, ground="path")
    up = walk_kcal(70.0, 10.0, 2.0, 7200.0, 720.0, descent_m=0.0, ground="path")
    down = walk_kcal(70.0, 10.0, 2.0, 7200.0, 0.0, descent_m=720.0, ground="path")
    assert both == pytest.approx((up + down) / 2.0)


@given(st.floats(0.0, 1500.0), st.floats(0.0, 1500.0))
def test_more_ascent_never_takes_less(one: float, other: float) -> None:
    lower, higher = sorted((one, other))
    easier = walk_kcal(70.0, 12.0, 6.0, 15000.0, lower, descent_m=0.0, ground="path")
    assert (
        walk_kcal(70.0, 12.0, 6.0, 15000.0, higher, descent_m=0.0, ground="path") >= easier - 1e-9
    )


@given(st.floats(1e-9, 1e-3), st.floats(1e-9, 1e-3))
def test_hardly_any_hills_are_no_hills(ascent: float, descent: float) -> None:
    level = walk_kcal(70.0, 12.0, 6.0, 15000.0, 0.0, descent_m=0.0, ground="path")
    found = walk_kcal(70.0, 12.0, 6.0, 15000.0, ascent, descent_m=descent, ground="path")
    assert found == pytest.approx(level, rel=1e-4)


def test_a_way_as_long_as_it_is_high_is_the_steepest() -> None:
    assert walk_kcal(70.0, 0.0, 3.0, 1000.0, 700.0, descent_m=300.0, ground="rough") > 0.0
    with pytest.raises(ValueError, match="together are 1001 m; the way is only 1000 m long"):
        walk_kcal(70.0, 0.0, 3.0, 1000.0, 701.0, descent_m=300.0, ground="rough")


@pytest.mark.parametrize(
    ("hours", "distance", "ascent", "descent"),
    [
        (0.0, 5000.0, 0.0, 0.0),
        (2.0, 0.0, 0.0, 0.0),
        (2.0, 5000.0, -1.0, 0.0),
        (2.0, 5000.0, 0.0, -1.0),
        (1.0, 11000.0, 0.0, 0.0),
    ],
)
def test_ways_that_cannot_be_are_refused(
    hours: float, distance: float, ascent: float, descent: float
) -> None:
    with pytest.raises(ValueError, match="must be"):
        walk_kcal(70.0, 0.0, hours, distance, ascent, descent_m=descent, ground="path")


@given(st.sampled_from(sorted(MET)), bodies, st.floats(0.0, 12.0), st.floats(0.0, 12.0))
def test_hours_add_up(way: str, mass: float, one: float, other: float) -> None:
    apart = met_kcal(MET[way], mass, one) + met_kcal(MET[way], mass, other)
    assert met_kcal(MET[way], mass, one + other) == pytest.approx(apart, rel=1e-9, abs=1e-9)


def test_a_load_makes_walking_harder() -> None:
    assert MET["walking-loaded"] > MET["walking"]
    assert LOADED_ABOVE_KG == 10.0


@pytest.mark.parametrize(
    ("met", "mass", "hours"), [(-1.0, 70.0, 1.0), (26.0, 70.0, 1.0), (4.0, -1.0, 1.0)]
)
def test_activities_that_cannot_be_are_refused(met: float, mass: float, hours: float) -> None:
    with pytest.raises(ValueError, match="it must be"):
        met_kcal(met, mass, hours)


def test_the_least_of_travel_is_refused_for_more_than_a_day() -> None:
    with pytest.raises(ValueError, match="time on the way is 25 h"):
        least_travel_kcal(1500.0, 25.0)


def test_the_young_grow_and_adults_do_not() -> None:
    assert eer_2023_kcal("male", 8.0, 130.0, 27.0, "active") == pytest.approx(
        -388.19 + 3.68 * 8 + 12.66 * 130 + 20.46 * 27 + 20.0
    )
    assert eer_2023_kcal("female", 18.9, 165.0, 58.0, "active") == pytest.approx(
        -189.55 - 22.25 * 18.9 + 11.74 * 165 + 18.34 * 58 + 20.0
    )


@pytest.mark.parametrize(
    ("sex", "birthday", "more_kcal"),
    [("male", 9.0, 5.0), ("male", 14.0, -5.0), ("female", 9.0, 15.0), ("female", 14.0, -10.0)],
)
def test_growth_is_that_of_the_new_age_from_the_birthday_on(
    sex: str, birthday: float, more_kcal: float
) -> None:
    """NASEM 2023: boys 20, 25, 20 and girls 15, 30, 20 kcal a day from 3, 9 and 14 years."""
    before = eer_2023_kcal(sex, birthday - 1e-6, 150.0, 45.0, "active")
    after = eer_2023_kcal(sex, birthday, 150.0, 45.0, "active")
    assert after - before == pytest.approx(more_kcal, abs=0.001)
