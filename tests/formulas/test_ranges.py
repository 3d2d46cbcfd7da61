"""How a formula refuses a value."""

from __future__ import annotations

import math

import pytest

from builder.formulas.ranges import require, require_above, require_known


@pytest.mark.parametrize("value", [0.0, 5.0, 10.0])
def test_values_inside_and_on_the_limits_pass(value: float) -> None:
    require("height", value, "m", 0.0, 10.0)


@pytest.mark.parametrize("value", [-0.001, 10.001, math.nan, math.inf, -math.inf])
def test_values_outside_are_refused(value: float) -> None:
    with pytest.raises(ValueError, match=r"height is .* it must be 0 to 10 m"):
        require("height", value, "m", 0.0, 10.0)


def test_an_open_range_still_wants_a_finite_number() -> None:
    require("mass", 1e30, "g", 0.0)
    with pytest.raises(ValueError, match="mass is inf g; it must be 0 g or more"):
        require("mass", math.inf, "g", 0.0)


def test_a_share_is_told_without_a_unit() -> None:
    with pytest.raises(ValueError, match=r"^water share is 1\.2; it must be 0 to 0\.98$"):
        require("water share", 1.2, "", 0.0, 0.98)


@pytest.mark.parametrize("value", [0.0, -1.0, math.nan, math.inf])
def test_above_leaves_out_the_floor(value: float) -> None:
    require_above("power", 1e-9, "W", 0.0)
    with pytest.raises(ValueError, match=r"power is .* W; it must be more than 0 W"):
        require_above("power", value, "W", 0.0)


def test_an_unknown_name_is_told_the_known_ones() -> None:
    require_known("gas", "butane", ("propane", "butane"))
    with pytest.raises(ValueError, match="gas 'neon' is not known; known are propane, butane"):
        require_known("gas", "neon", ("propane", "butane"))
