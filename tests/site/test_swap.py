"""A kit is swapped in whole, whatever happens in between."""

from __future__ import annotations

import contextlib
import subprocess
import sys
from pathlib import Path

import pytest

from builder.site.errors import SiteError
from builder.site.folder import made, swap

STEP_COUNT = 5
KILLED_AFTER = """
import os, signal, sys
from pathlib import Path
from builder.site.folder.swap import kit_lock, swap_steps
out, count = Path(sys.argv[1]), int(sys.argv[2])
with kit_lock(out, "fell"):
    for step in swap_steps(out, "fell")[:count]:
        step()
    os.kill(os.getpid(), signal.SIGKILL)
"""


def remember(out: Path, kit: Path, zipped: Path, target: Path, age: str) -> None:
    made.claim(out)
    made.write_made(target, made.describe(kit, zipped, f"from {age}"))


def write_kit(out: Path, age: str) -> None:
    (out / "fell").mkdir(parents=True)
    for name in ("index.html", "kit.json"):
        (out / "fell" / name).write_text(age)
    (out / "fell.zip").write_text(f"zip of {age}")
    remember(out, out / "fell", out / "fell.zip", made.record(out, "fell"), age)


def write_new(out: Path) -> None:
    made.claim(out)
    new, zipped = swap.new_folder(out, "fell"), swap.new_zip(out, "fell")
    new.mkdir()
    for name in ("index.html", "kit.json", "new-page.html"):
        (new / name).write_text("new")
    zipped.write_text("zip of new")
    remember(out, new, zipped, swap.new_record(out, "fell"), "new")


def ages(out: Path) -> set[str]:
    """Give how old folder, zip and record are; each must be of one age, whole."""
    files = [out / "fell" / "index.html", out / "fell" / "kit.json", out / "fell.zip"]
    told = made.made_of(out, "fell")
    assert told is not None
    found = {file.read_text().removeprefix("zip of ") for file in files}
    if made.is_whole(out, "fell", told):
        found.add(told.made_from.removeprefix("from "))
    else:
        found.add("not what was remembered")
    return found


def left_over(out: Path) -> list[str]:
    own = [path for path in (out / made.OWN_FOLDER).iterdir() if path.suffix != ".lock"]
    kept = ("fell", "fell.zip", made.OWN_FOLDER, made.MARK_NAME, "fell.json")
    return sorted(path.name for path in [*out.iterdir(), *own] if path.name not in kept)


def test_the_number_of_steps_is_the_one_tried_below(tmp_path: Path) -> None:
    assert len(swap.swap_steps(tmp_path, "fell")) == STEP_COUNT


def test_a_swap_puts_the_new_kit_in_place_and_leaves_nothing_behind(tmp_path: Path) -> None:
    write_kit(tmp_path, "old")
    write_new(tmp_path)
    swap.swap(tmp_path, "fell")
    assert ages(tmp_path) == {"new"}
    assert left_over(tmp_path) == []


@pytest.mark.skipif(sys.platform == "win32", reason="SIGKILL is a Unix thing")
@pytest.mark.parametrize("had_old", [True, False], ids=["second build", "first build"])
@pytest.mark.parametrize("done", range(STEP_COUNT + 1))
def test_a_kill_after_any_step_leaves_one_whole_kit(
    tmp_path: Path, done: int, had_old: bool
) -> None:
    if had_old:
        write_kit(tmp_path, "old")
    write_new(tmp_path)
    died = subprocess.run(
        [sys.executable, "-c", KILLED_AFTER, str(tmp_path), str(done)],
        cwd=Path(__file__).resolve().parents[2],
        check=False,
    )
    assert died.returncode == -9
    swap.recover(tmp_path)
    assert left_over(tmp_path) == []
    began = done >= 1 if had_old else done >= 2
    if began or had_old:
        assert ages(tmp_path) == {"new" if began else "old"}
    else:
        assert not (tmp_path / "fell").exists()
        assert not (tmp_path / "fell.zip").exists()
        assert made.made_of(tmp_path, "fell") is None


@pytest.mark.parametrize("done", range(STEP_COUNT + 1))
@pytest.mark.parametrize("interrupted", ["rename", "replace", "remove"])
def test_a_recovery_that_is_itself_interrupted_can_be_done_again(
    tmp_path: Path, done: int, interrupted: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_kit(tmp_path, "old")
    write_new(tmp_path)
    for step in swap.swap_steps(tmp_path, "fell")[:done]:
        step()

    def die(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patched:
        if interrupted == "rename":
            patched.setattr(Path, "rename", die)
        elif interrupted == "replace":
            patched.setattr("builder.site.folder.swap.os.replace", die)
        else:
            patched.setattr("builder.site.folder.swap.shutil.rmtree", die)
        with contextlib.suppress(KeyboardInterrupt):
            swap.recover(tmp_path)
    swap.recover(tmp_path)
    assert left_over(tmp_path) == []
    assert ages(tmp_path) == {"old" if done == 0 else "new"}


def test_a_build_killed_while_writing_leaves_the_old_kit(tmp_path: Path) -> None:
    write_kit(tmp_path, "old")
    swap.work_folder(tmp_path, "fell").mkdir()
    half = swap.new_folder(tmp_path, "fell")
    half.mkdir()
    (half / "index.html").write_text("half")
    swap.recover(tmp_path)
    assert ages(tmp_path) == {"old"}
    assert left_over(tmp_path) == []


def test_recovery_leaves_a_kit_alone_that_is_being_built(tmp_path: Path) -> None:
    write_kit(tmp_path, "old")
    write_new(tmp_path)
    with swap.kit_lock(tmp_path, "fell"):
        swap.recover(tmp_path)
        assert swap.new_folder(tmp_path, "fell").exists()
    swap.recover(tmp_path)
    assert not swap.new_folder(tmp_path, "fell").exists()


def test_recovery_of_a_folder_that_is_not_there_does_nothing(tmp_path: Path) -> None:
    swap.recover(tmp_path / "kits")
    assert not (tmp_path / "kits").exists()


def test_recovery_touches_nothing_else_in_the_folder(tmp_path: Path) -> None:
    made.claim(tmp_path)
    foreign = [".fell.new", ".fell.old", ".fell.work", ".fell.zip.new", ".git", ".hidden", "notes"]
    for name in foreign:
        (tmp_path / name).mkdir()
        (tmp_path / name / "mine.txt").write_text("mine")
    swap.recover(tmp_path)
    assert all((tmp_path / name / "mine.txt").read_text() == "mine" for name in foreign)


def test_a_second_build_of_the_same_kit_is_refused_with_a_reason(tmp_path: Path) -> None:
    with (
        swap.kit_lock(tmp_path, "fell"),
        pytest.raises(SiteError, match="another build is writing the kit fell"),
        swap.kit_lock(tmp_path, "fell", wait_s=0.1),
    ):
        pytest.fail("the lock was given twice")


def test_two_kits_can_be_built_at_once(tmp_path: Path) -> None:
    with swap.kit_lock(tmp_path, "fell"), swap.kit_lock(tmp_path, "tarn", wait_s=0):
        assert (tmp_path / made.OWN_FOLDER / "tarn.lock").exists()


def test_a_build_waits_for_another_one_and_asks_again_in_between(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    slept: list[float] = []
    with contextlib.ExitStack() as other:
        other.enter_context(swap.kit_lock(tmp_path, "fell"))

        def sleep(seconds: float) -> None:
            slept.append(seconds)
            if len(slept) == 3:
                other.close()

        monkeypatch.setattr("builder.site.folder.swap.time.sleep", sleep)
        with swap.kit_lock(tmp_path, "fell"):
            assert slept == [swap.LOCK_POLL_S] * 3


def test_the_first_kit_of_a_name_is_put_in_place_too(tmp_path: Path) -> None:
    write_new(tmp_path)
    swap.swap(tmp_path, "fell")
    assert ages(tmp_path) == {"new"}
    assert left_over(tmp_path) == []


@pytest.mark.parametrize("ending", swap.LEFTOVERS)
def test_each_thing_that_a_killed_build_leaves_is_cleared_away(tmp_path: Path, ending: str) -> None:
    write_kit(tmp_path, "old")
    left = tmp_path / made.OWN_FOLDER / f"fell{ending}"
    if ending == ".zip":
        left.write_text("zip of old")
    else:
        left.mkdir()
    swap.recover(tmp_path)
    assert not left.exists()
    assert left_over(tmp_path) == []
    assert ages(tmp_path) == {"old"}


def test_a_kit_that_never_was_is_not_current(tmp_path: Path) -> None:
    assert not swap.is_current(tmp_path, "fell", "from old")


def test_of_a_link_the_link_is_removed_and_not_what_it_leads_to(tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "notes").write_text("mine")
    (tmp_path / "link").symlink_to(tmp_path / "mine")
    swap.remove(tmp_path / "link")
    assert [each.name for each in tmp_path.iterdir()] == ["mine"]
    assert (tmp_path / "mine" / "notes").read_text() == "mine"


def test_an_old_kit_that_stands_aside_alone_goes_back(tmp_path: Path) -> None:
    write_kit(tmp_path, "old")
    (tmp_path / "fell").rename(swap.old_folder(tmp_path, "fell"))
    swap.recover(tmp_path)
    assert ages(tmp_path) == {"old"}
    assert left_over(tmp_path) == []


@pytest.mark.parametrize("done", [3, 4])
def test_a_kit_killed_about_its_record_is_not_taken_for_the_old_one(
    tmp_path: Path, done: int
) -> None:
    """Between the swap of the zip and that of the record, and just after it."""
    write_kit(tmp_path, "old")
    write_new(tmp_path)
    for step in swap.swap_steps(tmp_path, "fell")[:done]:
        step()
    assert not swap.is_current(tmp_path, "fell", "from old")
    swap.recover(tmp_path)
    assert not swap.is_current(tmp_path, "fell", "from old")
    assert swap.is_current(tmp_path, "fell", "from new")


def test_a_swap_is_not_finished_over_a_zip_that_came_in_between(tmp_path: Path) -> None:
    write_kit(tmp_path, "old")
    write_new(tmp_path)
    for step in swap.swap_steps(tmp_path, "fell")[:2]:
        step()
    (tmp_path / "fell.zip").write_text("my own, and longer than any other")
    swap.recover(tmp_path)
    assert (tmp_path / "fell.zip").read_text() == "my own, and longer than any other"
    assert left_over(tmp_path) == []
    with pytest.raises(SiteError, match=r"fell\.zip is there already and was not made by tripkit"):
        made.refuse_foreign(tmp_path, "fell")


def test_the_list_of_kits_has_a_lock_with_its_own_name(tmp_path: Path) -> None:
    with (
        swap.kit_lock(tmp_path, swap.INDEX),
        pytest.raises(SiteError, match="another build is writing the list of kits"),
        swap.kit_lock(tmp_path, swap.INDEX, wait_s=0.1),
    ):
        pytest.fail("the lock was given twice")
