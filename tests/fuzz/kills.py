"""Kills builds at random moments and looks at what is left: `python -m tests.fuzz.kills`."""

from __future__ import annotations

import argparse
import json
import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from builder.site.folder import made
from builder.starts import start_folder
from tests.conftest import files_of

ROOT = Path(__file__).parents[2]
TRIP = "first-trip"


def build(folder: Path) -> subprocess.Popen[str]:
    """Start a build of a folder in a process of its own."""
    return subprocess.Popen(
        [sys.executable, "-m", "builder", "build", TRIP],
        cwd=folder,
        text=True,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )


def change(folder: Path, number: int) -> None:
    """Change a word of the trip, so that its kit has to be built anew."""
    trip = folder / "content/trips" / f"{TRIP}.yaml"
    first, *rest = trip.read_text("utf-8").splitlines()
    lines = (
        [f"# {number}", *rest]
        if first.startswith("# ") and first[2:].isdigit()
        else [f"# {number}", first, *rest]
    )
    lines = [f"title: Walk {number}" if line.startswith("title:") else line for line in lines]
    trip.write_text("\n".join(lines) + "\n", "utf-8")


def start(folder: Path) -> tuple[Path, float]:
    """Start a folder and build it once; give it, and how long a build takes."""
    start_folder(folder)
    change(folder, 0)
    (folder / "kits").mkdir()
    (folder / "kits/mine.txt").write_text("mine")
    began = time.monotonic()
    said, _ = build(folder).communicate()
    assert "Built kits/" in said, said
    return folder, time.monotonic() - began


def fault_after_kill(folder: Path, number: int, after_s: float) -> str:
    """Kill a build after a while; give what is wrong with what is left, "" for nothing."""
    before = _title(folder)
    change(folder, number)
    content = files_of(folder / "content")
    running = build(folder)
    try:
        running.communicate(timeout=after_s)
    except subprocess.TimeoutExpired:
        running.send_signal(signal.SIGKILL)
        running.communicate()
    if files_of(folder / "content") != content:
        return "a file of the content was touched"
    said, _ = build(folder).communicate()
    # A kill that came once the kit stood, and before its folder's page was written, leaves a
    # kit that is unchanged; whether it is the new one is asked below.
    words = ("Built kits/", "Unchanged kits/", "Nothing changed")
    if "Traceback" in said or not any(word in said for word in words):
        return f"the build after it said: {said}"
    told = made.made_of(folder / "kits", TRIP)
    if told is None or not made.is_whole(folder / "kits", TRIP, told):
        return "the kit is not what was remembered of it"
    if _title(folder) != f"Walk {number}":
        return f"the kit is {_title(folder)!r}, before the kill it was {before!r}"
    if (folder / "kits/mine.txt").read_text() != "mine":
        return "a file of somebody else was touched"
    own = sorted(each.name for each in (folder / "kits/.built").iterdir())
    left = [name for name in own if name.endswith((".work", ".new", ".old", ".zip", ".json.new"))]
    return f"left behind: {left}" if left else ""


def _title(folder: Path) -> str:
    data = json.loads((folder / "kits" / TRIP / "kit.json").read_bytes())
    return str(data["trip"]["title"])


def main() -> int:
    """Run it; 1 where something went wrong."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz.kills", description=__doc__)
    parser.add_argument("--kills", type=int, default=200, help="how many (200)")
    parser.add_argument("--seed", type=int, default=0, help="another one kills at other moments")
    asked = parser.parse_args()
    rng, faults = random.Random(asked.seed), 0
    with tempfile.TemporaryDirectory() as scratch:
        folder, takes_s = start(Path(scratch) / "mine")
        for number in range(1, asked.kills + 1):
            after_s = rng.uniform(0, takes_s)
            fault = fault_after_kill(folder, number, after_s)
            if fault:
                faults += 1
                print(f"{number}, killed after {after_s:.3f} s: {fault}", flush=True)
    print(f"{asked.kills} kills, {faults} went wrong.")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
