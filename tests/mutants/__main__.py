"""Draws single changes of a room by chance and tells which no test of the room sees.

`python -m tests.mutants --room planning --draw 60 --seed 1`. All is done in a copy. Each change is
held against the room's tests that run its line; the first that fails has seen it. Tests named with
`--first` are asked before them, those with `--also` where none of the room has seen it.
"""

from __future__ import annotations

import argparse
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from coverage import CoverageData

from tests.mutants.changing import Mutant, mutants_of

ROOT = Path(__file__).parents[2]
ROOMS = ("planning", "reading", "site")
_NOT_COPIED = shutil.ignore_patterns(".git", "__pycache__", ".*_cache", "node_modules", ".venv*")
# What pytest ends with; a file of tests that cannot even be read is a wrong name to it.
_NOT_SEEN, _SEEN, _BROKEN, _NOT_FOUND = 0, 1, 2, 4
_QUIETLY = ("-m", "pytest", "-q", "-x", "-p", "no:cacheprovider", "@wanted.txt")
# Tests by the lines of a file: nodes of pytest.
Covered = Mapping[str, Mapping[int, Sequence[str]]]


def pytest_in(copy: Path, *words: str, limit_s: float | None = None) -> int:
    """Run tests in the copy; give what pytest ends with."""
    own = {"PYTHONPATH": str(copy), "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.run(
        [sys.executable, *words],
        cwd=copy,
        env={**os.environ, **own},
        timeout=limit_s,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        check=False,
    ).returncode


def measure(copy: Path, room: str, kept: Path) -> None:
    """Run a room's tests and keep which of them runs which line."""
    told = pytest_in(
        copy,
        "-m",
        "coverage",
        "run",
        "--branch",
        f"--data-file={kept}",
        f"--source=builder/{room}",
        "-m",
        "pytest",
        "-p",
        "tests.mutants.contexts",
        "-q",
        "-p",
        "no:cacheprovider",
        f"tests/{room}",
    )
    if told:
        raise SystemExit(f"tests/{room} fail as they are: mend that first")


def covered_in(kept: Path, room: str) -> Covered:
    """Give the tests that run each line, the ones that run least of the room first.

    What is run while a file is read is run before any test: there all that run some of the file are
    asked.
    """
    data = CoverageData(str(kept))
    data.read()
    found: dict[str, dict[int, list[str]]] = {}
    runs: Counter[str] = Counter()
    for path in data.measured_files():
        lines = data.contexts_by_lineno(path)
        name = f"builder/{room}/" + path.replace("\\", "/").rpartition(f"/builder/{room}/")[2]
        found[name] = {line: [test for test in told if test] for line, told in lines.items()}
        for told in found[name].values():
            runs.update(told)
        every = sorted({test for told in found[name].values() for test in told})
        found[name] = {line: told or every for line, told in found[name].items()}
    return {
        name: {line: sorted(told, key=lambda test: (runs[test], test)) for line, told in of.items()}
        for name, of in found.items()
    }


def some_of(tests: Sequence[str], most: int, rng: random.Random) -> list[str]:
    """Give not too many tests: half of them those that run least, the others by chance."""
    if len(tests) <= most:
        return list(tests)
    first = list(tests[: most // 2])
    return first + rng.sample(tests[most // 2 :], most - len(first))


@contextmanager
def changed(copy: Path, mutant: Mutant) -> Iterator[None]:
    """Have a change in the copy for a while."""
    file = copy / mutant.file
    raw = file.read_bytes()
    file.write_bytes(mutant.of(raw))
    try:
        yield
    finally:
        file.write_bytes(raw)


def is_seen(copy: Path, mutant: Mutant, tests: Sequence[str], limit_s: float) -> bool:
    """Tell whether a test fails by a change, or never ends."""
    if not tests:
        return False
    (copy / "wanted.txt").write_text("\n".join(tests), "utf-8")
    with changed(copy, mutant):
        try:
            told = pytest_in(copy, *_QUIETLY, limit_s=limit_s)
        except subprocess.TimeoutExpired:
            return True
    if told == _NOT_FOUND and pytest_in(copy, *_QUIETLY, "--collect-only") == 0:
        return True
    if told not in (_SEEN, _BROKEN, _NOT_SEEN):
        raise SystemExit(f"pytest could not run the tests of {mutant.file} (it ended with {told})")
    return told != _NOT_SEEN


def main() -> int:
    """Run it; 1 where a change was not seen."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__)
    parser.add_argument("--room", choices=ROOMS, required=True)
    parser.add_argument("--draw", type=int, default=60, help="how many changes (60)")
    parser.add_argument("--seed", type=int, default=1, help="another one draws others (1)")
    parser.add_argument("--most", type=int, default=300, help="tests for a change (300)")
    parser.add_argument("--limit", type=float, default=300.0, help="seconds for a change (300)")
    parser.add_argument("--first", nargs="*", default=[], help="tests that are asked of any change")
    parser.add_argument("--also", nargs="*", default=[], help="tests of other rooms, asked last")
    parser.add_argument("--kept", type=Path, help="a file for what runs which line, used again")
    asked = parser.parse_args()
    rng = random.Random(asked.seed)
    files = sorted(path.relative_to(ROOT) for path in (ROOT / "builder" / asked.room).rglob("*.py"))
    every = [each for file in files for each in mutants_of(ROOT, file.as_posix())]
    drawn = rng.sample(every, min(asked.draw, len(every)))
    print(f"{len(every)} changes of {asked.room}, {len(drawn)} of them drawn", flush=True)
    with tempfile.TemporaryDirectory() as scratch:
        copy = Path(scratch) / "copy"
        shutil.copytree(ROOT, copy, ignore=_NOT_COPIED)
        kept = (asked.kept or Path(scratch) / "covered").resolve()
        if not kept.exists():
            measure(copy, asked.room, kept)
        covered = covered_in(kept, asked.room)
        left = elsewhere = 0
        for number, mutant in enumerate(drawn, start=1):
            tests = some_of(covered.get(mutant.file, {}).get(mutant.line, ()), asked.most, rng)
            if any(is_seen(copy, mutant, of, asked.limit) for of in (asked.first, tests)):
                continue
            shown = mutant.shown((copy / mutant.file).read_bytes())
            if is_seen(copy, mutant, asked.also, asked.limit):
                elsewhere += 1
                print(f"{number}, seen by {' '.join(asked.also)}: {shown}", flush=True)
                continue
            left += 1
            print(f"{number}, {len(tests)} tests: {shown}", flush=True)
    seen = len(drawn) - left
    print(f"{asked.room}: {seen} of {len(drawn)} seen ({seen / len(drawn):.0%}),", end=" ")
    print(f"{elsewhere} of them by tests of other rooms alone.")
    return 1 if left else 0


if __name__ == "__main__":
    sys.exit(main())
