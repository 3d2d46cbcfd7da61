"""What the benchmark of reading writes and measures is there: it is run seldom."""

from __future__ import annotations

from pathlib import Path

from builder.reading.files import ROOMS
from builder.reading.folder import ALWAYS_SHIPPED, Folder, Layer, read_folder
from tests.benchmarks import reading

ROOT = Path(__file__).resolve().parents[2]


def _read(content: Path) -> Folder:
    shipped = Layer(ROOT / "content", "shipped", ALWAYS_SHIPPED, vouched=True)
    return read_folder([shipped, Layer(content, "measured", ROOMS)])


def test_the_measured_folder_is_without_mistakes(tmp_path: Path) -> None:
    of = {"foods": 3, "batches": 4, "recipes": 5, "trips": 2, "gear": 2}
    found = _read(reading.write_folder(tmp_path, of))
    assert found.problems == ()
    for kind, count in of.items():
        assert len(list((tmp_path / kind).iterdir())) == count
    assert len(found.content.trips) == 2


def test_each_bad_item_is_told(tmp_path: Path) -> None:
    found = _read(reading.write_bad_items(tmp_path, 1_500))
    assert len({problem.place for problem in found.problems}) >= 1_500


def test_both_checkouts_are_measured(tmp_path: Path) -> None:
    folder = reading.write_folder(tmp_path, {"foods": 1})
    taken_s = reading.compared_s((ROOT, ROOT), folder, turns=1)
    assert len(taken_s) == 2
    assert all(0 < each < 60 for each in taken_s)


def test_the_mixed_folder_holds_2000_files() -> None:
    assert sum(reading.MIXED.values()) == 2_000
