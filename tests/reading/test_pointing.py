"""Scripts are told the field that each problem is about, by its path."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.place import Place
from builder.problems import Problem
from builder.reading.text.pointing import fields_of
from tests.reading.folder_builder import TRIP, changed, read


def problem(file: str, line: int, column: int, kind: str = "x") -> Problem:
    return Problem(Place(file, line, column), kind, "it is wrong", "mend it")


TEXT = """\
title: Walk
party:
  - {name: Ash, mass: 64 kg}
  - Fern
"""


@pytest.mark.parametrize(
    ("line", "column", "kind", "field"),
    [
        (1, 1, "missing", ""),  # of the record, not of the key that begins there too
        (1, 1, "key-unknown", "title"),
        (1, 8, "x", "title"),
        (2, 1, "x", "party"),
        (3, 5, "missing", "party.0"),
        (3, 6, "key-unknown", "party.0.name"),
        (3, 12, "x", "party.0.name"),
        (3, 23, "x", "party.0.mass"),
        (4, 5, "x", "party.1"),
        (9, 9, "x", ""),
    ],
)
def test_a_place_is_named_by_the_way_that_leads_there(
    line: int, column: int, kind: str, field: str, tmp_path: Path
) -> None:
    file = tmp_path / "trip.yaml"
    file.write_text(TEXT)
    assert fields_of((problem(str(file), line, column, kind),)) == (field,)


def test_the_fields_of_what_was_read_amiss(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    text = changed(TRIP, "mass: 64 kg", "mass: heavy").replace("title:", "tittle:")
    found = read(tmp_path, {"trips/tarrow.yaml": text})
    monkeypatch.chdir(tmp_path)
    told = dict(zip((each.kind for each in found.problems), fields_of(found.problems), strict=True))
    assert told["key-unknown"] == "tittle"
    assert "party.0.mass" in told.values() and "days.0.meals.dinner.0.cook" in told.values()


def test_a_file_that_cannot_be_read_has_no_fields(tmp_path: Path) -> None:
    (tmp_path / "bytes.yaml").write_bytes(b"\xff\xfe\x00")
    files = (str(tmp_path / "none.yaml"), str(tmp_path / "bytes.yaml"))
    assert fields_of(tuple(problem(file, 1, 1) for file in files)) == ("", "")
