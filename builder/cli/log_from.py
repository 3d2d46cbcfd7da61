"""Taking over what was typed beside the dryer: `tripkit log --from FILE`."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from builder.cli.base import BuilderStop, say_problems
from builder.cli.load import Load, pack_as_usual, record_of, told_of
from builder.clock import today
from builder.model.batch import Batch
from builder.problems import Problem, ProblemsFound, did_you_mean
from builder.record import dataclass

if TYPE_CHECKING:
    from builder.model.content import Content
    from builder.reading.drying.followed import TypedRun
    from builder.reading.folder import Layer
    from builder.starts import Entry

MOST_BYTES = 1_000_000
_SLACK = 1e-6


@dataclass(frozen=True, slots=True)
class _Taken:
    """What becomes of one run of the file."""

    entry: Entry | None  # None where all of it stands in the log already
    batch: str  # the id of one that stands there, "" of a new one


def log_from(file: Path, layers: Sequence[Layer], as_json: bool) -> None:
    """Put all runs of a file into the log, or nothing where anything is wrong with one."""
    from builder.planning.stock import logged_data, logged_lines
    from builder.reading.folder import read_folder
    from builder.starts import log_all

    runs = _read(file)
    content = read_folder(layers).content
    problems = [each for run in runs for each in _amiss(run, content)]
    if problems:
        raise ProblemsFound(problems)
    taken = [_taken(run, content) for run in runs]
    logged = log_all(layers, [each.entry for each in taken if each.entry])
    for each in logged:
        say_problems(each.warnings)
    there = [each.batch for each in taken if each.entry is None]
    if as_json:
        data = [{"file": each.file, **logged_data(each.judged, today())} for each in logged]
        click.echo(json.dumps({"logged": data, "there": there}, indent=2, sort_keys=True))
        return
    for each in logged:
        click.echo(f"Logged {each.judged.batch.id} in {each.file}")
        for line in logged_lines(each.judged, today()):
            click.echo(line)
        click.echo()
    for name in there:
        click.echo(f"All that was typed of {name} stands in the log already.")


def _read(file: Path) -> Sequence[TypedRun]:
    from builder.reading.drying.followed import read_typed_runs
    from builder.reading.text.yaml_door import decode

    try:
        with file.open("rb") as opened:
            raw = opened.read(MOST_BYTES + 1)
    except OSError as error:
        raise BuilderStop(
            f"{file} cannot be read ({error.strerror})", ["name the file that the page saved"]
        ) from error
    if len(raw) > MOST_BYTES:
        raise BuilderStop(
            f"{file} is too long for a file of weighings", ["name the file that the page saved"]
        )
    text, problems = decode(raw, str(file))
    if problems:
        raise ProblemsFound(problems)
    runs, found = read_typed_runs(text, str(file))
    if any(each.severity == "error" for each in found):
        raise ProblemsFound(found)
    say_problems(found)
    return runs


def _amiss(run: TypedRun, content: Content) -> Iterator[Problem]:
    """Find what no reading of the file alone can know."""
    if run.batch is None and run.holds not in content.foods and run.holds not in content.recipes:
        known = [*content.foods, *content.recipes]
        says = f"there is no food {run.holds!r}"
        yield Problem(run.place, "food-unknown", says, did_you_mean(run.holds, known))
    if run.batch is not None and run.batch not in content.batches:
        mend = did_you_mean(run.batch, content.batches)
        yield Problem(run.place, "batch-unknown", f"there is no batch {run.batch!r}", mend)
    for day in (run.done, run.started.date() if run.started else None):
        if day is not None and day > today():
            says = f"{day.isoformat()} is still to come"
            mend = "check the clock of the phone, or log it then"
            yield Problem(run.place, "still-to-come", says, mend)


def _taken(run: TypedRun, content: Content) -> _Taken:
    from builder.starts import Entry

    batch = _in_the_log(run, content)
    if batch is None:
        record, day = record_of(_load(run), content)
        return _Taken(Entry(record, day), "")
    new = _load(run, batch)
    if run.done and batch.done is None:
        pack_as_usual(new, content.home.new_batch, batch)
    changes = told_of(new, None)
    if run.done and batch.done is None:
        changes = {"done": run.done.isoformat(), **changes}
    if not changes or _ended_so(run, batch):
        return _Taken(None, batch.id)
    return _Taken(Entry(changes, batch=batch.id), batch.id)


def _in_the_log(run: TypedRun, content: Content) -> Batch | None:
    """Give the batch a run is of: the one named, or the one that began so."""
    if run.batch is not None:
        return content.batches[run.batch]
    for batch in content.batches.values():
        began_so = batch.started == run.started and batch.holds == run.holds
        if began_so and _same(batch.fresh_g, run.fresh_g):
            return batch
    return None


def _ended_so(run: TypedRun, batch: Batch) -> bool:
    """Tell whether the log has the end of a run as it was typed, so that nothing is new."""
    return batch.done is not None and (
        run.dried_g is None or (batch.done == run.done and _same(batch.dried_g, run.dried_g))
    )


def _same(one_g: float | None, other_g: float | None) -> bool:
    return one_g is not None and other_g is not None and abs(one_g - other_g) < _SLACK


def _load(run: TypedRun, batch: Batch | None = None) -> Load:
    """Give what a file tells as the command line would; of a batch what it does not tell yet."""
    known = {(each.at_min, each.mass_g) for each in batch.weighings} if batch else set()
    tests = run.tests - batch.tests if batch else run.tests
    load = Load(
        dried=run.dried or None,
        packs=run.packs,
        tests=",".join(sorted(tests)),
        weighings=tuple(
            f"{each.at}={each.mass}"
            for each in run.weighings
            if (each.weighing.at_min, each.weighing.mass_g) not in known
        ),
    )
    if batch is None:
        load.food, load.fresh = run.holds, run.fresh
        load.method, load.dryer = run.method, run.dryer
        load.started = run.started.isoformat(timespec="minutes") if run.started else None
        load.done = run.done.isoformat() if run.done else None
    return load
