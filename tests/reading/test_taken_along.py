# ruff: noqa: E501 - the lines that people read stand whole
"""Pots and things that a trip names are held against what it takes along."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.reading.folder_builder import GOOD, TRIP, changed, lines, read

GEAR = "gear_shared: [{name: Group tarp, mass: 780 g}]\nfire: {irons: [iron]}\n"


def told(folder: Path, text: str) -> list[str]:
    found = lines(read(folder, {**GOOD, "trips/tarrow.yaml": text}))
    return [each for each in found if "[not-used-yet]" not in each]


@pytest.mark.parametrize(
    "group", ["stove, pot", "burner, iron", "Group tarp, pot", "stove, Group tarp, iron"]
)
def test_what_the_trip_takes_may_be_carried_together(group: str, tmp_path: Path) -> None:
    assert told(tmp_path, f"together: [[{group}]]\n{GEAR}{TRIP}") == []


@pytest.mark.parametrize(
    ("group", "column", "says", "mend"),
    [
        ("stove, pott", 20, "this trip takes nothing called 'pott'", "did you mean pot?"),
        (
            "tarp, pot",
            13,
            "this trip takes nothing called 'tarp'",
            "known are: Group tarp, burner, fuel, iron, pot, stove",
        ),
    ],
)
def test_what_it_does_not_take_is_told_where_it_stands(
    group: str, column: int, says: str, mend: str, tmp_path: Path
) -> None:
    assert told(tmp_path, f"together: [[{group}]]\n{GEAR}{TRIP}") == [
        f"trips/tarrow.yaml:1:{column}: error: {says} — {mend} [thing-unknown]"
    ]


def test_without_a_stove_nobody_carries_one(tmp_path: Path) -> None:
    text = changed(TRIP, "stove: {use: burner, pots: [pot]}", "fire: {irons: [iron], pots: [pot]}")
    (line,) = told(tmp_path, f"together: [[stove, pot]]\n{text}")
    assert "this trip takes nothing called 'stove'" in line


def test_a_pot_that_the_trip_does_not_take_is_told_once(tmp_path: Path) -> None:
    text = changed(TRIP, "from: beans-may", "from: beans-may, in: pt")
    assert told(tmp_path / "dish", text) == [
        "trips/tarrow.yaml:8:54: error: this trip takes no pot 'pt' — did you mean pot? [pot-not-taken]"
    ]
    text = changed(TRIP, "    meals:", "    in: kettle\n    meals:")
    assert told(tmp_path / "day", text) == [
        "trips/tarrow.yaml:7:9: error: this trip takes no pot 'kettle' — did you mean pot? [pot-not-taken]"
    ]


def test_a_pot_of_the_trip_that_is_nowhere_in_the_gear_is_told_there_alone(tmp_path: Path) -> None:
    text = changed(TRIP, "pots: [pot]", "pots: [kettle]")
    text = changed(text, "from: beans-may", "from: beans-may, in: kettle")
    assert [each.partition("error: ")[2] for each in told(tmp_path, text)] == [
        "there is no pot 'kettle' — did you mean pot? [pot-unknown]"
    ]


def test_an_anchored_day_tells_its_pot_once(tmp_path: Path) -> None:
    day = "{camp_altitude: 100 m, in: kettle, meals: {}}"
    text = changed(TRIP, "days:\n", f"days:\n  - &one {day}\n  - *one\n")
    assert len(told(tmp_path, text)) == 1


def test_things_that_go_together_have_one_carrier(tmp_path: Path) -> None:
    rowan = changed(TRIP, "party:\n", "party:\n  - {name: Rowan, mass: 80 kg}\n")
    things = "gear_shared: [{name: Tarp, mass: 780 g, carried_by: Rowan}, {name: Axe, mass: 600 g, carried_by: WHO}]\n"
    text = f"together: [[stove, pot], [Axe, Tarp]]\n{things}{rowan}"
    assert told(tmp_path / "one", text.replace("WHO", "Rowan")) == []
    assert told(tmp_path / "two", text.replace("WHO", "Ash")) == [
        "trips/tarrow.yaml:1:27: error: Ash and Rowan are to carry what goes together — write one `carried_by`, or take a thing out of `together` [together-apart]"
    ]
    apart = text.replace("[Axe, Tarp]", "[Axe, pot]").replace("[stove, pot]", "[stove, Tarp]")
    assert told(tmp_path / "apart", apart.replace("WHO", "Ash")) == []


def test_each_day_and_dish_with_a_pot_of_its_own_is_told(tmp_path: Path) -> None:
    day = "  - camp_altitude: 700 m\n    in: kettle\n    meals: {dinner: [{cook: bean-pot, in: pan}]}\n"
    found = told(tmp_path, TRIP + day)
    assert [
        each.partition(": error: ")[0].removeprefix("trips/tarrow.yaml:") for each in found
    ] == ["11:9", "12:43"]
