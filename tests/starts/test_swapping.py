"""A file is changed whole or not at all, and by one at a time."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from builder.starts import StartError, swapping
from builder.starts.swapping import refuse_links, swap_in


def test_a_file_is_swapped_and_keeps_its_rights(tmp_path: Path) -> None:
    path = tmp_path / "log.yaml"
    path.write_bytes(b"old")
    path.chmod(0o640)
    swap_in(path, b"old", b"new")
    assert path.read_bytes() == b"new" and path.stat().st_mode & 0o777 == 0o640
    assert os.listdir(tmp_path) == ["log.yaml"]


def test_a_new_file_is_never_written_over_another(tmp_path: Path) -> None:
    path = tmp_path / "a" / "log.yaml"
    swap_in(path, None, b"new")
    assert path.read_bytes() == b"new"
    with pytest.raises(StartError, match="is there already"):
        swap_in(path, None, b"newer")
    assert path.read_bytes() == b"new"


def test_somebody_elses_change_stays(tmp_path: Path) -> None:
    path = tmp_path / "log.yaml"
    path.write_bytes(b"changed")
    with pytest.raises(StartError, match="was changed by somebody else"):
        swap_in(path, b"old", b"new")
    assert path.read_bytes() == b"changed" and os.listdir(tmp_path) == ["log.yaml"]


def test_a_lock_is_waited_for_and_one_left_behind_is_not(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(swapping, "WAIT_S", 0.1)
    path, lock = tmp_path / "log.yaml", tmp_path / ".log.yaml.lock"
    path.write_bytes(b"old")
    lock.touch()
    with pytest.raises(StartError, match="another command is writing"):
        swap_in(path, b"old", b"new")
    assert path.read_bytes() == b"old" and lock.exists()
    long_ago = lock.stat().st_mtime - 2 * swapping.LEFT_BEHIND_S
    os.utime(lock, (long_ago, long_ago))
    swap_in(path, b"old", b"new")
    assert path.read_bytes() == b"new" and os.listdir(tmp_path) == ["log.yaml"]


def test_a_full_disk_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "log.yaml"
    path.write_bytes(b"old")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(StartError, match="No space left on device"):
        swap_in(path, b"old", b"new")
    assert path.read_bytes() == b"old" and os.listdir(tmp_path) == ["log.yaml"]


def test_links_are_refused_below_the_folder_but_not_above(tmp_path: Path) -> None:
    (tmp_path / "real" / "batches").mkdir(parents=True)
    (tmp_path / "mine").symlink_to(tmp_path / "real")
    (tmp_path / "real" / "linked").symlink_to(tmp_path / "real" / "batches")
    refuse_links(tmp_path / "mine", tmp_path / "mine" / "batches" / "log.yaml")
    with pytest.raises(StartError, match="linked is a link"):
        refuse_links(tmp_path / "mine", tmp_path / "mine" / "linked" / "log.yaml")
