"""`tripkit labels` as a person runs it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.conftest import tripkit
from tests.planning.folders import Record, day_trip, write_folder
from tests.site.test_home_site import rings

WET = rings(id="wet", food="stew-meat", fresh="1000 g", dried="700 g")
NEXT: Record = {**rings(id="next", planned="2031-07-01")}
NEXT.pop("done")
NEXT.pop("dried")


@pytest.fixture
def content(in_empty_folder: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1936137600")  # 2031-05-10
    write_folder(Path("content"), {"hand": day_trip()}, batches=[rings(), WET, NEXT])
    return in_empty_folder


def test_labels_of_all_packs_left_are_written(content: Path) -> None:
    result = tripkit("labels")
    assert result.exit_code == 0, result.output
    assert "4 labels in labels.html" in result.output
    assert (
        "No label for stew-meat, cooked and dried (wet): Throw it out. It is not dry"
        in result.output
    )
    html = (content / "labels.html").read_text("utf-8")
    assert html.count('data-batch="rings"') == 4
    assert 'data-batch="wet"' not in html
    assert "Throw it out." in html
    assert "script-src 'sha256-" in html  # nothing but its own script may run


def test_named_batches_alone_from_the_first_free_label(content: Path) -> None:
    result = tripkit("labels", "rings", "next", "--first", "3", "--out", "few.html")
    assert result.exit_code == 0, result.output
    assert "No label for next: it is not dried yet, or no pack of it is left." in result.output
    html = (content / "few.html").read_text("utf-8")
    assert html.index("label blank") < html.index('data-batch="rings"')
    assert html.count('class="label blank"') == 2


@pytest.mark.parametrize(
    ("arguments", "code", "says"),
    [
        (("rinks",), 1, "there is no batch 'rinks'"),
        (("--sheet", "plein"), 1, "there is no sheet of labels 'plein'"),
        (("--sheet", "plain", "--first", "11"), 2, "a sheet has 10 labels"),
        (("--first", "0"), 2, "0 is not in the range"),
        (("--out", "nowhere/labels.html"), 1, "nowhere/labels.html cannot be written"),
    ],
)
def test_what_cannot_be_is_said(
    arguments: tuple[str, ...], code: int, says: str, content: Path
) -> None:
    result = tripkit("labels", *arguments)
    assert result.exit_code == code
    assert says in result.output
    assert not (content / "labels.html").exists()


def test_a_file_of_somebody_else_is_not_written_over(content: Path) -> None:
    Path("labels.html").write_text("mine")
    result = tripkit("labels")
    assert result.exit_code == 1
    assert "labels.html is there already and holds something else" in result.output
    assert Path("labels.html").read_text() == "mine"


def test_an_older_file_of_ours_is_written_anew(content: Path) -> None:
    assert tripkit("labels").exit_code == 0
    assert tripkit("labels", "rings").exit_code == 0
