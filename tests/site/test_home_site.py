"""The site of the home: when it is built, when not, and that nobody else gets to see it."""

from __future__ import annotations

import datetime
import json
import shutil
from pathlib import Path
from typing import Any

import pytest

from builder.pages.home.label_sheet import labels_file
from builder.site.folder.index_page import index_page
from tests.conftest import files_of, tripkit
from tests.planning.folders import Record, day_trip, write_folder
from tests.site.test_public import all_files, told_in

PAGES = ("index.html", "stock.html", "labels.html", "labels-plain.html", "shopping.html")
MARK = "zqshelf"


def rings(**more: object) -> Record:
    return {
        "id": "rings",
        "food": "berry",
        "method": "dehydrator",
        "done": "2031-05-01",
        "fresh": "2000 g",
        "dried": "400 g",
        "packs": {"count": 4, "in": "foil", "shelf": MARK},
        "kept_at": "15.6 degC",
        **more,
    }


@pytest.fixture
def content(in_empty_folder: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Give a folder of one trip and one batch, on a day in May 2031."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1936137600")  # 2031-05-10
    write_folder(Path("content"), {"hand": day_trip()}, batches=[rings()])
    return Path("content")


def built(*arguments: str) -> str:
    result = tripkit("build", *arguments)
    assert result.exit_code == 0, result.output
    return result.output


def test_building_all_builds_the_home_too(content: Path) -> None:
    assert "Built kits/at-home (At home)" in built()
    assert all((Path("kits/at-home") / page).is_file() for page in PAGES)
    assert (Path("kits/at-home.zip")).is_file()
    data = json.loads(Path("kits/at-home/home.json").read_text("utf-8"))
    assert data["day"] == "2031-05-10"
    assert [(line["batch"], line["packs_free"]) for line in data["stock"]] == [("rings", 4)]
    index = Path("kits/index.html").read_text("utf-8")
    assert '<a href="at-home/index.html">At home</a>' in index
    assert "at-home.zip" not in index  # nothing to hand around


@pytest.mark.parametrize("arguments", [("hand",), ("--part", "1/2"), ("--public",)])
def test_one_trip_a_part_and_kits_for_everybody_have_no_home(
    arguments: tuple[str, ...], content: Path
) -> None:
    built(*arguments, "--out", "kits")
    assert not Path("kits/at-home").exists()
    assert "at-home" not in Path("kits/index.html").read_text("utf-8")


def test_a_folder_without_a_log_has_none(in_empty_folder: Path) -> None:
    write_folder(Path("content"), {"hand": day_trip()})
    assert "at-home" not in built()


def test_no_public_file_tells_of_the_home(content: Path) -> None:
    built("--public", "--out", "public")
    built("--out", "private")
    assert told_in(all_files(Path("private")), MARK)
    public = all_files(Path("public"))
    assert told_in(public, MARK) == []
    assert not any("home" in name for name in public)


def test_public_kits_are_not_put_beside_what_is_private(content: Path) -> None:
    built("--out", "both")
    result = tripkit("build", "--public", "--out", "both")
    assert result.exit_code == 1
    assert "Stopped: both/at-home is private" in result.output


def test_nothing_is_built_twice_on_a_day_and_a_new_day_builds_the_home_alone(
    content: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("SOURCE_DATE_EPOCH")
    built()
    assert "Nothing changed: 1 kit up to date." in built()
    # The log runs ahead of the clock, so its own last day is the day, and does not move.
    for module in ("wanted", "trips"):
        monkeypatch.setattr(f"builder.cli.many.{module}.today", lambda: datetime.date(2031, 6, 1))
    said = built()
    assert "Unchanged kits/hand" in said
    assert "Built kits/at-home" in said
    assert "Nothing changed" in built()


def test_labels_are_made_again_only_where_something_of_them_changed(
    content: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[object] = []

    def counted(*given: Any) -> str:
        made.append(given)
        return labels_file(*given)

    monkeypatch.setattr("builder.pages.home.book.labels_file", counted)
    built()
    sheets = len(made)
    before = files_of(Path("kits/at-home"))
    write_folder(content, {"hand": day_trip(title="Ours")}, batches=[rings()])
    assert "Built kits/at-home" in built()
    assert len(made) == sheets > 0
    after = files_of(Path("kits/at-home"))
    assert after["labels-plain.html"] == before["labels-plain.html"]
    assert after["shopping.html"] != before["shopping.html"]
    write_folder(content, {"hand": day_trip(title="Ours")}, batches=[rings(dried="410 g")])
    built()
    assert len(made) == 2 * sheets
    assert files_of(Path("kits/at-home"))["labels-plain.html"] != before["labels-plain.html"]
    built("--force")
    assert len(made) == 3 * sheets


def test_a_damaged_home_is_built_anew(content: Path) -> None:
    built()
    page = Path("kits/at-home/stock.html")
    whole = page.read_bytes()
    page.write_bytes(whole[:-20])
    assert "Built kits/at-home" in built()
    assert page.read_bytes() == whole


def test_somebody_elses_folder_of_that_name_is_left_alone(content: Path) -> None:
    Path("kits/at-home").mkdir(parents=True)
    Path("kits/at-home/mine.txt").write_text("mine")
    result = tripkit("build")
    assert result.exit_code == 1
    assert "kits/at-home is there already and was not made by tripkit" in result.output
    assert Path("kits/at-home/mine.txt").read_text() == "mine"
    assert not Path("kits/hand").exists()  # said before anything is built


def test_the_same_day_gives_the_same_bytes(content: Path) -> None:
    built("--out", "one")
    built("--out", "two")
    one, two = (all_files(Path(out)) for out in ("one", "two"))
    assert {name: held for name, held in one.items() if "at-home/" in name} == {
        name: held for name, held in two.items() if "at-home/" in name
    }


def test_a_trip_cannot_have_its_name(content: Path) -> None:
    shutil.copy(content / "trips/hand.yaml", content / "trips/at-home.yaml")
    result = tripkit("build")
    assert result.exit_code == 1
    assert "a trip cannot be called at-home" in result.output
    assert "[name-taken]" in result.output


def test_the_list_of_kits_names_the_home_first() -> None:
    assert "At home" not in index_page([])
    assert index_page([], with_home=True).count("<li>") == 1


HOME = """people:
  - {name: zqAsh, sex: female, age: 34, mass: 77.7 kg, height: 171.9 cm, carries_to: 13.9 kg}
dryers: [zq-dryer]
free: {sat: "07:13-21:47"}
electricity: 0.3137 per kWh
currency: ZQC
batch: {packs: {in: foil, absorber: true}, kept_at: 13.7 degC}
labels: {sheet: a4-2x4}
mug: 337 ml
portion: 53 g
"""
DRYERS = """dryers:
  - {id: zq-dryer, name: zqDryer, method: dehydrator, load: 3.7 kg, hours: 11, power: 517 W,
     price: 187, lasts: 411 runs, runs_a_year: 23}
"""
HOME_MARKS = (
    "zqAsh", "77.7", "171.9", "13.9", "zq-dryer", "zqDryer", "07:13", "21:47", "0.3137", "ZQC",
    "13.7", "a4-2x4", "337", "517", "187", "411", MARK,
)  # fmt: skip


def test_no_field_of_the_home_is_in_any_public_file(content: Path) -> None:
    (content / "home.yaml").write_text(HOME, "utf-8")
    (content / "gear/dryers.yaml").write_text(DRYERS, "utf-8")
    write_folder(
        content, {"hand": day_trip()}, batches=[rings(dryer="zq-dryer", kept_at="13.7 degC")]
    )
    built("--public", "--out", "public")
    built("--out", "private")
    theme = r"assets/|\.png$|licences"
    public, private = all_files(Path("public")), all_files(Path("private"))
    assert {mark for mark in HOME_MARKS if told_in(public, mark, theme)} == set()
    for mark in ("zqDryer", "a4-2x4", MARK):
        assert told_in(private, mark, theme), mark
