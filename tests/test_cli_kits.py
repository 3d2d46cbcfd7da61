"""The folder of kits, from the outside: what is touched there, what is noticed, what is said."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from builder.reading.files import state_of_content
from tests.conftest import files_of, tripkit

ROOT = Path(__file__).resolve().parent.parent
TOOL = (sys.executable, "-m", "builder")
BUILD = ("build", "--content", "mine/content")


@pytest.fixture
def mine(in_empty_folder: Path) -> Path:
    """Give a small content folder of one trip."""
    assert tripkit("new", "folder", "mine").exit_code == 0
    return in_empty_folder / "mine/content"


def bytes_of(folder: Path) -> dict[str, bytes]:
    """Give every file below a folder that says something of content or kits, not of the disk."""
    of_the_disk = (".lock", ".seen")
    files = files_of(folder).items()
    return {name: held for name, held in files if not name.endswith(of_the_disk)}


def built() -> Mapping[str, bytes]:
    """Build the small folder for the first time."""
    said = tripkit(*BUILD)
    assert said.exit_code == 0, said.output
    assert "Built kits/first-trip" in said.output
    return bytes_of(Path("kits"))


def retitled(mine: Path, title: str) -> None:
    trip = mine / "trips/first-trip.yaml"
    lines = trip.read_text("utf-8").splitlines(keepends=True)
    told = [f"title: {title}\n" if line.startswith("title:") else line for line in lines]
    assert told != lines
    trip.write_text("".join(told), "utf-8")


# -- what the tool did not make -------------------------------------------------------------------


def test_what_lies_beside_the_kits_is_left_alone(mine: Path) -> None:
    names = [
        *(f".first-trip.{each}" for each in ("old", "new", "work", "zip.new", "lock")),
        *(".index.html.new", ".index.lock", "first-trip.old", "first-trip.new", "other.zip"),
    ]
    for name in names:
        (Path("kits") / name).mkdir(parents=True)
        (Path("kits") / name / "mine.txt").write_text("mine")
    Path("kits/notes.txt").write_text("mine")
    before = bytes_of(Path("kits"))
    built()
    retitled(mine, "Another title")
    assert "Built kits/first-trip" in tripkit(*BUILD).output
    after = bytes_of(Path("kits"))
    assert {name: after.get(name) for name in before} == before


@pytest.mark.parametrize(
    "name",
    [
        *("first-trip/diary.txt", "first-trip/kit.json", "first-trip.zip", "index.html"),
        *(".built/old.txt", ".built"),
    ],
)
def test_what_stands_in_the_way_is_told_and_left_alone(mine: Path, name: str) -> None:
    path = Path("kits") / name
    path.parent.mkdir(parents=True)
    path.write_text('{"format": "trip-kit"}')
    before = bytes_of(Path("."))
    for arguments in (BUILD, (*BUILD, "--force")):
        said = tripkit(*arguments)
        assert said.exit_code == 1
        shown = f"kits/{name.split('/')[0]}"
        assert f"Stopped: {shown} is there already and was not made by tripkit" in said.output
        assert "nothing was touched" in said.output
        after = bytes_of(Path("."))
        assert {each: after.get(each) for each in before} == before
        assert not (Path("kits/first-trip") / "pocket.html").exists()


def test_all_that_stands_in_the_way_is_told_at_once(mine: Path) -> None:
    names = ["kits/first-trip", "kits/at-home"]
    for name in names:
        Path(name).mkdir(parents=True)
        (Path(name) / "diary.txt").write_text("mine")
    said = tripkit(*BUILD)
    assert "kits/first-trip and 1 more are there already" in said.output
    assert all(f"{name}\n" in said.output for name in names)


def test_a_kit_of_somebody_else_is_not_built_over(mine: Path, tmp_path: Path) -> None:
    built()
    shutil.move("kits/first-trip", "kits/from-a-friend")
    shutil.copytree("kits/from-a-friend", tmp_path / "out/first-trip")
    before = bytes_of(tmp_path / "out")
    said = tripkit(*BUILD, "--out", str(tmp_path / "out"))
    assert said.exit_code == 1
    assert "first-trip is there already and was not made by tripkit" in said.output
    assert bytes_of(tmp_path / "out") == before


def test_a_file_of_ones_own_in_a_kit_is_kept(mine: Path) -> None:
    built()
    photo = Path("kits/first-trip/photos/camp.jpg")
    photo.parent.mkdir()
    photo.write_text("mine")
    # It is in nobody's way as long as nothing is to be built.
    assert "Nothing changed" in tripkit(*BUILD).output
    retitled(mine, "Another title")
    said = tripkit(*BUILD)
    assert said.exit_code == 1
    assert "Stopped: kits/first-trip/photos is there already and was not made" in said.output
    assert photo.read_text() == "mine"
    photo.parent.rename("photos")
    assert "Built kits/first-trip" in tripkit(*BUILD).output


# -- what was damaged -----------------------------------------------------------------------------


def cut(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:-100])


def flip(path: Path) -> None:
    content = bytearray(path.read_bytes())
    content[len(content) // 2] ^= 1
    path.write_bytes(content)


@pytest.mark.parametrize("name", ["first-trip/kit.json", "first-trip.zip", "index.html"])
@pytest.mark.parametrize("damage", [cut, flip, Path.unlink], ids=["cut", "flipped", "lost"])
def test_damage_is_noticed_and_mended(
    mine: Path, name: str, damage: Callable[[Path], object]
) -> None:
    before = built()
    damage(Path("kits") / name)
    said = tripkit(*BUILD)
    assert said.exit_code == 0, said.output
    assert "Nothing changed" not in said.output
    assert ("Built kits/first-trip" in said.output) is (name != "index.html")
    assert bytes_of(Path("kits")) == before
    assert "Nothing changed" in tripkit(*BUILD).output


def test_force_builds_what_has_not_changed(mine: Path) -> None:
    before = built()
    said = tripkit(*BUILD, "--force")
    assert "Built kits/first-trip" in said.output
    assert bytes_of(Path("kits")) == before


KILLED = """
import os, signal, sys
from builder.cli import main
from builder.site.folder import swap
def killed(out, trip_id):
    for step in swap.swap_steps(out, trip_id)[:int(sys.argv[1])]:
        step()
    os.kill(os.getpid(), signal.SIGKILL)
swap.swap = killed
main(sys.argv[2:])
"""


def killed_after(done: int) -> None:
    died = subprocess.run(
        [sys.executable, "-c", KILLED, str(done), *BUILD],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        check=False,
        capture_output=True,
    )
    assert died.returncode == -9


@pytest.mark.skipif(sys.platform == "win32", reason="SIGKILL is a Unix thing")
@pytest.mark.parametrize("done", range(6))
def test_a_kit_killed_half_way_and_set_back_is_the_old_one_again(mine: Path, done: int) -> None:
    before = built()
    text = (mine / "trips/first-trip.yaml").read_bytes()
    retitled(mine, "Another title")
    killed_after(done)
    (mine / "trips/first-trip.yaml").write_bytes(text)
    said = tripkit(*BUILD)
    assert said.exit_code == 0, said.output
    # Before its first step the old kit still stands, whole.
    assert ("Nothing changed" in said.output) is (done == 0)
    assert bytes_of(Path("kits")) == before


@pytest.mark.skipif(sys.platform == "win32", reason="SIGKILL is a Unix thing")
@pytest.mark.parametrize("command", [("check", "--content", "mine/content"), ("find", "oats")])
def test_every_command_finishes_a_swap_that_was_killed(
    mine: Path, command: tuple[str, ...]
) -> None:
    built()
    retitled(mine, "Another title")
    killed_after(1)
    assert not Path("kits/first-trip").exists()
    assert tripkit(*command).exit_code == 0
    assert "Another title" in Path("kits/first-trip/index.html").read_text("utf-8")
    left = sorted(path.name for path in Path("kits/.built").glob("first-trip*"))
    assert left == ["first-trip.json", "first-trip.lock", "first-trip.plan"]
    # A folder of the same name that is somebody else's is no matter of these commands.
    shutil.move("kits/.built/trip-kits.txt", "kits/.built/mine.txt")
    assert tripkit(*command).exit_code == 0


def test_builds_at_once_leave_a_whole_kit_that_is_known(mine: Path) -> None:
    built()
    for title in ("One", "Two", "Three"):
        shutil.copytree(mine, Path(title) / "content")
        retitled(Path(title) / "content", title)
    running = [
        subprocess.Popen(
            [*TOOL, "build", "--content", f"{title}/content"],
            env={**os.environ, "PYTHONPATH": str(ROOT)},
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        for title in ("One", "Two", "Three")
    ]
    said = [process.communicate(timeout=120) for process in running]
    assert [process.returncode for process in running] == [0, 0, 0], said
    now = json.loads(Path("kits/first-trip/kit.json").read_text("utf-8"))
    assert now["trip"]["title"] in ("One", "Two", "Three")
    retitled(mine, "Four")
    assert "Built kits/first-trip" in tripkit(*BUILD).output
    assert "Nothing changed" in tripkit(*BUILD).output


# -- the same everywhere --------------------------------------------------------------------------


def build_elsewhere(home: Path, tool: Path, content: str, umask: int, **more: str) -> Path:
    """Build the demo as somebody else would, from a folder and with settings of their own."""
    home.mkdir(parents=True)
    shutil.copytree(ROOT / "content", home / content)
    # A file that is not read is warned of, and the warning remembered.
    (home / content / "foods/more.yml").write_text("[]")
    out = home / more.get("out", "kits")
    run = subprocess.run(
        [*TOOL, "build", "--content", str(home / content), "--out", str(out)],
        env={
            **{name: value for name, value in os.environ.items() if not name.startswith("LC_")},
            "PYTHONPATH": str(tool),
            "HOME": str(home),
            "SOURCE_DATE_EPOCH": "1930000000",  # the home is told of as of a day: one for both
            **{name: value for name, value in more.items() if name.isupper()},
        },
        cwd=home if umask else "/",
        umask=umask,
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stderr
    return out


@pytest.mark.skipif(sys.platform == "win32", reason="time zones and umasks are Unix things")
def test_two_machines_give_the_same_bytes_and_no_path_of_theirs(tmp_path: Path) -> None:
    copied = tmp_path / "opt-tripkit"
    for name in ("builder", "content", "site_templates"):
        shutil.copytree(ROOT / name, copied / name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "mkdocs.yml", copied)
    one = build_elsewhere(
        tmp_path / "home-of-one",
        ROOT,
        "trips-of-mine",
        0o022,
        TZ="UTC",
        LANG="C.UTF-8",
        PYTHONHASHSEED="1",
        USER="one",
    )
    two = build_elsewhere(
        tmp_path / "deep/home-of-two/x",
        copied,
        "c",
        0,
        TZ="Asia/Tokyo",
        LANG="de_DE.UTF-8",
        PYTHONHASHSEED="2",
        USER="two",
        out="a/b/c",
    )
    first, second = bytes_of(one), bytes_of(two)
    assert set(first) == set(second)
    assert [name for name in first if first[name] != second[name]] == []
    assert len(first) > 100
    for name, content in [*first.items(), *second.items()]:
        for path in (str(tmp_path), str(ROOT), sys.prefix, "home-of-", "trips-of-mine"):
            assert path.encode() not in content, f"{name} tells {path}"
    # What is said is told with the path all the same.
    place = two.parents[2] / "c"
    again = subprocess.run(
        [*TOOL, "build", "--content", str(place), "--out", str(two)],
        env={**os.environ, "PYTHONPATH": str(copied), "SOURCE_DATE_EPOCH": "1930000000"},
        cwd="/",
        capture_output=True,
        text=True,
        check=False,
    )
    assert "Nothing changed" in again.stdout
    assert f"{place.relative_to('/')}/foods/more.yml:1:1: warning" in again.stderr


def test_a_public_build_remembers_no_warning(mine: Path) -> None:
    (mine / "foods/more.yml").write_text("[]")
    for _ in range(2):
        said = tripkit(*BUILD, "--public")
        assert said.exit_code == 0, said.output
        assert "more.yml:1:1: warning" in said.output
    assert not any(b"more.yml" in content for content in bytes_of(Path("kits-public")).values())


def test_a_public_build_warns_of_a_name_in_what_leaves(mine: Path) -> None:
    (recipe,) = (mine / "recipes").glob("lentil-stew.yaml")
    recipe.write_text(recipe.read_text().replace("name: ", "name: Alder’s ", 1))
    said = tripkit(*BUILD, "--public").output
    assert "warning: Alder stands in 'Alder’s Red lentil" in said
    assert "[name-leaves]" not in tripkit(*BUILD).output


# -- what lies beside the content -----------------------------------------------------------------

MEASURED = """
import re, sys
from pathlib import Path
from builder.cli import main
main(sys.argv[1:], standalone_mode=False)
# Not ru_maxrss: that begins with what the process held that started this one.
print("KB", re.search(r"VmHWM:\\s+(\\d+) kB", Path("/proc/self/status").read_text())[1])
"""


@pytest.mark.skipif(sys.platform != "linux", reason="other systems measure memory otherwise")
def test_large_files_beside_the_content_are_not_read_into_memory(mine: Path) -> None:
    built()
    (mine / "trips/first-trip").mkdir()
    for name in ("film.mp4", "foods/film.mp4", "trips/first-trip/track.yaml", "foods/all.yml"):
        with (mine / name).open("wb") as file:
            file.truncate(300 * 1024 * 1024)
    said = subprocess.run(
        [sys.executable, "-c", MEASURED, *BUILD],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert said.returncode == 0, said.stderr
    used_mb = int(said.stdout.split("KB ")[1]) / 1024
    assert used_mb < 280


def test_only_what_is_read_counts_as_a_change(mine: Path) -> None:
    (mine / "trips/first-trip").mkdir()
    before = state_of_content(mine, ("foods", "trips"))
    for name in ("film.mp4", "foods/list.txt", "trips/first-trip/photos.yaml", "foods/.x.yaml"):
        (mine / name).write_text("x")
        assert state_of_content(mine, ("foods", "trips")) == before
    for name in ("foods/a.yaml", "foods/b.yml", "trips/first-trip/trip.yaml", "food.yaml"):
        (mine / name).write_text("x")
        now = state_of_content(mine, ("foods", "trips"))
        assert now != before
        before = now


def test_a_file_too_large_is_told_without_reading_it_all(mine: Path) -> None:
    with (mine / "foods/huge.yaml").open("wb") as file:
        file.truncate(5 * 1024**3)
    said = tripkit(*BUILD)
    assert said.exit_code == 1
    assert "foods/huge.yaml:1:1: error: the file has more than 2 MB" in said.output


# -- what is said ---------------------------------------------------------------------------------


def test_a_file_that_cannot_be_read_is_not_called_unwritable(
    mine: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = Path.open

    def refuse(path: Path, mode: str = "r", *more: Any, **named: Any) -> Any:
        if path.parts[0] == "mine" and path.name == "my-foods.yaml" and mode == "rb":
            raise PermissionError(13, "Permission denied", str(path))
        return real(path, mode, *more, **named)

    monkeypatch.setattr(Path, "open", refuse)
    said = tripkit(*BUILD)
    assert said.exit_code == 1
    assert (
        "mine/content/foods/my-foods.yaml:1:1: error: this file cannot be read (Permission denied)"
        in said.output
    )
    assert "written" not in said.output
    assert not Path("kits").exists()


@pytest.mark.skipif(sys.platform == "win32", reason="links need rights there")
@pytest.mark.parametrize(
    ("out", "says"),
    [
        ("loop", "loop is a link that leads to no folder"),
        ("dangling", "dangling is a link that leads to no folder"),
        ("into-content", "into-content lies in the content folder"),
        ("notes.txt/kits", "the kit first-trip could not be written: Not a directory"),
        ("a" * 300, "the kit first-trip could not be written: File name too long"),
    ],
)
def test_a_folder_that_cannot_be_is_answered_in_words(mine: Path, out: str, says: str) -> None:
    Path("loop").symlink_to("loop")
    Path("dangling").symlink_to("nowhere")
    Path("into-content").symlink_to(mine / "trips")
    Path("notes.txt").write_text("mine")
    before = bytes_of(Path("."))
    said = tripkit(*BUILD, "--out", out)
    assert said.exit_code == 1
    assert f"Stopped: {says}" in said.output
    assert bytes_of(Path(".")) == before


def test_a_link_to_a_folder_may_hold_the_kits(mine: Path) -> None:
    Path("elsewhere").mkdir()
    Path("kits").symlink_to("elsewhere")
    built()
    assert Path("kits").is_symlink()
    assert "Nothing changed" in tripkit(*BUILD).output


FULL = """
import resource, signal, sys
from builder.cli import main
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[1]), resource.RLIM_INFINITY))
main(sys.argv[2:])
"""


@pytest.mark.skipif(sys.platform == "win32", reason="limits of files are Unix things")
@pytest.mark.parametrize("room", ["0", "20000", "150000"])
def test_where_there_is_no_room_the_old_kit_stays_and_no_path_of_the_build_is_told(
    mine: Path, room: str
) -> None:
    before = built()
    retitled(mine, "Another title")
    said = subprocess.run(
        [sys.executable, "-c", FULL, room, *BUILD],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert said.returncode == 1
    assert "Stopped: the kit first-trip could not be written: File too large (kits)" in said.stderr
    assert "Traceback" not in said.stderr and ".built" not in said.stderr
    assert bytes_of(Path("kits")) == before
    assert "Built kits/first-trip" in tripkit(*BUILD).output


@pytest.mark.skipif(sys.platform == "win32", reason="pipes break otherwise there")
def test_a_reader_who_stops_listening_is_no_fault_of_the_folder(mine: Path) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    said = subprocess.run(
        [*TOOL, *BUILD],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=writing,
        stderr=subprocess.PIPE,
        text=True,
        check=False,
    )
    os.close(writing)
    assert "written" not in said.stderr and "Traceback" not in said.stderr


@pytest.mark.parametrize("kind", ["recipe", "batch", "food", "trip"])
def test_nothing_new_is_called_as_a_device_of_windows(mine: Path, kind: str) -> None:
    before = bytes_of(mine)
    said = tripkit("new", kind, "nul", "--content", "mine/content")
    assert said.exit_code == 1
    assert "'nul' cannot be an id: Windows can have no file of that name" in said.output
    assert bytes_of(mine) == before
