"""A pressure cooker on paper: how hot it boils, and how short a simmer gets."""

from __future__ import annotations

from pathlib import Path

import pytest
from iapws.iapws97 import _TSat_P

from builder.model.looks import UnderPressure
from tests.planning.folders import GEAR, Record, day, day_trip, food, hand, looks_at, meal_of, uses

TUBER: Record = food(
    "tuber", "vegetable", "raw", "water 79 g, protein 2 g, carbohydrate 18 g", dry_as="potato"
)
COOKER: Record = {"id": "cooker", "name": "Cooker", "holds": "4 l", "mass": "1400 g",
                  "material": "aluminium", "pressure": "0.8 bar"}  # fmt: skip


def looks(
    folder: Path,
    amounts: Record | None = None,
    cooker: Record | None = None,
    height: str = "0 m",
    **simmer: object,
) -> tuple[UnderPressure, ...]:
    lines = uses(**(amounts or {"pulse": "100 g", "oil": "10 g"}))
    names = [line["food"] for line in lines]
    steps = [
        {"do": "boil", "with": names, "water": "500 ml"},
        {"do": "simmer", "minutes": 20, "lid": True, **simmer},
    ]
    recipe = {
        "id": "stew",
        "serves": 2,
        "cook_in": "pot",
        "uses": lines,
        "steps": steps,
        "reach": "74 degC",
    }
    trip = day_trip(
        days=[day({"dinner": {"cook": "stew"}}, camp_altitude=height)],
        stove={"use": "burner", "pots": ["cooker"]},
    )
    gear = {**GEAR, "pots": [cooker or COOKER]}
    kit = hand(folder, trip, [recipe], foods=[TUBER], gear=gear).kit()
    # The plan keeps to open boiling.
    factor = kit.days[0].conditions.time_factor if amounts != {"stew_meat": "100 g"} else 1
    assert meal_of(kit).steps[1].minutes == pytest.approx(20 * factor)
    return looks_at(kit, "under_pressure")


@pytest.mark.parametrize(("height", "outside_hpa"), [("0 m", 1013.25), ("3000 m", 701.085)])
def test_the_lid_holds_its_pressure_above_the_air_outside(
    height: str, outside_hpa: float, tmp_path: Path
) -> None:
    (look,) = looks(tmp_path, height=height)
    boils_c = float(_TSat_P((outside_hpa + 800) / 10_000)) - 273.15
    assert look.boils_c == pytest.approx(boils_c, abs=0.01)
    # Legumes soften ten times as fast for 28 K.
    assert look.minutes == pytest.approx(20 * 10 ** ((99.97 - boils_c) / 28), rel=1e-3)
    low, high = (20 * 10 ** ((99.97 - boils_c) / z) for z in (20, 40))
    assert look.likely_min == pytest.approx((low, high), rel=1e-3)


def test_what_takes_longest_decides(tmp_path: Path) -> None:
    (look,) = looks(tmp_path, {"pulse": "100 g", "tuber": "100 g"})
    boils_c = float(_TSat_P((1013.25 + 800) / 10_000)) - 273.15
    # Potatoes: 41.3 K, a little beyond the usual range.
    slowest = 20 * 10 ** ((99.97 - boils_c) / 41.3)
    assert look.minutes == pytest.approx(slowest, rel=1e-3)
    assert look.likely_min[1] == pytest.approx(slowest, rel=1e-3)


@pytest.mark.parametrize(
    ("amounts", "cooker", "simmer"),
    [
        (None, {**COOKER, "pressure": None}, {}),
        (None, None, {"lid": False}),
        ({"stew_meat": "100 g"}, None, {}),  # goes by its middle
        ({"oil": "100 g"}, None, {}),
    ],
)
def test_no_pressure_no_lid_or_no_plants_no_promise(
    amounts: Record | None, cooker: Record | None, simmer: Record, tmp_path: Path
) -> None:
    assert looks(tmp_path, amounts, cooker, **simmer) == ()
