# ruff: noqa: E501 - what is written stands whole
"""One trip made of several: days in a row, party and gear united, what differs told."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from builder.shipped import shipped_root
from tests.conftest import tripkit

FIRST = """\
title: First weekend
start: 2031-06-07   # Saturday
party:
  # the leader
  - {name: Ash, age: 34}
  - {name: Rowan, avoids: [milk]}
every_day: {wind: windy, air: {low: 4 degC, high: 16 degC}}
mug: 300 ml
gear_shared:
  - {name: Tarp, mass: 780 g}   # the green one
days:
  # up the valley
  - camp_altitude: 640 m
    meals: {lunch: {eat: raisins, each: 90 g}}   # half of it at noon
  - ends: home
    meals: {lunch: {eat: raisins, each: 80 g}}
"""
SECOND = """\
title: Second weekend
start: 2031-06-14
party: [{name: Rowan, avoids: [nuts]}, {name: Fern}]
every_day: {wind: breezy, air: &cool {low: 4 degC, high: 16 degC}}
mug: 400 ml
shelter: tarp
gear_shared: [{name: Tarp, mass: 900 g}, {name: Rope, mass: 400 g, carried_by: Fern}]
depots: [{camp: 1, holds: [2]}]
days:
  - camp_altitude: 900 m   # by the lake
    air: {low: 2 degC}
    home: [breakfast]
    meals:
      # all of it
      lunch: {eat: raisins, each: 70 g, for: [Rowan]}
  - {ends: home, air: *cool, meals: {lunch: {eat: raisins, each: 60 g}}}
review: {notes: Wet.}
"""


@pytest.fixture
def content(in_empty_folder: Path) -> Path:
    """Give the content of a folder with two weekends."""
    content = in_empty_folder / "content"
    (content / "trips").mkdir(parents=True)
    (content / "trips/first.yaml").write_text(FIRST)
    (content / "trips/second.yaml").write_text(SECOND)
    return content


def join(*more: str, trips: tuple[str, ...] = ("second", "first")) -> str:
    result = tripkit("join", "week", *trips, *more)
    assert result.exit_code == 0, result.output
    return result.output


def test_days_stand_in_the_order_of_their_dates_and_keep_their_comments(content: Path) -> None:
    join()
    text = (content / "trips/week.yaml").read_text("utf-8")
    days = text[text.index("days:") : text.index("shelter:")]
    assert (
        days
        == """\
days:
  # up the valley
  - camp_altitude: 640 m
    meals: {lunch: {eat: raisins, each: 90 g}}   # half of it at noon
    wind: windy
  - meals: {lunch: {eat: raisins, each: 80 g}}
    camp_altitude: 640 m
    wind: windy
  - camp_altitude: 900 m   # by the lake
    air: {low: 2 degC}
    meals:
      # all of it
      lunch: {eat: raisins, each: 70 g, for: [Rowan]}
    wind: breezy
  - {ends: home, air: {low: 4 degC, high: 16 degC}, meals: {lunch: {eat: raisins, each: 60 g}}}
"""
    )
    assert text.index("title: Week\nstart: 2031-06-07   # Saturday\nparty:\n  # the leader\n")
    assert "every_day: {air: {low: 4 degC, high: 16 degC}}\n" in text
    assert tripkit("check").exit_code == 0


def test_it_reads_as_the_two_of_them(content: Path) -> None:
    join("--start", "2032-06-12")
    layers = [
        Layer(shipped_root() / "content", "shipped", ALWAYS_SHIPPED, vouched=True),
        Layer(content, "content"),
    ]
    trips = read_folder(layers).content.trips
    week, first, second = (trips[name] for name in ("week", "first", "second"))
    assert str(week.start) == "2032-06-12" and len(week.days) == 4
    for day, old in zip(week.days, (*first.days, *second.days), strict=True):
        assert [each.meal for each in day.meals] == [each.meal for each in old.meals]
        assert day.camp.air_low_c == old.camp.air_low_c
        assert day.camp.wind == old.camp.wind
    assert [day.ends_home for day in week.days] == [False, False, False, True]
    assert [day.camp.altitude_m for day in week.days][:3] == [640, 640, 900]
    # Who comes eats on all days, unless a dish names its eaters.
    assert [len(day.meals[0].items[0].eaters) for day in week.days] == [3, 3, 1, 3]
    assert [each.name for each in week.party] == ["Ash", "Rowan", "Fern"]
    assert set(week.person("Rowan").avoids) == {"milk", "nuts"}
    assert [(each.name, each.mass_g) for each in week.gear_shared] == [("Tarp", 780), ("Rope", 400)]
    assert [(each.camp, each.holds) for each in week.depots] == [(3, (4,))]
    assert (week.mug_ml, week.shelter, week.review) == (300, "tarp", None)


def test_what_differs_is_told_with_its_place(content: Path) -> None:
    said = join()
    for line in (
        "content/trips/first.yaml:15:5: this day ended at home and ends at a camp now, taken at 640 m",
        "content/trips/second.yaml:12:5: what was eaten at home is eaten on the way now",
        "content/trips/second.yaml:3:9: Rowan is told otherwise here than at content/trips/first.yaml:6:5",
        "content/trips/second.yaml:3:40: Fern comes on all days now",
        "content/trips/first.yaml:5:5: Ash comes on the days of second too now",
        "content/trips/second.yaml:7:15: Tarp is told otherwise in the first trip, which stands",
        "content/trips/second.yaml:5:1: `mug` is 400 ml here and 300 ml in the joined trip",
        "content/trips/second.yaml:6:1: `shelter` holds for all days now",
        "content/trips/second.yaml:17:1: what was written down after this trip is left out",
        "content/trips/second.yaml:2:8: second began on 2031-06-14; it is day 3 now, on 2031-06-09",
    ):
        assert line in said.replace("\n", " "), line


def test_notes_of_all_stand_together_and_blocks_end_where_they_did(content: Path) -> None:
    (content / "trips/first.yaml").write_text(
        FIRST.replace("days:", "notes: >\n  Bring\n  maps.\ndays:")
    )
    (content / "trips/second.yaml").write_text(f"{SECOND}notes: |\n  And a\n  rope.\n")
    join()
    text = (content / "trips/week.yaml").read_text("utf-8")
    assert 'notes: "Bring maps.\\n\\nAnd a\\nrope."\ndays:\n' in text


def test_where_nothing_holds_for_every_day_no_such_key_is_left(content: Path) -> None:
    (content / "trips/second.yaml").write_text(SECOND.replace("high: 16", "high: 18"))
    join()
    text = (content / "trips/week.yaml").read_text("utf-8")
    assert "every_day" not in text
    assert "air: {low: 4 degC, high: 16 degC}" in text and "{low: 2 degC, high: 18 degC}" in text


@pytest.mark.parametrize(
    ("more", "allowed"),
    [("fire: {allowed: true}\n", True), ("fire: {allowed: false}\n", False)],
)
def test_a_fire_ban_holds_for_all(content: Path, more: str, allowed: bool) -> None:
    (content / "trips/first.yaml").write_text(f"{FIRST}fire: {{allowed: true, irons: []}}\n")
    (content / "trips/second.yaml").write_text(SECOND + more)
    join()
    text = (content / "trips/week.yaml").read_text("utf-8")
    assert f"fire: {{allowed: {str(allowed).lower()}, irons: []}}" in text


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("first", "second"), "there is a trip 'first' already"),
        (("week", "first"), "made of two or more"),
        (("week", "first", "first"), "a trip is named twice"),
        (("week", "first", "secnd"), "did you mean second?"),
    ],
)
def test_what_cannot_be_joined_is_told(
    content: Path, arguments: tuple[str, ...], says: str
) -> None:
    result = tripkit("join", *arguments)
    assert result.exit_code == 1 and says in " ".join(result.output.split())
    assert not (content / "trips/week.yaml").exists()


def test_without_dates_they_stay_in_the_order_named(content: Path) -> None:
    (content / "trips/first.yaml").write_text(FIRST.replace("start: 2031-06-07   # Saturday\n", ""))
    join()
    text = (content / "trips/week.yaml").read_text("utf-8")
    assert text.index("by the lake") < text.index("up the valley")
