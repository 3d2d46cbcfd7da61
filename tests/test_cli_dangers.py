"""What `build` and `check` say of each trip's dangers, and when `--strict` stops at them."""

from __future__ import annotations

import json
from pathlib import Path

from tests.conftest import tripkit
from tests.test_cli import small_folder

AVOIDS = "avoids: [peanuts]"  # the first trip hands out peanuts as a snack
SAID = "danger: Someone must not eat this. Alder must not eat"


def with_danger(folder: Path) -> None:
    content = small_folder(folder / "mine")
    trip = content / "trips/first-trip.yaml"
    trip.write_text(trip.read_text().replace("avoids: []", AVOIDS, 1))


def test_a_trip_without_a_danger_of_its_own_says_what_is_read_aloud(in_empty_folder: Path) -> None:
    small_folder(in_empty_folder / "mine")
    said = tripkit("check", "--content", "mine/content", "--strict")
    assert said.exit_code == 0, said.output
    # Its filter lets viruses through; the other cares and notes are read aloud before any trip.
    assert "First trip (first-trip): 0 dangers of its own, 1 care, 0 notes." in said.output
    aloud = "to read aloud before you leave: Stove and embers stay outside; Keep gas canisters cool"
    assert f"{aloud}, and 5 more." in said.output
    assert "danger: " not in said.output
    assert "to mend that" not in said.output


def test_check_ends_with_the_dangers_in_words(in_empty_folder: Path) -> None:
    with_danger(in_empty_folder)
    said = tripkit("check", "--content", "mine/content")
    assert said.exit_code == 0, said.output
    assert SAID in said.output
    assert "    to mend that: give the dish `for: [not nuts]`" in said.output
    assert tripkit("check", "--content", "mine/content", "--strict").exit_code == 1


def test_build_says_dangers_each_time_and_strict_builds_nothing(in_empty_folder: Path) -> None:
    with_danger(in_empty_folder)
    strict = tripkit("build", "--content", "mine/content", "--strict")
    assert strict.exit_code == 1
    assert SAID in strict.output
    assert not Path("kits/first-trip").exists()
    for _ in range(2):  # the second time nothing changed
        built = tripkit("build", "--content", "mine/content")
        assert built.exit_code == 0, built.output
        assert built.output.count("First trip (first-trip): 2 dangers of its own") == 1
        assert built.output.count(SAID) == 2  # peanuts one day, peanut butter the other
    assert "Nothing changed" in built.output
    again = tripkit("build", "--content", "mine/content", "--strict")
    assert again.exit_code == 1
    assert SAID in again.output


def test_a_public_build_names_nobody_in_its_folder(in_empty_folder: Path) -> None:
    with_danger(in_empty_folder)
    said = tripkit("build", "--content", "mine/content", "--public")
    assert "danger: Someone must not eat this." in said.output
    files = [path for path in Path("kits-public").rglob("*") if path.is_file()]
    assert files
    assert [path for path in files if b"Alder" in path.read_bytes()] == []


def test_check_tells_a_script_the_same(in_empty_folder: Path) -> None:
    with_danger(in_empty_folder)
    Path("mine/content/foods/more.yml").write_text("[]\n")
    said = tripkit("check", "--content", "mine/content", "--json")
    assert said.exit_code == 0, said.output
    told = json.loads(said.output)
    (problem,) = told["problems"]
    assert {"level", "file", "line", "column", "field", "text", "mend"} <= set(problem)
    assert (problem["level"], problem["file"], problem["line"], problem["column"]) == (
        "warning",
        "mine/content/foods/more.yml",
        1,
        1,
    )
    (trip,) = told["trips"]
    own = [each for each in trip["dangers"] if not each["aloud"]]
    assert [each["id"] for each in own] == ["not-to-be-eaten"] * 2
    assert own[0]["text"].startswith("Someone must not eat this. Alder must not eat")
    assert trip["cares"] > 0
    assert tripkit("check", "--content", "mine/content", "--json", "--strict").exit_code == 1


def test_check_names_the_field_of_a_problem(in_empty_folder: Path) -> None:
    content = small_folder(in_empty_folder / "mine")
    trip = content / "trips/first-trip.yaml"
    text = trip.read_text().replace("camp_altitude: 750 m", "camp_altitude: 750 kg")
    trip.write_text(text.replace("washing: 1 l", "woshing: 1 l"))
    said = tripkit("check", "--content", "mine/content", "--json")
    assert said.exit_code == 1
    problems = json.loads(said.output)["problems"]
    assert [each["field"] for each in problems] == ["woshing", "days.0.camp_altitude"]
    assert all(each["mend"] and each["text"] for each in problems)


def test_no_problem_is_told_twice(in_empty_folder: Path) -> None:
    content = small_folder(in_empty_folder / "mine")
    batch = content / "batches/first-batches.yaml"
    batch.write_text(batch.read_text().replace("dried: 126 g", "dried: 1260 g"))
    said = tripkit("build", "--content", "mine/content")
    lines = [line for line in said.stderr.splitlines() if ": error: " in line]
    assert lines
    assert len(lines) == len(set(lines))
