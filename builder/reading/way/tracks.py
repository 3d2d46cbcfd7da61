"""Tracks: a GPX file beside a trip, as the way of each of its days."""

from __future__ import annotations

import datetime
import math
import re
from collections.abc import Sequence
from itertools import groupby, pairwise
from typing import TYPE_CHECKING

from builder.model.figure import Figure, found, nothing
from builder.model.track import DayTrack, is_gap
from builder.problems import Problem
from builder.reading.beside import Beside
from builder.reading.notes import Amiss
from builder.reading.text.yaml_door import Node, quoted
from builder.reading.way.places_and_times import hours_ahead

if TYPE_CHECKING:
    from gpxpy.gpx import GPX, GPXTrackPoint

LARGEST_TRACK_BYTES = 20_000_000
MOST_POINTS = 300_000
SMOOTHED_OVER = 9  # points
LEAST_CLIMB_M = 10.0
EARTH_RADIUS_M = 6_371_008.8  # the mean of the ellipsoid, IUGG
SHOWN_POINTS = 60  # of a day's profile
MOST_SHOWN_GAPS = 12  # of a day: a track with more of them is all noise
# A document type may hold entities that grow without end; no track has one.
_DOCTYPE = re.compile(rb"<!\s*(DOCTYPE|ENTITY)", re.IGNORECASE)
_LOWEST_M, _HIGHEST_M = -500.0, 9000.0
_BY_HEIGHTS = "of the track: means of nine points, then climbs from 10 m on between turning points"
_BY_POINTS = "of the track: straight from point to point"

_Run = list["GPXTrackPoint"]  # points without a gap


def track_named(trip: Node, beside: Beside, problems: list[Problem]) -> tuple[DayTrack, ...]:
    """Give the parts of the track beside a trip; () where it names none that can be read."""
    named, utc = (trip.entries.get(key) for key in ("track", "utc"))
    if named is None or not named.node.is_text or not named.node.text.strip():
        return ()
    name = named.node.text.strip()
    try:
        data = beside.start_of(name, LARGEST_TRACK_BYTES)
        return read_track(data, hours_ahead(utc.node if utc else None) or 0.0) if data else ()
    except Amiss as amiss:
        problems.append(amiss.at(named.node.place))
    except (OSError, ValueError) as error:
        says = f"track: {quoted(name)} cannot be read: {error}"
        unread = Amiss("track-unread", says, "check the file, or leave `track` out")
        problems.append(unread.at(named.node.place))
    return ()


def read_track(data: bytes, utc_h: float) -> tuple[DayTrack, ...]:
    """Give the way of each day: a day for each track, else each segment, else each date."""
    if len(data) > LARGEST_TRACK_BYTES:
        most = f"at most {LARGEST_TRACK_BYTES // 1_000_000} MB"
        raise Amiss("track-large", f"the track is larger than {most}", "thin it, or part it")
    if _DOCTYPE.search(data):
        says = "the track has a document type, which GPX never needs"
        raise Amiss("track-doctype", says, "save it anew as plain GPX")
    days = [day for day in _days(_parsed(data), utc_h) if sum(map(len, day)) > 1]
    if sum(len(run) for day in days for run in day) > MOST_POINTS:
        raise Amiss("track-large", f"the track has more than {MOST_POINTS} points", "thin it")
    if not days:
        raise Amiss("track-empty", "the track has no points in a `trk`", "save it as a track")
    return tuple(_day_track(day) for day in days)


def by_day(parts: Sequence[DayTrack], days: Sequence[Node]) -> tuple[DayTrack, ...]:
    """Give each day its part of the track; on a day of rest one stays where one was."""
    resting = [_rests(day) for day in days]
    if resting.count(False) != len(parts):
        says = f"the track has {len(parts)} days, and {resting.count(False)} of the trip have a way"
        mend = "write `travel: {by: resting}` for a day without one, or part the track by day"
        raise Amiss("track-days", says, mend)
    left = iter(parts)
    found: list[DayTrack] = []
    for rests in resting:
        stays_m = found[-1].end_m if found else None
        found.append(DayTrack(nothing("distance_m"), end_m=stays_m) if rests else next(left))
    return tuple(found)


def _rests(day: Node) -> bool:
    travel = day.entries.get("travel")
    by = travel.node.entries.get("by") if travel and travel.node.is_map else None
    return by is not None and by.node.is_text and by.node.text.strip() == "resting"


def _parsed(data: bytes) -> GPX:
    import gpxpy
    from gpxpy.gpx import GPXException

    try:
        return gpxpy.parse(data)
    except (GPXException, ValueError, LookupError) as error:
        says = f"the track cannot be read: {str(error).partition(chr(10))[0][:120]}"
        raise Amiss("track-unread", says, "save it as GPX 1.1") from error


def _days(gpx: GPX, utc_h: float) -> list[list[_Run]]:
    """Part the points by day; of each day the runs that no gap parts."""
    tracks = [[list(each.points) for each in track.segments] for track in gpx.tracks]
    tracks = [track for track in tracks if any(track)]
    if len(tracks) > 1:
        return tracks
    segments = [segment for track in tracks for segment in track if segment]
    if len(segments) > 1:
        return [[segment] for segment in segments]
    zone = datetime.timezone(datetime.timedelta(hours=float(utc_h)))

    def date(point: GPXTrackPoint) -> str:
        return point.time.astimezone(zone).date().isoformat() if point.time else ""

    points = [point for segment in segments for point in segment]
    return [[list(run)] for _, run in groupby(points, key=date)]


def _metres(one: GPXTrackPoint, other: GPXTrackPoint) -> float:
    """Give the way between two points on a ball; half a percent off at most."""
    phi, other_phi = math.radians(one.latitude), math.radians(other.latitude)
    turned = math.radians(other.longitude - one.longitude)
    share = (
        math.sin((other_phi - phi) / 2) ** 2
        + math.cos(phi) * math.cos(other_phi) * math.sin(turned / 2) ** 2
    )
    return 2 * EARTH_RADIUS_M * math.asin(math.sqrt(min(share, 1.0)))


def _day_track(runs: Sequence[_Run]) -> DayTrack:
    along_m, ups, downs = 0.0, 0.0, 0.0
    profile: list[tuple[float, float]] = []
    has_heights = all(_is_height(point.elevation) for run in runs for point in run)
    for run in runs:
        steps = [0.0, *(_metres(a, b) for a, b in pairwise(run))]
        if not all(map(math.isfinite, steps)):
            raise Amiss("track-unread", "a point of the track is nowhere", "save it anew")
        heights = smoothed([point.elevation or 0.0 for point in run]) if has_heights else []
        up, down = climbed(heights)
        ups, downs = ups + up, downs + down
        for step, height in zip(steps, heights or [0.0] * len(steps), strict=True):
            along_m += step
            profile.append((along_m, height))
    if not has_heights:
        return DayTrack(_found(along_m, "distance_m", _BY_POINTS))
    return DayTrack(
        distance_m=_found(along_m, "distance_m", _BY_POINTS),
        ascent_m=_found(ups, "ascent_m", _BY_HEIGHTS),
        descent_m=_found(downs, "descent_m", _BY_HEIGHTS),
        end_m=_found(profile[-1][1], "altitude_m", "the height at the end of the day's track"),
        profile=_shown(profile),
    )


def _shown(profile: Sequence[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """Give few of many points: before and after each gap those beside it, and the last."""
    ends = [at for at, pair in enumerate(pairwise(profile), start=1) if is_gap(*pair)]
    if len(ends) > MOST_SHOWN_GAPS:
        ends = []
    stride = math.ceil(len(profile) / SHOWN_POINTS)
    shown: list[tuple[float, float]] = []
    for first, end in pairwise((0, *ends, len(profile))):
        shown += (*profile[first : end - 1 : stride], profile[end - 1])
    return tuple(shown)


def _is_height(height: float | None) -> bool:
    return height is not None and _LOWEST_M <= height <= _HIGHEST_M


def _found(value: float, name: str, method: str) -> Figure:
    return found(round(value, 1), name, method)


def smoothed(heights: Sequence[float]) -> list[float]:
    """Give for each height the mean of the nine points about it; of fewer towards the ends.

    At the ends as many points count on each side as there are, so that the ends stay put.
    """
    last, reach = len(heights) - 1, SMOOTHED_OVER // 2
    means = []
    for number in range(len(heights)):
        side = min(reach, number, last - number)
        about = heights[number - side : number + side + 1]
        means.append(sum(about) / len(about))
    return means


def climbed(heights: Sequence[float], least_m: float = LEAST_CLIMB_M) -> tuple[float, float]:
    """Give all that goes up and all that goes down between turning points.

    The way turns where it comes back by `least_m` from its highest or lowest; smaller waves are
    noise of the heights. What comes after the last turning point counts to its farthest.
    """
    if not heights:
        return 0.0, 0.0
    turn = low = high = heights[0]
    rising: bool | None = None
    up = down = 0.0
    for height in heights:
        if rising is not False and height > high:
            high = height
        if rising is not True and height < low:
            low = height
        if rising is None:
            if height - low >= least_m:
                rising, turn, high = True, low, height
            elif high - height >= least_m:
                rising, turn, low = False, high, height
        elif rising and high - height >= least_m:
            up += high - turn
            rising, turn, low = False, high, height
        elif not rising and height - low >= least_m:
            down += turn - low
            rising, turn, high = True, low, height
    if rising:
        up += high - turn
    elif rising is False:
        down += turn - low
    return up, down
