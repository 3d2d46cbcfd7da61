"""How long it takes from the save of a file until an open page of the preview loads itself anew.

As a command: python -m tests.benchmarks.saving
"""

from __future__ import annotations

import shutil
import tempfile
import time
from pathlib import Path

from builder.reading.files import ROOMS
from builder.reading.folder import ALWAYS_SHIPPED
from tests.previewing import ROOT, previewing

TRIP = "tarrow-tops"
SAVES = 5


def seconds_until_told(scratch: Path, saves: int = SAVES) -> list[float]:
    """Save a trip some times over, in a folder with the demo's trips, recipes, log and home."""
    content = scratch / "saving" / "content"
    content.mkdir(parents=True)
    for room in set(ROOMS) - set(ALWAYS_SHIPPED):
        own = ROOT / "content" / room
        if own.is_dir():
            shutil.copytree(own, content / room)
        else:
            shutil.copy(own, content / room)
    trip = content / "trips" / f"{TRIP}.yaml"
    text = trip.read_text("utf-8")
    taken = []
    with previewing(content.parent, TRIP) as preview:
        for number in range(saves):
            time.sleep(0.5)  # so that what comes after a build is over
            start = time.perf_counter()
            trip.write_text(text.replace("title: ", f"title: {number} ", 1), "utf-8")
            told = preview.next_told()
            taken.append(time.perf_counter() - start)
            assert not told["stopped"], told["said"]
    return taken


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as name:
        for seconds in seconds_until_told(Path(name)):
            print(f"{seconds:.2f} s from the save until the page is told")
