"""What somebody must not eat is found on every plate, their own and the others'."""

from __future__ import annotations

from pathlib import Path

from builder.model.kit import Refused
from tests.planning.folders import day, day_trip, hand


def party(*avoids: str) -> list[dict[str, object]]:
    return [
        {"name": "Ea", "carries_to": "12 kg", "avoids": list(avoids)},
        {"name": "Bo", "carries_to": "18 kg"},
    ]


def test_what_others_eat_is_told_too(tmp_path: Path) -> None:
    meals = {
        "snacks": [
            {"eat": "kernel-nut", "each": "50 g", "for": ["Bo"]},
            {"eat": "hard-cheese", "each": "40 g"},
        ]
    }
    trip = day_trip(party=party("nut"), days=[day(meals), day(meals)])
    ea, bo = hand(tmp_path, trip).kit().party
    assert ea.refused == (Refused(1, 0, "kernel-nut", False), Refused(2, 0, "kernel-nut", False))
    assert bo.refused == ()


def test_what_is_on_their_own_plate_is_marked(tmp_path: Path) -> None:
    meals = {"snacks": [{"eat": "hard-cheese", "each": "40 g"}]}
    ea, _ = hand(tmp_path, day_trip(party=party("milk"), days=[day(meals)])).kit().party
    assert ea.refused == (Refused(1, 0, "hard-cheese", True),)


def test_nothing_is_refused_where_nothing_is_avoided(tmp_path: Path) -> None:
    ea, _ = hand(tmp_path, day_trip(party=party())).kit().party
    assert ea.refused == ()
