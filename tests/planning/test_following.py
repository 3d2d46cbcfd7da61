"""Loads that are followed while they dry: what is known of them, and what a new one goes by."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from builder.model.batch import Method
from builder.planning.stock import Followed, Rules, dryables, followed
from tests.planning.folders import Hand, Record, hand, uses


def drying(**more: Any) -> Record:
    """Give a kilogram of leaves in the dryer: 90 % water, so 100 g of solids."""
    return {
        "id": "leaves",
        "food": "leaf",
        "method": "dehydrator",
        "started": "2031-05-01T08:00",
        "fresh": "1000 g",
        **more,
    }


def of(read: Hand) -> Followed:
    (found,) = followed(read.stock)
    return found


def weighed(*told: tuple[str, str]) -> list[Record]:
    return [{"at": at, "mass": mass} for at, mass in told]


def test_only_what_is_in_a_dryer_is_followed_the_longest_there_first(tmp_path: Path) -> None:
    batches = [
        drying(id="second", started="2031-05-01T09:00"),
        drying(id="first"),
        drying(id="out", done="2031-05-02", dried="108 g"),
        {**drying(id="ahead", planned="2031-06-01"), "started": None},
    ]
    told = [{key: value for key, value in each.items() if value is not None} for each in batches]
    read = hand(tmp_path, batches=told)
    assert [each.judged.batch.id for each in followed(read.stock)] == ["first", "second"]


def test_before_the_second_weighing_nobody_knows_when(tmp_path: Path) -> None:
    one = of(hand(tmp_path, batches=[drying(weighings=weighed(("2 h", "700 g")))]))
    assert (one.run, one.look_next_min) == (None, None)
    # Dry at 10 %: 100 g of solids weigh 111.1 g.
    assert one.judged.target_g == pytest.approx(1000 / 9)


def test_two_weighings_tell_when_to_look_next(tmp_path: Path) -> None:
    # Half of the water is gone every two hours: 900, 450, 225 g.
    batch = drying(weighings=weighed(("2 h", "550 g"), ("4 h", "325 g")))
    found = of(hand(tmp_path, batches=[batch]))
    assert found.run is not None and found.look_next_min is not None
    # To 1/9 g of water for each gram of solids out of 9: 81 times less, 6.34 halvings.
    assert found.run.dry_after_min == pytest.approx(120 * 6.3399, abs=0.5)
    third = 240 + (found.run.dry_after_min - 240) / 3
    assert found.look_next_min == pytest.approx(max(found.run.earliest_min, third))


def test_what_is_dry_need_not_be_looked_at(tmp_path: Path) -> None:
    batch = drying(weighings=weighed(("2 h", "550 g"), ("14 h", "105 g")), tests=["snap"])
    found = of(hand(tmp_path, batches=[batch]))
    assert found.judged.verdict == "dry"
    assert found.look_next_min is None


def rules_of(read: Hand, food: str) -> Mapping[Method, Rules]:
    (found,) = (each for each in dryables(read.content, read.stock) if each.substance.id == food)
    return found.rules


RAW = {"id": "raw", "serves": 1, "cook_in": "pot", "reach": "74 degC",
       "uses": uses(hen_raw="10 g freeze-dryer", mince_raw="10 g freeze-dryer",
                    steak_raw="10 g freeze-dryer", berry="10 g sun", kernel="90 g"),
       "steps": [{"do": "boil", "with": ["hen-raw", "mince-raw", "steak-raw", "berry", "kernel"],
                  "water": "300 ml"}, {"do": "simmer", "minutes": 9}]}  # fmt: skip


@pytest.mark.parametrize(
    ("food", "method", "never", "once_dry"),
    [
        ("berry", "dehydrator", "", ""),
        ("hen-raw", "dehydrator", "throw-out", ""),
        ("mince-raw", "oven", "throw-out", ""),
        ("steak-raw", "sun", "throw-out", ""),
        ("steak-raw", "dehydrator", "", "heat"),
        ("hen-raw", "freeze-dryer", "", "cook"),
    ],
)
def test_each_way_tells_what_never_gets_good_and_what_is_left_to_do(
    food: str, method: Method, never: str, once_dry: str, tmp_path: Path
) -> None:
    rules = rules_of(hand(tmp_path, recipes=[RAW]), food)[method]
    assert (rules.never, rules.once_dry) == (never, once_dry)


def test_limits_are_those_of_food_and_method(tmp_path: Path) -> None:
    rules = rules_of(hand(tmp_path, recipes=[RAW]), "berry")
    assert {method: each.limit_share for method, each in rules.items()} == {
        "dehydrator": 0.20, "oven": 0.20, "freeze-dryer": 0.05, "sun": 0.20,
    }  # fmt: skip
    # 20 g of solids in 100 g, of which half at least: min(0.5, 1 - 4 · 1.5 / 20) = 0.5.
    assert rules["dehydrator"].lightest_share == pytest.approx(0.10)
    assert rules["freeze-dryer"].lightest_share == pytest.approx(0.10 / 0.98)


def test_what_is_dry_enough_as_it_is_and_what_is_bought_is_not_offered(tmp_path: Path) -> None:
    bought = {
        "id": "nuts",
        "food": "kernel-nut",
        "method": "bought",
        "packs": {"count": 3, "of": "50 g"},
    }
    read = hand(tmp_path, recipes=[RAW], batches=[bought, drying()])
    names = [each.substance.id for each in dryables(read.content, read.stock)]
    assert names == ["berry", "hen-raw", "leaf", "mince-raw", "steak-raw"]


def test_own_batches_draw_the_water_of_what_goes_in_next(tmp_path: Path) -> None:
    listed = rules_of(hand(tmp_path / "none", batches=[drying()]), "leaf")["dehydrator"]
    assert listed.water_share == pytest.approx(0.90)
    # Own leaves gave 125 g where the table has 1000 · 0.1 / 0.9 = 111.1 g, at 10 % left: drawn to
    # exp((2 ln 0.1111 + ln 0.125) / 3) = 0.11556, that is 104.0 g of solids in a kilogram.
    done = drying(id="own", done="2031-05-02", dried="125 g", tests=["snap"])
    own = rules_of(hand(tmp_path / "own", batches=[drying(), done]), "leaf")["dehydrator"]
    assert own.water_share == pytest.approx(0.8960, abs=5e-5)
