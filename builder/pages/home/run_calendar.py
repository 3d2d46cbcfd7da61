"""The runs of the dryers as a calendar file, with an alarm for each thing to do."""

from __future__ import annotations

import datetime
import uuid
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from builder.planning.runs import Doing, Run, Step

# Imported where a calendar is made: the library takes as long as a kit's checks to be read.
if TYPE_CHECKING:
    from icalendar import Alarm

PRODUCT = "-//tripkit//runs//EN"
# Names of events are made in this space: no host and no person stands in them.
_SPACE = uuid.uuid5(uuid.NAMESPACE_URL, "urn:tripkit:runs")
_MOMENT = datetime.timedelta(minutes=30)
_WARNED_BEFORE = datetime.timedelta(minutes=30)
# What is done together with the start stands in its event.
_WITH_START: tuple[Doing, ...] = ("heat", "blanch")
_EPOCH = datetime.date(1970, 1, 1)


def run_calendar(runs: Sequence[Run], made: datetime.datetime) -> bytes:
    """Give the calendar file of some runs; times are those of the home, in no time zone.

    An event keeps its name when its run is planned anew, so that calendars move it. Later files
    bear higher sequence numbers, as `made` tells them apart.
    """
    from icalendar import Calendar, Event

    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    seen: Counter[str] = Counter()
    for run in runs:
        key = "|".join((run.dryer or run.method, *sorted(part.holds for part in run.parts)))
        seen[key] += 1
        for name, step, notes in _events(run):
            event = Event()
            event.add("uid", str(uuid.uuid5(_SPACE, f"{key}|{seen[key]}|{name}")))
            event.add("dtstamp", made)
            event.add("sequence", (made.date() - _EPOCH).days)
            event.add("summary", _title(run, step))
            event.add("dtstart", step.at)
            event.add("dtend", step.until or step.at + _MOMENT)
            if notes:
                event.add("description", "\n".join(notes))
            # A dryer at work, or a jar, keeps nobody busy.
            event.add("transp", "TRANSPARENT" if step.until else "OPAQUE")
            event.add_component(_alarm(_title(run, step)))
            calendar.add_component(event)
    return bytes(calendar.to_ical())


def _events(run: Run) -> Iterator[tuple[str, Step, list[str]]]:
    """Give each event of a run: a name of its own in the run, the step, and what to know."""
    seen: Counter[str] = Counter()
    for step in run.steps:
        if step.do in _WITH_START:
            continue
        seen[step.do] += 1
        notes = []
        if step.do == "start":
            notes = [each.says for each in run.steps if each.do in _WITH_START]
            if not run.day_to_spare:
                notes.append("No whole free day is left to dry it on: start in time.")
        yield f"{step.do}|{seen[step.do]}", step, notes


def _title(run: Run, step: Step) -> str:
    """Say what is done, and first what makes raw food safe: a phone shows no more than this."""
    heats = [each.says for each in run.steps if each.do == "heat" and step.do == "start"]
    return ". ".join([*heats, step.says])


def _alarm(title: str) -> Alarm:
    from icalendar import Alarm

    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", title)
    alarm.add("trigger", -_WARNED_BEFORE)
    return alarm
