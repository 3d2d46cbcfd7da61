"""The same work for many things, in as many processes as there are cores to run them."""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from typing import Any, TypeVar

Item = TypeVar("Item")
Result = TypeVar("Result")

# Fewer are done before another process is.
_LEAST_FOR_EACH = 8
# Handed over at once: so many that it costs little, so few that none waits long for the last.
_AT_ONCE = 4

# What a forked process is to do. It is there because its parent had it: nothing is sent along.
_work: Callable[[Any], Any] | None = None
_items: Sequence[Any] = ()


def each_forked(work: Callable[[Item], Result], items: Sequence[Item]) -> Iterator[Result]:
    """Give what some work gives for each item, in their order.

    The processes know all that was made before, and what they give is sent back. Where processes
    cannot be forked, or one of them dies, the work is done here.
    """
    global _work, _items
    workers = min(cores(), len(items) // _LEAST_FOR_EACH)
    done = 0
    if workers > 1 and can_fork():
        import multiprocessing
        from concurrent.futures import ProcessPoolExecutor
        from concurrent.futures.process import BrokenProcessPool

        _work, _items = work, items
        forked = multiprocessing.get_context("fork")
        try:
            with ProcessPoolExecutor(workers, mp_context=forked) as executor:
                results: Iterator[Any] = executor.map(_at, range(len(items)), chunksize=_AT_ONCE)
                for result in results:
                    done += 1
                    yield result
        except BrokenProcessPool:
            pass
        finally:
            _work, _items = None, ()
    yield from map(work, items[done:])


def can_fork() -> bool:
    """Tell whether processes can be forked here without harm: no other thread is left behind."""
    import multiprocessing

    return (
        "fork" in multiprocessing.get_all_start_methods()
        and sys.platform != "darwin"  # whose own libraries do not bear it
        and threading.active_count() == 1
    )


def _at(number: int) -> object:
    assert _work is not None, "a forked process knows its work"
    return _work(_items[number])


def cores() -> int:
    """Give how many processes can run at a time: the cores that this one may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1
