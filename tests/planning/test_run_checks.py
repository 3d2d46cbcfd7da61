"""What the log put into one run and should not have, told with the batches' names."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from builder.planning.drying import run_problems
from tests.planning.folders import Record, hand

DONE = {"done": "2031-03-14"}
PLANNED = {"planned": "2031-05-14"}
# What 500 g give, about.
DRIED_G = {"leaf": 56, "pulse": 222, "mint": 111, "berry": 125, "trout-cooked": 167,
           "steak-raw": 144, "stew-meat": 204}  # fmt: skip
SHELF = "shelf-dryer"
FREEZE = "home-freeze-dryer"


def batch(food: str, fresh_g: float, when: Record, dryer: str = SHELF, **more: Any) -> Record:
    told = {
        "id": food,
        "food": food,
        "dryer": dryer,
        "run": "march-14",
        "fresh": f"{fresh_g} g",
        "packs": {"count": 2},
    }
    if "done" in when:
        told["dried"] = f"{DRIED_G[food]} g"
    return {**told, **when, **more}


def found(folder: Path, *batches: Record) -> list[tuple[str, str]]:
    read = hand(folder, batches=list(batches))
    assert {each["id"] for each in batches} <= set(read.stock.judged), read.problems
    problems = run_problems(read.content, read.stock)
    return [(each.kind, each.says) for each in problems]


RAW_COLD = {"dryer": FREEZE}


@pytest.mark.parametrize(
    ("one", "other", "done", "planned"),
    [
        (("leaf", {}), ("pulse", {}), "", ""),
        (("leaf", {}), ("mint", {}), "", "no warmth of the air suits both"),
        (("trout-cooked", {}), ("berry", {}), "", "fruit takes the smell"),
        (
            ("steak-raw", RAW_COLD),
            ("leaf", RAW_COLD),
            "raw animal food dries alone",
            "raw animal food dries alone",
        ),
        (("steak-raw", {"heated": {"to": "74 degC", "when": "before"}}), ("leaf", {}), "", ""),
        (("stew-meat", RAW_COLD), ("leaf", RAW_COLD), "", ""),
    ],
)
def test_what_may_not_share_a_run_is_told_with_both_names(
    tmp_path: Path, one: Any, other: Any, done: str, planned: str
) -> None:
    for number, (when, says) in enumerate(((DONE, done), (PLANNED, planned))):
        batches = [batch(food, 500, when, **more) for food, more in (one, other)]
        told = found(tmp_path / str(number), *batches)
        assert [kind for kind, _ in told] == (["run-shared"] if says else [])
        for _, text in told:
            assert f"batches {one[0]} and {other[0]} share the run march-14: " in text
            assert says in text


@pytest.mark.parametrize(
    ("dryer", "fresh_g", "says"),
    [
        (SHELF, 1500, ""),
        (SHELF, 1501, "holds 3002 g fresh (leaf, pulse), and shelf-dryer takes 3000 g"),
        # 2.7 kg lose 2400 g of leaf's water and 1599 g of the pulse's; the ice is 4.5 kg.
        (FREEZE, 2700, ""),
        (FREEZE, 2701, "holds 5402 g fresh (leaf, pulse), and home-freeze-dryer takes 5400 g"),
    ],
)
def test_too_much_for_a_dryer_is_told_with_all_names(
    tmp_path: Path, dryer: str, fresh_g: float, says: str
) -> None:
    told = found(
        tmp_path,
        *(batch(food, fresh_g, PLANNED, dryer) for food in ("leaf", "pulse")),
    )
    assert [kind for kind, _ in told] == (["run-too-full"] if says else [])
    assert all(says in text for _, text in told)


@pytest.mark.parametrize(("fresh_g", "is_told"), [(2500, False), (2510, True)])
def test_more_water_than_a_freeze_dryer_holds_as_ice_is_told(
    tmp_path: Path, fresh_g: float, is_told: bool
) -> None:
    # Leaf is 90 % water and comes out with 2 %: 0.897959 of it is ice, 2 x 2505.7 g are 4.5 kg.
    told = found(
        tmp_path,
        batch("leaf", fresh_g, PLANNED, FREEZE),
        batch("gourd", fresh_g, PLANNED, FREEZE),
    )
    assert (
        any(
            "of water (leaf, gourd), and home-freeze-dryer takes 4500 g of ice" in text
            for _, text in told
        )
        is is_told
    )


def test_batches_of_no_run_share_nothing(tmp_path: Path) -> None:
    loose = [batch(food, 500, PLANNED, run=f"of-{food}") for food in ("leaf", "mint")]
    assert found(tmp_path, *loose) == []
