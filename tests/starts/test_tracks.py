"""A trip's track goes along: into its kit's content, out of it again, and to the next trip."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.reading.anew.cuttings import content_of_kit
from builder.reading.folder import ALWAYS_SHIPPED, Folder, Layer, read_folder
from builder.shipped import shipped_root
from builder.site.folder.archive import zip_files
from tests.conftest import tripkit
from tests.reading.test_tracks import ONE_DAY

SHIPPED = Layer(shipped_root() / "content", "shipped", ALWAYS_SHIPPED, vouched=True)
TRIP = """\
title: Way
party: [{name: Ash}]
track: TRACK
days:
  - travel: {by: walking, hours: 3}   # all else is of the track
    meals: {lunch: {eat: raisins, each: 90 g}}
"""


def read(content: Path) -> Folder:
    folder = read_folder([SHIPPED, Layer(content, "content")])
    assert not folder.problems, [str(each) for each in folder.problems]
    return folder


def write(content: Path, trip: str, name: str, at: str) -> None:
    for path, data in ((trip, TRIP.replace("TRACK", name).encode()), (at, ONE_DAY)):
        (content / path).parent.mkdir(parents=True, exist_ok=True)
        (content / path).write_bytes(data)


# Where the trip lies, how it names its track, where that lies.
PLACES = [
    ("trips/way.yaml", "way.gpx", "trips/way.gpx"),
    ("trips/way.yaml", "way.gpx", "trips/way/way.gpx"),
    ("trips/way/trip.yaml", "way.gpx", "trips/way/way.gpx"),
    ("trips/way.yaml", "days/One.GPX", "trips/days/One.GPX"),
    ("trips/way/trip.yaml", "../way.gpx", "trips/way.gpx"),
]


@pytest.mark.parametrize(("trip", "name", "at"), PLACES)
def test_a_kit_made_a_trip_again_has_its_track(
    in_empty_folder: Path, trip: str, name: str, at: str
) -> None:
    old, new = in_empty_folder / "old", in_empty_folder / "content"
    write(old, trip, name, at)
    before = read(old)
    files = content_of_kit(before, "way", ())
    assert [data for data in files.values() if data == ONE_DAY] == [ONE_DAY]
    zip_files(files, in_empty_folder / "content.zip", 0)
    result = tripkit("new", "trip", "next", "--from", "content.zip")
    assert result.exit_code == 0, result.output
    after = read(new).content.trips["next"]
    assert after.tracks == before.content.trips["way"].tracks != ()
    assert after.days[0].camp == before.content.trips["way"].days[0].camp


@pytest.mark.parametrize(("trip", "name", "at"), PLACES)
def test_the_next_trip_has_the_track_of_the_old_one(
    in_empty_folder: Path, trip: str, name: str, at: str
) -> None:
    content = in_empty_folder / "content"
    write(content, trip, name, at)
    result = tripkit("new", "trip", "next", "--from", "way")
    assert result.exit_code == 0, result.output
    assert "Not copied" not in result.output
    trips = read(content).content.trips
    assert trips["next"].tracks == trips["way"].tracks != ()


def test_a_track_that_is_not_there_goes_nowhere(in_empty_folder: Path) -> None:
    content = in_empty_folder / "content"
    write(content, "trips/way.yaml", "lost.gpx", "trips/way.gpx")
    told = TRIP.replace("TRACK", "lost.gpx").replace("  - ", "  - camp_altitude: 9 m\n    ")
    (content / "trips/way.yaml").write_text(told)
    folder = read_folder([SHIPPED, Layer(content, "content")])
    assert ONE_DAY not in content_of_kit(folder, "way", ()).values()
