"""Hands that are forked off when all is read: what was read is theirs, so that little is sent.

Each plans its share of the trips and builds what it planned; one that has nothing left takes over
from another. Who does what is told by the process that forked them, trip by trip, so that it knows
what one was at that is killed.
"""

from __future__ import annotations

import contextlib
import gc
import multiprocessing
import os
import pickle
import signal
import traceback
from collections.abc import Iterable, Iterator, Sequence
from contextlib import AbstractContextManager, ExitStack
from multiprocessing.connection import Connection, wait
from types import TracebackType
from typing import Any, NamedTuple

from builder.cli.many.bench import Bench, Told
from builder.cli.many.crew import Home, Lost
from builder.model.home import AT_HOME
from builder.model.since import OldKit
from builder.site.build import Built
from builder.site.rendering.generators import renderer_of

_GONE = (EOFError, ConnectionError)


class _Failed(NamedTuple):
    """What stopped a piece of work."""

    error: Exception


class Hand(AbstractContextManager["Hand"]):
    """One process, as it is known to the one that forked it."""

    def __init__(self, work: Any, others: Iterable[Hand] = (), *, may_fork: bool = False) -> None:
        """Fork it; `work` is a function of its end of the pipe, called over there.

        `may_fork` tells whether it may have hands of its own.
        """
        self.pipe, end = multiprocessing.Pipe()
        pipes = [self.pipe, *(each.pipe for each in others)]
        context = multiprocessing.get_context("fork")
        self.process = context.Process(
            target=_over_there, args=(work, end, pipes), daemon=not may_fork
        )
        self.process.start()
        end.close()
        self.doing: str | None = None
        self.is_there = True

    def give(self, trip_id: str, *job: object) -> None:
        """Give it something to do; that it is gone is seen when it is listened to."""
        self.doing = trip_id
        with contextlib.suppress(*_GONE):
            self.pipe.send(job)

    def hear(self) -> Any:
        """Take what it made, or that it is gone."""
        trip_id, self.doing = self.doing, None
        try:
            return self.pipe.recv()
        except (*_GONE, pickle.UnpicklingError):
            self.is_there = False
            self.pipe.close()
            self.process.join()
            return Lost(trip_id or "", _how_it_ended(self.process.exitcode or 0))

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        """Let it end; at once where something stopped the whole."""
        if error is not None:
            self.process.terminate()
        if self.is_there:
            self.pipe.close()
        self.process.join()


class Forked(ExitStack):
    """Several processes on this machine."""

    def __init__(self, bench: Bench, workers: int, trips: int) -> None:
        """Fork as many as there is work for; one more than there are trips builds the home."""
        super().__init__()
        self.workers = workers
        renderer_of(bench.wanted.generator)  # loaded once, for all
        self.hands: list[Hand] = []
        self.at_home: Hand | None = None
        self.planned_by: dict[str, Hand] = {}
        # What is there now stays as it is: nobody looks through it for what can be thrown away,
        # which would make a copy of it in each process.
        gc.freeze()
        for _ in range(min(workers, trips)):
            self.hands.append(self.enter_context(Hand(_worker(bench), self.hands)))
        gc.unfreeze()

    def plan(self, names: Sequence[str]) -> Iterator[Told | Lost]:
        """Plan trips, each where somebody is free."""
        waiting = list(names)
        while waiting or self._busy:
            for hand in self._free if waiting else ():
                if waiting:
                    name = waiting.pop(0)
                    self.planned_by[name] = hand
                    hand.give(name, "plan", name)
            if not self._busy:
                break
            yield from _or_raised(self._heard())
        yield from (Lost(name, "no process is left to plan it") for name in waiting)

    def build(
        self, names: Sequence[str], since: OldKit | None, home: Home | None
    ) -> Iterator[Built | Lost]:
        """Build the home, which takes longest, and kits, where they were planned."""
        waiting = list(names)
        stopped_by: Exception | None = None
        while True:
            if stopped_by is None:
                if home is not None:
                    hand = Hand(_worker_at_home(home), self.hands, may_fork=True)
                    self.at_home = self.enter_context(hand)
                    self.at_home.give(AT_HOME)
                    home = None
                for hand in self._free:
                    if waiting and len(self._busy) < self.workers:
                        name = self._next_for(hand, waiting)
                        old = since if since is not None and since.trip == name else None
                        hand.give(name, "build", name, old)
            if not self._busy:
                break
            for heard in self._heard():
                if isinstance(heard, _Failed):
                    stopped_by = stopped_by or heard.error
                else:
                    yield heard
        if stopped_by is not None:
            raise stopped_by
        yield from (Lost(name, "no process is left to build it") for name in waiting)

    def _next_for(self, hand: Hand, waiting: list[str]) -> str:
        """Take the next trip that a hand planned, else one that another would come to last."""
        own = [name for name in waiting if self.planned_by.get(name) is hand]
        name = own[0] if own else waiting[-1]
        waiting.remove(name)
        return name

    @property
    def _busy(self) -> list[Hand]:
        return [hand for hand in (*self.hands, self.at_home) if hand and hand.doing is not None]

    @property
    def _free(self) -> list[Hand]:
        return [hand for hand in self.hands if hand.is_there and hand.doing is None]

    def _heard(self) -> Iterator[Any]:
        """Wait until somebody has something to tell; give what each made that has."""
        hands = {hand.pipe: hand for hand in self._busy}
        for pipe in wait(list(hands)):
            assert isinstance(pipe, Connection)
            yield hands[pipe].hear()


def _or_raised(answers: Iterator[Any]) -> Iterator[Any]:
    for answer in answers:
        if isinstance(answer, _Failed):
            raise answer.error
        yield answer


def _how_it_ended(code: int) -> str:
    """Say how a process ended that should not have."""
    if code >= 0:
        return f"its process ended by itself with {code}"
    try:
        name = signal.Signals(-code).name
    except ValueError:
        name = f"signal {-code}"
    return f"its process was killed ({name})"


# -- what follows runs in the processes that were forked ------------------------------------------


def _over_there(work: Any, end: Connection, pipes: Sequence[Connection]) -> None:
    """Do the work of a hand until nobody asks for more."""
    for pipe in pipes:  # else it would never be seen that the process on the other side is gone
        with contextlib.suppress(OSError):
            pipe.close()
    # Who typed Ctrl-C meant the whole; how that ends is seen to by the one who forked.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    with contextlib.suppress(*_GONE):
        work(end)


def _worker(bench: Bench) -> Any:
    """Give what plans and builds one trip after the other."""

    def work(end: Connection) -> None:
        while True:
            what, *job = end.recv()
            made = _made(bench.plan if what == "plan" else bench.build, *job)
            _send(end, made)

    return work


def _worker_at_home(home: Home) -> Any:
    """Give what builds the home and nothing else."""

    def work(end: Connection) -> None:
        end.recv()
        _send(end, _made(home))

    return work


def _made(work: Any, *job: Any) -> object:
    """Give what came of a piece of work, or what stopped it."""
    try:
        return work(*job)
    except Exception as error:
        error.add_note(f"in process {os.getpid()}:\n{traceback.format_exc()}")
        return _Failed(error)


def _send(end: Connection, made: object) -> None:
    try:
        told = pickle.dumps(made)
        pickle.loads(told)
    except Exception:
        assert isinstance(made, _Failed)
        told = pickle.dumps(_Failed(RuntimeError("".join(traceback.format_exception(made.error)))))
    end.send_bytes(told)
