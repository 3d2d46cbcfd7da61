"""`--part I/N` as machines of a matrix use it: together the parts are a whole build."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from tests.conftest import files_of, tripkit

ROOT = Path(__file__).resolve().parents[1]
NAMES = ("a-trip", "b-trip", "c-trip")
LEFT = "other kits, and the home, were left as they are."


@pytest.fixture
def mine(in_empty_folder: Path) -> Path:
    """Give a folder of three small trips."""
    assert tripkit("new", "folder", "mine").exit_code == 0
    trips = in_empty_folder / "mine/content/trips"
    text = (trips / "first-trip.yaml").read_text("utf-8")
    for name in NAMES:
        (trips / f"{name}.yaml").write_text(text, "utf-8")
    (trips / "first-trip.yaml").unlink()
    return in_empty_folder / "mine/content"


def build(out: str, *more: str) -> str:
    result = tripkit("build", "--content", "mine/content", "--out", out, *more)
    assert result.exit_code == 0, result.output
    return result.output


def kits_of(out: str) -> dict[str, bytes]:
    """Give all but what the tool remembers of the last build and of the disk."""
    passed_over = ("_last.json", ".seen", ".lock")
    files = files_of(Path(out)).items()
    return {name: held for name, held in files if not name.endswith(passed_over)}


@pytest.mark.parametrize(
    ("part", "says"),
    [
        ("3", "write it like 1/4"),
        ("", "write it like 1/4"),
        ("1/2/3", "write it like 1/4"),
        ("a/b", "write it like 1/4"),
        ("-1/2", "write it like 1/4"),
        (" 1/2", "write it like 1/4"),
        ("1.0/2", "write it like 1/4"),
        ("１/２", "write it like 1/4"),
        ("1/1000000000000", "write it like 1/4"),
        ("0/2", "the first number runs from 1 to the second"),
        ("5/4", "the first number runs from 1 to the second"),
        ("1/0", "the first number runs from 1 to the second"),
    ],
)
def test_a_part_that_is_none_is_refused_before_anything_is_read(
    part: str, says: str, in_empty_folder: Path
) -> None:
    result = tripkit("build", "--content", "nowhere", "--part", part)
    assert result.exit_code == 2, result.output
    assert says in result.output and "nowhere" not in result.output
    assert not list(in_empty_folder.iterdir())


def test_parts_in_one_folder_are_a_whole_build(mine: Path) -> None:
    build("whole")
    first = build("parts", "--part", "1/2")
    assert re.findall(r"Built parts/([a-z-]+) ", first) == ["a-trip", "c-trip"]
    assert f"Part 1/2: {LEFT}" in first
    second = build("parts", "--part", "2/2")
    assert re.findall(r"Built parts/([a-z-]+) ", second) == ["b-trip"]
    assert "at-home" not in first + second
    listed = (Path("parts") / "index.html").read_text("utf-8")
    assert all(f'href="{name}/index.html"' in listed for name in NAMES)
    assert "At home" not in listed
    last = build("parts")
    assert re.findall(r"Built parts/([a-z-]+) ", last) == ["at-home"]
    assert LEFT not in last
    assert kits_of("parts") == kits_of("whole")


def test_parts_of_several_machines_are_put_together(mine: Path) -> None:
    build("whole")
    for number in (1, 2, 3):
        build(f"part-{number}", "--part", f"{number}/3")
        shutil.copytree(f"part-{number}", "together", dirs_exist_ok=True)
    said = build("together")
    assert re.findall(r"Built together/([a-z-]+) ", said) == ["at-home"]
    assert kits_of("together") == kits_of("whole")


def test_a_part_leaves_the_kits_of_others_and_says_so_again(mine: Path) -> None:
    build("kits")
    before = kits_of("kits")
    trip = mine / "trips/b-trip.yaml"
    trip.write_text(trip.read_text("utf-8").replace("title: ", "title: Our "), "utf-8")
    for _ in range(2):
        said = build("kits", "--part", "1/2")
        assert f"Part 1/2: {LEFT}" in said
        assert "Built kits/" not in said
    assert kits_of("kits") == before


def test_of_named_trips_a_part_is_built(mine: Path) -> None:
    said = build("kits", "b-trip", "c-trip", "--part", "2/2")
    assert re.findall(r"Built kits/([a-z-]+) ", said) == ["c-trip"]


def test_a_fault_stops_the_part_that_its_trip_is_in(mine: Path) -> None:
    trip = mine / "trips/b-trip.yaml"
    trip.write_text(trip.read_text("utf-8").replace("title:", "titel:"), "utf-8")
    result = tripkit("build", "--content", "mine/content", "--part", "2/2")
    assert result.exit_code == 1
    assert "did you mean title" in result.output
    assert not Path("kits").exists()
