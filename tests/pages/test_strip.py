"""The strip of a day: what comes before what, on one line of hours."""

from __future__ import annotations

import pytest

from builder.pages.trip.strip import day_strip
from builder.record import replace
from tests.pages.sample_kit import sample_kit


def test_a_day_of_rest_needs_no_strip() -> None:
    kit = sample_kit()
    assert day_strip(kit, replace(kit.days[0], travel_hours=0.0)) is None


def test_the_way_stands_in_two_parts_about_lunch_and_in_one_without() -> None:
    kit = sample_kit()
    lunch = replace(kit.days[0].meals[0], meal="lunch")
    day = replace(kit.days[0], travel_hours=6.0, between_water_h=0.0)
    without = day_strip(kit, replace(day, meals=()))
    with_lunch = day_strip(kit, replace(day, meals=(lunch,)))
    assert without and with_lunch
    # 6 h of the 16 on a strip of 272: 102; with a pause of three quarters of an hour two of 51.
    assert [bar.width for bar in without.bars] == ["102"]
    assert [bar.width for bar in with_lunch.bars] == ["51", "51"]
    gap = float(with_lunch.bars[1].x) - float(with_lunch.bars[0].x) - 51
    assert gap == pytest.approx(0.75 * 17, abs=0.1)
    assert "Lunch" in with_lunch.text and "Lunch" not in without.text


@pytest.mark.parametrize(("dry_h", "width"), [(2.0, "34"), (6.0, "102"), (9.0, "102")])
def test_a_stretch_without_water_is_no_longer_than_the_way(dry_h: float, width: str) -> None:
    kit = sample_kit()
    day = replace(kit.days[0], meals=(), travel_hours=6.0, between_water_h=dry_h)
    strip = day_strip(kit, day)
    assert strip
    assert [bar.width for bar in strip.bars] == ["102", width]


def test_what_is_later_than_the_strip_stands_at_its_end() -> None:
    kit = sample_kit()
    day = replace(kit.days[0], travel_hours=20.0, between_water_h=0.0)
    strip = day_strip(kit, day)
    assert strip
    assert all(float(bar.x) + float(bar.width) <= 296 - 12 for bar in strip.bars)
    assert all(0 <= float(dot.x) <= 296 for dot in strip.dots)


@pytest.mark.parametrize(("hours", "lines"), [(2.5, 2), (6.0, 1)])
def test_names_of_meals_that_are_near_stand_on_lines_of_their_own(hours: float, lines: int) -> None:
    kit = sample_kit()
    eaten = (replace(kit.days[0].meals[0], meal=name) for name in ("breakfast", "lunch", "dinner"))
    day = replace(kit.days[0], meals=tuple(eaten), travel_hours=hours, between_water_h=0.0)
    strip = day_strip(replace(kit, times=None), day)
    assert strip
    # Breakfast at 7, lunch half the way after 8, dinner at half past six in the evening.
    names = [each for each in strip.words if each.text in ("Breakfast", "Lunch", "Dinner")]
    assert len({name.y for name in names}) == lines
    assert names[0].y == names[2].y
