"""Many trips are planned and built by several processes, and one that is killed loses one kit."""

from __future__ import annotations

import os
import shutil
import signal
import time
from collections.abc import Sequence
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from click.testing import CliRunner, Result

from builder.cli import main
from builder.cli.many import trips as trips_module
from builder.cli.many.bench import Bench, Told
from builder.cli.many.crew import Alone, Crew, Lost, Pooled
from builder.cli.many.forked import Forked
from builder.model.home import AT_HOME
from builder.model.since import OldKit
from builder.problems import ProblemsFound
from builder.site.build import Built, build_kit
from builder.site.errors import SiteError
from tests.conftest import files_of

ROOT = Path(__file__).resolve().parents[1]


class FakeBench:
    """Does next to nothing, and notes in which process; one trip may be planned or built oddly."""

    def __init__(self, folder: Path, odd: str = "", how: Any = None, when: str = "build") -> None:
        self.folder, self.odd, self.how, self.when = folder, odd, how, when
        self.wanted = SimpleNamespace(generator="mkdocs")

    def plan(self, trip_id: str) -> Told:
        self._note("plan", trip_id)
        time.sleep(0.1)
        return Told(trip_id, ())

    def build(self, trip_id: str, since: OldKit | None) -> Built:
        self._note("build", trip_id)
        time.sleep(0.1)
        return Built(trip_id, str(since), True, (), "")

    def _note(self, what: str, trip_id: str) -> None:
        (self.folder / f"{what}-{trip_id}").write_text(str(os.getpid()))
        if trip_id == self.odd and what == self.when:
            self.how()

    def by(self, what: str) -> dict[str, int]:
        """Give which process planned or built each trip."""
        files = self.folder.glob(f"{what}-*")
        return {file.name.removeprefix(f"{what}-"): int(file.read_text()) for file in files}


def killed() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def forked(bench: Any, names: Sequence[str], workers: int = 2) -> list[Any]:
    """Plan and build with forked hands; give what came of the building, in order."""
    with Forked(bench, workers, len(names)) as crew:
        told = list(crew.plan(names))
        assert sorted(told) == [Told(name, ()) for name in sorted(names)]
        return sorted(crew.build(names, None, None), key=lambda each: each.trip_id)


def test_each_builds_what_it_planned_and_nothing_here(tmp_path: Path) -> None:
    names = [f"trip-{number}" for number in range(6)]
    bench = FakeBench(tmp_path)
    assert [each.trip_id for each in forked(bench, names)] == names
    assert len({*bench.by("plan").values()}) == 2
    assert bench.by("build").keys() == bench.by("plan").keys()
    elsewhere = [name for name in names if bench.by("build")[name] != bench.by("plan")[name]]
    # On a busy machine one may come to nothing but its first for a while.
    assert len(elsewhere) <= 2, "only who has nothing left takes over from another"
    assert os.getpid() not in bench.by("build").values()


def test_one_that_is_killed_loses_the_kit_it_was_at_and_no_other(tmp_path: Path) -> None:
    names = [f"trip-{number}" for number in range(6)]
    found = forked(FakeBench(tmp_path, "trip-2", killed), names)
    assert found[2] == Lost("trip-2", "its process was killed (SIGKILL)")
    assert [each.trip_id for each in found if isinstance(each, Built)] == [*names[:2], *names[3:]]


def test_where_all_are_killed_the_rest_is_told_of(tmp_path: Path) -> None:
    bench = FakeBench(tmp_path)
    bench._note = lambda what, trip_id: killed() if what == "build" else None  # type: ignore[method-assign]
    found = forked(bench, ["a", "b", "c", "d"])
    assert [type(each) for each in found] == [Lost] * 4
    assert [each.why for each in found].count("no process is left to build it") == 2


def test_one_that_is_killed_while_it_plans_is_told_of(tmp_path: Path) -> None:
    with Forked(FakeBench(tmp_path, "b", killed, "plan"), 2, 3) as crew:  # type: ignore[arg-type]
        told = sorted(crew.plan(["a", "b", "c"]))
    assert told[1] == Lost("b", "its process was killed (SIGKILL)")
    assert [type(each) for each in told] == [Told, Lost, Told]


@pytest.mark.parametrize(
    "error",
    [
        SiteError("the disk is full", ["make room"]),
        OSError(28, "No space left on device", "kits/a"),
        ProblemsFound([]),
        type("Unheard", (Exception,), {})("what nobody can send on"),
    ],
)
def test_what_stops_one_kit_stops_the_others_after_those_at_work(
    error: Exception, tmp_path: Path
) -> None:
    def stop() -> None:
        raise error

    names = [f"trip-{number}" for number in range(9)]
    bench: Any = FakeBench(tmp_path, "trip-0", stop)
    found: list[object] = []
    with Forked(bench, 2, len(names)) as crew:
        list(crew.plan(names))
        with pytest.raises(Exception, match=r".") as raised:
            found.extend(crew.build(names, None, None))
    assert str(error) in str(raised.value)
    if isinstance(error, SiteError):
        assert raised.value.hints == error.hints  # type: ignore[attr-defined]
    assert len(found) <= 2 and "trip-8" not in bench.by("build")


@pytest.mark.parametrize("takes_s", [0.0, 0.25])
def test_the_home_is_built_beside_the_trips_and_takes_none_of_them(
    takes_s: float, tmp_path: Path
) -> None:
    names = [f"trip-{number}" for number in range(6)]
    bench: Any = FakeBench(tmp_path)

    def home() -> Built:
        bench._note("build", AT_HOME)
        time.sleep(takes_s)
        return Built(AT_HOME, "", True, (), "")

    with Forked(bench, 2, len(names)) as crew:
        list(crew.plan(names))
        found = list(crew.build(names, None, home))
    assert sorted(each.trip_id for each in found) == sorted([AT_HOME, *names])
    assert [each for each in found if isinstance(each, Lost)] == []
    built_by = bench.by("build")
    assert built_by.pop(AT_HOME) not in {os.getpid(), *built_by.values()}


def test_a_home_that_is_killed_loses_no_trip(tmp_path: Path) -> None:
    bench: Any = FakeBench(tmp_path)
    with Forked(bench, 2, 2) as crew:
        list(crew.plan(["a", "b"]))
        found = sorted(crew.build(["a", "b"], None, killed), key=lambda each: each.trip_id)  # type: ignore[arg-type]
    assert [type(each) for each in found] == [Built, Lost, Built]
    assert found[1] == Lost(AT_HOME, "its process was killed (SIGKILL)")


def test_the_kit_that_the_companions_have_is_sent_to_its_own_trip_alone(tmp_path: Path) -> None:
    old = OldKit("b", "", (), (), (), ())
    bench: Any = FakeBench(tmp_path)
    with Forked(bench, 2, 2) as crew:
        list(crew.plan(["a", "b"]))
        found = {each.trip_id: each for each in crew.build(["a", "b"], old, None)}
    assert [found[name].title for name in "ab"] == ["None", str(old)]  # type: ignore[union-attr]


def test_nobody_is_left_behind_when_the_work_is_broken_off(tmp_path: Path) -> None:
    bench: Any = FakeBench(tmp_path, "a", lambda: time.sleep(60))
    with pytest.raises(KeyboardInterrupt), Forked(bench, 2, 2) as crew:
        list(crew.plan(["a", "b"]))
        for _ in crew.build(["a", "b"], None, None):
            raise KeyboardInterrupt
    assert not any(hand.process.is_alive() for hand in crew.hands)


# -- as one calls it ------------------------------------------------------------------------------


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Give a folder of three trips."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("builder.cli.many.trips.cores", lambda: 2)
    for room in ("trips", "recipes", "batches"):
        shutil.copytree(ROOT / "content" / room, tmp_path / "content" / room)
    (tmp_path / "content/trips/graupel-ridge.yaml").unlink()
    return tmp_path


def build(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["build", *arguments])


def of(crew: type[Alone]) -> Any:
    def hire(bench: Bench, trips: int, with_home: bool) -> Crew:
        return Pooled(bench, 2) if crew is Pooled else Alone(bench)

    return hire


def test_who_builds_makes_no_difference(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    forked = build("--out", "forked")
    assert forked.exit_code == 0, forked.output
    for name, crew in (("alone", Alone), ("pooled", Pooled)):
        monkeypatch.setattr(trips_module, "usual_crew", of(crew))
        other = build("--out", name)
        assert other.output == forked.output.replace("forked", name)
        assert files_of(folder / name) == files_of(folder / "forked")


def test_a_killed_process_is_told_and_the_rest_stands(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def at_risk(order: Any) -> Built:
        if order.kit.id == "rindle-fen":
            killed()
        return build_kit(order)

    with monkeypatch.context() as patch:
        patch.setattr("builder.cli.many.bench.build_kit", at_risk)
        # Tests before may have left a thread that waits for nothing.
        patch.setattr(trips_module, "can_fork", lambda: True)
        result = build("--jobs", "2")
    assert result.exit_code == 1
    assert "Stopped: 1 kit not built, rindle-fen: its process was killed (SIGKILL)" in result.output
    assert "Built kits/lake-emmerin" in result.output
    assert "Built kits/tarrow-tops" in result.output
    listed = (folder / "kits/index.html").read_text("utf-8")
    assert "tarrow-tops/index.html" in listed and "rindle-fen" not in listed
    again = build("--jobs", "1")
    assert again.exit_code == 0, again.output
    assert "Unchanged kits/lake-emmerin" in again.output
    assert "Built kits/rindle-fen" in again.output


def test_a_fault_in_one_trip_stops_all_before_anything_is_written(folder: Path) -> None:
    trip = folder / "content/trips/rindle-fen.yaml"
    trip.write_text(trip.read_text("utf-8").replace("carries_to: ", "caries_to: ", 1), "utf-8")
    one, two = build("--jobs", "1"), build("--jobs", "2")
    assert one.exit_code == two.exit_code == 1
    assert one.output == two.output and "caries_to" in two.output
    assert not (folder / "kits").exists()
