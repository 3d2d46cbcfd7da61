"""When a phone on a slow network has painted the first page of a kit.

`python -m tests.benchmarks.first_paint` builds the demo, serves it as a web host would, and opens
each front page in a browser that has kept nothing, at 1.6 Mbit/s, 150 ms there and back, on a
processor a quarter as fast.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

from tests.benchmarks.measuring import TRIPS, command, paint_ms
from tests.browser.conftest import QUIET, find_browser
from tests.browser.hosting import Host, Packing

MOST_MS = 1500.0
TIMES = 5


def main() -> int:
    """Measure each front page, print what was found, and fail where one comes too late."""
    path = find_browser()
    if path is None:
        print("no browser: nothing was measured")
        return 1
    late = False
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        kits = Path(name)
        command("builder", "build", "--out", str(kits))
        browser = playwright.chromium.launch(executable_path=path, args=list(QUIET))
        host = Host(kits, Packing)
        for trip in TRIPS:
            page = f"{host.address}/{trip}/index.html"
            times = sorted(paint_ms(browser, page) for _ in range(TIMES))
            median = statistics.median(times)
            late |= median > MOST_MS
            print(f"{trip}: {median:.0f} ms (from {times[0]:.0f} to {times[-1]:.0f})")
        host.stop()
        browser.close()
    print(f"Bound: {MOST_MS:.0f} ms")
    return 1 if late else 0


if __name__ == "__main__":
    sys.exit(main())
