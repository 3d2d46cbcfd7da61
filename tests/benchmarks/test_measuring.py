"""What the benchmark measures is there: it is run seldom, and would break unseen."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from builder.reading.files import ROOMS
from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from tests.benchmarks import measuring, saving

ROOT = Path(__file__).resolve().parents[2]


def test_every_demo_trip_is_written_as_a_plain_project(tmp_path: Path) -> None:
    projects = measuring.plain_sites(tmp_path)
    assert tuple(project.name for project in projects) == measuring.TRIPS
    for project in projects:
        assert (project / "docs" / "index.md").stat().st_size > 1000
        assert "theme" in (project / "mkdocs.yml").read_text("utf-8")


def test_a_shelf_of_many_trips_reads_without_errors(tmp_path: Path) -> None:
    content = measuring.shelf(tmp_path, 4)
    shipped = Layer(ROOT / "content", "shipped", ALWAYS_SHIPPED, vouched=True)
    found = read_folder([shipped, Layer(content, "shelf", ROOMS)])
    assert [each for each in found.problems if each.severity == "error"] == []
    assert len(found.content.trips) == 4


def test_the_shortest_time_counts_and_what_comes_before_it_does_not() -> None:
    done: list[str] = []
    assert measuring.best(lambda: done.append("work"), 2, lambda: done.append("before")) < 1
    assert done == ["before", "work", "before", "work"]


def test_a_save_is_told_to_a_page_of_the_demo(tmp_path: Path) -> None:
    assert len(saving.seconds_until_told(tmp_path, saves=1)) == 1


def test_the_command_of_the_handbook_finds_all_it_imports() -> None:
    script = ROOT / "tests" / "benchmarks" / "run"
    code = f"import sys; sys.argv = ['run']; source = open({str(script)!r}).read(); " + (
        f"exec(source.rpartition('sys.exit')[0], {{'__file__': {str(script)!r}}})"
    )
    subprocess.run([sys.executable, "-c", code], check=True, cwd=ROOT)
