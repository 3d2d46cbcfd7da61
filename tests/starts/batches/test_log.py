"""Several batches are logged at once: all of them, or none."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from builder.problems import ProblemsFound
from builder.reading.drying.log_files import Record, added_to_yaml
from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from builder.reading.text.spelling import Edit
from builder.reading.text.yaml_door import Node
from builder.starts import StartError, log_batches
from builder.starts.batches import writing
from tests.conftest import files_of

SHIPPED = Layer(Path(__file__).parents[3] / "content", "shipped", ALWAYS_SHIPPED)


def planned(food: str, day: datetime.date) -> tuple[Record, datetime.date]:
    record = {"food": food, "method": "oven", "planned": day.isoformat(), "fresh": "1 kg"}
    return record, day


def test_each_goes_into_the_log_of_its_year_under_an_id_of_its_own(tmp_path: Path) -> None:
    layers = [SHIPPED, Layer(tmp_path, "mine")]
    (tmp_path / "batches").mkdir()
    old = "id: old\nfood: apple-raw   # ours\nmethod: oven\nplanned: 2031-12-01\nfresh: 3 kg\n"
    (tmp_path / "batches" / "2031.yaml").write_text(old)
    last, first = datetime.date(2031, 12, 30), datetime.date(2032, 1, 2)
    wanted = [planned("apple-raw", last), planned("apple-raw", last), planned("apple-raw", first)]
    found = log_batches(layers, wanted)
    assert [(each.judged.batch.id, each.file) for each in found] == [
        ("apple-raw-2031-12-30", "mine/batches/2031.yaml"),
        ("apple-raw-2031-12-30-2", "mine/batches/2031.yaml"),
        ("apple-raw-2032-01-02", "mine/batches/2032.yaml"),
    ]
    folder = read_folder(layers)
    assert not folder.problems
    assert list(folder.content.batches) == ["old", *(each.judged.batch.id for each in found)]
    text = (tmp_path / "batches" / "2031.yaml").read_text()
    assert text.startswith("- id: old\n  food: apple-raw   # ours\n")


def test_where_one_is_wrong_none_is_written(tmp_path: Path) -> None:
    layers = [SHIPPED, Layer(tmp_path, "mine")]
    day = datetime.date(2031, 12, 30)
    with pytest.raises(ProblemsFound, match="there is no food 'aple-raw'"):
        log_batches(layers, [planned("apple-raw", day), planned("aple-raw", day)])
    assert files_of(tmp_path) == {}
    assert log_batches(layers, []) == []


def test_the_same_mistake_once_more_is_a_new_one(tmp_path: Path) -> None:
    layers = [SHIPPED, Layer(tmp_path, "mine")]
    (tmp_path / "batches").mkdir()
    old = "- {id: old, food: aple-raw, method: oven, planned: 2031-12-01, fresh: 3 kg}\n"
    (tmp_path / "batches" / "2031.yaml").write_text(old)
    day = datetime.date(2031, 12, 30)
    with pytest.raises(ProblemsFound, match="there is no food 'aple-raw'") as found:
        log_batches(layers, [planned("aple-raw", day)])
    assert [each.place.line for each in found.value.problems] == [2]
    log_batches(layers, [planned("apple-raw", day)])


def test_nothing_is_added_where_another_batch_would_change(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    layers = [SHIPPED, Layer(tmp_path, "mine")]
    (tmp_path / "batches").mkdir()
    old = "- {id: old, food: apple-raw, method: oven, planned: 2031-12-01, fresh: 3 kg}\n"
    (tmp_path / "batches" / "2031.yaml").write_text(old)

    def clumsy(text: str, root: Node | None, record: Record) -> list[Edit]:
        weight = text.index("3 kg")
        return [Edit(weight, weight + 1, "4"), *added_to_yaml(text, root, record)]

    monkeypatch.setattr(writing, "added_to_yaml", clumsy)
    with pytest.raises(StartError, match="in a way that nothing can be added to"):
        log_batches(layers, [planned("apple-raw", datetime.date(2031, 12, 30))])
    assert (tmp_path / "batches" / "2031.yaml").read_text() == old
