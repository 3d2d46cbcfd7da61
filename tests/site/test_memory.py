"""What one build tells the next is read as it was written, or not at all."""

from __future__ import annotations

import math
from collections.abc import Mapping
from pathlib import Path

import pytest

from builder.model.place import Place
from builder.problems import Problem
from builder.record import dataclass
from builder.site.folder.memory import as_text, told_as, told_in, write_over


@dataclass(frozen=True, slots=True)
class Note:
    """Something to remember, of all that such records are made of."""

    name: str
    hours: float
    files: Mapping[str, str]
    problems: tuple[Problem, ...] = ()


NOTE = Note(
    "walk", math.inf, {"b": "\udc80", "a": "1"}, (Problem(Place("a.yaml", 2, 1), "x", "s"),)
)


def test_a_record_is_read_as_it_was_written(tmp_path: Path) -> None:
    file = tmp_path / "note"
    write_over(file, as_text(NOTE))
    assert told_in(file, Note) == NOTE
    assert [each.name for each in tmp_path.iterdir()] == ["note"]


def test_it_is_written_the_same_each_time() -> None:
    other = Note(NOTE.name, NOTE.hours, dict(sorted(NOTE.files.items())), NOTE.problems)
    assert as_text(other) == as_text(NOTE)


@pytest.mark.parametrize(
    "spoiled",
    [
        b"",
        b"\xff",
        b"[]",
        b"{}",
        b"[" * 100_000,
        as_text(NOTE)[:-1].encode(),
        as_text(NOTE).replace('"walk"', "5").encode(),
        as_text(NOTE).replace('"a.yaml"', "null").encode(),
        as_text(NOTE).replace("Infinity", '"long"').encode(),
    ],
)
def test_what_is_not_whole_or_of_another_kind_is_not_there(spoiled: bytes, tmp_path: Path) -> None:
    assert told_as(spoiled, Note) is None
    (tmp_path / "note").write_bytes(spoiled)
    assert told_in(tmp_path / "note", Note) is None


def test_a_file_that_is_not_there_tells_nothing(tmp_path: Path) -> None:
    assert told_in(tmp_path / "note", Note) is None
    assert told_in(tmp_path, Note) is None
