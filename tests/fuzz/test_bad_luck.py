"""A kill, a full disk, closed folders, two at once, an odd clock: nothing lost, plain words."""

from __future__ import annotations

import errno
import os
import random
import resource
import subprocess
import sys
from pathlib import Path

import pytest

from builder.site.folder import made
from tests.conftest import files_of, tripkit
from tests.fuzz import kills

KILLS = 6


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, float]:
    return kills.start(tmp_path_factory.mktemp("kills") / "mine")


def test_a_kill_at_any_moment_leaves_a_whole_kit(built: tuple[Path, float]) -> None:
    folder, takes_s = built
    rng = random.Random(1)
    faults = [
        kills.fault_after_kill(folder, number, rng.uniform(0, takes_s))
        for number in range(1, KILLS + 1)
    ]
    assert faults == [""] * KILLS


def whole(folder: Path) -> bool:
    told = made.made_of(folder / "kits", kills.TRIP)
    return told is not None and made.is_whole(folder / "kits", kills.TRIP, told)


def test_a_disk_that_takes_no_large_file_leaves_the_old_kit(built: tuple[Path, float]) -> None:
    folder, _ = built
    before = files_of(folder / "kits" / kills.TRIP)
    kills.change(folder, 900)
    done = subprocess.run(
        [sys.executable, "-m", "builder", "build", kills.TRIP],
        cwd=folder,
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONPATH": str(kills.ROOT), "PYTHONDONTWRITEBYTECODE": "1"},
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000)),
    )
    assert done.returncode == 1 and "Traceback" not in done.stderr
    assert "Stopped: " in done.stderr and "too large" in done.stderr.lower()
    assert files_of(folder / "kits" / kills.TRIP) == before and whole(folder)


def test_a_full_disk_is_said_and_leaves_the_old_kit(
    built: tuple[Path, float], monkeypatch: pytest.MonkeyPatch
) -> None:
    folder, _ = built
    before = files_of(folder / "kits" / kills.TRIP)
    kills.change(folder, 901)
    monkeypatch.chdir(folder)

    def full(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), "kits/.built/x")

    with monkeypatch.context() as patch:
        patch.setattr("builder.site.folder.archive.zip_folder", full)
        said = tripkit("build", kills.TRIP)
    assert said.exit_code == 1 and "No space left" in said.output
    assert files_of(folder / "kits" / kills.TRIP) == before and whole(folder)


def test_two_builds_at_once_both_end_well(built: tuple[Path, float]) -> None:
    folder, _ = built
    kills.change(folder, 902)
    running = [kills.build(folder), kills.build(folder)]
    said = [each.communicate()[0] for each in running]
    assert [each.returncode for each in running] == [0, 0], said
    assert whole(folder)


def test_a_clock_that_jumps_back_loses_nothing(
    built: tuple[Path, float], monkeypatch: pytest.MonkeyPatch
) -> None:
    folder, _ = built
    monkeypatch.chdir(folder)
    for epoch in ("1944000000", "1900000000", "0", "253370764799", ""):
        monkeypatch.setenv("SOURCE_DATE_EPOCH", epoch)
        said = tripkit("build")
        assert said.exit_code == 0, said.output
        assert whole(folder)


@pytest.mark.parametrize(
    "epoch",
    ["now", "-1", "1e9", "1.5", " 1", "99999999999999", "9" * 5000, "²", "١٢", "2031-01-01"],
)
def test_a_nonsense_date_is_refused_in_words(
    in_empty_folder: Path, epoch: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", epoch)
    said = tripkit("check")
    assert said.exit_code == 1 and said.output.startswith("Stopped: SOURCE_DATE_EPOCH is ")
    assert "seconds since 1970" in said.output and len(said.output) < 200
    assert list(in_empty_folder.iterdir()) == []


@pytest.mark.parametrize(
    "name", ["", " ", "\u200b", "\ufeff", "\u2060\u200d", "\u00a0", "\t", "\u3164", "\u0301"]
)
@pytest.mark.parametrize("field", ["title: First trip", "name: Alder"])
def test_a_name_of_nothing_is_refused_in_words(
    built: tuple[Path, float], name: str, field: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder, _ = built
    monkeypatch.chdir(folder)
    trip = folder / "content/trips/first-trip.yaml"
    before = trip.read_text("utf-8")
    key = field.split(":")[0]
    old = next(line for line in before.splitlines() if f"{key}: " in line and "#" not in line[:1])
    value = old.split(f"{key}: ", 1)[1].split(",")[0]
    told = before.replace(f"{key}: {value}", f'{key}: "{name}"', 1)
    assert told != before
    try:
        trip.write_text(told, "utf-8")
        said = tripkit("check")
    finally:
        trip.write_text(before, "utf-8")
    assert said.exit_code == 1, said.output
    assert "first-trip.yaml:" in said.output and "Traceback" not in said.output


@pytest.mark.skipif(os.geteuid() == 0, reason="to root no folder is closed")
def test_a_folder_that_may_not_be_written_is_said(in_empty_folder: Path) -> None:
    (in_empty_folder / "kits").mkdir(mode=0o555)
    said = tripkit("build")
    assert said.exit_code == 1 and "Permission denied" in said.output
