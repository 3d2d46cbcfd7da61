"""Planned weights are drawn towards one's own batches, worked by hand."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from builder.planning.batches.judging import Judged
from tests.planning.folders import Record, hand

# Berries: 80 % water, 20 % of it left once dried: the table has 0.2 / 0.8 = 0.25 of the fresh.
TABLE = 0.25


def done(name: str, fresh_g: float, dried_g: float, **more: Any) -> Record:
    batch = {"id": name, "food": "berry", "method": "dehydrator", "done": "2031-01-01"}
    weights = {"fresh": f"{fresh_g} g", "dried": f"{dried_g} g", "packs": {"count": 1}}
    return {**batch, **weights, **more}


PLANNED: Record = {"id": "next", "food": "berry", "method": "dehydrator", "planned": "2031-03-01",
                   "fresh": "2000 g", "packs": {"count": 4}}  # fmt: skip


def next_of(tmp_path: Path, *batches: Record, planned: Record = PLANNED) -> Judged:
    return hand(tmp_path, batches=[planned, *batches]).stock.judged["next"]


def test_without_a_batch_of_ones_own_the_table_stands(tmp_path: Path) -> None:
    found = next_of(tmp_path)
    assert found.learned is None
    assert found.dried_g == pytest.approx(2000 * TABLE)


def test_one_batch_draws_it_by_a_third(tmp_path: Path) -> None:
    found = next_of(tmp_path, done("one", 1000, 240))
    # exp((2 ln 0.25 + ln 0.24) / 3) = (0.0625 * 0.24) ^ (1/3) = 0.246621
    assert found.dried_g == pytest.approx(2000 * 0.2466212, abs=1e-3)
    assert found.learned and (found.learned.count, found.learned.batches) == (1, ("one",))
    assert (found.learned.table_ratio, found.learned.own_ratio) == pytest.approx((0.25, 0.24))
    # How dry it is to be stays as usual; so the fresh food counts as a little wetter.
    assert found.residual_share == pytest.approx(0.20)
    assert found.water_share == pytest.approx(1 - 0.8 * 0.2466212, abs=1e-6)


def test_two_batches_draw_it_by_half(tmp_path: Path) -> None:
    found = next_of(tmp_path, done("one", 1000, 240), done("two", 1000, 230))
    # (0.0625 * 0.24 * 0.23) ^ (1/4) = 0.242357
    assert found.dried_g == pytest.approx(2000 * 0.2423566, abs=1e-3)


@pytest.mark.parametrize(
    "other",
    [
        done("other", 1000, 240, method="freeze-dryer"),  # dried another way
        done("other", 1000, 300, food="soft-fruit"),  # another food
        done("other", 1000, 500),  # came out wet: 60 % moisture
        {**PLANNED, "id": "other"},  # nobody weighed it yet
    ],
    ids=["another-way", "another-food", "wet", "planned"],
)
def test_what_teaches_nothing_of_it_changes_nothing(tmp_path: Path, other: Record) -> None:
    found = next_of(tmp_path, other)
    assert found.learned is None
    assert found.dried_g == pytest.approx(2000 * TABLE)


def test_a_weighed_batch_keeps_its_weighings(tmp_path: Path) -> None:
    stock = hand(tmp_path, batches=[done("one", 1000, 240), done("two", 2000, 460)]).stock
    assert stock.judged["two"].dried_g == 460
    assert stock.judged["two"].learned is None


def test_the_log_of_a_kit_says_what_it_rests_on(tmp_path: Path) -> None:
    from builder.planning.stock.kit_batches import _notes
    from builder.speech import speech_of

    found = next_of(tmp_path, done("one", 1000, 240))
    assert (
        "1 batch of your own moves its planned weight: 1 kg fresh gives 247 g dried, where the "
        "table has 250 g and yours gave 240 g."
    ) in list(_notes(found, speech_of("en")))
