"""What is new is written whole or not at all, and never over anything."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from builder.starts import NewTrip, StartError, start_folder, start_record, start_trip
from builder.starts.fresh import checked_id, example, write_new

SHIPPED = Layer(Path(__file__).parents[2] / "content", "shipped", ALWAYS_SHIPPED, vouched=True)


def test_what_can_be_an_id_is_proposed() -> None:
    with pytest.raises(StartError) as stop:
        checked_id("Plum/Brød 2")
    assert stop.value.mend.startswith("write plum-brod-2 (")


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("a-trip-2", ""),
        ("con", "Windows can have no file of that name"),
        ("com1", "Windows can have no file of that name"),
        ("A trip", "cannot be an id"),
        ("", "cannot be an id"),
        ("a--b", "cannot be an id"),
        ("../a", "cannot be an id"),
    ],
)
def test_what_can_be_an_id(name: str, says: str) -> None:
    if not says:
        assert checked_id(name) == name
        return
    with pytest.raises(StartError, match=says) as stop:
        checked_id(name)
    assert stop.value.says and stop.value.mend


@pytest.mark.parametrize("kind", ["file", "folder", "link", "dead link"])
def test_nothing_is_written_where_one_of_the_files_is_there(tmp_path: Path, kind: str) -> None:
    there, other = tmp_path / "b.yaml", tmp_path / "a.yaml"
    if kind == "file":
        there.write_text("mine")
    elif kind == "folder":
        there.mkdir()
    else:
        there.symlink_to(tmp_path if kind == "link" else tmp_path / "gone")
    with pytest.raises(StartError, match=r"b\.yaml is there already"):
        write_new({other: b"x", there: b"y"})
    assert not other.exists() and not (tmp_path / "gone").exists()


def test_what_was_begun_is_taken_back_where_the_rest_cannot_be_written(tmp_path: Path) -> None:
    (tmp_path / "a").write_text("a file, where a folder is needed")
    with pytest.raises(StartError, match="could not be written") as stop:
        write_new({tmp_path / "one.yaml": b"x", tmp_path / "a" / "two.yaml": b"y"})
    assert "space left" in stop.value.mend
    assert [each.name for each in tmp_path.iterdir()] == ["a"]


def test_files_are_written_into_folders_that_are_made(tmp_path: Path) -> None:
    paths = [tmp_path / "new" / "deep" / "a.yaml", tmp_path / "b.yaml"]
    assert write_new(dict(zip(paths, (b"x", b"y"), strict=True))) == paths
    assert [path.read_bytes() for path in paths] == [b"x", b"y"]


@pytest.mark.parametrize("kind", ["new", "empty", "full", "file"])
def test_a_folder_is_started_where_nothing_is(tmp_path: Path, kind: str) -> None:
    folder = tmp_path / "mine"
    if kind in ("empty", "full"):
        folder.mkdir()
    if kind == "full":
        (folder / "notes").write_text("mine")
    elif kind == "file":
        folder.write_text("mine")
    if kind in ("full", "file"):
        with pytest.raises(StartError, match="is there already and not empty"):
            start_folder(folder)
        return
    written = start_folder(folder)
    assert written and all(path.is_file() for path in written)
    found = read_folder([SHIPPED, Layer(folder / "content", "mine")])
    assert found.problems == () and len(found.content.trips) == 1


@pytest.mark.parametrize(
    ("kind", "room"), [("recipe", "recipes"), ("batch", "batches"), ("food", "foods")]
)
def test_a_record_is_started_in_a_file_of_its_own(tmp_path: Path, kind: str, room: str) -> None:
    layers = [SHIPPED, Layer(tmp_path, "mine")]
    assert start_record(tmp_path, layers, kind, "own-thing") == [tmp_path / room / "own-thing.yaml"]
    text = (tmp_path / room / "own-thing.yaml").read_text("utf-8")
    assert "own-thing" in text and "NAME-" not in text
    assert (kind, "own-thing") in read_folder(layers).texts
    with pytest.raises(
        StartError, match=f"there is a {kind} 'own-thing' already, in {room}/"
    ) as stop:
        start_record(tmp_path, layers, kind, "own-thing")
    assert stop.value.mend.endswith(", or edit that one") is (kind != "food")
    with pytest.raises(StartError, match="cannot be an id"):
        start_record(tmp_path, layers, kind, "Own thing")


def test_only_a_food_cannot_be_edited_where_it_ships(tmp_path: Path) -> None:
    with pytest.raises(StartError, match="there is a food 'olive-oil' already") as stop:
        start_record(tmp_path, [SHIPPED, Layer(tmp_path, "mine")], "food", "olive-oil")
    assert stop.value.mend == "choose another name"


def test_an_example_is_called_as_people_say_it() -> None:
    assert "Two days out" in example("trip.yaml", "two-days-out")


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        (NewTrip("No Good"), "cannot be an id"),
        (NewTrip("next", party=("Ash", "Ash")), "somebody is named twice"),
        (NewTrip("next", source="gone"), "there is no trip 'gone' in mine"),
        (NewTrip("next", source="gone.zip"), "there is no file gone.zip"),
        (NewTrip("next", source="some/gone"), "there is no file some/gone"),
        (NewTrip("next", source="first", theirs=("oil",)), "goes with a kit of somebody else"),
    ],
)
def test_a_trip_that_cannot_be_started_is_told_why(
    tmp_path: Path, asked: NewTrip, says: str
) -> None:
    with pytest.raises(StartError, match=says):
        start_trip(tmp_path, "mine", [SHIPPED, Layer(tmp_path, "mine")], asked)
    assert list(tmp_path.iterdir()) == []


def test_a_trip_is_started_from_the_example(tmp_path: Path) -> None:
    layers = [SHIPPED, Layer(tmp_path, "mine")]
    asked = NewTrip("two-days", start=datetime.date(2032, 6, 12), party=("Ash", "Fern"))
    written, notes = start_trip(tmp_path, "mine", layers, asked)
    assert (written, notes) == ([tmp_path / "trips" / "two-days.yaml"], [])
    trip = read_folder(layers).content.trips["two-days"]
    assert (trip.title, trip.start) == ("Two days", datetime.date(2032, 6, 12))
    assert [person.name for person in trip.party] == ["Ash", "Fern"]
    with pytest.raises(StartError, match="there is a trip 'two-days' already"):
        start_trip(tmp_path, "mine", layers, asked)
