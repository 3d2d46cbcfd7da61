"""The chart of the way: its track, with camps, water and dinner on it; never in a public kit."""

from __future__ import annotations

from pathlib import Path

from builder.pages.charts import way_chart
from builder.planning.public import public_kit
from tests.planning.folders import Hand, Record, day, day_trip, read_hand, write_folder

NUTS: Record = {"dinner": [{"eat": "kernel-nut", "each": "90 g"}]}


def along(folder: Path, *heights: tuple[float, float]) -> Hand:
    """Read a trip along a track of two points a day, on days told without heights."""
    days = [day(NUTS) for _ in heights]
    for each in days:
        del each["camp_altitude"]
    write_folder(folder, {"hand": day_trip(days=days, track="way.gpx")})
    tracks = "".join(
        f'<trk><trkseg><trkpt lat="{number / 10}" lon="0"><ele>{start}</ele></trkpt>'
        f'<trkpt lat="{number / 10 + 0.05}" lon="0"><ele>{end}</ele></trkpt></trkseg></trk>'
        for number, (start, end) in enumerate(heights)
    )
    head = '<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">'
    (folder / "trips" / "way.gpx").write_text(f"{head}{tracks}</gpx>", "utf-8")
    return read_hand(folder)


def test_camps_lie_on_the_way_with_water_and_dinner(tmp_path: Path) -> None:
    kit = along(tmp_path, (100, 600), (600, 300)).kit()
    chart = way_chart(kit)
    assert chart is not None
    assert len(chart.line.split()) == 4, "each point of the track"
    first, second = chart.dots
    assert (first.x, second.x) < (second.x, first.x), "one after the other"
    assert float(first.y) < float(second.y), "the higher camp stands higher"
    said = {each.text.replace("\xa0", " ") for each in chart.words}
    assert {"600 m", "300 m", "Day 1", "Day 2", "stream", "kernel-nut"} <= said
    assert chart.behind is not None and len(chart.behind.rows) == 2
    assert [day.conditions.altitude_m for day in kit.days] == [600, 300]


def test_a_way_on_the_level_is_drawn_too(tmp_path: Path) -> None:
    chart = way_chart(along(tmp_path, (100, 100)).kit())
    assert chart is not None and len({each.split(",")[1] for each in chart.line.split()}) == 1


def test_no_public_kit_has_it(tmp_path: Path) -> None:
    told = along(tmp_path, (100, 600), (600, 300))
    assert way_chart(public_kit(told.kit(), told.content)) is None
