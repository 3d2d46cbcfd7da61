"""Sums and shares."""

from __future__ import annotations

import pytest

from builder.formulas.totals import (
    as_chosen,
    least,
    left_over,
    most,
    part_of,
    scaled,
    total,
    weighted,
)


def test_parts_add_up() -> None:
    assert total([0.1] * 10) == 1.0
    assert total([]) == 0.0
    assert weighted([2.0, 3.0], [10.0, 100.0]) == 320.0
    assert least([3.0, 2.0]) == 2.0 and most([3.0, 2.0]) == 3.0


def test_as_many_weights_as_parts() -> None:
    with pytest.raises(ValueError):
        weighted([1.0], [1.0, 2.0])


def test_a_part_scales_and_is_told() -> None:
    assert scaled(300.0, 1.5) == 450.0
    assert part_of(1.0, 4.0) == 0.25
    assert as_chosen(2.5) == 2.5
    with pytest.raises(ValueError, match="whole is 0; it must be more than 0"):
        part_of(1.0, 0.0)


@pytest.mark.parametrize(("whole", "taken", "left"), [(5, 3, 2), (3, 5, 0), (3, 3, 0)])
def test_what_is_left_is_never_below_nothing(whole: float, taken: float, left: float) -> None:
    assert left_over(whole, taken) == left
