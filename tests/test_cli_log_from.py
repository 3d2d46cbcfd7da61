# ruff: noqa: E501 - what people read stands whole
"""`tripkit log --from FILE`: what was typed beside the dryer goes into the log, or nothing does."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result

from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from tests.conftest import files_of, tripkit

pytestmark = pytest.mark.usefixtures("on_a_day_in_march")

ROOT = Path(__file__).resolve().parent.parent
SHIPPED = Layer(ROOT / "content", "shipped", ALWAYS_SHIPPED, vouched=True)
LOG = """\
# my log
- id: rings  # the tall dryer
  food: apple-raw
  method: dehydrator
  started: 2031-03-13T18:00
  fresh: 3 kg
  weighings: [{at: 3 h, mass: 1900 g}]

- {id: done, food: carrot-raw, method: dehydrator, done: 2031-03-01, fresh: 1 kg, dried: 126 g}
"""
TABLE = """\
id,food,method,started,fresh,weighings.at,weighings.mass
rings,apple-raw,dehydrator,2031-03-13T18:00,3 kg,3 h,1900 g
"""
NEW = {
    "food": "carrot-raw",
    "method": "dehydrator",
    "started": "2031-03-14T08:00",
    "fresh": "1000 g",
    "weighings": [{"at": "120 min", "mass": "600 g"}],
}
RINGS = {"batch": "rings", "weighings": [{"at": "300 min", "mass": "1300 g"}]}


@pytest.fixture
def batches(in_empty_folder: Path) -> Path:
    room = in_empty_folder / "content" / "batches"
    room.mkdir(parents=True)
    (room / "log.yaml").write_text(LOG, encoding="utf-8")
    return room


def take_over(*runs: Any, text: str = "", options: tuple[str, ...] = ()) -> Result:
    Path("runs.txt").write_text(
        text or json.dumps({"format": "trip-kit-runs", "runs": list(runs)}, indent=1),
        encoding="utf-8",
    )
    return tripkit("log", "--from", "runs.txt", *options)


def batches_in(room: Path) -> Any:
    found = read_folder([SHIPPED, Layer(room.parent, "content")])
    assert not found.problems, [str(each) for each in found.problems]
    return found.content.batches


def test_weighings_are_added_and_all_else_stays(batches: Path) -> None:
    result = take_over(RINGS)
    assert result.exit_code == 0, result.output
    text = (batches / "log.yaml").read_text(encoding="utf-8")
    more = "{at: 3 h, mass: 1900 g}, {at: 300 min, mass: 1300 g}"
    assert text == LOG.replace("{at: 3 h, mass: 1900 g}", more)
    assert "Logged rings in" in result.output
    # 3 kg of apple hold 433 g solids: 541 g at 20 %.
    assert "Keep drying, 759" in result.output.replace("\xa0", " ")
    assert "Dry after:" in result.output


@pytest.mark.parametrize("times", [1, 2])
def test_the_same_file_may_be_taken_over_again(batches: Path, times: int) -> None:
    for _ in range(times):
        assert take_over(RINGS, NEW).exit_code == 0
    found = batches_in(batches)
    assert sorted(found) == ["carrot-raw-2031-03-14", "done", "rings"]
    assert [each.mass_g for each in found["rings"].weighings] == [1900, 1300]
    assert [each.mass_g for each in found["carrot-raw-2031-03-14"].weighings] == [600]


def test_a_new_run_goes_on_and_ends_in_later_files(batches: Path) -> None:
    take_over(NEW)
    later = {**NEW, "weighings": [*NEW["weighings"], {"at": "600 min", "mass": "127 g"}]}
    ended = {**later, "tests": ["snap"], "done": "2031-03-14", "dried": "127 g", "packs": 2}
    assert take_over(later).exit_code == 0
    assert take_over(ended).exit_code == 0
    carrots = batches_in(batches)["carrot-raw-2031-03-14"]
    assert [each.at_min for each in carrots.weighings] == [120, 600]
    assert (carrots.dried_g, carrots.pack_count, carrots.tests) == (127, 2, {"snap"})
    assert not carrots.in_dryer


def test_a_table_gets_the_same(batches: Path) -> None:
    (batches / "log.yaml").unlink()
    (batches / "log.csv").write_text(TABLE, encoding="utf-8")
    assert take_over({**RINGS, "tests": ["snap"]}).exit_code == 0
    assert take_over({**RINGS, "tests": ["snap"]}).exit_code == 0
    rings = batches_in(batches)["rings"]
    assert [each.at_min for each in rings.weighings] == [180, 300]
    assert rings.tests == {"snap"}


def test_several_batches_of_one_file_are_told_of_at_once(batches: Path) -> None:
    two = LOG.replace(
        "- {id: done",
        "- {id: more, food: leek-raw, method: oven, "
        "started: 2031-03-13T18:00, fresh: 1 kg}\n- {id: done",
    )
    (batches / "log.yaml").write_text(two, encoding="utf-8")
    more = {"batch": "more", "weighings": [{"at": "60 min", "mass": "800 g"}]}
    assert take_over(RINGS, more, NEW).exit_code == 0
    found = batches_in(batches)
    assert [len(found[name].weighings) for name in ("rings", "more")] == [2, 1]


def test_what_is_done_in_the_log_is_left_alone(batches: Path) -> None:
    before = files_of(batches)
    result = take_over({"batch": "done", "weighings": [{"at": "60 min", "mass": "800 g"}]})
    assert result.exit_code == 0, result.output
    assert "All that was typed of done stands in the log already." in result.output
    assert files_of(batches) == before


ENDS = {"batch": "rings", "done": "2031-03-14", "dried": "520 g"}


def test_what_ended_is_packed_as_the_home_packs(batches: Path) -> None:
    (batches.parent / "home.yaml").write_text("batch: {packs: {in: zip-bag}}\n")
    result = take_over(ENDS)
    assert result.exit_code == 0, result.output
    assert batches_in(batches)["rings"].packs.packaging == "zip-bag"


@pytest.mark.parametrize(
    ("runs", "says"),
    [
        ([RINGS, {"batch": "ring"}], "runs.txt:14:13: error: there is no batch 'ring' — did you mean rings?"),
        ([{**NEW, "food": "carot-raw"}], "there is no food 'carot-raw'"),
        ([{**NEW, "started": "2031-03-15T08:00"}], "2031-03-15 is still to come"),
        ([{**ENDS, "done": "2031-03-15"}], "2031-03-15 is still to come"),
        ([{"batch": "rings", "done": "2031-03-14"}], "write `done` and `dried`, or neither"),
        ([{"food": "carrot-raw"}], "nobody knows which run this is"),
        ([{**RINGS, "weighings": [{"at": "5 h", "mass": "1.3"}]}], "mass"),
        ([{**RINGS, "weighings": [{"at": "5 h", "mass": "2 kg"}]}], "more than it weighed before"),
        ([{**RINGS, "weighings": [{"at": "3 h", "mass": "1800 g"}]}], "is not later than the one above it"),
        ([RINGS, {**NEW, "weighings": [{"at": "2 h", "mass": "15 g"}]}], "no food is more than 98% water"),
        ([{**RINGS, "wheighings": []}], "did you mean weighings?"),
        ([RINGS, {**ENDS, "batch": "done"}], "is done since 2031-03-01"),
    ],
)  # fmt: skip
def test_where_anything_is_wrong_nothing_is_written(
    batches: Path, runs: list[Any], says: str
) -> None:
    before = files_of(batches)
    result = take_over(*runs)
    assert result.exit_code == 1, result.output
    assert says in result.output
    assert files_of(batches) == before


@pytest.mark.parametrize(
    "text", ["{", "just words", '{"format": "other", "runs": []}', "\x00", "[]"]
)
def test_a_file_of_another_kind_is_refused(batches: Path, text: str) -> None:
    result = take_over(text=text)
    assert result.exit_code == 1
    assert "error" in result.output and "runs.txt:" in result.output


def test_a_file_that_is_not_there_or_far_too_long_is_told(batches: Path) -> None:
    assert "runs.txt cannot be read" in tripkit("log", "--from", "runs.txt").output
    assert "is too long" in take_over(text=" " * 1_000_001).output


def test_a_file_tells_all_of_it(batches: Path) -> None:
    result = take_over(RINGS, options=("--packs", "3"))
    assert result.exit_code == 2
    assert "--from FILE tells all of it; leave the rest out" in result.output


def test_a_script_gets_all_of_it(batches: Path) -> None:
    found = json.loads(take_over(RINGS, options=("--json",)).output)
    (rings,) = found["logged"]
    assert (rings["batch"], rings["verdict"], found["there"]) == ("rings", "not-dry", [])
    assert rings["look_next_min"] >= 330
    assert json.loads(take_over(RINGS, options=("--json",)).output) == {
        "logged": [],
        "there": ["rings"],
    }
