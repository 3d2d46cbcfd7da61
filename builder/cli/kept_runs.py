"""The runs that the last build found for the dryers at home, so that they are not sought again."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from contextlib import ExitStack
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

from builder.cli.many.crew import Lost
from builder.cli.many.each_forked import can_fork
from builder.cli.many.forked import Hand
from builder.model.as_data import as_data, of_data
from builder.planning.runs import Answer, Task, pack
from builder.record import dataclass
from builder.site.folder.made import OWN_FOLDER
from builder.site.folder.memory import as_text, told_in, write_over


@dataclass(frozen=True, slots=True)
class _Answers:
    """What is written down: the state of the tool, and its answers by the names of the tasks."""

    tool: str
    answers: Mapping[str, Any]


class KeptRuns(ExitStack):
    """What was found for the tasks of the last build, by the same tool, and what is found now.

    Runs are sought in a process of their own where one can be forked: the solver and its libraries
    take as much memory as all that a build has read, and give it back only so.
    """

    def __init__(self, out: Path, tool: str, is_asked: bool) -> None:
        """Take where kits lie and the state of the tool; `is_asked`: old answers will do."""
        super().__init__()
        self._file, self._tool = out / OWN_FOLDER / "_runs.json", tool
        self._before = self._read() if is_asked else {}
        self._now: dict[str, Any] = {}
        self._solver: Hand | None = None

    def search(self, task: Task) -> Answer:
        """Give the answer to a task: as it was found before, else sought now."""
        name = _named(task)
        try:
            answer = of_data(Answer, self._before[name])
        except (KeyError, TypeError, ValueError):
            answer = self._sought(task)
        self._now[name] = as_data(answer)
        return answer

    def _sought(self, task: Task) -> Answer:
        if self._solver is None and can_fork():
            self._solver = self.enter_context(Hand(_solver))
        if self._solver is None or not self._solver.is_there:
            return pack(task)
        self._solver.give("", task)
        answer: Answer | Lost = self._solver.hear()
        return pack(task) if isinstance(answer, Lost) else answer

    def keep(self) -> None:
        """Write down what was asked for now, and nothing else, for the next build."""
        if self._now != self._before:
            write_over(self._file, as_text(_Answers(self._tool, self._now)))

    def _read(self) -> dict[str, Any]:
        told = told_in(self._file, _Answers)
        return dict(told.answers) if told is not None and told.tool == self._tool else {}


def _named(task: Task) -> str:
    """Name all that an answer follows from."""
    told = [as_data(task.things), sorted(task.apart), as_data(task.places), as_data(task.free)]
    return hashlib.sha256(json.dumps(told).encode()).hexdigest()


def _solver(end: Connection) -> None:
    """Answer task after task, in a process of its own."""
    while True:
        (task,) = end.recv()
        end.send(pack(task))
