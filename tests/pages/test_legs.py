"""Pages tell each leg of a day, and who goes it."""

from __future__ import annotations

from pathlib import Path

from builder.model.kit import Kit
from builder.pages.figures import figures_of
from builder.pages.trip.day import travel
from builder.pages.trip.people import person_pages
from tests.pages.seen import said
from tests.planning.folders import Record, day, day_trip, hand


def planned(folder: Path, *legs: Record) -> Kit:
    return hand(folder, day_trip(days=[day(travel=list(legs))])).kit()


def way(kit: Kit) -> str:
    return said(travel(figures_of(kit), kit.days[0]))


def test_each_leg_is_told_with_who_goes_it(tmp_path: Path) -> None:
    kit = planned(
        tmp_path,
        {"by": "paddling", "hours": 3},
        {"by": "walking", "hours": 1, "distance": "3 km", "ascent": "100 m", "for": ["Bo"]},
    )
    assert way(kit).startswith("paddling, 3 h; Bo: walking, 1 h, 3 km")
    assert "up 100 m" in way(kit)


def test_who_is_carried_is_told_to_be(tmp_path: Path) -> None:
    kit = planned(
        tmp_path,
        {"by": "cycling", "hours": 4, "for": ["Bo"]},
        {"by": "carried", "hours": 4, "for": ["Ea"]},
    )
    assert way(kit) == "Bo: cycling, 4 h; Ea: carried along, 4 h"


def test_each_page_of_a_person_tells_their_own_legs(tmp_path: Path) -> None:
    kit = planned(
        tmp_path,
        {"by": "paddling", "hours": 3},
        {"by": "carried", "hours": 1, "for": ["Ea"]},
        {"by": "walking", "hours": 1, "for": ["Bo"]},
    )
    ea, bo = ("; ".join(said(fact.value) for fact in page.ways) for page in person_pages(kit, {}))
    assert ea.startswith("paddling, 3 h; carried along, 1 h with ")
    assert bo.startswith("paddling, 3 h; walking, 1 h with ")
