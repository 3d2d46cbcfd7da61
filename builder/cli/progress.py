"""How far long work is: a bar with the time left, on a terminal that can show one.

It stands on the error output and is gone when the work is done; in a pipe, in a log or on a dumb
terminal nothing is told, and the library that draws it is not even loaded.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.progress import Progress

_DUMB = ("", "dumb", "unknown")


class Bar:
    """A bar that may be shown or not; the work does not need to know."""

    def __init__(self, shown: Progress | None = None) -> None:
        """Stand for a bar on the screen, or for none."""
        self._shown = shown

    def step(self) -> None:
        """Tell that one more is done."""
        if self._shown is not None:
            self._shown.advance(self._shown.task_ids[0])
            self._shown.refresh()

    @contextmanager
    def aside(self) -> Iterator[None]:
        """Take the bar away while something else is printed."""
        if self._shown is None:
            yield
            return
        self._shown.stop()
        try:
            yield
        finally:
            self._shown.start()


@contextmanager
def progress(what: str, total: int, least: int) -> Iterator[Bar]:
    """Show how far some work is while it goes on, where there are at least so many to do."""
    if total < least or not _can_show():
        yield Bar()
        return
    from rich.console import Console
    from rich.progress import (
        BarColumn,
        MofNCompleteColumn,
        Progress,
        TextColumn,
        TimeRemainingColumn,
    )

    bar = Progress(
        TextColumn("{task.description}"),
        BarColumn(),
        MofNCompleteColumn(),
        TimeRemainingColumn(),
        TextColumn("left"),
        console=Console(stderr=True),
        # Drawn when a step is done: a thread of its own must not live where processes are forked.
        auto_refresh=False,
        transient=True,
        # What is printed meanwhile keeps its own stream; `aside` makes room for it.
        redirect_stdout=False,
        redirect_stderr=False,
    )
    bar.add_task(what, total=total)
    with bar:
        yield Bar(bar)


def _can_show() -> bool:
    return sys.stderr.isatty() and os.environ.get("TERM", "").lower() not in _DUMB
