"""The preview from outside: a process of its own, a page that listens, files that are saved."""

from __future__ import annotations

import itertools
import json
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[1]
_MOST_CALLS = 100  # that nothing was told meanwhile; one comes every few seconds


class Preview:
    """A preview that runs."""

    def __init__(self, port: int) -> None:
        """Listen at once, as a page does that is open."""
        self.where = "127.0.0.1", port
        self._line = HTTPConnection(*self.where, timeout=120)
        self._line.request("GET", "/.preview/events")
        self._events: HTTPResponse = self._line.getresponse()
        self.first = self.next_told()

    def next_told(self) -> dict[str, Any]:
        """Wait until the page is told something."""
        for line in itertools.islice(self._events.fp, _MOST_CALLS):
            if line.startswith(b"data: "):
                return dict(json.loads(line[6:]))
        raise AssertionError("nothing was told")

    def page(self, path: str) -> bytes:
        """Give a page as it is served now."""
        line = HTTPConnection(*self.where, timeout=120)
        try:
            line.request("GET", path)
            return line.getresponse().read()
        finally:
            line.close()

    def hang_up(self) -> None:
        """Close the page."""
        self._events.close()
        self._line.close()


@contextmanager
def previewing(folder: Path, trip: str) -> Iterator[Preview]:
    """Run the preview of a trip in a folder, and stop it as one does with Ctrl and C."""
    environment = {
        **os.environ, "PYTHONPATH": str(ROOT), "PYTHONUNBUFFERED": "1", "NO_MKDOCS_2_WARNING": "1",
    }  # fmt: skip
    command = [sys.executable, "-m", "builder", "preview", trip, "--port", "0"]
    with subprocess.Popen(
        command,
        cwd=folder,
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    ) as running:
        try:
            assert running.stdout is not None
            told = next(line for line in running.stdout if line.startswith("Open http://"))
            preview = Preview(int(told.split(":")[2].split("/")[0]))
            yield preview
            preview.hang_up()
        finally:
            running.send_signal(signal.SIGINT)
            running.communicate(timeout=60)
    assert running.returncode == 0
