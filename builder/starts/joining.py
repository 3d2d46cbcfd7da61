"""One trip made of several: weekends into a week."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from pathlib import Path

from builder.model.trip import Trip
from builder.problems import ProblemsFound
from builder.reading.anew.joining import Part, joined
from builder.reading.anew.rewriting import Changes
from builder.reading.folder import Layer
from builder.reading.record_text import RecordText
from builder.reading.text.yaml_door import read_yaml
from builder.record import dataclass
from builder.starts.fresh import StartError, title_of, write_content
from builder.starts.reading_over import (
    Written,
    for_today,
    known_at_home,
    pictures_brought,
    read_for_new,
    trip_there,
)

_LEAST = 2


@dataclass(frozen=True, slots=True)
class Join:
    """What is asked of a trip that is made of others."""

    name: str
    trips: tuple[str, ...]
    start: datetime.date | None = None  # left out, it begins as the first of them


def join_trips(
    folder: Path, shown: str, layers: Sequence[Layer], asked: Join
) -> tuple[list[Path], list[str]]:
    """Write one trip made of several; give its file, and what to know of it."""
    name = asked.name
    here = read_for_new(name, folder, layers)
    if len(asked.trips) < _LEAST:
        raise StartError("one trip is made of two or more", "name the trips behind the new name")
    if len(set(asked.trips)) < len(asked.trips):
        raise StartError("a trip is named twice", "name each once")
    parts = _in_order([Part(*trip_there(each, here, shown)) for each in asked.trips])
    found = joined(parts)
    path = f"trips/{name}.yaml"
    node, problems = read_yaml(found.text, path)
    if node is None or problems:
        raise ProblemsFound(problems)
    start = asked.start or parts[0].trip.start
    changes = Changes(title_of(name), start, (), {}, known=known_at_home(here.content))
    record = RecordText(path, found.text, node, whole_file=True)
    along = pictures_brought(folder, path, here, asked.trips)
    text = Written(path, record, found.text.encode(), along)
    files, notes = for_today(text, changes, here, layers)
    return write_content(folder, files), [*found.told, *_moved_days(parts, start), *notes]


def _in_order(parts: Sequence[Part]) -> list[Part]:
    """Put trips in the order of their dates; where one has none, all stay as they were named."""
    starts = [part.trip.start for part in parts]
    if any(start is None for start in starts):
        return list(parts)
    return sorted(parts, key=lambda part: part.trip.start or datetime.date.max)


def _moved_days(parts: Sequence[Part], start: datetime.date | None) -> list[str]:
    """Tell which trips have other dates in the joined one."""
    told, before = [], 0
    for part in parts:
        trip = part.trip
        now = start + datetime.timedelta(days=before) if start else None
        if trip.start is not None and now != trip.start:
            told.append(_moved(trip, before + 1, now))
        before += len(trip.days)
    return told


def _moved(trip: Trip, day: int, now: datetime.date | None) -> str:
    place = trip.places.of("start")
    when = now.isoformat() if now else "a day that is left open"
    return f"{place}: {trip.id} began on {trip.start}; it is day {day} now, on {when}"
