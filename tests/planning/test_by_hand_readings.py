"""One's own readings on paper: a barometer instead of a height, a stove tested at home."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.figure import Told
from builder.pages.trip.origins.kit_json import kit_data
from builder.planning.cooking import barometer_problems
from builder.planning.graph import Graph, graph_of
from builder.problems import ProblemsFound
from tests.planning.folders import GEAR, Record, day, day_trip, hand

NEAR = 1e-6
SOUP: Record = {
    "id": "soup",
    "serves": 2,
    "cook_in": "pot",
    "uses": [{"food": "kernel", "amount": "100 g"}],
    "steps": [{"do": "boil", "with": ["kernel"], "water": "600 ml"}, {"do": "serve"}],
}
DINNER: Record = {"dinner": {"cook": "soup"}}


def test_a_barometer_takes_the_place_of_the_height(tmp_path: Path) -> None:
    trip = day_trip(days=[day(DINNER, barometer="795 hPa")])
    del trip["days"][0]["camp_altitude"]
    at = hand(tmp_path, trip, [SOUP]).kit().days[0].conditions
    assert at.pressure_hpa == 795.0
    # ISO 2533 prints 794.95 hPa for 2000 m, and 1 hPa is about 10 m there.
    assert at.altitude_m == pytest.approx(2000, abs=1)
    # IAPWS-IF97 at 794.95 hPa: 93.315 °C; 0.05 hPa more is 0.002 K.
    assert at.boiling_point_c == pytest.approx(93.316, abs=0.002)


def test_weather_moves_the_boiling_point_where_both_are_told(tmp_path: Path) -> None:
    trip = day_trip(days=[day(DINNER, barometer="880 hPa")])
    at = hand(tmp_path, trip, [SOUP]).kit().days[0].conditions
    assert at.altitude_m == 1000.0
    assert at.pressure_hpa == 880.0


def test_a_start_camp_with_a_height_takes_no_barometer_from_the_day(tmp_path: Path) -> None:
    trip = day_trip(
        days=[day({"breakfast": {"cook": "soup"}}, barometer="880 hPa")],
        start_camp={"camp_altitude": "0 m"},
    )
    kit = hand(tmp_path, trip, [SOUP]).kit()
    assert kit.days[0].meals[0].conditions.pressure_hpa == pytest.approx(1013.25)
    assert kit.days[0].conditions.pressure_hpa == 880.0


def test_a_barometer_off_the_earth_is_refused_at_its_place(tmp_path: Path) -> None:
    trip = day_trip(days=[day(DINNER, barometer="1085 hPa")])
    del trip["days"][0]["camp_altitude"]
    with pytest.raises(ProblemsFound) as found:
        hand(tmp_path, trip, [SOUP]).kit()
    assert "day 1" in found.value.problems[0].says
    assert found.value.problems[0].place.file.endswith("trips/hand.yaml")


TEST = "1 l from 10 degC with 15 g"
# At 0 m water boils at 99.974 °C: 1 · 4.186 · 89.974 kJ out of 15 g · 46 kJ/g.
TESTED_SHARE = 4.186 * 89.974 / (15 * 46)


def files_below(graph: Graph, figure: str) -> set[str]:
    """Give the files in which what a figure was worked out of was told."""
    given = [
        each
        for node in graph.below([graph.nodes[figure]]).nodes.values()
        for one in node.inputs.values()
        for each in (one if isinstance(one, tuple) else (one,))
    ]
    return {each.origin.place.file for each in given if isinstance(each.origin, Told)}


@pytest.mark.parametrize("where", ["trip", "gear", "gear that lists none"])
def test_ones_own_stove_test_replaces_the_listed_efficiency(where: str, tmp_path: Path) -> None:
    trip = day_trip(days=[day(DINNER)])
    gear = {**GEAR, "stoves": [dict(stove) for stove in GEAR["stoves"]]}
    if where == "trip":
        trip["stove"]["boiled"] = TEST
    else:
        gear["stoves"][0]["boiled"] = TEST
    if where == "gear that lists none":
        del gear["stoves"][0]["efficiency"]
    kit = hand(tmp_path / "tested", trip, [SOUP], gear=gear).kit()
    listed = hand(tmp_path / "listed", day_trip(days=[day(DINNER)]), [SOUP]).kit()
    assert kit.fuel is not None and listed.fuel is not None
    assert kit.fuel.efficiency_share == pytest.approx(TESTED_SHARE, rel=1e-4)
    assert listed.fuel.efficiency_share == 0.5
    # All heat of this day is boiling: fuel goes with one over the efficiency.
    assert kit.fuel.likely_g / listed.fuel.likely_g == pytest.approx(
        0.5 / kit.fuel.efficiency_share, rel=NEAR
    )
    assert kit.fuel.test is not None and listed.fuel.test is None
    # Tested at home in still air, it keeps the range of its fuel and wind (10 % each way before).
    assert kit.fuel.low_g == pytest.approx(kit.fuel.likely_g * 0.85)
    assert kit.fuel.high_g == pytest.approx(kit.fuel.likely_g * 1.25)
    graph = graph_of(kit_data(kit))
    wanted = "trips/" if where == "trip" else "gear/"
    assert any(wanted in file for file in files_below(graph, "fuel.efficiency_share"))
    dinner = graph.below([graph.nodes["days.0.meals.0.fuel_heat_kj"]])
    assert "fuel.efficiency_share" in dinner.nodes


@pytest.mark.parametrize(
    ("wind", "low", "high"),
    [("sheltered", 0.85, 1.25), ("breezy", 0.80, 1.45), ("windy", 0.65, 2.00)],
)
def test_the_range_of_gas_goes_by_the_wind(
    wind: str, low: float, high: float, tmp_path: Path
) -> None:
    fuel = hand(tmp_path, day_trip(days=[day(DINNER, wind=wind)]), [SOUP]).kit().fuel
    assert fuel is not None
    assert fuel.low_g == pytest.approx(fuel.likely_g * low)
    assert fuel.high_g == pytest.approx(fuel.likely_g * high)


@pytest.mark.parametrize(
    ("kind", "low", "high", "lighting_g"),
    [("alcohol", 0.80, 1.50, 0), ("solid", 0.80, 1.40, 0), ("liquid", 0.85, 1.30, 10)],
)
def test_the_range_goes_by_the_fuel_and_each_lighting_of_a_liquid_stove(
    kind: str, low: float, high: float, lighting_g: float, tmp_path: Path
) -> None:
    energy = {"energy": "43 MJ/kg"} if kind == "liquid" else {}
    fuels = [{**each, **energy, "kind": kind} for each in GEAR["fuels"] if each["id"] == "alcohol"]
    gear = {**GEAR, "fuels": [*(each for each in GEAR["fuels"] if each["id"] != "alcohol"), *fuels]}
    # Two dishes of one dinner are cooked on one lighting; breakfast and dinner are two.
    meals = {"breakfast": [{"cook": "soup"}], "dinner": [{"cook": "soup"}, {"cook": "soup"}]}
    trip = day_trip(
        days=[day(meals, wind="windy")], stove={"use": "spirit-burner", "pots": ["large"]}
    )
    fuel = hand(tmp_path, trip, [SOUP], gear=gear).kit().fuel
    assert fuel is not None
    assert fuel.low_g == pytest.approx(fuel.likely_g * low)
    assert fuel.high_g == pytest.approx(fuel.likely_g * high + 2 * lighting_g)


def test_breakfast_burns_in_the_wind_of_the_last_camp(tmp_path: Path) -> None:
    meals = {"breakfast": [{"cook": "soup"}], "dinner": [{"cook": "soup"}]}
    days = [day({}, wind="windy"), day(meals, wind="sheltered")]
    kit = hand(tmp_path, day_trip(days=days), [SOUP]).kit()
    breakfast_g, dinner_g = (each.fuel_heat_kj / 46 for each in kit.days[1].meals)
    assert kit.fuel is not None
    assert kit.fuel.low_g == pytest.approx(breakfast_g * 0.65 + dinner_g * 0.85)
    assert kit.fuel.high_g == pytest.approx(breakfast_g * 2.00 + dinner_g * 1.25)


@pytest.mark.parametrize(
    ("boiled", "kind"),
    [
        ("1 l with 14 g", "stove-test"),
        ("1 from 9 degC with 14 g", "unit-missing"),
        ("1 l from 9 with 14 g", "unit-missing"),
        ("1 l from 9 degC with 14", "unit-missing"),
        ("1 l from 9 degC with 14 g at 640", "unit-missing"),
    ],
)
def test_a_test_that_cannot_be_read_is_told(boiled: str, kind: str, tmp_path: Path) -> None:
    trip = day_trip(days=[day(DINNER)])
    trip["stove"]["boiled"] = boiled
    assert kind in hand(tmp_path, trip, [SOUP]).kinds()


@pytest.mark.parametrize("boiled", ["1 l from 9 degC with 1 g", "1 l from 9 degC with 900 g"])
def test_a_test_that_cannot_be_is_refused(boiled: str, tmp_path: Path) -> None:
    trip = day_trip(days=[day(DINNER)])
    trip["stove"]["boiled"] = boiled
    with pytest.raises(ProblemsFound, match="weigh again"):
        hand(tmp_path, trip, [SOUP]).kit()


@pytest.mark.parametrize(
    ("reading", "is_odd"),
    # The standard atmosphere has 898.7 hPa at 1000 m; 5 % less are 853.8, 5 % more 943.7 hPa.
    [("898 hPa", False), ("854 hPa", False), ("853.5 hPa", True), ("943.5 hPa", False),
     ("944 hPa", True), ("1013 hPa", True)],
)  # fmt: skip
def test_a_barometer_that_does_not_fit_the_height_is_odd(
    tmp_path: Path, reading: str, is_odd: bool
) -> None:
    told = {"camp_altitude": "1000 m", "barometer": reading}
    own = hand(tmp_path / "day", day_trip(days=[day(DINNER, **told)]), recipes=[SOUP])
    start = hand(tmp_path / "start", day_trip(start_camp=told), recipes=[SOUP])
    for read in (own, start):
        kinds = [each.kind for each in barometer_problems(read.content.trips["hand"])]
        assert kinds == (["barometer-odd"] if is_odd else [])


def test_a_barometer_alone_has_nothing_to_be_held_against(tmp_path: Path) -> None:
    trip = day_trip(days=[day(DINNER, barometer="1013 hPa")])
    del trip["days"][0]["camp_altitude"]
    read = hand(tmp_path, trip, recipes=[SOUP])
    assert barometer_problems(read.content.trips["hand"]) == ()
