"""What a trip and its days say of themselves."""

from __future__ import annotations

import datetime

import pytest

from builder.model.place import Place, Places
from builder.model.trip import (
    HOME_SHARE,
    Camp,
    Day,
    MealItem,
    Person,
    Travel,
    TravelBy,
    Trip,
)
from builder.record import replace

TRIP = Trip(id="t", title="T", party=(Person("Ash"), Person("Rowan")), days=())


def day(**more: object) -> Day:
    return replace(Day(1, "One", Camp(100.0), ()), **more)  # type: ignore[arg-type]


def test_dates_count_from_the_start_over_months_and_leap_days() -> None:
    trip = replace(TRIP, start=datetime.date(2032, 2, 28))
    assert [trip.date_of(number) for number in (1, 2, 3)] == [
        datetime.date(2032, 2, 28),
        datetime.date(2032, 2, 29),
        datetime.date(2032, 3, 1),
    ]
    assert TRIP.date_of(1) is None, "a template has no dates"


def test_people_are_found_by_name() -> None:
    assert TRIP.person("Rowan") is TRIP.party[1]


@pytest.mark.parametrize(("by", "hours"), [("walking", 5.0), ("paddling", 5.0), ("resting", 0.0)])
def test_a_day_of_rest_has_no_hours_on_the_way(by: TravelBy, hours: float) -> None:
    assert day(travel=(Travel(by, 5.0),)).travel_hours == hours
    assert day().travel_hours == 0.0


def test_the_shares_of_meals_at_home_add_up_to_a_day() -> None:
    assert sum(HOME_SHARE.values()) == pytest.approx(1.0, rel=1e-12)


def test_a_batch_is_found_by_its_ingredient() -> None:
    item = MealItem(recipe="r", batches=(("beans", "beans-may"), ("rice", "rice-june")))
    assert (item.batch_of("rice"), item.batch_of("oil")) == ("rice-june", None)


def test_where_a_record_was_written_does_not_make_it_another() -> None:
    moved = replace(TRIP, places=Places(Place("elsewhere.yaml", 9, 9)))
    assert moved == TRIP
    assert "elsewhere" not in repr(moved)


def test_records_do_not_change() -> None:
    with pytest.raises(AttributeError):
        TRIP.title = "Other"  # type: ignore[misc]
