"""Adds batches to the drying log, or tells more of them, once it reads as it should."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from pathlib import Path

from builder.problems import did_you_mean
from builder.reading.drying.log_files import Record
from builder.reading.folder import Folder, Layer, read_folder
from builder.record import dataclass
from builder.starts.batches.places import ROOM, free_id, told_file, usual_file
from builder.starts.batches.writing import (
    Logged,
    Target,
    added,
    completed,
    stop_on,
    target_of,
    written,
)
from builder.starts.fresh import StartError
from builder.starts.reading_over import read_over


@dataclass(frozen=True, slots=True)
class Entry:
    """What is told of one batch: a new one, or more of one that stands in the log."""

    told: Record
    day: datetime.date | None = None  # of a new one: its id is made of what it holds and that day
    batch: str | None = None  # the id of one that stands there


def log_batch(
    layers: Sequence[Layer], record: Record, day: datetime.date, file: str | None = None
) -> Logged:
    """Add a batch, done or begun on a day; its id is made of what it holds and that day."""
    (logged,) = log_all(layers, [Entry(record, day)], file)
    return logged


def log_batches(
    layers: Sequence[Layer],
    wanted: Sequence[tuple[Record, datetime.date]],
    file: str | None = None,
) -> list[Logged]:
    """Add batches, each with its day: all of them, or none where anything is wrong with one."""
    return log_all(layers, [Entry(record, day) for record, day in wanted], file)


def complete_batch(layers: Sequence[Layer], batch_id: str, changes: Record) -> Logged:
    """Tell more of a batch that was planned or is in the dryer: what it weighs, when it was done.

    Lists, such as its weighings, are added to.
    """
    (logged,) = log_all(layers, [Entry(changes, batch=batch_id)])
    return logged


def log_all(
    layers: Sequence[Layer], entries: Sequence[Entry], file: str | None = None
) -> list[Logged]:
    """Add batches and tell more of others: all of it, or nothing where anything is wrong."""
    if not entries:
        return []
    own = layers[-1]
    here = now = read_folder(layers)
    taken = {name for kind, name in {*here.texts, *here.broken} if kind == "batch"}
    targets: dict[Path, Target] = {}
    named: dict[str, str] = {}
    for entry in entries:
        if entry.batch is None:
            assert entry.day is not None, "an id is made of it"
            batch_id = free_id(_holds(entry.told), entry.day, taken)
            taken.add(batch_id)
            path = told_file(own, file) if file else usual_file(own, here, entry.day)
            target = targets.get(path) or target_of(own, path)
            target = added(target, {"id": batch_id, **entry.told})
        else:
            if targets:
                now = read_over({each.relative: each.now for each in targets.values()}, layers)
            batch_id = entry.batch
            target = _completed(own, now, batch_id, entry.told, targets)
        targets[target.path] = target
        named[batch_id] = target.shown
    return written(layers, here, [*targets.values()], named)


def _holds(record: Record) -> str:
    return str(record.get("food") or record.get("recipe"))


def _completed(
    own: Layer, here: Folder, batch_id: str, changes: Record, targets: Mapping[Path, Target]
) -> Target:
    """Give the file of a batch with more told of it."""
    key = ("batch", batch_id)
    if key not in here.own or batch_id not in here.content.batches:
        stop_on([each for each in here.problems if f"/{ROOM}/" in each.place.file])
        open_ones = [name for name, each in here.content.batches.items() if each.is_planned]
        raise StartError(f"there is no batch {batch_id!r}", did_you_mean(batch_id, open_ones))
    batch, record = here.content.batches[batch_id], here.texts[key]
    if not batch.is_planned:
        since = f" since {batch.done.isoformat()}" if batch.done else ""
        raise StartError(
            f"batch {batch_id} is done{since} ({batch.places.record})",
            "edit that place to change it, or log another batch",
        )
    if "dried" not in changes and not batch.in_dryer and "started" not in changes:
        raise StartError(
            f"batch {batch_id} is not in the dryer yet", "tell when it went in: --started"
        )
    if batch.started is not None and "started" in changes:
        raise StartError(
            f"batch {batch_id} is in the dryer since {batch.started:%Y-%m-%d %H:%M} already "
            f"({batch.places.record})",
            "leave --started out, or edit that place to change it",
        )
    if record.node.alias:
        raise StartError(
            f"batch {batch_id} is only named there ({batch.places.record})",
            "write it out, then log its weight",
        )
    path = own.folder / record.path
    target = targets.get(path) or target_of(own, path)
    if target.text != record.text:
        raise StartError(f"{record.path} was changed meanwhile", "run it again")
    if "done" in changes and "id" not in record.node.entries:
        # Made of the planned day so far: trips name it by that.
        changes = {**changes, "id": batch_id}
    return target.changed(completed(record, changes))
