"""Runs that the log holds already: planned ones, and those in a dryer now."""

from __future__ import annotations

import datetime
import re
from collections.abc import Mapping

from builder.model.batch import Batch
from builder.model.content import Content
from builder.model.gear import Dryer
from builder.planning.batches import Judged
from builder.planning.drying import Goes, hours_in
from builder.planning.runs.free_time import FreeTime
from builder.planning.runs.plan import Meal, Part, Run
from builder.planning.stock import Stock

# A run is named by its dryer and its start, so that the log tells when a planned one begins.
_NAMED = re.compile(r"(?P<dryer>.+)-(?P<day>\d{4}-\d\d-\d\d)-(?P<hour>\d\d)(?P<minute>\d\d)")
LONGEST_DRYER = 40  # of a dryer's id, so that the whole name stays an id
_DAY = datetime.timedelta(days=1)


def run_name(dryer: str, start: datetime.datetime) -> str:
    """Name a run by its dryer and its start."""
    return f"{dryer[:LONGEST_DRYER]}-{start:%Y-%m-%d-%H%M}"


def start_of(run: str) -> datetime.datetime | None:
    """Give the start that a run's name tells, where it was named by us."""
    told = _NAMED.fullmatch(run)
    if told is None:
        return None
    try:
        day = datetime.date.fromisoformat(told["day"])
        return datetime.datetime.combine(day, datetime.time(int(told["hour"]), int(told["minute"])))
    except ValueError:
        return None


def logged_runs(
    content: Content, stock: Stock, dryers: Mapping[str, Dryer], at: datetime.date
) -> list[Run]:
    """Give the runs of the log that are still to come or to end, by their start."""
    runs: dict[tuple[str, str, datetime.date | None], list[Judged]] = {}
    for each in stock.judged.values():
        batch = each.batch
        if not batch.is_planned or each.failed:
            continue
        if not batch.in_dryer and (batch.planned is None or batch.planned < at):
            continue
        dryer = _dryer_of(batch, dryers, content.gear.dryers)
        name = batch.run or batch.id
        runs.setdefault((dryer.id if dryer else "", name, batch.planned), []).append(each)
    free = FreeTime(content.home.free, at)
    found = [
        _run(
            name,
            content.gear.dryers.get(dryer),
            batches,
            tuple(_part(each, stock) for each in batches),
            free,
        )
        for (dryer, name, _), batches in runs.items()
    ]
    return sorted(found, key=lambda run: (run.start, run.id))


def busy(run: Run) -> tuple[datetime.datetime, datetime.datetime]:
    """Give from when to when a run takes its dryer: all day where its start is not told."""
    if run.state == "in-dryer" or start_of(run.id):
        return run.start, run.emptied
    day = datetime.datetime.combine(run.end.date(), datetime.time())
    return min(run.start, day), max(run.emptied, day + _DAY)


def _dryer_of(
    batch: Batch, dryers: Mapping[str, Dryer], known: Mapping[str, Dryer]
) -> Dryer | None:
    """Give the dryer that a batch names, or the only one that dries so."""
    if batch.dryer:
        return known.get(batch.dryer)
    same = [each for each in dryers.values() if each.method == batch.method]
    return same[0] if len(same) == 1 else None


def _run(
    name: str,
    dryer: Dryer | None,
    batches: list[Judged],
    parts: tuple[Part, ...],
    free: FreeTime,
) -> Run:
    batch = batches[0].batch
    hours = max((_hours(dryer, each) for each in batches), default=0.0)
    length = datetime.timedelta(hours=hours)
    start = batch.started or start_of(batch.run)
    if start is None:
        # Only the day it is taken out is known: at the last free hour of it, say.
        midnight = datetime.datetime.combine((batch.planned or free.first) + _DAY, datetime.time())
        start = (free.last_free(midnight) or midnight) - length
    end = start + length
    # It stays in the dryer until somebody is free, also where that is later than planning allows.
    emptied = free.first_free(end) or end
    if batch.in_dryer:
        # Nobody has emptied it yet, however long ago it was dry.
        now = datetime.datetime.combine(free.first, datetime.time())
        emptied = max(emptied, free.first_free(now) or now)
    return Run(
        id=name,
        dryer=dryer.id if dryer else None,
        dryer_name=dryer.name if dryer else "",
        method=batch.method,
        start=start,
        end=end,
        emptied=emptied,
        parts=parts,
        state="in-dryer" if batch.in_dryer else "planned",
    )


def _hours(dryer: Dryer | None, judged: Judged) -> float:
    if dryer is None:
        return 0.0
    return hours_in(dryer, Goes(judged.substance, judged.batch.method, False))


def _part(judged: Judged, stock: Stock) -> Part:
    batch = judged.batch
    return Part(
        holds=batch.holds,
        is_recipe=batch.recipe is not None,
        name=judged.substance.name,
        method=batch.method,
        fresh_g=batch.fresh_g or 0.0,
        dried_g=judged.dried_g,
        meals=tuple(
            Meal(each.trip, each.day, each.meal, each.packs * judged.pack_g, each.eaten_on)
            for each in stock.taken(batch.id)
            if each.packs  # some eat what an earlier meal left in its pack
        ),
        packs=batch.pack_count,
        best_before=judged.best_before,
        heated=batch.heated,
        batch=batch.id,
    )
