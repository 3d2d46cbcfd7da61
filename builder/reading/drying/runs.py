"""Checks that batches which name one run can have shared a dryer."""

from __future__ import annotations

import datetime
from collections.abc import Iterable

from builder.model.batch import Batch
from builder.problems import Problem

# Where nobody told when a run began, it may have begun so long before it ended: the sun takes
# up to four days (common practice).
LONGEST_RUN_DAYS = 4


def run_problems(batches: Iterable[Batch]) -> list[Problem]:
    """Tell of each batch that cannot have lain in the dryer with the first of its run."""
    firsts: dict[str, Batch] = {}
    problems = []
    for batch in batches:
        if not batch.run:
            continue
        first = firsts.setdefault(batch.run, batch)
        if first is not batch and (why := _apart(first, batch)):
            says = f"run {batch.run!r} of batch {batch.id} is also that of batch {first.id} "
            says += f"({first.places.of('run')}), {why}"
            mend = "give one of the two runs another name, or mend what differs"
            problems.append(Problem(batch.places.of("run"), "run-apart", says, mend))
    return problems


def _apart(one: Batch, other: Batch) -> str:
    """Say why two batches cannot have shared a run; nothing where they can."""
    if one.method != other.method:
        return f"which is dried by {one.method}, not {other.method}"
    if one.dryer and other.dryer and one.dryer != other.dryer:
        return f"which lies in {one.dryer}, not in {other.dryer}"
    first, last = _days(one)
    begun, ended = _days(other)
    if begun > last or first > ended:
        return f"which lies in the dryer until {last.isoformat()}, not {ended.isoformat()}"
    return ""


def _days(batch: Batch) -> tuple[datetime.date, datetime.date]:
    """Give the first and the last day on which a batch may lie in the dryer."""
    begun = batch.started.date() if batch.started else None
    ended = batch.done or batch.planned
    if ended is None:
        return begun or datetime.date.min, datetime.date.max
    return begun or ended - datetime.timedelta(LONGEST_RUN_DAYS), ended
