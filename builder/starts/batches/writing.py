"""Files of the drying log as they will be: changed, read back as a whole, then put in place."""

from __future__ import annotations

import contextlib
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from builder.model.batch import Batch
from builder.planning.batches import Judged
from builder.planning.stock import check, run_of
from builder.problems import Problem, ProblemsFound, errors, in_order
from builder.reading.drying.log_files import (
    Record,
    added_to_table,
    added_to_yaml,
    completed_in_table,
    completed_in_yaml,
)
from builder.reading.files import TABLE
from builder.reading.folder import Folder, Layer, read_folder
from builder.reading.record_text import RecordText
from builder.reading.text.as_written import edited_bytes
from builder.reading.text.spelling import Edit
from builder.reading.text.tables import table_of
from builder.reading.text.yaml_door import decode, read_yaml
from builder.record import dataclass, replace
from builder.starts.editors import bring_schemas, with_schema_line
from builder.starts.fresh import StartError
from builder.starts.reading_over import read_over
from builder.starts.swapping import refuse_links, swap_in


@dataclass(frozen=True, slots=True)
class Logged:
    """A batch that now stands in the log."""

    file: str  # as it is shown to people
    judged: Judged
    warnings: tuple[Problem, ...]  # of several logged at once those of all are with the first


@dataclass(frozen=True, slots=True)
class Target:
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

    def changed(self, edits: Sequence[Edit]) -> Target:
        """Give it with its text edited."""
        return replace(self, now=edited_bytes(self.now, edits))


def added(target: Target, record: Record) -> Target:
    """Give a file with one more batch in it."""
    if target.is_table:
        table, problems = table_of(target.text, target.shown)
        stop_on(problems)
        return target.changed(added_to_table(target.text, table, record))
    root, problems = read_yaml(target.text, target.shown)
    stop_on(problems)
    if root is not None and root.value is not None and not (root.is_map or root.is_list):
        raise StartError(
            f"{target.shown} holds {root.described()}, and no batches",
            "mend it, or name another with --file",
        )
    return target.changed(list(added_to_yaml(target.text, root, record)))


def completed(record: RecordText, changes: Record) -> list[Edit]:
    """Give the edits that tell more of a batch, where it stands in its file."""
    gone = "planned" if "done" in changes else ""
    if not record.path.endswith(TABLE):
        return completed_in_yaml(record.text, record.node, changes, gone)
    table, _ = table_of(record.text, record.path)
    assert table is not None, "it was read before"
    starts = [row[0].start for row in table.rows]
    return completed_in_table(table, starts.index(record.node.start), changes, gone)


# -- read, read back, then written -----------------------------------------------------------------


def target_of(own: Layer, path: Path) -> Target:
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
    stop_on(problems)
    return Target(path, relative, shown, before, before or b"")


def written(
    layers: Sequence[Layer], here: Folder, targets: Sequence[Target], named: Mapping[str, str]
) -> list[Logged]:
    """Read the folder as if the files were written; write them where nothing is wrong.

    `named` holds the file of each batch that is new or changed; no other may become different.
    """
    targets = [_for_editors(each) for each in targets]
    there = read_over({each.relative: each.now for each in targets}, layers)
    _, told_before = check(here.content)
    stock, told = check(there.content)
    new = _new_ones([*there.problems, *told], [*here.problems, *told_before])
    others = {name: each for name, each in there.content.batches.items() if name not in named}
    were = {name: each for name, each in here.content.batches.items() if name not in named}
    is_spoiled = others != were or not stock.judged.keys() >= named.keys()
    files = ", ".join(each.shown for each in targets)
    # What somebody else logged between two looks at the folder is no fault of what is in it.
    if (is_spoiled or errors(new)) and read_folder(layers).content.batches != here.content.batches:
        raise StartError(f"{files} was changed by somebody else meanwhile", "run it again")
    stop_on(new)
    if is_spoiled:
        raise StartError(
            f"{files} is written in a way that nothing can be added to",
            "name another file with --file",
        )
    for batch_id in named.keys() - here.content.batches.keys():
        _refuse_twin(there.content.batches[batch_id], here.content.batches.values())
    for batch_id in named:
        run_of(stock.judged[batch_id])  # what is wrong with its weighings is told before too
    for each in targets:
        swap_in(each.path, each.before, each.now)
    if any(each.before is None for each in targets):
        with contextlib.suppress(OSError):  # without schemas all is as well, but for editors
            bring_schemas(layers[-1].folder)
    return [
        Logged(shown, stock.judged[batch_id], () if number else new)
        for number, (batch_id, shown) in enumerate(named.items())
    ]


def _refuse_twin(new: Batch, known: Iterable[Batch]) -> None:
    """Stop where a load that went into a dryer stands in the log already."""
    for batch in known:
        if new.started is not None and _began_as(new) == _began_as(batch):
            raise StartError(
                f"this load is logged already: batch {batch.id}, in the dryer since "
                f"{new.started:%Y-%m-%d %H:%M} ({batch.places.record})",
                f"tell more of it with --batch {batch.id}; a second load just like it needs a word "
                "to tell it apart: --notes",
            )


def _began_as(batch: Batch) -> tuple[object, ...]:
    how = (batch.method, batch.dryer, batch.run, batch.notes)
    return batch.holds, batch.started, batch.fresh_g, *how


def _for_editors(target: Target) -> Target:
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


def stop_on(problems: Sequence[Problem]) -> None:
    """Stop where there is an error."""
    if errors(problems):
        raise ProblemsFound(problems)
