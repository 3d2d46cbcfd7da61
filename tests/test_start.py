"""What a build of one trip has no use for is not loaded for it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
# Each takes its time to load; whoever needs one imports it where the errand begins that does.
UNNEEDED = (
    "builder.pages.home.book",
    "builder.planning.filling",
    "builder.planning.finding",
    "builder.planning.home",
    "builder.planning.runs",
    "builder.planning.ways",
    "builder.planning.year",
    "builder.preview",
    "builder.site.sealing",
    "builder.starts",
    "PIL.McIdasImagePlugin",  # stands for all formats of pictures but ours
    "cryptography",
    "icalendar",
    "numpy",
    "pint",
    "scipy",
)
_BUILD = """
import json, sys
from builder.cli import main
main(["build", "tarrow-tops", "--out", sys.argv[1]], standalone_mode=False)
print(json.dumps(sorted(sys.modules)))
"""


@pytest.fixture(scope="module")
def loaded(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    """Give what a process has loaded that built one trip of the demo."""
    folder = tmp_path_factory.mktemp("one")
    done = subprocess.run(
        [sys.executable, "-c", _BUILD, str(folder / "kits")],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        check=True,
        capture_output=True,
        text=True,
    )
    assert (folder / "kits/tarrow-tops/index.html").is_file()
    return set(json.loads(done.stdout.splitlines()[-1]))


@pytest.mark.parametrize("name", UNNEEDED)
def test_a_build_of_one_trip_does_not_load(name: str, loaded: set[str]) -> None:
    assert name not in loaded


def test_it_loads_what_it_needs(loaded: set[str]) -> None:
    assert {"builder.planning.kit", "builder.pages.trip.book", "mkdocs", "PIL"} <= loaded
