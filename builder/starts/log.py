"""Adds a batch to the drying log, or completes a planned one, once it reads as it should."""

from __future__ import annotations

import contextlib
import datetime
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from builder.planning.stock import Judged, check, run_of
from builder.problems import Problem, ProblemsFound, did_you_mean, errors, in_order
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
from builder.reading.yaml_door import decode, read_yaml
from builder.starts.editors import bring_schemas, with_schema_line
from builder.starts.fresh import StartError
from builder.starts.log_places import ROOM, free_id, told_file, usual_file
from builder.starts.swapping import refuse_links, swap_in


@dataclass(frozen=True, slots=True)
class Logged:
    """A batch that now stands in the log."""

    file: str  # as it is shown to people
    judged: Judged
    warnings: tuple[Problem, ...]  # of several logged at once those of all are with the first


@dataclass(frozen=True, slots=True)
class _Target:
    """A file that is changed: what it held when it was read, and what it is going to hold."""

    path: Path
    relative: str
    shown: str
    before: bytes | None
    now: bytes

    @property
    def text(self) -> str:
        """Give it as text; that it is text was told while it was read."""
        return decode(self.now, self.shown)[0]

    @property
    def is_table(self) -> bool:
        """Whether it is written as a table."""
        return self.relative.endswith(TABLE)

    def changed(self, edits: Sequence[Edit]) -> _Target:
        """Give it with its text edited."""
        return replace(self, now=edited_bytes(self.now, edits))


def log_batch(
    layers: Sequence[Layer], record: Record, day: datetime.date, file: str | None = None
) -> Logged:
    """Add a batch, done or begun on a day; its id is made of what it holds and that day."""
    (logged,) = log_batches(layers, [(record, day)], file)
    return logged


def log_batches(
    layers: Sequence[Layer],
    wanted: Sequence[tuple[Record, datetime.date]],
    file: str | None = None,
) -> list[Logged]:
    """Add batches, each with its day: all of them, or none where anything is wrong with one."""
    if not wanted:
        return []
    own, here = layers[-1], read_folder(layers)
    taken = {name for kind, name in {*here.texts, *here.broken} if kind == "batch"}
    targets: dict[Path, _Target] = {}
    named: dict[str, str] = {}
    for record, day in wanted:
        path = told_file(own, file) if file else usual_file(own, here, day)
        target = targets.get(path) or _target(own, path)
        batch_id = free_id(str(record.get("food") or record.get("recipe")), day, taken)
        taken.add(batch_id)
        targets[path] = _added(target, {"id": batch_id, **record})
        named[batch_id] = target.shown
    return _written(layers, here, [*targets.values()], named)


def _added(target: _Target, record: Record) -> _Target:
    if target.is_table:
        table, problems = table_of(target.text, target.shown)
        _stop_on(problems)
        return target.changed(added_to_table(target.text, table, record))
    root, problems = read_yaml(target.text, target.shown)
    _stop_on(problems)
    if root is not None and root.value is not None and not (root.is_map or root.is_list):
        raise StartError(
            f"{target.shown} holds {root.described()}, and no batches",
            "mend it, or name another with --file",
        )
    return target.changed(list(added_to_yaml(target.text, root, record)))


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
    changed = target.changed(_completed(record, changes))
    (logged,) = _written(layers, here, [changed], {batch_id: target.shown})
    return logged


def _completed(record: RecordText, changes: Record) -> list[Edit]:
    gone = "planned" if "done" in changes else ""
    if not record.path.endswith(TABLE):
        return completed_in_yaml(record.text, record.node, changes, gone)
    table, _ = table_of(record.text, record.path)
    assert table is not None, "it was read before"
    starts = [row[0].start for row in table.rows]
    return completed_in_table(table, starts.index(record.node.start), changes, gone)


# -- read, read back, then written -----------------------------------------------------------------


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
    shown = f"{own.shown}/{relative}"
    _, problems = decode(before or b"", shown)
    _stop_on(problems)
    return _Target(path, relative, shown, before, before or b"")


def _written(
    layers: Sequence[Layer], here: Folder, targets: Sequence[_Target], named: Mapping[str, str]
) -> list[Logged]:
    """Read the folder as if the files were written; write them where nothing is wrong.

    `named` holds the file of each batch that is new or changed; no other may become different.
    """
    *below, own = layers
    targets = [_for_editors(each) for each in targets]
    unwritten = {each.relative: each.now for each in targets}
    there = read_folder([*below, replace(own, unwritten=unwritten)])
    _, told_before = check(here.content)
    stock, told = check(there.content)
    new = _new_ones([*there.problems, *told], [*here.problems, *told_before])
    _stop_on(new)
    others = {name: each for name, each in there.content.batches.items() if name not in named}
    were = {name: each for name, each in here.content.batches.items() if name not in named}
    if others != were or not stock.judged.keys() >= named.keys():
        files = ", ".join(each.shown for each in targets)
        raise StartError(
            f"{files} is written in a way that nothing can be added to",
            "name another file with --file",
        )
    for batch_id in named:
        run_of(stock.judged[batch_id])  # what is wrong with its weighings is told before too
    for each in targets:
        swap_in(each.path, each.before, each.now)
    if any(each.before is None for each in targets):
        with contextlib.suppress(OSError):  # without schemas all is as well, but for editors
            bring_schemas(own.folder)
    return [
        Logged(shown, stock.judged[batch_id], () if number else new)
        for number, (batch_id, shown) in enumerate(named.items())
    ]


def _for_editors(target: _Target) -> _Target:
    """Begin a new file with the line by which editors know its keys."""
    if target.before is not None or target.is_table:
        return target
    return replace(target, now=with_schema_line(target.relative, target.now))


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
