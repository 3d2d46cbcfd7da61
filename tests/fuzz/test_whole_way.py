"""Some hundreds of spoiled inputs, and each that ever went wrong; more: `python -m tests.fuzz`."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from tests.fuzz import spoiling, whole_way
from tests.fuzz.__main__ import DAY

INPUTS, AT_ONCE = 500, 20
CASES = [
    int(line.split()[0])
    for line in (Path(__file__).parent / "cases.txt").read_text("utf-8").splitlines()
    if not line.startswith("#")
]


@pytest.fixture(autouse=True)
def same_day(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", DAY)


@pytest.mark.parametrize("first", range(0, INPUTS, AT_ONCE))
def test_spoiled_inputs_are_answered_in_words(first: int) -> None:
    faults = [whole_way.send(number) for number in range(first, first + AT_ONCE)]
    assert [fault for fault in faults if fault] == []


@pytest.mark.parametrize("number", CASES)
def test_what_once_went_wrong_stays_mended(number: int) -> None:
    assert whole_way.send(number) is None


def test_the_texts_that_are_spoiled_are_right_before(tmp_path: Path) -> None:
    (tmp_path / "content").mkdir()
    whole_way.write(tmp_path / "content", {k: v.encode() for k, v in whole_way.TEXTS.items()})
    assert whole_way.run(tmp_path, ("check",), set()) == ""
    assert whole_way.kit_zip()


@pytest.mark.parametrize(
    "planted, told",
    [
        ("raise RuntimeError('x')", "RuntimeError: x"),
        ("click.echo('a\\u202eb')", "said '\\u202e'"),
        ("raise SystemExit(9)", "ended with 9"),
        ("Path('sources.yaml').unlink()", "has written"),
        ("Path('../mine.txt').write_text('x')", "was touched"),
    ],
)
def test_a_planted_fault_is_found(
    planted: str, told: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import click

    @click.command()
    @click.option("--content")
    def check(content: str) -> None:
        exec(planted, {"click": click, "Path": Path})

    (tmp_path / "content").mkdir()
    (tmp_path / "mine.txt").write_text("mine")
    (tmp_path / "content/sources.yaml").write_text("[]")
    group = click.Group(commands={"check": check})
    monkeypatch.setattr(whole_way, "main", group)
    assert told in whole_way.run(tmp_path, ("check",), {"mine.txt"})


def test_the_same_number_spoils_the_same() -> None:
    first, again = (
        spoiling.spoiled_folder(random.Random(7), whole_way.TEXTS, whole_way.TREES) for _ in "ab"
    )
    assert first == again
    assert first != {name: text.encode() for name, text in whole_way.TEXTS.items()}
