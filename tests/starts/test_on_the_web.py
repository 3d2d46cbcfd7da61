"""A new folder publishes itself on two usual hosts: pinned, by its own lock, and --public only."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest
import yaml
from packaging.utils import canonicalize_name

from builder.starts import start_folder
from tests.conftest import files_of
from tests.test_lock import LOCK, asked, entries_of, locked

HOSTS = (".github/workflows/kits.yml", ".gitlab-ci.yml")


@pytest.fixture(scope="module")
def started(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("started") / "my-trips"
    start_folder(folder)
    return folder


def commands(started: Path, host: str) -> list[str]:
    """Give what a host runs, in order."""
    told = yaml.safe_load((started / host).read_text("utf-8"))
    if "jobs" in told:
        return [step["run"] for step in told["jobs"]["build"]["steps"] if "run" in step]
    return list(told["pages"]["script"])


def test_both_hosts_do_the_same(started: Path) -> None:
    first, second = (commands(started, host) for host in HOSTS)
    assert first == second


@pytest.mark.parametrize("host", HOSTS)
def test_what_is_published_is_public_and_installed_by_the_lock(started: Path, host: str) -> None:
    install, tool, check, build = commands(started, host)
    assert "--require-hashes --requirement requirements.txt" in install
    assert "--no-index --no-deps" in tool
    assert (check, build) == ("tripkit check", "tripkit build --public --out public")


@pytest.mark.parametrize("host", HOSTS)
def test_what_others_made_is_named_by_its_whole_hash(started: Path, host: str) -> None:
    text = (started / host).read_text("utf-8")
    named = re.findall(r"^ *(?:- )?(?:uses|image): (\S+)", text, re.MULTILINE)
    assert named
    assert all(re.search(r"@(sha256:[0-9a-f]{64}|[0-9a-f]{40})$", each) for each in named)


def test_the_new_folder_lists_what_the_tool_needs_just_as_ci_has_it(started: Path) -> None:
    text = (started / "requirements.txt").read_text("utf-8")
    assert set(entries_of(text)) < set(entries_of(LOCK))
    assert {canonicalize_name(each.name) for each in asked(extras=())} <= locked(text).keys()


def test_the_commands_build_a_folder_that_a_host_can_show(
    started: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(started)
    for command in commands(started, HOSTS[0])[2:]:
        told = subprocess.run(
            [sys.executable, "-m", "builder", *command.split()[1:]],
            capture_output=True,
            text=True,
            check=False,
            env={"PYTHONPATH": str(Path(__file__).parents[2]), "PATH": "/usr/bin:/bin"},
        )
        assert told.returncode == 0, told.stdout + told.stderr
    published = files_of(started / "public")
    assert "index.html" in published and "first-trip/index.html" in published
    trip = (started / "content/trips/first-trip.yaml").read_text("utf-8")
    names = re.findall(r"name: (\w+), ", trip)
    assert names
    for name in names:
        assert not [path for path, content in published.items() if name.encode() in content]
