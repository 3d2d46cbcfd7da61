"""What many tests look at: the demo kits, built once; and the option that accepts golden files."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli import main
from builder.reading.text.yaml_door import Memory, remembering
from builder.shipped import shipped_root


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--rewrite-golden", action="store_true", help="write golden files anew; read the diff"
    )


@pytest.fixture(scope="session")
def files_read() -> Iterator[Memory]:
    """Remember what a file says that one test after another reads, as `preview` does."""
    with remembering() as memory:
        yield memory


@pytest.fixture(autouse=True)
def _next_test(files_read: Memory) -> None:
    """Let go of what neither this test nor the one before it read."""
    files_read.next_round()


@pytest.fixture
def rewrite_golden(request: pytest.FixtureRequest) -> bool:
    return bool(request.config.getoption("--rewrite-golden", default=False))


def tripkit(*arguments: str) -> Result:
    """Run a command as a person would."""
    return CliRunner().invoke(main, list(arguments))


def files_of(folder: Path) -> dict[str, bytes]:
    """Give every file below a folder by its path in there."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


@pytest.fixture(scope="session")
def demo_kits(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give the folder with the demo kits."""
    out = tmp_path_factory.mktemp("demo") / "kits"
    result = tripkit("build", "--out", str(out))
    assert result.exit_code == 0, result.output
    return out


def demo_in(language: str, folder: Path) -> Path:
    """Build the demo in a language, its home too, and give the folder with the kits."""
    shutil.copytree(shipped_root() / "content", folder / "content")
    for told in (*(folder / "content" / "trips").glob("*.yaml"), folder / "content" / "home.yaml"):
        told.write_text(f"{told.read_text('utf-8')}\nlanguage: {language}\n", "utf-8")
    out = folder / "kits"
    result = tripkit("build", "--content", str(folder / "content"), "--out", str(out))
    assert result.exit_code == 0, result.output
    return out


@pytest.fixture
def on_a_day_in_march(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let today be 2031-03-14, noon."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1931256000")


@pytest.fixture
def in_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """Work in a folder of its own, as a newcomer does."""
    monkeypatch.chdir(tmp_path)
    yield tmp_path
