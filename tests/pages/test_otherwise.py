"""What a page carries of a trip that may be otherwise, worked out by a reader of its own."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from builder.formulas.declaring import FORMULAS
from builder.formulas.expression import evaluate, names_in
from builder.model.kit import Kit
from builder.pages.trip.afterwards.otherwise import OtherwisePage, otherwise_page
from builder.planning.public import without_people
from tests.planning.folders import Record, day, day_trip, hand, uses
from tests.planning.test_by_hand_parted import CHILI, FOODS, trip

POT: Record = {
    "id": "kernel-pot", "meal": ["dinner"], "serves": 2, "cook_in": "pot",
    "uses": uses(kernel="200 g", oil="20 g"),
    "steps": [{"do": "boil", "with": ["kernel", "oil"], "water": "600 ml"}],
}  # fmt: skip
NUTS: Record = {"eat": "kernel-nut", "each": "50 g"}
MEALS: Record = {"dinner": [{"cook": "kernel-pot"}], "snacks": [{**NUTS, "for": ["Ea"]}]}
SHARED = {each.id: each for each in FORMULAS.values()}


def planned(folder: Path, **more: object) -> Kit:
    two = [day(MEALS), day(MEALS, camp_altitude="1500 m", air={"low": "2 degC", "high": "18 degC"})]
    return hand(folder, day_trip(days=two, **more), [POT]).kit()


def page_of(kit: Kit) -> OtherwisePage:
    page = otherwise_page(kit)
    assert page is not None
    return page


def worked(page: OtherwisePage, changed: Mapping[str, float]) -> dict[str, float | None]:
    """Work out what the page tells, some leaves changed; None is for what cannot follow."""
    formulas, rows, told = (page.figures[each] for each in ("formulas", "rows", "told"))
    assert isinstance(formulas, list) and isinstance(rows, list) and isinstance(told, dict)
    values: list[float | None] = []
    for here, (first, second, *guards) in enumerate(rows):

        def one(given: object, here: int = here) -> object:
            if isinstance(given, list):
                parts = tuple(map(one, given))
                return None if None in parts else parts
            return values[here - int(given)] if isinstance(given, str) else given

        if isinstance(first, str):
            values.append(changed.get(first, second))
            continue
        shared = SHARED.get(formulas[first])
        expression = shared.expression if shared else formulas[first]
        fixed = {name: each.value for name, each in shared.constants.items()} if shared else {}
        names = [name for name in names_in(expression) if name not in fixed]
        given = {name: one(each) for name, each in zip(names, second, strict=True)}
        held = one(guards[0]) if guards else (1.0,)
        turned = None in given.values() or held is None or set(held) != {1.0}  # type: ignore[call-overload]
        numbers: Any = {**fixed, **given}
        worth = None if turned else evaluate(expression, numbers)
        assert not isinstance(worth, tuple)
        values.append(worth)
    return {name: values[place] for name, place in told.items()}


def keys(page: OtherwisePage, name: str) -> list[str]:
    """Give the keys of those whose meal it is, and how many they are."""
    eaters = page.figures["eaters"]
    assert isinstance(eaters, dict)
    place = [each.name for each in page.people].index(name)
    return [key for key, who in eaters.items() if place in who]


def test_as_planned_it_comes_to_the_plan(tmp_path: Path) -> None:
    kit = planned(tmp_path)
    told = worked(page_of(kit), {})
    for place, of in enumerate(kit.days):
        assert told[f"days.{place}.water.total_ml"] == pytest.approx(of.water.total_ml, rel=1e-12)
        assert told[f"days.{place}.fuel_g"] == pytest.approx(of.fuel.fuel_g, rel=1e-12)
        assert told[f"days.{place}.meals.0.minutes"] == pytest.approx(of.meals[0].minutes)
    assert all(told[name] == 1 for name in told if name.startswith(("watch.", "lasts.")))


def test_who_stays_away_neither_eats_nor_drinks(tmp_path: Path) -> None:
    kit = planned(tmp_path)
    page = page_of(kit)
    ea = next(each for each in page.people if each.name == "Ea")
    eats = {key: 0.0 if "Bo" not in _names(page, key) else 1.0 for key in keys(page, "Ea")}
    told = worked(page, {ea.key: 0.0, **eats})
    # The pot for one of two; the nuts are hers alone.
    assert told["days.0.meals.0.mass_g"] == pytest.approx(110)
    assert told["days.0.meals.0.water_ml"] == pytest.approx(300)
    assert told["days.0.meals.1.mass_g"] == 0
    (bo,) = [each for each in kit.days[0].people if each.name == "Bo"]
    assert told["days.0.water.drinking_ml"] == pytest.approx(bo.to_drink_ml)


def _names(page: OtherwisePage, key: str) -> list[str]:
    eaters = page.figures["eaters"]
    assert isinstance(eaters, dict)
    return [page.people[place].name for place in eaters[key]]


def test_what_others_drink_cannot_follow_and_their_dinner_does(tmp_path: Path) -> None:
    page = page_of(planned(tmp_path))
    (dinner,) = [key for key in keys(page, "Bo") if key in keys(page, "Ea")][:1]
    told = worked(page, {"others": 1.0, dinner: 3.0})
    assert told["days.0.meals.0.mass_g"] == pytest.approx(330)
    assert told["days.0.water.drinking_ml"] is None and told["days.0.water.total_ml"] is None


def test_a_parted_pot_waits_for_a_new_build(tmp_path: Path) -> None:
    kit = hand(tmp_path, trip([], ["vegetarian"]), [CHILI], foods=FOODS).kit()
    assert any(meal.parting for meal in kit.days[0].meals)
    page = page_of(kit)
    assert None not in worked(page, {}).values()
    told = worked(page, {page.people[0].key: 0.0})
    assert told["days.0.meals.0.mass_g"] is None and told["days.0.fuel_g"] is None


def test_what_is_changed_is_known_by_where_it_was_told(tmp_path: Path) -> None:
    page = page_of(planned(tmp_path))
    height, coldest, _, wind = page.groups
    assert [each.label for each in height.controls] == ["Day\u00a01", "Day\u00a02"]
    assert all("trips/hand.yaml:" in each.key for group in page.groups for each in group.controls)
    told = worked(page, {height.controls[1].key: 2500.0, wind.controls[0].key: 0.5})
    plan = worked(page, {})
    assert told["days.1.meals.0.minutes"] != plan["days.1.meals.0.minutes"]
    assert told["days.0.fuel_g"] != plan["days.0.fuel_g"]
    watched = {each.figure: each.says for each in page.watched}
    cold = worked(page, {coldest.controls[0].key: -1.0})
    assert [watched[name] for name, value in cold.items() if name in watched and value == 0] == [
        "Danger: Sleep with the filter (Day\u00a01)."
    ]


def test_fuel_that_is_left_is_counted_from_the_day_on(tmp_path: Path) -> None:
    kit = planned(tmp_path)
    page = page_of(kit)
    assert page.fuel and kit.fuels
    burnt_g = [float(each.fuel.fuel_g) for each in kit.days]
    short = {page.fuel.key: burnt_g[1] - 1, page.from_days[0].value: 0.0}
    told = worked(page, short)
    assert told["left.0"] == pytest.approx(burnt_g[1] - 1)
    assert told["left.1"] == pytest.approx(-1)
    assert (told["lasts.0"], told["lasts.1"]) == (1, 0)


def test_a_kit_for_everybody_carries_none_of_it(tmp_path: Path) -> None:
    assert otherwise_page(without_people(planned(tmp_path))) is None
