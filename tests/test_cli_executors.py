"""Any executor builds the kits that this machine would, and shares no folder with it."""

from __future__ import annotations

import json
import multiprocessing
import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future, ProcessPoolExecutor, ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

from builder.cli.base import BuilderStop
from builder.cli.executors import build_with
from builder.cli.many import far
from builder.cli.many.elsewhere import content_files
from builder.cli.places import place_of, read_place
from builder.site.errors import SiteError
from builder.site.folder import made
from builder.site.folder.placing import place_kit
from tests.conftest import files_of, tripkit

ROOT = Path(__file__).resolve().parents[1]
TRIPS = ("a-trip", "b-trip", "c-trip")
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT)}


@pytest.fixture
def mine(in_empty_folder: Path) -> Iterator[Path]:
    """Give a folder of a few small trips, and their kits as this machine builds them."""
    assert tripkit("new", "folder", "mine").exit_code == 0
    trips = in_empty_folder / "mine/content/trips"
    text = (trips / "first-trip.yaml").read_text("utf-8")
    for name in TRIPS:
        (trips / f"{name}.yaml").write_text(text.replace("title: ", f"title: {name} "), "utf-8")
    (trips / "first-trip.yaml").unlink()
    built = tripkit("build", "--content", "mine/content", "--out", "here")
    assert built.exit_code == 0, built.output
    yield in_empty_folder / "mine/content"
    far.let_go()


class Forgetful(Executor):
    """Works when it is waited for, the last one first, each time as if for the first time."""

    def __init__(self) -> None:
        self.asked: list[tuple[Any, ...]] = []

    def submit(self, work: Callable[..., Any], /, *given: Any, **more: Any) -> Future[Any]:
        future: Future[Any] = Future()
        self.asked.append((future, work, given))
        # Late enough that all is asked first.
        threading.Timer(0.3, self._work).start()
        return future

    def _work(self) -> None:
        future, work, given = self.asked.pop()
        far.let_go()
        if future.set_running_or_notify_cancel():
            try:
                future.set_result(work(*given))
            except Exception as error:
                future.set_exception(error)


def spawned() -> Executor:
    return ProcessPoolExecutor(2, mp_context=multiprocessing.get_context("spawn"))


@pytest.mark.parametrize(
    "executor", [lambda: ThreadPoolExecutor(2), spawned, Forgetful], ids=["threads", "spawn", "own"]
)
def test_the_kits_are_those_of_this_machine(
    executor: Callable[[], Executor],
    mine: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    with executor() as opened:
        build_with(opened, mine, Path("there"))
        assert files_of(Path("there")) == files_of(Path("here"))
        told = capsys.readouterr().out
        assert [line for line in told.splitlines() if line.startswith("Built")] == [
            *(f"Built there/{name} ({name} First trip)" for name in TRIPS),
            "Built there/at-home (At home)",
        ]
        (mine / "trips/a-trip.yaml").write_text(
            (mine / "trips/a-trip.yaml").read_text("utf-8").replace("title: a", "title: A"), "utf-8"
        )
        build_with(opened, mine, Path("there"))
    told = capsys.readouterr().out
    assert "Built there/a-trip" in told
    assert "Unchanged there/b-trip" in told
    # What was built elsewhere is current here too.
    assert tripkit("build", "--content", "mine/content", "--out", "there").output.startswith(
        "Nothing changed"
    )


def test_a_kit_that_stands_is_not_sent_again(mine: Path) -> None:
    out = Path("here")
    place = place_of(mine)
    folder = read_place(place)
    files = content_files(mine, folder)
    sent: list[Any] = []

    class Noting(ThreadPoolExecutor):
        def submit(self, work: Any, /, *given: Any, **more: Any) -> Future[Any]:
            future = super().submit(work, *given, **more)
            future.add_done_callback(lambda done: sent.append(done.result()))
            return future

    for plan in (out / made.OWN_FOLDER).glob("*.plan"):
        plan.unlink()
    (out / made.OWN_FOLDER / "_last.json").unlink()
    with Noting(1) as executor:
        build_with(executor, mine, out)
    kits = [each for each in sent if isinstance(each, far.FarBuilt)]
    assert [each.zipped for each in kits] == [b""] * 3
    assert not any(each.built.changed for each in kits)
    assert all(isinstance(held, bytes) for held in files.values())
    assert set(files) >= {"trips/a-trip.yaml"}


def test_faults_are_told_before_anything_is_built(
    mine: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    trip = mine / "trips/b-trip.yaml"
    trip.write_text(trip.read_text("utf-8").replace("carries_to", "caries_to"), "utf-8")
    with ThreadPoolExecutor(1) as executor, pytest.raises(SystemExit):
        build_with(executor, mine, Path("there"))
    assert "did you mean carries_to" in capsys.readouterr().err
    assert not Path("there").exists()


def test_a_pool_that_breaks_is_told_in_words(mine: Path) -> None:
    with spawned() as executor:
        os.kill(executor.submit(os.getpid).result(), signal.SIGKILL)
        with pytest.raises(BuilderStop, match="its worker is gone") as stopped:
            build_with(executor, mine, Path("there"))
    assert "nothing was written" in stopped.value.hints[0]
    assert not Path("there").exists()


def test_another_version_of_the_tool_is_refused(
    mine: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(far, "state_of_tool", lambda is_demo: "another")
    with ThreadPoolExecutor(1) as executor, pytest.raises(BuilderStop, match="another version"):
        build_with(executor, mine, Path("there"))
    assert not list(Path().glob("there/*"))


def test_another_date_is_refused_also_where_this_process_was_told_one_before(
    mine: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with spawned() as executor:
        executor.submit(os.getpid).result()
        monkeypatch.setenv("SOURCE_DATE_EPOCH", "1930000000")
        with pytest.raises(BuilderStop, match="told another date"):
            build_with(executor, mine, Path("there"))
        monkeypatch.delenv("SOURCE_DATE_EPOCH")
        build_with(executor, mine, Path("there"))
    assert files_of(Path("there")) == files_of(Path("here"))


@pytest.mark.parametrize("spoil", ["zip", "record", "other"])
def test_a_kit_that_was_damaged_on_its_way_is_not_put_in_place(spoil: str, mine: Path) -> None:
    out = Path("here")
    zipped = (out / "a-trip.zip").read_bytes()
    record = made.record(out, "a-trip").read_text("utf-8")
    before = files_of(out)
    if spoil == "zip":
        zipped = zipped[:3000] + b"x" + zipped[3001:]
    elif spoil == "record":
        record = record[:-5]
    else:
        zipped = (out / "b-trip.zip").read_bytes()
    with pytest.raises(SiteError, match=r"damaged|cannot be unpacked"):
        place_kit(out, "a-trip", zipped, record)
    assert files_of(out) == before


# -- a cluster ------------------------------------------------------------------------------------


@pytest.fixture
def cluster(in_empty_folder: Path) -> Iterator[tuple[str, list[subprocess.Popen[bytes]]]]:
    """Start a scheduler and two workers, each a process of its own; give address and workers."""
    pytest.importorskip("distributed")
    told = in_empty_folder / "scheduler.json"
    run = [sys.executable, "-m", "distributed.cli.dask_scheduler"]
    quiet: dict[str, Any] = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    scheduler = subprocess.Popen(
        [*run, "--host", "127.0.0.1", "--port", "0", "--no-dashboard", "--scheduler-file", told],
        env=ENVIRONMENT, cwd=in_empty_folder, **quiet,
    )  # fmt: skip
    workers: list[subprocess.Popen[bytes]] = []
    try:
        waited(told.exists)
        address = json.loads(told.read_text())["address"]
        for number in range(2):
            folder = in_empty_folder / f"worker-{number}"
            folder.mkdir()
            run = [sys.executable, "-m", "distributed.cli.dask_worker", address]
            workers.append(
                subprocess.Popen(
                    [*run, "--no-nanny", "--nthreads", "1", "--no-dashboard"],
                    env=ENVIRONMENT, cwd=folder, **quiet,
                )
            )  # fmt: skip
        yield address, workers
    finally:
        for process in [*workers, scheduler]:
            process.kill()
            process.wait()


def waited(for_it: Callable[[], object], seconds: float = 120) -> None:
    until = time.monotonic() + seconds
    while not for_it():
        assert time.monotonic() < until, "it never came"
        time.sleep(0.05)


def test_workers_of_a_cluster_build_all_though_one_is_killed(
    mine: Path, cluster: tuple[str, list[subprocess.Popen[bytes]]]
) -> None:
    address, workers = cluster
    text = (mine / "trips/a-trip.yaml").read_text("utf-8")
    assert text.count(", from: carrots-first") == 1
    text = text.replace(", from: carrots-first", "")  # there are not so many packs
    for number in range(8):
        (mine / f"trips/more-{number}.yaml").write_text(text, "utf-8")
    command = [sys.executable, "-m", "builder", "build", "--content", str(mine), "--out", "there"]
    there = Path("there").resolve()
    build = subprocess.Popen(
        [*command, "--cluster", address],
        env=ENVIRONMENT, text=True, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
    )  # fmt: skip
    waited(lambda: list(there.glob("*.zip")) or build.poll() is not None, 300)
    assert build.poll() is None, build.communicate()
    workers[0].kill()
    said, warned = build.communicate(timeout=400)
    assert build.returncode == 0, said + warned
    assert said.count("Built there/") == 12, said + warned
    assert workers[1].poll() is None
    at_once = subprocess.run([*command[:-1], "again"], env=ENVIRONMENT, check=True)
    assert at_once.returncode == 0
    assert files_of(there) == files_of(Path("again"))


def test_without_a_scheduler_it_stops_soon_in_plain_words(mine: Path) -> None:
    pytest.importorskip("distributed")
    began = time.monotonic()
    result = tripkit(
        "build", "--content", str(mine), "--out", "there", "--cluster", "tcp://127.0.0.1:9"
    )
    assert time.monotonic() - began < 30
    assert result.exit_code == 1
    assert "Stopped: no scheduler answers at tcp://127.0.0.1:9" in result.output
    assert "Traceback" not in result.output
    assert not Path("there").exists()


def test_without_the_library_it_is_said_what_to_install(
    mine: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "distributed", None)
    result = tripkit("build", "--content", str(mine), "--out", "there", "--cluster", "tcp://x:1")
    assert result.exit_code == 1
    assert "pip install 'trip-kit-builder[cluster]'" in result.output
    assert not Path("there").exists()
