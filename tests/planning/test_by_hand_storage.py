"""Packs that moved house: each place uses its part of the keeping time."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from tests.planning.folders import Record, hand

BERRIES: Record = {
    "id": "berries",
    "food": "berry",
    "method": "dehydrator",
    "done": "2031-01-01",
    "fresh": "1000 g",
    "dried": "235 g",
    "packs": {"count": 4, "in": "jar"},
}
DAY = datetime.timedelta(days=1)


def months_of(folder: Path, kept_at: object) -> float:
    batch = {**BERRIES, "kept_at": kept_at}
    found = hand(folder, batches=[batch]).stock.judged["berries"]
    assert found.months is not None
    return found.months


def test_one_place_is_as_before(tmp_path: Path) -> None:
    # Fruit: 12 months at 15.6 °C; half for each 11.1 K warmer.
    assert months_of(tmp_path, "26.7 degC") == pytest.approx(6.0)


def test_warm_weeks_shorten_the_rest(tmp_path: Path) -> None:
    # 61 days at 26.7 °C use 61 / (6 · 30.4375) = 1/3; two thirds of 12 months are left.
    places = [{"at": "26.7 degC", "until": "2031-03-03"}, {"at": "15.6 degC"}]
    days = (datetime.date(2031, 3, 3) - datetime.date(2031, 1, 1)) / DAY
    month = 365.25 / 12
    used = days / (6 * month)
    expected = days / month + (1 - used) * 12
    assert months_of(tmp_path, places) == pytest.approx(expected, rel=1e-3)


def test_time_may_run_out_in_a_place_before_the_last(tmp_path: Path) -> None:
    places = [{"at": "26.7 degC", "until": "2032-06-01"}, {"at": "-18 degC"}]
    assert months_of(tmp_path, places) == pytest.approx(6.0, rel=1e-3)


def test_a_place_left_before_drying_counts_nothing(tmp_path: Path) -> None:
    places = [{"at": "30 degC", "until": "2030-12-01"}, {"at": "26.7 degC"}]
    assert months_of(tmp_path, places) == pytest.approx(6.0)


@pytest.mark.parametrize(
    ("places", "kind"),
    [
        ([], "empty"),
        ([{"at": "15 degC"}, {"at": "5 degC"}], "missing"),
        ([{"at": "15 degC", "until": "2031-05-01"}], "place-ends"),
        (
            [
                {"at": "15 degC", "until": "2031-05-01"},
                {"at": "5 degC", "until": "2031-04-01"},
                {"at": "15 degC"},
            ],
            "place-order",
        ),
        ([{"at": "15", "until": "2031-05-01"}, {"at": "5 degC"}], "unit-missing"),
    ],
)
def test_places_that_cannot_be_are_told(places: object, kind: str, tmp_path: Path) -> None:
    assert kind in hand(tmp_path, batches=[{**BERRIES, "kept_at": places}]).kinds()
