"""Taking water up again: edges, errors, laws."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import strategies as st

from builder.formulas.rehydration import (
    SOAK_MIN,
    auto_water_ml,
    soak_range_min,
    standing_hours,
    taken_up_ml,
    takes_up_share,
)

times = st.floats(0.0, 2000.0)
waters = st.floats(0.0, 100.0)


@pytest.mark.parametrize(
    ("kind", "share"),
    [
        ("grain", 1.0), ("legume", 0.7), ("vegetable", 0.6), ("meat", 0.5), ("poultry", 0.5),
        ("fish", 0.5), ("fruit", 0.4), ("meal", 1.0), ("egg", 1.0), ("herb", 1.0),
    ],
)  # fmt: skip
def test_uptake_goes_by_kind_in_warm_air_and_is_alike_for_freeze_dried(
    kind: str, share: float
) -> None:
    for method in ("dehydrator", "oven", "sun"):
        assert takes_up_share(method, kind) == share
    assert takes_up_share("freeze-dryer", kind) == 0.9


@pytest.mark.parametrize(
    ("share", "taken", "poured"),
    [(0.2, 100.0, 125.0), (0.6, 300.0, 375.0), (0.8, 400.0, 500.0), (0.9, 450.0, 500.0),
     (1.0, 500.0, 500.0), (0.0, 0.0, 0.0)],
)  # fmt: skip
def test_a_quarter_more_is_poured_than_is_taken_up(
    share: float, taken: float, poured: float
) -> None:
    assert taken_up_ml(500.0, share) == pytest.approx(taken)
    assert auto_water_ml(500.0, share) == pytest.approx(poured)


@pytest.mark.parametrize(("kind", "water"), sorted(SOAK_MIN))
def test_soaking_ranges_are_in_order(kind: str, water: str) -> None:
    fewest, most = soak_range_min(kind, water)
    assert 0.0 < fewest < most


@pytest.mark.parametrize(
    ("kind", "water", "span"),
    [
        ("mushroom", "boiling", (10.0, 30.0)),
        ("mushroom", "cold", (120.0, 180.0)),
        ("freeze-dried", "boiling", (2.0, 10.0)),
        ("freeze-dried", "cold", (5.0, 30.0)),
    ],
)
def test_ranges_from_memory_do_not_change_unseen(
    kind: str, water: str, span: tuple[float, float]
) -> None:
    """Mushrooms 10 min at 100 degC, 3 h at 30; freeze-dried food 2 to 10 min hot."""
    assert soak_range_min(kind, water) == span


@pytest.mark.parametrize("kind", ["vegetable", "mushroom", "freeze-dried"])
def test_boiling_water_is_not_slower_than_cold(kind: str) -> None:
    boiling, cold = soak_range_min(kind, "boiling"), soak_range_min(kind, "cold")
    assert boiling[0] <= cold[0]
    assert boiling[1] < cold[1]


@pytest.mark.parametrize(
    ("food", "air", "hours"),
    [
        (20.0, 20.0, 2.0),
        (20.0, 32.2, 2.0),
        (20.0, 32.3, 1.0),
        (4.4, 35.0, math.inf),
        (4.41, 35.0, 1.0),
        (59.9, 20.0, 2.0),
        (60.0, 20.0, math.inf),
        (0.0, -10.0, math.inf),
    ],
)
def test_how_long_it_may_stand(food: float, air: float, hours: float) -> None:
    assert standing_hours(food, air) == hours


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: taken_up_ml(-1.0, 0.5), "water that drying took out is -1 ml"),
        (lambda: taken_up_ml(1.0, 1.5), r"share taken up is 1\.5"),
        (lambda: auto_water_ml(-1.0, 0.5), "water that drying took out is -1 ml"),
        (lambda: auto_water_ml(1.0, -0.5), r"share taken up is -0\.5"),
        (lambda: soak_range_min("fruit", "cold"), "soaking 'fruit in cold water' is not known"),
        (lambda: standing_hours(101.0, 20.0), "temperature of the food is 101 °C"),
        (lambda: standing_hours(20.0, 61.0), "air temperature is 61 °C"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
