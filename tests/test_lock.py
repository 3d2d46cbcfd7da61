"""What CI installs is listed whole, each file by its hash, and fits what the project asks for."""

from __future__ import annotations

import re
import tomllib
from importlib.metadata import PackageNotFoundError, requires
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parent.parent
LOCK = (ROOT / ".ci/lock.txt").read_text("utf-8")
# The libraries of an object store are apart: they hold others back at old versions.
LOCKS = {"test": LOCK, "object-store": (ROOT / ".ci/lock-object-store.txt").read_text("utf-8")}
NEW = "run .ci/lock, then read the diff"
_HASH = re.compile(r"--hash=sha256:[0-9a-f]{64}")


def entries_of(text: str) -> list[str]:
    """Give the libraries of a lock, each in one line with its hashes."""
    lines = text.replace("\\\n", " ").splitlines()
    return [line for line in lines if not line.startswith("#")]


def locked(text: str = LOCK) -> dict[str, str]:
    """Give the version of each library that is installed on a system and Python like this one."""
    found = [Requirement(_HASH.sub("", entry)) for entry in entries_of(text)]
    return {
        canonicalize_name(each.name): str(each.specifier).removeprefix("==")
        for each in found
        if each.marker is None or each.marker.evaluate()
    }


def asked(extras: tuple[str, ...]) -> list[Requirement]:
    """Give what the project and some of its extras ask for, extras of extras taken apart."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    told = project["optional-dependencies"]
    waiting = [*project["dependencies"], *(each for name in extras for each in told[name])]
    found = []
    while waiting:
        one = Requirement(waiting.pop())
        if one.name == project["name"]:
            waiting += [each for name in sorted(one.extras) for each in told[name]]
        else:
            found.append(one)
    return found


@pytest.mark.parametrize(
    ("extra", "wanted"), [(extra, each) for extra in LOCKS for each in asked((extra,))], ids=str
)
def test_what_is_asked_for_is_locked_in_a_version_that_will_do(
    extra: str, wanted: Requirement
) -> None:
    version = locked(LOCKS[extra]).get(canonicalize_name(wanted.name))
    assert version is not None, NEW
    assert wanted.specifier.contains(version, prereleases=True), NEW


@pytest.mark.parametrize("name", locked())
def test_what_a_locked_library_needs_is_locked_too(name: str) -> None:
    try:
        needed = [Requirement(each) for each in requires(name) or ()]
    except PackageNotFoundError:
        pytest.skip("not installed here")
    needs = {
        canonicalize_name(each.name)
        for each in needed
        if each.marker is None or each.marker.evaluate({"extra": ""})
    }
    assert needs <= locked().keys(), NEW


@pytest.mark.parametrize("lock", LOCKS.values(), ids=LOCKS)
def test_every_file_is_known_by_its_hash_and_none_by_an_address(lock: str) -> None:
    assert [entry for entry in entries_of(lock) if not _HASH.search(entry)] == []
    assert "://" not in lock


def test_ci_installs_by_the_locks_and_fetches_nothing_after_them() -> None:
    steps = (ROOT / ".ci/run").read_text("utf-8")
    before, after = steps.split("export PIP_NO_INDEX=1 PIP_NO_DEPS=1 PIP_NO_BUILD_ISOLATION=0\n")
    assert re.findall("^.*pip install.*$", before, re.M) == [
        ".venv/bin/pip install --quiet --require-hashes --requirement .ci/lock.txt",
        ".venv-object-store/bin/pip install --quiet --require-hashes "
        "--requirement .ci/lock-object-store.txt",
    ]
    assert re.findall("^.*pip install (.*)$", after, re.M) == ["--quiet --editable ."]
