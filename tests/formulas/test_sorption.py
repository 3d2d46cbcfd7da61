"""Sorption isotherms: edges, errors, laws."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.sorption import (
    GROUPS,
    can_grow,
    gab_water_activity,
    gab_water_per_solids,
    water_activity_of,
)

monolayers = st.floats(0.02, 0.3)
cs = st.floats(0.2, 60.0)
ks = st.floats(0.5, 1.0)
activities = st.floats(0.0, 0.95)


@given(activities, monolayers, cs, ks)
def test_the_inverse_gives_the_water_activity_back(
    activity: float, monolayer: float, c: float, k: float
) -> None:
    water = gab_water_per_solids(activity, monolayer, c, k)
    assert gab_water_activity(water, monolayer, c, k) == pytest.approx(activity, abs=1e-9)


@pytest.mark.parametrize("c", [0.5, 2.0, 5.0, 30.0])
def test_the_wettest_air_of_the_isotherm_can_be_found_again(c: float) -> None:
    wettest = gab_water_per_solids(0.95, 0.1, c, 0.9)
    assert gab_water_activity(wettest, 0.1, c, 0.9) == pytest.approx(0.95, abs=1e-12)


@pytest.mark.parametrize("c", [0.5, 1.0, 2.0, 3.0])
def test_the_inverse_holds_where_its_terms_vanish(c: float) -> None:
    """At C = 1 the quadratic is linear, at C = 2 its middle term is alone."""
    water = gab_water_per_solids(0.6, 0.08, c, 0.9)
    assert gab_water_activity(water, 0.08, c, 0.9) == pytest.approx(0.6, abs=1e-12)


@given(activities, activities, monolayers, cs, ks)
def test_wetter_air_never_means_drier_food(
    one: float, other: float, monolayer: float, c: float, k: float
) -> None:
    drier, wetter = sorted((one, other))
    assert gab_water_per_solids(drier, monolayer, c, k) <= gab_water_per_solids(
        wetter, monolayer, c, k
    )


@given(st.sampled_from(sorted(GROUPS)), st.floats(0.0, 0.2), st.floats(0.0, 0.2))
def test_wetter_food_never_has_less_water_activity(group: str, one: float, other: float) -> None:
    drier, wetter = sorted((one, other))
    try:
        high = water_activity_of(group, wetter)
    except ValueError:
        return
    assert water_activity_of(group, drier) <= high


@pytest.mark.parametrize("group", sorted(GROUPS))
def test_crisp_food_is_safe_from_moulds_and_wet_food_is_not(group: str) -> None:
    assert can_grow(water_activity_of(group, 0.05)) == ()
    assert "dry-moulds" in can_grow(water_activity_of(group, 0.20))


@pytest.mark.parametrize(
    ("activity", "grows"),
    [
        (0.0, ()),
        (0.599, ()),
        (0.60, ("dry-moulds",)),
        (0.699, ("dry-moulds",)),
        (0.70, ("dry-moulds", "moulds")),
        (0.849, ("dry-moulds", "moulds")),
        (0.85, ("dry-moulds", "moulds", "staphylococcus")),
        (1.0, ("dry-moulds", "moulds", "staphylococcus")),
    ],
)
def test_what_can_grow(activity: float, grows: tuple[str, ...]) -> None:
    assert can_grow(activity) == grows


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: gab_water_per_solids(0.96, 0.1, 5.0, 0.9), "water activity is 0.96"),
        (lambda: gab_water_per_solids(-0.1, 0.1, 5.0, 0.9), "water activity is -0.1"),
        (lambda: gab_water_per_solids(0.9, 0.0, 5.0, 0.9), "water of the first layer is 0"),
        (lambda: gab_water_per_solids(0.9, 0.1, 0.0, 0.9), "C of the isotherm is 0"),
        (lambda: gab_water_per_solids(0.9, 0.1, 5.0, 0.0), "K of the isotherm is 0"),
        (lambda: gab_water_per_solids(0.9, 0.1, 5.0, 1.2), "K times the water activity is 1.08"),
        (
            lambda: gab_water_per_solids(0.5, 0.1, 5.0, 2.0),
            "it must be less than 1 for this isotherm$",
        ),
        (lambda: gab_water_activity(-0.1, 0.1, 5.0, 0.9), "gram of solids is -0.1"),
        (lambda: gab_water_activity(9.0, 0.1, 5.0, 0.9), "wetter than the isotherm reaches"),
        (lambda: gab_water_activity(0.1, 0.1, 0.0, 0.9), "C of the isotherm is 0"),
        (lambda: water_activity_of("sugar", 0.1), "^group of foods 'sugar' is not known; known"),
        (lambda: water_activity_of("lean-meat", 0.7), "wetter than the isotherm reaches"),
        (lambda: can_grow(1.1), "water activity is 1.1"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
