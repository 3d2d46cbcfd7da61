"""Under which id and in which file a batch is logged."""

from __future__ import annotations

import datetime

import pytest

from builder.reading.declared.values import LONGEST_ID, can_be_id
from builder.starts.batches.places import free_id

DAY = datetime.date(2031, 3, 14)


@pytest.mark.parametrize(
    "holds", ["beans", "b" * LONGEST_ID, "b" * (LONGEST_ID - 13) + "-" + "c" * 12]
)
def test_an_id_is_made_of_what_a_batch_holds_and_its_day(holds: str) -> None:
    taken: set[str] = set()
    for number in range(1, 12):
        found = free_id(holds, DAY, taken)
        assert can_be_id(found) and found not in taken
        assert found.endswith("-2031-03-14" + (f"-{number}" if number > 1 else ""))
        assert found[0] == "b"
        taken.add(found)
