"""`tripkit runs`: told, as data, as a calendar, and written into the log."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from builder.cli import main
from tests.planning.folders import write_folder
from tests.planning.households import pot, trip_of

# A batch that was dried in it tells which dryer stands at home.
OWN = """\
# My log.
- id: old-berries   # from the garden
  food: berry
  method: dehydrator
  dryer: shelf-dryer
  done: 2031-01-01
  fresh: 1000 g
  dried: 240 g
  used: 1
  packs: {count: 1}
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    trip = trip_of({"dinner": [{"cook": "pot"}]})
    write_folder(tmp_path, {"hand": trip}, recipes=[pot(leaf="60 g dehydrator")])
    (tmp_path / "batches" / "log.yaml").write_text(OWN, "utf-8")
    return tmp_path


def runs(folder: Path, *told: str, at: str = "2031-06-01") -> Result:
    return CliRunner().invoke(main, ["runs", "--content", str(folder), "--at", at, *told])


def data(folder: Path, *told: str) -> dict[str, Any]:
    result = runs(folder, "--json", *told)
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(result.stdout)
    return found


def test_it_tells_each_run_with_its_steps(folder: Path) -> None:
    result = runs(folder)
    assert result.exit_code == 0, result.output
    output = result.output.replace("\N{NO-BREAK SPACE}", " ")
    assert "Thu 2031-06-19 10:00 to Thu 2031-06-19 22:00  Five-tray dehydrator, 12 h" in output
    assert "567 g leaf → 63 g dried, 1 pack, for hand day 1 dinner" in output
    assert "Thu 2031-06-19 22:00  Pack leaf: 1 pack, labelled" in output


def test_a_script_gets_the_names_it_was_promised(folder: Path) -> None:
    (run,) = data(folder)["runs"]
    assert run["run"] == "shelf-dryer-2031-06-19-1000"
    assert (run["dryer"], run["hours"]) == ("shelf-dryer", 12)
    assert (run["start"], run["end"]) == ("2031-06-19T10:00", "2031-06-19T22:00")
    # 60 g and 5 % to spare, of leaf that dries to a ninth.
    assert (run["load_g"], run["water_g"]) == pytest.approx((567, 504))
    (batch,) = run["batches"]
    assert (batch["food"], batch["for"]) == ("leaf", [{"trip": "hand", "day": 1, "meal": "dinner"}])


def test_written_runs_stand_in_the_log_and_are_not_planned_again(folder: Path) -> None:
    result = runs(folder, "--write")
    assert result.exit_code == 0, result.output
    text = (folder / "batches" / "log.yaml").read_text("utf-8")
    others = [each for each in (folder / "batches").iterdir() if each.name != "log.yaml"]
    assert OWN.strip() in text and (others == [] or "leaf" in others[0].read_text("utf-8"))
    again = data(folder)
    (run,) = again["runs"]
    assert (run["run"], run["state"]) == ("shelf-dryer-2031-06-19-1000", "planned")
    assert (run["start"], run["batches"][0]["batch"]) == ("2031-06-19T10:00", "leaf-2031-06-19")
    assert "Nothing new to plan" in runs(folder, "--write").output


def test_a_calendar_is_written_whole(folder: Path) -> None:
    file = folder / "runs.ics"
    assert runs(folder, "--ics", str(file)).exit_code == 0
    assert file.read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")
    assert [each.name for each in folder.iterdir() if "runs.ics" in each.name] == ["runs.ics"]


def test_no_calendar_is_made_of_nothing(folder: Path) -> None:
    file = folder / "runs.ics"
    result = runs(folder, "--ics", str(file), at="2031-07-01")
    assert result.exit_code == 0 and not file.exists()
    assert "Nothing is left to dry for the trips after 2031-07-01." in result.output


def test_a_folder_that_is_not_there_is_told(folder: Path) -> None:
    result = runs(folder, "--ics", str(folder / "none" / "runs.ics"))
    assert result.exit_code == 1 and "cannot be written" in result.output


def test_an_unknown_trip_is_told_with_the_nearest(folder: Path) -> None:
    result = runs(folder, "hond")
    assert result.exit_code == 1
    assert "there is no trip 'hond'" in result.output and "hand" in result.output


def test_a_date_in_other_words_is_told(folder: Path) -> None:
    result = runs(folder, at="soon")
    assert result.exit_code == 2 and "write it like 2031-09-04" in result.output
