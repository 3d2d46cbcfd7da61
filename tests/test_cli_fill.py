"""`tripkit fill`: told, as data, and written into the trip, all else of which stays."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import Result

from tests.conftest import tripkit
from tests.planning.folders import write_folder
from tests.planning.test_filling import FOODS, plums, pot

TRIP = """\
# Our trip.
title: Ours
start: 2031-06-01
party: [{name: Ea, carries_to: 9 kg}, {name: Bo, carries_to: 9 kg}]
stove: {use: burner, pots: [large]}
days:
  - camp_altitude: 1000 m   # the low camp
    meals:
      lunch: [{eat: grain, each: 370 g}]
      dinner: open  # what we have
      snacks: {eat: plum, from: auto, each: 20 g}
  - camp_altitude: 1200 m
    meals:
      lunch: [{eat: grain, each: 370 g}]
      dinner:
        - open   # and here
        - {eat: plum, each: 10 g, dried_by: dehydrator}
"""
RECIPES = [pot("plum-pot", dried="plum"), pot("one"), pot("two")]
BATCHES = [plums("old", "2031-03-01"), plums("new", "2031-05-01")]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    content = tmp_path / "content"
    write_folder(content, {}, RECIPES, BATCHES, FOODS)
    (content / "trips" / "ours.yaml").write_text(TRIP, "utf-8")
    return content


def fill(folder: Path, *told: str) -> Result:
    return tripkit("fill", "ours", "--content", str(folder), *told)


def trip_of(folder: Path) -> str:
    return (folder / "trips" / "ours.yaml").read_text("utf-8")


def test_it_tells_proposals_and_changes_nothing(folder: Path) -> None:
    result = fill(folder)
    assert result.exit_code == 0, result.output
    assert "Proposal 1\n    day 1 dinner: " in result.output
    assert "expires first" in result.output
    assert "day 1 snacks: plum from old" in result.output
    assert trip_of(folder) == TRIP


def test_what_is_written_is_the_proposal_and_all_else_stays(folder: Path) -> None:
    data = json.loads(fill(folder, "--json").stdout)
    chosen = {
        meal["day"]: "{cook: "
        + meal["recipe"]
        + (f", from: {{plum: {meal['from']['plum']}}}" if meal["from"] else "")
        + "}"
        for meal in data["proposals"][1]["meals"]
    }
    assert data["packs"] == [{"day": 1, "meal": "snacks", "ingredient": "plum", "batch": "old"}]
    result = fill(folder, "--write", "2")
    assert result.exit_code == 0, result.output
    assert "Wrote " in result.output
    assert "--write N" not in result.output  # it was
    expected = TRIP.replace("dinner: open  #", f"dinner: {chosen[1]}  #")
    expected = expected.replace("- open   #", f"- {chosen[2]}   #")
    assert trip_of(folder) == expected.replace("from: auto", "from: old")
    again = fill(folder)
    assert "No meal of ours is open" in again.output
    assert tripkit("check", "--content", str(folder)).exit_code == 0


def test_one_place_that_several_days_name_is_written_out(folder: Path) -> None:
    """Each day has a dinner of its own, and the anchor that both named is not changed for both."""
    text = TRIP.replace("dinner: open  #", "dinner: &dinner open  #")
    text = text.replace("      dinner:\n        - open   # and here\n", "      dinner: *dinner\n")
    text = text.replace("        - {eat: plum, each: 10 g, dried_by: dehydrator}\n", "")
    (folder / "trips" / "ours.yaml").write_text(text, "utf-8")
    data = json.loads(fill(folder, "--json").stdout)
    result = fill(folder, "--write", "1")
    assert result.exit_code == 0, result.output
    written = trip_of(folder)
    for meal in data["proposals"][0]["meals"]:
        assert f"cook: {meal['recipe']}" in written
    assert "# the low camp" in written
    assert json.loads(fill(folder, "--json").stdout)["proposals"] == []


def test_a_trip_with_open_meals_is_told_of_and_not_built(folder: Path, tmp_path: Path) -> None:
    checked = tripkit("check", "--content", str(folder))
    assert checked.exit_code == 0
    assert "ours: dinner of day 1 is open, so no kit of the trip is made" in checked.output
    out = tmp_path / "out"
    built = tripkit("build", "ours", "--content", str(folder), "--out", str(out))
    assert built.exit_code == 1
    assert "ours has open meals" in built.output
    assert "fill ours" in built.output
    assert not (out / "ours").exists()


def test_why_nothing_can_be_proposed_is_said(folder: Path) -> None:
    for name in ("plum-pot", "one"):
        (folder / "recipes" / f"{name}.yaml").unlink()
    result = fill(folder)
    assert result.exit_code == 1
    assert "Cannot be filled: No recipe may be dinner twice in three days" in result.output
    assert fill(folder, "--write", "1").exit_code == 1
    assert trip_of(folder) == TRIP
    told = json.loads(fill(folder, "--json").stdout)
    assert told["proposals"] == []
    assert "Least change" in told["impossible"]


@pytest.mark.parametrize(
    ("told", "says"),
    [
        (("--write", "3"), "there is no proposal 3"),
        (("--write", "0"), "not in the range"),
        (("--seed", "x"), "not a valid integer"),
    ],
)
def test_what_is_asked_for_and_not_there_is_told(
    told: tuple[str, ...], says: str, folder: Path
) -> None:
    (folder / "recipes" / "two.yaml").unlink()
    result = fill(folder, *told)
    assert result.exit_code != 0
    assert says in result.output
    assert trip_of(folder) == TRIP


def test_a_trip_that_is_not_there_is_told(folder: Path) -> None:
    result = tripkit("fill", "our", "--content", str(folder))
    assert result.exit_code == 1
    assert "ours" in result.output


def test_a_trip_with_nothing_open_is_not_written(folder: Path) -> None:
    told = TRIP.replace("open", "{cook: one}", 1).replace("- open", "- cook: two")
    told = told.replace("from: auto, ", "")
    (folder / "trips" / "ours.yaml").write_text(told, "utf-8")
    result = fill(folder, "--write", "1")
    assert result.exit_code == 1
    assert "there is nothing to write" in result.output
    assert trip_of(folder) == told
