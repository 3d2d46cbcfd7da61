"""Runs of the dryers are sought once for the same task, and anew for any other."""

from __future__ import annotations

import math
import multiprocessing
import os
import signal
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.cli import kept_runs
from builder.cli.kept_runs import KeptRuns
from builder.planning.runs import Answer, Task
from builder.planning.runs.packing import Filling, Free, Packed, Place, Thing
from builder.record import replace
from builder.site.folder import made

THING = Thing(2.0, 0.8, (10.0, None), 0, 5, 4)
TASK = Task(
    (THING,), frozenset({(0, 1)}), (Place(3.0, busy_h=((1.0, 2.0),)),), (Free(0, 8.0, 20.0),)
)
FOUND = Answer(
    Packed((Filling(0, 8.0, 10.0, ((0, 2.0),)),), (0.0,), 1), fewer_runs=1, later_h=math.inf
)
NONE = Answer(None, is_sure=False)


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[Task]:
    """Note what is sought; something is found for the first task alone."""
    tasks: list[Task] = []

    def pack(task: Task) -> Answer:
        tasks.append(task)
        return FOUND if task == TASK else NONE

    monkeypatch.setattr(kept_runs, "pack", pack)
    monkeypatch.setattr(kept_runs, "can_fork", lambda: False)
    return tasks


def kept(out: Path, *tasks: Task, tool: str = "tool", is_asked: bool = True) -> list[Answer]:
    """Build once: ask for some tasks."""
    with KeptRuns(out, tool, is_asked) as runs:
        answers = [runs.search(task) for task in tasks]
    runs.keep()
    return answers


OTHERS: dict[str, Task] = {
    "more of it": replace(TASK, things=(replace(THING, fresh_kg=2.5),)),
    "another dryer": replace(TASK, places=(*TASK.places, Place(1.0))),
    "apart": replace(TASK, apart=frozenset[tuple[int, int]]()),
    "other hours": replace(TASK, free=(Free(0, 9.0, 20.0),)),
}


def test_the_same_task_is_not_sought_twice(tmp_path: Path, asked: list[Task]) -> None:
    made.claim(tmp_path)
    for _ in range(3):
        assert kept(tmp_path, TASK, OTHERS["apart"]) == [FOUND, NONE]
    assert asked == [TASK, OTHERS["apart"]]


@pytest.mark.parametrize("what", OTHERS)
def test_another_task_is_sought(what: str, tmp_path: Path, asked: list[Task]) -> None:
    made.claim(tmp_path)
    kept(tmp_path, TASK)
    assert kept(tmp_path, OTHERS[what]) == [NONE]
    # What nobody asked for is not kept.
    assert kept(tmp_path, TASK) == [FOUND]
    assert asked == [TASK, OTHERS[what], TASK]


def test_another_tool_and_who_asks_for_all_anew_seek_again(
    tmp_path: Path, asked: list[Task]
) -> None:
    made.claim(tmp_path)
    kept(tmp_path, TASK)
    kept(tmp_path, TASK, tool="another")
    kept(tmp_path, TASK, tool="another", is_asked=False)
    assert asked == [TASK] * 3


def spoiled(part: str, by: str) -> Callable[[str], str]:
    return lambda text: text.replace(part, by) if part else by


@pytest.mark.parametrize(
    "spoil",
    [
        *(spoiled("", text) for text in ("", "[]", "{}", '{"tool": "tool"}', "[" * 100_000)),
        *(spoiled("", f'{{"tool": "tool", "answers": {odd}}}') for odd in ("5", "[1]", "null")),
        spoiled("[[[[0, 8.0", "[[[0, 8.0"),
        spoiled(", true]", "]"),
    ],
)
def test_what_was_spoiled_is_sought_again(
    spoil: Callable[[str], str], tmp_path: Path, asked: list[Task]
) -> None:
    made.claim(tmp_path)
    kept(tmp_path, TASK)
    (file,) = (tmp_path / made.OWN_FOLDER).glob("_runs.json")
    before = file.read_text("utf-8")
    file.write_text(spoil(before), "utf-8")
    assert file.read_text("utf-8") != before
    assert kept(tmp_path, TASK) == [FOUND]
    assert asked == [TASK, TASK]


def by_whom(task: Task) -> Answer:
    return Answer(None, fewer_runs=os.getpid())


def killed_elsewhere(task: Task) -> Answer:
    if os.getpid() != HERE:
        os.kill(os.getpid(), signal.SIGKILL)
    return FOUND


HERE = os.getpid()
CAN_FORK = "fork" in multiprocessing.get_all_start_methods() and sys.platform != "darwin"


@pytest.fixture
def _alone(monkeypatch: pytest.MonkeyPatch) -> None:
    if not CAN_FORK:
        pytest.skip("no process can be forked here")
    # Tests before may have left a thread that waits for nothing.
    monkeypatch.setattr(kept_runs, "can_fork", lambda: True)


@pytest.mark.usefixtures("_alone")
def test_runs_are_sought_in_one_process_of_their_own(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made.claim(tmp_path)
    monkeypatch.setattr(kept_runs, "pack", by_whom)
    (first, second) = kept(tmp_path, TASK, OTHERS["apart"])
    assert first.fewer_runs == second.fewer_runs != os.getpid()
    with pytest.raises(ProcessLookupError):
        os.kill(first.fewer_runs, 0)


@pytest.mark.usefixtures("_alone")
def test_where_that_process_is_killed_they_are_sought_here(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made.claim(tmp_path)
    monkeypatch.setattr(f"{__name__}.HERE", os.getpid())
    monkeypatch.setattr(kept_runs, "pack", killed_elsewhere)
    assert kept(tmp_path, TASK, OTHERS["apart"]) == [FOUND, FOUND]
