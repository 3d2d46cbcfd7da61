"""The same input gives the same bytes, wherever and by whom it is built, and with no network."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from builder.starts import start_folder
from tests.conftest import files_of
from tests.test_packaging import ROOT, sources

__all__ = ["sources"]  # a fixture of its tests, of use here too

# Whatever asks for an address in this process fails at once, and says where it was asked.
NO_NETWORK = """
import runpy, socket, sys
def refuse(*asked, **_):
    raise AssertionError(f"asked the network: {asked}")
for name in ("connect", "connect_ex", "sendto", "bind"):
    setattr(socket.socket, name, refuse)
for name in ("create_connection", "getaddrinfo", "gethostbyname"):
    setattr(socket, name, refuse)
sys.argv = ["tripkit", *sys.argv[1:]]
runpy.run_module("builder", run_name="__main__")
"""


def built(folder: Path, *before: str, **environment: str) -> dict[str, bytes]:
    """Start and build a folder in a process and an environment of its own; give its kits."""
    start_folder(folder)
    command = [*before, sys.executable, "-c", NO_NETWORK, "build", "--out", str(folder / "out")]
    done = subprocess.run(
        command,
        cwd=folder,
        capture_output=True,
        text=True,
        check=False,
        env={"PATH": os.environ["PATH"], "PYTHONPATH": str(ROOT), **environment},
    )
    assert done.returncode == 0, done.stdout + done.stderr
    found = files_of(folder / "out")
    return {name: content for name, content in found.items() if ".built" not in name}


def without_network() -> tuple[str, ...]:
    """Give what runs a command in a network of its own, in which nobody is; nothing if it can't."""
    alone = ("unshare", "--map-root-user", "--net")
    if shutil.which(alone[0]) and subprocess.run([*alone, "true"], check=False).returncode == 0:
        return alone
    return ()


def test_another_folder_home_zone_language_and_user_make_the_same_kit_with_no_network(
    tmp_path: Path,
) -> None:
    first = built(
        tmp_path / "a",
        HOME=str(tmp_path),
        TZ="Pacific/Kiritimati",
        LC_ALL="C.UTF-8",
        PYTHONHASHSEED="1",
    )
    second = built(
        tmp_path / "elsewhere, and deeper" / "b",
        *without_network(),
        HOME="/nonexistent",
        TZ="America/Anchorage",
        LC_ALL="C",
        PYTHONHASHSEED="2",
        USER="other",
    )
    assert first.keys() == second.keys() and "first-trip.zip" in first
    assert [name for name, content in first.items() if second[name] != content] == []
    told = [name for name, content in first.items() if str(tmp_path).encode() in content]
    assert told == []


def test_a_question_to_the_network_would_be_seen(tmp_path: Path) -> None:
    asking = NO_NETWORK.replace("runpy.run_module", "socket.create_connection(('x', 1)) #")
    done = subprocess.run(
        [sys.executable, "-c", asking], capture_output=True, text=True, check=False
    )
    assert done.returncode == 1 and "asked the network" in done.stderr


@pytest.mark.parametrize("kind", ["sdist", "wheel"])
def test_packages_are_the_same_from_another_folder_at_another_time(
    kind: str, sources: Path, tmp_path: Path
) -> None:
    other = tmp_path / "another name"
    shutil.copytree(sources, other)
    for file in other.rglob("*"):
        os.utime(file, (1, 1))
    made = []
    for folder, zone in ((sources, "UTC"), (other, "Asia/Kathmandu")):
        into = tmp_path / zone.replace("/", "-")
        subprocess.run(
            [sys.executable, "-m", "hatchling", "build", "-t", kind, "-d", str(into)],
            cwd=folder,
            check=True,
            capture_output=True,
            env={**os.environ, "TZ": zone},
        )
        made.append(files_of(into))
    assert made[0] == made[1] and len(made[0]) == 1
