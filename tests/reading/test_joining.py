# ruff: noqa: E501 - what is told stands whole
"""Texts of trips made into one: each day as its own trip has it, and what differs told."""

from __future__ import annotations

import json
import textwrap
from pathlib import Path
from typing import Any

import pytest

from builder.reading.anew.joining import Joined, Part, joined
from builder.reading.text.yaml_door import as_json, read_yaml
from tests.reading.folder_builder import read

MEALS = "meals: {snacks: {eat: rice, each: 30 g}}"
DAY = f"  - camp_altitude: 640 m\n    {MEALS}\n"
HOMEWARD = f"  - ends: home\n    {MEALS}\n"
OTHER_DAY = DAY.replace("640", "900")


def trip(more: str = "", days: str = DAY, party: str = "[{name: Ash, mass: 64 kg}]") -> str:
    start = "" if "start:" in more else "start: 2031-06-07\n"
    return f"title: Walk\n{start}party: {party}\n{textwrap.dedent(more)}days:\n{days}"


def join(folder: Path, *texts: str, **files: str) -> tuple[Joined, Any]:
    """Join trips called a, b, …; give what came of it, and its text as plain values."""
    names = "abcd"[: len(texts)]
    own = {f"trips/{name}.yaml": text for name, text in zip(names, texts, strict=True)}
    found = read(folder, {**own, **files})
    assert [str(each) for each in found.problems if each.severity == "error"] == []
    parts = [Part(found.texts["trip", name], found.content.trips[name]) for name in names]
    done = joined(parts)
    node, problems = read_yaml(done.text, "a.yaml")
    assert node is not None and not problems
    return done, as_json(node)


def told(done: Joined) -> list[str]:
    return [line.removeprefix("my/trips/") for line in done.told]


# -- what is told once ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("own", "theirs", "key", "stands", "says"),
    [
        ("mug: 300 ml", "mug: 300 ml", "mug", "300 ml", None),
        ("mug: 300 ml", "mug: 400 ml", "mug", "300 ml",
         "b.yaml:4:1: `mug` is 400 ml here and 300 ml in the joined trip"),
        ("", "mug: 400 ml", "mug", "400 ml", "b.yaml:4:1: `mug` holds for all days now"),
        ("mug: 300 ml", "", "mug", "300 ml", None),
        ("public_names: true", "public_names: true", "public_names", True, None),
        ("public_names: true", "", "public_names", None,
         "b.yaml:1:1: names stay out of public kits, as this trip has it"),
        ("public_names: true", "public_names: false", "public_names", None,
         "b.yaml:1:1: names stay out of public kits, as this trip has it"),
        ("", "public_names: true", "public_names", None, None),
        ("learned: false", "", "learned", False, None),
        ("", "learned: false", "learned", False,
         "b.yaml:4:1: `learned` holds for all days now"),
        ("learned: true", "learned: false", "learned", False,
         "b.yaml:4:1: `learned` holds for all days now"),
        ("notes: One.", "notes: Two.", "notes", "One.\n\nTwo.", None),
        ("notes: One.", "notes: One.", "notes", "One.", None),
        ("", "notes: Two.", "notes", "Two.", None),
        ("notes: One.", "notes:", "notes", "One.", None),
        ("notes:", "notes: Two.", "notes", "Two.", None),
        ("notes:", "notes:", "notes", None, None),
        ("", "start_camp: {camp_altitude: 90 m}", "start_camp", None,
         "b.yaml:4:1: the night before is that of the last day in front of it now"),
        ("", "review: {notes: Wet.}", "review", None,
         "b.yaml:4:1: what was written down after this trip is left out"),
        ("", "review: {}", "review", None, None),
        ("", "depots: [{camp: 1, holds: [1]}]", "depots", [{"camp": 2, "holds": [2]}], None),
        ("", "gear_shared: [{name: Tarp, mass: 1 kg}]", "gear_shared",
         [{"name": "Tarp", "mass": "1 kg"}], None),
        ("gear_shared: [{name: Tarp, mass: 1 kg}]", "gear_shared: [{name: Tarp, mass: 1 kg}]",
         "gear_shared", [{"name": "Tarp", "mass": "1 kg"}], None),
        ("gear_shared: [{name: Tarp, mass: 1 kg}]", "gear_shared: [{name: Tarp, mass: 2 kg}]",
         "gear_shared", [{"name": "Tarp", "mass": "1 kg"}],
         "b.yaml:4:15: Tarp is told otherwise in the first trip, which stands"),
        ("", "stove: {use: burner, pots: [pot]}", "stove", {"use": "burner", "pots": ["pot"]},
         "b.yaml:4:1: `stove` holds for all days now"),
        ("stove: {use: burner, pots: [pot]}", "stove: {use: burner, pots: [pot]}", "stove",
         {"use": "burner", "pots": ["pot"]}, None),
        ("stove: {use: burner, pots: [pot], fuel_reserve: 20 %}",
         "stove: {use: burner, pots: [pot], fuel_reserve: 30 %}", "stove",
         {"use": "burner", "pots": ["pot"], "fuel_reserve": "20 %"},
         "b.yaml:4:35: `fuel_reserve` is 30 % here and 20 % in the joined trip"),
        ("fire: {allowed: true, irons: [iron]}", "fire: {allowed: false}", "fire",
         {"allowed": False, "irons": ["iron"]}, "b.yaml:4:8: `allowed` holds for all days now"),
        ("fire: {allowed: false}", "fire: {allowed: true, irons: [iron]}", "fire",
         {"allowed": False, "irons": ["iron"]},
         "b.yaml:4:8: `allowed` is true here and false in the joined trip"),
    ],
)  # fmt: skip
def test_what_is_told_once_for_a_trip(
    own: str, theirs: str, key: str, stands: object, says: str | None, tmp_path: Path
) -> None:
    first, second = (f"{each}\n" if each else "" for each in (own, theirs))
    done, read_again = join(tmp_path, trip(first), trip(second, OTHER_DAY))
    assert read_again.get(key) == stands
    assert told(done) == ([says] if says else [])


# -- the party ------------------------------------------------------------------------------------

ASH = "{name: Ash, mass: 64 kg}"
HOME = "people: [{name: Cove, mass: 80 kg}]"
TOLD_OTHERWISE = "the first stands, and all that either avoids is avoided"


@pytest.mark.parametrize(
    ("own", "theirs", "stands", "says"),
    [
        (f"[{ASH}]", f"[{ASH}]", [{"name": "Ash", "mass": "64 kg"}], []),
        (f"[{ASH}]", "[{name: Ash,   mass: 64 kg, avoids: [nuts]}]",
         [{"name": "Ash", "mass": "64 kg", "avoids": ["nuts"]}],
         [f"b.yaml:3:9: Ash is told otherwise here than at a.yaml:3:9: {TOLD_OTHERWISE}"]),
        ("[{name: Ash, avoids: [milk]}]", "[{name: Ash, avoids: [nuts, milk]}]",
         [{"name": "Ash", "avoids": ["milk", "nuts"]}],
         [f"b.yaml:3:9: Ash is told otherwise here than at a.yaml:3:9: {TOLD_OTHERWISE}"]),
        ("[{name: Ash, avoids: milk}]", "[{name: Ash, mass: 70 kg}]",
         [{"name": "Ash", "avoids": "milk"}],
         [f"b.yaml:3:9: Ash is told otherwise here than at a.yaml:3:9: {TOLD_OTHERWISE}"]),
        (f"[{ASH}]", f"[{ASH}, {{name: Fern}}]",
         [{"name": "Ash", "mass": "64 kg"}, {"name": "Fern"}],
         ["b.yaml:3:35: Fern comes on all days now"]),
        (f"[{ASH}, {{name: Fern}}]", f"[{ASH}]",
         [{"name": "Ash", "mass": "64 kg"}, {"name": "Fern"}],
         ["a.yaml:3:35: Fern comes on the days of b too now"]),
        ("[Cove]", "[Cove]", ["Cove"], []),
        ("[Cove]", "[{name: Cove, mass: 81 kg, avoids: [nuts]}]",
         [{"name": "Cove", "mass": "81 kg", "avoids": ["nuts"]}],
         [f"b.yaml:3:9: Cove is told otherwise here than at a.yaml:3:9: {TOLD_OTHERWISE}"]),
        ("[{name: Cove, mass: 81 kg}]", "[Cove]", [{"name": "Cove", "mass": "81 kg"}],
         [f"b.yaml:3:9: Cove is told otherwise here than at a.yaml:3:9: {TOLD_OTHERWISE}"]),
    ],
)  # fmt: skip
def test_all_come_for_all_days_and_what_either_trip_avoids_is_avoided(
    own: str, theirs: str, stands: object, says: list[str], tmp_path: Path
) -> None:
    done, read_again = join(
        tmp_path, trip(party=own), trip(days=OTHER_DAY, party=theirs), **{"home.yaml": HOME}
    )
    assert read_again["party"] == stands
    assert [line.replace("my/trips/", "") for line in told(done)] == says


def test_who_comes_on_a_third_trip_only_is_told_from_there(tmp_path: Path) -> None:
    fern, other = "[{name: Ash}, {name: Fern}]", "[{name: Ash}, {name: Fern, avoids: [nuts]}]"
    done, read_again = join(
        tmp_path, trip(party="[{name: Ash}]"), trip(party=fern), trip(party=other)
    )
    assert read_again["party"][1] == {"name": "Fern", "avoids": ["nuts"]}
    assert [line.replace("my/trips/", "") for line in told(done)] == [
        "b.yaml:3:22: Fern comes on all days now",
        f"c.yaml:3:22: Fern is told otherwise here than at c.yaml:1:1: {TOLD_OTHERWISE}",
    ]


# -- what holds for every day ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("own", "theirs", "every", "days"),
    [
        ("{wind: windy}", "{wind: windy}", {"wind": "windy"}, [None, None]),
        ("{wind: windy}", "{wind: breezy}", None, ["windy", "breezy"]),
        ("{wind: windy}", "", None, ["windy", None]),
        ("", "{wind: breezy}", None, [None, "breezy"]),
        ("{wind: windy, air: {low: 4 degC}}", "{wind: breezy, air: {low: 4 degC}}",
         {"air": {"low": "4 degC"}}, ["windy", "breezy"]),
    ],
)  # fmt: skip
def test_what_holds_for_every_day_of_one_trip_alone_stands_in_its_days(
    own: str, theirs: str, every: object, days: list[str | None], tmp_path: Path
) -> None:
    first, second = (f"every_day: {each}\n" if each else "" for each in (own, theirs))
    done, read_again = join(tmp_path, trip(first), trip(second, OTHER_DAY))
    assert read_again.get("every_day") == every
    assert [day.get("wind") for day in read_again["days"]] == days
    assert done.told == ()


def test_a_day_keeps_what_it_tells_itself_and_gets_the_rest_of_the_same_key(
    tmp_path: Path,
) -> None:
    first = trip(
        "every_day: {air: {low: 4 degC, high: 16 degC}, wind: windy}\n",
        DAY + "    air: {low: -2 degC}\n" + HOMEWARD,
    )
    _, read_again = join(tmp_path, trip(days=OTHER_DAY, more="start: 2031-06-01\n"), first)
    _, camp, homeward = read_again["days"]
    assert camp["air"] == {"low": "-2 degC", "high": "16 degC"} and camp["wind"] == "windy"
    # The wind of the last camp holds on a day that ends at home.
    assert "wind" not in homeward and homeward["air"] == {"low": "4 degC", "high": "16 degC"}


# -- between two trips ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("first", "second", "height"),
    [
        (DAY + HOMEWARD, OTHER_DAY, "640 m"),
        (HOMEWARD, OTHER_DAY, "900 m"),
        (HOMEWARD, HOMEWARD, "0 m"),
    ],
)
def test_a_day_that_ended_at_home_ends_at_the_likeliest_camp(
    first: str, second: str, height: str, tmp_path: Path
) -> None:
    done, read_again = join(tmp_path, trip(days=first), trip(days=second))
    last = len(read_again["days"]) - 2
    assert read_again["days"][last]["camp_altitude"] == height
    assert "ends" not in read_again["days"][last]
    assert told(done) == [
        f"a.yaml:{7 if 'camp_altitude' in first else 5}:5: this day ended at home and ends at a "
        f"camp now, taken at {height}: tell where you sleep, and what is dinner"
    ]


def test_the_night_before_the_second_trip_is_nearer_than_any_camp(tmp_path: Path) -> None:
    second = trip("start_camp: {camp_altitude: 90 m}\n", OTHER_DAY)
    _, read_again = join(tmp_path, trip(days=DAY + HOMEWARD), second)
    assert [day["camp_altitude"] for day in read_again["days"]] == ["640 m", "90 m", "900 m"]


def test_nobody_eats_at_home_between_two_trips(tmp_path: Path) -> None:
    first = DAY + "    home: [breakfast]\n" + HOMEWARD + "    home: [dinner]\n"
    second = OTHER_DAY + "    home: breakfast\n" + HOMEWARD + "    home: [dinner]\n"
    done, read_again = join(tmp_path, trip(days=first), trip(days=second))
    assert [day.get("home") for day in read_again["days"]] == [
        ["breakfast"],
        None,
        None,
        ["dinner"],
    ]
    on_the_way = "what was eaten at home is eaten on the way now: tell it, or write such as `breakfast: open`"
    assert [line for line in told(done) if "on the way" in line] == [
        f"a.yaml:10:5: {on_the_way}",
        f"b.yaml:7:5: {on_the_way}",
    ]


POINTS = "".join(
    f'<trkpt lat="{57 + n / 100}" lon="2.5"><ele>{100 + 50 * n}</ele></trkpt>' for n in range(5)
)
TRACK = f'<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>{POINTS}</trkseg></trk></gpx>'


def test_what_a_track_told_is_written_into_the_days(tmp_path: Path) -> None:
    day = f"  - travel: {{by: walking, hours: 3, ascent: 222 m}}\n    {MEALS}\n"
    own = trip("track: way.gpx\n", day)
    done, read_again = join(tmp_path, own, trip(days=OTHER_DAY), **{"trips/way.gpx": TRACK})
    assert "track" not in read_again
    # 4 steps of a hundredth of a degree of latitude: 0.04 · 111.2 km; from 100 m up to 300 m.
    walked = read_again["days"][0]
    assert walked["camp_altitude"] == "300 m"
    assert walked["travel"] == {
        "by": "walking", "hours": 3, "ascent": "222 m", "distance": "4.4 km",
    }  # fmt: skip
    assert told(done) == [
        "a.yaml:4:1: the track is left out; its heights and ways are written into the days"
    ]


@pytest.mark.parametrize(
    ("day", "written"),
    [
        # A day on which nobody is told to go has the height of its camp.
        ({"title": "T"}, {"title": "T", "camp_altitude": "300 m"}),
        ({"camp_altitude": "310 m"}, {"camp_altitude": "310 m"}),
        ({"barometer": "980 hPa"}, {"barometer": "980 hPa"}),
        # Of several legs the track does not tell which is which.
        ({"travel": [{"by": "walking", "hours": 3}]},
         {"travel": [{"by": "walking", "hours": 3}], "camp_altitude": "300 m"}),
        ({"travel": {"by": "walking", "hours": 3, "distance": "5 km", "descent": "9 m"}},
         {"travel": {"by": "walking", "hours": 3, "distance": "5 km", "descent": "9 m",
                     "ascent": "200 m"}, "camp_altitude": "300 m"}),
    ],
)  # fmt: skip
def test_a_track_tells_a_day_nothing_that_it_tells_itself(
    day: dict[str, object], written: dict[str, object], tmp_path: Path
) -> None:
    told_here = json.dumps(day).removeprefix("{").removesuffix("}")
    own = trip("track: way.gpx\n", f"  - {{{told_here}, {MEALS}}}\n")
    _, read_again = join(tmp_path, own, trip(days=OTHER_DAY), **{"trips/way.gpx": TRACK})
    assert {key: said for key, said in read_again["days"][0].items() if key != "meals"} == written
