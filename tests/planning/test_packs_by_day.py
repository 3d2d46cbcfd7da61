"""Packs by day: together they are the party's load, and what is eaten is gone."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.planning.folders import Record, day, day_trip, hand, uses

NUTS: Record = {"snacks": [{"eat": "kernel-nut", "each": "50 g"}]}
STEW: Record = {
    "id": "stew", "serves": 2, "cook_in": "pot", "uses": uses(kernel="300 g", oil="20 g"),
    "steps": [{"do": "boil", "with": ["kernel", "oil"], "water": "900 ml"},
              {"do": "simmer", "minutes": 10}],
}  # fmt: skip


def two_days(tmp_path: Path) -> Record:
    meals = {**NUTS, "dinner": [{"cook": "stew"}, {"eat": "hard-cheese", "each": "40 g"}]}
    trip = day_trip(
        days=[
            day(meals),
            day(meals, travel={"by": "walking", "hours": 4}),
            day(NUTS),
        ]
    )
    return {"trip": trip, "recipes": [STEW]}


def test_the_packs_of_all_add_up_to_the_load_of_each_morning(tmp_path: Path) -> None:
    weights = hand(tmp_path, **two_days(tmp_path)).kit().weights
    own_g = 4000.0 + 6000.0
    for number, load_g in enumerate(weights.by_day_g):
        packs_g = sum(person.by_day_g[number] for person in weights.people)
        assert packs_g - own_g == pytest.approx(load_g, abs=1e-6)


def test_no_pack_is_heavier_than_at_its_heaviest(tmp_path: Path) -> None:
    weights = hand(tmp_path, **two_days(tmp_path)).kit().weights
    for person in weights.people:
        assert max(person.by_day_g) <= person.total_g + 1e-6


def test_food_goes_and_its_packet_stays(tmp_path: Path) -> None:
    trip = day_trip(days=[day(NUTS), day(NUTS)], stove=None)
    weights = hand(tmp_path, trip).kit().weights
    first, second = (sum(each.by_day_g[number] for each in weights.people) for number in (0, 1))
    assert first - second == pytest.approx(100.0)
