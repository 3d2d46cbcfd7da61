"""The program installed as people install it: wheel, wheel from sdist, editable; from elsewhere."""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
import venv
from pathlib import Path

import pytest

from tests.readme_commands import blocks

ROOT = Path(__file__).resolve().parent.parent
TRIPS = ("graupel-ridge", "lake-emmerin", "rindle-fen", "tarrow-tops")


def run(*command: str | Path, cwd: Path) -> str:
    result = subprocess.run(
        [str(part) for part in command], cwd=cwd, capture_output=True, text=True, check=False
    )
    assert result.returncode == 0, result.stdout + result.stderr
    return result.stdout


@pytest.fixture(scope="module")
def sources(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give a copy of what git knows, so that nothing left lying about gets into a package."""
    copy = tmp_path_factory.mktemp("sources") / "project"
    copy.mkdir()
    names = run("git", "ls-files", "--cached", "--others", "--exclude-standard", cwd=ROOT)
    for name in names.splitlines():
        if (ROOT / name).is_file():
            (copy / name).parent.mkdir(parents=True, exist_ok=True)
            (copy / name).write_bytes((ROOT / name).read_bytes())
    return copy


def environment(folder: Path) -> Path:
    """Make an environment that sees the libraries of this one, and give its Python."""
    venv.create(folder, with_pip=True)
    python = folder / "bin" / "python"
    site = run(
        python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))", cwd=folder
    ).strip()
    own = {sysconfig.get_path("purelib"), sysconfig.get_path("platlib")}
    (Path(site) / "libraries.pth").write_text("\n".join(sorted(own)) + "\n")
    return python


def wheel(source: Path, into: Path) -> Path:
    run(
        sys.executable,
        "-m",
        "pip",
        "wheel",
        "--no-deps",
        "--no-build-isolation",
        "--quiet",
        "-w",
        into,
        source,
        cwd=into,
    )
    (built,) = into.glob("*.whl")
    return built


@pytest.mark.parametrize("how", ["wheel", "sdist", "editable"])
def test_it_builds_its_demo_from_an_empty_folder(how: str, sources: Path, tmp_path: Path) -> None:
    packages, empty = tmp_path / "packages", tmp_path / "empty"
    packages.mkdir()
    empty.mkdir()
    python = environment(tmp_path / "env")
    if how == "editable":
        what: tuple[str | Path, ...] = ("--editable", sources)
    elif how == "wheel":
        what = (wheel(sources, packages),)
    else:
        run(sys.executable, "-m", "hatchling", "build", "-t", "sdist", "-d", packages, cwd=sources)
        (sdist,) = packages.glob("*.tar.gz")
        what = (wheel(sdist, packages),)
    run(python, "-m", "pip", "install", "--no-deps", "--quiet", *what, cwd=empty)
    said = run(tmp_path / "env" / "bin" / "tripkit", "build", cwd=empty)
    assert "Open kits/index.html" in said
    assert all((empty / "kits" / trip / "index.html").is_file() for trip in TRIPS)
    where = run(python, "-c", "import builder; print(builder.__file__)", cwd=empty)
    assert str(tmp_path if how != "editable" else sources) in where


def test_the_readmes_blocks_work_as_they_are_pasted_one_after_the_other(sources: Path) -> None:
    # No network: an environment of this name is there already and sees the libraries of this one.
    environment(sources / ".venv")
    start, _, *rest = blocks((ROOT / "README.md").read_text("utf-8"))
    pasted = "\n".join((start, *rest, "command -v tripkit"))
    # To pip a "no" with 0 is a no all the same: what is built is built with what is there.
    offline = {"PIP_NO_DEPS": "1", "PIP_NO_BUILD_ISOLATION": "0", "PIP_NO_INDEX": "1"}
    path = f"{Path(sys.executable).parent}:{os.environ['PATH']}"
    result = subprocess.run(
        ["sh", "-e", "-c", pasted],
        cwd=sources,
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, **offline, "PATH": path},
    )
    assert result.returncode == 0, result.stdout + result.stderr
    assert "Next: cd my-trips && tripkit build" in result.stdout
    assert (sources / "my-trips/kits/first-trip/index.html").is_file()
    assert result.stdout.splitlines()[-1] == str(sources / ".venv/bin/tripkit")
    # Without it on the path the whole path is told.
    bare = {**os.environ, "PATH": "/usr/bin:/bin"}
    told = subprocess.run(
        [".venv/bin/tripkit", "new", "folder", "other trips"],
        cwd=sources,
        env=bare,
        capture_output=True,
        text=True,
        check=True,
    )
    assert f"Next: cd 'other trips' && {sources}/.venv/bin/tripkit build" in told.stdout
