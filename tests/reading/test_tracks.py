"""Tracks of known way and climb, with noise and without, and those that are refused."""

from __future__ import annotations

import random
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path

import pytest

from builder.model.track import DayTrack, is_gap
from builder.model.trip import Trip
from builder.problems import Problem
from builder.reading.notes import Amiss
from builder.reading.way.tracks import climbed, read_track, smoothed
from tests.reading.folder_builder import GOOD, TRIP, changed, read

NEAR = pytest.approx
METRES_A_DEGREE = 6_371_008.8 * 3.141592653589793 / 180  # along a meridian of a ball

# heights, up, down; the first four are worked in the table of references, by turning points.
CLIMBS: list[tuple[list[float], float, float, float]] = [
    (list(map(float, range(98))), 10, 97, 0),
    ([12, 17, 15, 20, 22, 18, 15, 16, 14, 12], 2, 12, 12),
    ([12, 17, 15, 20, 22, 18, 15, 16, 14, 12], 3, 10, 10),
    ([100, 103, 101, 104, 102, 106, 110, 108, 112, 111, 115, 109, 105, 107, 103, 100], 10, 15, 15),
    ([0, 9.9, 0, 9.9, 0], 10, 0, 0),
    ([0, 10, 0, 10, 0], 10, 20, 20),
    ([500, 100, 105, 100, 480], 10, 380, 400),
    ([], 10, 0, 0),
]


@pytest.mark.parametrize(("heights", "least_m", "up", "down"), CLIMBS)
def test_climbs_between_turning_points(
    heights: list[float], least_m: float, up: float, down: float
) -> None:
    assert climbed(heights, least_m) == NEAR((up, down))


def test_the_ends_of_a_smoothed_way_stay_put() -> None:
    heights = [0.0, 100, 0, 0, 0, 0, 0, 0, 90]
    means = smoothed(heights)
    assert (means[0], means[-1]) == (0, 90)
    assert means[4] == NEAR(190 / 9), "nine points about it"
    assert means[1] == NEAR(100 / 3), "three near the end"


def hill(up_m: float, step_m: float, noise_m: float, seed: int) -> list[float]:
    steps = int(up_m / step_m)
    heights = [step_m * each for each in range(steps)]
    heights += [up_m - step_m * each for each in range(steps + 1)]
    chance = random.Random(seed)
    return [1000 + each + chance.gauss(0, noise_m) for each in heights]


@pytest.mark.parametrize("seed", range(20))
def test_noise_of_a_receiver_makes_no_climb(seed: int) -> None:
    heights = hill(500, 0.5, 3, seed)
    naive = sum(max(b - a, 0) for a, b in pairwise(heights))
    up, down = climbed(smoothed(heights))
    assert naive > 3000, "the noise is there"
    assert (up, down) == NEAR((500, 500), abs=25)


# -- files ----------------------------------------------------------------------------------------


def points(heights: Sequence[float | None], start: int = 0, time: str = "") -> str:
    """Give points 0.001° apart on a meridian, 111.2 m."""
    return "".join(
        f'<trkpt lat="{(start + number) / 1000}" lon="0">'
        + (f"<ele>{height}</ele>" if height is not None else "")
        + (f"<time>{time}</time>" if time else "")
        + "</trkpt>"
        for number, height in enumerate(heights)
    )


def gpx(*tracks: str, before: str = "") -> bytes:
    inside = "".join(f"<trk>{each}</trk>" for each in tracks)
    head = '<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">'
    return f'<?xml version="1.0"?>{before}{head}{inside}</gpx>'.encode()


def segment(inside: str) -> str:
    return f"<trkseg>{inside}</trkseg>"


FLAT = [100.0] * 11
UP = [100.0 + 10 * each for each in range(11)]


def test_a_day_for_each_track() -> None:
    one, two = read_track(gpx(segment(points(FLAT)), segment(points(UP))), 0)
    assert one.distance_m == NEAR(METRES_A_DEGREE / 100, rel=1e-4)
    assert (one.ascent_m, one.descent_m, one.end_m) == (0, 0, 100)
    assert [two.ascent_m, two.descent_m, two.end_m] == NEAR([100, 0, 200])


def test_of_one_track_a_day_for_each_segment() -> None:
    both = segment(points(FLAT)) + segment(points(UP, start=500))
    one, two = read_track(gpx(both), 0)
    assert one.distance_m == two.distance_m == NEAR(METRES_A_DEGREE / 100, rel=1e-4)


def test_of_one_segment_a_day_for_each_local_date() -> None:
    inside = points(FLAT, time="2031-09-04T20:00:00Z")
    inside += points(UP, 11, time="2031-09-04T23:30:00Z")
    assert len(read_track(gpx(segment(inside)), 0)) == 1
    one, two = read_track(gpx(segment(inside)), 2)
    assert [one.end_m, two.end_m] == NEAR([100, 200])


def test_no_climb_and_no_way_across_a_gap() -> None:
    gap = segment(points(FLAT)) + segment(points([600.0] * 11, start=900))
    one, _ = read_track(gpx(gap, segment(points(FLAT))), 0)
    assert (one.ascent_m, one.descent_m) == (0, 0)
    assert one.distance_m == NEAR(2 * METRES_A_DEGREE / 100, rel=1e-4)


def test_a_gap_in_a_day_is_kept_however_few_points_are_shown() -> None:
    gap = segment(points([100.0] * 500)) + segment(points([600.0] * 500, start=900))
    one, _ = read_track(gpx(gap, segment(points(FLAT))), 0)
    jumps = [(a, b) for a, b in pairwise(one.profile) if abs(a[1] - b[1]) > 1]
    ((before, after),) = jumps
    assert is_gap(before, after)
    assert len(one.profile) < 70


def test_a_day_that_is_all_gaps_has_no_more_points_than_any() -> None:
    parts = [segment(points([100.0 + 400 * (part % 2)] * 20, part * 30)) for part in range(60)]
    one, _ = read_track(gpx("".join(parts), segment(points(FLAT))), 0)
    assert len(one.profile) < 70


@pytest.mark.parametrize(
    ("other", "gap"),
    [((5.0, 140.0), True), ((5.0, 60.0), True), ((5.0, 120.0), False), ((6.0, 140.0), False)],
)
def test_a_gap_is_another_height_at_the_same_spot(other: tuple[float, float], gap: bool) -> None:
    assert is_gap((5.0, 100.0), other) is gap


def test_a_track_without_heights_tells_the_way_alone() -> None:
    (one,) = read_track(gpx(segment(points([100.0, None, 100.0]))), 0)
    assert one == DayTrack(one.distance_m)
    assert one.distance_m == NEAR(METRES_A_DEGREE * 0.002, abs=0.1)


BOMB = '<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>'


@pytest.mark.parametrize(
    ("data", "kind"),
    [
        (gpx(segment(points(UP)), before=BOMB), "track-doctype"),
        (gpx(), "track-empty"),
        (gpx(segment(points([100.0]))), "track-empty"),
        (b"<gpx", "track-unread"),
        (b"\xff\xfe\x00", "track-unread"),
        (b"", "track-unread"),
        (b"x" * 20_000_001, "track-large"),
        (gpx(segment('<trkpt lat="x" lon="0"/><trkpt lat="1" lon="0"/>')), "track-unread"),
        (gpx(segment('<trkpt lat="nan" lon="0"/><trkpt lat="1" lon="0"/>')), "track-unread"),
    ],
)
def test_what_cannot_be_a_track_is_told(data: bytes, kind: str) -> None:
    with pytest.raises(Amiss) as amiss:
        read_track(data, 0)
    assert amiss.value.kind == kind


# -- a trip along it ------------------------------------------------------------------------------


def along(folder: Path, text: str, data: bytes) -> tuple[Trip | None, list[Problem]]:
    trips = folder / "my" / "trips"
    trips.mkdir(parents=True, exist_ok=True)
    (trips / "way.gpx").write_bytes(data)
    found = read(folder, {**GOOD, "trips/tarrow.yaml": "track: way.gpx\n" + text})
    wrong = [each for each in found.problems if each.severity == "error"]
    return found.content.trips.get("tarrow"), wrong


ONE_DAY = gpx(segment(points(UP)))


def test_a_track_tells_what_the_trip_does_not(tmp_path: Path) -> None:
    trip, wrong = along(tmp_path, changed(TRIP, "camp_altitude: 640 m", "wind: breezy"), ONE_DAY)
    assert wrong == [] and trip is not None
    (day,) = trip.days
    (leg,) = day.travel
    assert day.camp.altitude_m == NEAR(200)
    assert leg.by == "walking"
    assert [leg.ascent_m, leg.descent_m] == NEAR([100, 0])
    assert leg.distance_m == NEAR(METRES_A_DEGREE / 100, rel=1e-4)
    # 5 km an hour, and an hour for 600 m up.
    assert leg.hours == NEAR(METRES_A_DEGREE / 100 / 5000 + 100 / 600, rel=1e-4)


def test_what_the_trip_tells_goes_before_the_track(tmp_path: Path) -> None:
    told = "camp_altitude: 640 m\n    travel: {by: skiing, distance: 2 km, hours: 1}"
    trip, wrong = along(tmp_path, changed(TRIP, "camp_altitude: 640 m", told), ONE_DAY)
    assert wrong == [] and trip is not None
    (leg,) = trip.days[0].travel
    assert trip.days[0].camp.altitude_m == 640
    assert (leg.by, leg.distance_m, leg.hours) == ("skiing", 2000, 1)
    assert leg.ascent_m == NEAR(100)


@pytest.mark.parametrize(
    ("more", "up_m", "down_m"),
    [("", (75, 100), (25, 50)), (", ascent: 7 m", (7, 7), (25, 50)),
     (", descent: 9 m", (75, 100), (9, 9))],
)  # fmt: skip
def test_climb_and_descent_are_taken_from_a_track_each_by_itself(
    more: str, up_m: tuple[float, float], down_m: tuple[float, float], tmp_path: Path
) -> None:
    told = f"camp_altitude: 640 m\n    travel: {{by: walking, hours: 1{more}}}"
    track = gpx(segment(points([*UP, *[200.0 - 10 * each for each in range(6)]])))
    trip, wrong = along(tmp_path, changed(TRIP, "camp_altitude: 640 m", told), track)
    assert wrong == [] and trip is not None
    (leg,) = trip.days[0].travel
    # 100 m up and 50 m down, of which smoothing takes some off the top.
    assert up_m[0] <= leg.ascent_m <= up_m[1] and down_m[0] <= leg.descent_m <= down_m[1]


def test_a_way_that_a_track_alone_tells_goes_down_too(tmp_path: Path) -> None:
    text = changed(TRIP, "camp_altitude: 640 m", "wind: breezy")
    down = gpx(segment(points([200.0 - 10 * each for each in range(11)])))
    trip, wrong = along(tmp_path, text, down)
    assert wrong == [] and trip is not None
    assert [trip.days[0].travel[0].ascent_m, trip.days[0].travel[0].descent_m] == NEAR([0, 100])


def test_a_track_of_other_days_is_told_where_it_is_named(tmp_path: Path) -> None:
    _, wrong = along(tmp_path, TRIP, gpx(segment(points(UP)), segment(points(UP))))
    assert [(each.kind, each.place.line) for each in wrong] == [("track-days", 1)]


def test_a_day_of_rest_stays_at_the_camp_before(tmp_path: Path) -> None:
    days = "days:\n  - {meals: {}}\n  - {travel: {by: resting}, meals: {}}\n"
    text = changed(TRIP, "days:\n", days).partition("  - camp_altitude")[0]
    trip, wrong = along(tmp_path, text, ONE_DAY)
    assert wrong == [] and trip is not None
    assert [day.camp.altitude_m for day in trip.days] == NEAR([200, 200])
    assert [day.travel_hours > 0 for day in trip.days] == [True, False]
