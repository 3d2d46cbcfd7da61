"""Legs of a day, each gone by some of the party, worked out on paper.

Ea is a woman of 40 and 60 kg (2000 ml a day), Bo a man of 40 and 80 kg (2500 ml).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.kit import Kit

from .folders import Hand, Record, day, day_of, day_trip, hand

NEAR = pytest.approx
EXACT = 1e-6

# Schofield for 30 to 60 years.
BMR = {"Ea": 8.126 * 60 + 845.6, "Bo": 11.472 * 80 + 873.1}
INTAKE_ML = {"Ea": 2000, "Bo": 2500}
DRY = {"snacks": [{"eat": "oil", "each": "10 g"}]}  # food without water

PADDLED: Record = {"by": "paddling", "hours": 3, "distance": "9 km"}
WALKED: Record = {"by": "walking", "hours": 2, "distance": "6 km", "ground": "road",
                  "ascent": "200 m", "load": "8 kg", "for": ["Bo"]}  # fmt: skip


def at_camp(legs: list[Record], **changes: object) -> Record:
    water = {"camp": "stream", "treat": "filter", "between_water": "3 h"}
    return day(DRY, travel=legs, water=water, air={"low": "5 degC", "high": "20 degC"}, **changes)


def trip(folder: Path, *legs: Record) -> Hand:
    return hand(folder, day_trip(days=[at_camp(list(legs))]))


def need_kcal(name: str, hours: float, travel_kcal: float) -> float:
    return BMR[name] / 24 * (8 * 0.95 + (16 - hours) * 1.6) + travel_kcal


def drinks_ml(name: str, hours: float) -> float:
    """Give AI + hours · (rate − 0.8 · AI / 16): 500 ml an hour from 60 kg on, at 25 °C or less."""
    return INTAKE_ML[name] + hours * (500 - 0.8 * INTAKE_ML[name] / 16)


def walked_kcal(kg: float, load_kg: float) -> float:
    """Give Pandolf's for 2 h on a road, 6 km and 200 m up; u = 1, a grade of 100 · 200 / 6000."""
    speed_m_s, grade = 6000 / 7200, 100 * 200 / 6000
    watts = (
        1.5 * kg
        + 2.0 * (kg + load_kg) * (load_kg / kg) ** 2
        + 1.0 * (kg + load_kg) * (1.5 * speed_m_s**2 + 0.35 * speed_m_s * grade)
    )
    return watts * 3600 / 4184 * 2


def hours_of(kit: Kit) -> dict[str, float]:
    return {each.name: each.travel_hours for each in day_of(kit).people}


def test_each_has_the_legs_they_go(tmp_path: Path) -> None:
    kit = trip(tmp_path, PADDLED, WALKED).kit()
    assert hours_of(kit) == {"Ea": 3, "Bo": 5}
    expected = {"Ea": 4.0 * 60 * 3, "Bo": 4.0 * 80 * 3 + walked_kcal(80, 8)}
    for one in day_of(kit).people:
        assert one.travel_kcal == NEAR(expected[one.name], rel=EXACT)
        own = need_kcal(one.name, hours_of(kit)[one.name], expected[one.name])
        assert one.energy_need_kcal == NEAR(own, rel=EXACT)
        assert one.water_need_ml == NEAR(drinks_ml(one.name, hours_of(kit)[one.name]), rel=EXACT)


def test_the_day_has_the_hours_of_who_is_longest_on_the_way(tmp_path: Path) -> None:
    told = day_of(trip(tmp_path, PADDLED, WALKED).kit())
    assert (told.travel_hours, told.distance_m, told.ascent_m) == (5, 15_000, 200)
    assert told.travel_by == "paddling"
    # Each has 3 h between water at least: Ea 3 of 3, Bo 3 of 5, both 500 ml an hour.
    assert told.water.carry_ml == NEAR(2 * 3 * 500, rel=EXACT)


def test_two_ways_apart_are_not_added_up(tmp_path: Path) -> None:
    legs = (
        {"by": "paddling", "hours": 4, "for": ["Ea"]},
        {"by": "cycling", "hours": 2.5, "for": ["Bo"]},
    )
    kit = trip(tmp_path, *legs).kit()
    assert hours_of(kit) == {"Ea": 4, "Bo": 2.5}
    told = day_of(kit)
    assert (told.travel_hours, told.travel_by, told.distance_m) == (4, "paddling", None)
    found = {one.name: one.travel_kcal for one in told.people}
    assert found == {"Ea": NEAR(4.0 * 60 * 4), "Bo": NEAR(7.5 * 80 * 2.5)}


def test_who_is_carried_rests_and_is_on_the_way(tmp_path: Path) -> None:
    legs = (
        {"by": "cycling", "hours": 4, "for": ["Bo"]},
        {"by": "carried", "hours": 4, "for": ["Ea"]},
    )
    kit = trip(tmp_path, *legs).kit()
    ea, bo = day_of(kit).people
    assert (ea.travel_kcal, ea.travel_hours) == (0, 0)
    assert ea.energy_need_kcal == NEAR(need_kcal("Ea", 0, 0), rel=EXACT)
    assert ea.water_need_ml == NEAR(2000, rel=EXACT)
    assert bo.energy_need_kcal == NEAR(need_kcal("Bo", 4, 7.5 * 80 * 4), rel=EXACT)
    assert day_of(kit).travel_hours == 4


def test_a_day_on_which_all_are_carried_is_no_rest(tmp_path: Path) -> None:
    told = day_of(trip(tmp_path, {"by": "carried", "hours": 2}).kit())
    assert (told.travel_hours, {one.travel_hours for one in told.people}) == (2, {0})


def test_a_leg_is_walked_with_its_own_load(tmp_path: Path) -> None:
    light: Record = {**WALKED, "load": "3 kg"}
    kit = trip(tmp_path, WALKED, light).kit()
    bo = day_of(kit).people[1]
    assert bo.travel_kcal == NEAR(walked_kcal(80, 8) + walked_kcal(80, 3), rel=EXACT)
    assert bo.load_g == 8000, "the heavier one is told"
    assert bo.travel_low_kcal is not None and bo.travel_high_kcal is not None


def test_legs_that_tell_the_same_as_one_way_change_nothing(tmp_path: Path) -> None:
    one = trip(tmp_path / "one", {"by": "paddling", "hours": 5}).kit()
    two = trip(
        tmp_path / "two", {"by": "paddling", "hours": 2}, {"by": "paddling", "hours": 3}
    ).kit()
    for a, b in zip(day_of(one).people, day_of(two).people, strict=True):
        assert a.energy_need_kcal == NEAR(b.energy_need_kcal, rel=1e-12)
        assert a.to_drink_ml == NEAR(b.to_drink_ml, rel=1e-12)
    assert day_of(one).water == day_of(two).water


def test_nobody_is_on_the_way_for_longer_than_a_day_has(tmp_path: Path) -> None:
    legs = ({"by": "paddling", "hours": 9}, {"by": "paddling", "hours": 7.5, "for": ["Bo"]})
    found = trip(tmp_path, *legs).problems
    assert [each.kind for each in found] == ["out-of-range"]
    assert "Bo" in found[0].says and "16.5 h" in found[0].says


def test_a_leg_that_cannot_be_gone_is_told_at_its_place(tmp_path: Path) -> None:
    steep: Record = {"by": "walking", "hours": 5, "distance": "1 km", "ascent": "1100 m"}
    assert [each.kind for each in trip(tmp_path, PADDLED, steep).problems] == ["too-steep"]
