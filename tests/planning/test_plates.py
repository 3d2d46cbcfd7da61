"""Sharing a pot out: by need, in half ladles, never more than is there."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.planning.menu.plates import more_of


@pytest.mark.parametrize(
    ("halves", "shares", "more"),
    [
        # 11.25 and 13.75: one is left, for whom rounding took most from.
        (25, (0.45, 0.55), (0, 1)),
        (20, (0.5, 0.5), (0, 0)),
        # 6.25 each: one is left, and no two of them are told apart.
        (25, (0.25, 0.25, 0.25, 0.25), (0, 0, 0, 0)),
        # 4.9, 4.9 and 0.2, two left: both who lost alike have one.
        (10, (0.49, 0.49, 0.02), (1, 1, 0)),
        (0, (0.5, 0.5), (0, 0)),
    ],
)
def test_who_has_half_a_ladle_more(
    halves: int, shares: tuple[float, ...], more: tuple[int, ...]
) -> None:
    assert more_of(halves, shares) == more


@given(st.integers(0, 400), st.lists(st.floats(0.2, 5.0), min_size=1, max_size=30))
def test_the_pot_is_never_promised_twice(halves: int, needs: list[float]) -> None:
    shares = [need / sum(needs) for need in needs]
    exact = [round(halves * share, 9) for share in shares]
    own = [int(each) + more for each, more in zip(exact, more_of(halves, shares), strict=True)]
    assert sum(own) <= halves
    assert all(abs(mine - each) < 1 + 1e-9 for mine, each in zip(own, exact, strict=True))
