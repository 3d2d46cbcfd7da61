"""`tripkit ways`: side by side, as data, and what is asked wrongly."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli import main
from tests.planning.folders import day_trip, write_folder


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    write_folder(tmp_path, {"hand": day_trip()})
    return tmp_path


def ways(folder: Path, *told: str) -> Result:
    return CliRunner().invoke(main, ["ways", "--content", str(folder), *told])


def test_each_way_is_told_and_what_is_missing(folder: Path) -> None:
    result = ways(folder, "berry", "3 kg")
    assert result.exit_code == 0, result.output
    output = result.output.replace("\N{NO-BREAK SPACE}", " ")
    assert output.startswith("berry, 3 kg into the dryer")
    # 80 % water in, 20 % left of it: a quarter.
    assert "dried:         750 g" in output
    assert "costs:         not told (price of berry" in output
    assert "Small home freeze dryer" in output and "Bought" in output


def test_a_script_gets_the_names_it_was_promised(folder: Path) -> None:
    data = json.loads(ways(folder, "berry", "3 kg", "--json").stdout)
    assert {each["method"] for each in data["ways"]} == {
        "dehydrator",
        "oven",
        "sun",
        "freeze-dryer",
        "bought",
    }
    names = {
        "method",
        "dryer",
        "dried_g",
        "room_ml",
        "water_back_ml",
        "soak_min",
        "hours",
        "runs",
        "energy_kwh",
        "cost",
        "portion_cost",
        "keeps_until",
        "cautions",
    }
    assert all(names <= each.keys() for each in data["ways"])
    assert all({"dryer", "against", "runs", "years"} <= each.keys() for each in data["pays"])


@pytest.mark.parametrize(
    ("told", "code", "says"),
    [
        (("bery", "3 kg"), 1, "there is no food 'bery'"),
        (("berry", "3"), 2, "MASS"),
        (("berry", "0 g"), 2, "above nothing"),
        (("berry", "3 l"), 2, "MASS"),
    ],
)
def test_what_is_asked_wrongly_is_told(
    folder: Path, told: tuple[str, ...], code: int, says: str
) -> None:
    result = ways(folder, *told)
    assert result.exit_code == code and says in result.output
