"""Long work shows how far it is on a terminal, and nowhere else."""

from __future__ import annotations

import fcntl
import os
import pty
import re
import struct
import subprocess
import sys
import termios
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from builder.cli.many import trips
from builder.cli.many.wanted import Wanted
from builder.cli.progress import Bar, progress
from builder.site.build import Built

ROOT = Path(__file__).resolve().parent.parent
COLOUR = re.compile(r"\x1b\[[0-9;]*m")
# Says at the end whether the library that draws bars was loaded.
RUN = "import sys; from builder.cli import main; main({arguments}, standalone_mode=False); {then}"
TELL = "print('rich' in sys.modules)"


def on_terminal(
    folder: Path, *arguments: str, term: str = "xterm", **environment: str
) -> tuple[str, str]:
    """Run a command whose error output is a terminal; give what is shown there, and the output."""
    master, slave = pty.openpty()
    fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 100, 0, 0))
    clean = {
        name: value
        for name, value in os.environ.items()
        if name not in ("NO_COLOR", "FORCE_COLOR", "COLUMNS", "LINES")
    }
    process = subprocess.Popen(
        [sys.executable, "-c", RUN.format(arguments=list(arguments), then=TELL)],
        stdout=subprocess.PIPE,
        stderr=slave,
        cwd=folder,
        env={**clean, "PYTHONPATH": str(ROOT), "TERM": term, **environment},
    )
    os.close(slave)
    shown = b""
    while True:
        try:
            read = os.read(master, 65536)
        except OSError:  # the other end is closed
            break
        if not read:
            break
        shown += read
    os.close(master)
    output = process.communicate()[0].decode("utf-8")
    assert process.returncode == 0, shown.decode("utf-8")
    return shown.decode("utf-8"), output


@pytest.mark.parametrize(("jobs", "environment"), [("1", {}), ("2", {"NO_COLOR": "1"})])
def test_a_long_build_shows_each_kit_done_and_the_time_left(
    jobs: str, environment: dict[str, str], tmp_path: Path
) -> None:
    shown, output = on_terminal(tmp_path, "build", "--jobs", jobs, **environment)
    for done in range(5):
        assert f"{done}/4" in shown
    assert "Building kits" in shown and "left" in shown
    assert bool(COLOUR.search(shown)) is not bool(environment)
    assert shown.rstrip().endswith("\x1b[2K"), "in the end the bar is gone"
    lines = output.splitlines()
    assert [line.split()[:2] for line in lines[:4]] == [
        ["Built", "kits/graupel-ridge"],
        ["Built", "kits/lake-emmerin"],
        ["Built", "kits/rindle-fen"],
        ["Built", "kits/tarrow-tops"],
    ]
    assert "Building" not in output and "\x1b" not in output


def test_a_dumb_terminal_and_short_work_show_no_bar(tmp_path: Path) -> None:
    for arguments, term in ((("build",), "dumb"), (("check",), "xterm")):
        shown, output = on_terminal(tmp_path, *arguments, term=term)
        assert "\x1b" not in shown and "/4" not in shown
        assert output.splitlines()[-1] == "False", "the library is not loaded for nothing"


def test_in_a_pipe_nothing_is_shown(tmp_path: Path) -> None:
    result = subprocess.run(
        [sys.executable, "-c", RUN.format(arguments=["build"], then=TELL)],
        capture_output=True,
        text=True,
        check=True,
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(ROOT), "TERM": "xterm"},
    )
    assert "Building" not in result.stderr + result.stdout
    assert "\x1b" not in result.stderr + result.stdout
    assert result.stdout.splitlines()[-1] == "False"


def test_a_bar_that_is_not_shown_asks_nothing_of_the_work(
    capsys: pytest.CaptureFixture[str],
) -> None:
    with progress("Doing", 5, least=3) as bar:
        bar.step()
        with bar.aside():
            print("said")
    assert capsys.readouterr() == ("said\n", "")


class _Counted(Bar):
    steps = 0

    def step(self) -> None:
        _Counted.steps += 1


class _LastFirst:
    """Builds what comes last first."""

    def build(self, names: Sequence[str], *_: object) -> Iterator[Built]:
        for name in reversed(names):
            yield Built(name, name.upper(), True, (), f"of {name}")


def test_kits_are_told_in_their_order_whichever_is_done_first(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    @contextmanager
    def counted(what: str, total: int, least: int) -> Iterator[Bar]:
        yield _Counted()

    monkeypatch.setattr(trips, "progress", counted)
    ready: Any = SimpleNamespace(crew=_LastFirst(), names=("a", "b", "c"), kept=(), since=None)
    ready.home, ready.bench = None, SimpleNamespace(wanted=Wanted(Path("kits")))
    assert trips.build_all(ready) == ({"a": "of a", "b": "of b", "c": "of c"}, None)
    assert _Counted.steps == 3
    told = capsys.readouterr().out.splitlines()
    assert told == ["Built kits/a (A)", "Built kits/b (B)", "Built kits/c (C)"]
