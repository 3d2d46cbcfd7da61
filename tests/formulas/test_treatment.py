"""Treating water: edges, errors, laws."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.treatment import (
    bleach_drops,
    contact_min,
    strict_boil_min,
)

volumes = st.floats(0.0, 20000.0)
strengths = st.one_of(st.floats(0.009, 0.015), st.floats(0.04, 0.10))


@given(volumes, volumes, strengths)
def test_more_water_never_takes_fewer_drops(one: float, other: float, strength: float) -> None:
    less, more = sorted((one, other))
    assert bleach_drops(less, strength) <= bleach_drops(more, strength)


@given(volumes, strengths)
def test_cloudy_water_takes_twice_as_much(volume: float, strength: float) -> None:
    clear, cloudy = (bleach_drops(volume, strength, each) for each in (False, True))
    assert 2 * clear - 1 <= cloudy <= 2 * clear


@pytest.mark.parametrize(
    ("volume", "strength", "drops"),
    [
        (0.0, 0.06, 0),
        (1.0, 0.06, 1),
        (1000.0, 0.04, 2),
        (1000.0, 0.0699, 2),
        (5000.0, 0.0699, 10),
        (5000.0, 0.07, 8),
        (5000.0, 0.10, 8),
        (1000.0, 0.009, 11),
        (1000.0, 0.015, 11),
        (37854.11784, 0.01, 400),
        (37854.11784, 0.0825, 60),
    ],
)
def test_drops(volume: float, strength: float, drops: int) -> None:
    assert bleach_drops(volume, strength) == drops


@pytest.mark.parametrize(
    ("chemical", "water", "cryptosporidium", "minutes"),
    [
        ("chlorine", 20.0, False, 30.0),
        ("chlorine", 10.0, False, 30.0),
        ("chlorine", 9.9, False, 60.0),
        ("iodine", 2.0, False, 60.0),
        ("chlorine", 20.0, True, math.inf),
        ("iodine", 20.0, True, math.inf),
        ("chlorine-dioxide", 20.0, False, 30.0),
        ("chlorine-dioxide", 5.0, False, 30.0),
        ("chlorine-dioxide", 4.9, False, 240.0),
        ("chlorine-dioxide", 20.0, True, 240.0),
    ],
)
def test_waiting(chemical: str, water: float, cryptosporidium: bool, minutes: float) -> None:
    assert contact_min(chemical, water, cryptosporidium) == minutes


@pytest.mark.parametrize(("height", "minutes"), [(0.0, 1.0), (1000.0, 1.0), (1000.1, 3.0)])
def test_boiling_by_the_stricter_rule(height: float, minutes: float) -> None:
    assert strict_boil_min(height) == minutes


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: bleach_drops(-1.0, 0.06), "volume of water is -1 ml"),
        (lambda: bleach_drops(1000.0, 6.0), "strength of the bleach is 6;"),
        (lambda: bleach_drops(1000.0, 0.008), "strength of the bleach is 0.008"),
        (lambda: bleach_drops(1000.0, 0.101), "0.101; it must be 0.009 to 0.1$"),
        (lambda: bleach_drops(1000.0, 0.02), "no table gives drops between 0.015 and 0.04"),
        (lambda: contact_min("silver", 20.0), "chemical 'silver' is not known"),
        (lambda: contact_min("chlorine", -1.0), "water temperature is -1 °C"),
        (lambda: strict_boil_min(12000.0), "altitude is 12000 m"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
