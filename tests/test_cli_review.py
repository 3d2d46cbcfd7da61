"""`tripkit review`: a sheet that is never written over, filled in from a file, and told."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli import main

TRIP = """\
# Two days on the fell
title: Fell
start: 2031-06-01
party: [{name: Ea, sex: female, age: 40, mass: 60 kg}]   # only her
stove: {use: top-burner, pots: [pot-1l]}
days:
  - camp_altitude: 500 m
    water: {camp: stream, treat: filter}
    meals:
      dinner: [{cook: pot}]
      snacks: [{eat: almonds, each: 50 g}]
"""
POT = """\
{id: pot, name: Pot, meal: [dinner], serves: 1, cook_in: pot,
 uses: [{food: rice-instant-dry, amount: 120 g}],
 steps: [{do: boil, with: [rice-instant-dry], water: 300 ml}]}
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for room, name, text in (("trips", "fell", TRIP), ("recipes", "pot", POT)):
        (tmp_path / "content" / room).mkdir(parents=True)
        (tmp_path / "content" / room / f"{name}.yaml").write_text(text, "utf-8")
    return tmp_path / "content"


def run(folder: Path, *told: str) -> Result:
    return CliRunner().invoke(main, ["review", "fell", *told, "--content", str(folder)])


def text_of(folder: Path) -> str:
    return (folder / "trips" / "fell.yaml").read_text("utf-8")


def test_a_sheet_is_written_once_and_the_rest_stays(folder: Path) -> None:
    first = run(folder)
    assert first.exit_code == 0, first.output
    sheet = text_of(folder)
    assert sheet.startswith(TRIP)
    assert "  fuel_used: # planned " in sheet
    assert "    - {food: almonds, mass: } # planned 50 g\n" in sheet
    again = run(folder)
    assert again.exit_code == 0 and "Nothing is filled in yet" in again.output
    assert text_of(folder) == sheet


def test_what_is_filled_in_is_told_and_learned(folder: Path) -> None:
    run(folder)
    text = text_of(folder).replace("  fuel_used: #", "  fuel_used: 12 g #")
    (folder / "trips" / "fell.yaml").write_text(text, "utf-8")
    told = run(folder)
    assert told.exit_code == 0
    assert "fuel: 12 g, planned " in told.output
    assert "times for fuel, from 1 trip." in told.output
    assert text_of(folder) == text


def test_a_file_fills_blanks_and_changes_nothing_that_is_told(folder: Path, tmp_path: Path) -> None:
    run(folder)
    sheet = tmp_path / "fell-review.yaml"
    sheet.write_text(
        'trip: fell\nreview:\n  fuel_used: "12 g"\n  marks: {"pot": 4}\n'
        '  left:\n    - {recipe: "pot", share: "0 %"}\n  notes: "Too \\"salty\\""\n',
        "utf-8",
    )
    told = run(folder, "--from", str(sheet))
    assert told.exit_code == 0, told.output
    text = text_of(folder)
    assert "  fuel_used: 12 g # planned" in text
    assert "  left: [{recipe: pot, share: 0 %}]\n" in text
    assert "   # only her" in text
    sheet.write_text("trip: fell\nreview: {fuel_used: 20 g}\n", "utf-8")
    told = run(folder, "--from", str(sheet))
    assert "Kept `fuel_used`" in told.output
    assert text_of(folder) == text


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("trip: other\nreview: {fuel_used: 12 g}\n", "is of another trip, 'other'"),
        ("trip: fell\n", "it has no `review:`"),
        ("trip: fell\nreview: {fuel_used: }\n", "nothing is filled in"),
        ("trip: fell\nreview: {fuel_used: plenty}\n", "fuel_used"),
        ("trip: fell\nreview: {xyz: 1}\n", "has no field 'xyz'"),
        ("trip: [\n", "error"),
        # Planned with it, the trip eats no such thing: seen before anything is written.
        (
            "trip: fell\nreview: {left: [{recipe: pot, share: 0 %, meal: breakfast}]}\n",
            "this trip does not eat pot at breakfast",
        ),
    ],
)
def test_a_file_that_will_not_do_is_told_and_nothing_written(
    folder: Path, tmp_path: Path, text: str, says: str
) -> None:
    sheet = tmp_path / "sheet.yaml"
    sheet.write_text(text, "utf-8")
    told = run(folder, "--from", str(sheet))
    assert told.exit_code == 1
    assert says in told.output
    assert "Wrote" not in told.output
    assert text_of(folder) == TRIP


def test_a_trip_that_is_not_there_is_told(folder: Path) -> None:
    told = CliRunner().invoke(main, ["review", "fel", "--content", str(folder)])
    assert told.exit_code == 1
    assert "did you mean fell" in told.output
