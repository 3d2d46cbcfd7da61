"""What a trip may tell: each limit from both sides, each word that goes with another."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.trip import Trip
from tests.reading.folder_builder import GOOD, TRIP, changed, read

ASH = "{name: Ash, sex: female, age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg}"
DINNER = "dinner: [{cook: bean-pot, from: beans-may}]"
SNACKS = "snacks: {eat: rice, each: 30 g}"


def told(folder: Path, old: str, new: str) -> tuple[list[str], Trip | None]:
    """Give the kinds of problems in a trip changed in one place, and what was read of it."""
    found = read(folder, {**GOOD, "trips/tarrow.yaml": changed(TRIP, old, new)})
    return sorted(each.kind for each in found.problems), found.content.trips.get("tarrow")


@pytest.mark.parametrize(
    ("person", "kinds"),
    [
        ("{name: Ash, age: 17.9}", ["child-mass"]),
        ("{name: Ash, age: 18}", []),
        ("{name: Ash, age: 17, mass: 60 kg}", []),
        ("{name: Ash}", []),
        ("{name: Ash, age: 0.9}", ["child-mass", "too-young"]),
        ("{name: Ash, age: 120}", ["unusual"]),
        ("{name: Ash, age: 121}", ["out-of-range"]),
        ("{name: Ash, carries_to: 0 kg, own_gear: 6 kg}", ["own-gear"]),
        ("{name: Ash, carries_to: 0 kg, own_gear: 0 kg}", []),
        ("{name: Ash, carries_to: 7 kg, own_gear: 6 kg}", []),
        ("{name: Ash, sex: male, pregnant: 2}", ["male-expecting"]),
        ("{name: Ash, sex: male, nursing: true}", ["male-expecting"]),
        ("{name: Ash, sex: male, pregnant: false}", []),
        ("{name: Ash, sex: female, pregnant: 2}", []),
        ("{name: Ash, pregnant: true}", []),
        ("{name: Ash, age: 7, mass: 24 kg, pregnant: 1}", ["out-of-range"]),
        ("{name: Ash, age: 12, mass: 40 kg, pregnant: 1}", ["unusual"]),
        ("{name: Ash, age: 13, mass: 45 kg, pregnant: 1}", []),
        ("{name: Ash, age: 53, pregnant: 1}", ["unusual"]),
        ("{name: Ash, age: 2, mass: 12 kg, nursing: true}", ["out-of-range"]),  # who is nursed
        ("{name: Ash, age: 71, pregnant: 1}", ["out-of-range"]),
        ("{name: Ash, mood: good}", ["key-unknown"]),
        ("{name: Ash}\n  - {name: Ash}", ["name-twice"]),
        ("{name: Ash}\n  - {name: Ash B}", []),
    ],
)
def test_people(person: str, kinds: list[str], tmp_path: Path) -> None:
    assert told(tmp_path, ASH, person)[0] == kinds


@pytest.mark.parametrize(
    ("air", "kinds", "read_as"),
    [
        ("{low: 5 degC, high: 5 degC}", [], (5.0, 5.0)),
        ("{low: 6 degC, high: 5 degC}", ["air"], None),
        # One that is told moves the other only where it would lie beyond it.
        ("{low: 4 degC}", [], (4.0, 20.0)),
        ("{low: 25 degC}", [], (25.0, 25.0)),
        ("{high: 15 degC}", [], (5.0, 15.0)),
        ("{high: -3 degC}", [], (-3.0, -3.0)),
        ("{low: 4 degC, mean: 5 degC}", ["key-unknown"], None),
    ],
)
def test_air(
    air: str, kinds: list[str], read_as: tuple[float, float] | None, tmp_path: Path
) -> None:
    found, trip = told(tmp_path, "camp_altitude: 640 m", f"camp_altitude: 640 m\n    air: {air}")
    assert found == kinds
    if read_as is not None:
        assert trip is not None
        assert (trip.days[0].camp.air_low_c, trip.days[0].camp.air_high_c) == read_as


@pytest.mark.parametrize(
    ("water", "kinds"),
    [
        ("{near: none}", []),
        ("{near: [mines]}", []),
        ("{near: [none, mines]}", ["near-none"]),
        ("{near: [mines, fields, roads]}", []),
        ("{near: [meadow]}", ["word-unknown"]),
        ("{camp: sea-ice}", ["word-unknown"]),
        ("{from: hut}", ["key-unknown"]),
    ],
)
def test_water(water: str, kinds: list[str], tmp_path: Path) -> None:
    new = f"camp_altitude: 640 m\n    water: {water}"
    assert told(tmp_path, "camp_altitude: 640 m", new)[0] == kinds


@pytest.mark.parametrize(
    ("travel", "kinds", "hours"),
    [
        # 10 km at 5 km/h and 600 m at 600 m an hour.
        ("{by: walking, distance: 10 km, ascent: 600 m}", [], 3.0),
        ("{distance: 10 km, ascent: 600 m}", [], 3.0),
        ("{by: snowshoeing, distance: 9 km}", [], 3.0),
        ("{by: skiing, distance: 10 km}", [], 2.0),
        ("{by: paddling, distance: 10 km}", [], 2.0),
        ("{by: cycling, distance: 30 km}", [], 2.0),
        ("{by: walking}", [], 5.0),
        ("{by: resting}", [], 5.0),
        ("{by: walking, hours: 7}", [], 7.0),
        ("{by: cycling, distance: 150 km, hours: 10}", [], 10.0),
        ("{by: walking, hours: 16, distance: 20 km}", ["unusual"], 16.0),
        ("{by: walking, hours: 17}", ["out-of-range"], None),
        # As far up and down as along is the most that is no cliff.
        ("{hours: 5, distance: 1 km, ascent: 1001 m}", ["too-steep"], None),
        ("{hours: 5, distance: 1 km, ascent: 600 m, descent: 401 m}", ["too-steep"], None),
        ("{by: walking, distance: 0 km}", ["out-of-range"], None),
        ("{by: flying}", ["word-unknown"], None),
        ("{by: walking, with: Ash}", ["key-unknown"], None),
    ],
)
def test_the_way(travel: str, kinds: list[str], hours: float | None, tmp_path: Path) -> None:
    new = f"camp_altitude: 640 m\n    travel: {travel}"
    found, trip = told(tmp_path, "camp_altitude: 640 m", new)
    assert found == kinds
    if hours is not None:
        assert trip is not None and trip.days[0].travel
        assert trip.days[0].travel[0].hours == pytest.approx(hours)


@pytest.mark.parametrize(
    ("old", "new", "kinds"),
    [
        (SNACKS, "snacks: []", ["meal-empty"]),
        (SNACKS, "snacks:", ["meal-empty"]),
        (SNACKS, "tea: {eat: rice, each: 30 g}", ["key-unknown"]),
        (SNACKS, "snacks: {eat: rice, cook: bean-pot}", ["cook-or-eat"]),
        (SNACKS, "snacks: {each: 30 g}", ["cook-or-eat"]),
        (SNACKS, "snacks: {eat: rice, each: 30 g, for: []}", ["empty"]),
        (SNACKS, "snacks: {eat: rice, each: 30 g, for: Cove}", ["person-unknown"]),
        (SNACKS, "snacks: {eat: rice, each: 30 g, with: joy}", ["key-unknown"]),
        (SNACKS, "snacks: {eat: rise, each: 30 g}", ["food-unknown"]),
        (SNACKS, "snacks: {cook: bean-pott}", ["recipe-unknown"]),
        (DINNER, "dinner: [{cook: bean-pot, from: {peas: beans-may}}]", ["ingredient-unknown"]),
        (DINNER, "dinner: [{cook: bean-pot, from: {beans: beans-may}}]", []),
        # What is put together from a label: energy is asked for, and told once.
        (SNACKS, "snacks: {eat: Fudge, each: 30 g, fat: 20 g}", []),
        (SNACKS, "snacks: {eat: Fudge, each: 30 g, protein: 20 g}", []),
        (SNACKS, "snacks: {eat: Fudge, each: 30 g, carbohydrate: 20 g}", []),
        (SNACKS, "snacks: {eat: Fudge, each: 30 g, energy: 450 kcal}", []),
        (SNACKS, "snacks: {eat: Fudge, each: 30 g, sodium: 20 mg}", ["label-energy"]),
        (SNACKS, "snacks: {eat: Fudge, each: 30 g, allergens: []}", ["label-energy"]),
        (SNACKS, "snacks: {eat: Fudge, each: 30 g, may_contain: nuts}", ["label-energy"]),
        (SNACKS, "snacks: {eat: Fudge, each: 30 g, beware: []}", ["label-energy"]),
        (SNACKS, "snacks: {eat: Fudge, each: 30 g, caffeine: 20 mg}", ["label-energy"]),
        (SNACKS, "snacks: {eat: Fudge, each: 30 g}", ["food-unknown"]),
    ],
)
def test_meals(old: str, new: str, kinds: list[str], tmp_path: Path) -> None:
    assert told(tmp_path, old, new)[0] == kinds


TWO = f"{ASH}\n  - {{name: Rowan, own_gear: 0 g}}"


@pytest.mark.parametrize(
    ("snacks", "without", "kinds"),
    [
        ("[Ash, Rowan]", "", []),
        ("Ash", "{snacks: Rowan}", []),
        ("Ash", "{snacks: [Ash]}", ["without"]),
        ("Ash", "{lunch: Rowan}", ["without"]),
        ("Ash", "{snacks: Cove}", ["person-unknown"]),
        ("Ash", "{tea: Rowan}", ["key-unknown"]),
        ("Ash", "{snacks: []}", []),
    ],
)
def test_who_goes_without(snacks: str, without: str, kinds: list[str], tmp_path: Path) -> None:
    new = f"snacks: {{eat: rice, each: 30 g, for: {snacks}}}\n"
    text = changed(changed(TRIP, ASH, TWO), SNACKS + "\n", new)
    text += f"    without: {without}\n" if without else ""
    found = read(tmp_path, {**GOOD, "trips/tarrow.yaml": text})
    assert sorted(each.kind for each in found.problems) == kinds


def test_each_person_whom_no_meal_feeds_is_told(tmp_path: Path) -> None:
    new = "snacks: {eat: rice, each: 30 g, for: Ash}\n"
    text = changed(changed(TRIP, ASH, TWO), SNACKS + "\n", new)
    text = changed(text, "from: beans-may}", "from: beans-may, for: [Ash]}")
    found = read(tmp_path, {**GOOD, "trips/tarrow.yaml": text})
    assert [each.says for each in found.problems if each.kind == "not-fed"] == [
        "'Rowan' gets nothing to eat on this trip"
    ]
