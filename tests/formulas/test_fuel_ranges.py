"""Fuel really burnt: the ends of the range hold the likely figure, and wind widens gas."""

from __future__ import annotations

import pytest

from builder.formulas.fuel_ranges import LEAST_TIMES, least_burnt_g, most_burnt_g
from builder.formulas.heat import WIND_FACTOR


@pytest.mark.parametrize("burns", LEAST_TIMES)
@pytest.mark.parametrize("wind", WIND_FACTOR)
def test_the_likely_figure_lies_inside(burns: str, wind: str) -> None:
    assert 0.0 < least_burnt_g(100.0, burns, wind) < 100.0 < most_burnt_g(100.0, 0.0, burns, wind)


@pytest.mark.parametrize(
    ("burns", "wind", "low_g", "high_g"),
    [
        ("gas", "sheltered", 170.0, 250.0),
        ("gas", "breezy", 160.0, 290.0),
        ("gas", "windy", 130.0, 400.0),
        ("liquid", "windy", 170.0, 290.0),  # three lightings of 10 g
        ("alcohol", "breezy", 160.0, 300.0),
        ("solid", "sheltered", 160.0, 280.0),
        ("wood", "windy", 100.0, 400.0),
        ("embers", "breezy", 100.0, 300.0),
    ],
)
def test_ends_by_hand(burns: str, wind: str, low_g: float, high_g: float) -> None:
    assert least_burnt_g(200.0, burns, wind) == pytest.approx(low_g)
    assert most_burnt_g(200.0, 3.0, burns, wind) == pytest.approx(high_g)


def test_what_is_refused() -> None:
    with pytest.raises(ValueError, match="likely"):
        least_burnt_g(-1.0, "gas", "windy")
    with pytest.raises(ValueError, match="lightings"):
        most_burnt_g(1.0, -1.0, "gas", "windy")
    with pytest.raises(ValueError, match="coal"):
        most_burnt_g(1.0, 1.0, "coal", "windy")
    with pytest.raises(ValueError, match="gale"):
        least_burnt_g(1.0, "gas", "gale")
