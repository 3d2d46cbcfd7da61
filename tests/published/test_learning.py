"""What earlier trips teach, by the rule worked on paper."""

from __future__ import annotations

from builder.formulas.learning import learned_factor

from .published import Published, check, published


def _learned(*used_ratio: float) -> float:
    """Factor of some trips."""
    return learned_factor(used_ratio)


# The rule by hand: 1.2^(1/3), (1.2 * 1.3)^(1/4), and the bounds.
@published(
    Published((1.2,), 1.0626586, 1e-6, "-", "common-practice", "one trip", "calculated"),
    Published((1.2, 1.3), 1.1175872, 1e-6, "-", "common-practice", "two trips", "calculated"),
    Published((0.2,), 0.7, 1e-12, "-", "common-practice", "the least", "calculated"),
    Published((5.0,), 1.5, 1e-12, "-", "common-practice", "the most", "calculated"),
)
def test_learned(row: Published) -> None:
    check(row, _learned)
