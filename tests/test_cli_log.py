# ruff: noqa: E501 - what is written stands whole
"""`tripkit log`, from the outside."""

from __future__ import annotations

import json
import os
import pty
import re
import subprocess
import sys
import threading
from pathlib import Path

import pytest
from click.testing import Result

from builder.model.batch import Packs
from builder.reading.folder import ALWAYS_SHIPPED, Folder, Layer, read_folder
from builder.starts.batches import writing
from tests.conftest import files_of, tripkit

pytestmark = pytest.mark.usefixtures("on_a_day_in_march")

ROOT = Path(__file__).resolve().parent.parent
SHIPPED = Layer(ROOT / "content", "shipped", ALWAYS_SHIPPED, vouched=True)
TODAY = "2031-03-14"
HOW = ("--method", "dehydrator")


@pytest.fixture
def batches(in_empty_folder: Path) -> Path:
    """Give the batches of an empty content folder that is found without being named."""
    room = in_empty_folder / "content" / "batches"
    room.mkdir(parents=True)
    return room


def log(*arguments: str) -> Result:
    return tripkit("log", *arguments)


def logged(*arguments: str) -> str:
    result = log(*arguments)
    assert result.exit_code == 0, result.output
    return result.output.replace("\xa0", " ")


def read(batches: Path) -> Folder:
    folder = read_folder([SHIPPED, Layer(batches.parent, "content")])
    assert not folder.problems, [str(each) for each in folder.problems]
    return folder


# -- one line -------------------------------------------------------------------------------------


def test_one_line_adds_a_batch_and_judges_it(batches: Path) -> None:
    # By hand: apple holds 85.56 g water in 100 g, so 3 kg hold 433 g solids; 460 g are at
    # 1 - 433.2/460 = 5.8 % water, and two deviations more (1.5 points) leave it at 26 %: undecided
    # by its weight alone, and a cold piece that snaps proves it dry.
    said = logged(
        "apple-raw",
        "3 kg",
        "460 g",
        *HOW,
        "--packs",
        "4",
        "--in",
        "zip-bag",
        "--tests",
        "snap",
        "--kept-at",
        "15 degC",
    )
    lines = said.splitlines()
    assert lines[0] == "Logged apple-raw-2031-03-14 in content/batches/2031.yaml"
    assert lines[1] == "Apple, dried, dehydrator: 3 kg → 460 g"
    assert lines[2] == "Verdict:         dry"
    assert lines[3].startswith("Best before:     2031-")
    assert lines[-1] == "A pack weighs:   115 g, of 4"
    text = (batches / "2031.yaml").read_text()
    assert re.sub(r"\A# yaml-language-server: .*\n", "", text) == (
        "- id: apple-raw-2031-03-14\n"
        "  food: apple-raw\n"
        "  method: dehydrator\n"
        "  done: 2031-03-14\n"
        "  fresh: 3 kg\n"
        "  dried: 460 g\n"
        "  packs: {count: 4, in: zip-bag}\n"
        "  kept_at: 15 degC\n"
        "  tests: [snap]\n"
    )


def test_what_log_says_is_what_dry_and_stock_say(batches: Path) -> None:
    told = ("apple-raw", "3 kg", "460 g", *HOW, "--in", "zip-bag", "--packs", "4", "--json")
    new = json.loads(logged(*told))
    asked = ("dry", "apple-raw", "3 kg", "--now", "460 g", "--in", "zip-bag", "--json")
    dry = json.loads(tripkit(*asked).stdout)
    for key in ("verdict", "act", "target_g", "rehydration_ml", "residual_moisture"):
        assert new[key] == dry[key], key
    (line,) = json.loads(tripkit("stock", "--json").stdout)
    for key in ("batch", "verdict", "act", "best_before", "pack_g"):
        assert new[key] == line[key], key
    assert new["pack_g"] == pytest.approx(115)
    assert new["pack_rehydration_ml"] == pytest.approx(new["rehydration_ml"] / 4)


def test_every_option_is_written_and_read_back(batches: Path) -> None:
    logged(
        "beef-mince-raw",
        "1200 g",
        "349 g",
        "--dryer",
        "shelf-dryer",
        "--done",
        "2031-03-10",
        "--started",
        "2031-03-09T18:00",
        "--packs",
        "6",
        "--in",
        "zip-bag",
        "--shelf",
        "freezer",
        "--kept-at",
        "-18 degC",
        "--heated",
        "74 degC before 2 min",
        "--style",
        "jerky",
        "--tests",
        "snap,constant",
        "--weighing",
        "5 h=500 g",
        "--weighing",
        "3 h=812 g",
        "--run",
        "march-9",
        "--notes",
        "Lean: 5 % #1",
        "--no-absorber",
    )
    (batch,) = read(batches).content.batches.values()
    assert batch.id == "beef-mince-raw-2031-03-10"
    assert (batch.method, batch.dryer, batch.run) == ("dehydrator", "shelf-dryer", "march-9")
    assert str(batch.started) == "2031-03-09 18:00:00" and str(batch.done) == "2031-03-10"
    assert batch.packs is not None
    assert (batch.packs.count, batch.packs.packaging, batch.packs.shelf) == (
        6,
        "zip-bag",
        "freezer",
    )
    assert not batch.packs.absorber and batch.kept_at_c == -18
    assert batch.heated is not None
    assert (batch.heated.to_c, batch.heated.when, batch.heated.minutes) == (74, "before", 2)
    assert batch.jerky and batch.tests == {"snap", "constant"}
    assert [(each.at_min, each.mass_g) for each in batch.weighings] == [(180, 812), (300, 500)]
    assert batch.notes == "Lean: 5 % #1"


def test_a_whole_meal_and_a_freeze_dryer_with_its_ice(batches: Path) -> None:
    recipes = batches.parent / "recipes"
    recipes.mkdir()
    (recipes / "stew.yaml").write_text(
        "id: stew\nname: Stew\nmeal: [dinner]\nserves: 2\ncook_in: pot\n"
        "uses: [{food: carrot-raw, amount: 800 g}]\n"
        "steps: [{do: boil, with: [carrot-raw], water: 200 ml}, {do: serve}]\n"
    )
    logged(
        "stew",
        "1 kg",
        "120 g",
        "--dryer",
        "home-freeze-dryer",
        "--ice",
        "870 g",
        "--tests",
        "constant",
    )
    (batch,) = read(batches).content.batches.values()
    assert (batch.recipe, batch.food, batch.ice_g) == ("stew", None, 870)


HOME = """\
dryers: [shelf-dryer]
batch: {packs: {in: foil-pouch, absorber: true}, kept_at: 15 degC}
"""


def test_what_the_home_tells_need_not_be_told_again(batches: Path) -> None:
    (batches.parent / "home.yaml").write_text(HOME)
    logged("apple-raw", "3 kg", "460 g", "--packs", "4")
    logged(
        "carrot-raw", "1 kg", "126 g", "--method", "oven", "--in", "zip-bag", "--kept-at", "5 degC"
    )
    logged("carrot-raw", "1 kg", "126 g", "--no-absorber", "--kept-at", "-18 degC")
    logged("carrot-raw", "1 kg", "--started", "2031-03-13T18:00")
    apple, oven, open_pouch, in_dryer = read(batches).content.batches.values()
    assert (apple.dryer, apple.kept_at_c, apple.pack_count) == ("shelf-dryer", 15, 4)
    assert (
        apple.packs is not None and apple.packs.packaging == "foil-pouch" and apple.packs.absorber
    )
    assert (oven.method, oven.dryer, oven.kept_at_c) == ("oven", None, 5)
    assert oven.packs is not None and oven.packs.packaging == "zip-bag" and not oven.packs.absorber
    assert open_pouch.packs is not None and open_pouch.packs.packaging == "foil-pouch"
    assert not open_pouch.packs.absorber and open_pouch.kept_at_c == -18
    assert in_dryer.packs is None and in_dryer.in_dryer


def test_of_two_dryers_at_home_one_must_be_named(batches: Path) -> None:
    (batches.parent / "home.yaml").write_text("dryers: [shelf-dryer, home-freeze-dryer]\n")
    result = log("apple-raw", "3 kg", "460 g")
    assert result.exit_code == 2 and "--method or --dryer" in result.output


# -- what is missing ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("arguments", "missing"),
    [
        ((), "FOOD, FRESH, DRIED, --method or --dryer"),
        (("apple-raw",), "FRESH, DRIED, --method or --dryer"),
        (("apple-raw", "3 kg", *HOW), "DRIED"),
        (("apple-raw", "3 kg", "460 g"), "--method or --dryer"),
        (("--batch", "x"), "DRIED, what the batch weighs now"),
        (("--started", "2031-03-13T18:00", *HOW), "FOOD, FRESH"),
    ],
)
def test_a_pipe_is_told_all_that_is_missing(
    batches: Path, arguments: tuple[str, ...], missing: str
) -> None:
    result = log(*arguments)
    assert result.exit_code == 2
    assert f"Error: this is missing: {missing}" in result.output
    assert not list(batches.iterdir())


@pytest.mark.parametrize(
    ("arguments", "says", "code"),
    [
        (("aple-raw", "3 kg", "460 g", *HOW), "did you mean apple-raw?", 1),
        (("apple-raw", "3", "460 g", *HOW), "has no unit", 2),
        (("apple-raw", "3 kg", "460", *HOW), "has no unit", 2),
        (("apple-raw", "3", "kg", "460", "g", *HOW), "put quotes round", 2),
        (("apple-raw", "3 kg", "460 g", "--method", "bought"), "'bought' is not one of", 2),
        (("apple-raw", "3 kg", "460 g", *HOW, "--done", "2031-03-15"), "is still to come", 2),
        (("apple-raw", "3 kg", "--started", "2031-03-15T08:00", *HOW), "is still to come", 2),
        (("apple-raw", "3 kg", "--started", "2031-03-13", *HOW), "write it like 2031", 2),
        (("apple-raw", "3 kg", "460 g", *HOW, "--heated", "74"), "write it like", 2),
        (("apple-raw", "3 kg", "460 g", *HOW, "--packs", "0"), "0 is not in the range", 2),
        (("apple-raw", "3 kg", "460 g", *HOW, "--kept-at", "15"), "has no unit", 2),
        (("apple-raw", "3 kg", "460 g", *HOW, "--tests", "snapp"), "did you mean snap?", 2),
        (("apple-raw", "3 kg", "460 g", *HOW, "--weighing", "3 h"), 'like "3 h=812 g"', 2),
        (("apple-raw", "3 kg", "460 g", *HOW, "--in", "zip-bg"), "did you mean zip-bag?", 1),
        (("apple-raw", "3 kg", "460 g", "--dryer", "shelf"), "there is no dryer 'shelf'", 1),
        (("apple-raw", "3 kg", "460 g", *HOW, "--dryer", "home-freeze-dryer"), "is a freeze-dryer", 1),
        (("apple-raw", "460 g", "3 kg", *HOW), "it lost nothing", 1),
        (("apple-raw", "3 kg", "90 g", *HOW), "of the solids that Apple holds", 1),
        (("apple-raw", "3 kg", "460 g", *HOW, "--ice", "2 kg"), "only a freeze dryer", 1),
        (("apple-raw", "3 kg", "460 g", *HOW, "--run", "March 9"), "is no id", 1),
        (("--batch", "x", "460 g"), "there is no batch 'x'", 1),
        (("--batch", "x", "460", "g"), "put quotes round", 2),
        (("--batch", "x", "--started", "2031-03-13T18:00", "--done", "2031-03-14"), "tell DRIED too", 2),
        (("--batch", "x", "460 g", "--file", "a.yaml"), "--file goes with a new batch", 2),
    ],
)  # fmt: skip
def test_a_mistake_is_told_before_anything_is_written(
    batches: Path, arguments: tuple[str, ...], says: str, code: int
) -> None:
    result = log(*arguments)
    assert says in " ".join(result.output.split())
    assert result.exit_code == code
    assert not list(batches.iterdir())


@pytest.mark.parametrize(
    "arguments",
    [
        ("apple-raw", "3 kg", "460 g", *HOW, "--notes", "\udcff"),
        ("apple-raw", "3 kg", "460 g\udcff", *HOW),
        ("apple-raw", "3 kg", "460 g", *HOW, "--file", "\udcff.yaml"),
    ],
)
def test_bytes_that_are_no_text_are_refused(batches: Path, arguments: tuple[str, ...]) -> None:
    result = log(*arguments)
    assert result.exit_code == 2 and "holds bytes that are no text" in result.output
    assert not list(batches.iterdir())


NOTES = (
    "two\nlines",
    'a: "b" # c',
    "- x",
    "ä 😀 \u2028",
    "  spaced  ",
    "#",
    "{a, b}",
    "null",
    "\x01",
)


@pytest.mark.parametrize("ending", ["yaml", "csv"])
def test_notes_are_kept_whatever_they_hold(batches: Path, ending: str) -> None:
    if ending == "csv":
        (batches / "2031.csv").write_text("id,food,method,done,fresh,dried\n")
    for number, notes in enumerate(NOTES, start=1):
        result = log("apple-raw", "3 kg", "460 g", *HOW, "--notes", notes)
        assert (result.exit_code == 0) == (notes != "\x01"), (notes, result.output)
        found = list(read(batches).content.batches.values())
        if notes != "\x01":
            assert len(found) == number and found[-1].notes == notes.strip()


def test_something_odd_is_told_and_written(batches: Path) -> None:
    # 285 g of 433 g solids: less than two deviations below the listed water leave.
    said = logged("apple-raw", "3 kg", "285 g", *HOW, "--tests", "snap")
    assert "warning" in said and "Logged apple-raw-2031-03-14" in said


def test_a_folder_with_mistakes_elsewhere_can_be_added_to(batches: Path) -> None:
    (batches / "old.yaml").write_text("- {id: old, food: apple-raw, method: ovn}\n")
    said = logged("apple-raw", "3 kg", "460 g", *HOW)
    assert "old.yaml" not in said
    assert (batches / "2031.yaml").is_file()


@pytest.mark.parametrize("text", ["- {id: a\n", "just words\n", "a: 1\na: 2\n", "\x00"])
def test_a_file_that_cannot_be_read_is_not_added_to(batches: Path, text: str) -> None:
    file = batches / "2031.yaml"
    file.write_text(text)
    assert log("apple-raw", "3 kg", "460 g", *HOW).exit_code == 1
    assert file.read_text() == text


# -- ids and files --------------------------------------------------------------------------------


def test_a_load_that_is_logged_again_is_asked_about(batches: Path) -> None:
    logged("apple-raw", "3 kg", "460 g", *HOW)
    said = logged("apple-raw", "3 kg", "460 g", *HOW)
    assert "tells the same food, day and weights as batch apple-raw-2031-03-14" in said
    assert len(read(batches).content.batches) == 2


def test_an_id_that_is_taken_is_not_given_again(batches: Path) -> None:
    for ending in ("", "-2", "-3"):
        said = logged("apple-raw", "3 kg", "460 g", *HOW, "--notes", f"load{ending}")
        assert said.startswith(f"Logged apple-raw-2031-03-14{ending} in ")
    assert len(read(batches).content.batches) == 3


def test_an_id_of_a_record_with_mistakes_is_taken_too(batches: Path) -> None:
    (batches / "old.yaml").write_text("- {id: apple-raw-2031-03-14, food: apple-raw}\n")
    assert "Logged apple-raw-2031-03-14-2 in" in logged("apple-raw", "3 kg", "460 g", *HOW)


@pytest.mark.parametrize(
    ("there", "file"),
    [
        ({}, "2031.yaml"),
        ({"2031.yaml": "", "log.yaml": "2031-03-13"}, "2031.yaml"),
        ({"2031.csv": "csv"}, "2031.csv"),
        ({"2030.yaml": "2031-03-13"}, "2031.yaml"),
        ({"fruit.yaml": "2030-09-01", "roots.yaml": "2030-10-01"}, "roots.yaml"),
        ({"one.yaml": "alone"}, "2031.yaml"),
    ],
)
def test_it_goes_into_the_log_of_the_year_or_the_newest(
    batches: Path, there: dict[str, str], file: str
) -> None:
    texts = {
        "": "# my log\n",
        "csv": "id,food,method,done,fresh,dried\n",
        "alone": "{id: a, food: apple-raw, method: oven, done: 2031-01-01, fresh: 3 kg, dried: 460 g}",
    }
    for name, day in there.items():
        record = f"- {{food: apple-raw, method: oven, done: {day}, fresh: 3 kg, dried: 460 g}}\n"
        (batches / name).write_text(texts.get(day, record))
    assert logged("carrot-raw", "1 kg", "126 g", *HOW).splitlines()[0].endswith(f"batches/{file}")


@pytest.mark.parametrize(
    "told", ["mine.yaml", "batches/mine.yaml", "content/batches/mine.yaml", "ABSOLUTE"]
)
def test_a_file_can_be_named_in_every_usual_way(batches: Path, told: str) -> None:
    told = str(batches / "mine.yaml") if told == "ABSOLUTE" else told
    logged("apple-raw", "3 kg", "460 g", *HOW, "--file", told)
    assert (batches / "mine.yaml").is_file()


@pytest.mark.parametrize(
    ("told", "says"),
    [
        ("../mine.yaml", "does not lie in"),
        ("/tmp/mine.yaml", "does not lie in"),
        ("batches/../../mine.yaml", "does not lie in"),
        ("foods/mine.yaml", ""),  # below batches/ any folder will do
        ("mine.txt", "is not read"),
        (".mine.yaml", "is not read"),
        (".hid/mine.yaml", "is not read"),
        ("con.yaml", "no file should be called con.yaml"),
        ("a\nb.yaml", "no file should be called"),
    ],
)
def test_nothing_is_written_outside_the_log(batches: Path, told: str, says: str) -> None:
    before = files_of(batches.parent.parent)
    result = log("apple-raw", "3 kg", "460 g", *HOW, "--file", told)
    assert says in result.output
    if says:
        assert result.exit_code == 1
        assert files_of(batches.parent.parent) == before
    else:
        assert (batches / told).is_file()


@pytest.mark.parametrize("link", ["file", "dead", "folder"])
def test_nothing_is_written_through_a_link(batches: Path, link: str) -> None:
    other = batches.parent.parent / "other"
    other.mkdir()
    (other / "2031.yaml").write_text("[]\n")
    if link == "folder":
        batches.rmdir()
        batches.symlink_to(other)
    else:
        (batches / "2031.yaml").symlink_to(other / ("2031.yaml" if link == "file" else "gone"))
    result = log("apple-raw", "3 kg", "460 g", *HOW)
    assert result.exit_code == 1 and "is a link" in result.output
    assert (other / "2031.yaml").read_text() == "[]\n"
    assert not (other / "gone").exists()


def test_a_file_keeps_its_rights_and_nothing_is_left_beside_it(batches: Path) -> None:
    file = batches / "2031.yaml"
    file.write_text("[]\n")
    file.chmod(0o640)
    logged("apple-raw", "3 kg", "460 g", *HOW)
    assert file.stat().st_mode & 0o777 == 0o640
    assert [each.name for each in batches.iterdir()] == ["2031.yaml"]


def test_logs_of_one_moment_lose_nothing(batches: Path) -> None:
    (batches / "2031.yaml").write_text("[]\n")
    command = [sys.executable, "-m", "builder", "log", "apple-raw", "3 kg", "460 g", *HOW]
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    running = [
        subprocess.Popen(
            [*command, "--notes", f"load {number}"],
            env=environment,
            stderr=subprocess.PIPE,
            stdout=subprocess.PIPE,
        )
        for number in range(4)
    ]
    said = [process.communicate(timeout=120) for process in running]
    logged = [out for out, _ in said if out.startswith(b"Logged ")]
    assert len(read(batches).content.batches) == len(logged) >= 1
    for _, error in said:
        assert not error or b"was changed by somebody else meanwhile" in error


def test_what_is_logged_between_two_looks_at_the_folder_is_no_fault_of_the_file(
    batches: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = batches / "2031.yaml"
    file.write_text("[]\n")
    look = writing.target_of

    def somebody_else_first(own: Layer, path: Path) -> writing.Target:
        monkeypatch.setattr("builder.starts.batches.log.target_of", look)
        logged("apple-raw", "3 kg", "460 g", *HOW)
        return look(own, path)

    monkeypatch.setattr("builder.starts.batches.log.target_of", somebody_else_first)
    result = log("apple-raw", "3 kg", "460 g", *HOW)
    assert result.exit_code == 1
    assert "was changed by somebody else meanwhile" in result.output
    assert len(read(batches).content.batches) == 1


def test_a_folder_that_cannot_be_written_keeps_its_log(
    batches: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = batches / "2031.yaml"
    file.write_text("[]\n")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device", str(file))

    monkeypatch.setattr("builder.starts.swapping.os.replace", full)
    result = log("apple-raw", "3 kg", "460 g", *HOW)
    assert result.exit_code == 1 and "No space left on device" in result.output
    assert files_of(batches) == {"2031.yaml": b"[]\n"}


# -- a batch that was planned ---------------------------------------------------------------------

PLANNED = """\
# To do
- food: carrot-raw   # from the garden
  method: dehydrator
  planned: 2031-03-12   # a Wednesday
  fresh: 1 kg
  packs: {count: 4, in: zip-bag}   # for the hut
  # constant: true

- {id: next, food: apple-raw, method: oven, planned: 2031-05-01, fresh: 3 kg}
"""
DONE = """\
# To do
- id: carrot-raw-2031-03-12
  food: carrot-raw   # from the garden
  method: dehydrator
  done: 2031-03-14   # a Wednesday
  fresh: 1 kg
  dried: 126 g
  packs: {count: 3, in: zip-bag, shelf: cellar}   # for the hut
  tests: [snap]
  # constant: true

- {id: next, food: apple-raw, method: oven, planned: 2031-05-01, fresh: 3 kg}
"""


def test_a_planned_batch_is_done_once_its_weight_is_told(batches: Path) -> None:
    (batches / "plan.yaml").write_text(PLANNED)
    said = logged(
        "--batch",
        "carrot-raw-2031-03-12",
        "126 g",
        "--packs",
        "3",
        "--shelf",
        "cellar",
        "--tests",
        "snap",
    )
    assert said.startswith("Logged carrot-raw-2031-03-12 in content/batches/plan.yaml\n")
    # It keeps the id that was made of the planned day: trips name it by that.
    assert (batches / "plan.yaml").read_text() == DONE
    again = log("--batch", "carrot-raw-2031-03-12", "126 g")
    assert again.exit_code == 1 and "is done since 2031-03-14" in again.output


def test_a_planned_batch_in_braces(batches: Path) -> None:
    (batches / "plan.yaml").write_text(PLANNED)
    logged("--batch", "next", "460 g", "--done", "2031-03-13")
    end = (
        "- {id: next, food: apple-raw, method: oven, done: 2031-03-13, fresh: 3 kg, dried: 460 g}\n"
    )
    assert (batches / "plan.yaml").read_text() == PLANNED[: PLANNED.index("- {id: next")] + end


def test_a_run_in_the_dryer_is_logged_and_then_done(batches: Path) -> None:
    said = logged(
        "carrot-raw", "1 kg", *HOW, "--started", "2031-03-13 18:00", "--weighing", "3 h=700 g"
    )
    # 1 kg · 11.71 % solids / 0.9 = 130 g
    assert "Do:              Keep drying, 570 g to go." in said
    assert "Best before" not in said
    logged("--batch", "carrot-raw-2031-03-13", "126 g", "--packs", "2")
    (batch,) = read(batches).content.batches.values()
    assert batch.dried_g == 126 and str(batch.done) == TODAY and batch.pack_count == 2


@pytest.mark.parametrize(
    ("told", "packing", "packs"),
    [
        ((), (), Packs(1, "zip-bag")),
        (("--packs", "4"), (), Packs(4, "zip-bag")),
        ((), ("--packs", "2"), Packs(2, "zip-bag")),
        (("--packs", "4", "--in", "foil-pouch"), (), Packs(4, "foil-pouch")),
        ((), ("--packs", "2", "--in", "foil-pouch"), Packs(2, "foil-pouch")),
    ],
)
def test_a_run_that_is_done_is_packed_as_the_home_packs_unless_told(
    batches: Path, told: tuple[str, ...], packing: tuple[str, ...], packs: Packs
) -> None:
    (batches.parent / "home.yaml").write_text("batch: {packs: {in: zip-bag}}\n")
    logged("carrot-raw", "1 kg", *HOW, "--started", "2031-03-13 18:00", *told)
    logged("--batch", "carrot-raw-2031-03-13", "126 g", *packing)
    (batch,) = read(batches).content.batches.values()
    assert batch.packs == packs


RUN = """\
- food: carrot-raw
  method: dehydrator
  planned: 2031-03-20
  fresh: 1 kg
  tests: [snap]   # the thin ones
"""


def test_a_load_that_went_in_is_logged_once(batches: Path) -> None:
    told = ("carrot-raw", "1 kg", *HOW, "--started", "2031-03-13T18:00")
    logged(*told)
    before = (batches / "2031.yaml").read_text()
    again = log(*told, "--weighing", "3 h=600 g")
    assert again.exit_code == 1
    assert "is logged already: batch carrot-raw-2031-03-13, in the dryer since" in again.output
    assert "--batch carrot-raw-2031-03-13" in again.output
    assert (batches / "2031.yaml").read_text() == before
    # Another weight, another hour, another dryer, or a word for it: another load.
    logged("carrot-raw", "1.1 kg", *HOW, "--started", "2031-03-13T18:00")
    logged("carrot-raw", "1 kg", *HOW, "--started", "2031-03-13T19:00")
    logged("carrot-raw", "1 kg", "--method", "oven", "--started", "2031-03-13T18:00")
    logged(*told, "--notes", "the upper trays")
    assert len(read(batches).content.batches) == 5


def test_a_planned_batch_goes_in_is_weighed_and_comes_out(batches: Path) -> None:
    file = batches / "2031.yaml"
    file.write_text(RUN)
    name = ("--batch", "carrot-raw-2031-03-20")
    refused = log(*name, "--weighing", "3 h=600 g")
    assert refused.exit_code == 1 and "is not in the dryer yet" in refused.output
    logged(*name, "--started", "2031-03-13T18:00")
    in_dryer = RUN.replace("2031-03-20\n", "2031-03-20\n  started: 2031-03-13T18:00\n")
    assert file.read_text() == in_dryer
    again = log(*name, "--started", "2031-03-13T18:00")
    assert again.exit_code == 1 and "is in the dryer since 2031-03-13 18:00 alrea" in again.output
    assert file.read_text() == in_dryer
    assert "Dry after" not in logged(*name, "--weighing", "3 h=600 g")
    said = logged(*name, "--weighing", "5 h=380 g", "--tests", "constant,snap")
    assert re.search(r"Dry after: +\d", said)
    weighed = in_dryer.replace("[snap] ", "[snap, constant] ") + (
        "  weighings: [{at: 3 h, mass: 600 g}, {at: 5 h, mass: 380 g}]\n"
    )
    assert file.read_text() == weighed
    # The forecast is the one that `dry` gives.
    asked = ("carrot-raw", "1 kg", "--weighing", "3 h=600 g", "--weighing", "5 h=380 g")
    dry = tripkit("dry", *asked).output.replace("\xa0", " ")
    assert [line for line in dry.splitlines() if line.startswith("Dry after")] == [
        line for line in said.splitlines() if line.startswith("Dry after")
    ]
    late = log(*name, "--weighing", "4 h=500 g")
    assert late.exit_code == 1 and "not later than the one above it" in late.output
    logged(*name, "126 g")
    assert file.read_text() == "- id: carrot-raw-2031-03-20\n" + weighed.replace(
        "- food", "  food"
    ).replace("planned: 2031-03-20", "done: 2031-03-14").replace(
        "fresh: 1 kg\n", "fresh: 1 kg\n  dried: 126 g\n"
    )


def test_weighings_of_a_row_are_added_to(batches: Path) -> None:
    head = "id,food,method,started,fresh,weighings.at,weighings.mass\n"
    row = "run,carrot-raw,dehydrator,2031-03-13T18:00,1 kg,3 h,600 g\n"
    (batches / "2031.csv").write_text(head + row)
    logged("--batch", "run", "--weighing", "5 h=380 g")
    assert (batches / "2031.csv").read_text() == head + row.replace(
        "3 h,600 g", "3 h; 5 h,600 g; 380 g"
    )
    read(batches)


def test_a_planned_row_of_a_table_is_done(batches: Path) -> None:
    table = "food,method,planned,fresh,notes\r\napple-raw,oven,2031-05-01,3 kg,\r\ncarrot-raw,oven,2031-03-12,1 kg,ours"
    (batches / "log.csv").write_bytes(table.encode())
    logged("--batch", "carrot-raw-2031-03-12", "126 g")
    assert (batches / "log.csv").read_bytes().decode() == (
        "food,method,planned,fresh,notes,done,dried,id\r\n"
        "apple-raw,oven,2031-05-01,3 kg,,,,\r\n"
        "carrot-raw,oven,,1 kg,ours,2031-03-14,126 g,carrot-raw-2031-03-12"
    )


# -- on a terminal --------------------------------------------------------------------------------


def on_a_terminal(folder: Path, answers: list[tuple[str, str]], *arguments: str) -> str:
    """Run the command on a terminal, and answer each question once it is asked."""
    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "builder", "log", *arguments],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT), "TERM": "dumb"},
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
    )
    os.close(theirs)
    watch = threading.Timer(60, process.kill)
    watch.start()
    said, waiting = "", list(answers)
    try:
        while True:
            try:
                said += os.read(ours, 4096).decode(errors="replace")
            except OSError:
                break
            if waiting and re.search(waiting[0][0] + r"[^\n]*: $", said):
                os.write(ours, f"{waiting.pop(0)[1]}\n".encode())
    finally:
        watch.cancel()
        process.wait()
        os.close(ours)
    assert not waiting, (waiting, said)
    assert process.returncode == 0, said
    return said


def test_on_a_terminal_what_is_missing_is_asked(batches: Path) -> None:
    said = on_a_terminal(
        batches.parent.parent,
        [
            ("Food", "carots raw"),
            ("Which", "1"),
            ("before drying", "1 kilo and a bit"),
            ("before drying", "1 kg"),
            ("once dry", "126 g"),
            ("Dried in", "shelf-drier"),
            ("Dried in", "shelf-dryer"),
            ("How many packs", "4"),
            ("Packed in", ""),
        ],
    )
    assert "did you mean shelf-dryer?" in said
    assert "Logged carrot-raw-2031-03-14 in content/batches/2031.yaml" in said
    (batch,) = read(batches).content.batches.values()
    assert (batch.food, batch.dryer, batch.pack_count) == ("carrot-raw", "shelf-dryer", 4)


def test_on_a_terminal_nothing_is_asked_where_all_is_told(batches: Path) -> None:
    said = on_a_terminal(batches.parent.parent, [], "apple-raw", "3 kg", "460 g", *HOW)
    assert said.startswith("Logged apple-raw-2031-03-14")
