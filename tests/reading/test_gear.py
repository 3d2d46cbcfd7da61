# ruff: noqa: E501 - the lines that people read stand whole
"""Stoves, fuels, pots, irons, packaging and dryers."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.gear import Container, Dryer, Fuel, Iron, Packaging, Pot, Stove
from tests.reading.folder_builder import GOOD, Spoilt, lines, read, told

FILE = "gear/mine.yaml"
GEAR = """\
stoves:
  - {id: mine, name: Mine, burns: gas, power: 2 kW, efficiency: 50 %, mass: 80 g}
fuels:
  - {id: mix, name: Mix, kind: gas, energy: 45 MJ/kg, mix: {propane: 30 %, butane: 70 %}}
dryers:
  - {id: shelf, name: Shelf, method: dehydrator, load: 3 kg, hours: 12}
"""

SPOILT = (
    Spoilt(
        "an unknown section",
        "gear/mine.yaml",
        (("dryers:", "driers:"),),
        (
            "gear/mine.yaml:5:1: error: a gear file has no field 'driers' — did you mean dryers? [key-unknown]",
        ),
    ),
    Spoilt(
        "a section that is no list",
        "gear/mine.yaml",
        (
            (
                "\n  - {id: shelf, name: Shelf, method: dehydrator, load: 3 kg, hours: 12}\n",
                " a shelf\n",
            ),
        ),
        (
            "gear/mine.yaml:5:9: error: dryers must be a list, found 'a shelf' — write `dryers: [a shelf]` [not-a-list]",
        ),
    ),
    Spoilt(
        "a stove that burns what is not there",
        "gear/mine.yaml",
        (("burns: gas", "burns: gass"),),
        ("gear/mine.yaml:2:35: error: there is no fuel 'gass' — did you mean gas? [fuel-unknown]",),
    ),
    Spoilt(
        "a stove without power",
        "gear/mine.yaml",
        ((", power: 2 kW", ""),),
        ("gear/mine.yaml:2:5: error: this stove has no `power` — write `power: 2600 W` [missing]",),
    ),
    Spoilt(
        "a stove that wastes all",
        "gear/mine.yaml",
        (("efficiency: 50 %", "efficiency: 0 %"),),
        (
            "gear/mine.yaml:2:65: error: efficiency must be more than nothing, found '0 %' — write 15 % [out-of-range]",
        ),
    ),
    Spoilt(
        "a fuel of no kind",
        "gear/mine.yaml",
        (("kind: gas", "kind: wood"),),
        (
            "gear/mine.yaml:4:32: error: kind cannot be 'wood' — known are: alcohol, gas, liquid, solid [word-unknown]",
        ),
    ),
    Spoilt(
        "energy without kg",
        "gear/mine.yaml",
        (("45 MJ/kg", "45 MJ"),),
        (
            "gear/mine.yaml:4:45: error: energy: 'MJ' is no unit of heating value — known are MJ/kg, kJ/g, kJ/kg, kcal/g, kcal/kg; write 45.8 MJ/kg [unit-unknown]",
        ),
    ),
    Spoilt(
        "a mix that is not whole",
        "gear/mine.yaml",
        (("butane: 70 %", "butane: 60 %"),),
        (
            "gear/mine.yaml:4:60: error: the gases add up to 90 % — make them add up to 100 % [mix-sum]",
        ),
    ),
    Spoilt(
        "a mix of another gas",
        "gear/mine.yaml",
        (("butane: 70 %", "buthane: 70 %"),),
        (
            "gear/mine.yaml:4:76: error: a gas mix has no field 'buthane' — did you mean butane? [key-unknown]",
        ),
    ),
    Spoilt(
        "a container of nothing",
        "gear/mine.yaml",
        (("kind: gas", "kind: gas, containers: [{holds: 0 g}, {empty: 95 g}]"),),
        (
            "gear/mine.yaml:4:58: error: holds must be more than nothing, found '0 g' — write 250 g, 1.5 kg or 9 oz [out-of-range]",
            "gear/mine.yaml:4:64: error: this container has no `holds` — write `holds: 250 g` [missing]",
        ),
    ),
    Spoilt(
        "a dryer that buys",
        "gear/mine.yaml",
        (("method: dehydrator", "method: bought"),),
        (
            "gear/mine.yaml:6:38: error: method cannot be 'bought' — known are: dehydrator, freeze-dryer, oven, sun [word-unknown]",
        ),
    ),
    Spoilt(
        "a dryer without hours",
        "gear/mine.yaml",
        ((", hours: 12", ""),),
        ("gear/mine.yaml:6:5: error: this dryer has no `hours` — write `hours: 2` [missing]",),
    ),
    Spoilt(
        "a dryer that is set from warm to cool",
        "gear/mine.yaml",
        (("hours: 12", "hours: 12, from: 60 degC, to: 40 degC"),),
        (
            "gear/mine.yaml:6:92: error: to: 40 °C is colder than from: 60 °C — write the lowest it can be set to behind `from`, the highest behind `to` [from-to]",
        ),
    ),
    Spoilt(
        "a dryer of one warmth",
        "gear/mine.yaml",
        (("hours: 12", "hours: 12, from: 60 degC, to: 60 degC"),),
        (),
    ),
    Spoilt(
        "hours with a unit",
        "gear/mine.yaml",
        (("hours: 12", "hours: 12 h"),),
        (
            "gear/mine.yaml:6:69: error: hours takes a bare number, found '12 h' — write the number alone, `hours: 12` [not-a-number]",
        ),
    ),
)


@pytest.mark.parametrize("spoilt", SPOILT, ids=str)
def test_each_mistake_is_told_at_its_place_with_what_would_do(
    spoilt: Spoilt, tmp_path: Path
) -> None:
    assert told(tmp_path, {**GOOD, FILE: GEAR}, spoilt) == spoilt.expected


def test_gear_is_read_as_it_stands(tmp_path: Path) -> None:
    found = read(
        tmp_path,
        {
            FILE: """\
            stoves: [{id: mine, name: Mine, burns: mix, power: 2 kW, lowest: 300 W, efficiency: 50 %, mass: 80 g, liquid_feed: true}]
            fuels: [{id: mix, name: Mix, kind: gas, energy: 45 kJ/g, mix: {butane: 75 %, propane: 25 %}, containers: [{holds: 230 g, empty: 150 g}, {holds: 0.1 kg}]}]
            pots: [{id: billy, name: Billy, holds: 2.5 l, fill_to: 80 %, mass: 520 g, material: steel, loss_at_boil: 120 W, pressure: 0.8 bar}]
            irons: [{id: two, name: Two, presses: 2, mass: 2.6 kg, material: aluminium, face: 0.029 m2}]
            packaging: [{id: jar, name: Jar, mass: 260 g, barrier: glass}]
            dryers: [{id: shelf, name: Shelf, method: freeze-dryer, load: 3 kg, hours: 12.5, ice: 2 kg, trays: 0.5 m2}]
            """
        },
    )
    assert lines(found) == []
    gear = found.content.gear
    assert gear.stoves["mine"] == Stove("mine", "Mine", "mix", 2000, 0.5, 80, 300, True)
    assert gear.fuels["mix"] == Fuel(
        "mix",
        "Mix",
        "gas",
        45.0,
        (Container(230, 150), Container(100, 0)),
        (("propane", 0.25), ("butane", 0.75)),
    )
    assert gear.pots["billy"] == Pot("billy", "Billy", 2500, 520, "steel", 0.8, 120, 80)
    assert gear.pots["billy"].room_ml == 2000
    assert gear.irons["two"] == Iron("two", "Two", 2600, 2, "aluminium", 290)
    assert gear.packaging["jar"] == Packaging("jar", "Jar", 260, "glass")
    assert gear.dryers["shelf"] == Dryer("shelf", "Shelf", "freeze-dryer", 3000, 12.5, 2000, 5000)


def test_gear_that_tells_little_takes_the_usual(tmp_path: Path) -> None:
    gear = read(tmp_path, GOOD).content.gear
    assert (gear.stoves["burner"].lowest_w, gear.stoves["burner"].liquid_feed) == (0, False)
    assert (gear.pots["pot"].fill_share, gear.pots["pot"].loss_at_boil_w) == (0.75, 100)
    assert (gear.irons["iron"].presses, gear.irons["iron"].material) == (1, "cast-iron")
    assert gear.irons["iron"].face_cm2 is None
    assert gear.pots["pot"].gauge_kpa is None
    assert (gear.fuels["gas"].containers, gear.fuels["gas"].mix) == ((), ())


@pytest.mark.parametrize(("butane", "good"), [("66 %", True), ("67 %", True), ("65 %", False)])
def test_a_mix_printed_in_whole_percent_may_miss_one(
    butane: str, good: bool, tmp_path: Path
) -> None:
    text = f"fuels: [{{id: mix, name: M, kind: gas, energy: 45 MJ/kg, mix: {{propane: 33 %, butane: {butane}}}}}]"
    found = read(tmp_path, {FILE: text})
    assert [problem.kind for problem in found.problems] == ([] if good else ["mix-sum"])


def test_a_stove_whose_fuel_is_missing_cannot_be_used(tmp_path: Path) -> None:
    files = {**GOOD, FILE: GEAR.replace("burns: gas", "burns: coal")}
    trip = files["trips/tarrow.yaml"].replace("use: burner", "use: mine")
    found = read(tmp_path, {**files, "trips/tarrow.yaml": trip})
    assert lines(found) == [
        "gear/mine.yaml:2:35: error: there is no fuel 'coal' — known are: gas, mix [fuel-unknown]"
    ]
    assert "mine" not in found.content.gear.stoves
    assert found.content.trips == {}


SHEET = (
    "sheets: [{id: a, page: a4, columns: COLUMNS, rows: ROWS, width: 70 mm, height: 37 mmMORE}]\n"
)


@pytest.mark.parametrize(
    ("columns", "rows", "more", "says"),
    [
        (3, 8, "", None),  # 210 mm and 296 mm of 210 mm and 297 mm
        (3, 8, ", left: 0.5 mm", None),  # half a millimetre may be off
        (3, 8, ", left: 2 mm", "3 columns need 212 mm, and a4 has 210 mm"),
        (3, 8, ", top: 5 mm", "8 rows need 301 mm, and a4 has 297 mm"),
        (4, 8, "", "4 columns need 280 mm, and a4 has 210 mm"),
        (3, 9, "", "9 rows need 333 mm, and a4 has 297 mm"),
        # Between seven rows are six gaps: 7 · 37 + 6 · 6.5 = 298 mm.
        (2, 7, ", gap: {across: 5 mm, down: 6.5 mm}", "7 rows need 298 mm, and a4 has 297 mm"),
        (2, 7, ", gap: {across: 70 mm, down: 6 mm}", None),
        (2, 7, ", gap: {across: 75 mm, down: 6 mm}", "2 columns need 215 mm, and a4 has 210 mm"),
    ],
)
def test_labels_fit_on_their_sheet(
    columns: int, rows: int, more: str, says: str | None, tmp_path: Path
) -> None:
    text = SHEET.replace("COLUMNS", str(columns)).replace("ROWS", str(rows)).replace("MORE", more)
    found = [line for line in lines(read(tmp_path, {**GOOD, FILE: text})) if "[sheet]" in line]
    assert len(found) == (0 if says is None else 1)
    assert all(f": error: {says} — check " in line for line in found)
