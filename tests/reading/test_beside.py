# ruff: noqa: E501 - the lines that people read stand whole
"""Files that a trip or a recipe names lie beside it; nothing outside the folder is looked for."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.reading.beside import Beside, NamedFile
from tests.reading.folder_builder import BEAN_POT, GOOD, TRIP, lines, read, write


def told(folder: Path, files: dict[str, str]) -> list[str]:
    return [each for each in lines(read(folder, {**GOOD, **files})) if "[not-used-yet]" not in each]


@pytest.mark.parametrize(
    ("named", "there"),
    [
        ("way.gpx", "trips/way.gpx"),
        ("way.gpx", "trips/tarrow/way.gpx"),
        ("maps/way.gpx", "trips/maps/way.gpx"),
        ("../way.gpx", "way.gpx"),
    ],
)
def test_a_file_beside_the_trip_or_in_its_own_folder_is_found(
    named: str, there: str, tmp_path: Path
) -> None:
    files = {"trips/tarrow.yaml": f"track: {named}\n{TRIP}"}
    assert told(tmp_path / "with", {**files, there: ""}) == []
    assert told(tmp_path / "without", files) == [
        f"trips/tarrow.yaml:1:8: warning: track: there is no file '{named}' beside this one — put it into trips/, or leave `track` out [file-missing]"
    ]


def test_a_trip_in_a_folder_of_its_own_has_its_files_there(tmp_path: Path) -> None:
    files = {"trips/ridge/trip.yaml": f"track: way.gpx\n{TRIP}"}
    assert told(tmp_path / "with", {**files, "trips/ridge/way.gpx": ""}) == []
    (line,) = told(tmp_path / "without", {**files, "trips/way.gpx": ""})
    assert line.startswith("trips/ridge/trip.yaml:1:8: warning: track: there is no file")


def test_a_folder_is_no_track(tmp_path: Path) -> None:
    files = {"trips/tarrow.yaml": f"track: ridge\n{TRIP}", "trips/ridge/way.gpx": ""}
    assert len(told(tmp_path, files)) == 1


def test_what_lies_in_a_folder_of_its_own_goes_before_what_lies_beside(tmp_path: Path) -> None:
    one, other = (b"own", b"beside")
    files = {"trips/tarrow/way.gpx": one, "trips/way.gpx": other}
    beside = Beside(write(tmp_path, files), {}, "trips/tarrow.yaml")
    assert beside.start_of("way.gpx", 100) == one
    assert beside.start_of("way.gpx", 1) == b"ow"  # one more than the most


@pytest.mark.parametrize("named", ["../../passwd", "/etc/passwd", "a/../../../x.jpg"])
def test_a_path_out_of_the_content_folder_is_refused_and_not_looked_at(
    named: str, tmp_path: Path
) -> None:
    name = named.rpartition("/")[2]
    text = f"{BEAN_POT}picture: {{file: {named}, shows: The pot}}\n"
    assert told(tmp_path, {"recipes/bean-pot.yaml": text}) == [
        f"recipes/bean-pot.yaml:13:17: error: picture: '{named}' lies outside the content folder — put the file beside this one, and write `file: {name}` [file-outside]"
    ]


def test_a_link_out_of_the_content_folder_is_refused(tmp_path: Path) -> None:
    outside = tmp_path / "outside.gpx"
    outside.write_text("", "utf-8")
    (tmp_path / "my" / "trips").mkdir(parents=True)
    (tmp_path / "my" / "trips" / "way.gpx").symlink_to(outside)
    (line,) = told(tmp_path, {"trips/tarrow.yaml": f"track: way.gpx\n{TRIP}"})
    assert "[file-outside]" in line


@pytest.mark.parametrize(("most", "data"), [(6, b"beside"), (5, b"")])
def test_a_named_file_has_its_bytes_where_it_is_not_too_large(
    most: int, data: bytes, tmp_path: Path
) -> None:
    beside = Beside(write(tmp_path, {"trips/way.gpx": b"beside"}), {}, "trips/tarrow.yaml")
    assert NamedFile(beside, "way.gpx", most).data() == data
    assert NamedFile(beside, "other.gpx", most).data() == b""


def test_a_file_that_is_not_written_yet_lies_where_it_will(tmp_path: Path) -> None:
    files = {"trips/way.gpx": b"to be written"}
    beside = Beside(write(tmp_path, {"trips/way.gpx": b"of before"}), files, "trips/tarrow.yaml")
    assert beside.start_of("way.gpx", 100) == b"to be written"
    assert NamedFile(beside, "way.gpx", 100).data() == b"to be written"


def test_a_file_that_cannot_be_read_has_no_bytes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    beside = Beside(write(tmp_path, {"trips/way.gpx": b"beside"}), {}, "trips/tarrow.yaml")

    def refuse(*_: object) -> None:
        raise PermissionError

    monkeypatch.setattr(Path, "open", refuse)
    assert NamedFile(beside, "way.gpx", 100).data() == b""
