"""Sees that a file was saved."""

from __future__ import annotations

import os
import threading
import time
from collections.abc import Callable, Sequence
from pathlib import Path

LOOK_EVERY_S = 0.05
# Looking takes no more than this part of the time: in a folder of thousands it is done less often.
_LOOKING_SHARE = 0.1
State = dict[str, tuple[int, int]]


def snapshot(folders: Sequence[Path]) -> State:
    """Give the state of all files below some folders, cheap enough to ask for often."""
    found: State = {}
    for folder in folders:
        for path, _, names in os.walk(folder):
            for name in names:
                file = os.path.join(path, name)
                try:
                    told = os.stat(file)
                except OSError:
                    continue
                found[file] = (told.st_mtime_ns, told.st_size)
    return found


def watch(
    folders: Sequence[Path],
    rebuild: Callable[[], None],
    stop: threading.Event,
    every_s: float = LOOK_EVERY_S,
) -> None:
    """Call `rebuild` each time the files differ from before, until told to stop.

    Some editors save in several steps: it waits until two looks see the same.
    """
    before, wait_s = snapshot(folders), every_s
    while not stop.wait(wait_s):
        began = time.monotonic()
        now = snapshot(folders)
        wait_s = max(every_s, (time.monotonic() - began) / _LOOKING_SHARE)
        if now == before:
            continue
        while not stop.wait(every_s / 2) and (again := snapshot(folders)) != now:
            now = again
        before = now
        rebuild()
