"""Sunrise and sunset, held against the almanac's equations worked out here by themselves."""

from __future__ import annotations

import datetime
import math
from pathlib import Path

import pytest

from builder.model.kit import Kit
from builder.pages.figures import figures_of
from builder.pages.trip.light import light_at_meal, light_said
from builder.planning.public import public_kit
from builder.speech import speech_of
from tests.planning.folders import Hand, Record, day, day_trip, hand

NEAR = pytest.approx


def spencer(latitude: float, longitude: float, date: str, utc_h: float) -> tuple[float, float]:
    """Give minutes of the local day by Spencer's series (1971), good to a few minutes.

    The sun's upper edge is on the horizon at −0.833°.
    """
    number = datetime.date.fromisoformat(date).timetuple().tm_yday
    year = 2 * math.pi * (number - 1 + 0.5) / 365
    declination = (
        0.006918
        - 0.399912 * math.cos(year)
        + 0.070257 * math.sin(year)
        - 0.006758 * math.cos(2 * year)
        + 0.000907 * math.sin(2 * year)
        - 0.002697 * math.cos(3 * year)
        + 0.00148 * math.sin(3 * year)
    )
    ahead_min = 229.18 * (
        0.000075
        + 0.001868 * math.cos(year)
        - 0.032077 * math.sin(year)
        - 0.014615 * math.cos(2 * year)
        - 0.040849 * math.sin(2 * year)
    )
    phi = math.radians(latitude)
    half = math.degrees(
        math.acos(
            (math.sin(math.radians(-0.833)) - math.sin(phi) * math.sin(declination))
            / (math.cos(phi) * math.cos(declination))
        )
    )
    noon_min = 720 - 4 * longitude - ahead_min + 60 * utc_h
    return noon_min - 4 * half, noon_min + 4 * half


def trip(folder: Path, *days: Record, **more: object) -> Hand:
    return hand(folder, day_trip(days=list(days), **more))


PLACES = [
    (57.0, -4.0, "2031-09-04", 1),
    (46.5, 8.0, "2031-06-21", 2),
    (-42.0, 147.0, "2031-01-15", 11),
    (0.0, 0.0, "2031-03-20", 0),
    (64.0, 20.0, "2031-12-20", 1),
]


@pytest.mark.parametrize(("latitude", "longitude", "date", "utc"), PLACES)
def test_the_sun_is_where_the_almanac_has_it(
    latitude: float, longitude: float, date: str, utc: float, tmp_path: Path
) -> None:
    kit = trip(tmp_path, day(at=[latitude, longitude]), start=date, utc=f"{utc:+g}").kit()
    light = kit.days[0].light
    assert light is not None and light.is_up_at_noon
    found = [each for each in (light.rises_min, light.sets_min) if each is not None]
    assert found == NEAR(spencer(latitude, longitude, date, utc), abs=4)


@pytest.mark.parametrize(
    ("date", "up", "says"),
    [("2031-06-21", True, "does not set"), ("2031-12-21", False, "does not rise")],
)
def test_where_the_sun_stays(date: str, up: bool, says: str, tmp_path: Path) -> None:
    kit = trip(tmp_path, day(at=[71.0, 25.0]), start=date, utc="+1").kit()
    light = kit.days[0].light
    assert light is not None
    assert (light.rises_min, light.sets_min, light.is_up_at_noon) == (None, None, up)
    said = "".join(each.text for each in light_said(figures_of(kit), kit.days[0], light))
    assert says in said


@pytest.mark.parametrize("lacks", ["at", "utc", "start"])
def test_what_was_not_told_is_not_guessed(lacks: str, tmp_path: Path) -> None:
    told: Record = {"start": "2031-09-04", "utc": "+1"}
    told[lacks] = None
    own: Record = {} if lacks == "at" else {"at": [57.0, -4.0]}
    more = {key: value for key, value in told.items() if key in ("start", "utc")}
    assert trip(tmp_path, day(**own), **more).kit().days[0].light is None


def two_camps(folder: Path) -> Hand:
    west, east = (day(at=[57.0, longitude]) for longitude in (-4.0, 4.0))
    return trip(folder, west, east, start="2031-09-04", utc="+1")


def test_one_wakes_where_one_slept(tmp_path: Path) -> None:
    first, second = (each.light for each in two_camps(tmp_path).kit().days)
    assert first is not None and second is not None
    assert first.rises_min is not None and second.rises_min is not None
    assert first.sets_min is not None and second.sets_min is not None
    assert abs(second.rises_min - first.rises_min) < 4, "in the same camp"
    assert first.sets_min - second.sets_min == NEAR(32, abs=4), "8° further east, 4 min each"


def test_breakfast_and_dinner_tell_it(tmp_path: Path) -> None:
    kit: Kit = two_camps(tmp_path).kit()
    say = speech_of("en")
    assert light_at_meal(say, kit.days[0], "breakfast").startswith("The sun rises at 06:")
    assert light_at_meal(say, kit.days[0], "dinner").startswith("The sun sets at 20:")
    assert light_at_meal(say, kit.days[0], "lunch") == ""


def test_no_public_kit_tells_it(tmp_path: Path) -> None:
    told = two_camps(tmp_path)
    assert all(each.light is None for each in public_kit(told.kit(), told.content).days)
