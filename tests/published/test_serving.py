"""Sharing out a pot in half ladles."""

from __future__ import annotations

from builder.formulas.serving import own_half_ladles, pot_half_ladles

from .published import Published, check, published


# 1.5 l of stew in ladles of 120 ml; 400 ml poured off.
@published(
    Published((1500.0, 0.0, 120.0), 25.0, 0.1, "halves", "common-practice", "stew", "practice"),
    Published((1500.0, 400.0, 120.0), 18.0, 0.1, "halves", "common-practice", "pasta", "practice"),
)
def test_halves_of_a_pot(row: Published) -> None:
    check(row, pot_half_ladles)


# 25 halves for shares of 45 and 55 percent: 11.25 and 13.75, so the second has one more.
@published(
    Published((25.0, 0.45, 0.0), 11.0, 0.1, "halves", "common-practice", "the less", "practice"),
    Published((25.0, 0.55, 1.0), 14.0, 0.1, "halves", "common-practice", "the more", "practice"),
)
def test_halves_of_each(row: Published) -> None:
    check(row, own_half_ladles)
