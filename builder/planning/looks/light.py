"""From when to when the sun is up at a camp, where the trip tells where that lies."""

from __future__ import annotations

import datetime
from collections.abc import Callable

from builder.model.figure import Figure, found
from builder.model.looks import Light
from builder.model.trip import Day, Trip

_BY = "the sun's place in the sky over a flat horizon, by the library astral"
_MINUTES_A_DAY = 24 * 60


def light_of(trip: Trip, day: Day) -> Light | None:
    """Give the sun of a day: its rise where one wakes up, its set where one goes to bed.

    None where the trip does not tell the place, the date or the local time.
    """
    from astral import Observer
    from astral.sun import elevation, noon, sunrise, sunset

    date, evening = trip.date_of(day.number), _evening_deg(trip, day.number)
    morning = _evening_deg(trip, day.number - 1) or evening
    if date is None or trip.utc_h is None or evening is None or morning is None:
        return None
    zone = datetime.timezone(datetime.timedelta(hours=float(trip.utc_h)))
    waking, sleeping = Observer(*morning), Observer(*evening)

    def minutes(moment: Callable[..., datetime.datetime], at: Observer, name: str) -> Figure | None:
        try:
            local = moment(at, date=date, tzinfo=zone)
        except ValueError:  # it stays up, or down
            return None
        since = local - datetime.datetime.combine(date, datetime.time(), zone)
        return found(since.total_seconds() / 60 % _MINUTES_A_DAY, name, _BY)

    highest_deg = elevation(sleeping, noon(sleeping, date=date, tzinfo=zone))
    return Light(
        rises_min=minutes(sunrise, waking, "rises_min"),
        sets_min=minutes(sunset, sleeping, "sets_min"),
        is_up_at_noon=highest_deg > 0,
    )


def _evening_deg(trip: Trip, number: int) -> tuple[float, float] | None:
    """Give where the camp of a day lies; day 0 has the start camp. A day's end at home has none."""
    if number < 1:
        camp = trip.start_camp
    else:
        day = trip.days[number - 1]
        camp = trip.days[number - 2].camp if day.ends_home and number > 1 else day.camp
    return camp.at_deg if camp else None
