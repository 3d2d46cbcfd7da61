"""Sends many spoiled inputs the whole way and tells each that went wrong, with its number."""

from __future__ import annotations

import argparse
import os
import sys
import time
from concurrent.futures import ProcessPoolExecutor

from tests.fuzz.whole_way import send

# A day of its own, so that the same number makes the same input on any day.
DAY = "1944000000"


def main() -> int:
    """Run it; 1 where something went wrong."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("--inputs", type=int, default=50_000, help="how many (50,000)")
    parser.add_argument("--first", type=int, default=0, help="the number of the first (0)")
    parser.add_argument("--jobs", type=int, default=os.cpu_count(), help="how many at once")
    asked = parser.parse_args()
    os.environ["SOURCE_DATE_EPOCH"] = DAY
    numbers = range(asked.first, asked.first + asked.inputs)
    start, faults = time.monotonic(), 0
    with ProcessPoolExecutor(asked.jobs) as pool:
        for done, fault in enumerate(pool.map(send, numbers, chunksize=20), start=1):
            if fault:
                faults += 1
                print(f"{fault.number}: {' '.join(fault.command)}\n{fault.what}\n", flush=True)
            if done % 1000 == 0:
                print(f"{done} in {time.monotonic() - start:.0f} s, {faults} wrong", flush=True)
    print(f"{asked.inputs} inputs, {faults} went wrong.")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
