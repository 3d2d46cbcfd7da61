"""Half ladles out of a pot: edges, errors, laws."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.serving import own_half_ladles, pot_half_ladles


@pytest.mark.parametrize(
    ("pot_ml", "drain_ml", "halves"),
    [
        (0.0, 0.0, 0),
        (59.0, 0.0, 0),
        (60.0, 0.0, 1),
        (1200.0, 0.0, 20),
        (1200.0, 601.0, 9),
        (300.0, 400.0, 0),
    ],
)
def test_a_pot_gives_whole_half_ladles(pot_ml: float, drain_ml: float, halves: int) -> None:
    assert pot_half_ladles(pot_ml, drain_ml, 120.0) == halves


@given(st.floats(0.0, 50_000.0), st.floats(30.0, 500.0))
def test_no_more_is_promised_than_is_there(pot_ml: float, ladle_ml: float) -> None:
    halves = pot_half_ladles(pot_ml, 0.0, ladle_ml)
    assert halves * ladle_ml / 2 <= pot_ml + 1e-6 * ladle_ml
    assert (halves + 1) * ladle_ml / 2 > pot_ml - 1e-6 * ladle_ml


@pytest.mark.parametrize(
    ("halves", "share", "more", "own"),
    [(10.0, 0.25, 0.0, 2), (10.0, 0.25, 1.0, 3), (9.0, 1 / 3, 0.0, 3), (0.0, 0.5, 0.0, 0)],
)
def test_ones_own(halves: float, share: float, more: float, own: int) -> None:
    assert own_half_ladles(halves, share, more) == own


@pytest.mark.parametrize(
    ("pot_ml", "drain_ml", "ladle_ml"), [(-1.0, 0.0, 120.0), (1.0, -1.0, 120.0), (1.0, 0.0, 0.0)]
)
def test_what_no_pot_holds_is_refused(pot_ml: float, drain_ml: float, ladle_ml: float) -> None:
    with pytest.raises(ValueError, match=r"poured off|pot|ladle"):
        pot_half_ladles(pot_ml, drain_ml, ladle_ml)


@pytest.mark.parametrize(
    ("halves", "share", "more"), [(-1.0, 0.5, 0.0), (1.0, 1.5, 0.0), (1.0, 0.5, 2.0)]
)
def test_what_nobody_gets_is_refused(halves: float, share: float, more: float) -> None:
    with pytest.raises(ValueError, match=r"half ladles|share of the pot"):
        own_half_ladles(halves, share, more)
