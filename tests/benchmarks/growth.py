"""What a trip costs among few and among many: `python -m tests.benchmarks.growth`.

Builds shelves of 10, 100 and 1,000 trips (or of as many as are named, `… growth 10 100`) with two
workers, each by a command of its own, and tells processor time for each trip and the memory of the
largest process. With `--draw FILE.svg` what was measured is drawn; `--keep FILE.json` keeps it, and
what was kept before is drawn too.
"""

from __future__ import annotations

import argparse
import json
import resource
import tempfile
from pathlib import Path
from typing import NamedTuple

from tests.benchmarks.measuring import command, shelf

COUNTS = (10, 100, 1000)
_WIDE, _LEFT, _TOP = 640, 70, 40


class Cost(NamedTuple):
    """What a build of so many trips cost."""

    trips: int
    processor_s: float  # for each trip, of all processes
    largest_mib: float  # the process that held most, pages that it shares counted in


def measured(trips: int) -> Cost:
    """Build so many trips."""
    with tempfile.TemporaryDirectory() as name:
        content = shelf(Path(name), trips)
        out = ("--content", str(content), "--out", str(Path(name) / "kits"), "--jobs", "2")
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        command("builder", "build", *out)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
    spent = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return Cost(trips, spent / trips, after.ru_maxrss / 1024)


def drawing(costs: list[Cost]) -> str:
    """Draw two rows of bars, one above the other, in the colours of a kit's charts."""
    most_s = max(cost.processor_s for cost in costs)
    most_mib = max(cost.largest_mib for cost in costs)
    parts = []
    for left, title, most, values in (
        (0, "s of processor for each trip", most_s, [cost.processor_s for cost in costs]),
        (_WIDE // 2, "MiB of the largest process", most_mib, [cost.largest_mib for cost in costs]),
    ):
        parts.append(f'<text x="{left + 10}" y="24" class="title">{title}</text>')
        for row, (cost, value) in enumerate(zip(costs, values, strict=True)):
            top = _TOP + row * 40
            wide = value / most * (_WIDE / 2 - _LEFT - 70)
            told = f"{value:.2f}" if most < 10 else f"{value:.0f}"
            parts += [
                f'<text x="{left + _LEFT - 8}" y="{top + 20}" class="end">{cost.trips:,}</text>',
                f'<rect x="{left + _LEFT}" y="{top}" width="{wide:.0f}" height="28" rx="3"/>',
                f'<text x="{left + _LEFT + wide + 8:.0f}" y="{top + 20}">{told}</text>',
            ]
    high = _TOP + len(costs) * 40 + 6
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_WIDE} {high}" role="img" '
        'aria-label="Cost of a trip, by how many are built at once">\n'
        "<style>text{font:16px system-ui,sans-serif;fill:#1b2a26}.end{text-anchor:end}"
        ".title{font-weight:700}rect{fill:#7d3108}"
        "@media (prefers-color-scheme:dark){text{fill:#e9ece4}rect{fill:#f4ba74}}</style>\n"
        + "\n".join(parts)
        + "\n</svg>\n"
    )


def main() -> None:
    """Measure, print, keep and draw."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.growth", description=__doc__)
    parser.add_argument("trips", type=int, nargs="*", default=COUNTS)
    parser.add_argument("--draw", type=Path)
    parser.add_argument("--keep", type=Path)
    asked = parser.parse_args()
    known = json.loads(asked.keep.read_text()) if asked.keep and asked.keep.exists() else []
    costs = {cost.trips: cost for cost in (Cost(*each) for each in known)}
    for trips in asked.trips:  # the memory is the most of all so far: fewest first
        costs[trips] = measured(trips)
        print(
            f"{trips:>6} trips: {costs[trips].processor_s:.2f} s of processor each, "
            f"{costs[trips].largest_mib:.0f} MiB in the largest process",
            flush=True,
        )
        if asked.keep:
            asked.keep.write_text(json.dumps(sorted(costs.values())))
    if asked.draw:
        asked.draw.write_text(drawing(sorted(costs.values())), "utf-8")


if __name__ == "__main__":
    main()
