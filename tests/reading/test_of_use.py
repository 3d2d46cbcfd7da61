"""What is told to be of no use yet: a key that something is made of is not among it."""

from __future__ import annotations

import pytest

from builder.reading.declared.declaring import Record, unused_of
from builder.reading.dishes.foods import WrittenFood
from builder.reading.drying.drying_gear import WrittenDryer, WrittenPackaging


@pytest.mark.parametrize("record", [WrittenFood, WrittenDryer, WrittenPackaging])
def test_prices_power_hours_and_warmth_are_of_use_at_home(record: type[Record]) -> None:
    # The ways to dry a food reckon with the prices and the power, runs with the hours and warmth.
    assert unused_of(record) == ()
