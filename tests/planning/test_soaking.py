"""Soaking on paper: usual minutes, uptake, standing, and a bottle on the way."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.looks import Soaking
from tests.planning.folders import Record, day, day_trip, food, hand, looks_at, uses

CAP: Record = food(
    "cap", "vegetable", "raw", "water 92 g, protein 3 g, carbohydrate 4 g", dry_as="mushroom"
)
SHOP: Record = food("shop-leaf", "vegetable", "dried", "water 5 g, carbohydrate 80 g, protein 9 g")
WALK: Record = {"by": "walking", "hours": 4, "distance": "12 km"}


def soaked(
    folder: Path,
    meal: str = "dinner",
    hot: bool = False,
    water: str = "auto",
    cooked: bool = True,
    amounts: Record | None = None,
    minutes: float = 20,
    **changes: object,
) -> tuple[Soaking, ...]:
    """Give the looks at a recipe that soaks, and boils afterwards where it is cooked."""
    lines = uses(**(amounts or {"leaf": "20 g dehydrator"}))
    names = [line["food"] for line in lines]
    steps: list[Record] = [{"do": "soak", "with": names, "water": water, "minutes": minutes}]
    if hot:
        steps[0]["hot"] = True
    if cooked:
        steps.append({"do": "boil", "with": names, "water": "200 ml"})
    recipe = {
        "id": "soup",
        "serves": 2,
        "cook_in": "pot" if cooked or hot else "none",
        "uses": lines,
        "steps": steps,
        "reach": "74 degC",
    }
    trip = day_trip(days=[day({meal: {"cook": "soup"}}, **changes)])
    kit = hand(folder, trip, [recipe], foods=[CAP, SHOP]).kit()
    return looks_at(kit, "soaking")


def test_the_slowest_food_tells_the_usual_minutes(tmp_path: Path) -> None:
    amounts = {"leaf": "20 g dehydrator", "cap": "10 g oven", "berry": "10 g freeze-dryer"}
    (look,) = soaked(tmp_path, amounts=amounts)
    # Mushrooms soak 2 to 3 h in cold water.
    assert (look.slowest, look.usual_min) == ("cap, oven-dried", (120, 180))


@pytest.mark.parametrize(
    ("told", "hot", "usual"),
    [
        ("20 g dehydrator", False, (30, 120)),
        ("20 g dehydrator", True, (30, 90)),
        ("20 g freeze-dryer", False, (5, 30)),
        ("20 g freeze-dryer", True, (2, 10)),
    ],
)
def test_warm_water_and_freeze_drying_are_quicker(
    told: str, hot: bool, usual: tuple[float, float], tmp_path: Path
) -> None:
    (look,) = soaked(tmp_path, hot=hot, amounts={"leaf": told})
    assert look.usual_min == usual


@pytest.mark.parametrize("amounts", [{"berry": "20 g oven"}, {"shop_leaf": "20 g"}])
def test_what_nobody_measured_is_left_open(amounts: Record, tmp_path: Path) -> None:
    (look,) = soaked(tmp_path, water="100 ml", amounts=amounts)
    assert (look.slowest, look.usual_min, look.uptake_ml) == ("", None, None)


def test_a_vegetable_takes_up_six_tenths_of_what_it_lost(tmp_path: Path) -> None:
    (look,) = soaked(tmp_path)
    # Water 90 %, dried to 10 %: each gram lost 0.9 / 0.1 - 1 = 8 g.
    # A quarter more than it takes up is poured.
    assert look.uptake_ml == pytest.approx((0.6 * 160, 0.75 * 160))


def test_nothing_dried_is_no_soaking(tmp_path: Path) -> None:
    assert soaked(tmp_path, water="100 ml", amounts={"curd": "50 g"}) == ()


@pytest.mark.parametrize(
    ("high", "hours"), [("20 degC", 2.0), ("33 degC", 1.0), ("4 degC", None), ("-5 degC", None)]
)
def test_wet_food_stands_two_hours_one_in_the_heat(
    high: str, hours: float | None, tmp_path: Path
) -> None:
    (look,) = soaked(tmp_path, air={"low": "-9 degC", "high": high})
    assert look.stands_h == hours


@pytest.mark.parametrize(
    ("changes", "in_bottle"),
    [
        ({"meal": "lunch", "cooked": False, "travel": WALK}, True),
        ({"meal": "dinner", "travel": WALK}, True),  # 20 min are less than it usually takes
        ({"meal": "breakfast", "travel": WALK}, False),
        ({"meal": "lunch", "cooked": False}, False),  # nobody walks
        ({"meal": "dinner", "travel": WALK, "hot": True}, False),
        ({"meal": "dinner", "travel": WALK, "amounts": {"shop_leaf": "9 g"},
          "water": "90 ml"}, False),
        ({"meal": "dinner", "travel": WALK, "amounts": {
            "leaf": "20 g dehydrator", "hen_raw": "50 g freeze-dryer"}}, False),
        ({"meal": "lunch", "cooked": False, "travel": WALK,
          "air": {"low": "-9 degC", "high": "1 degC"}}, False),
    ],
)  # fmt: skip
def test_a_bottle_begins_on_the_way_where_that_helps_and_nothing_is_raw(
    changes: Record, in_bottle: bool, tmp_path: Path
) -> None:
    (look,) = soaked(tmp_path, **changes)
    assert look.in_bottle is in_bottle


@pytest.mark.parametrize(
    ("changes", "overnight", "too_long"),
    [
        ({}, True, False),  # a raw leaf that is boiled
        ({"minutes": 240}, True, False),
        ({"cooked": False, "minutes": 120}, False, False),
        ({"cooked": False, "minutes": 121}, False, True),
        ({"minutes": 61, "air": {"low": "9 degC", "high": "33 degC"},
          "amounts": {"pulse": "20 g oven"}}, False, True),
        ({"minutes": 61, "amounts": {"pulse": "20 g oven"}}, False, False),
        ({"minutes": 240, "air": {"low": "-1 degC", "high": "4 degC"},
          "amounts": {"pulse": "20 g oven"}}, False, False),
        ({"amounts": {"leaf": "20 g oven", "lean_meat": "20 g oven"}}, False, False),
    ],
)  # fmt: skip
def test_a_soak_stands_overnight_or_too_long_but_never_both(
    changes: Record, overnight: bool, too_long: bool, tmp_path: Path
) -> None:
    (look,) = soaked(tmp_path, travel=WALK, **changes)
    assert (look.overnight, look.too_long) == (overnight, too_long)
    assert not (too_long and look.in_bottle)
