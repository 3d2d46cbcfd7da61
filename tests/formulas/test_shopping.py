"""What must be bought for what is eaten."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.shopping import as_bought_g


@given(st.floats(0, 1e5), st.floats(0, 0.95))
def test_what_is_left_when_the_refuse_is_off_is_what_was_wanted(
    edible_g: float, refuse_share: float
) -> None:
    bought_g = as_bought_g(edible_g, refuse_share)
    assert bought_g * (1 - refuse_share) == pytest.approx(edible_g, rel=1e-12, abs=1e-9)
    assert bought_g >= edible_g


def test_food_without_refuse_is_bought_as_it_is_eaten() -> None:
    assert as_bought_g(412.5, 0.0) == 412.5


@pytest.mark.parametrize(
    ("edible_g", "refuse_share", "says"),
    [
        (-0.1, 0.1, "edible mass is -0.1 g; it must be 0 g or more"),
        (100.0, -0.01, "refuse is -0.01; it must be 0 to 0.95"),
        (100.0, 0.951, "refuse is 0.951; it must be 0 to 0.95"),
    ],
)
def test_what_cannot_be_is_refused(edible_g: float, refuse_share: float, says: str) -> None:
    with pytest.raises(ValueError, match=f"^{says}$"):
        as_bought_g(edible_g, refuse_share)
