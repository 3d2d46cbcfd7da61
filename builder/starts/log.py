"""Adds a batch to the drying log, or completes a planned one, once it reads as it should."""

from __future__ import annotations

import contextlib
import datetime
import os
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from builder.model.batch import Batch
from builder.planning.stock import Judged, check, run_of
from builder.problems import Problem, ProblemsFound, did_you_mean, errors, in_order, printable
from builder.reading.as_written import edited_bytes
from builder.reading.files import TABLE
from builder.reading.folder import Folder, Layer, RecordText, read_folder
from builder.reading.log_files import (
    Record,
    added_to_table,
    added_to_yaml,
    completed_in_table,
    completed_in_yaml,
)
from builder.reading.spelling import Edit
from builder.reading.tables import table_of
from builder.reading.values import DEVICES, LONGEST_ID
from builder.reading.yaml_door import decode, read_yaml
from builder.starts.editors import bring_schemas, with_schema_line
from builder.starts.fresh import StartError
from builder.starts.swapping import refuse_links, swap_in

ROOM = "batches"
_YEAR = re.compile(r"[0-9]{4}")


@dataclass(frozen=True, slots=True)
class Logged:
    """A batch that now stands in the log."""

    file: str  # as it is shown to people
    judged: Judged
    warnings: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class _Target:
    """The file that is changed: what it holds, and what it is going to hold."""

    path: Path
    relative: str
    before: bytes | None
    text: str

    def after(self, edits: Sequence[Edit]) -> bytes:
        """Give its bytes once it is changed."""
        return edited_bytes(self.before or b"", edits)


def log_batch(
    layers: Sequence[Layer], record: Record, day: datetime.date, file: str | None = None
) -> Logged:
    """Add a batch, done or begun on a day; its id is made of what it holds and that day."""
    own, here = layers[-1], read_folder(layers)
    holds = str(record.get("food") or record.get("recipe"))
    record = {"id": _free_id(holds, day, here), **record}
    target = _target(own, _told_file(own, file) if file else _usual_file(own, here, day))
    if target.relative.endswith(TABLE):
        table, problems = table_of(target.text, f"{own.shown}/{target.relative}")
        _stop_on(problems)
        edits = added_to_table(target.text, table, record)
    else:
        root, problems = read_yaml(target.text, f"{own.shown}/{target.relative}")
        _stop_on(problems)
        if root is not None and root.value is not None and not (root.is_map or root.is_list):
            raise StartError(
                f"{own.shown}/{target.relative} holds {root.described()}, and no batches",
                "mend it, or name another with --file",
            )
        edits = list(added_to_yaml(target.text, root, record))
    return _written(layers, here, target, edits, str(record["id"]))


def complete_batch(layers: Sequence[Layer], batch_id: str, changes: Record) -> Logged:
    """Tell more of a batch that was planned or is in the dryer: what it weighs, when it was done.

    Lists, such as its weighings, are added to.
    """
    own, here = layers[-1], read_folder(layers)
    key = ("batch", batch_id)
    if key not in here.own or batch_id not in here.content.batches:
        _stop_on([each for each in here.problems if f"/{ROOM}/" in each.place.file])
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
    if record.node.alias:
        raise StartError(
            f"batch {batch_id} is only named there ({batch.places.record})",
            "write it out, then log its weight",
        )
    target = _target(own, own.folder / record.path)
    if target.text != record.text:
        raise StartError(f"{record.path} was changed meanwhile", "run it again")
    if "done" in changes and "id" not in record.node.entries:
        # Made of the planned day so far: trips name it by that.
        changes = {**changes, "id": batch_id}
    return _written(layers, here, target, _completed(record, changes), batch_id)


def _completed(record: RecordText, changes: Record) -> list[Edit]:
    gone = "planned" if "done" in changes else ""
    if not record.path.endswith(TABLE):
        return completed_in_yaml(record.text, record.node, changes, gone)
    table, _ = table_of(record.text, record.path)
    assert table is not None, "it was read before"
    starts = [row[0].start for row in table.rows]
    return completed_in_table(table, starts.index(record.node.start), changes, gone)


# -- where ----------------------------------------------------------------------------------------


def _free_id(holds: str, day: datetime.date, here: Folder) -> str:
    """Make an id that no batch has."""
    taken = {name for kind, name in {*here.texts, *here.broken} if kind == "batch"}
    number = 1
    while True:
        ending = f"-{day.isoformat()}" + (f"-{number}" if number > 1 else "")
        found = holds[: LONGEST_ID - len(ending)].rstrip("-") + ending
        if found not in taken:
            return found
        number += 1


def _usual_file(own: Layer, here: Folder, day: datetime.date) -> Path:
    """Give the file of the day's year; else the newest log that bears no year; else a new one."""
    room = own.folder / ROOM
    of_year = [room / f"{day.year}{ending}" for ending in (".yaml", TABLE)]
    for path in of_year:
        if os.path.lexists(path):
            return path
    newest = datetime.date.min
    found = of_year[0]
    for name, batch in here.content.batches.items():
        record = here.texts["batch", name]
        if ("batch", name) not in here.own or record.whole_file:
            continue
        if not _YEAR.fullmatch(Path(record.path).stem) and _day_of(batch) >= newest:
            newest, found = _day_of(batch), own.folder / record.path
    return found


def _day_of(batch: Batch) -> datetime.date:
    started = batch.started.date() if batch.started else None
    return batch.done or batch.planned or started or datetime.date.min


def _told_file(own: Layer, told: str) -> Path:
    """Give the file that somebody named: from here, in the content folder, or among the logs."""
    room = Path(os.path.abspath(own.folder / ROOM))
    for place in (Path(told), own.folder / told, room / told):
        path = Path(os.path.abspath(place))
        if room in path.parents:
            break
    else:
        raise StartError(
            f"{told} does not lie in {own.shown}/{ROOM}",
            f"name a file in there, as {ROOM}/log.yaml",
        )
    inside = path.relative_to(room)
    if path.stem.lower() in DEVICES or printable(inside.name) != inside.name:
        raise StartError(
            f"no file should be called {printable(inside.name)}",
            "use letters, digits and hyphens, such as log.yaml",
        )
    if path.suffix not in (".yaml", TABLE) or any(part.startswith(".") for part in inside.parts):
        raise StartError(
            f"a file called {inside.as_posix()} is not read", "call it such as log.yaml or log.csv"
        )
    return own.folder / ROOM / inside


def _target(own: Layer, path: Path) -> _Target:
    """Read the file that is to be changed; one that is not there is empty."""
    refuse_links(own.folder, path)
    relative = path.relative_to(own.folder).as_posix()
    try:
        before = path.read_bytes() if path.exists() else None
    except OSError as error:
        raise StartError(
            f"{own.shown}/{relative} cannot be read ({error.strerror})", "check its permissions"
        ) from error
    text, problems = decode(before or b"", f"{own.shown}/{relative}")
    _stop_on(problems)
    return _Target(path, relative, before, text)


# -- read back, then written ----------------------------------------------------------------------


def _written(
    layers: Sequence[Layer], here: Folder, target: _Target, edits: Sequence[Edit], batch_id: str
) -> Logged:
    """Read the folder as if the file were written already; write it where nothing is wrong."""
    *below, own = layers
    after = target.after(edits)
    if target.before is None and not target.relative.endswith(TABLE):
        after = with_schema_line(target.relative, after)
    there = read_folder([*below, replace(own, unwritten={target.relative: after})])
    _, told_before = check(here.content)
    stock, told = check(there.content)
    new = _new_ones([*there.problems, *told], [*here.problems, *told_before])
    _stop_on(new)
    others = {name: each for name, each in there.content.batches.items() if name != batch_id}
    were = {name: each for name, each in here.content.batches.items() if name != batch_id}
    if others != were or batch_id not in stock.judged:
        raise StartError(
            f"{own.shown}/{target.relative} is written in a way that nothing can be added to",
            "name another file with --file",
        )
    run_of(stock.judged[batch_id])  # what is wrong with its weighings is told before too
    swap_in(target.path, target.before, after)
    if target.before is None:
        with contextlib.suppress(OSError):  # without schemas all is as well, but for editors
            bring_schemas(own.folder)
    return Logged(f"{own.shown}/{target.relative}", stock.judged[batch_id], new)


def _new_ones(after: Sequence[Problem], before: Sequence[Problem]) -> tuple[Problem, ...]:
    """Give the problems that were not there before, wherever the others have moved to."""
    known = Counter(_said(each) for each in in_order(before))
    found = []
    for each in in_order(after):
        if known[_said(each)] > 0:
            known[_said(each)] -= 1
        else:
            found.append(each)
    return tuple(found)


def _said(problem: Problem) -> tuple[str, str, str, str]:
    return problem.place.file, problem.kind, problem.says, problem.mend


def _stop_on(problems: Sequence[Problem]) -> None:
    if errors(problems):
        raise ProblemsFound(problems)
