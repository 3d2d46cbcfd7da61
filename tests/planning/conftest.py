"""What the first folder of some tests gives is held as a whole, besides what the test asks of it.

To hold another: write its name as a title (`# test_file.py::test_name`) into the golden file and
let it be written anew. What is chosen shows what the demos do not.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from builder.planning.filling import fill_trip
from builder.planning.lessons import lessons_of, plan_learned
from builder.problems import errors
from tests.approved import as_text, hold_part, parts_of
from tests.planning.folders import READ, Hand

GOLDEN = Path(__file__).parent / "golden" / "folders.txt"
HELD = parts_of(GOLDEN)
# Words, and what is held for more trips beside this.
LEFT_OUT = frozenset(
    {"sources", "places", "place", "folders", "standing", "defaults", "cautions", "turns", "label"}
)


@pytest.fixture(autouse=True)
def held_as_a_whole(request: pytest.FixtureRequest, rewrite_golden: bool) -> Iterator[None]:
    """Hold what was read and planned of a test's first folder, where the file names the test."""
    READ.clear()
    yield
    name = request.node.nodeid.rpartition("/")[2]
    if name in HELD:
        hold_part(GOLDEN, name, _whole(READ[0]), rewrite_golden)


def _whole(read: Hand) -> str:
    told = as_text({"problems": read.problems, "stock": read.stock}, LEFT_OUT)
    if errors(read.problems):
        return told
    lessons = lessons_of(read.content, read.stock)
    for trip in read.content.trips.values():
        if any(day.open_meals for day in trip.days):
            filling = fill_trip(trip, read.content, read.stock)
            told += as_text(filling, LEFT_OUT | {"trip"})
            continue
        kit = plan_learned(trip, read.content, read.stock, lessons)
        told += as_text(kit, LEFT_OUT)
    return told
