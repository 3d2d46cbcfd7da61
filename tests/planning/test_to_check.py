"""What is planned to be checked alone tells the same problems and cautions as a whole kit."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.content import Content
from builder.model.figure import Figure, named, untraced
from builder.model.kit import Kit
from builder.model.on_asking import OnAsking
from builder.model.trip import Trip
from builder.pages.trip.origins.kit_json import kit_data
from builder.planning.after import review_problems
from builder.planning.kit import plan_trip
from builder.planning.menu import menu_problems
from builder.planning.stock import Stock, check
from builder.problems import Problem, ProblemsFound, errors
from builder.reading.folder import Layer, read_folder

from .every_caution import EVERY
from .folders import day, day_trip, hand
from .test_after import POT
from .test_after import trip as trip_of_a_day

REPO = Path(__file__).parents[2]
# Far more than was planned, and a dish that the trip does not eat.
REVIEW = {"fuel_used": "9 kg", "wood_used": "1 kg", "took": [{"recipe": "stew", "minutes": 900}]}


def planned(trip: Trip, content: Content, stock: Stock) -> tuple[Kit, Kit]:
    """Plan a trip whole, and as `tripkit check` does."""
    with untraced():
        quick = plan_trip(trip, content, stock, to_check=True)
    return plan_trip(trip, content, stock), quick


def told(trip: Trip, kit: Kit, content: Content) -> list[Problem]:
    return [*menu_problems(trip, kit, content), *review_problems(trip, kit)]


@pytest.mark.parametrize("name", sorted(EVERY))
def test_the_same_cautions_with_the_same_words(tmp_path: Path, name: str) -> None:
    shown = EVERY[name]
    given = hand(tmp_path, foods=shown.foods, **shown.folder)
    trip = given.content.trips["hand"]
    whole, quick = planned(trip, given.content, given.stock)
    assert name in {each.id for each in quick.cautions}
    assert quick.cautions == whole.cautions
    assert told(trip, quick, given.content) == told(trip, whole, given.content)


def test_what_is_asked_about_a_review(tmp_path: Path) -> None:
    stew = {**POT, "id": "stew"}
    given = hand(tmp_path, trip_of_a_day(review=REVIEW), [POT, stew])
    assert not errors(given.problems), given.problems
    trip = given.content.trips["hand"]
    whole, quick = planned(trip, given.content, given.stock)
    assert len(told(trip, whole, given.content)) == 3
    assert told(trip, quick, given.content) == told(trip, whole, given.content)


def test_the_demo_and_the_records_that_it_read() -> None:
    folder = read_folder([Layer(REPO / "content", "content")])
    stock, _ = check(folder.content)
    for trip in folder.content.trips.values():
        whole, quick = planned(trip, folder.content, stock)
        assert quick.cautions == whole.cautions
        assert told(trip, quick, folder.content) == told(trip, whole, folder.content)
        assert quick.review == whole.review
        assert type(quick.energy_need_kcal) is float
        # What was read for the quick one is whole: its figures still lead to where they came from.
        data = kit_data(whole)
        folder_anew = read_folder([Layer(REPO / "content", "content")])
        anew = plan_trip(
            folder_anew.content.trips[trip.id], folder_anew.content, check(folder_anew.content)[0]
        )
        assert kit_data(anew) == data


def test_what_a_formula_refuses_is_told_alike(tmp_path: Path) -> None:
    trip = day_trip(days=[day({"snacks": [{"eat": "curd", "each": "9 g"}]}, barometer="1085 hPa")])
    del trip["days"][0]["camp_altitude"]
    given = hand(tmp_path, trip)
    found = []
    for to_check in (False, True):
        with pytest.raises(ProblemsFound) as raised:
            plan_trip(given.content.trips["hand"], given.content, given.stock, to_check=to_check)
        found.append(raised.value.problems)
    assert found[0] == found[1]


def test_records_keep_their_origins_where_a_plan_goes_without() -> None:
    records = OnAsking({}, {"a": lambda key: named(2.0, key, "here")})
    with untraced():
        assert type(named(2.0, "b", "here")) is float
        first = records["a"]
    assert type(first) is Figure
    assert type(named(2.0, "b", "here")) is Figure
