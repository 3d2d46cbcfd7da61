"""The chart of the way: its track, with camps, water and dinner on it; never in a public kit."""

from __future__ import annotations

from pathlib import Path

from builder.pages.charts import way_chart
from builder.planning.public import public_kit
from builder.record import replace
from tests.planning.folders import Hand, Record, day, day_trip, read_hand, write_folder

NUTS: Record = {"dinner": [{"eat": "kernel-nut", "each": "90 g"}]}


def along(folder: Path, *heights: tuple[float, float], unknown: tuple[int, ...] = ()) -> Hand:
    """Read a trip along a track of two points a day, on days told without heights.

    Of some days the track has none, and their camps lie at 900 m.
    """
    days = [day(NUTS) for _ in heights]
    for number, each in enumerate(days):
        del each["camp_altitude"]
        if number in unknown:
            each["camp_altitude"] = "900 m"
    write_folder(folder, {"hand": day_trip(days=days, track="way.gpx")})
    tracks = "".join(
        f'<trk><trkseg><trkpt lat="{number / 10}" lon="0"><ele>{start}</ele></trkpt>'
        f'<trkpt lat="{number / 10 + 0.05}" lon="0"><ele>{end}</ele></trkpt></trkseg></trk>'
        for number, (start, end) in enumerate(heights)
    )
    for number in unknown:
        start, end = heights[number]
        tracks = tracks.replace(f"<ele>{start}</ele>", "").replace(f"<ele>{end}</ele>", "")
    head = '<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">'
    (folder / "trips" / "way.gpx").write_text(f"{head}{tracks}</gpx>", "utf-8")
    return read_hand(folder)


def test_camps_lie_on_the_way_with_water_and_dinner(tmp_path: Path) -> None:
    kit = along(tmp_path, (100, 600), (600, 300)).kit()
    chart = way_chart(kit)
    assert chart is not None
    assert len(chart.lines[0].split()) == 4, "each point of the track"
    first, second = chart.dots
    assert (first.x, second.x) < (second.x, first.x), "one after the other"
    assert float(first.y) < float(second.y), "the higher camp stands higher"
    said = {each.text.replace("\xa0", " ") for each in chart.words}
    assert {"600 m", "300 m", "Day 1", "Day 2", "stream", "kernel-nut"} <= said
    assert chart.behind is not None and len(chart.behind.rows) == 2
    assert [day.conditions.altitude_m for day in kit.days] == [600, 300]


def test_a_way_on_the_level_is_drawn_too(tmp_path: Path) -> None:
    chart = way_chart(along(tmp_path, (100, 100)).kit())
    assert chart is not None and len({each.split(",")[1] for each in chart.lines[0].split()}) == 1


def ends(line: str) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Give where a line begins and ends."""
    first, *_, last = line.split()
    return tuple(map(float, first.split(","))), tuple(map(float, last.split(",")))


def test_a_track_that_goes_on_elsewhere_is_drawn_with_a_gap(tmp_path: Path) -> None:
    chart = way_chart(along(tmp_path, (100, 600), (200, 300), (320, 400)).kit())
    assert chart is not None
    one, other = map(ends, chart.lines)
    assert other[0][0] - one[1][0] > 5, "the second begins further right, and lower"
    assert other[0][1] > one[1][1]
    assert len(chart.lines[1].split()) == 4, "from 300 to 320 m a receiver wanders"
    assert [float(dot.x) for dot in chart.dots] == [one[1][0], *_xs(chart.lines[1])[1::2]]
    assert max(_xs(chart.lines[1])) == 296


def _xs(line: str) -> list[float]:
    return [float(each.partition(",")[0]) for each in line.split()]


def test_a_day_without_heights_leaves_its_way_free_and_its_camp_where_it_lies(
    tmp_path: Path,
) -> None:
    told = along(tmp_path, (100, 600), (601, 602), (600, 300), unknown=(1,))
    chart = way_chart(told.kit())
    assert chart is not None
    one, other = map(ends, chart.lines)
    assert other[0][0] - one[1][0] > 90, "a third of the way"
    first, second, third = ((float(dot.x), float(dot.y)) for dot in chart.dots)
    assert (first, third) == (one[1], other[1])
    assert second[0] == other[0][0]
    assert second[1] < first[1], "900 m, the highest of all"


def test_a_rest_before_the_way_has_its_camp_at_the_start(tmp_path: Path) -> None:
    kit = along(tmp_path, (100, 600), (600, 300)).kit()
    rest = replace(kit.days[0], profile=(), distance_m=None)
    at_start = replace(rest.conditions, altitude_m=100.0)
    rest = replace(rest, conditions=at_start)
    chart = way_chart(replace(kit, days=(rest, *kit.days)))
    assert chart is not None and len(chart.lines) == 1
    assert (chart.dots[0].x, chart.dots[0].y) == tuple(chart.lines[0].split()[0].split(","))


def test_no_public_kit_has_it(tmp_path: Path) -> None:
    told = along(tmp_path, (100, 600), (600, 300))
    assert way_chart(public_kit(told.kit(), told.content)) is None
