"""What many tests look at: the demo kits, built once."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli import main


def tripkit(*arguments: str) -> Result:
    """Run a command as a person would."""
    return CliRunner().invoke(main, list(arguments))


@pytest.fixture(scope="session")
def demo_kits(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give the folder with the three demo kits."""
    out = tmp_path_factory.mktemp("demo") / "kits"
    result = tripkit("build", "--out", str(out))
    assert result.exit_code == 0, result.output
    return out


@pytest.fixture
def in_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """Work in a folder of its own, as a newcomer does."""
    monkeypatch.chdir(tmp_path)
    yield tmp_path
