"""The calendar file of runs, read back by a small reader of its own and by the library."""

from __future__ import annotations

import datetime
from typing import Any

import pytest
from icalendar import Calendar

from builder.pages.home.run_calendar import run_calendar
from builder.planning.runs import Part, Run, Step
from builder.record import replace

MADE = datetime.datetime(2031, 6, 1, 6, 30, tzinfo=datetime.UTC)
START = datetime.datetime(2031, 6, 19, 10, 0)
END = datetime.datetime(2031, 6, 19, 22, 0)


def run(**more: Any) -> Run:
    part = Part("leaf", False, "Leaf", "dehydrator", 900.0, 100.0, (), 2, None)
    steps = (
        Step("blanch", START, None, "Blanch Leaf: 2 min in steam"),
        Step("start", START, END, "Start the dryer: Leaf 900 g, cut; thin\\ü" + "ü" * 60),
        Step("empty", END, None, "Empty the dryer"),
        Step("pack", END, None, "Pack Leaf: 2 packs\nand label them"),
    )
    usual: dict[str, Any] = {
        "id": "shelf-2031-06-19-1000",
        "dryer": "shelf",
        "dryer_name": "Shelf",
        "method": "dehydrator",
        "start": START,
        "end": END,
        "emptied": END,
        "parts": (part,),
        "steps": steps,
    }
    return Run(**{**usual, **more})


# -- a reader that knows RFC 5545 and nothing of ours ---------------------------------------------

Properties = dict[str, str]


def read(data: bytes) -> list[tuple[str, Properties, list[Properties]]]:
    """Give each component of the calendar: its name, its properties and its alarms."""
    assert data.endswith(b"\r\n") and b"\n" not in data.replace(b"\r\n", b"")
    for folded in data.split(b"\r\n"):
        assert len(folded) <= 75
        folded.decode("utf-8")  # no character is cut by a fold
    lines = data.decode("utf-8").replace("\r\n ", "").split("\r\n")[:-1]
    assert (lines[0], lines[-1]) == ("BEGIN:VCALENDAR", "END:VCALENDAR")
    found: list[tuple[str, Properties, list[Properties]]] = [("VCALENDAR", {}, [])]
    alarm: Properties | None = None
    for line in lines[1:-1]:
        name, _, value = line.partition(":")
        if line == "BEGIN:VALARM":
            alarm = {}
            found[-1][2].append(alarm)
        elif line == "END:VALARM":
            alarm = None
        elif name == "BEGIN":
            found.append((value, {}, []))
        elif name != "END":
            (found[-1][1] if alarm is None else alarm)[name] = unescaped(value)
    return found


def unescaped(value: str) -> str:
    """Undo the escapes of TEXT in one pass."""
    found, letters = "", iter(value)
    for letter in letters:
        if letter == "\\":
            letter = {"n": "\n", "N": "\n"}.get(following := next(letters), following)
        found += letter
    return found


def events(*runs: Run, made: datetime.datetime = MADE) -> list[tuple[Properties, list[Properties]]]:
    (_, calendar, _), *rest = read(run_calendar(runs, made))
    assert calendar["VERSION"] == "2.0" and calendar["PRODID"]
    assert {name for name, _, _ in rest} == {"VEVENT"}
    return [(properties, alarms) for _, properties, alarms in rest]


def test_each_thing_to_do_is_an_event_at_the_times_of_the_home() -> None:
    start, empty, pack = (each for each, _ in events(run()))
    assert (start["DTSTART"], start["DTEND"]) == ("20310619T100000", "20310619T220000")
    assert (empty["DTSTART"], empty["DTEND"]) == ("20310619T220000", "20310619T223000")
    assert start["SUMMARY"] == "Start the dryer: Leaf 900 g, cut; thin\\ü" + "ü" * 60
    assert pack["SUMMARY"] == "Pack Leaf: 2 packs\nand label them"
    assert start["DESCRIPTION"] == "Blanch Leaf: 2 min in steam"
    assert {each["DTSTAMP"] for each, _ in events(run())} == {"20310601T063000Z"}


def test_what_makes_raw_food_safe_stands_where_a_phone_shows_it() -> None:
    heat = Step("heat", START, None, "Heat Mince to 72 °C before it goes in")
    raw = run(steps=(heat, *run().steps))
    (start, (alarm,)), (empty, _), _ = events(raw)
    for title in (start["SUMMARY"], alarm["DESCRIPTION"]):
        assert title.startswith("Heat Mince to 72 °C before it goes in. Start the dryer: Leaf")
    assert empty["SUMMARY"] == "Empty the dryer"


def test_each_event_rings_before() -> None:
    for properties, alarms in events(run()):
        (alarm,) = alarms
        assert alarm == {
            "ACTION": "DISPLAY",
            "TRIGGER": "-PT30M",
            "DESCRIPTION": properties["SUMMARY"],
        }


def test_a_run_without_a_day_to_spare_says_so() -> None:
    (start, _), *_ = events(run(day_to_spare=False))
    assert "No whole free day is left" in start["DESCRIPTION"]


def test_names_of_events_stay_when_the_run_moves_and_differ_among_runs() -> None:
    moved = run(id="shelf-2031-06-18-1000", start=START - datetime.timedelta(days=1))
    names = [[each["UID"] for each, _ in events(one)] for one in (run(), moved)]
    assert names[0] == names[1] and len(set(names[0])) == 3
    other = replace(run().parts[0], holds="root")
    both = [each["UID"] for each, _ in events(run(), moved, run(parts=(other,)))]
    assert len(set(both)) == 9


def test_a_later_file_counts_as_newer() -> None:
    later = MADE + datetime.timedelta(days=1)
    (old, _), (new, _) = events(run())[0], events(run(), made=later)[0]
    assert int(new["SEQUENCE"]) == int(old["SEQUENCE"]) + 1


def test_the_same_runs_give_the_same_bytes() -> None:
    assert run_calendar([run()], MADE) == run_calendar([run()], MADE)


@pytest.mark.parametrize("count", [1, 3])
def test_the_library_reads_it_back_without_an_error(count: int) -> None:
    calendar = Calendar.from_ical(run_calendar([run()] * count, MADE))
    assert not calendar.errors
    assert len(calendar.walk("VEVENT")) == 3 * count
    assert all(not each.errors for each in calendar.walk())
