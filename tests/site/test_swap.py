"""A kit is swapped in whole, whatever happens in between."""

from __future__ import annotations

import contextlib
import subprocess
import sys
from pathlib import Path

import pytest

from builder.site import swap
from builder.site.errors import SiteError

STEP_COUNT = 4
KILLED_AFTER = """
import os, signal, sys
from pathlib import Path
from builder.site.swap import kit_lock, swap_steps
out, count = Path(sys.argv[1]), int(sys.argv[2])
with kit_lock(out, "fell"):
    for step in swap_steps(out, "fell")[:count]:
        step()
    os.kill(os.getpid(), signal.SIGKILL)
"""


def write_kit(out: Path, age: str) -> None:
    (out / "fell").mkdir(parents=True)
    for name in ("index.html", "kit.json"):
        (out / "fell" / name).write_text(age)
    (out / "fell.zip").write_text(age)


def write_new(out: Path) -> None:
    new = swap.new_folder(out, "fell")
    new.mkdir(parents=True)
    for name in ("index.html", "kit.json"):
        (new / name).write_text("new")
    swap.new_zip(out, "fell").write_text("new")


def ages(out: Path) -> set[str]:
    files = [out / "fell" / "index.html", out / "fell" / "kit.json", out / "fell.zip"]
    return {file.read_text() for file in files}


def left_over(out: Path) -> list[str]:
    return sorted(p.name for p in out.iterdir() if p.name not in ("fell", "fell.zip", ".fell.lock"))


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
            patched.setattr("builder.site.swap.os.replace", die)
        else:
            patched.setattr("builder.site.swap.shutil.rmtree", die)
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
    for name in (".hidden", "notes.txt", ".git"):
        (tmp_path / name).mkdir()
    swap.recover(tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == [".git", ".hidden", "notes.txt"]


def test_a_second_build_of_the_same_kit_is_refused_with_a_reason(tmp_path: Path) -> None:
    with (
        swap.kit_lock(tmp_path, "fell"),
        pytest.raises(SiteError, match="another build is writing the kit fell"),
        swap.kit_lock(tmp_path, "fell", wait_s=0.1),
    ):
        pytest.fail("the lock was given twice")


def test_two_kits_can_be_built_at_once(tmp_path: Path) -> None:
    with swap.kit_lock(tmp_path, "fell"), swap.kit_lock(tmp_path, "tarn", wait_s=0):
        assert (tmp_path / ".tarn.lock").exists()
